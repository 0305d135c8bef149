"""filmreview measure on films with flat patches of known colour."""

import json

import pytest

from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import lab_of_code
from tests.commandline.conftest import FILMS, Say

NAMES = ["colour-709-limited.mp4", "colour-709-full.mp4", "colour-601-limited.mp4", "colour-601-full.mp4"]


def patches(name: str) -> list[tuple[str, str]]:
    """Box and "#rrggbb" of each flat patch."""
    known = json.loads((FILMS / f"{name}.truth.json").read_text(encoding="utf-8"))
    return [(",".join(map(str, one["box"])), "#" + "".join(f"{part:02x}" for part in one["rgb"])) for one in known["patches"]]


@pytest.mark.parametrize("name", NAMES)
def test_a_flat_patch_is_measured_within_two_levels_worth_of_colour(say: Say, name: str) -> None:
    """Limited range and H.264 move a flat patch by two 8-bit levels at most, which is under 2 dE00 for these patches."""
    measured = 0
    for box, code in patches(name):
        data = say("measure", FILMS / name, "--at", "0.2", "--box", box, "--json").data
        if data["colour"] is None:
            assert data["clipped"] > 0.5
            continue
        measured += 1
        assert float(ciede2000(data["colour"]["lab"], lab_of_code(code))) < 2.0, (box, code, data["colour"])
        assert data["solid"] is True
        assert data["film"]["matrix_assumed"] is False
    assert measured >= 3


def test_words_and_data_agree(say: Say) -> None:
    name = "colour-709-limited.mp4"
    for box, _ in patches(name):
        data = say("measure", FILMS / name, "--at", "0.2", "--box", box, "--json").data
        words = say("measure", FILMS / name, "--at", "0.2", "--box", box).out
        assert (data["told_name"] or "cannot be told") in words.splitlines()[0]
        if data["colour"]:
            likeliest, chance = data["colour"]["names"][0]
            assert data["told_name"] == (likeliest if chance >= 0.95 else None)
        assert f"view {data['view']['word']}" in words


def test_the_sharpest_of_several_frames_never_makes_it_more_certain(say: Say) -> None:
    name = "colour-709-limited.mp4"
    box = patches(name)[2][0]
    one = say("measure", FILMS / name, "--at", "0.2", "--box", box, "--json").data
    five = say("measure", FILMS / name, "--at", "0.2", "--box", box, "--frames", "5", "--json").data
    assert "frames" in five["parts"]
    assert "frames" not in one["parts"]
    assert five["parts"]["light"] == pytest.approx(one["parts"]["light"], rel=0.05)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--box", "300,100,100,100"], "the region 300,100,100,100 reaches outside the picture of 320x180 pixels"),
        (["--box", "1,2,3"], '--box: "1,2,3" is not a region; write x,y,width,height in pixels'),
        (["--box", "0,50,80,42", "--match", "80,50,80,42=wite"], '--match: unknown colour "wite"'),
        (["--box", "0,50,80,42", "--match", "80,50,80,42"], "is not BOX=COLOUR"),
        (["--box", "0,50,80,42", "--white", "80,50,80,42"], "this region cannot serve: "),
        (["--box", "0,50,80,42", "--frames", "0"], "0 frames cannot be used"),
    ],
)
def test_what_cannot_be_measured_is_one_line(say: Say, words: list[str], told: str) -> None:
    answer = say("measure", FILMS / "colour-709-limited.mp4", "--at", "0.2", *words)
    assert answer.code == 2
    assert told in answer.line
