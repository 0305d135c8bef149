"""Which pictures a clip is made of: the plan, worked out from the film's index without decoding anything.

A clip is: its title card; its span, frame by frame, up to the held frame; that frame held with the question, and in the version
that answers held on with the ruling; the rest of the span; its end card. A still is the same picture repeated at the film's
rate, so that every player can stop and start anywhere in it.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

import numpy as np

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.moment import Span, format_time
from filmreview.lessons.clip import Card, Clip, Piece, Said, check_version

USUAL_RATE = Fraction(30)  # of stills, where the film's own cannot be right
CARD_RATE = Fraction(25)  # of a lesson that has no film
_SENSIBLE_RATES = (Fraction(5), Fraction(120))


class Look(StrEnum):
    """What is drawn over a picture, or instead of one."""

    TITLE = "title"
    PLAY = "play"
    SLOW = "slow"
    QUESTION = "question"
    ANSWER = "answer"
    END = "end"


@dataclass(frozen=True)
class Shown:
    """One picture of the clip. source: the number of its frame in the film, None for a card. at, length: seconds from the
    clip's start, exact."""

    source: int | None
    look: Look
    at: Fraction
    length: Fraction


@dataclass(frozen=True)
class Heard:
    """A stretch of the clip that has the film's sound. at: seconds from the clip's start. start, end: seconds on the film's
    own clock."""

    at: Fraction
    start: Fraction
    end: Fraction


@dataclass(frozen=True)
class Plan:
    """A piece of a lesson as it will be written. pictures: in order, without gaps. rate: stills a second."""

    piece: Piece
    version: str
    rate: Fraction
    pictures: tuple[Shown, ...]
    heard: tuple[Heard, ...]

    @property
    def clip(self) -> Clip:
        """The piece, which is a clip."""
        assert isinstance(self.piece, Clip), "asked of a question without film"
        return self.piece

    @property
    def seconds(self) -> Fraction:
        """How long the clip is."""
        return self.pictures[-1].at + self.pictures[-1].length

    def first_of(self, look: Look) -> Fraction | None:
        """When a look begins, seconds from the clip's start; None when the clip has none of it."""
        return next((one.at for one in self.pictures if one.look is look), None)

    def end_of(self, look: Look) -> Fraction | None:
        """When a look is over for good, seconds from the clip's start; None when the clip has none of it."""
        return next((one.at + one.length for one in reversed(self.pictures) if one.look is look), None)


def pictures_of(clip: Clip, film: Film, version: str) -> tuple[Shown, ...]:
    """The pictures of `plan_of`."""
    return plan_of(clip, film, version).pictures


def plan_of(clip: Clip, film: Film, version: str) -> Plan:
    """The plan of a clip. film: the clip's own, open. version: one of VERSIONS.

    Raises FilmReviewError when the span reaches outside the film or holds no frame, or the held moment is no frame of it.
    """
    check_version(version)
    first, last = frames_of(clip.span, film)
    rate = still_rate(film)
    pictures = _placed(list(_parts(clip, film, version, rate, first, last)))
    heard = tuple(_heard(pictures, film)) if clip.sound == "kept" else ()
    return Plan(clip, version, rate, pictures, heard)


def plans_of(pieces: Sequence[Piece], films: Sequence[Film | None], version: str) -> list[Plan]:
    """The plans of the pieces of a lesson. films: of each, open; None for a question without film, which takes its rate from
    the others. Raises as `plan_of`."""
    rate = max((still_rate(film) for film in films if film is not None), default=CARD_RATE)
    plans = []
    for piece, film in zip(pieces, films, strict=True):
        if isinstance(piece, Said):
            plans.append(_plan_of_said(piece, version, rate))
        else:
            assert film is not None
            plans.append(plan_of(piece, film, version))
    return plans


def card_of(piece: Piece, look: Look) -> Card | None:
    """The card that is shown alone with this look; None when there is none."""
    if isinstance(piece, Said):
        return {Look.QUESTION: piece.question, Look.ANSWER: piece.answer}.get(look)
    return {Look.TITLE: piece.title, Look.END: piece.end}.get(look)


