"""Journeys around the picture through the real window: every shape of region, a loop, a moment beside, the kit's colours."""

import itertools
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from filmreview.desktop.kit_colours_dialog import KitColoursDialog
from filmreview.desktop.region_parts import Shape
from filmreview.desktop.window import DeskWindow
from filmreview.facts.fact import Origin
from filmreview.facts.region import Box, Patch, Polygon
from filmreview.film.film import open_film
from filmreview.measure.shape import bounds_of
from filmreview.review.changes import SetCommonMoment
from filmreview.review.films import add_film
from fixtures.films.burnt import read_number
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, drag, press, settle, setup_of, stand, type_words

K = Qt.Key
ALT, CONTROL, SHIFT = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
FILM = FILMS / "constant.mp4"


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    """The window on a new review, its film standing on the first frame."""
    begin_review(qtbot, window, FILM, tmp_path / "game.filmreview")
    settle(qtbot, window)
    return window


def click(qtbot: QtBot, window: DeskWindow, x: float, y: float) -> None:
    """On this place of the picture."""
    canvas = window.film_place.canvas
    at = canvas.view.to_canvas((x, y))
    qtbot.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=QPoint(round(at[0]), round(at[1])))


def on_card(qtbot: QtBot, window: DeskWindow) -> None:
    """The card has opened and takes the keys."""
    qtbot.waitUntil(lambda: QApplication.focusWidget() is window.card.line.line, timeout=WAIT)
    settle(qtbot, window)


def go_to_picture(qtbot: QtBot, window: DeskWindow) -> None:
    press(qtbot, K.Key_1, CONTROL)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is window.film_place.canvas)


def test_a_polygon_by_mouse_reshaped_undone_and_kept(qtbot: QtBot, opened: DeskWindow) -> None:
    press(qtbot, K.Key_Insert, CONTROL)
    for x, y in ((40, 60), (80, 60), (80, 90), (40, 90)):
        click(qtbot, opened, x, y)
    assert opened.card_presenter.draft is None
    click(qtbot, opened, 40, 60)
    on_card(qtbot, opened)
    drawn = opened.card_presenter.draft.region
    assert isinstance(drawn, Polygon)
    assert len(drawn.points) == 4
    first = opened.card_presenter.measured
    assert first is not None

    canvas = opened.film_place.canvas
    corner = drawn.points[2]
    at = canvas.view.to_canvas(corner)
    drag_points(qtbot, opened, (round(at[0]), round(at[1])), (round(at[0]) + 60, round(at[1]) + 40))
    settle(qtbot, opened)
    pulled = opened.card_presenter.draft.region
    assert pulled != drawn
    assert opened.card_presenter.measured != first, "measured again"

    go_to_picture(qtbot, opened)
    assert opened.actions_by_name["undo"].text() == "&Undo: change the region"
    press(qtbot, K.Key_Z, CONTROL)
    settle(qtbot, opened)
    assert opened.card_presenter.draft.region == drawn
    assert opened.card_presenter.measured == first
    press(qtbot, K.Key_Z, CONTROL | SHIFT)
    settle(qtbot, opened)
    assert opened.card_presenter.draft.region == pulled
    assert canvas.region == pulled

    press(qtbot, K.Key_3, CONTROL)
    type_words(qtbot, "v14 arm sleeve orange")
    press(qtbot, K.Key_Return)
    settle(qtbot, opened)
    (tag,) = opened.desk.review.tags
    assert tag.region == pulled
    press(qtbot, K.Key_Z, CONTROL)
    settle(qtbot, opened)
    assert opened.desk.review.tags == (), "with the card closed undo goes to the review"


def drag_points(qtbot: QtBot, window: DeskWindow, start: tuple[int, int], end: tuple[int, int]) -> None:
    canvas = window.film_place.canvas
    qtbot.mousePress(canvas, Qt.MouseButton.LeftButton, pos=QPoint(*start))
    for share in (3, 2, 1):
        between = QPoint(*start) + (QPoint(*end) - QPoint(*start)) / share
        qtbot.mouseMove(canvas, between)
    qtbot.mouseRelease(canvas, Qt.MouseButton.LeftButton, pos=QPoint(*end))


def test_painting_while_the_film_plays_pauses_it_on_the_frame_seen(qtbot: QtBot, opened: DeskWindow) -> None:
    place = opened.film_place
    place.canvas.regions.set_shape(Shape.PATCH)
    press(qtbot, K.Key_F6)
    qtbot.waitUntil(lambda: place.player.playing and place.player.time > Fraction(1, 2), timeout=WAIT)
    drag_points(qtbot, opened, (200, 150), (260, 170))
    on_card(qtbot, opened)
    assert not place.player.playing
    draft = opened.card_presenter.draft
    assert isinstance(draft.region, Patch)
    assert draft.moment == place.frame.moment
    assert place.canvas.region == draft.region


