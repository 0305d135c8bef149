"""The list of stoppages, and their shades on the film strip, as a person uses them."""

from fractions import Fraction

import pytest
from PyQt6.QtCore import QModelIndex, Qt
from PyQt6.QtWidgets import QComboBox, QLineEdit
from pytestqt.qtbot import QtBot

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.stoppage_model import COLUMNS, ENDS, KIND, NOTE, SET, STARTS
from filmreview.desktop.stoppage_place import StoppagePlace
from filmreview.desktop.stoppage_presenter import StoppagePresenter
from filmreview.desktop.strip import FilmStrip, Stretch
from filmreview.film.film import Film
from filmreview.review.stretch_changes import AddStoppage
from tests.desktop.pixels import array_of
from tests.desktop.walk import cut_off


@pytest.fixture
def place(qtbot: QtBot, desk: Desk, film: Film) -> StoppagePlace:
    for start, end, origin in (("1.5", "2.0", "by hand"), ("0.5", "1.0", "proposed")):
        moments = (film.moment_at(Fraction(start)), film.moment_at(Fraction(end)))
        desk.store.apply(AddStoppage("f1", *moments, "", "", origin))
    made = StoppagePlace(StoppagePresenter(desk))
    qtbot.addWidget(made)
    made.resize(940, 220)
    made.show()
    qtbot.waitExposed(made)
    return made


def cell(place: StoppagePlace, row: int, column: int) -> QModelIndex:
    return place.model.index(row, column)


def test_they_stand_in_the_order_of_time(place: StoppagePlace) -> None:
    assert [cell(place, row, SET).data() for row in range(2)] == ["proposed", "by hand"]
    assert [cell(place, row, KIND).data() for row in range(2)] == ["kind not told"] * 2
    assert COLUMNS[SET] == "Put down"
    for column, words in enumerate(COLUMNS):
        assert cell(place, 0, column).data(Qt.ItemDataRole.AccessibleTextRole).startswith(words)


def test_the_buttons_have_room_for_a_second_row(qtbot: QtBot, place: StoppagePlace) -> None:
    place.resize(330, 60)
    qtbot.waitUntil(lambda: place.remove.y() > place.mark.y())
    assert place.remove.geometry().bottom() <= place.rect().bottom()
    assert cut_off(place) == []


def test_the_kind_is_chosen_in_words_for_all_rows_chosen(qtbot: QtBot, place: StoppagePlace, desk: Desk) -> None:
    steps = len(desk.store.history())
    place.table.selectAll()
    selection = place.table.selectionModel()
    selection.setCurrentIndex(cell(place, 0, KIND), selection.SelectionFlag.NoUpdate)
    qtbot.keyClick(place.table, Qt.Key.Key_F2)
    editor = place.table.findChild(QComboBox)
    qtbot.keyClicks(editor, "time")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: [one.kind for one in desk.review.stoppages] == ["time-out", "time-out"])
    assert len(desk.store.history()) == steps + 1


def test_the_note_is_edited_in_place(qtbot: QtBot, place: StoppagePlace, desk: Desk) -> None:
    place.table.setCurrentIndex(cell(place, 1, NOTE))
    qtbot.keyClick(place.table, Qt.Key.Key_F2)
    editor = place.table.findChild(QLineEdit)
    qtbot.keyClicks(editor, "home asked")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.review.stoppage("s1").note == "home asked")


def test_enter_goes_to_its_start_and_on_the_end_to_its_end(qtbot: QtBot, place: StoppagePlace, desk: Desk) -> None:
    went: list[tuple[object, ...]] = []
    place.jump_wanted.connect(lambda *where: went.append(where))
    for column in (STARTS, ENDS):
        place.table.setCurrentIndex(cell(place, 1, column))
        qtbot.keyClick(place.table, Qt.Key.Key_Return)
    one = desk.review.stoppage("s1")
    assert went == [("f1", one.start), ("f1", one.end)]


def test_buttons_do_what_fits_the_rows_chosen(qtbot: QtBot, place: StoppagePlace, desk: Desk) -> None:
    place.table.clearSelection()
    assert not any(button.isEnabled() for button in (place.starts, place.ends, place.keep, place.remove))
    place.table.selectRow(1)
    assert not place.keep.isEnabled()  # set by hand
    with qtbot.waitSignal(place.edge_wanted) as told:
        qtbot.mouseClick(place.ends, Qt.MouseButton.LeftButton)
    assert told.args == ["s1", True]
    place.table.selectRow(0)
    qtbot.mouseClick(place.keep, Qt.MouseButton.LeftButton)
    assert desk.review.stoppage("s2").origin == "by hand"
    assert not place.keep.isEnabled()
    qtbot.mouseClick(place.remove, Qt.MouseButton.LeftButton)
    assert [one.id for one in desk.review.stoppages] == ["s1"]
    qtbot.keyClick(place.table, Qt.Key.Key_Delete)
    assert desk.review.stoppages == ()


def test_the_button_says_whether_one_is_begun(place: StoppagePlace, film: Film) -> None:
    assert place.mark.text() == "&Begin one here (F5)"
    place._presenter.mark(("f1", film.moment_at(Fraction(1))))
    assert place.mark.text() == "En&d it here (F5)"


def test_an_open_stoppage_is_shaded_otherwise_than_a_settled_one(qtbot: QtBot, film: Film) -> None:
    """By its pattern: the two differ in grey alone too."""
    strip = FilmStrip()
    qtbot.addWidget(strip)
    strip.resize(616, strip.sizeHint().height())
    strip.set_film(film)
    strip.set_now(Fraction(0))
    shades = []
    for is_open in (False, True):
        strip.set_stoppages([Stretch(Fraction(1), Fraction(2), "x", is_open)])
        line = strip.whole_line()
        left, right = round(line.scale.x_of(Fraction(1))), round(line.scale.x_of(Fraction(2)))
        top, bottom = round(line.rect.top()) + 2, round(line.rect.bottom()) - 8
        shades.append(array_of(strip.grab().toImage())[top:bottom, left + 2 : right - 2].mean(axis=2))
    assert abs(shades[0] - shades[1]).mean() > 5
    strip.close_film()
