"""Own calls: every tag in a list, the call on the one chosen beside it, and the book's ruling once the call is given."""

from __future__ import annotations

from pathlib import Path

from PyQt6.QtCore import QEvent, Qt, pyqtSignal
from PyQt6.QtGui import QIcon, QKeyEvent
from PyQt6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSplitter,
    QTableWidget,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.own_call_presenter import NO_CALL, OwnCallPresenter, OwnCallRow
from filmreview.desktop.plain_table import set_up_plain, told_cell
from filmreview.desktop.shapes import row_icon
from filmreview.desktop.short_label import ShortLabel
from filmreview.desktop.small_widgets import Choice, wrapped
from filmreview.review.own_calls import HIDDEN
from filmreview.rules.setting import CONSEQUENCES, RULINGS

HEAD = ("Time", "Whose", "Item", "Your call", "The book", "Compared")
TIME, WHO, ITEM, CALL, BOOK, COMPARED = range(len(HEAD))
CHOOSE = "choose"
NOT_SAID = "not said"
SHORT = "hidden"
Written = tuple[str, str, str]
"""A call as it stands in the form: ruling, consequence, words."""
BLANK: Written = (CHOOSE, NOT_SAID, "")
_WIDTHS = {TIME: 8, WHO: 14, ITEM: 11, COMPARED: 11}


