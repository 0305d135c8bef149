"""Captions of clips: read by a WebVTT library, at the times at which the film says it; hostile text stays text."""

from fractions import Fraction
from pathlib import Path

import pytest
import webvtt

from filmreview.errors import FilmReviewError
from filmreview.lessons.captions import write_captions
from filmreview.lessons.clip import Card, Hold
from filmreview.lessons.writing import write_lesson
from tests.lessons.clip_making import a_clip, moments, read_back

HOSTILE = "<b onclick=x>--> & NOTE\n\n00:00.000 --> 00:09.000\nWEBVTT"


def test_the_times_are_those_of_the_film(tmp_path: Path) -> None:
    hold = Hold(moments("b-frames.mp4")[24], Fraction(2), Fraction(3))
    clips = [
        a_clip(
            "b-frames.mp4", 0, 50, title=Card(("One",), Fraction(1)), hold=hold, question="May it be worn?",
            ruling=("Illegal", "Rule 3-5-4"),
        ),
        a_clip("constant.mp4", 0, 30, hold=Hold(moments("constant.mp4")[0], Fraction(1)), question="And this?"),
    ]  # fmt: skip
    write_captions(clips, tmp_path / "lesson.vtt", "answer")
    cues = [(cue.start, cue.end, cue.text) for cue in webvtt.read(str(tmp_path / "lesson.vtt"))]
    # 1 s of title, 25 frames of play, 2 s of question, 3 s of ruling, 25 frames; then one frame and a second (30 stills)
    assert cues == [
        ("00:00:00.000", "00:00:01.000", "One"),
        ("00:00:02.000", "00:00:04.000", "May it be worn?"),
        ("00:00:04.000", "00:00:07.000", "Illegal\nRule 3-5-4"),
        ("00:00:08.033", "00:00:09.034", "And this?"),
    ]
    write_lesson(clips, tmp_path / "lesson.mp4", "answer")
    got = read_back(tmp_path / "lesson.mp4")
    assert got.chapters[1][0] == 8
    assert len(got.pictures) == 25 + 25 + 50 + 75 + 25 + 30 + 30


def test_hostile_text_stays_text(tmp_path: Path) -> None:
    clip = a_clip("constant.mp4", 0, 5, hold=Hold(moments("constant.mp4")[2], Fraction(1)), question=HOSTILE, ruling=("", " "))
    write_captions([clip], tmp_path / "clip.vtt", "answer")
    text = (tmp_path / "clip.vtt").read_text()
    assert "<b" not in text
    cues = list(webvtt.read(str(tmp_path / "clip.vtt")))
    assert len(cues) == 1
    assert text.count("-->") == 1


def test_a_missing_film_is_one_clear_line(tmp_path: Path) -> None:
    clip = a_clip("constant.mp4", 0, 5)
    with pytest.raises(FilmReviewError, match="there is no such folder"):
        write_captions([clip], tmp_path / "missing" / "clip.vtt", "question")
