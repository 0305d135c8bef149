"""Letters to the officials, begun from what the sheet builds, and the replies that came back."""

from __future__ import annotations

from PyQt6.QtCore import Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent
from PyQt6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QPlainTextEdit,
    QSplitter,
    QTableWidget,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.dialog_parts import close_button, dialog_button, sized
from filmreview.desktop.letters_presenter import LetterEntry, LettersPresenter
from filmreview.desktop.plain_table import set_up_fitted, told_cell
from filmreview.desktop.small_widgets import heading, wrapped

HEAD = ("Time", "Whose", "Item", "By", "Reply", "In words")
_ABOUT = (
    "A letter goes on the sheet, for the coordinator and the crew alike. One that you write stands in place of the one that "
    "the sheet builds."
)
NO_REPLIES = "No reply came back yet: Review, Read replies takes them from a returned workbook."


class ReplyTable(QTableWidget):
    """The replies. Enter goes to the finding's moment."""

    entered_row = pyqtSignal()

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Enter."""
        assert event is not None, "Qt gives the event"
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered_row.emit()
        else:
            super().keyPressEvent(event)


class LettersDialog(QDialog):
    """Stays open beside the window. jump_wanted: go to the finding of a reply."""

    jump_wanted = pyqtSignal(str)

    def __init__(self, presenter: LettersPresenter, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Letters and replies")
        self._presenter = presenter
        self._entries: tuple[LetterEntry, ...] = ()
        self._shown = ""
        self._tags: tuple[str, ...] = ()
        self.officials = QListWidget()
        self.officials.setAccessibleName("officials")
        self.text = QPlainTextEdit()
        self.text.setAccessibleName("letter")
        self.text.setTabChangesFocus(True)
        self.room = QLabel()
        self.room.setAccessibleName("room left")
        self.keep = dialog_button("Keep this letter")
        self.anew = dialog_button("As the sheet builds it")
        self.replies = ReplyTable(0, len(HEAD))
        self.no_replies = wrapped(NO_REPLIES)
        self.buttons = close_button()
        self.replies.setAccessibleName("replies")
        self.replies.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        set_up_fitted(self.replies, HEAD, len(HEAD) - 1)
        self._lay_out()
        self._connect()
        self.refresh()

    @property
    def unsaved(self) -> bool:
        """Whether what is typed is not kept."""
        entry = self._entry(self._shown)
        return entry is not None and self.text.toPlainText().strip() != entry.words.strip()

    def refresh(self) -> None:
        """The review changed: letters and replies follow; what is being typed stays."""
        typed, unsaved = self.text.toPlainText(), self.unsaved
        self._entries = self._presenter.entries()
        if len(self._entries) != self.officials.count():
            self.officials.clear()
            self.officials.addItems([one.title for one in self._entries])
            self.officials.setCurrentRow(0)
        for number, one in enumerate(self._entries):
            item = self.officials.item(number)
            assert item is not None, "an entry was made above"
            item.setText(one.title)
        self._show()
        if unsaved:
            self.text.setPlainText(typed)
        self._show_replies()

    def reject(self) -> None:
        """Closing keeps what was typed: nothing written is lost."""
        if self.unsaved and not self._keep():
            return
        super().reject()

    def _chosen(self) -> str:
        row = self.officials.currentRow()
        return self._entries[row].position if 0 <= row < len(self._entries) else ""

    def _entry(self, position: str) -> LetterEntry | None:
        return next((one for one in self._entries if one.position == position), None)

    def _official_changed(self) -> None:
        if self.unsaved and not self._keep():
            places = [one.position for one in self._entries]
            self.officials.blockSignals(True)
            self.officials.setCurrentRow(places.index(self._shown))
            self.officials.blockSignals(False)
            return
        self._show()

    def _show(self) -> None:
        entry = self._entry(self._chosen())
        self._shown = entry.position if entry else ""
        words = entry.words if entry else ""
        if self.text.toPlainText() != words:
            self.text.setPlainText(words)
        self.text.setEnabled(entry is not None)
        self.anew.setEnabled(entry is not None and entry.written)
        self._typed()

    def _typed(self) -> None:
        text = self.text.toPlainText()
        words = self._presenter.count_words(text)
        self.room.setText(words)
        self.keep.setEnabled(self.unsaved and not words.endswith("too many"))

    def _keep(self) -> bool:
        if not self.keep.isEnabled():
            self.room.setText(f"{self._presenter.count_words(self.text.toPlainText())}: shorten the letter first")
            return False
        return self._presenter.keep(self._shown, self.text.toPlainText())

    def _anew(self) -> None:
        self._presenter.anew(self._shown)

    def _show_replies(self) -> None:
        rows = self._presenter.replies()
        self._tags = tuple(row.tag for row in rows)
        self.replies.setRowCount(len(rows))
        for number, row in enumerate(rows):
            for column, text in enumerate((row.time, row.who, row.item, row.by, row.answer, row.words)):
                self.replies.setItem(number, column, told_cell(text, HEAD[column]))
        self.replies.setVisible(bool(rows))
        self.no_replies.setVisible(not rows)

    def _jump(self) -> None:
        row = self.replies.currentRow()
        if 0 <= row < len(self._tags):
            self.jump_wanted.emit(self._tags[row])

    def _lay_out(self) -> None:
        right = QWidget()
        column = QVBoxLayout(right)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.text, 1)
        row = QHBoxLayout()
        row.addWidget(self.room, 1)
        row.addWidget(self.anew)
        row.addWidget(self.keep)
        column.addLayout(row)
        sides = QSplitter(Qt.Orientation.Horizontal)
        sides.addWidget(self.officials)
        sides.addWidget(right)
        sides.setStretchFactor(0, 1)
        sides.setStretchFactor(1, 3)
        sides.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.addWidget(wrapped(_ABOUT))
        layout.addWidget(sides, 3)
        layout.addWidget(heading("Replies"))
        layout.addWidget(self.replies, 2)
        layout.addWidget(self.no_replies)
        layout.addWidget(self.buttons)
        sized(self, 120, 32)

    def _connect(self) -> None:
        self.officials.currentRowChanged.connect(lambda _row: self._official_changed())
        self.text.textChanged.connect(self._typed)
        self.keep.clicked.connect(lambda _checked=False: self._keep())
        self.anew.clicked.connect(lambda _checked=False: self._anew())
        self.replies.entered_row.connect(self._jump)
        self.replies.cellDoubleClicked.connect(lambda _row, _column: self._jump())
        self.buttons.rejected.connect(self.reject)
