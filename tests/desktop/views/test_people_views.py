"""Own calls, another's review, films and letters: each view alone, by keys."""

from dataclasses import replace
from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtGui import QColor, QPalette
from PyQt6.QtWidgets import QApplication, QLabel, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.films_dialog import FilmsDialog
from filmreview.desktop.films_presenter import FilmsPresenter
from filmreview.desktop.lesson_making import LessonMaking
from filmreview.desktop.letters_dialog import LettersDialog
from filmreview.desktop.letters_in_force import LettersInForce
from filmreview.desktop.letters_presenter import LettersPresenter, build
from filmreview.desktop.other_review_dialog import OtherReviewDialog
from filmreview.desktop.other_review_presenter import OtherReviewPresenter
from filmreview.desktop.own_call_place import BOOK, CALL, CHOOSE, OwnCallPlace
from filmreview.desktop.own_call_presenter import OwnCallPresenter
from filmreview.desktop.own_call_score import ScoreDialog
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.review.changes import EditGame
from filmreview.review.model import LONGEST_WORDS, CrewMember
from filmreview.review.reading import read
from filmreview.review.ruled import findings
from tests.desktop.desk_fixtures import AtOnce
from tests.desktop.presenters.test_own_call_presenter import keep
from tests.desktop.two_reviews import other_review


def seen(qtbot: QtBot, view: QWidget) -> None:
    qtbot.addWidget(view)
    view.show()
    qtbot.waitExposed(view)
    view.activateWindow()
    qtbot.waitUntil(view.isActiveWindow)


def press(qtbot: QtBot, *keys: Qt.Key) -> None:
    for key in keys:
        focus = QApplication.focusWidget()
        assert focus is not None
        qtbot.keyClick(focus, key)


@pytest.fixture
def tagged(desk: Desk, film: Film) -> Desk:
    for second, line in ((1, "v14 arm sleeve orange"), (2, "h3 headband black"), (0, "h10 number 10")):
        keep(desk, film.moment_at(second), line)
    return desk


@pytest.fixture
def place(qtbot: QtBot, tagged: Desk) -> OwnCallPlace:
    presenter = OwnCallPresenter(tagged)
    presenter.set_hidden(True)
    made = OwnCallPlace(presenter)
    for event in ("review", "findings"):
        tagged.events.on(event, made.refresh)
    seen(qtbot, made)
    return made


def test_a_call_is_given_by_keys_alone(qtbot: QtBot, tagged: Desk, place: OwnCallPlace) -> None:
    place.take_keys("t1")
    press(qtbot, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Tab, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Tab)
    qtbot.keyClicks(QApplication.focusWidget(), "not the jersey's colour")
    press(qtbot, Qt.Key.Key_Return)
    assert tagged.review is not None
    call = tagged.review.own_call_on("t1")
    assert call is not None
    assert (call.ruling, call.consequence, call.words) == ("illegal", "fix or leave", "not the jersey's colour")
    assert place.chosen() == "t1"
    assert place.both.text().startswith("The book: illegal.")


def test_several_calls_typed_are_told_together(tagged: Desk) -> None:
    presenter = OwnCallPresenter(tagged)
    assert presenter.not_given_words(("t1", "t2")) == (
        "Your own calls on Ovvermire 14 (arm sleeve, at 0:00.968) and another tag are typed but not given yet."
    )
    assert "and 2 other tags are typed" in presenter.not_given_words(("t1", "t2", "t3"))
    assert presenter.not_given_words(()) == ""


def test_a_score_of_nothing_says_so(qtbot: QtBot, tagged: Desk) -> None:
    score = OwnCallPresenter(tagged).score()
    assert score is not None
    dialog = ScoreDialog(score)
    seen(qtbot, dialog)
    assert "No call of yours yet; 3 without your call" in [label.text() for label in dialog.findChildren(QLabel)]


def test_the_focus_follows_the_work(qtbot: QtBot, place: OwnCallPlace) -> None:
    place.take_keys("t1")
    order = []
    for _step in range(4):
        order.append(QApplication.focusWidget())
        press(qtbot, Qt.Key.Key_Tab)
    assert order == [place.ruling, place.consequence, place.words, place.give]


def test_a_call_not_given_yet_is_there_again_when_its_row_is(qtbot: QtBot, place: OwnCallPlace) -> None:
    place.take_keys("t1")
    place.ruling.show_text("illegal")
    qtbot.keyClicks(place.words, "orange")
    place.choose("t2")
    assert (place.ruling.currentText(), place.words.text()) == (CHOOSE, "")
    place.choose("t1")
    assert (place.ruling.currentText(), place.words.text()) == ("illegal", "orange")
    place.give.click()
    place.words.setText("orange, clearly")
    place.choose("t2")
    place.choose("t1")
    assert place.words.text() == "orange, clearly"


