"""The sound keeps to its pictures: a click is heard where its flash is seen."""

from fractions import Fraction
from pathlib import Path

import av
import made
import numpy as np
import pytest
from drawn import tone
from footage import real_footage
from numpy.typing import NDArray

from filmreview.film.film import open_film
from filmreview.film.moment import Span
from filmreview.lessons.clip import Card, Clip, Hold, Slow
from filmreview.lessons.writing import write_clip, write_lesson
from tests.lessons.clip_making import ReadBack, a_clip, moments, nobody, read_back, span_in

FRAME_OF_SOUND = Fraction(1024, 48_000)  # AAC: 1024 samples (ISO/IEC 14496-3)
FLASHES = (12, 40, 61, 88)
PICTURES, RATE = 100, 25


def flashing(path: Path, kind: str, layout: str = "mono", sound_rate: int = 48_000) -> Path:
    """Four seconds of grey with a white picture and a click of 2 ms at each of FLASHES; variable: every third step doubled."""
    ticks, at = [], 0
    for number in range(PICTURES):
        ticks.append(at)
        at += 2 if kind == "variable" and number % 3 == 0 else 1
    seconds = [Fraction(tick, RATE) for tick in [*ticks, at]]
    options = {"mpegts_copyts": "1"} if path.suffix == ".ts" else {}
    with av.open(str(path), "w", options=options) as out:
        pictures = out.add_stream(
            "libx264", rate=RATE, width=160, height=90, options={"preset": "veryfast", "x264-params": "keyint=20"}
        )
        pictures.codec_context.time_base = Fraction(1, 90_000)
        sound = out.add_stream("aac", rate=sound_rate, layout=layout)
        sound.bit_rate = 128_000
        packets = []
        for number, tick in enumerate(ticks):
            shade = 235 if number in FLASHES else 60
            frame = av.VideoFrame.from_ndarray(
                np.concatenate([np.full((90, 160), shade, np.uint8), np.full((45, 160), 128, np.uint8)]), format="yuv420p"
            )
            frame.pts, frame.time_base = tick * 90_000 // RATE, Fraction(1, 90_000)
            packets += pictures.encode(frame)
        whole = np.zeros((1 if layout == "mono" else 2, round(seconds[-1] * sound_rate)), np.float32)
        for number in FLASHES:
            first = round(seconds[number] * sound_rate)
            whole[:, first : first + sound_rate // 500] = 0.8 * np.sign(tone(sound_rate, 1, sound_rate // 500, 3000))
        for first in range(0, whole.shape[1], 1024):
            block = av.AudioFrame.from_ndarray(
                np.ascontiguousarray(whole[:, first : first + 1024]), format="fltp", layout=layout
            )
            block.sample_rate, block.pts, block.time_base = sound_rate, first, Fraction(1, sound_rate)
            packets += sound.encode(block)
        packets += [*pictures.encode(None), *sound.encode(None)]
        for packet in sorted(packets, key=lambda one: one.dts * one.time_base):
            out.mux(packet)
    return path


def flashes(got: ReadBack) -> list[Fraction]:
    white = [picture.mean() > 180 for picture in got.pictures]
    return [at for at, now, before in zip(got.times, white, [False, *white], strict=False) if now and not before]


def clicks(samples: NDArray[np.float32], rate: int) -> list[Fraction]:
    loud = np.flatnonzero(np.abs(samples).max(axis=1) > 0.2)
    return [Fraction(int(at), rate) for at, before in zip(loud, [-rate, *loud], strict=False) if at - before > rate // 10]


@pytest.mark.parametrize(
    ("name", "kind", "layout", "sound_rate"),
    [
        ("constant.mp4", "constant", "mono", 48_000),
        ("variable.mp4", "variable", "stereo", 44_100),
        ("constant.ts", "constant", "stereo", 48_000),
        ("constant.mkv", "constant", "mono", 22_050),
    ],
)
def test_clicks_are_heard_where_their_flash_is_seen(tmp_path: Path, name: str, kind: str, layout: str, sound_rate: int) -> None:
    path = flashing(tmp_path / name, kind, layout, sound_rate)
    with open_film(path) as film:
        span, held, slow = span_in(film, 5, 95), film.moment_of(50), span_in(film, 20, 30)
    clip = Clip(
        path, span, hold=Hold(held, Fraction(1)), slow=Slow(slow, Fraction(1, 2)), title=Card(("One",), Fraction(1, 2)),
        faces=nobody(span),
    )  # fmt: skip
    write_clip(clip, tmp_path / "clip.mp4", "question")
    got = read_back(tmp_path / "clip.mp4")
    seen, heard = flashes(got), clicks(got.samples, got.rate)
    assert len(seen) == len(heard) == 4
    assert max(abs(a - b) for a, b in zip(seen, heard, strict=True)) < FRAME_OF_SOUND
    assert (got.rate, got.samples.shape[1]) == (sound_rate, 1 if layout == "mono" else 2)
    assert abs(len(got.samples) - got.seconds * got.rate) < 2 * 1024


def test_sound_is_exact_to_the_sample(tmp_path: Path) -> None:
    """AAC, twice, loses 0.003; a shift by one sample of the 440 Hz tone would leave an error of 0.008."""
    clip = a_clip("b-frames.mp4", 25, 75, hold=Hold(moments("b-frames.mp4")[49], Fraction(1)))
    write_clip(clip, tmp_path / "clip.mp4", "question")
    got = read_back(tmp_path / "clip.mp4")
    for place, source in ((4_800, 52_800), (100_800, 100_800)):  # before the hold; after it, a second later
        away = [
            float(
                np.sqrt(np.mean((got.samples[place : place + 30_000, 0] - tone(48_000, source + shift, 30_000, 440)[0]) ** 2))
            )
            for shift in (-1, 0, 1)
        ]
        assert away[1] < 0.004, away
        assert away[1] < min(away[0], away[2]) / 2, away
    assert np.abs(got.samples[60_000:90_000]).max() < 0.002  # silence while the frame is held


def test_muted_and_soundless(tmp_path: Path) -> None:
    muted = write_clip(a_clip("b-frames.mp4", 0, 10, sound="muted"), tmp_path / "muted.mp4", "question")
    without = write_clip(a_clip("constant.mp4", 0, 10), tmp_path / "without.mp4", "question")
    assert read_back(muted.path).rate == read_back(without.path).rate == 0
    assert muted.notes == ()
    assert without.notes == ("constant.mp4: the film has no sound",)


def test_many_channels_become_two(tmp_path: Path) -> None:
    path = real_footage("bigbuckbunny.mp4")
    with open_film(path) as film:
        span = Span(film.moment_at(Fraction(1)), film.moment_at(Fraction(2)))
    write_clip(Clip(path, span, faces=nobody(span)), tmp_path / "clip.mp4", "question", height=120)
    got = read_back(tmp_path / "clip.mp4")
    assert got.samples.shape[1] == 2
    assert np.abs(got.samples).max() > 0.01


def test_a_lesson_joins_sounds_of_different_kinds(tmp_path: Path) -> None:
    """Expected times: flashes of two films behind each other, one at another rate of sound."""
    one, two = flashing(tmp_path / "one.mp4", "constant"), flashing(tmp_path / "two.mp4", "constant", "stereo", 44_100)
    clips = []
    for path in (one, two):
        with open_film(path) as film:
            span = span_in(film, 5, 95)
        clips.append(Clip(path, span, faces=nobody(span)))
    clips.insert(1, a_clip("constant.mp4", 0, 30))
    write_lesson(clips, tmp_path / "lesson.mp4", "question")
    got = read_back(tmp_path / "lesson.mp4")
    heard = clicks(got.samples, got.rate)
    gap = Fraction(90, 25) + Fraction(30 * 1001, 30_000)
    expected = [start + Fraction(number - 5, 25) for start in (Fraction(0), gap) for number in FLASHES]
    assert (got.rate, got.samples.shape[1]) == (48_000, 2)
    assert len(heard) == 8
    assert max(abs(a - b) for a, b in zip(heard, expected, strict=True)) < FRAME_OF_SOUND
    assert made.truth("constant.mp4")["numbers"][:30] == [number for number in got.numbers if number is not None]
