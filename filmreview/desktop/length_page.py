"""The tab over the ledger on which measuring by hand is done: the picture keeps its place and size."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QScrollArea, QTabWidget, QVBoxLayout, QWidget

from filmreview.desktop.small_widgets import wrapped

TAB = "Measuring"
_HINT = "Pause the film, then measure a length, a number against its jersey, or the time to another moment."


class MeasuringPage(QScrollArea):
    """Panels under each other, and a button for each thing that can be measured. begin: what a button does, by its words."""

    def __init__(self, tabs: QTabWidget, panels: tuple[QWidget, ...], begin: Mapping[str, Callable[[], object]]) -> None:
        super().__init__()
        self._tabs, self._panels = tabs, panels
        self._before: QWidget | None = None
        self.buttons = [self._button(words, do) for words, do in begin.items()]
        inner = QWidget()
        layout = QVBoxLayout(inner)
        layout.setContentsMargins(4, 4, 4, 4)
        layout.setSpacing(4)
        row = QHBoxLayout()
        row.addWidget(wrapped(_HINT), 1)
        for button in self.buttons:
            row.addWidget(button)
        layout.addLayout(row)
        for panel in panels:
            layout.addWidget(panel)
        layout.addStretch(1)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(inner)
        tabs.addTab(self, TAB)

    def open(self) -> None:
        """Something is being measured: show it."""
        if self._tabs.currentWidget() is not self:
            self._before = self._tabs.currentWidget()
            self._tabs.setCurrentWidget(self)

    def take_keys(self) -> None:
        """Come to the front, and give the focus to the first thing that can be chosen."""
        self._tabs.setCurrentWidget(self)
        shown = [panel for panel in self._panels if not panel.isHidden()]
        inside = [one for panel in shown for one in panel.findChildren(QWidget) if one.focusPolicy() & Qt.FocusPolicy.TabFocus]
        usable = [one for one in inside if one.isVisibleTo(self) and one.isEnabled()]
        (usable or self.buttons)[0].setFocus(Qt.FocusReason.ShortcutFocusReason)

    def close_when_idle(self, busy: bool) -> None:
        """Nothing is being measured any more: back to the tab that was there before."""
        if not busy and self._before is not None:
            if self._tabs.currentWidget() is self:
                self._tabs.setCurrentWidget(self._before)
            self._before = None

    def _button(self, words: str, do: Callable[[], object]) -> QPushButton:
        button = QPushButton(words)
        button.setAccessibleName(f"measure {words.lower()}")
        button.setAutoDefault(False)
        button.clicked.connect(lambda _checked=False: do())
        return button
