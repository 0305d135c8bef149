"""Two observers, two films and letters through the real window, by mouse and keys."""

from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QDialog, QFileDialog, QInputDialog, QLineEdit
from pytestqt.qtbot import QtBot

from filmreview.desktop.films_dialog import FilmsDialog
from filmreview.desktop.letters_dialog import LettersDialog
from filmreview.desktop.other_review_dialog import OtherReviewDialog
from filmreview.desktop.window import DeskWindow
from filmreview.review.changes import EditGame
from filmreview.review.crew_changes import SetReply
from filmreview.review.model import CrewMember
from filmreview.review.ruled import findings
from filmreview.sheets.telling import hand_over
from filmreview.sheets.workbook import write_workbook
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, press, settle, stand
from tests.desktop.journeys.test_own_call_journey import tag
from tests.desktop.journeys.test_settings_journey import click
from tests.desktop.two_reviews import OTHER, other_review
from tests.desktop.walk import nameless

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
BOTH = CONTROL | SHIFT


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    settle(qtbot, window)
    return window


def choose_file(monkeypatch: pytest.MonkeyPatch, path: Path) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_given: (str(path), ""))


def dialog_of(qtbot: QtBot, window: DeskWindow, kind: type[QDialog]) -> QDialog:
    qtbot.waitUntil(lambda: any(one.isVisible() for one in window.findChildren(kind)), timeout=WAIT)
    (found,) = [one for one in window.findChildren(kind) if one.isVisible()]
    found.activateWindow()
    qtbot.waitUntil(found.isActiveWindow)
    assert nameless(found) == []
    return found


def back_to(qtbot: QtBot, window: DeskWindow) -> None:
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.film_place.canvas.setFocus()


def test_another_review_is_laid_beside_and_taken_with_one_undo(
    qtbot: QtBot, opened: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "theirs").mkdir()
    path = other_review(tmp_path / "theirs", ("0.5", "v14 arm sleeve black", "not seen"), ("1", "h10 wristband white", ""))
    before = path.read_bytes()
    tag(qtbot, opened, "v14 arm sleeve orange")
    choose_file(monkeypatch, path)
    press(qtbot, Qt.Key.Key_B, BOTH)
    dialog = dialog_of(qtbot, opened, OtherReviewDialog)
    assert isinstance(dialog, OtherReviewDialog)
    assert dialog.windowTitle() == f"The review of {OTHER} beside this one"
    shown = [[dialog.table.item(row, column).text() for column in range(7)] for row in range(2)]
    assert shown[0][1:] == [
        "Ovvermire 14", "arm sleeve", "ruling, colour, crew mark", "illegal, fix or leave", "legal; not seen", "keep mine"
    ]  # fmt: skip
    assert shown[1][3:] == ["only theirs", "no tag", "legal", "keep mine"]

    dialog.table.setFocus()
    press(qtbot, Qt.Key.Key_Down)
    press(qtbot, Qt.Key.Key_Return)
    stand(qtbot, opened)
    qtbot.waitUntil(lambda: opened.film_place.frame is not None and opened.film_place.frame.number == 29, timeout=WAIT)
    press(qtbot, Qt.Key.Key_Up)
    press(qtbot, Qt.Key.Key_Space)
    assert dialog.table.item(0, 6).text() == "take theirs"
    click(qtbot, dialog, "Take all that only they have")
    click(qtbot, dialog, "Take what is chosen (2)")
    settle(qtbot, opened)
    assert dialog.table.rowCount() == 0
    assert opened.messages.words.text() == f"2 tags of {OTHER} taken; one undo takes all back"
    assert len(opened.desk.review.tags) == 2
    assert path.read_bytes() == before

    back_to(qtbot, opened)
    press(qtbot, Qt.Key.Key_Z, CONTROL)
    settle(qtbot, opened)
    assert [one.facts[0].value[0].name for one in opened.desk.review.tags] == ["orange"]
    assert dialog.table.rowCount() == 2
    dialog.close()


