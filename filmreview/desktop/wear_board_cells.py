"""How a cell of the wear board is painted: patches of the colours, the ruling's shape, its word; odd ones in a frame."""

from __future__ import annotations

from collections.abc import Sequence

from PyQt6.QtCore import QModelIndex, QRect, QRectF, QSize, Qt
from PyQt6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPalette, QPen
from PyQt6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from filmreview.colour.spaces import lab_to_srgb
from filmreview.colour.value import Colour
from filmreview.desktop.shapes import draw_ruling
from filmreview.desktop.wear_board_model import WearBoardModel

_GAP = 4
_FRAME = 2


class WearCellDelegate(QStyledItemDelegate):
    """Paints what the model's presenter says of a cell."""

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex) -> QSize:
        """Room for patches, shape and word, the odd one's frame included."""
        model = _model_of(index)
        side, letters = _side(option.fontMetrics), QFontMetrics(_font(option.font, bold=True))
        words = model.presenter.words(*model.place(index))
        patches = max(1, len(model.presenter.patch(*model.place(index))))
        shape = side + _GAP if model.cell(index) else 0
        width = patches * side + shape + letters.horizontalAdvance(words) + 3 * _GAP + 2 * _FRAME + _GAP
        return QSize(width if words else side * 3, side + 2 * _FRAME + 2 * _GAP)

    def paint(self, painter: QPainter | None, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        """The ground as the style has it, then from the left: patches, shape, word."""
        assert painter is not None, "Qt gives the painter"
        model, cell = _model_of(index), _model_of(index).cell(index)
        words, colours = model.presenter.words(*model.place(index)), model.presenter.patch(*model.place(index))
        self._paint_ground(painter, option, index)
        if not words:
            return
        painter.save()
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        ink = option.palette.color(QPalette.ColorRole.HighlightedText if selected else QPalette.ColorRole.Text)
        side = _side(option.fontMetrics)
        left = option.rect.left() + _FRAME + _GAP
        top = option.rect.center().y() - side // 2
        for square in _squares(left, side, colours):
            _paint_patch(painter, QRect(square[0], top, side, side), square[1], ink)
            left = square[0] + side + _GAP
        if cell is not None:
            ruling = cell.worst.ruling
            place = QRectF(left, top, side, side)
            draw_ruling(painter, place, ruling.ruling, bool(ruling.ahead), option.palette, halo=selected)
            left += side + _GAP
        odd = bool(cell and cell.odd)
        painter.setFont(_font(option.font, odd))
        painter.setPen(ink)
        room = QRect(left, option.rect.top(), option.rect.right() - left - _FRAME, option.rect.height())
        shown = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, shown)
        if odd:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(ink, _FRAME))
            painter.drawRect(option.rect.adjusted(_FRAME, _FRAME, -_FRAME - 1, -_FRAME - 1))
        painter.restore()

    def _paint_ground(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        ground = QStyleOptionViewItem(option)
        self.initStyleOption(ground, index)
        ground.text = ""
        style = option.widget.style() if option.widget else None
        if style is not None:
            style.drawControl(QStyle.ControlElement.CE_ItemViewItem, ground, painter, option.widget)


def _model_of(index: QModelIndex) -> WearBoardModel:
    model = index.model()
    assert isinstance(model, WearBoardModel), "the board's own model"
    return model


def _side(letters: QFontMetrics) -> int:
    return letters.height()


def _font(font: QFont, bold: bool) -> QFont:
    made = QFont(font)
    made.setBold(bold)
    return made


def _squares(left: int, side: int, colours: Sequence[Colour]) -> list[tuple[int, Colour | None]]:
    """The left edge of each patch and its colour; one crossed out where no colour is known."""
    return [(left + number * (side + _GAP), colour) for number, colour in enumerate(colours or (None,))]


def _paint_patch(painter: QPainter, square: QRect, colour: Colour | None, ink: QColor) -> None:
    painter.setPen(QPen(ink, 1))
    if colour is None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(square)
        painter.drawLine(square.bottomLeft(), square.topRight())
        return
    red, green, blue = (min(255, max(0, round(float(part) * 255))) for part in lab_to_srgb(colour.lab))
    painter.setBrush(QColor(red, green, blue))
    painter.drawRect(square)
