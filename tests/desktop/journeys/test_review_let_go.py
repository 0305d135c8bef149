"""What is being written when a review is let go: nothing is lost, nothing gets into another review or onto another film."""

import threading
from dataclasses import replace
from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtGui import QCloseEvent
from PyQt6.QtWidgets import QApplication, QFileDialog, QMessageBox
from pytestqt.qtbot import QtBot

from filmreview.desktop.films_dialog import FilmsDialog
from filmreview.desktop.own_call_place import CHOOSE
from filmreview.desktop.window import DeskWindow
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film, open_film
from filmreview.review.changes import EditGame
from filmreview.review.films import add_film
from filmreview.review.model import CrewMember
from filmreview.review.reading import read
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, press, settle, stand
from tests.desktop.two_reviews import other_review

FILM = FILMS / "constant.mp4"
OTHER = FILMS / "variable.mp4"


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    begin_review(qtbot, window, FILM, tmp_path / "game.filmreview")
    settle(qtbot, window)
    return window


def begin_letter(qtbot: QtBot, window: DeskWindow) -> None:
    window.actions_by_name["letters"].trigger()
    qtbot.waitUntil(lambda: window.people.letters.dialog is not None, timeout=WAIT)
    dialog = window.people.letters.dialog
    assert dialog is not None
    dialog.text.setPlainText("A letter that is not kept yet.")


@pytest.mark.parametrize("deed", ["close", "quit"])
def test_a_letter_being_typed_is_kept(qtbot: QtBot, opened: DeskWindow, tmp_path: Path, deed: str) -> None:
    review = opened.desk.review
    assert review is not None
    opened.desk.try_change(EditGame(replace(review.game, crew=(CrewMember("referee", "J. Mosswell"),))))
    settle(qtbot, opened)
    begin_letter(qtbot, opened)
    opened.actions_by_name[deed].trigger()
    settle(qtbot, opened)
    assert [letter.words for letter in read(tmp_path / "game.filmreview").letters] == ["A letter that is not kept yet."]


