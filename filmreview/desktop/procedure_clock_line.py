"""The line of the procedure clock: a new event in words, or whose one put down is. Enter keeps it, Escape drops it."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent
from PyQt6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QWidget

from filmreview.desktop.procedure_clock_presenter import ProcedureClockPresenter
from filmreview.desktop.procedure_clock_words import completions
from filmreview.desktop.short_label import ShortLabel

_EXAMPLE = "for example  blood seen v14  or  coach told home"


class _Line(QLineEdit):
    """Tab takes the first completion when there is one."""

    complete_wanted = pyqtSignal()
    dropped = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self.can_complete = False
        self.setAccessibleName("event line: what happened and whose it is")

    def event(self, event: QEvent | None) -> bool:
        """Tab never reaches keyPressEvent, and Escape would close what is open elsewhere, so both are taken here."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if event.key() == Qt.Key.Key_Tab and not event.modifiers() and self.can_complete:
                self.complete_wanted.emit()
                return True
            if event.key() == Qt.Key.Key_Escape:
                self.dropped.emit()
                return True
        return super().event(event)


class EventLine(QWidget):
    """The line with what it is about before it and how it is read behind it."""

    begun = pyqtSignal()  # something was typed while it was about nothing: a new event at the moment on the picture
    left = pyqtSignal()  # kept or dropped: the keys may go back to the film

    def __init__(self, presenter: ProcedureClockPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.line = _Line()
        self._head = QLabel()
        self._head.setAccessibleName("what the event line is about")
        self._read_as = ShortLabel(name="how the event line is read")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._head)
        layout.addWidget(self.line, 1)
        layout.addWidget(self._read_as, 1)
        self.line.setPlaceholderText(_EXAMPLE)
        self.line.textEdited.connect(self._typed)
        self.line.returnPressed.connect(self._keep)
        self.line.dropped.connect(self._drop)
        self.line.complete_wanted.connect(self._complete)
        presenter.events.on("line", self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """The line is about something else."""
        self._head.setText(self._presenter.line_head())
        self._head.setVisible(bool(self._head.text()))
        if self._presenter.changing or not (self._presenter.begun and self.line.text()):
            self.line.setText(self._presenter.line())
        self._show_read()

    def take_keys(self) -> None:
        """Give the line the focus; what was put down already stays and is written on."""
        self.line.setFocus(Qt.FocusReason.ShortcutFocusReason)
        if self.line.text() and not self.line.text().endswith(" "):
            self.line.setText(self.line.text() + " ")

    def _typed(self, text: str) -> None:
        if text and not self._presenter.begun and not self._presenter.changing:
            self.begun.emit()
        self._show_read()

    def _keep(self) -> None:
        if self._presenter.keep(self.line.text()):
            self.line.clear()
            self._show_read()
            self.left.emit()

    def _drop(self) -> None:
        self.line.clear()
        self._presenter.drop()
        self.left.emit()

    def _complete(self) -> None:
        found = completions(self.line.text())
        if found:
            self.line.setText(found[0] + " ")
            self._show_read()

    def _show_read(self) -> None:
        text = self.line.text()
        said, ends = self._presenter.read(text), completions(text)
        self.line.can_complete = bool(ends)
        words = [f"Tab writes: {ends[0]}"] if ends else []
        words += ["also " + ", ".join(ends[1:])] if ends[1:] else []
        if not ends and text.strip():
            words = [part for part in (said.says, *said.asks) if part]
        self._read_as.setText("; ".join(words))