def test_the_box_that_hides_follows_the_review(tagged: Desk, place: OwnCallPlace, monkeypatch: pytest.MonkeyPatch) -> None:
    assert place.hide_rulings.isChecked()
    with monkeypatch.context() as full:
        full.setattr(tagged, "_push", lambda _change, _then, failed: failed(FilmReviewError("the disk is full")))
        place.hide_rulings.click()
    assert tagged.last_message == "the disk is full"
    assert place.hide_rulings.isChecked()
    place.hide_rulings.click()
    assert not place.hide_rulings.isChecked()
    assert tagged.review is not None
    assert not tagged.review.game.rulings_hidden


def test_enter_without_a_ruling_asks_for_one(qtbot: QtBot, tagged: Desk, place: OwnCallPlace) -> None:
    place.take_keys("t1")
    press(qtbot, Qt.Key.Key_Tab, Qt.Key.Key_Return)
    assert place.both.text() == "Choose your call first."
    assert QApplication.focusWidget() is place.ruling
    assert tagged.review is not None
    assert tagged.review.own_calls == ()


def test_what_is_being_written_stays_while_others_change(qtbot: QtBot, tagged: Desk, film: Film, place: OwnCallPlace) -> None:
    place.take_keys("t2")
    qtbot.keyClicks(place.words, "half a thou")
    keep(tagged, film.moment_at(1), "v22 wristband red")
    assert place.table.rowCount() == 4
    assert place.chosen() == "t2"
    assert place.words.text() == "half a thou"


def test_enter_in_the_list_goes_to_the_moment_and_f2_to_the_call(qtbot: QtBot, place: OwnCallPlace) -> None:
    place.table.setFocus()
    place.choose("t2")
    with qtbot.waitSignal(place.jump_wanted) as told:
        press(qtbot, Qt.Key.Key_Return)
    assert told.args == ["t2"]
    press(qtbot, Qt.Key.Key_F2)
    assert QApplication.focusWidget() is place.ruling


def test_words_and_shapes_for_both_rulings_on_light_and_dark(qtbot: QtBot, tagged: Desk, place: OwnCallPlace) -> None:
    OwnCallPresenter(tagged).give("t1", "legal")
    row = next(number for number in range(3) if place.table.item(number, 2).text() == "arm sleeve")
    assert (place.table.item(row, CALL).text(), place.table.item(row, BOOK).text()) == ("legal", "illegal, fix or leave")
    light = place.table.item(row, BOOK).icon().pixmap(16).toImage()
    dark = QPalette(QColor("#202020"))
    dark.setColor(QPalette.ColorRole.Base, QColor("#181818"))
    place.choose("t1")
    place.setPalette(dark)
    qtbot.waitUntil(lambda: place.table.item(row, BOOK).icon().pixmap(16).toImage() != light)
    assert place.chosen() == "t1"
    hidden = [place.table.item(number, BOOK) for number in range(3) if number != row]
    assert all(cell.text() == "hidden" and cell.icon().isNull() for cell in hidden)
    assert all(cell.toolTip() == "hidden until your own call" for cell in hidden)


def test_pairs_by_keys(qtbot: QtBot, tagged: Desk, tmp_path: Path) -> None:
    (tmp_path / "theirs").mkdir()
    path = other_review(tmp_path / "theirs", ("0.5", "v14 arm sleeve black", ""), ("1", "h33 wristband white", ""))
    presenter = OtherReviewPresenter(tagged)
    presenter.lay(findings(read(path)))
    dialog = OtherReviewDialog(presenter)
    presenter.events.on("pairs", dialog.refresh)
    seen(qtbot, dialog)
    dialog.table.setFocus()
    assert [dialog.table.item(row, 3).text() for row in range(dialog.table.rowCount())] == [
        "ruling, colour", "only theirs", "only mine", "only mine"
    ]  # fmt: skip
    press(qtbot, Qt.Key.Key_Space, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Space)
    assert dialog.take.text() == "Take what is chosen (1)"
    assert not dialog.turn.isEnabled()
    assert [label.text().splitlines()[0] for label in dialog.sides] == ["home 10, number", "no tag"]
    dialog.only_differing.setChecked(False)
    assert dialog.table.rowCount() == 4
    presenter.let_go()
    dialog.refresh()
    assert not dialog.isVisible()


