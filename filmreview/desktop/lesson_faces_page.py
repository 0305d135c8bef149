"""The page of the lesson dialog about faces: what is shown of the films, who is blurred there, and what a person answers.

A face is put on the list by drawing a box around it on any frame; it is then followed to both ends of the stretch. Where the
box is off, it is drawn anew on that frame.
"""

from __future__ import annotations

import numpy as np
from PyQt6.QtCore import QSize, Qt
from PyQt6.QtGui import QIcon, QPixmap
from PyQt6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from filmreview.cautions import MINORS
from filmreview.desktop.lesson_faces_presenter import FacesPresenter
from filmreview.desktop.picture import PictureCanvas, image_of
from filmreview.desktop.small_widgets import heading, wrapped
from filmreview.facts.region import Box
from filmreview.lessons.lesson_faces import BLURRED, CONSENT, NOBODY, OPEN, Stretch
from filmreview.measure.shape import bounds_of
from filmreview.review.model import Blur

STEPS = 200
ICON = 48  # pixels of a small picture
ANSWERS = {OPEN: "not answered", BLURRED: "blurred", CONSENT: "consent held", NOBODY: "nobody on it"}
GIVEN = {BLURRED: "Blurred: the list is right", CONSENT: "Consent held", NOBODY: "Nobody on it"}
"""What is pressed to answer: a list gone through with the arrow keys would answer on the way."""


