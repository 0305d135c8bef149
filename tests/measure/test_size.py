"""Sizes from a thing of known size: the worked example, coverage over simulated cameras, limits that cannot be called."""

import numpy as np
import pytest
import uncertainties
from uncertainties import umath

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount, Origin
from filmreview.measure.decision import Answer, Limit, answer
from filmreview.measure.ends import Ends
from filmreview.measure.known import KNOWN, known, known_in
from filmreview.measure.size import (
    SIZE_KEYS,
    Sighting,
    blur_inches,
    callable_outside,
    depth_share,
    drawn_length,
    length_of,
    sighting,
    summed_up,
    view_of,
)

BALL = known("boys' ball")
# Own worked example: a number 17 px high beside a ball of 27 px (9.39 to 9.55 in), clicks within 1 px at each
# end, depth within 2 %, a shirt leaning 0 to 15 degrees. Its answer there: 6.03 +- 0.36 in, P(at least 6 in) = 0.53.
EXAMPLE = Sighting(17.0, 27.0, BALL, depth=0.02, lean=15.0)


def test_worked_example_by_first_order() -> None:
    length = length_of(EXAMPLE)
    assert length.inches == pytest.approx(6.03, abs=0.005)
    assert length.plus_minus == pytest.approx(0.36, abs=0.005)
    assert length.amount.chance_at_least(6.0) == pytest.approx(0.53, abs=0.008)
    assert answer(length.amount.chance_at_least(6.0)) is Answer.UNKNOWN


def test_worked_example_by_monte_carlo() -> None:
    draws = drawn_length(EXAMPLE)
    assert draws.mean() == pytest.approx(6.03, abs=0.01)
    assert draws.std() == pytest.approx(0.36, abs=0.005)
    assert np.mean(draws >= 6.0) == pytest.approx(0.53, abs=0.006)


def test_first_order_agrees_with_the_uncertainties_package() -> None:
    item, reference = (uncertainties.ufloat(pixels, (2 / 3) ** 0.5) for pixels in (17.0, 27.0))
    lean = uncertainties.ufloat(7.5, 15 / 12**0.5)
    product = item / reference * uncertainties.ufloat(9.47, 0.16 / 12**0.5) * uncertainties.ufloat(1, 0.02 / 3**0.5)
    theirs = product / umath.cos(lean * np.pi / 180)
    length = length_of(EXAMPLE)
    assert length.inches == pytest.approx(theirs.nominal_value, rel=0.004)  # they take the cosine of the mean lean
    assert length.plus_minus == pytest.approx(theirs.std_dev, rel=0.01)


def test_parts_add_up() -> None:
    length = length_of(EXAMPLE)
    assert length.plus_minus == pytest.approx(length.inches * sum(part**2 for part in length.parts.values()) ** 0.5)
    assert max(length.parts, key=length.parts.__getitem__) == "item's ends"
    fact = length.fact("height_in")
    assert fact is not None
    assert (fact.key, fact.origin, fact.value) == ("height_in", Origin.MEASURED, Amount(6.03, length.plus_minus))
    assert fact.why == "6.03±0.36 in, 95 % 5.33 to 6.73, most from the item's ends, against boys' ball"


def _simulated(count: int, seed: int) -> list[tuple[float, Sighting]]:
    """True sizes and what a reviewer would click: cameras 20 to 80 ft away, things of known size near."""
    draw = np.random.default_rng(seed)
    found = []
    names = [name for name in KNOWN if not KNOWN[name].assumed]
    for _ in range(count):
        camera_feet, focal = draw.uniform(20, 80), draw.uniform(1200, 6000)
        scale = focal / (camera_feet * 12)  # px an inch
        thing = KNOWN[str(draw.choice(names))]
        true, lean, depth = draw.uniform(1.5, 14), draw.uniform(0, 15), draw.uniform(0.005, 0.07)
        item = true * np.cos(np.radians(lean)) * scale / (1 + draw.uniform(-depth, depth)) + _clicks(draw)
        reference = draw.uniform(thing.low, thing.high) * scale + _clicks(draw)
        if item >= 5 and reference >= 5:
            found.append((float(true), Sighting(float(item), float(reference), thing, depth, 15.0)))
    return found


def _clicks(draw: np.random.Generator) -> float:
    return float(draw.uniform(-1, 1) - draw.uniform(-1, 1))


