"""Situations without film as questions: each thing seen in a situation file can be asked, with all its facts told.

The plan of a lesson keeps the file's text, so that the lesson can be made again when the file has gone.
"""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path

from filmreview.cautions import caution_for
from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment
from filmreview.lessons.answers_said import answer_of, setting_words, told_words
from filmreview.lessons.plan import AskSituation
from filmreview.lessons.question import Question, question_words, who_words
from filmreview.review.model import PlacedTag
from filmreview.review.ruled import todo_words
from filmreview.rules.situation import Situation, read_situation, rule_situation
from filmreview.rules.tag import Tag
from filmreview.sheets.inert import one_line

_NOWHERE = Moment(0, Fraction(1))


def situations_to_ask(path: Path) -> tuple[AskSituation, ...]:
    """One for each thing seen in a situation file, in its order.

    Raises FilmReviewError in one line for a file that cannot be read, is no situation, or shows nothing.
    """
    situation = read_situation(path)
    if not situation.setting.tags:
        raise FilmReviewError("nothing is seen in this situation", where=str(path), todo="add a [[seen]] to ask about")
    text = path.read_text(encoding="utf-8-sig")
    return tuple(AskSituation(str(path.absolute()), text, tag.id) for tag in situation.setting.tags)


def question_of_situation(ask: AskSituation) -> Question:
    """The question of one thing seen; raises FilmReviewError when the kept text is no situation any more."""
    situation = _read(ask)
    tag = next((one for one in situation.setting.tags if one.id == ask.seen), None)
    if tag is None:
        raise FilmReviewError(f'nothing by the id "{ask.seen}" is seen', where=ask.path, todo="choose the situation anew")
    ruled = rule_situation(situation)
    ruling = next(one for one in ruled.rulings.rulings if one.id == tag.id)
    who = who_words(tag.team, tag.player or None)
    kit = {side: facts.facts for side, facts in situation.setting.teams.items()}
    return Question(
        id=f"s-{hashlib.sha256(ask.text.encode()).hexdigest()[:8]}-{one_line(tag.id)[:40]}",
        who=who,
        item=tag.item,
        asked=question_words(who, tag.item),
        told=(*told_words(tag.facts.values()), *_others(situation, tag)),
        setting=setting_words(ruled.rulings, situation.day, kit),
        answer=answer_of(ruling, todo_words(ruling, _placed(tag)), ruled.rulings, case=situation.title),
        caution=caution_for(tag.item, tag.facts.values()),
    )


def _read(ask: AskSituation) -> Situation:
    """The situation as kept. Where the file still holds that text it is read in its place, since an adoption may lie beside."""
    path = Path(ask.path)
    try:
        if path.read_text(encoding="utf-8-sig") == ask.text:
            return read_situation(path)
    except (OSError, UnicodeDecodeError):
        pass  # it has gone or changed; the kept text serves
    with tempfile.TemporaryDirectory(prefix="filmreview-") as folder:
        copy = Path(folder) / (path.name or "situation.toml")
        copy.write_text(ask.text, encoding="utf-8")
        return read_situation(copy)


def _others(situation: Situation, tag: Tag) -> Iterable[str]:
    """What else was seen, since rules look at a whole team; and what happened, with its time."""
    for other in situation.setting.tags:
        if other.id != tag.id:
            facts = ", ".join(told_words(other.facts.values()))
            yield f"also seen: {who_words(other.team, other.player or None)}, {other.item}" + (f" ({facts})" if facts else "")
    for event in situation.setting.events:
        who = f", {who_words(event.team, event.player)}" if event.team and event.player else f", {event.team or ''}"
        yield f"happened: {event.what}{who.removesuffix(', ')}"


def _placed(tag: Tag) -> PlacedTag:
    """The same thing seen as `todo_words` takes it; a situation has no film and no moment."""
    return PlacedTag(tag.id, "", _NOWHERE, tag.team, tag.player or None, tag.item, None, tuple(tag.facts.values()))
