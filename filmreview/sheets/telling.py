"""From findings to the hand-over: every value put into the words of the sheet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

import filmreview
from filmreview.cautions import ALL
from filmreview.colour.value import Colour
from filmreview.errors import unknown
from filmreview.film.moment import format_time
from filmreview.review.films import place_of
from filmreview.review.game_time import place_at
from filmreview.review.model import CrewResponse, PlacedTag, Reply, Review
from filmreview.review.own_calls import check_all_shown
from filmreview.review.ruled import Finding, Findings, deciding_facts, todo_words
from filmreview.rules.need_words import need_words
from filmreview.rules.penalty import Penalty
from filmreview.rules.procedures.laid_down import title_of
from filmreview.rules.procedures.missing_words import missing_words
from filmreview.rules.procedures.result import Departure as BookDeparture
from filmreview.rules.procedures.result import ProcedureResult
from filmreview.rules.ruling import Choice as TeamChoice
from filmreview.rules.ruling import Ruling, Rulings
from filmreview.rules.todo_words import hangs_on
from filmreview.sheets import sheet_words as words
from filmreview.sheets.handover import (
    COORDINATOR,
    CREW,
    READERS,
    Ahead,
    Charge,
    Choice,
    Cited,
    Departure,
    HandOver,
    Line,
    Procedure,
)
from filmreview.sheets.keys import finding_key
from filmreview.sheets.letters import letters, official_words
from filmreview.sheets.pictures import PictureSource

_READER_CAUTIONS: Mapping[str, tuple[str, ...]] = {
    COORDINATOR: ("This sheet is for the coordinator: notes, replies and pictures are whole. Make another for the crew.",),
    CREW: (
        "This sheet is for the crew: notes and replies are left out, and pictures are blurred but for the marked region. Look"
        " at each picture, and read what was typed of the crew, before it leaves the house.",
    ),
}


def hand_over(found: Findings, pictures: PictureSource | None = None, made_for: str = COORDINATOR) -> HandOver:
    """The hand-over of all findings. pictures: None for a sheet without any. made_for: one of READERS.

    Raises FilmReviewError for another reader, and while rulings are hidden from the official who reviews himself.
    """
    check_reader(made_for)
    check_all_shown(found.review)
    review, rulings = _with_films_where_they_are(found.review), found.rulings
    lines = tuple(_line(review, one, number) for number, one in enumerate(_in_film_order(found), 1))
    if made_for == CREW:
        lines = tuple(replace(line, note="", replies=()) for line in lines)
    return HandOver(
        game=review.game,
        book=rulings.book.title,
        edition=rulings.edition,
        adoption=rulings.adoption.title if rulings.adoption else "",
        films=review.films,
        lines=lines,
        counts=Counter((line.ruling, line.crew_mark) for line in lines),
        charges=tuple(_charge(review, one) for one in rulings.penalties),
        choices=tuple(_choices(review, rulings)),
        cited=_cited(found, lines),
        cautions=(*ALL, *_own_cautions(lines), *_READER_CAUTIONS[made_for]),
        program=f"filmreview {filmreview.__version__}",
        procedure=_procedure(review, found.procedure, rulings.book.code),
        disputed=found.disputed,
        pictures=pictures,
        letters=letters(review.game.crew, lines, {one.position: one.words for one in review.letters}),
        made_for=made_for,
    )


def _with_films_where_they_are(review: Review) -> Review:
    """The same review for a sheet that leads to its films: each by the path it has now, or had."""
    return replace(review, films=tuple(replace(film, path=str(place_of(review, film))) for film in review.films))


def check_reader(made_for: str) -> str:
    """The reader as given; raises FilmReviewError for one that no sheet is made for."""
    if made_for not in READERS:
        raise unknown("reader", made_for, READERS)
    return made_for


def _in_film_order(found: Findings) -> list[Finding]:
    films = [film.id for film in found.review.films]
    return sorted(found, key=lambda one: (films.index(one.film.id), one.seconds, int(one.tag.id[1:])))


def _line(review: Review, finding: Finding, number: int) -> Line:
    tag, ruling, crew = finding.tag, finding.ruling, finding.tag.crew
    return Line(
        number=number,
        tag=tag.id,
        film=review.film(finding.film.id),
        moment=tag.moment,
        seconds=finding.seconds,
        time=finding.time,
        side=tag.team,
        team=review.game.team(tag.team).name,
        player=tag.player,
        item=tag.item,
        region=tag.region,
        seen=words.facts_words(tag.facts),
        ruling=ruling.ruling,
        reasons=tuple(ruling.reasons),
        consequence=ruling.consequence,
        todo=todo_words(ruling, tag),
        rule=ruling.rule,
        reference=ruling.reference,
        edition=ruling.edition,
        adoption=ruling.adoption or "",
        source=ruling.source,
        mark=ruling.mark,
        asks=tuple(need_words(need, (ruling.ruling, ruling.consequence)) for need in ruling.needs),
        ahead=tuple(Ahead(f"{one.reference}: {one.says}", words.day_words(one.starts), one.ruling) for one in ruling.ahead),
        earlier=_earlier_words(finding),
        crew_mark=crew.mark if crew else words.NOT_MARKED,
        crew_time=_crew_time(review, tag, crew),
        did=crew.did if crew else "",
        could_have_done=finding.could_have_done,
        note=tag.note,
        colours=_colours(tag),
        official=_official(review, tag),
        replies=tuple(_reply_words(one) for one in review.replies_to(tag.id)),
        key=finding_key(finding.film, tag),
        hangs_on=_hangs_on(ruling, tag),
    )


def _hangs_on(ruling: Ruling, tag: PlacedTag) -> str:
    in_play = deciding_facts(tag.facts).get("in_play")
    return hangs_on(ruling.todo, in_play is not None and in_play.value is True)


def _official(review: Review, tag: PlacedTag) -> str:
    tied = review.official_of(tag.id)
    return official_words(review.game.crew, tied.position) if tied else ""


def _reply_words(reply: Reply) -> str:
    """ "umpire: seen otherwise - it was black"."""
    said = " - ".join(part for part in (reply.answer, reply.words) if part)
    return f"{reply.by or 'crew'}: {said}"


def _colours(tag: PlacedTag) -> tuple[Colour, ...]:
    fact = deciding_facts(tag.facts).get("colour")
    return fact.value if fact is not None and isinstance(fact.value, tuple) else ()


def _earlier_words(finding: Finding) -> str:
    one = finding.earlier
    if one is None:
        return ""
    follows = words.follows_words(one.ruling, one.consequence) or words.CONSEQUENCES[one.consequence]
    ruled = ", ".join(dict.fromkeys((one.ruling, follows)))
    return f"filmreview {one.program} on {one.at[:10]}: {ruled} ({one.reference})"


def _crew_time(review: Review, tag: PlacedTag, crew: CrewResponse | None) -> str:
    if crew is None or crew.moment is None:
        return ""
    film = review.film(crew.film or tag.film)
    time = film.time_text(crew.moment)
    return time if film.id == tag.film else f"{time} of {film.name}"


def _charge(review: Review, one: Penalty) -> Charge:
    return Charge(
        review.game.team(one.team).name, one.kind, one.count, one.charged_to, one.free_throws, one.coaching_box or "",
        one.then, one.reference, one.source, one.mark, one.players,
    )  # fmt: skip


def _choices(review: Review, rulings: Rulings) -> Iterable[Choice]:
    titles = {rule.code: rule.title for rule in (*rulings.book.rules, *(rulings.adoption.rules if rulings.adoption else ()))}
    for one in rulings.choices:
        yield from _options(review.game.team(one.team).name, titles.get(one.rule, one.rule), one)


def _options(team: str, rule: str, choice: TeamChoice) -> Iterable[Choice]:
    if not choice.options:
        yield Choice(team, rule, "none of the colours worn may stay", (), False)
    for place, option in enumerate(choice.options):
        yield Choice(team, rule, option.keep, option.change, place == 0)


def _procedure(review: Review, result: ProcedureResult | None, book: str) -> Procedure | None:
    if result is None:
        return None
    departures = tuple(_departure(review, one) for one in result.departures)
    missing = tuple(missing_words(one) for one in result.missing) + ((result.gap,) if result.gap else ())
    named = (*result.names, *(one.procedure for one in result.departures))
    titles = {name: title_of(book, name) for name in named}
    return Procedure(result.names, result.path, result.ruling, departures, missing, result.reference, result.edition, titles)


def _departure(review: Review, one: BookDeparture) -> Departure:
    film, seconds = place_at(review, one.at)
    over = "" if one.seconds is None else f"{float(one.seconds):.1f} s"
    return Departure(
        one.procedure, film.name, format_time(seconds), one.what, one.asks, over, one.reference, one.source, one.mark
    )


def _cited(found: Findings, lines: Sequence[Line]) -> tuple[Cited, ...]:
    """The deciding rules, each once, in the order of their references."""
    by_tag: dict[str, Ruling] = {one.tag.id: one.ruling for one in found}
    numbers: dict[str, list[int]] = {}
    cited: dict[str, Cited] = {}
    for line in lines:
        ruling = by_tag[line.tag]
        answer = next((one for one in ruling.rules if one.rule == line.rule), None)
        if answer is not None:
            numbers.setdefault(line.rule, []).append(line.number)
            cited[line.rule] = Cited(
                line.rule, answer.title, line.reference, line.edition, answer.says, line.source, line.mark,
                tuple(numbers[line.rule]),
            )  # fmt: skip
    return tuple(sorted(cited.values(), key=lambda one: one.reference))


def _own_cautions(lines: Sequence[Line]) -> Iterable[str]:
    """What this sheet in particular rests on."""
    unsure = [line.number for line in lines if line.mark not in ("published", "")]
    if unsure:
        yield f"{_numbers(unsure)}: the ruling rests on a text not marked as published here; look it up before using it."
    open_lines = [line.number for line in lines if line.ruling == "cannot be told"]
    if open_lines:
        yield f"{_numbers(open_lines)}: this film cannot tell; nothing follows from it."
    earlier = [line.number for line in lines if line.earlier]
    if earlier:
        yield f"{_numbers(earlier)}: an earlier version of the program ruled otherwise on the same facts; both are given."


def _numbers(numbers: Sequence[int]) -> str:
    return "No " + ", ".join(str(number) for number in numbers)