def test_95_percent_intervals_hold_the_truth_in_93_to_97_percent() -> None:
    looks = _simulated(6000, seed=5)
    held = [low <= true <= high for true, seen in looks for low, high in [length_of(seen).interval]]
    assert len(held) > 4500
    assert 0.93 <= np.mean(held) <= 0.97


def test_decisions_are_seldom_wrong_and_often_made() -> None:
    draw = np.random.default_rng(6)
    wrong = decided = 0
    looks = _simulated(6000, seed=7)
    for true, seen in looks:
        limit = true * draw.uniform(0.6, 1.6)
        word = answer(length_of(seen).amount.chance_at_most(limit))
        decided += word is not Answer.UNKNOWN
        wrong += word is (Answer.NO if true <= limit else Answer.YES)
    assert wrong / len(looks) < 0.05
    assert decided / len(looks) > 0.5


def test_a_headband_limit_at_3_px_an_inch() -> None:
    # Own worked example: at 3 px/in a 3 in headband limit can only be called below 2 or above 4 in.
    below, above = callable_outside(3.0, Sighting(9.0, 3 * BALL.middle, BALL))
    assert below == pytest.approx(2.0, abs=0.1)
    assert above == pytest.approx(4.0, abs=0.1)
    near_below, near_above = callable_outside(3.0, Sighting(9.0, 12 * BALL.middle, BALL))
    assert near_below > 2.6
    assert near_above < 3.4


def test_the_band_that_cannot_be_called_is_what_it_says() -> None:
    # An item of exactly that size is called in 95 of 100 looks, checked by drawing the clicks.
    below, above = callable_outside(3.0, Sighting(9.0, 3 * BALL.middle, BALL))
    draw = np.random.default_rng(8)
    for true, word in ((below, Answer.YES), (above, Answer.NO)):
        called = 0
        for _ in range(1500):
            item = true * 3 * (1 + draw.uniform(-0.02, 0.02)) + _clicks(draw)
            reference = draw.uniform(BALL.low, BALL.high) * 3 + _clicks(draw)
            called += answer(length_of(Sighting(item, reference, BALL)).amount.chance_at_most(3.0)) is word
        assert called / 1500 == pytest.approx(0.95, abs=0.035)


def test_depth_and_blur_as_the_design_counts_them() -> None:
    assert depth_share(3.0, 43.0) == pytest.approx(0.07, abs=0.001)
    assert blur_inches(10.0, 1 / 60) == pytest.approx(2.0)
    still, moving = (length_of(Sighting(30.0, 27.0, BALL, item_blur_px=blur)) for blur in (0.0, 6.0))
    assert moving.plus_minus > 2 * still.plus_minus


@pytest.mark.parametrize(
    ("seen", "why"),
    [
        (Sighting(4.0, 27.0, BALL), "the item is 4 px long, 5 are needed"),
        (Sighting(17.0, 4.4, BALL), "the known thing is 4 px long, 5 are needed"),
        (Sighting(17.0, 27.0, BALL, item_blur_px=9.0), "motion blurs the item over 9 of its 17 px"),
    ],
)
def test_what_is_too_small_or_blurred_is_no_fact(seen: Sighting, why: str) -> None:
    length = length_of(seen)
    assert length.why_not == why
    assert length.fact("width_in") is None


@pytest.mark.parametrize("pixels", [0.0, -3.0, float("nan")])
def test_clicks_that_are_no_length(pixels: float) -> None:
    with pytest.raises(FilmReviewError, match="click its two ends"):
        Sighting(pixels, 27.0, BALL)


def test_an_unknown_thing_suggests_the_nearest() -> None:
    with pytest.raises(FilmReviewError, match='write "boys\' ball"'):
        known("boy ball")
    assert all(thing.low <= thing.high and thing.source for thing in KNOWN.values())


def test_draws_in_figures() -> None:
    drawn = summed_up(drawn_length(EXAMPLE), Limit(low=6.0))
    assert (drawn.inches, drawn.plus_minus) == (pytest.approx(6.03, abs=0.01), pytest.approx(0.36, abs=0.005))
    assert drawn.chance == pytest.approx(0.53, abs=0.006)
    assert drawn.interval == (pytest.approx(5.36, abs=0.03), pytest.approx(6.76, abs=0.03))
    assert summed_up(drawn_length(EXAMPLE)).chance is None


