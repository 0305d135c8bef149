"""Regions and whites that cannot be measured, in the whole window: the card says why, and the tag is kept all the same."""

from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from filmreview.colour.palette import colour_named
from filmreview.desktop.contrast_presenter import ContrastPresenter
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box, Region
from filmreview.measure.shape import bounds_of
from filmreview.review.changes import SetReference
from tests.desktop.journeys.steps import WAIT, begin_review, close_to, drag, press, settle, type_words
from tests.desktop.picture_hand import wheel
from tests.measure.bad_films import CLOTH, LIT, NO_WHITE, UNTOLD, NoWhite, write_bad, write_monochrome

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
NOT_TOLD = "the colour cannot be told: "


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
    pytest.param(untold.number, region, untold.why, untold.as_number, id=f"{name}-{shape}")
    for name, untold in UNTOLD.items()
    for shape, region in untold.regions.items()
    if (name, shape) != ("no pixel", "box")  # which does not come out of a hand: see below
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
    assert f"view too poor ({why}" in window.film_place.canvas._info
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
    assert "view good" in window.film_place.canvas._info
    assert "cannot be told: the film is monochrome" in of_number(qtbot, window)
    keep(qtbot, window)
    assert [fact.origin.value for fact in window.desk.review.tags[0].facts] == ["seen"]


def test_a_lone_white_that_cannot_serve_is_named_on_the_card(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    begin(qtbot, window, write_bad(tmp_path / "bad.mp4"))
    moment = window.desk.film.moment_of(LIT)
    stripes = SetReference(window.desk.film_id, moment, NO_WHITE["stripes"].box, colour_named("white"))
    assert window.desk.try_change(stripes), "as a review from elsewhere may hold it"
    go_to(qtbot, window, LIT + 2)
    draw(qtbot, window, CLOTH)
    white = f"the white at 0:00.120 cannot serve: {NO_WHITE['stripes'].why}; {NO_WHITE['stripes'].todo}"
    assert on_card(window) == NOT_TOLD + white
    assert "view good" in window.film_place.canvas._info
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


@pytest.mark.parametrize("no_white", NO_WHITE.values(), ids=NO_WHITE)
def test_what_is_no_white_is_said_and_not_kept(qtbot: QtBot, window: DeskWindow, tmp_path: Path, no_white: NoWhite) -> None:
    begin(qtbot, window, write_bad(tmp_path / "bad.mp4"))
    go_to(qtbot, window, LIT)
    draw(qtbot, window, CLOTH)
    type_words(qtbot, "v14 arm sleeve")
    settle(qtbot, window)
    before = window.card_presenter.measured
    assert before.colour is not None
    window.film_place.canvas.setFocus()
    go_to(qtbot, window, no_white.number)
    press(qtbot, Qt.Key.Key_W, CONTROL | SHIFT)
    by_mouse(qtbot, window, no_white.box)
    settle(qtbot, window)
    assert f"this cannot be the white: {no_white.why}" in window.messages.words.text()
    assert window.messages.words.text().endswith(no_white.todo)
    assert window.desk.review.references == ()
    assert window.film_place.canvas.reference is None, "it is not drawn as if it counted"
    draft = window.card_presenter.draft
    assert (draft.line, window.card_presenter.measured) == ("v14 arm sleeve", before), "nothing on the card is lost"
