"""The films of the game: what each shows, how they are tied, adding, naming and removing."""

from __future__ import annotations

from PyQt6.QtCore import Qt, pyqtSignal
from PyQt6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.dialog_parts import close_button, dialog_button, sized
from filmreview.desktop.films_presenter import FilmsPresenter
from filmreview.desktop.plain_table import set_up_fitted, told_cell
from filmreview.desktop.small_widgets import wrapped

HEAD = ("Shows", "File", "Length", "Tags", "Shared instants")
SHOWS = 0
HERE = " (on the picture)"


class FilmsDialog(QDialog):
    """Stays open beside the window. add_wanted: choose one more film. show_wanted: put this film on the picture."""

    add_wanted = pyqtSignal()
    show_wanted = pyqtSignal(str)

    def __init__(self, presenter: FilmsPresenter, how_to_tie: str, parent: QWidget | None = None) -> None:
        """how_to_tie: a sentence that names the keys."""
        super().__init__(parent)
        self.setWindowTitle("Films of the game")
        self._presenter = presenter
        self._ids: tuple[str, ...] = ()
        self.table = QTableWidget(0, len(HEAD))
        self.show_film = dialog_button("Put it on the picture")
        self.add = dialog_button("Add a film ...")
        self.untie = dialog_button("Take its shared instants away")
        self.remove = dialog_button("Remove it")
        self._set_up_table()
        buttons = close_button()
        buttons.rejected.connect(self.reject)
        row = QHBoxLayout()
        for button in (self.show_film, self.add, self.untie, self.remove):
            row.addWidget(button)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.addWidget(self.table, 1)
        layout.addLayout(row)
        layout.addWidget(wrapped(how_to_tie))
        layout.addWidget(buttons)
        sized(self, 110, 18)
        self._connect()
        self.refresh()

    def refresh(self) -> None:
        """The review or the film on the picture changed."""
        chosen = self.chosen()
        rows = self._presenter.rows()
        self._ids = tuple(row.film for row in rows)
        self.table.blockSignals(True)  # filling is no naming
        self.table.setRowCount(len(rows))
        for number, row in enumerate(rows):
            texts = (row.what, row.name + (HERE if row.here else ""), row.length, str(row.tags), row.common)
            for column, text in enumerate(texts):
                cell = told_cell(text, HEAD[column])
                if column != SHOWS:
                    cell.setFlags(cell.flags() & ~Qt.ItemFlag.ItemIsEditable)
                self.table.setItem(number, column, cell)
        self.table.blockSignals(False)
        if self._ids:
            self.table.setCurrentCell(self._ids.index(chosen) if chosen in self._ids else 0, SHOWS)
        for button in (self.show_film, self.untie, self.remove):
            button.setEnabled(bool(self._ids))

    def chosen(self) -> str:
        """The id of the film chosen; "" for none."""
        row = self.table.currentRow()
        return self._ids[row] if 0 <= row < len(self._ids) else ""

    def _named(self, cell: QTableWidgetItem) -> None:
        self._presenter.name(self._ids[cell.row()], cell.text())
        self.refresh()

    def _set_up_table(self) -> None:
        table = self.table
        table.setAccessibleName("films of the game")
        table.setSelectionMode(QTableWidget.SelectionMode.SingleSelection)
        head = set_up_fitted(table, HEAD, len(HEAD) - 1)
        head.setSectionResizeMode(SHOWS, QHeaderView.ResizeMode.Interactive)
        table.setColumnWidth(SHOWS, table.fontMetrics().averageCharWidth() * 20)

    def _connect(self) -> None:
        self.table.itemChanged.connect(self._named)
        self.add.clicked.connect(lambda _checked=False: self.add_wanted.emit())
        self.show_film.clicked.connect(lambda _checked=False: self.show_wanted.emit(self.chosen()))
        self.untie.clicked.connect(lambda _checked=False: self._presenter.untie(self.chosen()))
        self.remove.clicked.connect(lambda _checked=False: self._presenter.remove(self.chosen()))
