"""A clip as it is asked for: which span of which film, what is held, marked, said, slowed and blurred.

Everything is a value; nothing is read from the film here. Moments are the film's own. `pictures.plan_of` turns a clip into the
row of pictures that is written, `writing.write_clip` writes it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.region import Region
from filmreview.film.colours import ColourSettings
from filmreview.film.moment import Moment, Span
from filmreview.review.model import Blur, FaceChoice

VERSIONS: tuple[str, ...] = ("question", "answer")
"""question: the clip asks and goes on. answer: after the question it also shows the ruling."""
MARK_LOOKS: tuple[str, ...] = ("dim", "outline")
SOUNDS: tuple[str, ...] = ("kept", "muted")
LONGEST_STILL = Fraction(120)  # seconds of a hold or a card: beyond that a mistake is likelier than a wish
SLOWEST = Fraction(1, 20)


@dataclass(frozen=True)
class Hold:
    """One exact frame that is held. seconds: with the question. answer_seconds: after it with the ruling, in the version
    that answers. Raises FilmReviewError for a length of 0 or less, or over LONGEST_STILL."""

    moment: Moment
    seconds: Fraction = Fraction(5)
    answer_seconds: Fraction = Fraction(6)

    def __post_init__(self) -> None:
        _check_still(self.seconds)
        _check_still(self.answer_seconds)


@dataclass(frozen=True)
class Mark:
    """How the item is marked while its frame is held. look: "dim" darkens everything else, "outline" draws a line around."""

    region: Region
    look: str = "dim"

    def __post_init__(self) -> None:
        if self.look not in MARK_LOOKS:
            raise unknown("way to mark", self.look, MARK_LOOKS)


@dataclass(frozen=True)
class Slow:
    """A stretch shown slower. rate: 1/2 shows it at half speed; it has no sound. Raises FilmReviewError unless
    SLOWEST <= rate < 1."""

    span: Span
    rate: Fraction

    def __post_init__(self) -> None:
        if not SLOWEST <= self.rate < 1:
            raise FilmReviewError(f"a speed of {self.rate} is not slow motion", todo=f"give one from {SLOWEST} to under 1")


@dataclass(frozen=True)
class Card:
    """Words on a plain ground before or after the clip, the first line larger. seconds: how long."""

    lines: tuple[str, ...]
    seconds: Fraction = Fraction(3)

    def __post_init__(self) -> None:
        _check_still(self.seconds)


@dataclass(frozen=True)
class Clip:
    """One clip.

    film: the file. span: what is played, the end not included. name: of its chapter. hold: the frame that is held, None for a
    clip that only plays. mark, inset: drawn on the held frame; inset: the marked region enlarged in a corner. question, ruling:
    said on the held frame; ruling: line by line, in the version that answers. sound: one of SOUNDS. slow: at most one stretch.
    title, end: cards. blurs: faces, followed. faces: what a person answered for them, without which nothing is written.
    colours: how the reviewer has the film's colours read.
    """

    film: Path
    span: Span
    name: str = ""
    hold: Hold | None = None
    mark: Mark | None = None
    inset: bool = False
    question: str = ""
    ruling: tuple[str, ...] = ()
    sound: str = "kept"
    slow: Slow | None = None
    title: Card | None = None
    end: Card | None = None
    blurs: tuple[Blur, ...] = ()
    faces: tuple[FaceChoice, ...] = ()
    colours: ColourSettings | None = None

    def __post_init__(self) -> None:
        if self.sound not in SOUNDS:
            raise unknown("word for the sound", self.sound, SOUNDS)
        if self.span.seconds <= 0:
            raise FilmReviewError("the clip's span holds no frame", where=str(self.film), todo="give an end after the start")
        if self.hold is not None and not self.covers(self.hold.moment):
            raise FilmReviewError("the held moment lies outside the clip's span", where=str(self.film), todo="widen the span")
        if self.slow is not None and not self._holds(self.slow.span):
            where = str(self.film)
            raise FilmReviewError("the slow stretch reaches outside the clip's span", where=where, todo="widen the span")

    def covers(self, moment: Moment) -> bool:
        """True when the moment lies in the clip's span."""
        return self.span.start.seconds <= moment.seconds < self.span.end.seconds

    def _holds(self, span: Span) -> bool:
        return self.span.start.seconds <= span.start.seconds and span.end.seconds <= self.span.end.seconds


@dataclass(frozen=True)
class Said:
    """A question that needs no film: cards alone. name: of its chapter. answer: shown only in the version that answers."""

    name: str
    question: Card
    answer: Card


Piece = Clip | Said
"""What a lesson is made of."""


def check_version(version: str) -> None:
    """Raise FilmReviewError for a version that is not one of VERSIONS."""
    if version not in VERSIONS:
        raise unknown("version", version, VERSIONS)


def _check_still(seconds: Fraction) -> None:
    if not 0 < seconds <= LONGEST_STILL:
        raise FilmReviewError(
            f"a still of {float(seconds):g} s cannot be shown", todo=f"give more than 0 and at most {LONGEST_STILL} seconds"
        )
