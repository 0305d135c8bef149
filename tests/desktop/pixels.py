"""Reading painted pixels in tests."""

import numpy as np
from PyQt6.QtGui import QImage


def array_of(image: QImage) -> np.ndarray:
    """(h, w, 3) R'G'B' of an image, in device pixels."""
    image = image.convertToFormat(QImage.Format.Format_RGB888)
    bits = image.constBits()
    assert bits is not None
    bits.setsize(image.sizeInBytes())
    rows = np.frombuffer(memoryview(bits), np.uint8).reshape(image.height(), image.bytesPerLine())
    return rows[:, : 3 * image.width()].reshape(image.height(), image.width(), 3).copy()
