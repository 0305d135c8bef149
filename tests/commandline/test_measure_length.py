"""filmreview measure of lengths, times and numbers, and lengths kept with a tag."""

import math
from pathlib import Path

import pytest

from filmreview.commandline import words
from filmreview.measure.courts import COURTS, court_point
from filmreview.measure.known import KNOWN
from filmreview.review.reading import read
from tests.commandline.conftest import FILMS, Say

FILM = FILMS / "constant.mp4"  # 90 frames of 1001/30000 s, 320x180 pixels (its truth file)
BALL = "boys' ball=130,50,130,77"
LANE = (
    "left lane at end line, near",
    "left lane at end line, far",
    "left lane at free-throw line, near",
    "left lane at free-throw line, far",
)


def camera(feet: tuple[float, float]) -> tuple[float, float]:
    """A pinhole camera 18 ft up in the stands, 40 ft back from the near side line, 12 ft from the left end. Feet to pixels."""
    tilt, x, y = math.radians(10), feet[0] - 12.0, feet[1] + 40.0
    depth = y * math.cos(tilt) + 18 * math.sin(tilt)
    return (160 + 230 * x / depth, 90 - 230 * (y * math.sin(tilt) - 18 * math.cos(tilt)) / depth)


def floor_words(points: tuple[str, ...] = LANE) -> list[str]:
    placed = [(point, camera(court_point("school", point))) for point in points]
    return ["--floor", "school", *[word for name, (x, y) in placed for word in ("--point", f"{name}={x:.3f},{y:.3f}")]]


def test_the_worked_example_word_by_word(say: Say) -> None:
    # Own worked example: a number 17 px high beside a ball of 27 px (9.39 to 9.55 in), depth within 2 %, a shirt leaning
    # 0 to 15 degrees: 6.03 +- 0.36 in by first-order formulas and by draws, P(at least 6 in) = 0.53: cannot be told.
    asked = [
        "measure", FILM, "--at", "0.5", "--ends", "100,50,100,67", "--known", BALL, "--depth", "2%", "--lean", "15",
        "--blur", "0", "--limit", "at least 6", "--draws",
    ]  # fmt: skip
    data = say(*asked, "--json").data
    assert data["length"]["inches"] == pytest.approx(6.03, abs=0.005)
    assert data["length"]["plus_minus"] == pytest.approx(0.36, abs=0.005)
    assert data["length"]["cm"] == pytest.approx(2.54 * data["length"]["inches"])
    assert data["length"]["plus_minus"] == pytest.approx(math.hypot(*data["length"]["parts"].values()))
    assert (data["limit"]["answer"], data["limit"]["chance"]) == ("cannot be told", pytest.approx(0.53, abs=0.008))
    assert data["draws"]["plus_minus"] == pytest.approx(0.36, abs=0.005)
    assert data["draws"]["chance"] == pytest.approx(0.53, abs=0.006)
    lines = say(*asked).out.splitlines()
    assert lines[0].endswith("6.03 ± 0.36 in (15.32 ± 0.90 cm), standard uncertainty")
    assert any("at least 6 in: cannot be told" in line for line in lines)
    assert any(line.startswith("  part item's ends: 0.29 in") for line in lines)


def test_a_headband_at_3_px_to_the_inch(say: Say) -> None:
    # Own worked example: a 3 in limit can there only be called below 2 or above 4 in.
    ball = f"boys' ball=130,50,130,{50 + 3 * 9.47}"
    for px, word in ((5.7, "yes"), (9, "cannot be told"), (12.3, "no")):
        told = say(
            "measure",
            FILM,
            "--at",
            "0.5",
            "--ends",
            f"100,50,100,{50 + px}",
            "--known",
            ball,
            "--blur",
            "0",
            "--limit",
            "at most 3",
        )
        assert f"at most 3 in: {word} (P" in told.out
        assert "at this scale 3 in can only be called below 2 or above 4 in" in told.out