def test_enter_in_a_list_closes_no_dialog(qtbot: QtBot, desk: Desk) -> None:
    dialog = FilmsDialog(FilmsPresenter(desk), "how to tie")
    seen(qtbot, dialog)
    told = [dialog.table.item(0, column).data(Qt.ItemDataRole.AccessibleTextRole) for column in (0, 4)]
    assert told == ["Shows: empty", "Shared instants: no shared instant yet"]
    dialog.table.setFocus()
    press(qtbot, Qt.Key.Key_Return)
    assert dialog.isVisible()
    buttons = {button.text(): button for button in dialog.findChildren(QPushButton)}
    with qtbot.waitSignal(dialog.add_wanted):
        qtbot.keyClick(buttons["Add a film ..."], Qt.Key.Key_Space)


@pytest.fixture
def letters(qtbot: QtBot, tagged: Desk) -> LettersDialog:
    assert tagged.review is not None
    crew = (CrewMember("referee", "J. Mosswell"), CrewMember("umpire 1", "U. Thornvex"))
    tagged.try_change(EditGame(replace(tagged.review.game, crew=crew)))
    presenter = LettersPresenter(tagged)
    presenter.take(build(tagged.review))
    dialog = LettersDialog(presenter)
    tagged.events.on("review", dialog.refresh)
    seen(qtbot, dialog)
    return dialog


@pytest.mark.usefixtures("letters")
def test_letters_asked_for_are_of_the_review_as_it_is(qtbot: QtBot, tagged: Desk, at_once: AtOnce) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    asked = LettersInForce(tagged, lambda _tag: None, window)
    at_once.hold = True
    asked.ask()
    at_once.hold = False
    assert tagged.review is not None
    tagged.try_change(EditGame(replace(tagged.review.game, crew=(CrewMember("referee", "P. Quennick"),))))
    at_once.let_go()
    assert [one.name for one in asked.presenter.entries()] == ["P. Quennick"]
    assert asked.dialog is not None
    asked.close()


@pytest.mark.usefixtures("letters")
def test_letters_and_lesson_of_a_review_that_was_let_go_never_come(
    qtbot: QtBot, tagged: Desk, at_once: AtOnce, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    opened: list[object] = []
    monkeypatch.setattr(LettersInForce, "_show", lambda _self, built: opened.append(built))
    monkeypatch.setattr(LessonMaking, "_open", lambda _self, draft: opened.append(draft))
    asked = LettersInForce(tagged, lambda _tag: None, window)
    lesson = LessonMaking(tagged, at_once, None, window, str)  # type: ignore[arg-type] - of the jobs only the start is used
    at_once.hold = True
    asked.ask()
    lesson.ask()
    assert tagged.store is not None
    tagged.take_review(None)  # what happens first when another one is opened
    tagged.take_review(tagged.store.review)
    at_once.let_go()
    assert opened == []


def test_another_official_keeps_what_was_typed(qtbot: QtBot, tagged: Desk, letters: LettersDialog) -> None:
    letters.text.setPlainText("Sleeves first.")
    letters.officials.setFocus()
    press(qtbot, Qt.Key.Key_Down)
    assert tagged.review is not None
    assert [(one.position, one.words) for one in tagged.review.letters] == [("referee", "Sleeves first.")]
    assert letters.text.toPlainText().startswith("To U. Thornvex, umpire 1.")


def test_too_long_a_letter_is_not_lost(qtbot: QtBot, tagged: Desk, letters: LettersDialog) -> None:
    long = "x" * (LONGEST_WORDS + 1)
    letters.text.setPlainText(long)
    assert letters.room.text() == "1 character too many"
    letters.officials.setFocus()
    press(qtbot, Qt.Key.Key_Down)
    assert letters.officials.currentRow() == 0
    letters.reject()
    assert letters.isVisible()
    assert letters.text.toPlainText() == long
    assert tagged.review is not None
    assert tagged.review.letters == ()
    letters.text.setPlainText("")
    letters.reject()
    assert not letters.isVisible()


def test_what_is_typed_stays_while_the_review_changes(tagged: Desk, letters: LettersDialog) -> None:
    letters.text.setPlainText("half a let")
    assert tagged.review is not None
    tagged.try_change(EditGame(replace(tagged.review.game, observer="O. Vanterell")))
    assert letters.text.toPlainText() == "half a let"


def test_left_to_the_sheet_again(qtbot: QtBot, tagged: Desk, letters: LettersDialog) -> None:
    built = letters.text.toPlainText()
    letters.text.setPlainText("Sleeves first.")
    qtbot.mouseClick(letters.keep, Qt.MouseButton.LeftButton)
    assert letters.officials.item(0).text().endswith("(written by you)")
    qtbot.mouseClick(letters.anew, Qt.MouseButton.LeftButton)
    assert letters.text.toPlainText() == built
    assert tagged.review is not None
    assert tagged.review.letters == ()
