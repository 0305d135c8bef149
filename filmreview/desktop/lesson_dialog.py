"""The lesson dialog: questions and how they are shown on one page, faces on the other, and where it is written."""

from __future__ import annotations

from pathlib import Path

from PyQt6.QtWidgets import (
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from filmreview.cautions import STUDY_AID
from filmreview.desktop.dialog_parts import take_buttons
from filmreview.desktop.lesson_faces_page import LessonFaces
from filmreview.desktop.lesson_faces_presenter import FacesPresenter
from filmreview.desktop.lesson_presenter import LessonPresenter
from filmreview.desktop.lesson_preview import LessonPreview
from filmreview.desktop.lesson_rows import LessonRows
from filmreview.desktop.lesson_settings import LessonSettings
from filmreview.desktop.small_widgets import wrapped


class LessonDialog(QDialog):
    """Accepted when the lesson is to be written to `folder`. finder: why faces cannot be proposed, "" when they can."""

    def __init__(
        self, presenter: LessonPresenter, faces: FacesPresenter, folder: Path, finder: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Make a lesson")
        self._presenter, self._faces = presenter, faces
        self.rows = LessonRows(presenter)
        self.settings = LessonSettings(presenter.settings, presenter.title, presenter.end)
        self.preview = LessonPreview()
        self.faces = LessonFaces(faces, finder)
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName("parts of the lesson")
        self.path = QLineEdit(str(folder))
        self.path.setAccessibleName("folder of the lesson")
        self.choose = QPushButton("Choose ...")
        self.choose.setAccessibleName("choose the folder of the lesson")
        self.choose.setAutoDefault(False)
        self.problem = wrapped(name="what is still missing")
        self.buttons, self.make = take_buttons("Make the lesson")
        self._lay_out()
        self._connect()
        self._look()

    def folder(self) -> Path:
        """Where the lesson is to be written."""
        return Path(self.path.text().strip()).expanduser()

    def accept(self) -> None:
        """Only a lesson without a problem is taken; the page where the problem lies comes to the front."""
        problem = self._problem()
        if problem:
            self._look()
            self.tabs.setCurrentWidget(self.faces if "faces" in problem else self._first_page)
            return
        super().accept()

    def _problem(self) -> str:
        return self._presenter.problem or ("" if self.path.text().strip() else "say which folder to write to")

    def _look(self) -> None:
        """The choices changed: say what is missing, and show the picture anew."""
        problem = self._problem()
        count = sum(row.on for row in self._presenter.rows)
        self.problem.setText(f"Not ready: {problem}" if problem else f"Ready: {count} question{'' if count == 1 else 's'}.")
        self.preview.ask()

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.addWidget(self.rows, 1)
        left.addWidget(self.settings)
        self._first_page = QWidget()
        page = QHBoxLayout(self._first_page)
        page.addLayout(left, 5)
        page.addWidget(self.preview, 6)
        self.tabs.addTab(self._first_page, "&Questions and films")
        self.tabs.addTab(self.faces, "&Faces")
        where = QHBoxLayout()
        where.addWidget(QLabel("Write it to"))
        where.addWidget(self.path, 1)
        where.addWidget(self.choose)
        bottom = QHBoxLayout()
        bottom.addWidget(self.problem, 1)
        bottom.addWidget(self.buttons)
        layout = QVBoxLayout(self)
        layout.addWidget(self.tabs, 1)
        layout.addLayout(where)
        layout.addWidget(wrapped(STUDY_AID))
        layout.addLayout(bottom)
        self.resize(self.fontMetrics().averageCharWidth() * 205, self.fontMetrics().height() * 46)

    def _connect(self) -> None:
        presenter, rows, settings = self._presenter, self.rows, self.settings
        rows.chosen.connect(lambda _place: self.preview.ask())
        rows.told.connect(self.problem.setText)
        settings.changed.connect(presenter.set_setting)
        settings.words_changed.connect(presenter.set_words)
        self.preview.wanted.connect(lambda version, share: presenter.want_picture(rows.place, version, share))
        presenter.events.on("rows", self.review_changed)
        presenter.events.on("settings", self.review_changed)
        presenter.events.on("picture", lambda: self.preview.show_shown(presenter.shown, presenter.fault))
        self.path.textChanged.connect(lambda _text: self._look())
        self.choose.clicked.connect(lambda _checked=False: self._choose_folder())
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)

    def review_changed(self) -> None:
        """The review or the plan changed: the answers for the faces may be others now."""
        self._faces.review_changed()
        self._look()

    def _choose_folder(self) -> None:
        folder = QFileDialog.getExistingDirectory(self, "Folder of the lesson", self.path.text())
        if folder:
            self.path.setText(folder)
