"""Small widgets that several places share: a combo box that the wheel cannot change by accident, a heading, wrapped words."""

from __future__ import annotations

from collections.abc import Iterable

from PyQt6.QtCore import QSize, Qt, pyqtSignal
from PyQt6.QtGui import QColor, QFocusEvent, QIcon, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap, QWheelEvent
from PyQt6.QtWidgets import QComboBox, QLabel, QLineEdit, QSizePolicy, QToolButton, QWidget

from filmreview.colour.palette import CENTRES
from filmreview.colour.spaces import lab_to_srgb
from filmreview.colour.value import Colour


class Choice(QComboBox):
    """A combo box for one of a list. chosen: the text, only when a person chose it."""

    chosen = pyqtSignal(str)

    def __init__(self, name: str, words: Iterable[str]) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.addItems(list(words))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(4)
        self.activated.connect(lambda _row: self.chosen.emit(self.currentText()))

    def wheelEvent(self, event: QWheelEvent | None) -> None:
        """Scrolling past it must not change a fact."""
        if event is not None:
            event.ignore()

    def show_text(self, text: str) -> None:
        """Show this choice, emitting nothing."""
        self.setCurrentIndex(max(0, self.findText(text, Qt.MatchFlag.MatchExactly)))

    def refill(self, words: Iterable[str]) -> None:
        """Other choices, keeping the present one where it is still there."""
        words, text = list(words), self.currentText()
        if words != [self.itemText(row) for row in range(self.count())]:
            self.clear()
            self.addItems(words)
            self.show_text(text)


class WholeLine(QLineEdit):
    """A line whose text is written anew rather than mended: the first click in it chooses all of it."""

    def __init__(self) -> None:
        super().__init__()
        self._entered = False

    def focusInEvent(self, event: QFocusEvent | None) -> None:
        """The next click is the first one."""
        super().focusInEvent(event)
        self._entered = True

    def mouseReleaseEvent(self, event: QMouseEvent | None) -> None:
        """The end of a click; a part dragged over stays chosen as it was drawn."""
        super().mouseReleaseEvent(event)
        if self._entered and not self.hasSelectedText():
            self.selectAll()
        self._entered = False


def heading(words: str) -> QLabel:
    """A bold line over a part of a screen."""
    label = in_bold(QLabel(words))
    label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
    return label


def in_bold(label: QLabel) -> QLabel:
    """The same label, bold."""
    font = label.font()
    font.setBold(True)
    label.setFont(font)
    return label


def wrapped(words: str = "", name: str = "") -> QLabel:
    """Words that wrap and can be chosen with the mouse for copying."""
    label = QLabel(words)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    label.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    label.setAccessibleName(name or words)
    return label


def answer_button(words: str, name: str) -> QToolButton:
    """A small button with words on it. name: what a screen reader says."""
    button = QToolButton()
    button.setText(words)
    button.setAccessibleName(name)
    button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
    return button


class ColourChoice(Choice):
    """A choice of the palette's names, each with its colour. first: what stands above them."""

    def __init__(self, name: str, first: str) -> None:
        super().__init__(name, (first,))
        for word, code in CENTRES.items():
            pixmap = QPixmap(self.iconSize())
            pixmap.fill(QColor(code))
            self.addItem(QIcon(pixmap), word)

    def show_first(self, words: str) -> None:
        """Other words above the palette."""
        self.setItemText(0, words)


class Patch(QWidget):
    """A square of a colour; crossed out when there is none."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self._colour: QColor | None = None
        side = self.fontMetrics().height() + 10
        self.setFixedSize(QSize(side + side // 2, side))

    def show_colour(self, colour: Colour | None) -> None:
        """Show this colour, as near as the screen can."""
        self._colour = None
        if colour is not None:
            red, green, blue = (min(255, max(0, round(float(part) * 255))) for part in lab_to_srgb(colour.lab))
            self._colour = QColor(red, green, blue)
        self.update()

    def paintEvent(self, _event: QPaintEvent | None) -> None:
        """A square with an edge that stands out on light and dark grounds."""
        painter = QPainter(self)
        square = self.rect().adjusted(0, 0, -1, -1)
        painter.fillRect(square, self._colour or self.palette().base().color())
        painter.setPen(QPen(self.palette().text().color()))
        painter.drawRect(square)
        if self._colour is None:
            painter.drawLine(square.bottomLeft(), square.topRight())
        painter.end()
