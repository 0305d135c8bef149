import json
import re
import tomllib
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmreview.errors import FilmReviewError
from filmreview.rules.library import BOOKS_FOLDER
from filmreview.rules.procedures.charges import charges
from filmreview.rules.procedures.event import EVENT_WORDS, FOUND_KINDS, Event, Found
from filmreview.rules.procedures.laid_down import in_force, procedures_of, read_procedure
from filmreview.rules.procedures.run import run

DAY = date(2023, 12, 5)
BLOOD = (
    Event("blood seen", Fraction(600), "visitor", "14"),
    Event("play stopped", Fraction(601)),
    Event("directed to leave", Fraction(605), "visitor", "14"),
    Event("returns", Fraction(646), "visitor", "14"),
    Event("play resumes", Fraction(650)),
)

events = st.builds(
    Event,
    what=st.sampled_from(sorted(EVENT_WORDS)),
    at=st.one_of(st.none(), st.fractions(0, 300, max_denominator=4)),
    team=st.sampled_from((None, "home", "visitor")),
    player=st.sampled_from((None, "3", "14", "00")),
    length=st.sampled_from((None, 30, 60)),
    before_start=st.one_of(st.none(), st.fractions(0, 900, max_denominator=1)),
    kind=st.sampled_from((None, "technical", "personal", "disqualifying")),
    charged_to=st.sampled_from((None, "head coach", "player")),
)
found = st.builds(
    Found,
    team=st.sampled_from(("home", "visitor")),
    player=st.sampled_from((None, "3", "14")),
    kind=st.sampled_from(FOUND_KINDS),
    item=st.just("jersey"),
    in_play=st.sampled_from((None, True, False)),
)
days = st.dates(date(2007, 7, 1), date(2027, 6, 30))
books = st.sampled_from(("nfhs", "ncaa-men", "ncaa-women", "fiba"))


def test_no_events_call_for_no_procedure() -> None:
    assert run((), book="nfhs", day=DAY) is None
    assert run((Event("play stopped", Fraction(1)), Event("play resumes", Fraction(9))), book="nfhs", day=DAY) is None


@pytest.mark.parametrize("what", ["coach told", "free throw", "returns"])
def test_what_happens_without_a_stoppage_does_not_show_that_equipment_was_seen_to(what: str) -> None:
    """Illegal equipment is dealt with at a dead ball (common practice); a word to a coach or a shot alone is no such thing."""
    worn = (Found("home", "3", "equipment", "jewelry", "playing", "dead", True),)
    alone = Event(what, Fraction(10), "home", None if what == "coach told" else "3")
    assert run((alone,), book="nfhs", day=DAY, found=worn) is None
    before = (Event("play stopped", Fraction(1)), Event("play resumes", Fraction(5)))
    assert run((*before, alone), book="nfhs", day=DAY, found=worn) is None
    result = run((Event("play stopped", Fraction(5)), alone), book="nfhs", day=DAY, found=worn)
    assert result is not None
    assert result.is_called("illegal equipment found during live ball")
    assert run((replace(alone, what="put right", player="3"),), book="nfhs", day=DAY, found=worn) is not None


def test_a_result_as_json_has_what_the_design_asks() -> None:
    result = run(BLOOD, book="nfhs", day=DAY)
    assert result is not None
    told = json.loads(json.dumps(result.to_json()))
    assert told["name"] == "blood"
    assert told["edition"] == "2023-24"
    (one,) = told["departures"]
    assert one["reference"] == "3-3-7"
    assert one["seconds"] is None
    assert one["what"] == "the visitors' 14 came back in the same dead ball"
    assert "time-out of the own team" in one["asks"]


def test_a_result_answers_to_its_names() -> None:
    result = run(BLOOD, book="nfhs", day=DAY)
    assert result is not None
    assert all(result.is_called(name) for name in ("blood", "Blood", "blood on a player", "bleeding"))
    assert not any(result.is_called(name) for name in ("", "injury", "time-out", "shooter must be replaced"))


@settings(max_examples=300, deadline=None)
@given(st.lists(events, max_size=12), st.lists(found, max_size=3), days, books)
def test_any_events_give_a_result_and_the_same_one_twice(told: list[Event], seen: list[Found], day: date, book: str) -> None:
    first = run(told, book=book, day=day, found=seen)
    assert first == run(list(told), book=book, day=day, found=tuple(seen))
    charges(told, book=book, day=day, found=seen)
    if first is not None:
        json.dumps(first.to_json())
        assert first.ruling == ("illegal" if first.departures else "cannot be told" if first.missing else "legal")
        assert all(one.seconds is None or one.seconds > 0 for one in first.departures)
        assert all(one.reference and one.source and one.mark for one in first.departures)


@given(st.permutations(BLOOD))
def test_the_order_in_the_file_does_not_matter_when_times_differ(told: list[Event]) -> None:
    assert run(told, book="nfhs", day=DAY) == run(BLOOD, book="nfhs", day=DAY)


@pytest.mark.parametrize("book", ["ncaa-men", "ncaa-women"])
def test_a_book_without_the_text_says_so(book: str) -> None:
    result = run(BLOOD, book=book, day=DAY)
    assert result is not None
    assert result.ruling == "cannot be told"
    assert "the book here has no text" in result.missing[0].why


