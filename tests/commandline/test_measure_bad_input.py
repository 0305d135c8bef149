"""measure and tag on what cannot be measured: an unknown with its reason, or one line of what, where and what to do."""

from pathlib import Path

import pytest

from filmreview.facts.region import Box
from filmreview.review.reading import read
from tests.commandline.conftest import Say
from tests.commandline.made_review import made_review
from tests.measure.bad_films import BLACK, BLOWN, CLOTH, LIT, NO_WHITE, UNLIT, UNTOLD, WALL, inside, write_bad, write_monochrome


def at(number: int) -> str:
    """The time of a frame of the films here."""
    return f"{number / 25:.2f}"


IN_LIGHT, IN_BLACK = at(LIT), at(BLACK)
TAG = ["--team", "visitor", "--player", "14", "--item"]
CASES = [name for name in UNTOLD if name != "no pixel"]  # a box of none is refused by its words
REFUSED = [name for name in NO_WHITE if name != "black"]  # that one stands on another frame
LOOK_AGAIN = "add --fact colour=WORD when tagging, or at the desk draw its region anew or say the colour by eye"


@pytest.fixture(scope="module")
def bad(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_bad(tmp_path_factory.mktemp("bad") / "bad.mp4")


@pytest.fixture(scope="module")
def grey(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_monochrome(tmp_path_factory.mktemp("grey") / "grey.mp4")


@pytest.mark.parametrize("frames", ["1", "5"])
@pytest.mark.parametrize("name", CASES)
def test_a_colour_that_cannot_be_told(say: Say, bad: Path, name: str, frames: str) -> None:
    untold = UNTOLD[name]
    asked = ("measure", bad, "--at", at(untold.number), "--box", untold.regions["box"], "--frames", frames)
    words = say(*asked)
    assert (words.code, words.told) == (0, "")
    assert f"the colour cannot be told: {untold.why}" in words.out.splitlines()[0]
    assert words.out.splitlines()[1].startswith(f"  view too poor; {untold.why}")
    data = say(*asked, "--json").data
    assert (data["colour"], data["facts"], data["solid"]) == (None, [], None)
    assert data["why_not"] == untold.why
    assert (data["view"]["word"], data["view"]["reasons"][0]) == ("too poor", untold.why)
    assert data["pixels"] == data["view"]["figures"]["pixels used"]


@pytest.mark.parametrize("name", CASES)
def test_a_number_that_cannot_be_told(say: Say, bad: Path, name: str) -> None:
    untold = UNTOLD[name]
    asked = ("measure", bad, "--at", at(untold.number), "--number", untold.regions["box"])
    words = say(*asked)
    assert words.code == 0
    assert "cannot be told" in words.out.splitlines()[0]
    assert untold.as_number in words.out.splitlines()[0]
    assert say(*asked, "--json").data["facts"] == []


def test_a_place_without_light_is_seen_thinly_and_nothing_is_minus_nought(say: Say, bad: Path) -> None:
    words = say("measure", bad, "--at", IN_LIGHT, "--box", inside(UNLIT)).out
    assert "view thin; 100% of the pixels have no light (px across 44, " in words
    assert "dark 100%" in words
    assert "-0.0" not in words
    data = say("measure", bad, "--at", IN_LIGHT, "--box", inside(UNLIT), "--json").data
    assert (data["view"]["word"], data["view"]["figures"]["dark"]) == ("thin", 1.0)
    number = say("measure", bad, "--at", IN_LIGHT, "--number", inside(UNLIT)).out
    assert "cannot be told; 100% of the pixels have no light: how far the number and the jersey are apart does not" in number


def test_a_film_without_colour(say: Say, grey: Path, tmp_path: Path) -> None:
    for option in ("--box", "--number"):
        words = say("measure", grey, "--at", IN_LIGHT, option, CLOTH)
        assert (words.code, words.told) == (0, "")
        assert "cannot be told: the film is monochrome" in words.out.splitlines()[0]
    data = say("measure", grey, "--at", IN_LIGHT, "--box", CLOTH, "--json").data
    assert (data["colour"], data["why_not"], data["view"]["word"]) == (None, "the film is monochrome", "good")
    assert data["pixels"] == data["view"]["figures"]["pixels used"] > 1000
    refused = say("measure", grey, "--at", IN_LIGHT, "--box", CLOTH, "--white", inside(BLOWN))
    assert refused.code == 2
    assert refused.line.endswith("the film is monochrome; take a frame with a picture in colour")
    review = made_review(say, grey, tmp_path)
    for item, what in (("arm sleeve", "its"), ("number", "the number's")):
        answer = say("tag", review, *TAG, item, "--at", IN_LIGHT, "--box", CLOTH, "--measure")
        told = f"the tag is kept, but {what} colour cannot be told: the film is monochrome; {LOOK_AGAIN}\n"
        assert (answer.code, answer.told) == (0, told)
    assert [tag.facts for tag in read(review).tags] == [(), ()]


@pytest.mark.parametrize("item", ["arm sleeve", "number"])
@pytest.mark.parametrize("name", CASES)
def test_the_tag_is_kept_without_what_cannot_be_told(say: Say, bad: Path, tmp_path: Path, name: str, item: str) -> None:
    untold, review = UNTOLD[name], made_review(say, bad, tmp_path)
    box, why = str(untold.regions["box"]), untold.as_number if item == "number" else untold.why
    answer = say("tag", review, *TAG, item, "--at", at(untold.number), "--box", box, "--measure", "--note", "left arm")
    assert answer.code == 0, answer.told
    assert answer.told.count("\n") == 1
    what = "the number's" if item == "number" else "its"
    assert answer.told.startswith(f"the tag is kept, but {what} colour cannot be told: ")
    assert why in answer.told
    assert answer.told.endswith(f"; {LOOK_AGAIN}\n")
    (tag,) = read(review).tags
    assert (str(tag.region), tag.facts, tag.note) == (box, (), "left arm")
    assert say("findings", review).code == 0


def test_what_was_seen_counts_where_nothing_can_be_measured(say: Say, bad: Path, tmp_path: Path) -> None:
    review = made_review(say, bad, tmp_path)
    region = ["--at", IN_LIGHT, "--box", UNTOLD["one pixel"].regions["box"], "--measure"]
    answer = say("tag", review, *TAG, "arm sleeve", *region, "--fact", "colour=black")
    assert answer.told == ("the tag is kept, but its colour cannot be told: 1 px across, 6 are needed; what you saw counts\n")
    length = ["--at", IN_LIGHT, "--length", "width_in=10,10,11,11", "--known", "boys' ball=76,60,140,60"]
    (told,) = say("tag", review, *TAG, "headband", *length).told.splitlines()
    assert told == (
        "the tag is kept, but the width cannot be told: the item is 1 px long, 5 are needed; "
        "add --fact width_in=VALUE when tagging, or at the desk measure it anew or say it by eye"
    )
    seen = say("tag", review, *TAG, "headband", *length, "--fact", "width_in=2")
    assert seen.told.endswith("5 are needed; what you saw counts\n")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--box", CLOTH, "--white", inside(WALL)], "--white: nothing is to be measured; give --measure too"),
        (["--box", CLOTH, "--jersey", inside(WALL)], "--jersey: nothing is to be measured; give --measure too"),
        (["--white", inside(WALL)], "--white: there is no region to measure; give --box x,y,width,height"),
        (["--measure"], "--measure: there is no region to measure; give --box x,y,width,height"),
    ],
)
def test_words_that_go_with_measuring(say: Say, bad: Path, tmp_path: Path, words: list[object], told: str) -> None:
    answer = say("tag", made_review(say, bad, tmp_path), *TAG, "number", "--at", IN_LIGHT, *words)
    assert (answer.code, answer.line) == (2, f"filmreview: {told}")


