"""The line to type on the card: what it was read as, what is missing, and what the last word could become."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent
from PyQt6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.small_widgets import wrapped

EXAMPLE = "v14 arm sleeve orange"


class TagLine(QLineEdit):
    """One line. Tab takes the first completion when there is one; otherwise it goes to the next widget."""

    complete_wanted = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self.can_complete = False
        self.setAccessibleName("tag line: whose, which item, what is seen")
        self.setPlaceholderText(f"for example  {EXAMPLE}")

    def event(self, event: QEvent | None) -> bool:
        """Tab never reaches keyPressEvent, so it is taken here."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            plain = event.modifiers() == Qt.KeyboardModifier.NoModifier
            if event.key() == Qt.Key.Key_Tab and plain and self.can_complete:
                self.complete_wanted.emit()
                return True
        return super().event(event)


class CardLine(QWidget):
    """The line and the words under it."""

    def __init__(self, presenter: CardPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.line = TagLine()
        self._could_be = wrapped(name="what the last word could become")
        self._read_as = wrapped(name="what was understood")
        self._asks = wrapped(name="what is missing")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        for widget in (self.line, self._could_be, self._read_as, self._asks):
            layout.addWidget(widget)
        self.line.textEdited.connect(presenter.type)
        self.line.complete_wanted.connect(self._complete)
        presenter.events.on("open", self.refresh)
        presenter.events.on("line", self.refresh)

    def refresh(self) -> None:
        """Show the draft's line and how it was read."""
        draft = self._presenter.draft
        if draft is None:
            return
        if self.line.text() != draft.line:
            self.line.setText(draft.line)
        ends = [line.removeprefix(_shared(draft.line, line)) for line in self._presenter.completions()]
        self.line.can_complete = bool(ends)
        self._could_be.setText(f"Tab: {ends[0]}" + (f"   also {', '.join(ends[1:4])}" if ends[1:] else "") if ends else "")
        self._could_be.setVisible(bool(ends))
        self._read_as.setText(f"Read as: {draft.understood.says}" if draft.understood.says else "")
        self._read_as.setVisible(bool(draft.understood.says))
        asks = " ".join(_sentence(ask) for ask in draft.understood.asks)
        self._asks.setText(asks)
        self._asks.setVisible(bool(asks))

    def _complete(self) -> None:
        lines = self._presenter.completions()
        if lines:
            self._presenter.type(lines[0] + " ")


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:] + ("" if words.endswith(("?", ".")) else ".")


def _shared(typed: str, line: str) -> str:
    """The words that both lines begin with."""
    words = []
    for one, other in zip(typed.split(), line.split(), strict=False):
        if one != other:
            break
        words.append(one)
    return " ".join(words) + " " if words else ""
