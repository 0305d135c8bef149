"""film, frame and measure on the made films, against their truth files."""

import json
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from fixtures.films.burnt import read_number
from tests.commandline.conftest import FILMS, Say


def truth(name: str) -> dict:
    return json.loads((FILMS / f"{name}.truth.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", ["constant.mp4", "variable.mp4", "edit-list.mp4", "late-start.mp4", "transport.ts"])
def test_the_frame_at_its_own_time_carries_its_number(say: Say, tmp_path: Path, name: str) -> None:
    known = truth(name)
    base = Fraction(known["time_base"])
    for number in (0, 1, len(known["pts"]) // 2, len(known["pts"]) - 1):
        seconds = (known["pts"][number] - known["pts"][0]) * base
        at = f"{float(seconds) + 0.0004:.6f}"
        answer = say("frame", FILMS / name, "--at", at, "--to", tmp_path / "frame.png")
        assert answer.code == 0, answer.told
        assert answer.data["number"] == number
        assert answer.data["pts"] == known["pts"][number]
        picture = np.asarray(Image.open(tmp_path / "frame.png"))
        assert read_number(picture) == known["numbers"][number]


def test_film_tells_the_same_in_words_and_as_data(say: Say) -> None:
    data = say("film", FILMS / "turned-90.mp4", "--json").data
    words = say("film", FILMS / "turned-90.mp4").out
    assert (data["width"], data["height"]) == (data["stored_height"], data["stored_width"])
    assert f"{data['frames']} frames" in words
    assert f"{data['width']}x{data['height']} pixels upright" in words
    assert "1 channel\n" in say("film", FILMS / "b-frames.mp4").out


@pytest.mark.parametrize(("name", "word"), [("truncated.mp4", "cut off"), ("damaged.ts", "damaged")])
def test_trouble_is_told_and_the_film_still_opens(say: Say, name: str, word: str) -> None:
    answer = say("film", FILMS / name, "--json")
    assert answer.code == 0
    assert any(word in one for one in answer.data["trouble"]), answer.data["trouble"]
    assert answer.data["frames"] > 0


def test_assumed_colours_are_told(say: Say) -> None:
    assert say("film", FILMS / "colour-709-untagged.mp4", "--json").data["colour"]["matrix_assumed"] is True
    assert say("film", FILMS / "colour-709-limited.mp4", "--json").data["colour"] == {
        "matrix": "bt709", "matrix_assumed": False, "range": "limited", "range_assumed": False, "high_dynamic": None,
    }  # fmt: skip


def test_bad_films_are_refused_in_one_line(say: Say, tmp_path: Path) -> None:
    text, empty = tmp_path / "text.mp4", tmp_path / "empty.mp4"
    text.write_text("not a film\n" * 100, encoding="utf-8")
    empty.write_bytes(b"")
    for path, words in [
        (text, "text"),
        (empty, "empty"),
        (tmp_path, "folder"),
        (tmp_path / "missing.mp4", "no such file"),
        (FILMS / "sound-only.m4a", "sound"),
    ]:
        answer = say("film", path)
        assert answer.code == 2
        assert words in answer.line
        assert str(path) in answer.line


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--at", "59:00", "--to", "a.png"], "59:00.000 is past the end of the film"),
        (["--at", "half past", "--to", "a.png"], '--at: "half past" is not a time; write m:ss.mmm, h:mm:ss.mmm or seconds'),
        (["--number", "9999", "--to", "a.png"], "there is no frame 9999: the film has frames 0 to"),
        (["--at", "0", "--to", "a.jpg"], "does not end in .png"),
        (["--at", "0", "--to", "no/such/folder/a.png"], "no/such/folder"),
    ],
)
def test_a_frame_that_cannot_be(say: Say, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: list[str], told: str) -> None:
    monkeypatch.chdir(tmp_path)
    answer = say("frame", FILMS / "constant.mp4", *words)
    assert answer.code == 2
    assert told in answer.line
    assert list(tmp_path.iterdir()) == []
