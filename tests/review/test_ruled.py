"""Findings: the review's tags judged by the book of the day, and the rulings kept."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

import filmreview
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.review import store
from filmreview.review.changes import AddEvent, EditGame, EditTag, SetCrew
from filmreview.review.game_time import place_at
from filmreview.review.model import CrewResponse
from filmreview.review.reading import read
from filmreview.review.ruled import Findings, could_have_done, deciding_facts, findings, keep, rules_event, todo_words
from filmreview.review.store import Store
from tests.review.small_game import a_film, a_game, a_tag, moment


def fact(key: str, text: str, origin: Origin = Origin.SEEN) -> Fact:
    return Fact(key, parse_value(key, text), origin)


PLAYED = fact("in_play", "yes")


def ruling_words(found: Findings) -> dict[str, tuple[str, str]]:
    return {one.tag.id: (one.ruling.ruling, one.ruling.consequence) for one in found}


def test_tags_are_judged_by_the_book_of_the_day(kept: Store) -> None:
    """A headband of 2 1/2 in: to be put right in January 2019, legal in January 2020 (situation 35 of the books' facts:
    NFHS basketball rules interpretations and press release for 2019-20)."""
    kept.apply(a_tag(item="headband", facts=(fact("width_in", "2.5"), fact("colour", "black"), PLAYED)))
    kept.apply(EditGame(a_game(day=date(2019, 1, 15))))
    assert ruling_words(findings(kept.review)) == {"t1": ("illegal", "fix or leave")}
    kept.apply(EditGame(a_game(day=date(2020, 1, 15))))
    found = findings(kept.review)
    assert ruling_words(found) == {"t1": ("legal", "none")}
    assert found.rulings.edition == "2019-20"


def test_declared_kit_and_teammates_count(kept: Store) -> None:
    """An orange sleeve with a green jersey: fix or leave (worked example of the situation format). Players 6, 7 and 8 of one
    team, each of an illegal number, bring one technical foul in total (situation 9 of the books' facts: 10-5-4 as quoted in
    2016)."""
    kept.apply(EditGame(a_game(day=date(2023, 12, 5))))
    kept.apply(a_tag(facts=(fact("colour", "orange"), PLAYED)))
    for number in ("6", "7", "8"):
        kept.apply(a_tag(team="home", player=number, item="number", facts=(fact("number", number), PLAYED)))
    found = findings(kept.review)
    assert ruling_words(found) == {
        "t1": ("illegal", "fix or leave"),
        **{f"t{number}": ("illegal", "technical foul") for number in (2, 3, 4)},
    }
    assert [(one.team, one.count, one.charged_to) for one in found.rulings.penalties] == [("home", 1, "head coach")]
    assert "green" in found.of("t1").ruling.reasons[0]


def test_what_the_eye_saw_overrules_what_was_measured_and_both_stay(kept: Store) -> None:
    measured, seen = fact("colour", "orange", Origin.MEASURED), fact("colour", "black")
    declared = fact("colour", "white", Origin.DECLARED)
    for facts in ((measured, seen, declared), (seen, declared, measured), (declared, measured, seen)):
        assert deciding_facts(facts) == {"colour": seen}
    assert deciding_facts((measured, declared)) == {"colour": measured}
    later = fact("colour", "white")
    assert deciding_facts((seen, measured, later)) == {"colour": later}
    kept.apply(a_tag(facts=(measured, PLAYED)))
    kept.apply(a_tag(player="15", facts=(measured, seen, PLAYED)))
    assert [one.ruling.ruling for one in findings(kept.review)] == ["illegal", "legal"]
    assert kept.review.tag("t2").facts == (measured, seen, PLAYED)


def test_a_finding_knows_its_time_and_what_the_crew_could_have_done(kept: Store) -> None:
    kept.apply(a_tag("61.25", facts=(fact("colour", "orange"), PLAYED)))
    (one,) = findings(kept.review)
    assert (one.time, one.seconds, one.film.id, one.crew) == ("1:01.250", Fraction("61.25"), "f1", None)
    assert one.could_have_done == todo_words(one.ruling, one.tag)
    assert "while the ball is dead" in one.could_have_done
    assert "before the game" not in one.could_have_done, "the player is in the game already"
    not_yet = replace(one.tag, facts=(fact("colour", "orange"),))
    assert todo_words(one.ruling, not_yet).startswith("before the game")
    marks = {"late": True, "wrong consequence": True, "wrong procedure": True, "not seen": True}
    marks |= {"as the book asks": False, "nothing to do": False, "cannot be told": False}
    for mark, some in marks.items():
        kept.apply(SetCrew("t1", CrewResponse(mark)))
        (one,) = findings(kept.review)
        assert bool(one.could_have_done) is some, mark


def test_a_crew_that_penalised_what_is_legal_could_have_let_it_be(kept: Store) -> None:
    kept.apply(a_tag(facts=(fact("colour", "black"), PLAYED), crew=CrewResponse("wrong consequence")))
    (one,) = findings(kept.review)
    assert (one.ruling.ruling, one.could_have_done) == ("legal", "nothing was to be done: the book allows it")
    assert could_have_done(one.ruling, replace(one.tag, crew=CrewResponse("nothing to do"))) == ""


def test_a_player_whose_number_was_not_read_is_judged_too(kept: Store) -> None:
    kept.apply(a_tag(player=None, facts=(fact("colour", "orange"), PLAYED)))
    assert ruling_words(findings(kept.review)) == {"t1": ("illegal", "fix or leave")}


def test_an_unknown_book_or_adoption_is_said(kept: Store) -> None:
    kept.apply(a_tag())
    kept.apply(EditGame(a_game(book="nfsh")))
    with pytest.raises(FilmReviewError, match=r'game.filmreview: unknown book "nfsh"; write "nfhs"'):
        findings(kept.review)
    kept.apply(EditGame(a_game(adoption="no-such")))
    with pytest.raises(FilmReviewError, match='unknown adoption "no-such"'):
        findings(kept.review)


def test_events_go_to_the_procedures_as_they_are(kept: Store) -> None:
    kept.apply(AddEvent("f1", moment("31"), "time-out granted", "home", length=60))
    kept.apply(AddEvent("f1", moment("32.5"), "foul charged", "home", kind="technical", charged_to="head coach"))
    kept.apply(AddEvent("f1", moment("33"), "book number changed", "home", "10", before_start=Fraction(480)))
    first, second, third = (rules_event(kept.review, event) for event in kept.review.events)
    assert (first.at, first.what, first.team, first.length) == (31, "time-out granted", "home", 60)
    assert (second.at, second.kind, second.charged_to) == (Fraction("32.5"), "technical", "head coach")
    assert (third.player, third.before_start) == ("10", 480)


def test_what_happened_is_laid_beside_the_book(kept: Store) -> None:
    """A player sent out for blood who comes back in the same dead ball with no time-out of the own team: a departure (trade
    rule: NFHS 3-3-7, as the procedure states it). Times go on through the second film."""
    kept.apply(EditGame(a_game(day=date(2023, 12, 5))))
    kept.apply(a_film(digest="two", path="/films/half-2.mp4"))
    for seconds, what in (("10", "blood seen"), ("11", "play stopped"), ("14", "directed to leave"), ("30", "returns")):
        whose = (None, None) if what == "play stopped" else ("visitor", "14")
        kept.apply(AddEvent("f2", moment(seconds), what, *whose))
    kept.apply(AddEvent("f2", moment("40"), "play resumes"))
    found = findings(kept.review)
    assert found.procedure is not None
    assert found.procedure.is_called("blood")
    assert found.procedure.departures
    (first, *_) = found.procedure.departures
    assert first.at == 90 + 30
    film, seconds = place_at(kept.review, first.at)
    assert (film.id, seconds) == ("f2", 30)
    assert findings(replace(kept.review, events=())).procedure is None


def test_an_old_review_opened_with_a_newer_program_shows_both(kept: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    kept.apply(a_tag(facts=(fact("colour", "orange"), PLAYED)))
    kept.apply(a_tag(player="15", facts=(fact("colour", "black"), PLAYED)))
    (first, _) = keep(kept, findings(kept.review))
    old = next(one for one in kept.review.ruled if one.tag == "t1")
    assert (old.ruling, old.edition, first.earlier) == (first.ruling.ruling, first.ruling.edition, None)
    other = replace(old, ruling="legal", consequence="none", rule="another", program="0.0.9", at="2025-01-01T00:00:00+00:00")
    kept.keep_rulings([other], [])
    first, second = findings(kept.review)
    assert first.earlier == other, "what 0.0.9 said of the same facts"
    assert second.earlier is None
    path = kept.path
    kept.close()
    assert findings(read(path)).of("t1").earlier == other
    with store.open(path, "Ben") as again:
        again.apply(SetCrew("t1", CrewResponse("late")))
        again.apply(EditTag(replace(again.review.tag("t1"), note="another note")))
        assert keep(again, findings(again.review)).of("t1").earlier == other, "notes and marks are no facts"
        again.apply(EditTag(replace(again.review.tag("t1"), facts=(fact("colour", "red"), PLAYED))))
        assert keep(again, findings(again.review)).of("t1").earlier is None, "other facts: the old ruling is not about them"
        assert {one.program for one in again.review.ruled} == {filmreview.__version__}
        present = filmreview.__version__
        monkeypatch.setattr(filmreview, "__version__", "9.9.9")
        keep(again, findings(again.review))
        assert {one.program for one in again.review.ruled} == {"9.9.9", present}
        assert all(one.earlier is None for one in findings(again.review)), "both versions say the same"


def test_keeping_rulings_leaves_no_step_and_writes_only_what_is_new(kept: Store) -> None:
    kept.apply(a_tag(facts=(fact("colour", "orange"), PLAYED)))
    heard: list[frozenset[str]] = []
    kept.subscribe(heard.append)
    keep(kept, findings(kept.review))
    keep(kept, findings(kept.review))
    assert heard == [frozenset({"ruled"})]
    assert len(kept.history()) == 3
    assert kept.undo() is not None
    assert kept.review.tags == ()
    keep(kept, findings(kept.review))
    assert kept.review.ruled == ()


def test_films_in_order(kept: Store) -> None:
    kept.apply(a_film(digest="two", path="/films/half-2.mp4"))
    kept.apply(a_tag("5", film="f2"))
    kept.apply(a_tag("6"))
    assert [(one.tag.id, one.film.name) for one in findings(kept.review)] == [("t1", "half-2.mp4"), ("t2", "half-1.mp4")]