class CallTable(QTableWidget):
    """The list. Enter goes to the moment, F2 to the call."""

    entered_row = pyqtSignal()
    call_wanted = pyqtSignal()

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Enter and F2."""
        assert event is not None, "Qt gives the event"
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered_row.emit()
        elif event.key() == Qt.Key.Key_F2:
            self.call_wanted.emit()
        else:
            super().keyPressEvent(event)


class OwnCallPlace(QWidget):
    """The tab. jump_wanted: go to a tag's moment. score_wanted: show the score by rule and item."""

    jump_wanted = pyqtSignal(str)
    score_wanted = pyqtSignal()

    def __init__(self, presenter: OwnCallPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self._rows: tuple[OwnCallRow, ...] = ()
        self._of: Path | None = None
        self._shown = ""
        self._loaded = BLANK
        self._typed: dict[str, Written] = {}
        self._icons: dict[str, QIcon] = {}
        self.hide_rulings = QCheckBox("Hide rulings until my call")
        self.summary = ShortLabel()
        self.score = QPushButton("Score ...")
        self.table = CallTable(0, len(HEAD))
        self.about = wrapped(name="the tag your call is on")
        self.ruling = Choice("your call", (CHOOSE, *RULINGS))
        self.consequence = Choice("your consequence", (NOT_SAID, *CONSEQUENCES))
        self.words = QLineEdit()
        self.give = QPushButton("Give this call")
        self.take_back = QPushButton("Take it back")
        self.both = wrapped(name="your call and the ruling")
        self._name_all()
        set_up_plain(self.table, HEAD, _WIDTHS, (CALL, BOOK), beside=16)
        self._lay_out()
        self._connect()
        self.refresh()

    def refresh(self, anew: bool = False) -> None:
        """The review or its findings changed: the row chosen stays, and so does what is being written. anew: fill every row."""
        chosen, before = self.chosen(), () if anew else self._rows
        if self._presenter.review_path != self._of:  # its tags have the same ids
            self._of, self._shown, self._typed = self._presenter.review_path, "", {}
        self._rows = self._presenter.rows()
        self.table.blockSignals(True)  # the choice is set again below
        self.table.setRowCount(len(self._rows))
        for number, row in enumerate(self._rows):
            if number >= len(before) or before[number] != row:
                self._fill(number, row)
        self.table.blockSignals(False)
        self.summary.setText(self._presenter.summary())
        self.hide_rulings.setChecked(self._presenter.hidden)
        score = self._presenter.score()
        self.score.setEnabled(score is not None and bool(score.called))
        self.choose(chosen or self._presenter.next_waiting(""))

    def chosen(self) -> str:
        """The id of the tag whose row is chosen; "" for none."""
        row = self.table.currentRow()
        return self._rows[row].tag if 0 <= row < len(self._rows) else ""

    def choose(self, tag: str) -> None:
        """Choose a tag's row and show the call on it."""
        row = next((number for number, one in enumerate(self._rows) if one.tag == tag), -1)
        if row >= 0 and row != self.table.currentRow():
            self.table.setCurrentCell(row, TIME)
        self._show_chosen()

    def not_given(self) -> tuple[str, ...]:
        """The ids of the tags on which a call is typed and not given."""
        self.refresh()
        return tuple(self._not_given())

    def take_keys(self, tag: str = "") -> None:
        """Be ready for the call on this tag, or on the next one that waits."""
        self.choose(tag or self._presenter.next_waiting(self.chosen()) or self.chosen())
        self.ruling.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def changeEvent(self, event: QEvent | None) -> None:
        """Light or dark: the shapes follow."""
        if event is not None and event.type() == QEvent.Type.PaletteChange and hasattr(self, "both"):
            self._icons.clear()
            self.refresh(anew=True)
        super().changeEvent(event)

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Enter gives the call from anywhere in the form."""
        if event is not None and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            on = self.focusWidget()
            if isinstance(on, QPushButton):
                on.click()
            else:
                self._give()
            return
        super().keyPressEvent(event)

    def _fill(self, number: int, row: OwnCallRow) -> None:
        book = SHORT if row.book_words == HIDDEN else row.book_words
        texts = (row.time, row.who, row.item, row.call or NO_CALL, book, row.outcome)
        for column, text in enumerate(texts):
            cell = told_cell(text, HEAD[column])
            if column == BOOK:
                cell.setToolTip(row.book_words)
            word = row.call.partition(",")[0] if column == CALL else row.book if column == BOOK else ""
            if word:
                cell.setIcon(self._icon(word))
            self.table.setItem(number, column, cell)

    def _icon(self, word: str) -> QIcon:
        if word not in self._icons:
            self._icons[word] = row_icon(word, False, self.palette())
        return self._icons[word]

    def _show_chosen(self) -> None:
        tag = self.chosen()
        row = next((one for one in self._rows if one.tag == tag), None)
        for widget in (self.ruling, self.consequence, self.words, self.give):
            widget.setEnabled(row is not None)
        self.take_back.setEnabled(row is not None and not row.waits)
        self.about.setText(f"{row.who}: {row.item} at {row.time}" if row else "No tag yet: put tags down, then call them here.")
        self.both.setText(self._presenter.book_words(tag) if row else "")
        if tag == self._shown and row is not None and row.waits:
            return  # what is being written stays
        self._put_aside()
        self._shown = tag
        self._loaded = self._given(tag)
        self._write(self._typed.pop(tag, self._loaded))

    def _given(self, tag: str) -> Written:
        call = self._presenter.call_on(tag) if tag else None
        return (call.ruling, call.consequence or NOT_SAID, call.words) if call else BLANK

    def _written(self) -> Written:
        return self.ruling.currentText(), self.consequence.currentText(), self.words.text()

    def _write(self, written: Written) -> None:
        self.ruling.show_text(written[0])
        self.consequence.show_text(written[1])
        self.words.setText(written[2])

    def _put_aside(self) -> None:
        """A call typed and not given is there again when its row is chosen again."""
        self._typed = self._not_given()

    def _not_given(self) -> dict[str, Written]:
        """What is typed and not given, by tag; those of tags that are gone are forgotten."""
        there, written = {row.tag for row in self._rows}, self._written()
        typed = {tag: call for tag, call in self._typed.items() if tag in there}
        if self._shown in there and written not in (self._loaded, self._given(self._shown)):
            typed[self._shown] = written
        return typed

    def _hide(self, on: bool) -> None:
        """The box shows what is in the review, which follows when the change is on the disk, and not when it is refused."""
        self.hide_rulings.setChecked(self._presenter.hidden)
        self._presenter.set_hidden(on)

    def _give(self) -> None:
        tag, ruling, consequence = self.chosen(), self.ruling.currentText(), self.consequence.currentText()
        if not tag:
            return
        if ruling == CHOOSE:
            self.both.setText("Choose your call first.")
            self.ruling.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        self._presenter.give(tag, ruling, "" if consequence == NOT_SAID else consequence, self.words.text())

    def _take_back(self) -> None:
        if self.chosen():
            self._presenter.take_back(self.chosen())

    def _jump(self) -> None:
        if self.chosen():
            self.jump_wanted.emit(self.chosen())

    def _name_all(self) -> None:
        named: dict[str, QWidget] = {
            "hide rulings until my call": self.hide_rulings, "how your calls came out": self.summary,
            "score by rule and item": self.score, "own calls": self.table,
            "your words on the call": self.words, "give this call": self.give,
            "take the call back": self.take_back,
        }  # fmt: skip
        for words, widget in named.items():
            widget.setAccessibleName(words)
        self.words.setPlaceholderText("why, in words (if you like)")
        for button in (self.score, self.give, self.take_back):
            button.setAutoDefault(False)

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.hide_rulings)
        top.addWidget(self.summary, 1)
        top.addWidget(self.score)
        sides = QSplitter(Qt.Orientation.Horizontal)
        sides.addWidget(self.table)
        sides.addWidget(self._form())
        sides.setStretchFactor(0, 2)
        sides.setStretchFactor(1, 1)
        sides.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(top)
        layout.addWidget(sides, 1)

    def _form(self) -> QWidget:
        inner = QWidget()
        grid = QGridLayout(inner)
        grid.setContentsMargins(6, 0, 6, 0)
        grid.setVerticalSpacing(3)
        grid.addWidget(self.about, 0, 0, 1, 2)
        grid.addWidget(self.ruling, 1, 0)
        grid.addWidget(self.consequence, 1, 1)
        grid.addWidget(self.words, 2, 0, 1, 2)
        grid.addWidget(self.give, 3, 0)
        grid.addWidget(self.take_back, 3, 1)
        grid.addWidget(self.both, 4, 0, 1, 2)
        grid.setRowStretch(5, 1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setMinimumWidth(self.fontMetrics().averageCharWidth() * 34)
        scroll.setWidget(inner)
        return scroll

    def _connect(self) -> None:
        self.hide_rulings.clicked.connect(self._hide)
        self.score.clicked.connect(lambda _checked=False: self.score_wanted.emit())
        self.table.currentCellChanged.connect(lambda *_cells: self._show_chosen())
        self.table.entered_row.connect(self._jump)
        self.table.cellDoubleClicked.connect(lambda _row, _column: self._jump())
        self.table.call_wanted.connect(lambda: self.ruling.setFocus(Qt.FocusReason.OtherFocusReason))
        self.give.clicked.connect(lambda _checked=False: self._give())
        self.take_back.clicked.connect(lambda _checked=False: self._take_back())
