"""The ledger as a person uses it."""

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QComboBox, QLineEdit
from pytestqt.qtbot import QtBot

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.ledger import Ledger
from filmreview.desktop.ledger_model import COLUMNS, CREW, NOTE, OFFICIAL, RULING, WHO
from filmreview.desktop.ledger_presenter import LedgerPresenter
from filmreview.film.film import Film
from filmreview.review.changes import AddTag, RemoveTag, Together


@pytest.fixture
def ledger(qtbot: QtBot, desk: Desk, film: Film) -> Ledger:
    card = CardPresenter(desk)
    for number, line in ((40, "v14 arm sleeve orange"), (10, "h3 headband black"), (20, "v? tights")):
        card.open_new(film.frame(number))
        card.type(line)
        card.keep()
    made = Ledger(LedgerPresenter(desk))
    desk.events.on("findings", made.refresh)
    qtbot.addWidget(made)
    made.resize(940, 260)
    made.show()
    qtbot.waitExposed(made)
    return made


def shown(ledger: Ledger, column: int) -> list[str]:
    rows = range(ledger.filter.rowCount())
    return [ledger.filter.index(row, column).data(Qt.ItemDataRole.DisplayRole) for row in rows]


def test_it_shows_every_finding_with_its_ruling(ledger: Ledger) -> None:
    assert shown(ledger, RULING) == ["legal", "cannot be told", "illegal"]
    assert shown(ledger, WHO) == ["Thrunnockby 3", "Ovvermire, number not read", "Ovvermire 14"]


def test_typing_filters(qtbot: QtBot, ledger: Ledger) -> None:
    qtbot.keyClicks(ledger.look_for, "ovver illegal")
    assert shown(ledger, WHO) == ["Ovvermire 14"]
    ledger.look_for.clear()
    assert ledger.filter.rowCount() == 3


def test_sorting_by_ruling_puts_illegal_first(ledger: Ledger) -> None:
    ledger.table.sortByColumn(RULING, Qt.SortOrder.AscendingOrder)
    assert shown(ledger, RULING) == ["illegal", "cannot be told", "legal"]


def test_enter_goes_to_the_moment(qtbot: QtBot, ledger: Ledger) -> None:
    ledger.choose("t3")
    with qtbot.waitSignal(ledger.jump_wanted) as told:
        qtbot.keyClick(ledger.table, Qt.Key.Key_Return)
    assert told.args == ["t3"]


def test_double_click_opens_the_tag(qtbot: QtBot, ledger: Ledger) -> None:
    ledger.choose("t1")
    place = ledger.table.visualRect(ledger.table.currentIndex()).center()
    view = ledger.table.viewport()
    with qtbot.waitSignal(ledger.change_wanted) as told:
        qtbot.mouseClick(view, Qt.MouseButton.LeftButton, pos=place)
        qtbot.mouseDClick(view, Qt.MouseButton.LeftButton, pos=place)
    assert told.args == ["t1"]


def test_the_note_is_edited_in_place(qtbot: QtBot, ledger: Ledger, desk: Desk) -> None:
    index = ledger.filter.index(0, NOTE)
    ledger.table.setCurrentIndex(index)
    qtbot.keyClick(ledger.table, Qt.Key.Key_F2)
    editor = ledger.table.findChild(QLineEdit)
    qtbot.keyClicks(editor, "near the bench")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.review.tag("t2").note == "near the bench")


def test_the_crew_mark_is_chosen_in_place(qtbot: QtBot, ledger: Ledger, desk: Desk) -> None:
    ledger.table.setCurrentIndex(ledger.filter.index(0, CREW))
    qtbot.keyClick(ledger.table, Qt.Key.Key_F2)
    editor = ledger.table.findChild(QComboBox)
    qtbot.keyClicks(editor, "not s")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.review.tag("t2").crew is not None)
    assert desk.review.tag("t2").crew.mark == "not seen"
    assert shown(ledger, CREW)[0] == "not seen"


def test_delete_removes_the_rows_chosen(qtbot: QtBot, ledger: Ledger, desk: Desk) -> None:
    ledger.table.selectAll()
    assert len(ledger.chosen()) == 3
    qtbot.keyClick(ledger.table, Qt.Key.Key_Delete)
    assert desk.review.tags == ()
    desk.store.undo()
    assert ledger.filter.rowCount() == 3


def test_every_cell_says_its_column_to_a_screen_reader(ledger: Ledger) -> None:
    for column, words in enumerate(COLUMNS):
        assert ledger.filter.index(0, column).data(Qt.ItemDataRole.AccessibleTextRole).startswith(words)