def frames_of(span: Span, film: Film) -> tuple[int, int]:
    """The numbers of the frames whose moments lie in a span, the last one not included.

    Raises FilmReviewError when the span reaches outside the film or holds no frame.
    """
    index, base = film.index, film.index.time_base
    start, end = span.start.seconds, span.end.seconds
    if start < film.start.seconds or end > index.end * base:
        told = " to ".join(format_time(one - film.start.seconds) for one in (start, end))
        raise FilmReviewError(
            f"the span {told} reaches outside the film, which is {format_time(film.info.duration)} long",
            where=str(film.path),
            todo="give a span inside it",
        )
    first, last = (int(np.searchsorted(index.pts, _ticks(one / base), side="left")) for one in (start, end))
    if first >= last:
        raise FilmReviewError("the span holds no frame of the film", where=str(film.path), todo="widen the span")
    return first, last


def still_rate(film: Film) -> Fraction:
    """Pictures a second of a still: the film's own rate where it is a sensible one."""
    low, high = _SENSIBLE_RATES
    return film.info.rate if low <= film.info.rate <= high else USUAL_RATE


def _plan_of_said(said: Said, version: str, rate: Fraction) -> Plan:
    check_version(version)
    looks = (Look.QUESTION, Look.ANSWER) if version == "answer" else (Look.QUESTION,)
    cards = [(look, card) for look in looks if (card := card_of(said, look)) is not None]
    parts = [part for look, card in cards for part in _still(None, look, card.seconds, rate)]
    return Plan(said, version, rate, _placed(parts), ())


def _placed(parts: list[tuple[int | None, Look, Fraction]]) -> tuple[Shown, ...]:
    """Pictures one after the other, from their source, look and length."""
    ats = itertools.accumulate((length for _, _, length in parts), initial=Fraction(0))
    return tuple(Shown(source, look, at, length) for (source, look, length), at in zip(parts, ats, strict=False))


def _ticks(ticks: Fraction) -> int:
    """Rounded up: the first whole tick that is not before this time."""
    return -(-ticks.numerator // ticks.denominator)


def _parts(
    clip: Clip, film: Film, version: str, rate: Fraction, first: int, last: int
) -> Iterator[tuple[int | None, Look, Fraction]]:
    """Source, look and length of every picture."""
    if clip.title is not None:
        yield from _still(None, Look.TITLE, clip.title.seconds, rate)
    held = None if clip.hold is None else film.number_of(clip.hold.moment)
    for number in range(first, last):
        at, length = _time_of(film, number), _time_of(film, number + 1) - _time_of(film, number)
        if clip.slow is not None and clip.slow.span.start.seconds <= at < clip.slow.span.end.seconds:
            yield number, Look.SLOW, length / clip.slow.rate
        else:
            yield number, Look.PLAY, length
        if number == held and clip.hold is not None:
            yield from _still(number, Look.QUESTION, clip.hold.seconds, rate)
            if version == "answer" and clip.ruling:
                yield from _still(number, Look.ANSWER, clip.hold.answer_seconds, rate)
    if clip.end is not None:
        yield from _still(None, Look.END, clip.end.seconds, rate)


def _time_of(film: Film, number: int) -> Fraction:
    """When a frame comes, seconds on the film's clock; the number after the last gives the end of the film."""
    index = film.index
    return (int(index.pts[number]) if number < len(index) else index.end) * index.time_base


def _still(source: int | None, look: Look, seconds: Fraction, rate: Fraction) -> Iterator[tuple[int | None, Look, Fraction]]:
    return itertools.repeat((source, look, 1 / rate), max(1, round(seconds * rate)))


def _heard(pictures: tuple[Shown, ...], film: Film) -> Iterator[Heard]:
    """Every row of frames that follow each other at the film's own speed."""
    for playing, row in itertools.groupby(pictures, key=lambda one: one.look is Look.PLAY):
        if playing:
            whole = list(row)
            assert whole[0].source is not None
            start = _time_of(film, whole[0].source)
            yield Heard(whole[0].at, start, start + sum((one.length for one in whole), Fraction(0)))
