"""measure and tag on what cannot be measured: an unknown with its reason, or one line of what, where and what to do."""

from pathlib import Path

import pytest

from filmreview.facts.region import Box
from filmreview.review.reading import read
from tests.commandline.conftest import Say
from tests.measure.bad_films import BLOWN, CLOTH, WALL, inside, write_bad, write_monochrome

LIT, BLACK = "0.12", "0.52"  # seconds
ONE_PIXEL = "150,140,1,1"
TAG = ["--team", "visitor", "--player", "14", "--item"]
CASES = {
    "one pixel": (LIT, ONE_PIXEL, "1 px across"),
    "highlights": (LIT, str(inside(BLOWN)), "100% of the pixels are clipped"),
    "black": (BLACK, str(CLOTH), "the picture is black"),
}
REFUSED = {
    "wall": (
        str(inside(WALL)),
        "no lamp makes white look like that",
        "point at something that is white, not at a coloured wall",
    ),
    "highlights": (str(inside(BLOWN)), "100% of its pixels are clipped (2 % at most)", "point at a place less bright"),
    "one pixel": (ONE_PIXEL, "it is 1 px across", "mark 6 px across or more"),
}


@pytest.fixture(scope="module")
def bad(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_bad(tmp_path_factory.mktemp("bad") / "bad.mp4")


@pytest.fixture(scope="module")
def grey(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_monochrome(tmp_path_factory.mktemp("grey") / "grey.mp4")


def reviewed(say: Say, film: Path, folder: Path) -> Path:
    path = folder / "game.filmreview"
    made = say(
        "new", path, "--film", film, "--book", "nfhs", "--day", "2024-01-09", "--level", "varsity",
        "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green",
    )  # fmt: skip
    assert made.code == 0, made.told
    return path


@pytest.mark.parametrize("frames", ["1", "5"])
@pytest.mark.parametrize("name", CASES)
def test_a_colour_that_cannot_be_told(say: Say, bad: Path, name: str, frames: str) -> None:
    at, box, why = CASES[name]
    words = say("measure", bad, "--at", at, "--box", box, "--frames", frames)
    assert (words.code, words.told) == (0, "")
    assert f"the colour cannot be told: {why}" in words.out.splitlines()[0]
    data = say("measure", bad, "--at", at, "--box", box, "--frames", frames, "--json").data
    assert (data["colour"], data["facts"], data["solid"]) == (None, [], None)
    assert data["why_not"].startswith(why)


@pytest.mark.parametrize("name", CASES)
def test_a_number_that_cannot_be_told(say: Say, bad: Path, name: str) -> None:
    at, box, why = CASES[name]
    words = say("measure", bad, "--at", at, "--number", box)
    assert words.code == 0
    assert "cannot be told" in words.out.splitlines()[0]
    assert why in words.out.splitlines()[0]
    assert say("measure", bad, "--at", at, "--number", box, "--json").data["facts"] == []


def test_a_film_without_colour(say: Say, grey: Path, tmp_path: Path) -> None:
    for option in ("--box", "--number"):
        words = say("measure", grey, "--at", LIT, option, CLOTH)
        assert (words.code, words.told) == (0, "")
        assert "cannot be told: the film is monochrome" in words.out.splitlines()[0]
    refused = say("measure", grey, "--at", LIT, "--box", CLOTH, "--white", inside(BLOWN))
    assert refused.code == 2
    assert refused.line.endswith("the film is monochrome; take a frame with a picture in colour")
    review = reviewed(say, grey, tmp_path)
    for item in ("arm sleeve", "number"):
        answer = say("tag", review, *TAG, item, "--at", LIT, "--box", CLOTH, "--measure")
        assert (answer.code, answer.told.endswith("colour cannot be told: the film is monochrome\n")) == (0, True)
    assert [tag.facts for tag in read(review).tags] == [(), ()]


@pytest.mark.parametrize("item", ["arm sleeve", "number"])
@pytest.mark.parametrize("name", CASES)
def test_the_tag_is_kept_without_what_cannot_be_told(say: Say, bad: Path, tmp_path: Path, name: str, item: str) -> None:
    at, box, why = CASES[name]
    review = reviewed(say, bad, tmp_path)
    answer = say("tag", review, *TAG, item, "--at", at, "--box", box, "--measure", "--note", "left arm")
    assert answer.code == 0, answer.told
    assert answer.told.count("\n") == 1
    assert "colour cannot be told: " in answer.told
    assert why in answer.told
    (tag,) = read(review).tags
    assert (str(tag.region), tag.facts, tag.note) == (box, (), "left arm")
    assert say("findings", review).code == 0


@pytest.mark.parametrize("box", ["150,140,12,0", "150,140,0,0"])
@pytest.mark.parametrize("option", ["--box", "--white", "--number", "--jersey"])
def test_a_region_of_no_pixels_is_refused(say: Say, bad: Path, option: str, box: str) -> None:
    with_it = {"--box": [], "--white": ["--box", CLOTH], "--number": [], "--jersey": ["--number", CLOTH]}
    answer = say("measure", bad, "--at", LIT, *with_it[option], option, box)
    assert answer.code == 2
    assert answer.line == (f'filmreview: {option}: the region "{box}" holds no pixel; give a width and height of 1 or more'), (
        answer.line
    )


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_white_is_refused_and_nothing_is_put_down(say: Say, bad: Path, tmp_path: Path, name: str) -> None:
    box, why, todo = REFUSED[name]
    review = reviewed(say, bad, tmp_path)
    before = read(review)
    for words in (
        ["measure", bad, "--at", LIT, "--box", CLOTH, "--white", box],
        ["measure", bad, "--at", LIT, "--box", CLOTH, "--match", f"{box}=white"],
        ["measure", bad, "--at", LIT, "--number", CLOTH, "--white", box],
        ["tag", review, *TAG, "arm sleeve", "--at", LIT, "--box", CLOTH, "--measure", "--white", box],
        ["tag", review, *TAG, "number", "--at", LIT, "--box", CLOTH, "--measure", "--white", box],
    ):
        answer = say(*words)
        assert answer.code == 2
        assert f"white at {box}: this cannot be the reference: {why}" in answer.line
        assert answer.line.endswith(todo)
    assert read(review) == before


def test_a_black_frame_holds_no_white(say: Say, bad: Path) -> None:
    answer = say("measure", bad, "--at", BLACK, "--box", CLOTH, "--white", Box(10, 10, 20, 20))
    assert answer.line.endswith("this cannot be the reference: the picture is black; take a frame with a picture in colour")
