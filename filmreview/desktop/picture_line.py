"""The line under a picture, made to fit where the picture is narrow."""

from __future__ import annotations

from PyQt6.QtCore import Qt
from PyQt6.QtGui import QFontMetrics


def shortened(text: str, metrics: QFontMetrics, width: int) -> str:
    """A line of parts set apart by three spaces, made to fit: first its first part, the film's name, is shortened, then the end
    of the line."""
    over = metrics.horizontalAdvance(text) - width
    if over <= 0:
        return text
    name, gap, rest = text.partition("   ")
    room = metrics.horizontalAdvance(name) - over
    least = metrics.averageCharWidth() * 5
    short = metrics.elidedText(name, Qt.TextElideMode.ElideMiddle, max(room, least)) if room >= least else ""
    return metrics.elidedText(f"{short}{gap}{rest}" if short else rest, Qt.TextElideMode.ElideRight, width)
