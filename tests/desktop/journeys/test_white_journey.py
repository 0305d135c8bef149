"""Whites in the whole window, on a film of two camera views: which one counts, and that it is said."""

import threading
from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from filmreview.colour.palette import colour_named
from filmreview.desktop.setup_presenter import game_of
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box
from filmreview.film.film import Film, Frame, Moment, open_film
from filmreview.review import store as stores
from filmreview.review.changes import RemoveReference, SetReference
from filmreview.review.films import add_film
from tests.desktop.desk_fixtures import FORM
from tests.desktop.journeys.steps import WAIT, begin_review, close_to, drag, press, settle, stand
from tests.measure.two_views import ITEM, NEAR, OTHER_VIEW, SECOND_VIEW, write_two_views

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    """The window on a new review of that film."""
    begin_review(qtbot, window, write_two_views(tmp_path / "two-views.mp4"), tmp_path / "game.filmreview")
    settle(qtbot, window)
    return window


def go_to(qtbot: QtBot, window: DeskWindow, number: int) -> None:
    place = window.film_place
    place.player.jump(window.desk.film.moment_of(number))
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == number, timeout=WAIT)


def point_at_white(qtbot: QtBot, window: DeskWindow, number: int, box: Box) -> None:
    go_to(qtbot, window, number)
    before = len(window.desk.whites)
    press(qtbot, Qt.Key.Key_W, CONTROL | SHIFT)
    drag(qtbot, window, box)
    qtbot.waitUntil(lambda: len(window.desk.whites) == before + 1, timeout=WAIT)
    settle(qtbot, window)


def mark(qtbot: QtBot, window: DeskWindow, number: int) -> str:
    """Draw the item on a frame, and what its colour was measured by."""
    go_to(qtbot, window, number)
    drag(qtbot, window, ITEM)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is window.card.line.line, timeout=WAIT)
    settle(qtbot, window)
    return window.card_presenter.measured.why


def until_measured(qtbot: QtBot, window: DeskWindow, words: str) -> None:
    card = window.card_presenter
    qtbot.waitUntil(lambda: card.measured is not None and words in card.measured.why, timeout=WAIT)


def drop(qtbot: QtBot, window: DeskWindow) -> None:
    press(qtbot, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: window.card_presenter.draft is None, timeout=WAIT)
    settle(qtbot, window)
    window.film_place.canvas.setFocus()


def test_the_white_of_this_view_nearest_in_the_picture_counts(qtbot: QtBot, opened: DeskWindow) -> None:
    place = opened.film_place
    assert "no white pointed at yet" in place.canvas._info
    for name in ("left", "right"):
        point_at_white(qtbot, opened, *NEAR[name])
        assert close_to(place.canvas.reference, NEAR[name][1]), "drawn on its own frame"
    assert "2 whites pointed at" in place.canvas._info

    assert "against a white, view" in mark(qtbot, opened, 4)
    assert "against the white at 0:00.400" in place.canvas._info, "the right one, though the left is nearer in time"
    assert "another view" not in place.canvas._info
    assert place.canvas.reference is None, "it stands on another frame"
    drop(qtbot, opened)

    assert "against a white in another view" in mark(qtbot, opened, SECOND_VIEW + 6)
    assert "against the white at 0:00.400, in another view" in place.canvas._info
    drop(qtbot, opened)

    point_at_white(qtbot, opened, *OTHER_VIEW["other"])
    assert "against a white, view" in mark(qtbot, opened, SECOND_VIEW + 6)
    assert "against the white at 0:00.840" in place.canvas._info


def test_a_white_pointed_at_beside_a_region_counts_for_it_at_once(qtbot: QtBot, opened: DeskWindow) -> None:
    number, white = NEAR["right"]
    assert "without a white" in mark(qtbot, opened, number)
    opened.film_place.canvas.setFocus()
    point_at_white(qtbot, opened, number, white)
    until_measured(qtbot, opened, "against a white")
    assert close_to(opened.card_presenter.draft.region, ITEM)
    settle(qtbot, opened)
    (placed,) = opened.desk.whites
    opened.desk.try_change(RemoveReference(placed.id))
    until_measured(qtbot, opened, "without a white")
    settle(qtbot, opened)


def test_whites_of_a_review_are_looked_at_beside_the_window(
    qtbot: QtBot, window: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = stores.create(tmp_path / "game.filmreview", game_of(FORM), "R. Valdrune")
    with store, open_film(write_two_views(tmp_path / "two-views.mp4")) as film:
        (film_id,) = store.apply(add_film(film, store.path))
        whites = {film.moment_of(number): box for number, box in {**NEAR, **OTHER_VIEW}.values()}
        for moment, box in whites.items():
            store.apply(SetReference(film_id, moment, box, colour_named("white")))
    decoded: list[tuple[Moment, bool]] = []
    frame_at = Film.frame_at

    def told(film: Film, moment: Moment) -> Frame:
        if moment in whites:
            decoded.append((moment, threading.current_thread() is threading.main_thread()))
        return frame_at(film, moment)

    monkeypatch.setattr(Film, "frame_at", told)
    window.open_path(tmp_path / "game.filmreview")
    stand(qtbot, window)
    settle(qtbot, window)
    assert "against a white, view" in mark(qtbot, window, SECOND_VIEW + 6)
    assert sorted(moment.pts for moment, _ in decoded) == sorted(moment.pts for moment in whites), "each once"
    assert not any(on_window for _, on_window in decoded)
    drop(qtbot, window)
