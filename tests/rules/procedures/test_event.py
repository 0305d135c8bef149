from fractions import Fraction

import pytest

from filmreview.errors import FilmReviewError
from filmreview.rules.procedures.event import EVENT_WORDS, Event, read_event, read_seconds

# The words of a situation file's events, written down apart from the program.
LISTED_WORDS = """blood seen, play stopped, directed to leave, substitute enters, time-out granted, book number changed,
withdrawn at table, jersey removed, injury, staff beckoned, time-out ends, returns, free throw, play resumes, foul charged,
coach told"""


def test_every_word_listed_is_known() -> None:
    words = {word.strip() for word in LISTED_WORDS.replace("\n", " ").split(",")}
    assert words <= set(EVENT_WORDS)
    ours = {"concussion signs", "staff enters", "put right", "substitute reports", "warning horn"}
    assert set(EVENT_WORDS) - words == ours | {"blood wiped on another", "unreported number"}


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("31:07.4", Fraction(18674, 10)),
        ("1:00:00", Fraction(3600)),
        ("7.25", Fraction(29, 4)),
        (12, Fraction(12)),
        ("90", Fraction(90)),
    ],
)
def test_times_are_exact(text: str | int, seconds: Fraction) -> None:
    assert read_seconds(text) == seconds


@pytest.mark.parametrize("text", ["1:60", "1:60:00", "soon", "", "-3", -3, True, None, "1::2", "٣"])
def test_what_is_no_time_is_refused(text: object) -> None:
    with pytest.raises(FilmReviewError, match="is not a time"):
        read_seconds(text)


def test_an_event_is_read() -> None:
    raw = {"at": "31:07.4", "what": "time-out granted", "team": "home", "length": 30}
    assert read_event(raw) == Event("time-out granted", Fraction("1867.4"), team="home", length=30)
    assert read_event({"what": "book number changed", "team": "home", "before_start": "8:00"}).before_start == 480


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        ({"what": "directed to go"}, 'unknown event "directed to go"; write "directed to leave"'),
        ({"at": "1:00"}, 'without "what"'),
        ({"what": "returns", "playr": "4"}, 'unknown key "playr"; write "player"'),
        ({"what": "returns", "team": "away"}, 'unknown team "away"'),
        ({"what": "returns", "player": "144"}, "is not a player number"),
        ({"what": "returns", "player": 14}, "is not text"),
        ({"what": "time-out granted", "length": 45}, "is not a length of a time-out"),
        ({"what": "returns", "length": 30}, "has no length"),
        ({"what": "foul charged", "kind": "tecnical"}, 'write "technical"'),
        ({"what": "returns", "at": "later"}, 'event 2, at: "later" is not a time'),
        ({"what": 3}, "is not text"),
    ],
)
def test_a_bad_event_is_refused_in_one_line(raw: dict[str, object], words: str) -> None:
    with pytest.raises(FilmReviewError) as refused:
        read_event(raw, "event 2")
    assert words in str(refused.value)
    assert "\n" not in str(refused.value)
