"""The history: every step with when, who, what; Enter undoes back to the one chosen, or redoes up to it."""

from __future__ import annotations

from PyQt6.QtCore import QAbstractTableModel, QModelIndex, Qt, pyqtSignal
from PyQt6.QtGui import QFont, QHideEvent, QKeyEvent, QShowEvent
from PyQt6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.history_presenter import UNNAMED, HistoryPresenter, HistoryRow
from filmreview.desktop.plain_table import read_only
from filmreview.desktop.small_widgets import in_bold, wrapped

COLUMNS = ("When", "Who", "What", "State")
WHEN, WHO, WHAT, STATE = range(len(COLUMNS))


class _Model(QAbstractTableModel):
    """The rows that hold every word looked for; steps that are not done are in italics, and say so."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: tuple[HistoryRow, ...] = ()

    def show_rows(self, rows: tuple[HistoryRow, ...]) -> None:
        """These instead."""
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """As many as there are steps."""
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """As many as COLUMNS."""
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The words over the columns."""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return COLUMNS[section]
        return None

    def data(self, index: QModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """A cell's words."""
        if not index.isValid():
            return None
        row = self.rows[index.row()]
        words = (row.when, row.who, row.what, row.state)[index.column()]
        if role == Qt.ItemDataRole.ToolTipRole and index.column() == WHO:
            return row.who_told
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return words
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{COLUMNS[index.column()]}: {words or 'empty'}"
        if role == Qt.ItemDataRole.FontRole and (row.walk is None or row.walk >= 0):
            font = QFont()
            font.setItalic(row.walk != 0)
            font.setBold(row.walk == 0)
            return font
        return None


class _Table(QTableView):
    """Enter chooses the step."""

    entered_row = pyqtSignal()

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Enter; all others as in any table."""
        assert event is not None, "Qt gives the event"
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered_row.emit()
        else:
            super().keyPressEvent(event)


class HistoryDialog(QDialog):
    """Beside the window; it stays open while steps are undone and redone."""

    def __init__(self, presenter: HistoryPresenter, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("History")
        self._presenter = presenter
        self._model = _Model()
        self.table = self._made_table()
        self.look_for = QLineEdit()
        self.look_for.setPlaceholderText("Look for: a tag, a name, a day ...")
        self.look_for.setAccessibleName("look for steps")
        self.look_for.setClearButtonEnabled(True)
        self.go = QPushButton()
        self.go.setAccessibleName("undo or redo up to the step chosen")
        self.go.setAutoDefault(False)
        self._told = wrapped(name="the step chosen, in words")
        self._lay_out()
        self._connect()
        letters = self.fontMetrics().averageCharWidth()
        self.resize(letters * 150, self.fontMetrics().height() * 28)
        self.refresh()

    def refresh(self) -> None:
        """The steps, or the words looked for, have changed."""
        chosen = self._chosen()
        words = tuple(self.look_for.text().casefold().split())
        self._model.show_rows(tuple(row for row in self._presenter.rows if row.holds(words)))
        numbers = [row.number for row in self._model.rows]
        stands = next((place for place, row in enumerate(self._model.rows) if row.walk == 0), 0)
        self.table.selectRow(numbers.index(chosen.number) if chosen and chosen.number in numbers else stands)
        self._show_chosen()

    def showEvent(self, event: QShowEvent | None) -> None:
        """Somebody looks: it is read."""
        super().showEvent(event)
        self._presenter.look(True)

    def hideEvent(self, event: QHideEvent | None) -> None:
        """Nobody looks any more."""
        super().hideEvent(event)
        self._presenter.look(False)

    def _made_table(self) -> _Table:
        table = _Table()
        table.setAccessibleName("history of the review, the newest step first")
        table.setModel(self._model)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        head = read_only(table, 6)
        letter = table.fontMetrics().averageCharWidth()
        for column, letters in ((WHEN, 24), (STATE, 34)):
            table.setColumnWidth(column, letters * letter + 12)
        table.setColumnWidth(WHO, in_bold(QLabel()).fontMetrics().horizontalAdvance(UNNAMED) + 16)
        head.setSectionResizeMode(WHAT, QHeaderView.ResizeMode.Stretch)
        return table

    def _lay_out(self) -> None:
        below = QHBoxLayout()
        below.addWidget(self.go)
        below.addStretch(1)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close = buttons.button(QDialogButtonBox.StandardButton.Close)
        assert close is not None, "it was asked for"
        close.setAutoDefault(False)  # Enter in the line looks for words, it does not close
        buttons.rejected.connect(self.reject)
        below.addWidget(buttons)
        layout = QVBoxLayout(self)
        layout.addWidget(self.look_for)
        layout.addWidget(self.table, 1)
        layout.addWidget(self._told)
        layout.addLayout(below)

    def _connect(self) -> None:
        self.look_for.textChanged.connect(lambda _text: self.refresh())
        self.look_for.returnPressed.connect(self.table.setFocus)
        self.table.entered_row.connect(self._go)
        self.table.doubleClicked.connect(lambda _index: self._go())
        self.go.clicked.connect(self._go)
        selection = self.table.selectionModel()
        assert selection is not None, "a table with a model has one"
        selection.currentChanged.connect(lambda _now, _before: self._show_chosen())
        self._presenter.events.on("history", self.refresh)

    def _chosen(self) -> HistoryRow | None:
        index = self.table.currentIndex()
        return self._model.rows[index.row()] if index.isValid() and index.row() < len(self._model.rows) else None

    def _show_chosen(self) -> None:
        row = self._chosen()
        words = row.walk_words if row else ""
        self.go.setText(words[:1].upper() + words[1:] if words else "Nothing to undo or redo there")
        self.go.setEnabled(bool(words))
        self._told.setText(f"{row.when}, {row.who_told}: {row.what}. {row.state[:1].upper()}{row.state[1:]}." if row else "")

    def _go(self) -> None:
        row = self._chosen()
        if row is not None:
            self._presenter.go_to(row.number)