def test_ends_on_a_picture() -> None:
    seen = sighting(Ends((100, 50), (103, 54)), Ends((10, 10), (10, 37)), BALL, 0.05, 10.0, 1.0)
    assert seen == Sighting(5.0, 27.0, BALL, 0.05, 10.0, 1.0)
    assert Ends((100, 50), (103, 54)).middle == (101.5, 52.0)
    Ends((0, 0), (320, 180)).check(320, 180)
    with pytest.raises(FilmReviewError, match="the point 321,20 lies outside the picture of 320x180 pixels"):
        Ends((3, 3), (321, 20)).check(320, 180)
    with pytest.raises(FilmReviewError, match="both ends are the same point"):
        Ends((3, 3), (3, 3)).check(320, 180)


def test_only_keys_of_lengths_take_a_length() -> None:
    assert set(SIZE_KEYS) == {"border_in", "width_in", "height_in", "stroke_in", "side_in"}
    with pytest.raises(FilmReviewError, match='unknown size "width"; write "width_in"'):
        length_of(EXAMPLE).fact("width")


def test_things_by_book() -> None:
    # rule-book dimensions: boys and men 29.5 to 30 in, girls and women 28.5 to 29 in, FIBA sizes 7 and 6 (see measure.known)
    names = {
        book: {thing.name for thing in known_in(book)} for book in ("nfhs", "ncaa-men", "ncaa-women", "fiba", "ours", None)
    }
    assert {"boys' ball", "girls' ball", "back number"} <= names["nfhs"]
    assert "size 7 ball" not in names["nfhs"]
    assert ("boys' ball" in names["ncaa-men"], "girls' ball" in names["ncaa-men"]) == (True, False)
    assert ("boys' ball" in names["ncaa-women"], "girls' ball" in names["ncaa-women"]) == (False, True)
    assert {"size 7 ball", "FIBA back number", "FIBA rectangle width"} <= names["fiba"]
    assert not {"boys' ball", "rectangle width", "back number"} & names["fiba"]
    assert names["ours"] == names[None] == set(KNOWN)
    assert [thing.assumed for thing in known_in("nfhs")] == sorted(thing.assumed for thing in known_in("nfhs"))
    assert known("FIBA back number").low == pytest.approx(20 / 2.54)


def test_a_ball_is_known_by_its_former_name_too() -> None:
    assert known("boys ball") is known("boys' ball")
    assert known("girls ball") is known("girls' ball")


def test_a_size_that_somebody_knows() -> None:
    thing = known("8 +- 0.25 in")
    assert (thing.low, thing.high) == (7.75, 8.25)
    assert thing.words == "known size 7.75 to 8.25 in, as declared by the observer"
    assert known("8 in").words == "known size 8 in, as declared by the observer"
    assert known("20 cm").middle == pytest.approx(20 / 2.54)
    assert known("20 cm").sd == 0.0
    assert known("20 cm").serves("nfhs")
    for nothing in ("0 in", "1 +- 1 in"):
        with pytest.raises(FilmReviewError, match=f"--known: the known size {nothing} may be nothing".replace("+", r"\+")):
            known(nothing, "--known")
    with pytest.raises(FilmReviewError, match="unknown thing of known size"):
        known("8 ft")


def test_a_numbers_height_is_wide_open() -> None:
    """What makers offer reaches far beyond the least height; a limit is seldom called by it."""
    front = known("front number")
    assert front.assumed
    assert front.sd / front.middle > 0.15


def test_a_length_says_what_it_was_measured_against() -> None:
    fact = length_of(Sighting(17.0, 27.0, known("headband"))).fact("width_in")
    assert fact is not None
    assert fact.why.endswith("against headband (its size is assumed)")


@pytest.mark.parametrize(
    ("pixels", "blur", "share", "words"),
    [
        (40.0, 0.0, 1.0, "good"),
        (12.0, 0.0, None, "thin (12 px long)"),
        (4.0, None, None, "too poor (4 px long, 5 are needed)"),
        (40.0, 6.0, 0.1, "thin (sharpness 10% of the film's best; motion blur 6 px)"),
        (40.0, 22.0, None, "too poor (motion blur 22 px)"),
    ],
)
def test_how_well_a_length_is_seen(pixels: float, blur: float | None, share: float | None, words: str) -> None:
    view = view_of(pixels, blur, share)
    assert str(view) == words
    assert view.figures[0] == ("px long", pixels)
