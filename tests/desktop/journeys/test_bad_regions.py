"""Regions and whites that cannot be measured, in the whole window: the card says why, and the tag is kept all the same."""

from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from filmreview.desktop.contrast_presenter import ContrastPresenter
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box, Region
from filmreview.measure.shape import bounds_of
from tests.desktop.journeys.steps import WAIT, begin_review, close_to, drag, press, settle, type_words
from tests.desktop.picture_hand import wheel
from tests.measure.bad_films import (
    BLACK_FROM,
    BLOWN,
    CLOTH,
    NO_PIXEL,
    ONE_PIXEL,
    SHAPES,
    WALL,
    inside,
    shaped,
    write_bad,
    write_monochrome,
)

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
LIT, BLACK = 3, BLACK_FROM + 3
NOT_TOLD = "the film does not tell the colour: "


def begin(qtbot: QtBot, window: DeskWindow, film: Path) -> None:
    begin_review(qtbot, window, film, film.with_name("game.filmreview"))
    settle(qtbot, window)


def go_to(qtbot: QtBot, window: DeskWindow, number: int) -> None:
    place = window.film_place
    place.player.jump(window.desk.film.moment_of(number))
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == number, timeout=WAIT)


def by_mouse(qtbot: QtBot, window: DeskWindow, box: Box) -> None:
    """Draw a box, a small one with the picture zoomed there."""
    canvas = window.film_place.canvas
    if max(box.width, box.height) < 8:
        wheel(canvas, canvas.view.to_canvas((box.x + 0.5, box.y + 0.5)), 12)
    drag(qtbot, window, box)


def draw(qtbot: QtBot, window: DeskWindow, region: Region) -> None:
    """A box by the mouse; another shape as its own tool hands it over."""
    if isinstance(region, Box):
        by_mouse(qtbot, window, region)
    else:
        window.card_presenter.draw(window.film_place.frame, region)
        window.film_place.card_wanted.emit()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is window.card.line.line, timeout=WAIT)
    settle(qtbot, window)


def on_card(window: DeskWindow) -> str:
    """What the card says of the colour."""
    (label,) = [one for one in window.card.findChildren(QLabel) if one.accessibleName() == "measured colour in words"]
    assert label.isVisible()
    return label.text()


def of_number(qtbot: QtBot, window: DeskWindow) -> str:
    """What is said of the region as a number."""
    contrast = ContrastPresenter(window.desk, window.card_presenter)
    contrast.begin(window.film_place.frame)
    qtbot.waitUntil(lambda: contrast.found is not None or contrast.fault != "", timeout=WAIT)
    settle(qtbot, window)
    said = contrast.value
    contrast.stop()
    return said


def keep(qtbot: QtBot, window: DeskWindow) -> None:
    type_words(qtbot, "v14 arm sleeve black")
    settle(qtbot, window)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, window)


CASES = [
    pytest.param(number, region, why, of_number, id=f"{name}-{shape}")
    for name, number, regions, why, of_number in (
        ("no pixel", LIT, {**NO_PIXEL, "box": None}, "the region holds no pixel", "0 px across"),
        ("one pixel", LIT, ONE_PIXEL, "1 px across, 6 are needed", "1 px across"),
        ("highlights", LIT, {one: shaped(one, inside(BLOWN)) for one in SHAPES}, "100% of the pixels are clipped", "100% of"),
        ("black", BLACK, {one: shaped(one, CLOTH) for one in SHAPES}, "the picture is black", "the picture is black"),
    )
    for shape, region in regions.items()
    if region is not None  # a box of no pixel does not come out of a hand: see below
]


@pytest.mark.parametrize(("number", "region", "why", "as_number"), CASES)
def test_the_card_says_why_and_the_tag_is_kept(
    qtbot: QtBot, window: DeskWindow, tmp_path: Path, number: int, region: Region, why: str, as_number: str
) -> None:
    begin(qtbot, window, write_bad(tmp_path / "bad.mp4"))
    go_to(qtbot, window, number)
    draw(qtbot, window, region)
    assert on_card(window) == NOT_TOLD + why
    assert window.card_presenter.draft.measured == ()
    said = of_number(qtbot, window)
    assert said.startswith("stands out from the jersey: cannot be told")
    assert as_number in said
    keep(qtbot, window)
    (tag,) = window.desk.review.tags
    assert close_to(bounds_of(tag.region), bounds_of(region), 1)
    assert [fact.origin.value for fact in tag.facts] == ["seen"], "what the eye saw, nothing measured"


def test_a_film_without_colour(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    begin(qtbot, window, write_monochrome(tmp_path / "grey.mp4"))
    go_to(qtbot, window, LIT)
    draw(qtbot, window, CLOTH)
    assert on_card(window) == NOT_TOLD + "the film is monochrome"
    assert "cannot be told: the film is monochrome" in of_number(qtbot, window)
    keep(qtbot, window)
    assert [fact.origin.value for fact in window.desk.review.tags[0].facts] == ["seen"]


def test_a_click_is_no_region(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    begin(qtbot, window, write_bad(tmp_path / "bad.mp4"))
    drag(qtbot, window, Box(150, 140, 0, 0))
    settle(qtbot, window)
    assert window.card_presenter.draft is None
    draw(qtbot, window, Box(150, 140, 40, 0))
    assert bounds_of(window.card_presenter.draft.region).height == 1, "a drag without a height is a row of pixels"
    assert on_card(window) == NOT_TOLD + "1 px across, 6 are needed"


@pytest.mark.parametrize(
    ("number", "box", "why"),
    [
        (LIT, inside(WALL), "no lamp makes white look like that"),
        (LIT, inside(BLOWN), "100% of its pixels are clipped"),
        (LIT, ONE_PIXEL["box"], "it is 1 px across; mark 6 px across or more"),
        (BLACK, CLOTH, "the picture is black"),
    ],
)
def test_what_is_no_white_is_said_and_not_kept(
    qtbot: QtBot, window: DeskWindow, tmp_path: Path, number: int, box: Box, why: str
) -> None:
    begin(qtbot, window, write_bad(tmp_path / "bad.mp4"))
    go_to(qtbot, window, LIT)
    draw(qtbot, window, CLOTH)
    type_words(qtbot, "v14 arm sleeve")
    settle(qtbot, window)
    before = window.card_presenter.measured
    assert before.colour is not None
    window.film_place.canvas.setFocus()
    go_to(qtbot, window, number)
    press(qtbot, Qt.Key.Key_W, CONTROL | SHIFT)
    by_mouse(qtbot, window, box)
    settle(qtbot, window)
    assert "this cannot be the reference: " in window.messages.words.text()
    assert why in window.messages.words.text()
    assert window.desk.review.references == ()
    assert window.film_place.canvas.reference is None, "it is not drawn as if it counted"
    draft = window.card_presenter.draft
    assert (draft.line, window.card_presenter.measured) == ("v14 arm sleeve", before), "nothing on the card is lost"
