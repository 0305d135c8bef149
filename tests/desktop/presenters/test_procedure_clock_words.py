"""The short line of an event: what it is read as, and that it reads back."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from filmreview.desktop.actions import DEEDS
from filmreview.desktop.procedure_clock_words import (
    KEY_OF,
    completions,
    event_line,
    more_words,
    read_event_line,
    whose_is_missing,
)
from filmreview.film.moment import Moment
from filmreview.review.model import PlacedEvent
from filmreview.rules.procedures.event import CHARGED_TO, EVENT_WORDS, FOUL_KINDS

ROSTERS = {"home": ("3", "10", "14"), "visitor": ("0", "00", "14", "22")}


def test_every_event_has_a_key_of_its_own_that_the_picture_does_not_use() -> None:
    assert KEY_OF.keys() == EVENT_WORDS.keys()
    assert len(set(KEY_OF.values())) == len(KEY_OF)
    taken = {key for deed in DEEDS for key in deed.film_keys}
    assert not taken & set(KEY_OF.values())


@pytest.mark.parametrize(
    ("text", "what", "team", "player"),
    [
        ("blood seen v14", "blood seen", "visitor", "14"),
        ("v14 blood seen", "blood seen", "visitor", "14"),
        ("inj h 3", "injury", "home", "3"),
        ("sub rep v 00", "substitute reports", "visitor", "00"),
        ("sub ent 22", "substitute enters", "visitor", "22"),
        ("coach told home", "coach told", "home", None),
        ("coach visitors", "coach told", "visitor", None),
        ("play stopped", "play stopped", None, None),
        ("returns h #10", "returns", "home", "10"),
        ("blood wiped on another v0", "blood wiped on another", "visitor", "0"),
        ("returns 14", "returns", None, "14"),  # both teams have one
    ],
)
def test_a_line_is_read(text: str, what: str, team: str | None, player: str | None) -> None:
    said = read_event_line(text, ROSTERS)
    assert (said.what, said.team, said.player, said.unread) == (what, team, player, ())
    assert said.complete


def test_what_some_events_need_besides() -> None:
    out = read_event_line("time-out granted v 30")
    assert (out.team, out.player, out.length) == ("visitor", None, 30)
    foul = read_event_line("foul charged home technical head coach")
    assert (foul.team, foul.kind, foul.charged_to) == ("home", "technical", "head coach")
    assert read_event_line("foul ch v flag technical bench").kind == "flagrant technical"
    book = read_event_line('book number changed h before 10:00 "number 12 for 21"')
    assert (book.before_start, book.note) == (Fraction(600), "number 12 for 21")
    assert more_words(book) == '10:00.000 before the start, "number 12 for 21"'


@pytest.mark.parametrize(
    ("text", "asks"),
    [
        ("v14", "what happened?"),
        ("blood seen", "whose is it? such as v14 or h3"),
        ("coach told", "which team? home or visitor"),
        ("play stopped v14 polka", '"polka" is not understood'),
        ("blood seen v3", "3 is not on the visitor roster"),
        ("sub 14", "what happened?"),  # three words begin so
    ],
)
def test_what_is_missing_is_asked(text: str, asks: str) -> None:
    assert asks in " ".join(read_event_line(text, ROSTERS).asks)


def test_unread_words_are_not_kept_and_a_missing_name_is() -> None:
    assert not read_event_line("blood seen v14 polka").complete
    assert read_event_line("blood seen").complete
    assert whose_is_missing("blood seen", "visitor", None) == "player"
    assert whose_is_missing("coach told", None, None) == "team"
    assert whose_is_missing("play stopped", None, None) == ""


def test_a_word_begun_is_completed() -> None:
    assert completions("sub") == ("substitute reports", "substitute enters")
    assert completions("v14 blood se") == ("v14 blood seen",)
    assert completions("blood seen") == ()
    assert completions("") == ()
    assert completions("blood seen v") == ()


@given(
    what=some.sampled_from(sorted(EVENT_WORDS)),
    team=some.sampled_from(["home", "visitor"]),
    player=some.sampled_from(["0", "00", "3", "14", "55"]),
    note=some.text("abc ,'0-9:", max_size=12),
    kind=some.sampled_from([None, *FOUL_KINDS]),
    bearer=some.sampled_from([None, *CHARGED_TO]),
)
def test_the_line_of_an_event_reads_back(
    what: str, team: str, player: str, note: str, kind: str | None, bearer: str | None
) -> None:
    foul = what == "foul charged"
    event = PlacedEvent(
        "e1",
        "f1",
        Moment(0, Fraction(1, 1000)),
        what,
        team,
        player,
        60 if what == "time-out granted" else None,
        Fraction("90.5") if what == "book number changed" else None,
        note,
        kind if foul else None,
        bearer if foul else None,
    )
    said = read_event_line(event_line(event))
    assert said.unread == ()
    assert (said.what, said.team, said.player, said.length) == (what, team, player, event.length)
    assert (said.before_start, said.kind, said.charged_to) == (event.before_start, event.kind, event.charged_to)
    assert said.note == note