@pytest.mark.parametrize("name", ["notes.filmreview", "game.filmreview"])
def test_a_file_that_cannot_be_laid_beside_is_told(
    qtbot: QtBot, opened: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    (tmp_path / "notes.filmreview").write_text("no review at all", encoding="utf-8")
    choose_file(monkeypatch, tmp_path / name)
    press(qtbot, Qt.Key.Key_B, BOTH)
    settle(qtbot, opened)
    assert name in opened.messages.words.text()
    assert not opened.findChildren(OtherReviewDialog)


def test_two_films_tied_by_one_instant(qtbot: QtBot, opened: DeskWindow, monkeypatch: pytest.MonkeyPatch) -> None:
    place = opened.film_place
    press(qtbot, Qt.Key.Key_F, BOTH)
    dialog = dialog_of(qtbot, opened, FilmsDialog)
    assert isinstance(dialog, FilmsDialog)
    choose_file(monkeypatch, FILMS / "variable.mp4")
    click(qtbot, dialog, "Add a film ...")
    qtbot.waitUntil(lambda: dialog.table.rowCount() == 2 and opened.desk.film_id == "f2", timeout=WAIT)
    stand(qtbot, opened)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    dialog.table.setFocus()
    press(qtbot, Qt.Key.Key_Down)
    press(qtbot, Qt.Key.Key_F2)
    editor = dialog.table.findChild(QLineEdit)
    qtbot.keyClicks(editor, "end line")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    settle(qtbot, opened)
    assert opened.desk.review.film("f2").what == "end line"
    dialog.close()

    back_to(qtbot, opened)
    for _step in range(3):
        press(qtbot, Qt.Key.Key_Right)
        stand(qtbot, opened)
    there = place.frame.moment
    press(qtbot, Qt.Key.Key_I, BOTH)
    assert "now stand on the same instant of another film" in opened.messages.words.text()
    opened.opening.show_film("f1")
    qtbot.waitUntil(lambda: opened.desk.film_id == "f1" and place.frame is not None, timeout=WAIT)
    place.canvas.setFocus()
    for _step in range(10):
        press(qtbot, Qt.Key.Key_Right)
        stand(qtbot, opened)
    here = place.frame.moment
    press(qtbot, Qt.Key.Key_I, BOTH)
    settle(qtbot, opened)
    assert opened.messages.words.text().endswith("are the same instant")

    press(qtbot, Qt.Key.Key_I, CONTROL)
    qtbot.waitUntil(lambda: opened.desk.film_id == "f2" and place.frame is not None, timeout=WAIT)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.moment == there, timeout=WAIT)
    press(qtbot, Qt.Key.Key_I, CONTROL)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.moment == here, timeout=WAIT)
    press(qtbot, Qt.Key.Key_Home)
    stand(qtbot, opened)
    press(qtbot, Qt.Key.Key_I, CONTROL)
    settle(qtbot, opened)
    assert opened.desk.film_id == "f1"
    assert "end line (variable.mp4) does not show 0:00.000" in opened.messages.words.text()


def test_a_letter_is_written_and_kept_and_replies_are_shown(qtbot: QtBot, opened: DeskWindow) -> None:
    press(qtbot, Qt.Key.Key_R, BOTH)
    assert "names no crew" in opened.messages.words.text()
    crew = (CrewMember("referee", "J. Mosswell"), CrewMember("umpire 1", "U. Thornvex"))
    opened.desk.try_change(EditGame(replace(opened.desk.review.game, crew=crew)))
    settle(qtbot, opened)
    tag(qtbot, opened, "v14 arm sleeve orange")
    opened.desk.try_change(SetReply("t1", "referee", "seen otherwise", "it looked black"))
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_R, BOTH)
    dialog = dialog_of(qtbot, opened, LettersDialog)
    assert isinstance(dialog, LettersDialog)
    assert dialog.text.toPlainText().startswith("To J. Mosswell, referee.")
    assert [dialog.replies.item(0, column).text() for column in (1, 3, 4, 5)] == [
        "Ovvermire 14", "referee", "seen otherwise", "it looked black"
    ]  # fmt: skip
    dialog.text.selectAll()
    qtbot.keyClicks(dialog.text, "Sleeves: look before the jump.")
    click(qtbot, dialog, "Keep this letter")
    settle(qtbot, opened)
    assert opened.desk.review.letter_to("referee").words == "Sleeves: look before the jump."
    assert dialog.officials.item(0).text() == "referee: J. Mosswell (written by you)"

    dialog.officials.setCurrentRow(1)
    dialog.text.setFocus()
    dialog.text.selectAll()
    qtbot.keyClicks(dialog.text, "Well seen.")
    dialog.reject()
    settle(qtbot, opened)
    assert opened.desk.review.letter_to("umpire 1").words == "Well seen."
    back_to(qtbot, opened)
    press(qtbot, Qt.Key.Key_Z, CONTROL)
    settle(qtbot, opened)
    assert opened.desk.review.letter_to("umpire 1") is None


