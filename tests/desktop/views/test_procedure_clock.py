"""The procedure clock as a person uses it."""

from fractions import Fraction

import pytest
from PyQt6.QtCore import Qt
from pytestqt.qtbot import QtBot

from filmreview.cautions import SAFETY
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.procedure_clock import ProcedureClock
from filmreview.desktop.procedure_clock_model import BOOK, COLUMNS, MORE, SINCE, WHAT, WHO
from filmreview.desktop.procedure_clock_presenter import ProcedureClockPresenter
from filmreview.desktop.procedure_clock_words import KEY_OF
from filmreview.film.film import Film


@pytest.fixture
def clock(qtbot: QtBot, desk: Desk, film: Film) -> ProcedureClock:
    presenter = ProcedureClockPresenter(desk)
    for line, seconds in (("blood seen v14", "0.5"), ("play stopped", "0.7"), ("play resumes", "2.0")):
        presenter.begin(("f1", film.moment_at(Fraction(seconds))))
        assert presenter.keep(line), desk.last_message
    made = ProcedureClock(presenter)
    qtbot.addWidget(made)
    made.resize(940, 260)
    made.show()
    qtbot.waitExposed(made)
    return made


def shown(clock: ProcedureClock, column: int) -> list[str]:
    model = clock.model
    return [model.data(model.index(row, column)) for row in range(model.rowCount())]


def test_events_stand_in_order_with_the_seconds_between(clock: ProcedureClock) -> None:
    assert shown(clock, WHAT) == ["blood seen", "play stopped", "play resumes"]
    assert shown(clock, WHO) == ["Ovvermire 14", "", ""]
    assert shown(clock, SINCE) == ["", "0.200 s", "1.301 s"]
    assert shown(clock, BOOK) == ["", "", "departure"]


def test_the_book_s_side_is_told_and_enter_goes_to_a_departure(qtbot: QtBot, clock: ProcedureClock, desk: Desk) -> None:
    assert clock.book.item(0).text() == "Blood on a player or the uniform: 1 departure"
    assert "stayed in the game with blood" in clock.book.item(1).text()
    assert clock.caution.words.text() == SAFETY
    went: list[tuple[object, ...]] = []
    clock.jump_wanted.connect(lambda *place: went.append(place))
    clock.book.setCurrentRow(0)
    qtbot.keyClick(clock.book, Qt.Key.Key_Return)
    assert went == []
    clock.book.setCurrentRow(1)
    qtbot.keyClick(clock.book, Qt.Key.Key_Return)
    assert went == [("f1", desk.review.event("e3").moment)]


def test_enter_goes_to_the_event(qtbot: QtBot, clock: ProcedureClock, desk: Desk) -> None:
    clock.table.selectRow(1)
    with qtbot.waitSignal(clock.jump_wanted) as told:
        qtbot.keyClick(clock.table, Qt.Key.Key_Return)
    assert told.args == ["f1", desk.review.event("e2").moment]


def test_f2_puts_the_event_on_the_line_and_enter_keeps_it(qtbot: QtBot, clock: ProcedureClock, desk: Desk) -> None:
    clock.table.selectRow(0)
    qtbot.keyClick(clock.table, Qt.Key.Key_F2)
    line = clock.line.line
    assert clock.focusWidget() is line
    assert line.text() == "blood seen v14 "
    line.selectAll()
    qtbot.keyClicks(line, "inj")
    assert clock.line._read_as.text() == "Tab writes: injury"
    qtbot.keyClick(line, Qt.Key.Key_Tab)
    assert line.text() == "injury "
    qtbot.keyClicks(line, "v22")
    with qtbot.waitSignal(clock.left):
        qtbot.keyClick(line, Qt.Key.Key_Return)
    assert (desk.review.event("e1").what, desk.review.event("e1").player) == ("injury", "22")
    assert line.text() == ""