def test_a_length_on_the_floor(say: Say) -> None:
    one, two = camera((4.0, 20.0)), camera((10.0, 28.0))
    ends = f"{one[0]:.3f},{one[1]:.3f},{two[0]:.3f},{two[1]:.3f}"
    data = say("measure", FILM, "--at", "0.5", "--ends", ends, *floor_words(), "--blur", "0", "--json").data
    assert data["length"]["inches"] == pytest.approx(120.0, abs=0.1)  # 6 and 8 ft apart: 10 ft
    assert set(data["length"]["parts"]) == {"court points' clicks", "item's ends"}
    assert any("on the floor only" in note for note in data["notes"])


def test_a_length_too_small_to_read_is_an_answer(say: Say) -> None:
    answer = say("measure", FILM, "--at", "0.5", "--ends", "100,50,104,50", "--known", BALL)
    assert answer.code == 0
    assert "the length cannot be told: the item is 4 px long, 5 are needed" in answer.out
    assert "95 %" not in answer.out, "which would begin below nought for 1 px"
    assert "part " not in answer.out
    assert "view too poor" in answer.out


def test_by_a_size_that_the_reviewer_knows(say: Say) -> None:
    asked = ["measure", FILM, "--at", "0.5", "--ends", "100,50,100,67", "--blur", "0", "--depth", "0"]
    data = say(*asked, "--known", "8 +- 0.25 in=130,50,130,90", "--json").data
    assert data["length"]["inches"] == pytest.approx(17 / 40 * 8)
    assert data["length"]["parts"]["known thing's size"] == pytest.approx(17 / 40 * 0.25 / 3**0.5)
    size = "known size 7.75 to 8.25 in, as declared by the observer"
    assert size in data["notes"]
    assert data["length"]["against"] == size
    assert "may be nothing" in say(*asked, "--known", "0 in=130,50,130,90").line


def test_the_sharpness_of_the_frame_is_part_of_the_view(say: Say) -> None:
    asked = ["measure", FILM, "--at", "0.5", "--json"]
    length = say(*asked, "--ends", "100,50,100,67", "--known", BALL, "--sharpness").data
    colour = say(*asked, "--box", "100,50,40,40", "--sharpness").data
    for one in (length, colour):
        assert 0.0 < one["view"]["figures"]["sharpness"] <= 1.0
    assert "sharpness" not in say(*asked, "--box", "100,50,40,40").data["view"]["figures"]


def test_the_time_between_two_frames(say: Say) -> None:
    asked = ["measure", FILM, "--at", "0.1", "--until", "2"]
    data = say(*asked, "--limit", "at most 1.95", "--json").data
    assert (data["frame"]["number"], data["until"]["number"]) == (3, 59)  # 3003/30000 s is written 0:00.100
    assert data["elapsed"]["seconds"] == pytest.approx(56 * 1001 / 30000)
    assert data["elapsed"]["exact"] == "7007/3750"
    assert data["elapsed"]["at_most_off"] == pytest.approx(1001 / 30000)
    assert data["limit"]["answer"] == "yes"
    assert say(*asked, "--limit", "at most 1.87", "--json").data["limit"]["answer"] == "cannot be told"
    assert say(*asked, "--limit", "2 to 3", "--json").data["limit"]["answer"] == "no"
    assert say(*asked, "--limit", "1 to 3", "--json").data["limit"]["chance"] == 1.0
    assert "1.869 ± 0.014 s (standard uncertainty)" in say(*asked).out


