"""The right side of picking kit colours: the parts of both kits, the regions of the part chosen, and its colour."""

from __future__ import annotations

from collections.abc import Mapping

from PyQt6.QtCore import QSize, Qt, pyqtSignal
from PyQt6.QtGui import QColor, QIcon, QKeyEvent, QPixmap
from PyQt6.QtWidgets import QHBoxLayout, QListWidget, QListWidgetItem, QPushButton, QVBoxLayout, QWidget

from filmreview.colour.palette import colour_named
from filmreview.colour.spaces import lab_to_srgb
from filmreview.colour.value import Colour
from filmreview.desktop.kit_colours_presenter import KitColour, KitColours, Part
from filmreview.desktop.setup_presenter import KIT_WORDS
from filmreview.desktop.small_widgets import ColourChoice, Patch, heading, wrapped
from filmreview.review.model import TEAM_FACTS

AS_MEASURED = "as measured"


class _List(QListWidget):
    """A list whose Delete key is told, and that asks for little room."""

    delete_wanted = pyqtSignal()

    def sizeHint(self) -> QSize:
        """Its least height: what is left over comes on top."""
        return QSize(super().sizeHint().width(), self.minimumHeight())

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Delete takes away what is chosen."""
        if event is not None and event.key() == Qt.Key.Key_Delete:
            self.delete_wanted.emit()
        else:
            super().keyPressEvent(event)


class KitLists(QWidget):
    """Shows a `KitColours` and tells it which part and which sample is meant. names: of the teams, by side."""

    sample_wanted = pyqtSignal(str)  # a sample was chosen: go to its frame

    def __init__(self, kit: KitColours, names: Mapping[str, str]) -> None:
        super().__init__()
        self._kit = kit
        self._parts: tuple[Part, ...] = tuple((side, part) for side in ("home", "visitor") for part in TEAM_FACTS)
        self._words = {part: f"{names.get(part[0]) or part[0]}: {KIT_WORDS[part[1]].casefold()}" for part in self._parts}
        self.parts = QListWidget()
        self.parts.setAccessibleName("part of the kit")
        self.samples = _List()
        self.samples.setAccessibleName("regions of this part")
        self.samples.setWordWrap(True)
        self.patch = Patch("colour of this part")
        self.words = wrapped(name="colour of this part, in words")
        self.name = ColourChoice("name of the colour", AS_MEASURED)
        self.away = QPushButton("Take the region away")
        self.away.setAutoDefault(False)
        self._showing = False
        self._fill()
        self._lay_out()
        self._connect()
        self.show_kit()

    def show_kit(self) -> None:
        """Show what was picked."""
        self._showing = True
        for row, part in enumerate(self._parts):
            item = self.parts.item(row)
            assert item is not None, "one a part"
            found = self._kit.of(part)
            item.setText(self._words[part] + _summary(found))
            item.setIcon(_icon(_shown(found), self.parts.iconSize()))
        self.parts.setCurrentRow(self._parts.index(self._kit.part))
        self._show_samples(self._kit.here)
        here = self._kit.here
        self.patch.show_colour(_shown(here))
        self.words.setText(here.words or "no region yet")
        self.name.show_text(here.overruled or AS_MEASURED)
        self.away.setEnabled(self._kit.sample is not None)
        self._showing = False

    def _show_samples(self, here: KitColour) -> None:
        """In place: the list may be telling of a choice right now."""
        while self.samples.count() > len(here.samples):
            self.samples.takeItem(self.samples.count() - 1)
        for row, sample in enumerate(here.samples):
            if row == self.samples.count():
                self.samples.addItem(QListWidgetItem())
            item = self.samples.item(row)
            assert item is not None, "there are as many as samples"
            item.setText(f"region {row + 1}: {sample.words}")
            item.setData(Qt.ItemDataRole.UserRole, sample.id)
            item.setIcon(_icon(sample.measured.colour if sample.measured is not None else None, self.samples.iconSize()))
        active = next((row for row, sample in enumerate(here.samples) if sample.id == self._kit.active), -1)
        if self.samples.currentRow() != active:
            self.samples.setCurrentRow(active)

    def _fill(self) -> None:
        side = self.fontMetrics().height()
        for one in (self.parts, self.samples):
            one.setIconSize(QSize(side * 3 // 2, side))
        for part in self._parts:
            self.parts.addItem(QListWidgetItem(self._words[part]))
        high, frame = side + 2, 2 * self.parts.frameWidth()
        self.parts.setFixedHeight(len(self._parts) * high + frame)
        self.samples.setMinimumHeight(4 * high + frame)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(heading("Part of the kit"))
        layout.addWidget(self.parts)
        layout.addWidget(heading("Its regions"))
        layout.addWidget(self.samples, 1)
        layout.addWidget(self.away)
        layout.addWidget(heading("Its colour"))
        row = QHBoxLayout()
        row.addWidget(self.patch)
        row.addWidget(self.name, 1)
        layout.addLayout(row)
        layout.addWidget(self.words)
        self.setMinimumWidth(self.fontMetrics().averageCharWidth() * 34)

    def _connect(self) -> None:
        self._kit.events.on("kit", self.show_kit)
        self.parts.currentRowChanged.connect(self._part_chosen)
        self.samples.currentItemChanged.connect(lambda item, _before: self._sample_chosen(item))
        self.samples.delete_wanted.connect(self._kit.drop)
        self.away.clicked.connect(lambda _checked=False: self._kit.drop())
        self.name.chosen.connect(lambda text: self._kit.overrule("" if text == AS_MEASURED else text))

    def _part_chosen(self, row: int) -> None:
        if not self._showing and row >= 0:
            self._kit.choose(self._parts[row])

    def _sample_chosen(self, item: QListWidgetItem | None) -> None:
        if not self._showing and item is not None:
            self.sample_wanted.emit(item.data(Qt.ItemDataRole.UserRole))


def _summary(found: KitColour) -> str:
    if found.overruled:
        return f", {found.overruled} by eye"
    if found.colour is not None:
        return f", {found.colour.name}"
    return ", cannot be told" if found.samples and found.trouble else ""


def _shown(found: KitColour) -> Colour | None:
    return colour_named(found.overruled) if found.overruled else found.colour


def _icon(colour: Colour | None, size: QSize) -> QIcon:
    pixmap = QPixmap(size)
    pixmap.fill(Qt.GlobalColor.transparent)
    if colour is not None:
        pixmap.fill(QColor(*(min(255, max(0, round(float(part) * 255))) for part in lab_to_srgb(colour.lab))))
    icon = QIcon(pixmap)
    icon.addPixmap(pixmap, QIcon.Mode.Selected)  # a row that is chosen must not tint its colour
    return icon