def test_escape_drops_the_line(qtbot: QtBot, clock: ProcedureClock, desk: Desk) -> None:
    clock.table.selectRow(0)
    qtbot.keyClick(clock.table, Qt.Key.Key_F2)
    qtbot.keyClicks(clock.line.line, "v22")
    with qtbot.waitSignal(clock.left):
        qtbot.keyClick(clock.line.line, Qt.Key.Key_Escape)
    assert desk.review.event("e1").player == "14"
    assert clock.line.line.text() == ""


def test_what_is_typed_on_an_idle_line_asks_for_the_moment_once(qtbot: QtBot, clock: ProcedureClock, film: Film) -> None:
    asked: list[None] = []

    def begin() -> None:
        asked.append(None)
        clock._presenter.begin(("f1", film.moment_at(Fraction(1))))

    clock.moment_wanted.connect(begin)
    qtbot.keyClicks(clock.line.line, "coach told h")
    assert len(asked) == 1
    assert clock.line.line.text() == "coach told h"
    assert "coach told, home" in clock.line._read_as.text()
    qtbot.keyClick(clock.line.line, Qt.Key.Key_Return)
    assert shown(clock, WHAT) == ["blood seen", "play stopped", "coach told", "play resumes"]
    assert clock.chosen() == ("e4",)  # the one noted is chosen


def test_delete_removes_those_chosen(qtbot: QtBot, clock: ProcedureClock, desk: Desk) -> None:
    clock.table.selectAll()
    assert clock._between.text() == "blood seen to play resumes: 1.502 s"
    qtbot.keyClick(clock.table, Qt.Key.Key_Delete)
    assert desk.review.events == ()
    assert "F4" in clock.book.item(0).text()


def test_the_list_of_keys_notes_by_enter_too(qtbot: QtBot, clock: ProcedureClock) -> None:
    assert clock.words.count() == len(KEY_OF)
    clock.words.setCurrentRow(3)
    with qtbot.waitSignal(clock.note_wanted) as told:
        qtbot.keyClick(clock.words, Qt.Key.Key_Return)
    assert told.args == ["play stopped"]
    assert clock.words.item(3).text() == "S  play stopped"


def test_one_event_can_take_the_moment_on_the_picture(qtbot: QtBot, clock: ProcedureClock) -> None:
    clock.table.clearSelection()
    assert not clock.here.isEnabled()
    clock.table.selectRow(2)
    with qtbot.waitSignal(clock.here_wanted) as told:
        qtbot.mouseClick(clock.here, Qt.MouseButton.LeftButton)
    assert told.args == ["e3"]


def test_every_cell_says_its_column_to_a_screen_reader(clock: ProcedureClock) -> None:
    for column, words in enumerate(COLUMNS):
        assert clock.model.data(clock.model.index(2, column), Qt.ItemDataRole.AccessibleTextRole).startswith(words)
    told = clock.model.data(clock.model.index(2, BOOK), Qt.ItemDataRole.AccessibleTextRole)
    assert "stayed in the game with blood" in told


def test_every_column_has_a_place_in_a_window_of_1366_pixels(clock: ProcedureClock, film: Film) -> None:
    presenter = clock._presenter
    presenter.begin(("f1", film.moment_at(Fraction("2.5"))))
    assert presenter.keep('coach told home "the head coach and both captains, at the table, with the scorer listening"')
    clock.refresh()
    bar = clock.table.horizontalScrollBar()
    widths = [clock.table.columnWidth(column) for column in range(len(COLUMNS))]
    assert bar.maximum() == 0, widths
    assert widths[MORE] >= clock.table.horizontalHeader().sectionSizeHint(MORE)


def test_the_keys_are_read_whole(clock: ProcedureClock) -> None:
    words, pane = clock.words, clock.words.viewport().width()
    assert max(words.fontMetrics().horizontalAdvance(words.item(row).text()) for row in range(words.count())) < pane


def test_what_the_book_says_has_all_the_room_it_was_broken_for(clock: ProcedureClock) -> None:
    """A line broken for more room than it is painted in ends in dots."""
    room = clock.book.viewport().width()
    assert all(clock.book.visualItemRect(clock.book.item(row)).right() < room for row in range(clock.book.count()))