def test_a_numbers_contrast(say: Say) -> None:
    """`colour-709-limited.mp4` holds flat patches: dark blue at 0,8, light at 0,50 and mid ones beside (its truth file)."""
    asked = ["measure", FILMS / "colour-709-limited.mp4", "--at", "0.2", "--json", "--number"]
    data = say(*asked, "90,60,20,20", "--jersey", "10,60,40,20").data
    contrast = data["contrast"]
    assert contrast["answer"] in ("yes", "no", "cannot be told")
    assert contrast["ratio"] >= 1.0
    assert set(contrast["seen_apart"]) == {"protan", "deutan", "tritan"}
    assert data["stroke_px"] == pytest.approx(20, abs=1)
    assert (contrast["lightness"] >= 30) or contrast["answer"] != "yes"
    told = say(*asked[:-2], "--number", "90,60,20,20", "--jersey", "10,60,40,20").out
    assert "stands out from the jersey: " + contrast["answer"] in told
    assert "WCAG" in told
    poor = say(*asked, "90,60,4,4").data
    assert (poor["contrast"], poor["why_not"]) == (None, "4 px across, 8 are needed")


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ([], "measure: nothing to measure is given; give one of --box (a colour), --ends (a length)"),
        (["--ends", "1,1,9,9", "--until", "2"], "--ends and --until are both given"),
        (["--until", "2", "--draws"], "--draws does not go with --until; it goes with --ends"),
        (["--box", "1,1,9,9", "--known", BALL], "--known does not go with --box; it goes with --ends"),
        (["--ends", "1,1,1,1", "--known", BALL], "--ends: both ends are the same point"),
        (["--ends", "1,1,1", "--known", BALL], '--ends: "1,1,1" is not x,y,x,y'),
        (["--ends", "1,1,nan,3", "--known", BALL], "is not x,y,x,y"),
        (["--ends", "1,1,321,3", "--known", BALL], "the point 321,3 lies outside the picture of 320x180 pixels"),
        (["--ends", "1,1,9,9"], "--known: nothing of known size is given"),
        (["--ends", "1,1,9,9", "--known", "boys' ball=5,5,5,5"], "--known: both ends are the same point"),
        (["--ends", "1,1,9,9", "--known", "boys' ball=5,5,5,500"], "--known: the point 5,500 lies outside the picture"),
        (["--ends", "1,1,9,9", "--known", "boy ball=5,5,5,9"], 'unknown thing of known size "boy ball"; write "boys\' ball"'),
        (["--ends", "1,1,9,9", "--known", "5,5,5,9"], "is not NAME=X,Y,X,Y"),
        (["--ends", "1,1,9,9", "--known", BALL, "--floor", "school"], "both a known thing and the floor are given"),
        (["--ends", "1,1,9,9", "--known", BALL, "--limit", "3"], '--limit: "3" is not a limit'),
        (["--ends", "1,1,9,9", "--known", BALL, "--depth", "1"], "--depth: 1 is not from 0 to under 1"),
        (["--ends", "1,1,9,9", "--known", BALL, "--lean", "90"], "lean an angle from 0 to 80 degrees"),
        (["--ends", "1,1,9,9", "--known", BALL, "--blur", "-1"], '--blur: "-1" is not an amount'),
        (["--ends", "1,1,9,9", *floor_words(LANE[:3])], "--point: 3 court points are given; click four or more"),
        (["--ends", "1,1,9,9", *floor_words(), "--lean", "5"], "--lean does not go with --floor"),
        (["--ends", "1,1,9,9", *floor_words(), "--point", f"{LANE[0]}=5,5"], f'"{LANE[0]}" is given twice'),
        (["--ends", "1,1,9,9", *floor_words(("left near corner", "left far corner", *LANE[:2]))], "lie on one line"),
        (["--ends", "160,1,160,90", *floor_words()], "the point 160,1 lies above the floor's horizon"),
        (["--ends", "1,1,9,9", "--floor", "street", "--point", f"{LANE[0]}=5,5"], "four or more"),
        (["--until", "0.05"], "the second moment comes before the first; swap them"),
        (["--until", "99"], "1:39.000 is past the end of the film"),
        (["--number", "300,100,100,100"], "reaches outside the picture"),
        (["--number", "100,50,40,40", "--jersey", "300,100,100,100"], "reaches outside the picture"),
    ],
)  # fmt: skip
def test_what_cannot_be_measured_is_one_line(say: Say, asked: list[str], told: str) -> None:
    answer = say("measure", FILM, "--at", "0.1", *asked)
    assert answer.code == 2
    assert told in answer.line


def tag(review: Path, *more: str) -> list[object]:
    return ["tag", review, "--at", "0.5", "--team", "visitor", "--player", "14", "--item", "headband", *more]


