"""The start page: begin from a film, open a review, take up a recent one, or look at the made-up game."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PyQt6.QtCore import QEvent, QObject, Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent
from PyQt6.QtWidgets import QFrame, QHBoxLayout, QLabel, QListWidget, QListWidgetItem, QPushButton, QVBoxLayout, QWidget

from filmreview.cautions import MINORS, OFFLINE, SAFETY, STUDY_AID
from filmreview.desktop.small_widgets import heading, in_bold, wrapped

_BEGIN = (
    ("film", "New review from a film ...", "Choose the film; then say which game it is."),
    ("review", "Open a review ...", "Go on with one that you began, or look at a colleague's."),
    (
        "made_up",
        "The made-up game ...",
        "A drawn game of invented schools, with its review: look round without a film of your own.",
    ),
)


class StartPage(QWidget):
    """What is seen while no review is open."""

    film_wanted = pyqtSignal()
    review_wanted = pyqtSignal()
    made_up_wanted = pyqtSignal()
    recent_wanted = pyqtSignal(object)  # Path

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("start page")
        self.recent = QListWidget()
        self.recent.setAccessibleName("reviews opened last")
        self.recent.itemActivated.connect(self._chosen)
        self.recent.installEventFilter(self)
        self.fault = in_bold(wrapped(name="what went wrong"))
        self.fault.setFrameShape(QFrame.Shape.Box)
        self.fault.setMargin(8)
        self.fault.hide()
        self.buttons: dict[str, QPushButton] = {}
        self._lay_out()

    def show_recent(self, paths: Sequence[Path]) -> None:
        """List these reviews, the last one first."""
        self.recent.clear()
        for path in paths:
            entry = QListWidgetItem(f"{path.stem}\n{path.parent}")
            entry.setData(Qt.ItemDataRole.UserRole, path)
            self.recent.addItem(entry)
        if not paths:
            entry = QListWidgetItem("No review opened yet")
            entry.setFlags(Qt.ItemFlag.ItemIsEnabled)  # cannot be chosen, but is read as other words are
            self.recent.addItem(entry)

    def show_fault(self, words: str) -> None:
        """Say what went wrong with what was asked for; "" takes it away."""
        self.fault.setText(words[:1].upper() + words[1:])
        self.fault.setVisible(bool(words))

    def eventFilter(self, watched: QObject | None, event: QEvent | None) -> bool:
        """Enter on a recent review opens it, on every platform's style."""
        if watched is self.recent and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            item = self.recent.currentItem()
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and item is not None:
                self._chosen(item)
                return True
        return super().eventFilter(watched, event)

    def _chosen(self, item: QListWidgetItem) -> None:
        path = item.data(Qt.ItemDataRole.UserRole)
        if isinstance(path, Path):
            self.recent_wanted.emit(path)

    def _lay_out(self) -> None:
        letters = self.fontMetrics().averageCharWidth()
        begin = QVBoxLayout()
        begin.setSpacing(4)
        begin.addWidget(heading("What to do"))
        wanted = {"film": self.film_wanted, "review": self.review_wanted, "made_up": self.made_up_wanted}
        for name, words, what in _BEGIN:
            button = QPushButton(words)
            button.setAccessibleName(words)
            button.setMinimumHeight(self.fontMetrics().height() * 2)
            button.clicked.connect(wanted[name])
            self.buttons[name] = button
            begin.addWidget(button)
            begin.addWidget(wrapped(what))
            begin.addSpacing(8)
        begin.addStretch(1)
        recent = QVBoxLayout()
        recent.setSpacing(4)
        recent.addWidget(heading("Reviews opened last"))
        recent.addWidget(self.recent, 1)
        columns = QHBoxLayout()
        columns.setSpacing(24)
        columns.addLayout(begin, 1)
        columns.addLayout(recent, 1)
        middle = QWidget()
        middle.setMaximumWidth(letters * 130)
        inside = QVBoxLayout(middle)
        inside.addWidget(_title())
        inside.addWidget(wrapped("Game film, looked at for what players wear, ruled by the book in force on the game's day."))
        inside.addWidget(self.fault)
        inside.addSpacing(12)
        inside.addLayout(columns, 1)
        inside.addSpacing(8)
        for words in (STUDY_AID, SAFETY, f"{MINORS} {OFFLINE}"):
            inside.addWidget(wrapped(words))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(24, 24, 24, 24)
        layout.addStretch(1)
        layout.addWidget(middle, 8)
        layout.addStretch(1)


def _title() -> QLabel:
    title = heading("Film review")
    font = title.font()
    font.setPointSizeF(font.pointSizeF() * 1.8)
    title.setFont(font)
    return title
