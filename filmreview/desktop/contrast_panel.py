"""The panel under the picture while a number's contrast is measured: answer, figures, the jersey's own region, buttons."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout

from filmreview.desktop.contrast_presenter import ContrastPresenter
from filmreview.desktop.small_widgets import Patch, in_bold, wrapped


class ContrastPanel(QFrame):
    """Shows a presenter; hidden while no number is measured."""

    def __init__(self, presenter: ContrastPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.setAccessibleName("a number against its jersey")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.number, self.jersey = Patch("colour of the number"), Patch("colour of the jersey")
        self.value = in_bold(wrapped(name="whether the number stands out"))
        self.behind, self.todo = wrapped(name="the figures behind it"), wrapped(name="what to do now")
        self.own = self._button("The jersey's own region", "show a part of the jersey", presenter.show_jersey)
        self.put = self._button("Onto the card", "put the number's colour on the card", presenter.go_on)
        self.stop = self._button("Stop", "stop measuring the number", presenter.stop)
        self._lay_out()
        presenter.events.on("measured", self.refresh)
        presenter.events.on("asked", self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show what the presenter says."""
        presenter, found = self._presenter, self._presenter.found
        self.setVisible(presenter.on)
        self.number.show_colour(found.number if found else None)
        self.jersey.show_colour(found.jersey if found else None)
        for label, words in ((self.value, presenter.value), (self.behind, presenter.behind), (self.todo, presenter.todo)):
            label.setText(words)
            label.setVisible(bool(words))
        self.put.setEnabled(found is not None and bool(found.facts()))
        self.own.setEnabled(presenter.asked is None)

    def _lay_out(self) -> None:
        top, buttons = QHBoxLayout(), QHBoxLayout()
        for patch in (self.number, self.jersey):
            top.addWidget(patch)
        top.addWidget(self.value, 1)
        buttons.addWidget(self.todo, 1)
        for button in (self.own, self.put, self.stop):
            buttons.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 4, 6, 4)
        layout.setSpacing(3)
        layout.addLayout(top)
        layout.addWidget(self.behind)
        layout.addLayout(buttons)

    def _button(self, words: str, name: str, do: Callable[[], None]) -> QPushButton:
        button = QPushButton(words)
        button.setAccessibleName(name)
        button.setAutoDefault(False)
        button.clicked.connect(lambda _checked=False: do())
        return button