def test_a_region_put_by_its_key_tells_which_keys_move_it(qtbot: QtBot, opened: DeskWindow) -> None:
    press(qtbot, K.Key_Insert)
    on_card(qtbot, opened)
    assert opened.desk.last_message.endswith("Ctrl+1, then Alt and arrows move it")
    before = bounds_of(opened.card_presenter.draft.region)
    press(qtbot, K.Key_1, CONTROL)
    press(qtbot, K.Key_Right, ALT)
    settle(qtbot, opened)
    after = bounds_of(opened.card_presenter.draft.region)
    assert after.x > before.x
    assert (after.y, after.width, after.height) == (before.y, before.width, before.height)


def test_a_patch_by_keys_alone(qtbot: QtBot, opened: DeskWindow) -> None:
    for _ in range(2):
        press(qtbot, K.Key_Insert, CONTROL)
    press(qtbot, K.Key_Insert)
    on_card(qtbot, opened)
    go_to_picture(qtbot, opened)
    small = opened.card_presenter.draft.region
    assert isinstance(small, Patch)
    press(qtbot, K.Key_PageDown, ALT)
    for _ in range(20):
        press(qtbot, K.Key_Right, ALT)
    press(qtbot, K.Key_Insert, ALT)
    settle(qtbot, opened)
    wide = opened.card_presenter.draft.region
    assert bounds_of(wide).right > bounds_of(small).right
    press(qtbot, K.Key_Z, CONTROL)
    settle(qtbot, opened)
    assert opened.card_presenter.draft.region == small
    press(qtbot, K.Key_Delete)
    settle(qtbot, opened)
    assert opened.card_presenter.draft is None
    press(qtbot, K.Key_Z, CONTROL)
    settle(qtbot, opened)
    assert opened.card_presenter.draft.region == small, "dropping the region is undone, too"
    press(qtbot, K.Key_3, CONTROL)
    type_words(qtbot, "h10 arm sleeve white")
    press(qtbot, K.Key_Return)
    settle(qtbot, opened)
    (tag,) = opened.desk.review.tags
    assert tag.region == small


def again(painted: list[int | None]) -> int:
    """How often playing began anew."""
    return sum((after or 0) < (before or 0) for before, after in itertools.pairwise(painted))


def test_a_loop_set_while_the_film_plays(qtbot: QtBot, opened: DeskWindow) -> None:
    place = opened.film_place
    painted: list[int | None] = []
    place.player.picture_shown.connect(lambda picture: painted.append(None if picture is None else read_number(picture)))
    for _ in range(10):
        press(qtbot, K.Key_F8)
    stand(qtbot, opened)
    press(qtbot, K.Key_F11)
    settle(qtbot, opened)
    press(qtbot, K.Key_F6)
    qtbot.waitUntil(lambda: place.player.playing and (painted[-1] or 0) >= 24, timeout=WAIT)
    press(qtbot, K.Key_F11, SHIFT)
    qtbot.waitUntil(lambda: place.player.playing and place.loop.loop.end is not None, timeout=WAIT)
    last = place.player.film.number_of(place.loop.loop.end)
    painted.clear()
    qtbot.waitUntil(lambda: again(painted) >= 2, timeout=WAIT)
    press(qtbot, K.Key_F6)
    stand(qtbot, opened)
    assert {number for number in painted if number is not None} <= set(range(10, last))
    assert "loop" in place.strip.accessibleDescription()
    assert place.bar.loop.text() == "Loop on"
    press(qtbot, K.Key_F11, CONTROL)
    assert not place.loop.loop.on
    assert "loop" not in place.strip.accessibleDescription()


def test_the_loop_by_mouse(qtbot: QtBot, opened: DeskWindow) -> None:
    place = opened.film_place
    menu = place.bar.loop.menu()
    for _ in range(30):
        place.player.step(1)
    stand(qtbot, opened)
    menu.popup(place.bar.loop.mapToGlobal(QPoint(0, 0)))
    qtbot.mouseClick(menu, Qt.MouseButton.LeftButton, pos=menu.actionGeometry(menu.actions()[1]).center())
    settle(qtbot, opened)
    assert place.loop.loop.words.startswith("0:00.000 up to 0:01.0")
    place.bar.loop.menu().actions()[2].trigger()
    assert place.bar.loop.text() == "Loop"