def test_another_review_is_not_opened_over_a_card_that_is_written_on(
    qtbot: QtBot, opened: DeskWindow, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_given: (asked.append("asked") or "", ""))
    opened.card_presenter.open_new(opened.film_place.frame)
    opened.card_presenter.type("v14 arm")
    press(qtbot, Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    assert asked == []
    assert opened.desk.last_message.startswith("keep or drop")
    opened.card_presenter.drop()
    press(qtbot, Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    assert asked == ["asked"]


def test_the_films_are_shown_in_one_dialog(qtbot: QtBot, opened: DeskWindow) -> None:
    for _twice in range(2):
        opened.actions_by_name["films"].trigger()
    (dialog,) = [one for one in opened.findChildren(FilmsDialog) if one.isVisible()]
    dialog.reject()
    qtbot.wait(1)
    assert [one for one in opened.findChildren(FilmsDialog) if one.isVisible()] == []


@pytest.fixture
def two(qtbot: QtBot, opened: DeskWindow) -> DeskWindow:
    """A second film of the game, the first one on the picture."""
    review = opened.desk.review
    assert review is not None
    with open_film(OTHER) as film:
        opened.desk.try_change(add_film(film, review.path))
    settle(qtbot, opened)
    return opened


def test_a_region_is_not_brought_back_onto_another_film(qtbot: QtBot, two: DeskWindow) -> None:
    place, card = two.film_place, two.card_presenter
    place.canvas.place_region()
    settle(qtbot, two)
    place.canvas.regions.drop()
    assert card.draft is None
    assert place.regions.history.undo_words
    place.bar.film_wanted.emit("f2")
    qtbot.waitUntil(lambda: two.desk.film is not None and two.desk.film_id == "f2", timeout=WAIT)
    stand(qtbot, two)
    assert place.regions.back() == ""
    assert card.draft is None


def test_no_tag_goes_to_a_film_that_is_not_on_the_picture_yet(
    qtbot: QtBot, two: DeskWindow, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on, opened_film = threading.Event(), two.desk.films.open

    def slow(*given: object, **more: object) -> Film:
        go_on.wait(10)
        return opened_film(*given, **more)

    monkeypatch.setattr(two.desk.films, "open", slow)
    two.film_place.bar.film_wanted.emit("f2")
    frame = two.film_place.frame
    go_on.set()
    assert frame is None, "the first film's frame is still there while tags go to the second film"
    stand(qtbot, two)
    settle(qtbot, two)
    assert two.desk.film_id == "f2"


def test_a_film_that_is_lost_leaves_no_other_one_on_the_picture(
    qtbot: QtBot, two: DeskWindow, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(*_given: object, **_more: object) -> Film:
        raise FilmReviewError("no such film")

    monkeypatch.setattr(two.desk.films, "open", gone)
    two.film_place.go_to("f2", two.desk.review.films[1].start)
    settle(qtbot, two)
    assert two.desk.last_message.endswith("Find the film again; everything else can be read and tagged")
    assert two.film_place.frame is None
    assert two.desk.film is None


def asked(window: DeskWindow) -> QMessageBox:
    (box,) = [one for one in window.findChildren(QMessageBox) if one.isVisible()]
    return box


def answer(window: DeskWindow, words: str) -> None:
    (button,) = [one for one in asked(window).buttons() if one.text() == words]
    button.click()


class FromOutside(QCloseEvent):
    """The event of the window system's own button: only that system makes spontaneous ones."""

    def spontaneous(self) -> bool:
        return True


@pytest.mark.parametrize("way", ["button", "quit"])
def test_what_the_card_holds_is_not_closed_over_unasked(qtbot: QtBot, opened: DeskWindow, way: str) -> None:
    def close() -> None:
        if way == "quit":
            opened.actions_by_name["quit"].trigger()
        else:
            opened.closeEvent(FromOutside())

    opened.card_presenter.open_new(opened.film_place.frame)
    opened.card_presenter.type("v14 arm")
    close()
    assert asked(opened).text() == "The tag on the card is not kept yet. It is lost if you go on."
    assert asked(opened).defaultButton().text() == "Back to the card"
    answer(opened, "Back to the card")
    assert opened.isVisible()
    assert opened.card_presenter.draft is not None
    qtbot.waitUntil(lambda: not opened.findChildren(QMessageBox))
    close()
    answer(opened, "Drop the tag")
    qtbot.waitUntil(lambda: not opened.isVisible(), timeout=WAIT)


def test_closing_over_a_change_to_a_kept_tag_says_that_the_tag_stays(qtbot: QtBot, opened: DeskWindow) -> None:
    opened.card_presenter.open_new(opened.film_place.frame)
    opened.card_presenter.type("v14 arm sleeve white")
    assert opened.card_presenter.keep()
    settle(qtbot, opened)
    opened.card_presenter.open_tag(opened.desk.review.tags[0].id)
    opened.card_presenter.type("v14 arm sleeve black")
    assert opened.card_presenter.unsaved
    opened.actions_by_name["quit"].trigger()
    assert asked(opened).text().endswith("It is lost if you go on; the tag stays as it was.")
    answer(opened, "Drop the change")
    qtbot.waitUntil(lambda: not opened.isVisible(), timeout=WAIT)


def test_a_card_that_holds_nothing_asks_nothing(opened: DeskWindow) -> None:
    opened.card_presenter.open_new(opened.film_place.frame)
    opened.actions_by_name["quit"].trigger()
    assert not opened.isVisible()


def begin_own_call(qtbot: QtBot, window: DeskWindow) -> None:
    """One tag, and a call on it that is typed and not given."""
    window.card_presenter.open_new(window.film_place.frame)
    window.card_presenter.type("v14 arm sleeve orange")
    settle(qtbot, window)
    window.card_presenter.keep()
    settle(qtbot, window)
    window.actions_by_name["own_call"].trigger()
    window.people.own_calls.place.ruling.show_text("illegal")
    qtbot.keyClicks(window.people.own_calls.place.words, "orange on green")


@pytest.mark.parametrize("way", ["button", "quit", "close"])
def test_an_own_call_typed_is_not_let_go_unasked(qtbot: QtBot, opened: DeskWindow, way: str) -> None:
    def let_go() -> None:
        if way == "button":
            opened.closeEvent(FromOutside())
        else:
            opened.actions_by_name[way].trigger()

    begin_own_call(qtbot, opened)
    place = opened.people.own_calls.place
    opened.actions_by_name["go_ledger"].trigger()
    let_go()
    assert asked(opened).text() == (
        "Your own call on Ovvermire 14 (arm sleeve, at 0:00.000) is typed but not given yet. It is lost if you go on."
    )
    answer(opened, "Back to the call")
    qtbot.waitUntil(lambda: not opened.findChildren(QMessageBox))
    qtbot.waitUntil(lambda: QApplication.focusWidget() is place.ruling)
    assert opened.desk.review is not None
    assert (place.ruling.currentText(), place.words.text()) == ("illegal", "orange on green")
    let_go()
    answer(opened, "Drop the call")
    settle(qtbot, opened)
    qtbot.waitUntil(lambda: opened.desk.review is None or not opened.isVisible(), timeout=WAIT)


def test_an_own_call_given_or_emptied_asks_nothing(qtbot: QtBot, opened: DeskWindow) -> None:
    begin_own_call(qtbot, opened)
    place = opened.people.own_calls.place
    place.give.click()
    settle(qtbot, opened)
    assert opened.deeds.unkept.words == ""
    place.words.setText("orange, clearly")
    assert "Ovvermire 14" in opened.deeds.unkept.words
    place.words.setText("orange on green")
    opened.actions_by_name["quit"].trigger()
    assert not opened.isVisible()


def test_an_own_call_typed_stays_out_of_another_review(
    qtbot: QtBot, opened: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begin_own_call(qtbot, opened)
    opened.actions_by_name["go_ledger"].trigger()  # what is not seen is not drawn anew when the review goes
    other = other_review(tmp_path, ("0:01", "h3 headband black", ""))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_given: (str(other), ""))
    opened.actions_by_name["open"].trigger()
    answer(opened, "Drop the call")
    settle(qtbot, opened)
    assert opened.desk.review is not None
    assert opened.desk.review.path == other
    opened.actions_by_name["own_call"].trigger()
    place = opened.people.own_calls.place
    assert (place.chosen(), place.ruling.currentText(), place.words.text()) == ("t1", CHOOSE, "")
    assert opened.deeds.unkept.words == ""