def test_of_several_rows_chosen_all_get_the_mark(qtbot: QtBot, ledger: Ledger, desk: Desk) -> None:
    ledger.table.selectAll()
    selection = ledger.table.selectionModel()
    selection.setCurrentIndex(ledger.filter.index(0, CREW), selection.SelectionFlag.NoUpdate)
    qtbot.keyClick(ledger.table, Qt.Key.Key_F2)
    editor = ledger.table.findChild(QComboBox)
    qtbot.keyClicks(editor, "late")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: all(tag.crew for tag in desk.review.tags))
    assert [tag.crew.mark for tag in desk.review.tags] == ["late", "late", "late"]


def test_f2_on_any_cell_edits_the_crew_mark_of_all_rows_chosen(qtbot: QtBot, ledger: Ledger, desk: Desk) -> None:
    ledger.choose("t1")  # stands on its time, which cannot be edited
    ledger.table.selectAll()
    qtbot.keyClick(ledger.table, Qt.Key.Key_F2)
    editor = ledger.table.findChild(QComboBox)
    assert len(ledger.chosen()) == 3
    qtbot.keyClicks(editor, "late")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: all(tag.crew for tag in desk.review.tags))


def test_a_mark_is_chosen_from_the_list(qtbot: QtBot, ledger: Ledger, desk: Desk) -> None:
    ledger.table.setCurrentIndex(ledger.filter.index(0, CREW))
    qtbot.keyClick(ledger.table, Qt.Key.Key_F2)
    editor = ledger.table.findChild(QComboBox)
    editor.showPopup()
    view = editor.view()
    qtbot.waitUntil(view.isVisible)
    view.setCurrentIndex(editor.model().index(editor.findText("late"), 0))
    qtbot.keyClick(view, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.review.tag("t2").crew is not None)
    assert desk.review.tag("t2").crew.mark == "late"


def test_of_several_rows_chosen_all_become_the_official_s(qtbot: QtBot, ledger: Ledger, desk: Desk) -> None:
    steps = len(desk.store.history())
    ledger.table.selectAll()
    selection = ledger.table.selectionModel()
    selection.setCurrentIndex(ledger.filter.index(1, OFFICIAL), selection.SelectionFlag.NoUpdate)
    qtbot.keyClick(ledger.table, Qt.Key.Key_F2)
    editor = ledger.table.findChild(QComboBox)
    qtbot.keyClicks(editor, "ref")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(desk.review.officials) == 3)
    assert {one.position for one in desk.review.officials} == {"referee"}
    assert shown(ledger, OFFICIAL) == ["referee"] * 3
    assert len(desk.store.history()) == steps + 1
    assert len(ledger.chosen()) == 3
    desk.store.undo()
    assert desk.review.officials == ()
    assert shown(ledger, OFFICIAL) == ["whole crew"] * 3


def test_after_a_row_has_gone_the_one_in_its_place_is_chosen(qtbot: QtBot, ledger: Ledger) -> None:
    ledger.choose("t3")  # in the middle
    qtbot.keyClick(ledger.table, Qt.Key.Key_Delete)
    assert ledger.chosen() == ("t1",)
    qtbot.keyClick(ledger.table, Qt.Key.Key_Delete)
    assert ledger.chosen() == ("t2",)
    qtbot.keyClick(ledger.table, Qt.Key.Key_Delete)
    assert ledger.chosen() == ()


def test_enter_in_the_line_goes_on_to_the_rows_left(qtbot: QtBot, ledger: Ledger) -> None:
    qtbot.keyClicks(ledger.look_for, "14")
    qtbot.keyClick(ledger.look_for, Qt.Key.Key_Return)
    assert ledger.chosen() == ("t1",)
    assert ledger.focusWidget() is ledger.table


def test_what_is_chosen_stays_chosen_when_rows_come_and_go(ledger: Ledger, desk: Desk, film: Film) -> None:
    resets: list[None] = []
    ledger.model.modelReset.connect(lambda: resets.append(None))
    ledger.choose("t3")
    desk.try_change(AddTag("f1", film.moment_of(5), "home", "10", "tights"))
    assert shown(ledger, WHO)[0] == "Thrunnockby 10"
    assert ledger.chosen() == ("t3",)
    desk.try_change(RemoveTag("t1"))
    assert shown(ledger, WHO) == ["Thrunnockby 10", "Thrunnockby 3", "Ovvermire, number not read"]
    desk.try_change(Together((RemoveTag("t2"), RemoveTag("t4"))))
    assert shown(ledger, WHO) == ["Ovvermire, number not read"]
    assert ledger.chosen() == ("t3",)
    desk.store.undo()
    desk.store.undo()
    assert shown(ledger, WHO) == ["Thrunnockby 10", "Thrunnockby 3", "Ovvermire, number not read", "Ovvermire 14"]
    assert [ledger.model.row(ledger.model.row_of(tag)).tag for tag in ("t1", "t2", "t3", "t4")] == ["t1", "t2", "t3", "t4"]
    assert resets == []
