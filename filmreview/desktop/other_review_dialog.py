"""Another observer's review beside this one: the pairs in a list, both sides of the one chosen under it."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, Qt, pyqtSignal
from PyQt6.QtGui import QIcon, QKeyEvent
from PyQt6.QtWidgets import (
    QCheckBox,
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QTableWidget,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.dialog_parts import close_button, dialog_button, sized
from filmreview.desktop.other_review_presenter import MINE, SAME, THEIRS, Key, OtherReviewPresenter, OtherRow
from filmreview.desktop.plain_table import set_up_plain, told_cell
from filmreview.desktop.shapes import RULINGS, row_icon
from filmreview.desktop.small_widgets import heading, wrapped

HEAD = ("Time", "Whose", "Item", "Differs in", "Mine", "Theirs", "What to do")
TIME, WHO, ITEM, DIFFERS, MY_SIDE, THEIR_SIDE, CHOICE = range(len(HEAD))
_WIDTHS = {TIME: 10, WHO: 17, ITEM: 13, DIFFERS: 20, CHOICE: 15}


class PairTable(QTableWidget):
    """The list. Space turns between mine and theirs, Enter goes to the moment."""

    entered_row = pyqtSignal()
    turned = pyqtSignal()

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Space and Enter."""
        assert event is not None, "Qt gives the event"
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered_row.emit()
        elif event.key() == Qt.Key.Key_Space:
            self.turned.emit()
        else:
            super().keyPressEvent(event)


