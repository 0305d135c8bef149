"""A length with all that is told of it: notes, view, decisions, draws."""

import pytest

from filmreview.measure.courts import court_point
from filmreview.measure.decision import Answer, Limit
from filmreview.measure.ends import Ends
from filmreview.measure.floor import floor_from
from filmreview.measure.known import known
from filmreview.measure.length import ByFloor, ByKnown, see_length
from filmreview.measure.size import summed_up

BALL = ByKnown(known("boys' ball"), Ends((130, 50), (130, 77)), 0.02, 15.0)
LANE = (
    "left lane at end line, near",
    "left lane at end line, far",
    "left lane at free-throw line, near",
    "left lane at free-throw line, far",
)


def _plan(name: str, points: tuple[str, ...]) -> ByFloor:
    """A floor seen straight from above, 10 px to the foot."""
    clicks = {point: (10 * x + 20, 700 - 10 * y) for point in points for x, y in [court_point(name, point)]}
    return ByFloor(floor_from(name, clicks), points)


def test_the_worked_example() -> None:
    # Own worked example: 17 px beside a ball of 27 px, depth 2 %, lean 0 to 15 degrees: 6.03 +- 0.36 in, P(at least 6) 0.53.
    seen = see_length(Ends((100, 50), (100, 67)), BALL, 0.0)
    assert (seen.length.inches, seen.length.plus_minus) == (pytest.approx(6.03, abs=0.005), pytest.approx(0.36, abs=0.005))
    decision = seen.decide(Limit(low=6.0))
    assert decision.answer is Answer.UNKNOWN
    assert decision.chance == pytest.approx(0.53, abs=0.008)
    assert summed_up(seen.draws(), Limit(low=6.0)).chance == pytest.approx(0.53, abs=0.006)


def test_a_headband_limit_at_3_px_to_the_inch_says_what_can_be_called() -> None:
    # Own worked example: at 3 px/in a 3 in headband limit can only be called below 2 or above 4 in.
    by = ByKnown(known("boys' ball"), Ends((130, 50), (130, 50 + 3 * 9.47)))
    words = {}
    for inches in (1.9, 2.2, 3.0, 3.8, 4.1):
        seen = see_length(Ends((100, 50), (100, 50 + 3 * inches)), by, 0.0)
        assert seen.px_to_inch == pytest.approx(3.0, abs=0.01)
        decision = seen.decide(Limit(high=3.0))
        assert "can only be called below 2 or above 4 in" in decision.words
        words[inches] = decision.answer.value
    assert words[1.9] == "yes"
    assert words[3.0] == "cannot be told"
    assert words[4.1] == "no"


def test_a_limit_is_never_decided_on_a_size_that_should_not_be_read() -> None:
    seen = see_length(Ends((100, 50), (100, 54)), BALL, 0.0)
    assert seen.length.why_not
    assert seen.decide(Limit(high=30.0)).answer is Answer.UNKNOWN


def test_the_notes_say_what_a_length_rests_on() -> None:
    ends = Ends((100, 50), (100, 90))
    assert see_length(ends, BALL).notes[-1] == "motion blur is not known and not counted"
    assert len(see_length(ends, BALL, 0.0).notes) == 1
    (assumed,) = see_length(ends, ByKnown(known("headband"), Ends((0, 0), (0, 20))), 0.0).notes
    assert assumed.startswith("headband 1.75 to 2.25 in: an assumption: ")
    lane = see_length(ends, _plan("school", LANE), 0.0)
    assert [note for note in lane.notes if "ideal" in note] == []
    corners = _plan("school", (*LANE, "right near corner", "right far corner"))
    assert any("84 x 50 ft ideal" in note for note in see_length(ends, corners, 0.0).notes)


def test_a_length_on_the_floor() -> None:
    seen = see_length(Ends((100, 500), (220, 500)), _plan("school", LANE), 0.0)
    assert seen.length.inches == pytest.approx(144.0)
    assert seen.seen is None
    decision = seen.decide(Limit(high=200.0))
    assert (decision.answer, decision.bands) == (Answer.YES, ())
    assert summed_up(seen.draws()).plus_minus == pytest.approx(seen.length.plus_minus, rel=0.08)


def test_a_court_that_does_not_fit_is_told() -> None:
    clicks = {
        point: (10 * x + 20, 700 - 10 * y)
        for point in (*LANE, "right near corner", "right far corner")
        for x, y in [court_point("school", point)]
    }
    wrong = ByFloor(floor_from("college", clicks), tuple(clicks))
    assert any("px off a college court" in note for note in see_length(Ends((100, 500), (220, 500)), wrong, 0.0).notes)
