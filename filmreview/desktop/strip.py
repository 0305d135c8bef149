"""The film strip: the whole film on one line, the time around now on a second one.

In: length, now, stoppages, tags. Out: where the person wants to go. All times are seconds from the film's start.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from PyQt6.QtCore import pyqtSignal
from PyQt6.QtWidgets import QWidget

from filmreview.film.film import Film


@dataclass(frozen=True)
class Stretch:
    """A stretch of film to shade, a stoppage: seconds from the film's start, the end not included. words: its tooltip."""

    start: Fraction
    end: Fraction
    words: str = ""


@dataclass(frozen=True)
class StripTag:
    """A tag on the strip. seconds: from the film's start. words: its tooltip."""

    tag: str
    seconds: Fraction
    ruling: str
    ahead: bool = False
    words: str = ""


class FilmStrip(QWidget):
    """Two lines of the film; hover shows a small picture, a click jumps, a tag's shape can be chosen."""

    jump_wanted = pyqtSignal(object)  # Fraction: seconds from the film's start
    tag_chosen = pyqtSignal(str)  # the id of the tag whose shape was clicked

    def set_film(self, film: Film | None) -> None:
        """Take length and small pictures from this film (it is opened a second time by a worker for the small pictures)."""

    def set_now(self, seconds: Fraction) -> None:
        """Where the film is."""

    def set_stoppages(self, stretches: Sequence[Stretch]) -> None:
        """Shade these."""

    def set_tags(self, tags: Sequence[StripTag]) -> None:
        """Draw these tags' shapes."""

    def close_film(self) -> None:
        """Stop the worker and let the film go; called before the window closes."""