def test_hidden_rulings_keep_letters_closed(qtbot: QtBot, opened: DeskWindow) -> None:
    game = replace(opened.desk.review.game, rulings_hidden=True, crew=(CrewMember("referee", "J. Mosswell"),))
    opened.desk.try_change(EditGame(game))
    settle(qtbot, opened)
    tag(qtbot, opened, "v14 arm sleeve orange")
    press(qtbot, Qt.Key.Key_R, BOTH)
    settle(qtbot, opened)
    assert "rulings are hidden until your own call on t1" in opened.messages.words.text()
    assert not opened.findChildren(LettersDialog)


def test_replies_of_a_returned_workbook_are_read_as_one_step(
    qtbot: QtBot, opened: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    crew = (CrewMember("referee", "J. Mosswell"), CrewMember("umpire 1", "U. Thornvex"))
    opened.desk.try_change(EditGame(replace(opened.desk.review.game, crew=crew)))
    settle(qtbot, opened)
    for line in ("v14 arm sleeve orange", "h3 headband black"):
        tag(qtbot, opened, line)
    back = returned(opened, tmp_path / "back.xlsx", ("agreed", "not one of the answers"))
    choose_file(monkeypatch, back)
    monkeypatch.setattr(QInputDialog, "getItem", lambda *given: (given[3][1], True))
    opened.actions_by_name["replies"].trigger()
    qtbot.waitUntil(lambda: len(opened.desk.review.replies) == 2, timeout=WAIT)
    settle(qtbot, opened)
    assert [(one.by, one.answer, one.words) for one in opened.desk.review.replies] == [
        ("referee", "agreed", ""), ("referee", "", "not one of the answers")
    ]  # fmt: skip
    said = opened.desk.last_message
    assert said.startswith("back.xlsx: 2 replies, 2 of them new or changed; row 3 (t2)")
    assert "\n" not in said
    press(qtbot, Qt.Key.Key_R, BOTH)
    dialog = dialog_of(qtbot, opened, LettersDialog)
    assert isinstance(dialog, LettersDialog)
    assert [dialog.replies.item(row, 4).text() for row in (0, 1)] == ["agreed", "in words"]
    dialog.reject()
    back_to(qtbot, opened)
    press(qtbot, Qt.Key.Key_Z, CONTROL)
    settle(qtbot, opened)
    assert opened.desk.review.replies == ()


def test_replies_are_shown_where_the_review_names_no_crew(qtbot: QtBot, opened: DeskWindow) -> None:
    tag(qtbot, opened, "v14 arm sleeve orange")
    opened.desk.try_change(SetReply("t1", "", "agreed"))
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_R, BOTH)
    dialog = dialog_of(qtbot, opened, LettersDialog)
    assert isinstance(dialog, LettersDialog)
    assert dialog.replies.item(0, 3).text() == "crew"
    assert not dialog.text.isEnabled()
    dialog.reject()


def returned(window: DeskWindow, path: Path, answers: tuple[str, ...]) -> Path:
    """The findings sheet of the open review, with these replies written into it, row by row."""
    write_workbook(hand_over(findings(window.desk.review)), path)
    book = openpyxl.load_workbook(path)
    page = book["Findings"]
    column = next(cell.column for cell in page[1] if cell.value == "Reply")
    for number, answer in enumerate(answers, 2):
        page.cell(number, column, answer)
    book.save(path)
    return path
