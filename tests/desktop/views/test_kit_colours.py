"""Picking kit colours as a person does it: by mouse and by keys, on a film with patches of known colours."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtWidgets import QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop.actions import KeysOf, first_keys
from filmreview.desktop.kit_colours_dialog import KitColoursDialog
from filmreview.desktop.kit_colours_presenter import KitColours
from filmreview.facts.fact import Origin
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from tests.desktop.desk_fixtures import FILMS, AtOnce
from tests.desktop.picture_hand import ALT, PLAIN, SHIFT, drag

K = Qt.Key
GREEN, RED, GREY = Box(10, 98, 60, 30), Box(250, 56, 60, 30), Box(175, 56, 50, 30)


@contextmanager
def shown(qtbot: QtBot, keys_of: KeysOf = first_keys) -> Iterator[KitColoursDialog]:
    film = open_film(FILMS / "colour-709-limited.mp4")
    at_once = AtOnce()
    kit = KitColours(film, at_once.start, at_once.forget, ())
    made = KitColoursDialog(kit, film, {"home": "Thrunnockby", "visitor": ""}, None, keys_of)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    made.activateWindow()
    qtbot.waitUntil(lambda: made.player.frame is not None)
    yield made
    made.done(0)


@pytest.fixture
def dialog(qtbot: QtBot) -> Iterator[KitColoursDialog]:
    with shown(qtbot) as made:
        yield made


def draw(dialog: KitColoursDialog, box: Box, keys: Qt.KeyboardModifier = PLAIN) -> None:
    view = dialog.canvas.view
    one, two = view.to_canvas((box.x, box.y)), view.to_canvas((box.right, box.bottom))
    drag(dialog.canvas, (round(one[0]), round(one[1])), (round(two[0]), round(two[1])), keys=keys)


def test_regions_by_mouse_for_two_parts(qtbot: QtBot, dialog: KitColoursDialog) -> None:
    assert dialog.lists.parts.item(0).text() == "Thrunnockby: jersey"
    draw(dialog, GREEN)
    assert dialog.lists.parts.item(0).text() == "Thrunnockby: jersey, green"
    row = dialog.lists.parts.item(8)
    qtbot.mouseClick(
        dialog.lists.parts.viewport(), Qt.MouseButton.LeftButton, pos=dialog.lists.parts.visualItemRect(row).center()
    )
    draw(dialog, RED)
    assert {part: fact.value[0].name for part, fact in dialog.facts().items()} == {
        ("home", "jersey"): "green",
        ("visitor", "shorts"): "red",
    }
    assert "red" in dialog.lists.words.text()


def test_all_of_it_by_keys(qtbot: QtBot, dialog: KitColoursDialog) -> None:
    dialog.canvas.setFocus()
    qtbot.keyClick(dialog.canvas, K.Key_Right)
    qtbot.waitUntil(lambda: dialog.player.frame is not None and dialog.player.frame.number == 1)
    qtbot.keyClick(dialog.canvas, K.Key_Insert)
    for _ in range(3):
        qtbot.keyClick(dialog.canvas, K.Key_Down, ALT)
    assert len(dialog.kit.here.samples) == 1
    moved = dialog.kit.sample.region
    assert dialog.canvas.region == moved
    dialog.lists.samples.setFocus()
    qtbot.keyClick(dialog.lists.samples, K.Key_Delete)
    assert dialog.kit.here.samples == ()
    dialog.lists.parts.setFocus()
    qtbot.keyClick(dialog.lists.parts, K.Key_Down)
    assert dialog.kit.part == ("home", "trim")


@pytest.mark.parametrize(("keys", "told"), [(("G", "Ctrl+G"), "(or press G on the picture)"), ((), "region on it, on several")])
def test_the_keys_that_the_person_has_set(qtbot: QtBot, keys: tuple[str, ...], told: str) -> None:
    with shown(qtbot, lambda name: keys if name == "place_region" else first_keys(name)) as dialog:
        assert told in dialog.message.text()
        assert "Ins" not in dialog.message.text()
        dialog.canvas.setFocus()
        qtbot.keyClick(dialog.canvas, K.Key_Insert)
        assert dialog.kit.here.samples == ()
        qtbot.keyClick(dialog.canvas, K.Key_G)
        assert len(dialog.kit.here.samples) == bool(keys)


def test_a_sample_chosen_goes_to_its_frame(qtbot: QtBot, dialog: KitColoursDialog) -> None:
    draw(dialog, GREEN)
    dialog.player.step(7)
    qtbot.waitUntil(lambda: dialog.player.frame is not None and dialog.player.frame.number == 7)
    assert dialog.canvas.region is None, "the region belongs to another frame"
    draw(dialog, GREEN)
    assert len(dialog.kit.here.samples) == 2
    dialog.lists.samples.setFocus()
    qtbot.keyClick(dialog.lists.samples, K.Key_Up)
    qtbot.waitUntil(lambda: dialog.player.frame is not None and dialog.player.frame.number == 0)
    assert dialog.canvas.region == dialog.kit.here.samples[0].region


def test_the_eye_overrules_and_a_white_is_pointed_at(qtbot: QtBot, dialog: KitColoursDialog) -> None:
    draw(dialog, GREEN)
    assert dialog.canvas._info.endswith("no white pointed at yet")
    draw(dialog, GREY, SHIFT)
    assert dialog.canvas.reference is not None
    assert dialog.canvas._info.endswith("against the white at 0:00.000")
    dialog.player.step(3)
    qtbot.waitUntil(lambda: dialog.player.frame is not None and dialog.player.frame.number == 3)
    assert dialog.canvas._info.endswith("one white pointed at (0:00.000)")
    dialog.player.step(-3)
    qtbot.waitUntil(lambda: dialog.player.frame is not None and dialog.player.frame.number == 0)
    assert "against a white" in dialog.kit.sample.measured.why
    dialog.lists.name.setFocus()
    qtbot.keyClicks(dialog.lists.name, "teal")
    assert dialog.facts()["home", "jersey"].origin is Origin.SEEN
    assert "by eye" in dialog.lists.parts.item(0).text()


def test_a_white_that_is_refused_does_not_stay_on_the_picture(dialog: KitColoursDialog) -> None:
    draw(dialog, Box(175, 56, 3, 3), SHIFT)
    assert dialog.message.text().startswith("this cannot be the white: ")
    assert dialog.canvas.reference is None


def test_what_was_picked_is_not_thrown_away_by_a_slip(qtbot: QtBot, dialog: KitColoursDialog) -> None:
    draw(dialog, GREEN)
    qtbot.keyClick(dialog, K.Key_Escape)
    (box,) = dialog.findChildren(QMessageBox)
    assert dialog.isVisible()
    qtbot.keyClick(box, K.Key_Escape)
    assert dialog.isVisible()
    assert dialog.facts()


def test_every_widget_has_a_name(dialog: KitColoursDialog) -> None:
    for one in dialog.findChildren(QWidget):
        if one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.isVisible() and not one.objectName().startswith("qt_"):
            assert one.accessibleName() or getattr(one, "text", str)(), one


def test_it_fits_a_small_screen(qtbot: QtBot, dialog: KitColoursDialog) -> None:
    dialog.resize(683, 344)
    qtbot.wait(20)
    assert (dialog.width(), dialog.height()) == (683, 344)
    assert dialog.take.mapTo(dialog, QPoint(0, 0)).y() + dialog.take.height() <= 344
