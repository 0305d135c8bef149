"""Clips of the made films, and the films that were written read back without the code under test."""

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import av
import made
import numpy as np
from burnt import read_number
from numpy.typing import NDArray

from filmreview.film.film import Film
from filmreview.film.moment import Moment, Span
from filmreview.lessons.clip import Clip, Hold
from filmreview.lessons.writing import write_lesson
from filmreview.review.model import FaceChoice


def moments(name: str) -> list[Moment]:
    """The moment of every frame of a made film by its truth, and of its end."""
    truth = made.truth(name)
    base = made.time_base(name)
    pts = truth["pts"]
    return [Moment(one, base) for one in [*pts, 2 * pts[-1] - pts[-2]]]


def span_of(name: str, first: int, last: int) -> Span:
    """The frames from first up to last, not included, by the truth."""
    all_moments = moments(name)
    return Span(all_moments[first], all_moments[last])


def span_in(film: Film, first: int, last: int) -> Span:
    """The same of an open film, for those that carry no times."""
    end = film.moment_of(last) if last < len(film.index) else Moment(film.index.end, film.index.time_base)
    return Span(film.moment_of(first), end)


def nobody(span: Span) -> tuple[FaceChoice, ...]:
    """Somebody has looked and seen nobody."""
    return (FaceChoice("c1", "f1", span.start, span.end, "nobody on it"),)


def a_clip(film: str, first: int, last: int, **more: Any) -> Clip:
    """A clip of a made film on which nobody is."""
    span = span_of(film, first, last)
    return Clip(made.film(film), span, **{"faces": nobody(span), **more})


@dataclass(frozen=True)
class ReadBack:
    """A written film. pictures: R'G'B'. times: seconds. samples: (n, channels), the first at 0 s; rate 0 without sound."""

    pictures: list[NDArray[np.uint8]]
    times: list[Fraction]
    samples: NDArray[np.float32]
    rate: int
    seconds: Fraction
    context: tuple[int, int, int, int]
    chapters: list[tuple[Fraction, Fraction, str]]

    @property
    def numbers(self) -> list[int | None]:
        """The numbers burnt into the pictures."""
        return [read_number(picture) for picture in self.pictures]


def read_back(path: Path) -> ReadBack:
    """Read a written film with the library alone. context: primaries, transfer, matrix, range as the pictures tell them."""
    with av.open(str(path)) as film:
        stream = film.streams.video[0]
        frames = list(film.decode(stream))
        base = stream.time_base
        codes = (
            int(frames[0].color_primaries),
            int(frames[0].color_trc),
            int(frames[0].colorspace),
            int(frames[0].color_range),
        )
        pictures = [frame.to_ndarray(format="rgb24") for frame in frames]
        seconds = Fraction(film.duration, 1_000_000)
        chapters = [
            (one["start"] * one["time_base"], one["end"] * one["time_base"], one["metadata"]["title"])
            for one in film.chapters()
        ]
    with av.open(str(path)) as film:
        samples, rate = np.zeros((0, 1), np.float32), 0
        if film.streams.audio:
            heard = list(film.decode(film.streams.audio[0]))
            rate = heard[0].sample_rate
            first = round(heard[0].pts * heard[0].time_base * rate)
            whole = np.concatenate([block.to_ndarray().T for block in heard])
            samples = np.concatenate([np.zeros((first, whole.shape[1]), np.float32), whole])
    return ReadBack(pictures, [frame.pts * base for frame in frames], samples, rate, seconds, codes, chapters)


def short_lesson(folder: Path) -> tuple[Path, list[int], list[tuple[Fraction, Fraction, str]]]:
    """A lesson of two clips with copied and encoded pictures, a still and sound; its numbers and chapters, worked out here."""
    held = Hold(moments("b-frames.mp4")[44], Fraction(2, 5))
    clips = [
        a_clip("b-frames.mp4", 40, 100, name="Sleeve, home 4", hold=held, question="May it be worn?"),
        a_clip("constant.mp4", 25, 65, name="Über den Rand"),
    ]
    written = write_lesson(clips, folder / "lesson.mp4", "question", title="Our lesson")
    assert written.copied == 48
    first, second = (made.truth(name)["numbers"] for name in ("b-frames.mp4", "constant.mp4"))
    numbers = first[40:45] + [first[44]] * 10 + first[45:100] + second[25:65]
    between, end = Fraction(70, 25), Fraction(70, 25) + Fraction(40 * 1001, 30_000)
    return written.path, numbers, [(Fraction(0), between, clips[0].name), (between, end, clips[1].name)]