@pytest.mark.parametrize("box", ["150,140,12,0", "150,140,0,0"])
@pytest.mark.parametrize("option", ["--box", "--white", "--number", "--jersey"])
def test_a_region_of_no_pixels_is_refused(say: Say, bad: Path, option: str, box: str) -> None:
    with_it = {"--box": [], "--white": ["--box", CLOTH], "--number": [], "--jersey": ["--number", CLOTH]}
    answer = say("measure", bad, "--at", IN_LIGHT, *with_it[option], option, box)
    assert answer.code == 2
    assert answer.line == (f'filmreview: {option}: the region "{box}" holds no pixel; give a width and height of 1 or more'), (
        answer.line
    )


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_white_is_refused_and_nothing_is_put_down(say: Say, bad: Path, tmp_path: Path, name: str) -> None:
    box, why, todo = NO_WHITE[name].box, NO_WHITE[name].why, NO_WHITE[name].todo
    review = made_review(say, bad, tmp_path)
    before = read(review)
    for words in (
        ["measure", bad, "--at", IN_LIGHT, "--box", CLOTH, "--white", box],
        ["measure", bad, "--at", IN_LIGHT, "--box", CLOTH, "--match", f"{box}=white"],
        ["measure", bad, "--at", IN_LIGHT, "--number", CLOTH, "--white", box],
        ["tag", review, *TAG, "arm sleeve", "--at", IN_LIGHT, "--box", CLOTH, "--measure", "--white", box],
        ["tag", review, *TAG, "number", "--at", IN_LIGHT, "--box", CLOTH, "--measure", "--white", box],
    ):
        answer = say(*words)
        assert answer.code == 2
        assert f"white at {box}: this region cannot serve: {why}" in answer.line
        assert answer.line.endswith(todo)
    assert read(review) == before


def test_a_black_frame_holds_no_white(say: Say, bad: Path) -> None:
    answer = say("measure", bad, "--at", IN_BLACK, "--box", CLOTH, "--white", Box(10, 10, 20, 20))
    assert answer.line.endswith("this region cannot serve: the picture is black; take a frame with a picture in colour")
