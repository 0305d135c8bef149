"""A hand on the canvas: presses, drags and turns of the wheel as Qt delivers them."""

import numpy as np
from PyQt6.QtCore import QEvent, QPoint, QPointF, Qt
from PyQt6.QtGui import QMouseEvent, QWheelEvent
from PyQt6.QtTest import QTest
from PyQt6.QtWidgets import QApplication, QWidget

LEFT, MIDDLE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton
PLAIN = Qt.KeyboardModifier.NoModifier
SHIFT, CONTROL, ALT = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


def gradient(width: int, height: int) -> np.ndarray:
    """Each pixel tells where it is: red its column, green its row."""
    picture = np.zeros((height, width, 3), np.uint8)
    picture[..., 0] = np.arange(width) * 255 // (width - 1)
    picture[..., 1] = (np.arange(height) * 255 // (height - 1))[:, None]
    return picture


def drag(canvas: QWidget, start: tuple[int, int], end: tuple[int, int], button=LEFT, keys=PLAIN) -> None:
    """Press, move in steps, let go, as a hand does."""
    QTest.mousePress(canvas, button, keys, QPoint(*start))
    for share in (0.3, 0.7, 1.0):
        at = QPointF(start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        send_move(canvas, at, button, keys)
    QTest.mouseRelease(canvas, button, keys, QPoint(*end))


def send_move(canvas: QWidget, at: QPointF, button=LEFT, keys=PLAIN) -> None:
    """The pointer comes here, this button held."""
    event = QMouseEvent(QEvent.Type.MouseMove, at, canvas.mapToGlobal(at), Qt.MouseButton.NoButton, button, keys)
    QApplication.sendEvent(canvas, event)


def wheel(canvas: QWidget, at: tuple[float, float], turns: int) -> None:
    """The wheel turned over this place, away from the hand when positive."""
    place = QPointF(*at)
    none, phase = Qt.MouseButton.NoButton, Qt.ScrollPhase.NoScrollPhase
    event = QWheelEvent(place, canvas.mapToGlobal(place), QPoint(), QPoint(0, 120 * turns), none, PLAIN, phase, False)
    QApplication.sendEvent(canvas, event)