def test_a_moment_beside_and_the_tag_goes_to_the_picture(qtbot: QtBot, opened: DeskWindow) -> None:
    place, pane = opened.film_place, opened.film_place.compare.pane
    for _ in range(5):
        press(qtbot, K.Key_F8)
    stand(qtbot, opened)
    press(qtbot, K.Key_F12)
    qtbot.waitUntil(lambda: pane.player.frame is not None and pane.player.frame.number == 5, timeout=WAIT)
    for _ in range(3):
        press(qtbot, K.Key_F8)
    stand(qtbot, opened)
    assert (place.frame.number, pane.player.frame.number) == (8, 5)
    assert "earlier" in pane.title.text()

    press(qtbot, K.Key_8, CONTROL)
    assert QApplication.focusWidget() is pane.canvas
    press(qtbot, K.Key_Right)
    qtbot.waitUntil(lambda: pane.player.frame is not None and pane.player.frame.number == 6, timeout=WAIT)
    for key in (K.Key_Space, K.Key_Insert, K.Key_Home):
        press(qtbot, key)
    assert (place.frame.number, place.player.playing) == (8, False)
    assert opened.card_presenter.draft is None
    start = pane.canvas.rect().center()
    qtbot.mousePress(pane.canvas, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(pane.canvas, start + QPoint(40, 30))
    qtbot.mouseRelease(pane.canvas, Qt.MouseButton.LeftButton, pos=start + QPoint(40, 30))
    assert opened.card_presenter.draft is None, "nothing can be drawn there"
    assert place.canvas.view.scale == pytest.approx(pane.canvas.view.scale)

    go_to_picture(qtbot, opened)
    press(qtbot, K.Key_Plus)
    assert pane.canvas.view.scale == pytest.approx(place.canvas.view.scale)
    qtbot.mouseClick(pane.same_zoom, Qt.MouseButton.LeftButton, pos=QPoint(8, pane.same_zoom.height() // 2))
    free = pane.canvas.view.scale
    press(qtbot, K.Key_Plus)
    assert pane.canvas.view.scale == free, "each by itself now"
    qtbot.mouseClick(pane.same_zoom, Qt.MouseButton.LeftButton, pos=QPoint(8, pane.same_zoom.height() // 2))
    assert pane.canvas.view.scale == pytest.approx(place.canvas.view.scale)
    go_to_picture(qtbot, opened)
    press(qtbot, K.Key_0)
    drag(qtbot, opened, Box(40, 60, 40, 30))
    on_card(qtbot, opened)
    type_words(qtbot, "v14 arm sleeve orange")
    press(qtbot, K.Key_Return)
    settle(qtbot, opened)
    (tag,) = opened.desk.review.tags
    assert tag.moment == place.player.film.moment_of(8)

    press(qtbot, K.Key_8, CONTROL)
    press(qtbot, K.Key_Return)  # swap
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 6, timeout=WAIT)
    qtbot.waitUntil(lambda: pane.player.frame is not None and pane.player.frame.number == 8, timeout=WAIT)
    settle(qtbot, opened)
    assert "view" in pane.canvas.accessibleDescription(), "the tag's region is on that frame"
    go_to_picture(qtbot, opened)
    press(qtbot, K.Key_F12, CONTROL)
    assert not pane.isVisible()
    opened.ledger.choose(tag.id)
    press(qtbot, K.Key_F12, SHIFT)
    qtbot.waitUntil(lambda: pane.player.frame is not None and pane.player.frame.number == 8, timeout=WAIT)
    press(qtbot, K.Key_8, CONTROL)
    press(qtbot, K.Key_Escape)
    assert not pane.isVisible()
    assert QApplication.focusWidget() is place.canvas


def test_a_moment_of_another_film_beside(qtbot: QtBot, opened: DeskWindow) -> None:
    place, pane = opened.film_place, opened.film_place.compare.pane
    with open_film(FILMS / "variable.mp4") as other:
        assert opened.desk.try_change(add_film(other, opened.desk.store.path))
        settle(qtbot, opened)
        one, two = (film.id for film in opened.desk.review.films)
        moment = other.moment_of(9)
        assert opened.desk.try_change(SetCommonMoment(one, place.player.film.moment_of(6), two, moment))
        settle(qtbot, opened)
    for _ in range(6):
        press(qtbot, K.Key_F8)
    stand(qtbot, opened)
    press(qtbot, K.Key_F12)
    qtbot.waitUntil(lambda: pane.player.frame is not None, timeout=WAIT)
    assert pane.film.isVisible()
    pane.film.setFocus()
    press(qtbot, K.Key_Down)
    qtbot.waitUntil(lambda: pane.player.frame is not None and pane.player.film.path.name == "variable.mp4", timeout=WAIT)
    settle(qtbot, opened)
    assert pane.player.frame.moment == moment, "the same instant, by the shared instant"
    assert "the same instant" in pane.title.text()
    assert place.player.film.path.name == "constant.mp4"
    press(qtbot, K.Key_F12, CONTROL | SHIFT)
    qtbot.waitUntil(lambda: place.frame is not None and place.player.film.path.name == "variable.mp4", timeout=WAIT)
    qtbot.waitUntil(lambda: pane.player.frame is not None and pane.player.film.path.name == "constant.mp4", timeout=WAIT)
    assert (place.frame.number, pane.player.frame.number) == (9, 6)


def test_the_kit_s_colours_picked_from_the_film(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    begin_review(qtbot, window, FILMS / "colour-709-limited.mp4", tmp_path / "game.filmreview")
    settle(qtbot, window)
    press(qtbot, K.Key_G, CONTROL)
    dialog = setup_of(qtbot, window)
    qtbot.mouseClick(dialog.teams["visitor"].pick, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: any(one.isVisible() for one in dialog.findChildren(KitColoursDialog)), timeout=WAIT)
    (kit,) = dialog.findChildren(KitColoursDialog)
    qtbot.waitUntil(lambda: kit.player.frame is not None, timeout=WAIT)
    view = kit.canvas.view
    for box, keys in ((Box(175, 56, 50, 30), SHIFT), (Box(10, 98, 60, 30), Qt.KeyboardModifier.NoModifier)):
        one, two = view.to_canvas((box.x, box.y)), view.to_canvas((box.right, box.bottom))
        start, end = QPoint(round(one[0]), round(one[1])), QPoint(round(two[0]), round(two[1]))
        qtbot.mousePress(kit.canvas, Qt.MouseButton.LeftButton, keys, start)
        qtbot.mouseMove(kit.canvas, (start + end) / 2)
        qtbot.mouseMove(kit.canvas, end)
        qtbot.mouseRelease(kit.canvas, Qt.MouseButton.LeftButton, keys, end)
        settle(qtbot, window)
    qtbot.mouseClick(kit.take, Qt.MouseButton.LeftButton)
    assert dialog.teams["visitor"].origins["jersey"].text() == "measured"
    qtbot.mouseClick(dialog.buttons.buttons()[0], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not dialog.isVisible(), timeout=WAIT)
    settle(qtbot, window)

    review = window.desk.review
    fact = review.kit["visitor"]["jersey"]
    assert fact.origin is Origin.MEASURED
    assert fact.value[0].covariance is not None
    assert fact.why.endswith("1 region, 1 time or place, against a white")
    assert len(review.references) == 1, "the white pointed at while picking is the review's, too"
    window.activateWindow()  # the tests' screen has no window manager that would do it when the dialog goes
    qtbot.waitUntil(window.isActiveWindow)
    press(qtbot, K.Key_Z, CONTROL)
    settle(qtbot, window)
    assert window.desk.review.kit["visitor"]["jersey"].origin is Origin.DECLARED
    assert window.desk.review.references == (), "one step of the history"


def test_the_space_bar_presses_the_control_that_has_the_focus(qtbot: QtBot, opened: DeskWindow) -> None:
    place = opened.film_place
    for control in (place.bar.sound, place.bar.white):
        control.setFocus()
        press(qtbot, K.Key_Space)
        assert not place.player.playing
    assert not place.player.sound
    assert QApplication.focusWidget() is place.canvas, "a drag there points at white now"
    press(qtbot, K.Key_F12)
    qtbot.waitUntil(lambda: place.compare.pane.player.frame is not None, timeout=WAIT)
    place.compare.pane.same_zoom.setFocus()
    press(qtbot, K.Key_Space)
    assert not place.compare.pane.same_zoom.isChecked()
    assert not place.player.playing


def test_the_sound_is_as_it_was_left(qtbot: QtBot, start: Callable[[], DeskWindow], tmp_path: Path) -> None:
    first = start()
    begin_review(qtbot, first, FILM, tmp_path / "game.filmreview")
    settle(qtbot, first)
    assert first.film_place.player.sound
    qtbot.mouseClick(first.film_place.bar.sound, Qt.MouseButton.LeftButton)
    assert not first.film_place.player.sound
    first.close()
    second = start()
    assert not second.film_place.player.sound
    assert second.film_place.bar.sound.accessibleName() == "sound off"


def test_zoom_and_pan_in_the_window_by_mouse_and_keys(qtbot: QtBot, opened: DeskWindow) -> None:
    canvas = opened.film_place.canvas
    fitted = canvas.view
    for _ in range(4):
        press(qtbot, K.Key_Plus)
    near = canvas.view
    assert near.scale == pytest.approx(fitted.scale * 1.25**4)
    press(qtbot, K.Key_Left, CONTROL)
    assert canvas.view.left > near.left
    middle = QPoint(200, 150)
    qtbot.keyPress(canvas, K.Key_Space)
    drag_points(qtbot, opened, (200, 150), (240, 170))
    qtbot.keyRelease(canvas, K.Key_Space)
    assert not opened.film_place.player.playing, "space was held for the drag, not tapped"
    assert opened.card_presenter.draft is None
    qtbot.mouseDClick(canvas, Qt.MouseButton.LeftButton, pos=middle)
    assert canvas.view == fitted
