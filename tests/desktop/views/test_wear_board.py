"""The wear board as a person uses it."""

from dataclasses import replace

import pytest
from PyQt6.QtCore import QModelIndex, QPoint, Qt
from PyQt6.QtGui import QImage, QPalette
from pytestqt.qtbot import QtBot

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.wear_board import NO_CHOICE, WearBoardPlace
from filmreview.desktop.wear_board_presenter import WearBoardPresenter
from filmreview.film.film import Film
from filmreview.review.changes import EditGame
from filmreview.review.own_calls import HIDDEN
from tests.desktop.pixels import array_of

LINES = ((10, "v14 headband black"), (20, "v22 headband black"), (30, "v0 wristband white"), (40, "v14 headband black"))


@pytest.fixture
def board(qtbot: QtBot, desk: Desk, film: Film) -> WearBoardPlace:
    card = CardPresenter(desk)
    for number, line in LINES:
        card.open_new(film.frame(number))
        card.type(line)
        card.keep()
    made = WearBoardPlace(WearBoardPresenter(desk))
    qtbot.addWidget(made)
    made.resize(940, 260)
    made.show()
    qtbot.waitExposed(made)
    return made


def cell(board: WearBoardPlace, player: str, item: str) -> QModelIndex:
    row, column = board.model.row_of("visitor", player), board.model.column_of(item)
    assert row is not None
    assert column is not None
    return board.model.index(row, column)


def painted(board: WearBoardPlace, index: QModelIndex) -> QImage:
    board.table.clearSelection()
    board.table.scrollTo(index)
    return board.table.viewport().grab(board.table.visualRect(index)).toImage()


def middle(board: WearBoardPlace, index: QModelIndex) -> QPoint:
    board.table.scrollTo(index)
    return board.table.visualRect(index).center()


def test_a_click_goes_to_the_moment_and_the_next_one_to_the_next_tag(qtbot: QtBot, board: WearBoardPlace) -> None:
    went: list[str] = []
    board.jump_wanted.connect(went.append)
    for index in (cell(board, "22", "headband"), cell(board, "14", "headband"), cell(board, "14", "headband")):
        qtbot.mouseClick(board.table.viewport(), Qt.MouseButton.LeftButton, pos=middle(board, index))
    assert went[0] == "t2"
    assert set(went[1:]) == {"t1", "t4"}


def test_arrows_walk_and_enter_goes_there(qtbot: QtBot, board: WearBoardPlace) -> None:
    went: list[str] = []
    board.jump_wanted.connect(went.append)
    board.choose("visitor", "0", "headband")
    qtbot.keyClick(board.table, Qt.Key.Key_Return)
    assert went == []  # nothing was tagged there
    qtbot.keyClick(board.table, Qt.Key.Key_Right)
    qtbot.keyClick(board.table, Qt.Key.Key_Return)
    assert went == ["t3"]
    assert "wristband: white, illegal, fix or leave; odd one out" in board._told.toolTip()


def test_f2_opens_the_tag_on_the_card(qtbot: QtBot, board: WearBoardPlace) -> None:
    board.choose("visitor", "22", "headband")
    with qtbot.waitSignal(board.change_wanted) as told:
        qtbot.keyClick(board.table, Qt.Key.Key_F2)
    assert told.args == ["t2"]


def test_a_cell_is_painted_with_patch_shape_and_frame(board: WearBoardPlace) -> None:
    odd, plain = cell(board, "0", "wristband"), cell(board, "22", "headband")
    pixels = array_of(painted(board, odd))
    side = board.fontMetrics().height()
    centre = pixels[pixels.shape[0] // 2, 6 + side // 2]
    assert (centre > 230).all()  # white, seen on the player
    assert (array_of(painted(board, plain))[pixels.shape[0] // 2, 6 + side // 2] < 60).all()  # black
    shape = pixels[4:-4, 8 + side : 11 + 2 * side].astype(int)
    assert (shape[:, :, 0] - shape[:, :, 2] > 60).any()  # the vermilion of the diamond's edge
    rows, columns = (shape.min(axis=2) < 200).nonzero()
    assert abs(columns[rows == rows.min()].mean() - columns.mean()) < 2  # its tip stands over its middle
    assert columns[rows == rows.min()].max() - columns[rows == rows.min()].min() < side // 3
    ink = board.palette().color(QPalette.ColorRole.Text)
    frame = pixels[2, 10:-10].astype(int)
    assert (abs(frame - [ink.red(), ink.green(), ink.blue()]).max(axis=1) < 40).mean() > 0.9
    assert (array_of(painted(board, plain))[2, 10:-10] > 200).mean() > 0.9  # no frame


def test_every_cell_tells_a_screen_reader_all(board: WearBoardPlace) -> None:
    told = board.model.data(cell(board, "0", "wristband"), Qt.ItemDataRole.AccessibleTextRole)
    assert told.startswith("Ovvermire 0, wristband: white, illegal, fix or leave; odd one out")
    assert board.model.headerData(0, Qt.Orientation.Horizontal) == "headband"
    assert board.model.headerData(0, Qt.Orientation.Vertical) == "Thrunnockby"


def test_under_it_stand_the_choices(board: WearBoardPlace) -> None:
    assert "keep black, 0 changes; or keep white, 14 and 22 change" in board._choices.words.text()
    board.side.setCurrentIndex(1)
    board.side.activated.emit(1)
    assert board._choices.words.text() != NO_CHOICE  # no tag of that team: nothing is said of choices
    assert board.model.columnCount() == 0


def test_the_cell_chosen_stays_chosen_when_the_board_is_made_anew(board: WearBoardPlace, desk: Desk, film: Film) -> None:
    board.choose("visitor", "22", "headband")
    card = CardPresenter(desk)
    card.open_new(film.frame(60))
    card.type("h3 arm sleeve white")
    card.keep()
    line, item = board.model.place(board.table.currentIndex())
    assert (line.player, item) == ("22", "headband")


@pytest.mark.parametrize("everybody", [True, False])
def test_players_without_a_tag(qtbot: QtBot, board: WearBoardPlace, everybody: bool) -> None:
    if everybody:
        qtbot.mouseClick(board.everybody, Qt.MouseButton.LeftButton, pos=QPoint(8, board.everybody.height() // 2))
    assert (board.model.row_of("home", "3") is not None) is everybody


def test_rulings_that_are_hidden_are_not_said_to_be_untagged(board: WearBoardPlace, desk: Desk) -> None:
    assert desk.try_change(EditGame(replace(desk.review.game, rulings_hidden=True)))
    assert board.model.columnCount() == 0
    assert board._choices.words.text() == f"4 tags and the choices: {HIDDEN}"