class OtherReviewDialog(QDialog):
    """Stays open beside the window, so that the film can be looked at. jump_wanted: go to the moment of a pair."""

    jump_wanted = pyqtSignal(object)  # Key

    def __init__(self, presenter: OtherReviewPresenter, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._presenter = presenter
        self._rows: tuple[OtherRow, ...] = ()
        self._icons: dict[str, QIcon] = {}
        mine, theirs = presenter.who
        self.setWindowTitle(f"The review of {theirs} beside this one")
        self.only_differing = QCheckBox("Only where we differ")
        self.only_differing.setChecked(True)
        self.summary = wrapped(name="how far the two reviews agree")
        self.told = wrapped(name="what else differs")
        self.table = PairTable(0, len(HEAD))
        self.heads = (heading(f"Mine ({mine})"), heading(f"Theirs ({theirs})"))
        self.sides = (wrapped(name="my side"), wrapped(name="their side"))
        self.turn = dialog_button("Take theirs")
        self.missing = dialog_button("Take all that only they have")
        self.go = dialog_button("Go to the moment")
        self.take = dialog_button("Take what is chosen")
        self.buttons = close_button()
        self._set_up_table()
        self._lay_out()
        self._connect()
        self.refresh()

    def refresh(self, anew: bool = False) -> None:
        """The pairs changed; the one chosen stays chosen where it is still there. anew: fill every row."""
        chosen, place = self.chosen(), self.table.currentRow()
        if self._presenter.laid is None:
            self.reject()
            return
        before = () if anew else self._rows
        self._rows = self._presenter.rows(self.only_differing.isChecked())
        self.table.blockSignals(True)  # the choice is set again below
        self.table.setRowCount(len(self._rows))
        for number, row in enumerate(self._rows):
            if number >= len(before) or before[number] != row:
                self._fill(number, row)
        self.table.blockSignals(False)
        keys = [row.key for row in self._rows]
        if keys:
            self.table.setCurrentCell(keys.index(chosen) if chosen in keys else min(max(place, 0), len(keys) - 1), TIME)
        self.summary.setText(self._presenter.summary())
        self.told.setText("\n".join(self._presenter.laid.told))
        self.told.setVisible(bool(self._presenter.laid.told))
        self._show_chosen()

    def chosen(self) -> Key | None:
        """The pair whose row is chosen."""
        row = self._chosen_row()
        return row.key if row else None

    def changeEvent(self, event: QEvent | None) -> None:
        """Light or dark: the shapes follow."""
        if event is not None and event.type() == QEvent.Type.PaletteChange and hasattr(self, "buttons"):
            self._icons.clear()
            self.refresh(anew=True)
        super().changeEvent(event)

    def _chosen_row(self) -> OtherRow | None:
        row = self.table.currentRow()
        return self._rows[row] if 0 <= row < len(self._rows) else None

    def _fill(self, number: int, row: OtherRow) -> None:
        choice = row.choice if row.can_take else ("the same" if row.differs == SAME else "only mine")
        for column, text in enumerate((row.time, row.who, row.item, row.differs, row.mine, row.theirs, choice)):
            cell = told_cell(text, HEAD[column])
            word = next((one for one in RULINGS if text.startswith(one)), "") if column in (MY_SIDE, THEIR_SIDE) else ""
            if word:
                cell.setIcon(self._icon(word))
            if column == CHOICE and row.choice == THEIRS:
                font = cell.font()
                font.setBold(True)
                cell.setFont(font)
            self.table.setItem(number, column, cell)

    def _icon(self, word: str) -> QIcon:
        if word not in self._icons:
            self._icons[word] = row_icon(word, False, self.palette())
        return self._icons[word]

    def _show_chosen(self) -> None:
        row = self._chosen_row()
        for label, text in zip(self.sides, self._presenter.sides(row.key) if row else ("", ""), strict=True):
            label.setText(text)
        self.turn.setEnabled(row is not None and row.can_take)
        self.turn.setText("Keep mine" if row is not None and row.choice == THEIRS else "Take theirs")
        self.turn.setAccessibleName(self.turn.text())
        self.go.setEnabled(row is not None)
        many = self._presenter.taking
        self.take.setEnabled(many > 0)
        self.take.setText(f"Take what is chosen ({many})" if many else "Take what is chosen")

    def _turn(self) -> None:
        row = self._chosen_row()
        if row is not None:
            self._presenter.choose(row.key, MINE if row.choice == THEIRS else THEIRS)

    def _go(self) -> None:
        row = self._chosen_row()
        if row is not None:
            self.jump_wanted.emit(row.key)

    def _set_up_table(self) -> None:
        self.table.setAccessibleName("tags of both side by side")
        set_up_plain(self.table, HEAD, _WIDTHS, (MY_SIDE, THEIR_SIDE))

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.summary, 1)
        top.addWidget(self.only_differing)
        both = QGridLayout()
        for column in (0, 1):
            both.addWidget(self.heads[column], 0, column)
            both.addWidget(self.sides[column], 1, column, Qt.AlignmentFlag.AlignTop)
            both.setColumnStretch(column, 1)
        row = QHBoxLayout()
        for button in (self.turn, self.missing, self.go):
            row.addWidget(button)
        row.addStretch(1)
        row.addWidget(self.take)
        row.addWidget(self.buttons)
        layout = QVBoxLayout(self)
        layout.addLayout(top)
        layout.addWidget(self.told)
        layout.addWidget(self.table, 1)
        layout.addLayout(both)
        layout.addLayout(row)
        sized(self, 150, 32)

    def _connect(self) -> None:
        self.only_differing.toggled.connect(lambda _on: self.refresh())
        self.table.currentCellChanged.connect(lambda *_cells: self._show_chosen())
        self.table.turned.connect(self._turn)
        self.table.entered_row.connect(self._go)
        self.table.cellDoubleClicked.connect(lambda _row, _column: self._go())
        self.turn.clicked.connect(lambda _checked=False: self._turn())
        self.missing.clicked.connect(lambda _checked=False: self._presenter.choose_missing())
        self.go.clicked.connect(lambda _checked=False: self._go())
        self.take.clicked.connect(lambda _checked=False: self._presenter.take())
        self.buttons.rejected.connect(self.reject)