def test_a_measured_length_is_kept_with_the_tag_and_ruled_by(say: Say, review: Path) -> None:
    """School headbands are at most 3 in wide (rule-book dimension): a width is ruled by its uncertainty too."""
    ball = f"boys' ball=130,50,130,{50 + 3 * 9.47}"
    facts = ["--known", ball, "--blur", "0", "--fact", "colour=white", "--fact", "worn=forehead"]
    found = {}
    for inches in (2.0, 3.3, 5.0):
        made = say(*tag(review, "--length", f"width_in=100,50,100,{50 + 3 * inches}", *facts))
        assert made.code == 0, made.told
        found[inches] = made.out.strip()
    by_id = {one["id"]: one for one in say("findings", review, "--json").data["rulings"]}
    width = {inches: by_id[name] for inches, name in found.items()}
    assert "headband" not in width[2.0]["ruling"]
    assert width[5.0]["ruling"] == "illegal"
    assert width[3.3]["ruling"] == "cannot be told"
    (kept, *_) = [one for one in read(review).tags if one.id == found[3.3]]
    (fact,) = [one for one in kept.facts if one.key == "width_in"]
    assert fact.origin.value == "measured"
    assert fact.value.value == pytest.approx(3.3, abs=0.01)
    assert fact.value.plus_minus > 0.25
    assert "against boys' ball" in fact.why


def test_what_is_measured_and_what_is_seen_both_stay(say: Say, review: Path) -> None:
    made = say(*tag(review, "--length", "width_in=100,50,100,62", "--known", BALL, "--fact", "width_in=2"))
    kept = next(one for one in read(review).tags if one.id == made.out.strip())
    assert [(one.key, one.origin.value) for one in kept.facts] == [("width_in", "measured"), ("width_in", "seen")]


def test_a_length_of_another_books_thing_is_said(say: Say, review: Path) -> None:
    made = say(*tag(review, "--length", "width_in=100,50,100,62", "--known", "size 7 ball=130,50,130,77"))
    assert made.code == 0
    assert "size 7 ball is not what games under nfhs have" in made.told


def test_a_length_that_cannot_be_told_leaves_the_tag_without(say: Say, review: Path) -> None:
    made = say(*tag(review, "--length", "width_in=100,50,100,54", "--known", BALL))
    assert made.code == 0
    assert "the width cannot be told: the item is 4 px long" in made.told
    assert read(review).tags[-1].facts == ()


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (["--length", "width=1,1,9,9", "--known", BALL], '--length: unknown size "width"; write "width_in"'),
        (["--length", "area_sq_in=1,1,9,9", "--known", BALL], '--length: unknown size "area_sq_in"'),
        (["--length", "width_in=1,1,9,9"], "--known: nothing of known size is given"),
        (["--length", "width_in=1,1,9,9", "--length", "width_in=1,1,9,8", "--known", BALL], '"width_in" is given twice'),
        (["--known", BALL], "--known: there is no length to measure; give --length KEY=X,Y,X,Y"),
        (["--length", "width_in=1,1,900,9", "--known", BALL], "--length: the point 900,9 lies outside the picture"),
        (["--box", "10,10,40,40", "--measure", "--jersey", "60,10,40,40"], "--jersey does not go with the item headband"),
        (["--box", "10,10,40,40", "--jersey", "60,10,40,40"], "--jersey: nothing is to be measured; give --measure too"),
    ],
)
def test_lengths_that_no_tag_takes(say: Say, review: Path, more: list[str], told: str) -> None:
    answer = say(*tag(review, *more))
    assert answer.code == 2
    assert told in answer.line
    assert read(review).tags == ()


def test_help_lists_the_things_there_are() -> None:
    things, points = words._SIZES
    assert [one.strip() for one in things.partition(": ")[2].partition(";")[0].split(",")] == list(KNOWN)
    short = [one.strip() for one in points.partition("sees them: ")[2].partition("; the same")[0].split(";")]
    assert {name for name in COURTS["school"] if "right" not in name and "far" not in name} == set(short)
