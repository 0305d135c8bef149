"""The sound of a clip or a lesson: the film's own under what plays at its own speed, silence elsewhere; exact to the sample."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

from filmreview.film.film import Film
from filmreview.film.moment import Moment, Span
from filmreview.film.sound import read_sound
from filmreview.lessons.clip_file import Sound
from filmreview.lessons.pictures import Plan

_RATES = (8000, 11025, 12000, 16000, 22050, 24000, 32000, 44100, 48000, 96000)
USUAL_RATE = 48_000
_READ = 4  # seconds at a time; the library holds back sound that is ten seconds ahead of its pictures, and no more
_ROOM = Fraction(1, 20)  # read around a piece whose rate is changed, so that its edges come out right
_LAYOUTS = {1: "mono", 2: "stereo", 3: "2.1", 4: "4.0", 5: "5.0", 6: "5.1", 7: "6.1", 8: "7.1"}
Samples = NDArray[np.float32]


@dataclass(frozen=True)
class _Piece:
    """A stretch of the whole that is heard. at: seconds from the start of the file."""

    path: Path
    at: Fraction
    start: Fraction
    end: Fraction


def sound_for(plans: Sequence[Plan], films: Sequence[Film | None]) -> Sound | None:
    """How the sound is written: as the films have it where they agree, else as players like it; None when there is none."""
    heard = [film.info.sound for plan, film in zip(plans, films, strict=True) if film is not None and plan.heard]
    tracks = [tracks[0] for tracks in heard if tracks]
    if not tracks:
        return None
    rates = {track.rate for track in tracks}
    rate = rates.pop() if len(rates) == 1 else USUAL_RATE
    return Sound(rate if rate in _RATES else USUAL_RATE, 1 if all(track.channels == 1 for track in tracks) else 2)


class SoundTrack:
    """The samples of the whole, from its start to its end, taken bit by bit."""

    def __init__(
        self, plans: Sequence[Plan], films: Sequence[Film | None], starts: Sequence[Fraction], end: Fraction, sound: Sound
    ) -> None:
        self._sound, self._end = sound, round(end * sound.rate)
        self._pieces = [
            _Piece(film.path, start + one.at, one.start, one.end)
            for plan, film, start in zip(plans, films, starts, strict=True)
            if film is not None and film.info.sound
            for one in plan.heard
        ]
        self._at = 0

    def up_to(self, seconds: Fraction | None) -> Iterator[Samples]:
        """What comes next, up to a time or a few seconds past it, or (None) to the end: (n, channels), -1 to 1.

        A block at a time, as every block opens the film anew.
        """
        last = self._end if seconds is None else min(self._end, round(seconds * self._sound.rate))
        while self._at < last:
            count = min(self._end - self._at, _READ * self._sound.rate)
            yield self._samples(self._at, count)
            self._at += count

    def _samples(self, first: int, count: int) -> Samples:
        rate = self._sound.rate
        made = np.zeros((count, self._sound.channels), np.float32)
        for piece in self._pieces:
            low = max(first, round(piece.at * rate))
            high = min(first + count, round((piece.at + piece.end - piece.start) * rate))
            if low < high:
                made[low - first : high - first] = self._heard(piece, piece.start - piece.at + Fraction(low, rate), high - low)
        return made

    def _heard(self, piece: _Piece, start: Fraction, count: int) -> Samples:
        """count samples of the film from a time on its own clock on."""
        wanted = self._sound
        samples, rate = read_sound(piece.path, _span(start, start + Fraction(count, wanted.rate)))
        if (rate, samples.shape[1]) == (wanted.rate, wanted.channels) and len(samples) == count:
            return samples
        samples, rate = read_sound(piece.path, _span(start - _ROOM, start + Fraction(count, wanted.rate) + _ROOM))
        changed = _changed(samples, rate, wanted)
        before = round(_ROOM * wanted.rate)
        return changed[before : before + count]


def _span(start: Fraction, end: Fraction) -> Span:
    """A span of exactly these seconds on the film's clock."""
    return Span(*(Moment(at.numerator, Fraction(1, at.denominator)) for at in (start, end)))


def _changed(samples: Samples, rate: int, wanted: Sound) -> Samples:
    """The samples at another rate and with one or two channels."""
    if samples.shape[1] not in _LAYOUTS:
        samples = samples.mean(axis=1, keepdims=True)
    resampler = av.AudioResampler("fltp", "mono" if wanted.channels == 1 else "stereo", wanted.rate)
    frame = av.AudioFrame.from_ndarray(np.ascontiguousarray(samples.T), format="fltp", layout=_LAYOUTS[samples.shape[1]])
    frame.sample_rate, frame.pts = rate, 0
    blocks = [*resampler.resample(frame), *resampler.resample(None)]
    whole = np.concatenate([np.asarray(block.to_ndarray(), np.float32) for block in blocks], axis=1).T
    short = -(-len(samples) * wanted.rate // rate) - len(whole)  # the resampler may keep the very last few to itself
    return np.pad(whole, ((0, max(0, short)), (0, 0)))