class LessonFaces(QWidget):
    """finder: why faces cannot be proposed by the program, "" when they can."""

    def __init__(self, presenter: FacesPresenter, finder: str) -> None:
        super().__init__()
        self._presenter, self._finder = presenter, finder
        self._stretches: tuple[Stretch, ...] = ()
        self.stretches = _list("stretches of film that the lesson shows")
        self.answers = {choice: _button(words) for choice, words in GIVEN.items()}
        self.answer = QLabel()
        self.answer.setAccessibleName("answer for the faces of the stretch chosen")
        self.all = _button("The same for all")
        self.blurs = _list("faces to be blurred on the stretch chosen")
        self.blurs.setIconSize(QSize(ICON, ICON))
        self.canvas = PictureCanvas(name="frame of the stretch; draw a box around a face")
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setRange(0, STEPS)
        self.slider.setPageStep(STEPS // 10)
        self.slider.setAccessibleName("place in the stretch")
        self.time = QLabel()
        self.time.setAccessibleName("time of the frame")
        self.as_written = QCheckBox("As it will be written")
        self.as_written.setAccessibleName("show the frame blurred, as it will be written")
        self.add = _button("Blur what is in the box")
        self.correct = _button("Put the chosen one here")
        self.remove = _button("Take it off the list")
        self.propose = _button("Propose faces")
        self.propose.setEnabled(not finder)
        self.note = wrapped(f"Faces are not proposed here: {finder}" if finder else "", "what the program says about faces")
        self._lay_out()
        self._connect()
        self.refresh()

    def refresh(self) -> None:
        """The review or the lesson changed."""
        place = max(0, self.stretches.currentRow())
        self._stretches = self._presenter.stretches()
        _fill(self.stretches, [_stretch_words(one, len(self._stretches) > 1) for one in self._stretches], place)
        self._show_stretch()

    def ask_frame(self) -> None:
        """Ask for the frame that the slider stands on."""
        if self._stretches:
            self._presenter.want_frame(self._place(), self.slider.value() / (STEPS + 1), self.as_written.isChecked())

    def _show_stretch(self) -> None:
        stretch = self._stretches[self._place()] if self._stretches else None
        blurs = stretch.blurs if stretch else ()
        self.answer.setText(f"Answer: {ANSWERS[stretch.choice if stretch else OPEN]}")
        _fill(self.blurs, [_blur_words(stretch, one) for one in blurs if stretch], max(0, self.blurs.currentRow()))
        self._show_pictures()
        for widget in (*self.answers.values(), self.slider, self.add):
            widget.setEnabled(stretch is not None)
        self.ask_frame()

    def _show_frame(self) -> None:
        frame = self._presenter.frame
        if frame is None:
            return
        shown = frame.picture.copy()
        for name, box in frame.boxes:
            outline(shown, box, chosen=name == self._chosen_blur())
        self.canvas.show_picture(shown)
        self.time.setText(frame.time)

    def _show_pictures(self) -> None:
        """The small pictures of the faces, as far as they are made; the others are asked for."""
        blurs = self._stretches[self._place()].blurs if self._stretches else ()
        for row, one in enumerate(blurs):
            picture = self._presenter.picture_of(one)
            item = self.blurs.item(row)
            if picture is not None and item is not None:
                item.setIcon(QIcon(QPixmap.fromImage(image_of(picture))))
        if blurs:
            self._presenter.want_pictures(self._place())

    def _show_work(self) -> None:
        words = self._presenter.working or self._presenter.fault
        self.note.setText(words[:1].upper() + words[1:])
        idle = not self._presenter.working
        for button in (self.add, self.correct, self.remove):
            button.setEnabled(idle and bool(self._stretches))
        self.propose.setEnabled(idle and bool(self._stretches) and not self._finder)
        if idle:
            self._show_stretch()

    def _place(self) -> int:
        return min(max(0, self.stretches.currentRow()), max(0, len(self._stretches) - 1))

    def _chosen_blur(self) -> str:
        row = self.blurs.currentRow()
        blurs = self._stretches[self._place()].blurs if self._stretches else ()
        return blurs[row].id if 0 <= row < len(blurs) else ""

    def _add(self) -> None:
        if self.canvas.region is None:
            self.note.setText("Draw a box around a face first")
            return
        self._presenter.add(self._place(), bounds_of(self.canvas.region))
        self.canvas.set_region(None)

    def _correct(self) -> None:
        blur = self._chosen_blur()
        if self.canvas.region is None or not blur:
            self.note.setText("Choose a face of the list, and draw its box on this frame")
            return
        self._presenter.correct(self._place(), blur, bounds_of(self.canvas.region))
        self.canvas.set_region(None)

    def _remove(self) -> None:
        if self._chosen_blur():
            self._presenter.remove(self._place(), self._chosen_blur())

    def _answered(self, choice: str) -> None:
        if choice == BLURRED and not self._stretches[self._place()].blurs:
            self.note.setText("No face is on the list of this stretch yet: put them there first")
        else:
            self._presenter.answer(self._place(), choice)

    def _answer_all(self) -> None:
        stretch = self._stretches[self._place()] if self._stretches else None
        if stretch is None or stretch.choice == OPEN:
            self.note.setText("Answer for the stretch chosen first; then the same can be said for all")
        else:
            self._presenter.answer_all(stretch.choice)

    def _connect(self) -> None:
        self.stretches.currentRowChanged.connect(lambda _row: self._show_stretch())
        self.blurs.currentRowChanged.connect(lambda _row: self._show_frame())
        self.slider.valueChanged.connect(lambda _value: self.ask_frame())
        self.as_written.toggled.connect(lambda _on: self.ask_frame())
        for choice, button in self.answers.items():
            button.clicked.connect(lambda _checked=False, choice=choice: self._answered(choice))
        self.all.clicked.connect(lambda _checked=False: self._answer_all())
        self.add.clicked.connect(lambda _checked=False: self._add())
        self.correct.clicked.connect(lambda _checked=False: self._correct())
        self.remove.clicked.connect(lambda _checked=False: self._remove())
        self.propose.clicked.connect(lambda _checked=False: self._presenter.propose(self._place()))
        self._presenter.events.on("stretches", self.refresh)
        self._presenter.events.on("frame", self._show_frame)
        self._presenter.events.on("work", self._show_work)
        self._presenter.events.on("pictures", self._show_pictures)

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.addWidget(heading("Shown by the lesson"))
        left.addWidget(self.stretches, 2)
        left.addWidget(self.answer)
        answers = QGridLayout()
        for place, button in enumerate((*self.answers.values(), self.all)):
            answers.addWidget(button, place // 2, place % 2)
        left.addLayout(answers)
        left.addWidget(heading("Blurred on it"))
        left.addWidget(self.blurs, 2)
        buttons = QGridLayout()
        for place, button in enumerate((self.add, self.correct, self.remove, self.propose)):
            buttons.addWidget(button, place // 2, place % 2)
        left.addLayout(buttons)
        left.addWidget(self.note)
        left.addWidget(wrapped(MINORS))
        right = QVBoxLayout()
        right.addWidget(self.canvas, 1)
        row = QHBoxLayout()
        row.addWidget(self.slider, 1)
        row.addWidget(self.time)
        row.addWidget(self.as_written)
        right.addLayout(row)
        layout = QHBoxLayout(self)
        layout.addLayout(left, 2)
        layout.addLayout(right, 3)


def outline(picture: np.ndarray, box: Box, chosen: bool) -> None:
    """Draw a box on a picture (changed in place): a dark line around a light one, thicker for the chosen one."""
    height, width = picture.shape[:2]
    for out, shade in ((3, 0), (1, 255)) if not chosen else ((5, 0), (3, 255)):
        left, top = max(0, box.x - out), max(0, box.y - out)
        right, bottom = min(width, box.right + out), min(height, box.bottom + out)
        for part in (picture[top : top + 2, left:right], picture[bottom - 2 : bottom, left:right]):
            part[:] = shade
        for part in (picture[top:bottom, left : left + 2], picture[top:bottom, right - 2 : right]):
            part[:] = shade


def _stretch_words(one: Stretch, name_film: bool) -> str:
    film = f"{one.film.what or one.film.name}: " if name_film else ""
    return f"{film}{one.words} - {ANSWERS[one.choice]}"


def _blur_words(stretch: Stretch, one: Blur) -> str:
    film = stretch.film
    return f"{one.id}  {film.time_text(one.start)} to {film.time_text(one.end)}, {one.origin}"


def _fill(listed: QListWidget, words: list[str], place: int) -> None:
    """Show these lines, standing on the place; nothing is told of it."""
    listed.blockSignals(True)
    listed.clear()
    for line in words:
        listed.addItem(QListWidgetItem(line))
    if words:
        listed.setCurrentRow(min(place, len(words) - 1))
    listed.blockSignals(False)


def _list(name: str) -> QListWidget:
    listed = QListWidget()
    listed.setAccessibleName(name)
    listed.setTabKeyNavigation(False)
    listed.setMinimumHeight(listed.fontMetrics().height() * 4)
    return listed


def _button(words: str) -> QPushButton:
    button = QPushButton(words)
    button.setAccessibleName(words)
    button.setAutoDefault(False)
    return button
