"""A lesson through the real window, by mouse and keys: asked for, faces answered, written, made again, stopped."""

from pathlib import Path

import pytest
from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtWidgets import QApplication, QInputDialog
from pytestqt.qtbot import QtBot

from filmreview.desktop.lesson_dialog import LessonDialog
from filmreview.desktop.lesson_faces_page import ANSWERS
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box
from filmreview.lessons.lesson_faces import BLURRED, CONSENT, NOBODY
from filmreview.lessons.lesson_key import read_key
from filmreview.review.model import FACE_CHOICES
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import begin_review, drag, press, settle, stand, type_words
from tests.desktop.walk import nameless

CONTROL, SHIFT, ALT = (
    Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.AltModifier,
)  # fmt: skip
WAIT = 60_000
FILES = {"lesson.html", "questions.mp4", "questions.vtt", "answers.mp4", "answers.vtt", "questions.pdf", "answers.pdf",
         "answers.xlsx", "lesson.json"}  # fmt: skip


@pytest.fixture
def tagged(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    """A review of two findings."""
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    for number, line in enumerate(("v14 arm sleeve orange", "h3 headband black"), 1):
        press(qtbot, Qt.Key.Key_Right, SHIFT)
        stand(qtbot, window)
        settle(qtbot, window)
        drag(qtbot, window, Box(60, 60, 40, 40))
        type_words(qtbot, line)
        press(qtbot, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda number=number: len(window.desk.review.tags) == number, timeout=WAIT)
        settle(qtbot, window)
    return window


def opened(qtbot: QtBot, window: DeskWindow) -> LessonDialog:
    window.activateWindow()  # the tests' screen has no window manager that would do it when a dialog goes
    qtbot.waitUntil(window.isActiveWindow)
    qtbot.keyClick(window, Qt.Key.Key_T, CONTROL | SHIFT)
    qtbot.waitUntil(lambda: any(one.isVisible() for one in window.findChildren(LessonDialog)), timeout=WAIT)
    (dialog,) = [one for one in window.findChildren(LessonDialog) if one.isVisible()]
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    qtbot.waitUntil(lambda: dialog.preview.canvas.accessibleName() != "" and not window.jobs.busy, timeout=WAIT)
    return dialog


def answer_faces(qtbot: QtBot, window: DeskWindow, dialog: LessonDialog, choice: str) -> None:
    """On the page of the faces: an answer for the stretch chosen, with keys."""
    qtbot.keyClick(dialog, Qt.Key.Key_F, ALT)
    assert dialog.tabs.currentWidget() is dialog.faces
    dialog.faces.stretches.setFocus()
    for _ in range(len(dialog.faces.answers)):
        press(qtbot, Qt.Key.Key_Tab)
        if QApplication.focusWidget() is dialog.faces.answers[choice]:
            break
    press(qtbot, Qt.Key.Key_Space)
    settle(qtbot, window)


def test_a_lesson_from_the_findings_to_the_folder(qtbot: QtBot, tagged: DeskWindow, tmp_path: Path) -> None:
    dialog = opened(qtbot, tagged)
    assert "Not ready: constant.mp4" in dialog.problem.text()
    assert "nobody has answered for the faces" in dialog.problem.text()
    qtbot.mouseClick(dialog.make, Qt.MouseButton.LeftButton)
    assert dialog.isVisible(), "not written before somebody answered"
    assert dialog.tabs.currentWidget() is dialog.faces
    answer_faces(qtbot, tagged, dialog, NOBODY)
    assert [one.choice for one in tagged.desk.review.face_choices] == ["nobody on it"]
    assert dialog.faces.answer.text() == "Answer: nobody on it"
    assert dialog.problem.text() == "Ready: 2 questions."
    dialog.path.setText(str(tmp_path / "lesson"))
    qtbot.mouseClick(dialog.make, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "the lesson is in" in tagged.desk.last_message, timeout=WAIT)
    settle(qtbot, tagged)
    assert {path.name for path in (tmp_path / "lesson").iterdir()} == FILES
    assert [one.asked for one in read_key(tmp_path / "lesson").questions] == ["Visitor 14, arm sleeve", "Home 3, headband"]
    assert len(tagged.desk.review.lessons) == 1


def test_questions_are_chosen_and_moved_by_keys(qtbot: QtBot, tagged: DeskWindow) -> None:
    dialog = opened(qtbot, tagged)
    dialog.rows.list.setFocus()
    press(qtbot, Qt.Key.Key_Down, ALT)
    assert [row.question.item for row in dialog._presenter.rows] == ["headband", "arm sleeve"]
    assert dialog.rows.place == 1
    press(qtbot, Qt.Key.Key_Space)
    assert [row.on for row in dialog._presenter.rows] == [True, False]
    press(qtbot, Qt.Key.Key_Up)
    qtbot.waitUntil(lambda: not tagged.jobs.busy, timeout=WAIT)
    assert "the question, held" in dialog.preview.time.text()
    qtbot.keyClick(dialog.preview.slider, Qt.Key.Key_End)
    qtbot.waitUntil(lambda: "film" in dialog.preview.time.text(), timeout=WAIT)
    press(qtbot, Qt.Key.Key_Escape)
    settle(qtbot, tagged)
    assert tagged.desk.review.lessons == ()


def test_a_face_is_drawn_and_blurred_with_the_mouse(qtbot: QtBot, tagged: DeskWindow) -> None:
    dialog = opened(qtbot, tagged)
    faces = dialog.faces
    qtbot.keyClick(dialog, Qt.Key.Key_F, ALT)
    qtbot.waitUntil(lambda: faces.time.text() != "" and not tagged.jobs.busy, timeout=WAIT)
    canvas = faces.canvas
    start, end = (QPoint(*(round(part) for part in canvas.view.to_canvas(at))) for at in ((20, 20), (60, 60)))
    qtbot.mousePress(canvas, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(canvas, (start + end) / 2)
    qtbot.mouseMove(canvas, end)
    qtbot.mouseRelease(canvas, Qt.MouseButton.LeftButton, pos=end)
    qtbot.mouseClick(faces.add, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(tagged.desk.review.blurs) == 1, timeout=WAIT)
    settle(qtbot, tagged)
    assert faces.blurs.count() == 1
    assert not faces.blurs.item(0).icon().isNull(), "with its picture"
    answer_faces(qtbot, tagged, dialog, BLURRED)
    assert [one.choice for one in tagged.desk.review.face_choices] == ["blurred"]
    qtbot.mouseClick(faces.remove, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: tagged.desk.review.blurs == (), timeout=WAIT)
    settle(qtbot, tagged)
    assert tagged.desk.review.face_choices == (), "asked again"
    press(qtbot, Qt.Key.Key_Escape)


def test_a_stop_leaves_no_folder_and_a_kept_lesson_is_made_again(
    qtbot: QtBot, tagged: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    dialog = opened(qtbot, tagged)
    answer_faces(qtbot, tagged, dialog, CONSENT)
    dialog.settings.seconds["hold"].setValue(30.0)  # long enough that the stop comes while it is written
    settle(qtbot, tagged)
    dialog.path.setText(str(tmp_path / "lesson"))
    qtbot.mouseClick(dialog.make, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: tagged.messages.stop.isVisible() and tagged.messages.bar.value() > 2, timeout=WAIT)
    qtbot.mouseClick(tagged.messages.stop, Qt.MouseButton.LeftButton)
    settle(qtbot, tagged)
    assert not (tmp_path / "lesson").exists()
    assert tagged.desk.review.lessons == (), "a lesson that was not made is not kept"
    assert tagged.desk.review.face_choices != (), "what a person answered is"
    dialog = opened(qtbot, tagged)
    dialog.path.setText(str(tmp_path / "lesson"))
    qtbot.mouseClick(dialog.make, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "the lesson is in" in tagged.desk.last_message, timeout=WAIT)
    settle(qtbot, tagged)
    assert len(tagged.desk.review.lessons) == 1
    monkeypatch.setattr(QInputDialog, "getItem", lambda *given: (given[3][1], True))
    again = opened(qtbot, tagged)
    assert again.settings.title.text() == "What the players wear: 2 questions"
    assert again.problem.text() == "Ready: 2 questions."
    QApplication.processEvents()
    press(qtbot, Qt.Key.Key_Escape)


def test_the_desk_says_the_answers_for_the_faces_as_the_command_does() -> None:
    assert [ANSWERS[one] for one in FACE_CHOICES] == list(FACE_CHOICES)


def test_every_widget_of_the_dialog_has_a_name(qtbot: QtBot, tagged: DeskWindow) -> None:
    dialog = opened(qtbot, tagged)
    assert nameless(dialog) == []
    dialog.tabs.setCurrentWidget(dialog.faces)
    settle(qtbot, tagged)
    assert nameless(dialog) == []
    press(qtbot, Qt.Key.Key_Escape)
