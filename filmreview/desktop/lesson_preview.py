"""The very pictures that will be written, to be gone through before anything is."""

from __future__ import annotations

from PyQt6.QtCore import Qt, pyqtSignal
from PyQt6.QtWidgets import QHBoxLayout, QLabel, QSlider, QVBoxLayout, QWidget

from filmreview.desktop.lesson_presenter import Shown
from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.small_widgets import Choice

STEPS = 200
VERSIONS = {"asks and answers": "answer", "only asks": "question"}
LOOKS = {
    "title": "title card", "play": "film", "slow": "film at half speed", "question": "the question, held",
    "answer": "the ruling, held", "end": "end card",
}  # fmt: skip


class LessonPreview(QWidget):
    """wanted: a picture at this share (0 to 1) of the clip, of this version."""

    wanted = pyqtSignal(str, float)

    def __init__(self) -> None:
        super().__init__()
        self.canvas = PictureCanvas(name="picture as it will be written", only_look=True)
        self.version = Choice("version shown", VERSIONS)
        self.version.setMinimumContentsLength(15)
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setRange(0, STEPS)
        self.slider.setPageStep(STEPS // 10)
        self.slider.setAccessibleName("place in the clip")
        self.slider.setValue(STEPS * 3 // 10)  # as a rule the question is held there
        self.time = QLabel()
        self.time.setAccessibleName("time in the clip and what is shown")
        row = QHBoxLayout()
        row.addWidget(self.version)
        row.addWidget(self.slider, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.canvas, 1)
        layout.addLayout(row)
        layout.addWidget(self.time)
        self.version.chosen.connect(lambda _text: self.ask())
        self.slider.valueChanged.connect(lambda _value: self.ask())

    def ask(self) -> None:
        """Ask for the picture that the slider stands on."""
        self.wanted.emit(VERSIONS[self.version.currentText()], self.slider.value() / STEPS)

    def show_shown(self, shown: Shown | None, fault: str) -> None:
        """Show a picture, or why there is none."""
        if shown is None:
            self.canvas.show_picture(None)
            self.time.setText(fault)
            return
        self.canvas.show_picture(shown.picture)
        self.time.setText(f"{shown.at:.1f} of {shown.seconds:.1f} s: {LOOKS[shown.look]}")
