"""Questions without film in a lesson: cards alone, between clips or without any."""

from fractions import Fraction
from pathlib import Path

import made
import webvtt

from filmreview.lessons.captions import write_captions
from filmreview.lessons.clip import Card, Clip, Said
from filmreview.lessons.writing import write_clip, write_lesson
from tests.lessons.clip_making import a_clip, read_back

SAID = Said("2. Undershirt", Card(("May it be worn?", "Home 4, white"), Fraction(2)), Card(("Legal",), Fraction(3)))


def test_between_clips(tmp_path: Path) -> None:
    pieces: list[Clip | Said] = [a_clip("constant.mp4", 30, 60, name="1."), SAID, a_clip("b-frames.mp4", 0, 10, name="3.")]
    written = write_lesson(pieces, tmp_path / "lesson.mp4", "answer")
    write_captions(pieces, tmp_path / "lesson.vtt", "answer")
    got = read_back(written.path)
    cards = [None] * 60 + [None] * 90  # at the higher of the films' rates, 29.97
    assert got.numbers == made.truth("constant.mp4")["numbers"][30:60] + cards + made.truth("b-frames.mp4")["numbers"][:10]
    assert written.copied == 30
    assert [name for _, _, name in got.chapters] == ["1.", "2. Undershirt", "3."]
    first = Fraction(30 * 1001, 30_000)
    assert abs(got.chapters[1][0] - first) <= Fraction(1, 1000)
    assert abs(got.chapters[2][0] - first - Fraction(150 * 1001, 30_000)) <= Fraction(1, 1000)
    cues = [cue.text for cue in webvtt.read(str(tmp_path / "lesson.vtt"))]
    assert cues == ["May it be worn?\nHome 4, white", "Legal"]


def test_a_lesson_without_any_film(tmp_path: Path) -> None:
    for version, pictures in (("question", 50), ("answer", 125)):
        written = write_lesson([SAID], tmp_path / "lesson.mp4", version)
        got = read_back(written.path)
        assert len(got.pictures) == pictures
        assert got.pictures[0].shape == (720, 1280, 3)
        assert got.rate == 0
        assert written.notes == ()
    write_clip(SAID, tmp_path / "small.mp4", "question", height=360)
    assert read_back(tmp_path / "small.mp4").pictures[0].shape == (360, 640, 3)
    assert abs(got.pictures[0].astype(int) - got.pictures[-1].astype(int)).max() > 50  # the answer is another card
