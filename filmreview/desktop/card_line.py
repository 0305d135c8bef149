"""The line to type on the card: what it was read as, what is missing, and what the last word could become."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, QRect, Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent, QResizeEvent
from PyQt6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.small_widgets import wrapped
from filmreview.review.line import parse_line
from filmreview.review.model import CREW_MARKS

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
        self._could_be.setText(
            f"Tab writes: {ends[0]}" + (f"   or: {', '.join(ends[1:4])}" if ends[1:] else "") if ends else ""
        )
        self._could_be.setVisible(bool(ends))
        says = self._says()
        self._read_as.setText(f"Read as: {says}" if says else "")
        self._read_as.setVisible(bool(says))
        self._keep_place()
        asks = " ".join(_sentence(ask) for ask in draft.asks)
        self._asks.setText(asks)
        self._asks.setVisible(bool(asks))

    def resizeEvent(self, event: QResizeEvent | None) -> None:
        """Another width: other breaks of lines."""
        super().resizeEvent(event)
        self._keep_place()

    def _says(self) -> str:
        """What was understood; of a kept tag too, whose line nobody has typed yet."""
        draft = self._presenter.draft
        return (draft.understood.says or parse_line(draft.line).says) if draft else ""

    def _keep_place(self) -> None:
        """Keep room for the longest crew mark: when one is chosen, nothing under it may move away from the mouse."""
        draft = self._presenter.draft
        if draft is None:
            return
        with_marks = [_with_mark(self._says(), draft.understood.crew, mark) for mark in CREW_MARKS]
        room, flags = QRect(0, 0, self.width(), 10_000), int(Qt.TextFlag.TextWordWrap)
        heights = (self.fontMetrics().boundingRect(room, flags, f"Read as: {words}").height() for words in with_marks)
        self._read_as.setMinimumHeight(max(heights))

    def _complete(self) -> None:
        lines = self._presenter.completions()
        if lines:
            self._presenter.type(lines[0] + " ")


def _with_mark(says: str, now: str | None, mark: str) -> str:
    """What would be understood with this crew mark in place of the present one."""
    if now is not None:
        return says.replace(f"crew {now}", f"crew {mark}", 1)
    head, note, tail = says.partition(', note "')
    return f"{head}, crew {mark}{note}{tail}"


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