def test_fiba_injury_is_a_gap() -> None:
    hurt = (Event("injury", Fraction(1), "home", "4"), Event("play stopped", Fraction(2)), Event("play resumes", Fraction(30)))
    result = run(hurt, book="fiba", day=DAY)
    assert result is not None
    assert result.ruling == "cannot be told"


def scorebook(team: str, before: str | None, player: str | None = None) -> Event:
    return Event("book number changed", None, team, player, before_start=None if before is None else Fraction(before))


def test_charges_of_the_scorebook() -> None:
    # S08i situation 2a (14 minutes before: free), 2b (8 minutes before: one technical on the team)
    assert charges([scorebook("home", "840")], book="nfhs", day=DAY) == ()
    (one,) = charges([scorebook("home", "480"), scorebook("home", "470")], book="nfhs", day=DAY)
    assert (one.team, one.count, one.charged_to, one.free_throws, one.coaching_box) == ("home", 1, "team", 2, "kept")
    # RB19 3.2.2A: all numbers wrong, found after the start: one only
    (late,) = charges([scorebook("home", None, "4"), scorebook("home", None, "5")], book="nfhs", day=DAY)
    assert late.players == ("4", "5")


def test_both_teams_changing_before_the_start_is_for_a_person() -> None:
    # RB19 3.4.3C with S24i: a person has to confirm
    both = charges([scorebook("home", "480"), scorebook("visitor", "300")], book="nfhs", day=DAY)
    assert [bool(one.disputed) for one in both] == [True, True]


def test_a_jersey_changed_for_blood_changes_the_book_free() -> None:
    # RB19 3.3.7A and 10.4.1
    told = [Event("blood seen", Fraction(1), "home", "7"), Event("book number changed", Fraction(50), "home", "7")]
    assert charges(told, book="nfhs", day=DAY) == ()


def test_removed_jerseys_cost_each_player_one() -> None:
    # SF 2015 and 2021
    told = [Event("jersey removed", Fraction(n), "visitor", str(n)) for n in (3, 4, 4)]
    given_out = charges(told, book="nfhs", day=date(2026, 1, 5))
    assert [(one.players, one.charged_to, one.reference, one.mark) for one in given_out] == [
        (("3",), "player", "10-4-5h", "deduced"),
        (("4",), "player", "10-4-5h", "deduced"),
    ]


def test_books_without_the_text_charge_nothing() -> None:
    assert charges([scorebook("home", "480")], book="fiba", day=DAY) == ()
    assert procedures_of("no such book") == {}


GOOD = """
name = "x"
title = "x"
says = "x"
verified_to = 2025-06-30
[[edition]]
from = 2007-07-01
reference = "1-1"
source = "S"
mark = "published"
"""


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('name = "x"', 'nam = "x"', 'unknown key "nam"; write "name"'),
        ('mark = "published"', 'mark = "sure"', 'unknown mark "sure"'),
        ("from = 2007-07-01", 'from = "2007-07-01"', "write a date without quotation marks"),
        ('source = "S"', "", '"source" is missing'),
        ("[[edition]]", "[[editions]]", 'unknown key "editions"; write "edition"'),
        ('mark = "published"', 'mark = "published"\ncovered_by = "own timeout"', 'write "own time-out"'),
        ('mark = "published"', 'mark = "published"\n[[edition.clock]]\nname = "c"\nfrom = "x"', '"seconds" is missing'),
        ('mark = "published"', 'mark = "published"\nmark = "unsure"', "not TOML"),
        ('title = "x"', "", '"title" is missing'),
    ],
)
def test_a_bad_procedure_file_is_refused(old: str, new: str, words: str) -> None:
    assert read_procedure(GOOD, "good.toml").name == "x"
    with pytest.raises(FilmReviewError) as refused:
        read_procedure(GOOD.replace(old, new, 1), "bad.toml")
    assert words in str(refused.value)


def test_editions_out_of_order_are_refused() -> None:
    twice = GOOD + GOOD.split("verified_to = 2025-06-30")[1]
    with pytest.raises(FilmReviewError, match="out of order"):
        read_procedure(twice, "bad.toml")


def test_procedures_in_force_are_listed_for_showing() -> None:
    shown = in_force("nfhs", date(2024, 7, 1))
    assert {procedure.name for procedure, _ in shown} == set(procedures_of("nfhs"))
    blood = next(edition for procedure, edition in shown if procedure.name == "blood")
    assert blood.clock("clean-up") is not None
    assert [step.who for step in blood.steps][:2] == ["official", "player"]
    assert in_force("nfhs", date(2007, 6, 30)) == ()


@pytest.mark.parametrize("book", ["nfhs", "fiba", "ncaa-men", "ncaa-women"])
def test_sources_are_written_out(book: str) -> None:
    codes = set(tomllib.loads((BOOKS_FOLDER / book / "sources.toml").read_text(encoding="utf-8")))
    told = [edition.source for procedure in procedures_of(book).values() for edition in procedure.editions]
    assert told
    assert not [one for one in told if codes & set(re.findall(r"\w+", one))]
    if book == "nfhs":
        last = procedures_of(book)["illegal uniform found"].editions[-1]
        assert "NFHS Basketball Rules Interpretations 2016-17" in last.source
