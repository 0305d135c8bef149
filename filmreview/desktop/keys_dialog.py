"""Every key, under F1: look for one, give a deed another, take it away, have it as it was at first."""

from __future__ import annotations

from PyQt6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QKeySequenceEdit,
    QLabel,
    QLineEdit,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.dialog_parts import close_button, dialog_button, sized
from filmreview.desktop.keys_in_force import native, portable
from filmreview.desktop.keys_presenter import SCOPES, KeyRow, KeysPresenter
from filmreview.desktop.plain_table import set_up_fitted
from filmreview.desktop.small_widgets import Choice, wrapped

HEAD = ("Where", "Key or mouse", "What it does")
CHANGED = "changed"
NOTHING_CHOSEN = "Choose a line above to give it another key."
NOT_CHANGEABLE = "What the mouse and single places do stays as it is."


class KeysDialog(QDialog):
    """The list and, under it, what can be done to the line chosen."""

    def __init__(self, presenter: KeysPresenter, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Keys")
        self._presenter = presenter
        self._rows: tuple[KeyRow, ...] = ()
        self.look_for = QLineEdit()
        self.look_for.setPlaceholderText("Look for: play, ledger, Ctrl ...")
        self.look_for.setAccessibleName("look for a key")
        self.look_for.setClearButtonEnabled(True)
        self.table = _table()
        self.chosen = wrapped(NOTHING_CHOSEN, "the line chosen")
        self.key = QKeySequenceEdit()
        self.key.setAccessibleName("new key: press it here")
        self.key.setMaximumSequenceLength(1)
        line = self.key.findChild(QLineEdit)
        assert line is not None, "a key field holds a line"
        line.setPlaceholderText("press the new key")
        self.scope = Choice("where the new key works", SCOPES)
        self.give = dialog_button("Give this key")
        self.take_away = dialog_button("No key there")
        self.reset = dialog_button("As at first")
        self.reset_all = dialog_button("All as at first")
        self.told = wrapped(name="what came of it")
        self.buttons = close_button()
        self._lay_out()
        self._connect()
        self.refresh()
        self.look_for.setFocus()

    def refresh(self) -> None:
        """Show the lines that hold what was typed; the line chosen stays chosen."""
        before = self._chosen()
        self._rows = self._presenter.rows(self.look_for.text(), native)
        self.table.setRowCount(len(self._rows))
        for number, row in enumerate(self._rows):
            keys = ", ".join(part for part in (row.keys, CHANGED if row.changed else "") if part)
            for column, words in enumerate((row.where, keys, row.words)):
                self.table.setItem(number, column, QTableWidgetItem(words))
        place = next((number for number, row in enumerate(self._rows) if before is not None and row.name == before.name), None)
        if before is not None and before.name and place is not None:
            self.table.selectRow(place)
        self._show_chosen()

    def _chosen(self) -> KeyRow | None:
        numbers = {index.row() for index in self.table.selectedIndexes()}
        return self._rows[min(numbers)] if numbers and min(numbers) < len(self._rows) else None

    def _show_chosen(self) -> None:
        row = self._chosen()
        can = row is not None and bool(row.name)
        words = NOTHING_CHOSEN if row is None else NOT_CHANGEABLE
        self.chosen.setText(f"{row.words}: {row.keys or 'no key'}" if row is not None and can else words)
        for widget in (self.key, self.scope, self.give, self.take_away):
            widget.setEnabled(can)
        self.reset.setEnabled(row is not None and row.changed)
        self.reset_all.setEnabled(self._presenter.changed)

    def _give(self) -> None:
        row = self._chosen()
        if row is None:
            return
        key = portable(self.key.keySequence())
        why_not = self._presenter.give(row.name, key, self.scope.currentText())
        self._tell(why_not or f"{native(key)} is now for: {row.words}")
        if not why_not:
            self.key.clear()

    def _take_away(self) -> None:
        row = self._chosen()
        if row is not None:
            self._presenter.take_away(row.name, self.scope.currentText())
            self._tell(f"{row.words} has no key {self.scope.currentText()} now")

    def _reset(self) -> None:
        row = self._chosen()
        if row is not None:
            self._tell(self._presenter.reset(row.name) or f"{row.words} has the keys it had at first")

    def _reset_all(self) -> None:
        self._presenter.reset_all()
        self._tell("all keys are as they were at first")

    def _tell(self, words: str) -> None:
        self.told.setText(words[:1].upper() + words[1:])
        self.refresh()

    def _connect(self) -> None:
        self.look_for.textChanged.connect(lambda _text: self.refresh())
        self.table.itemSelectionChanged.connect(self._show_chosen)
        self.give.clicked.connect(lambda _checked=False: self._give())
        self.take_away.clicked.connect(lambda _checked=False: self._take_away())
        self.reset.clicked.connect(lambda _checked=False: self._reset())
        self.reset_all.clicked.connect(lambda _checked=False: self._reset_all())
        self.buttons.rejected.connect(self.reject)

    def _lay_out(self) -> None:
        change = QGridLayout()
        change.setVerticalSpacing(4)
        change.addWidget(self.chosen, 0, 0, 1, 3)
        for column, (words, widget) in enumerate((("New key", self.key), ("It works", self.scope))):
            row = QHBoxLayout()
            row.setSpacing(6)
            row.addWidget(QLabel(words))
            row.addWidget(widget, 1)
            change.addLayout(row, 1, column)
        change.addWidget(self.give, 1, 2)
        others = QHBoxLayout()
        for button in (self.take_away, self.reset, self.reset_all):
            others.addWidget(button)
        others.addStretch(1)
        others.addWidget(self.buttons)
        layout = QVBoxLayout(self)
        layout.addWidget(self.look_for)
        layout.addWidget(self.table, 1)
        layout.addLayout(change)
        layout.addWidget(self.told)
        layout.addLayout(others)
        sized(self, 110, 34)


def _table() -> QTableWidget:
    table = QTableWidget(0, len(HEAD))
    table.setAccessibleName("list of keys")
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    set_up_fitted(table, HEAD, 2)
    return table
