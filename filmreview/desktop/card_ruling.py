"""The live ruling on the card: drawn shape and word, reference, reason, consequence, what comes later, what would change it."""

from __future__ import annotations

from PyQt6.QtCore import QRectF, QSize, pyqtSignal
from PyQt6.QtGui import QFont, QPainter, QPaintEvent
from PyQt6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from filmreview.cautions import caution_for
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.ruling_words import (
    ahead_words,
    change_words,
    consequence_words,
    reason_words,
    source_words,
)
from filmreview.desktop.shapes import draw_ruling
from filmreview.desktop.small_widgets import answer_button, wrapped


class RulingShape(QWidget):
    """The shape of one ruling."""

    def __init__(self) -> None:
        super().__init__()
        self._ruling = ""
        self._ahead = False
        side = self.fontMetrics().height() * 2
        self.setFixedSize(QSize(side, side))
        self.show_ruling("", False)

    def show_ruling(self, ruling: str, ahead: bool) -> None:
        """Draw this one; "" draws nothing."""
        self._ruling, self._ahead = ruling, ahead
        self.setAccessibleName(f"shape of the ruling: {ruling or 'none yet'}")
        self.update()

    def paintEvent(self, _event: QPaintEvent | None) -> None:
        """The shape, or nothing."""
        if self._ruling:
            painter = QPainter(self)
            draw_ruling(painter, QRectF(self.rect()).adjusted(2, 2, -2, -2), self._ruling, self._ahead, self.palette())
            painter.end()


class CardRuling(QFrame):
    """A framed part of the card."""

    rule_wanted = pyqtSignal()  # the rule that decided is to be read

    def __init__(self, presenter: CardPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAccessibleName("ruling")
        self._shape = RulingShape()
        self.word = QLabel()
        font = self.word.font()
        font.setPointSizeF(font.pointSizeF() * 1.5)
        font.setBold(True)
        self.word.setFont(font)
        self._consequence = wrapped(name="consequence")
        self._reason = wrapped(name="reason")
        self._source = wrapped(name="rule reference")
        self.read = answer_button("Read the rule", "read the rule beside what changed")
        self.read.clicked.connect(self.rule_wanted)
        self._ahead = wrapped(name="ahead")
        self._change = wrapped(name="what would change it")
        self._caution = wrapped(name="caution")
        self._caution.setFont(_smaller(self))
        self._lay_out()
        presenter.events.on("ruling", self.refresh)
        presenter.events.on("open", self.refresh)

    def refresh(self) -> None:
        """Show the draft's ruling."""
        draft, ruling = self._presenter.draft, self._presenter.ruling
        if draft is None:
            return
        self._shape.show_ruling(ruling.ruling if ruling else "", bool(ruling and ruling.ahead))
        if ruling is None:
            self.read.hide()
            self.word.setText("No ruling yet")
            _show(self._consequence, self._presenter.not_ruled or "say whose it is and which item; the ruling follows at once")
            for label in (self._reason, self._source, self._ahead, self._change):
                _show(label, "")
        else:
            self.word.setText(ruling.ruling[:1].upper() + ruling.ruling[1:])
            _show(self._consequence, consequence_words(ruling))
            _show(self._reason, reason_words(ruling))
            _show(self._source, source_words(ruling))
            self.read.setVisible(bool(ruling.rule))
            _show(self._ahead, ahead_words(ruling))
            _show(self._change, change_words(ruling))
        _show(self._caution, caution_for(draft.understood.item, draft.facts))

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self._shape)
        words = QVBoxLayout()
        words.setSpacing(1)
        words.addWidget(self.word)
        words.addWidget(self._consequence)
        top.addLayout(words, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 6)
        layout.setSpacing(4)
        layout.addLayout(top)
        layout.addWidget(self._reason)
        source = QHBoxLayout()
        source.addWidget(self._source, 1)
        source.addWidget(self.read)
        layout.addLayout(source)
        for label in (self._ahead, self._change, self._caution):
            layout.addWidget(label)


def _show(label: QLabel, words: str) -> None:
    label.setText(words[:1].upper() + words[1:])
    label.setVisible(bool(words))


def _smaller(widget: QWidget) -> QFont:
    font = widget.font()
    font.setPointSizeF(font.pointSizeF() * 0.9)
    return font
