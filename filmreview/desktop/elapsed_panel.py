"""The line under the picture while a time is told: from when to when, how long, whether a limit is kept."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import pyqtSignal
from PyQt6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout

from filmreview.desktop.elapsed_presenter import ElapsedPresenter
from filmreview.desktop.small_widgets import in_bold, wrapped


class ElapsedPanel(QFrame):
    """Shows a presenter; hidden while no first moment is set."""

    anew_wanted = pyqtSignal()  # the moment on the picture is to be the first one

    def __init__(self, presenter: ElapsedPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.setAccessibleName("time between two moments")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.head = in_bold(wrapped(name="from when to when"))
        self.words = wrapped(name="the time")
        self.limit = QLineEdit()
        self.limit.setAccessibleName("limit in seconds")
        self.limit.setPlaceholderText("limit: at most 20")
        self.limit.setMinimumWidth(self.limit.fontMetrics().horizontalAdvance(self.limit.placeholderText()) + 16)  # read whole
        self.anew = self._button("From here", "count from the moment on the picture", self.anew_wanted.emit)
        self.note = self._button("Into the note", "write the time into the note of the card", presenter.note)
        self.stop = self._button("Stop", "stop telling the time", presenter.stop)
        row = QHBoxLayout()
        row.addWidget(self.head, 1)
        for widget in (self.limit, self.anew, self.note, self.stop):
            row.addWidget(widget)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 4, 6, 4)
        layout.setSpacing(3)
        layout.addLayout(row)
        layout.addWidget(self.words)
        self.limit.textEdited.connect(presenter.set_limit)
        presenter.events.on("measured", self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show what the presenter says."""
        presenter = self._presenter
        self.setVisible(presenter.on)
        self.head.setText(f"Time {presenter.head}")
        self.words.setText(presenter.words)
        self.note.setEnabled(presenter.took is not None)

    def _button(self, words: str, name: str, do: Callable[[], None]) -> QPushButton:
        button = QPushButton(words)
        button.setAccessibleName(name)
        button.setAutoDefault(False)
        button.clicked.connect(lambda _checked=False: do())
        return button
