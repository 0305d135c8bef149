"""The list of questions in the lesson dialog: which are asked, in which order, in which words."""

from __future__ import annotations

from pathlib import Path

from PyQt6.QtCore import Qt, pyqtSignal
from PyQt6.QtGui import QKeySequence, QShortcut
from PyQt6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.lesson_presenter import LessonPresenter
from filmreview.errors import FilmReviewError
from filmreview.lessons.question import LONGEST_ASKED

SITUATIONS = "Situations (*.toml)"


class LessonRows(QWidget):
    """chosen: the row stood on. told: what could not be done. Space asks a question or leaves it out; Alt+Up and Alt+Down move
    it."""

    chosen = pyqtSignal(int)
    told = pyqtSignal(str)

    def __init__(self, presenter: LessonPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.list = QListWidget()
        self.list.setAccessibleName("questions of the lesson")
        self.list.setTabKeyNavigation(False)
        self.earlier, self.later = _button("Earlier", "Alt+Up"), _button("Later", "Alt+Down")
        self.all, self.none = _button("All"), _button("None")
        self.situation = _button("Add a situation ...")
        self.own = QLineEdit()
        self.own.setMaxLength(LONGEST_ASKED)
        self.own.setAccessibleName("own words for the question chosen")
        self._lay_out()
        self._connect()
        self.refresh()

    @property
    def place(self) -> int:
        """The row stood on, from 0."""
        return max(0, self.list.currentRow())

    def refresh(self) -> None:
        """The rows changed."""
        place = self.place
        self.list.blockSignals(True)
        self.list.clear()
        for row in self._presenter.rows:
            item = QListWidgetItem(row.words)
            item.setToolTip(row.words)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(Qt.CheckState.Checked if row.on else Qt.CheckState.Unchecked)
            self.list.addItem(item)
        self.list.setCurrentRow(min(place, self.list.count() - 1))
        self.list.blockSignals(False)
        self._show_own()

    def shift(self, by: int) -> None:
        """Ask the question stood on earlier or later."""
        there = self._presenter.move(self.place, by)
        self.list.setCurrentRow(there)

    def add_situation(self, path: Path) -> None:
        """Ask what is seen in a situation file too; what stands in the way is told."""
        try:
            self._presenter.add_situation(path)
        except FilmReviewError as error:
            self.told.emit(str(error))
        else:
            self.list.setCurrentRow(self.list.count() - 1)

    def _ticked(self, item: QListWidgetItem) -> None:
        self._presenter.set_on(self.list.row(item), item.checkState() == Qt.CheckState.Checked)

    def _show_own(self) -> None:
        rows = self._presenter.rows
        if rows:
            row = rows[self.place]
            self.own.setPlaceholderText(row.question.asked)
            if self.own.text() != row.ask.own:
                self.own.setText(row.ask.own)

    def _row_changed(self) -> None:
        self._show_own()
        self.chosen.emit(self.place)

    def _ask_situation(self) -> None:
        path, _kind = QFileDialog.getOpenFileName(self, "Add a situation", "", SITUATIONS)
        if path:
            self.add_situation(Path(path))

    def _connect(self) -> None:
        self.list.itemChanged.connect(self._ticked)
        self.list.currentRowChanged.connect(lambda _row: self._row_changed())
        self.own.editingFinished.connect(lambda: self._presenter.set_own(self.place, self.own.text()))
        self.earlier.clicked.connect(lambda _checked=False: self.shift(-1))
        self.later.clicked.connect(lambda _checked=False: self.shift(1))
        self.all.clicked.connect(lambda _checked=False: self._presenter.set_all(True))
        self.none.clicked.connect(lambda _checked=False: self._presenter.set_all(False))
        self.situation.clicked.connect(lambda _checked=False: self._ask_situation())
        for keys, by in (("Alt+Up", -1), ("Alt+Down", 1)):
            shortcut = QShortcut(QKeySequence(keys), self.list)
            shortcut.setContext(Qt.ShortcutContext.WidgetShortcut)
            shortcut.activated.connect(lambda by=by: self.shift(by))
        self._presenter.events.on("rows", self.refresh)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        for button in (self.earlier, self.later, self.all, self.none, self.situation):
            buttons.addWidget(button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.list, 1)
        layout.addLayout(buttons)
        layout.addWidget(self.own)


def _button(words: str, keys: str = "") -> QPushButton:
    button = QPushButton(words)
    button.setAccessibleName(f"{words} ({keys} in the list)" if keys else words)
    button.setToolTip(button.accessibleName())
    button.setAutoDefault(False)
    return button
