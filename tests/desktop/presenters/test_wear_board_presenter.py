"""The wear board without a screen."""

from dataclasses import replace

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.wear_board_presenter import BOTH, WearBoardPresenter, WearLine
from filmreview.film.film import Film
from filmreview.review.changes import EditGame
from filmreview.review.own_calls import HIDDEN

LINES = (
    (10, "v14 headband black"),
    (20, "v22 headband black"),
    (30, "v0 wristband white"),
    (40, "h3 tights"),
    (50, "v14 headband black above elbow"),
)


@pytest.fixture
def board(desk: Desk, film: Film) -> WearBoardPresenter:
    card = CardPresenter(desk)
    for number, line in LINES:
        card.open_new(film.frame(number))
        card.type(line)
        assert card.keep(), desk.last_message
    made = WearBoardPresenter(desk)
    made.look(True)
    return made


def line(board: WearBoardPresenter, head: str) -> WearLine:
    return next(one for one in board.lines() if one.head == head)


def test_each_team_has_its_line_and_those_of_its_tagged_players(board: WearBoardPresenter) -> None:
    assert [one.head for one in board.lines()] == ["Thrunnockby", "3", "Ovvermire", "0", "14", "22"]
    assert board.items() == ("tights", "headband", "wristband")
    board.show_everybody(True)
    assert [one.head for one in board.lines()][:4] == ["Thrunnockby", "3", "10", "14"]
    assert board.told(line(board, "10"), "tights") == "Thrunnockby 10, tights: nothing tagged"


def test_one_team_or_both(board: WearBoardPresenter) -> None:
    assert board.sides() == ((BOTH, ""), ("Thrunnockby", "home"), ("Ovvermire", "visitor"))
    board.show_side("home")
    assert board.items() == ("tights",)
    assert board.choices() == ()
    board.show_side("visitor")
    assert [one.head for one in board.lines()] == ["Ovvermire", "0", "14", "22"]


def test_a_cell_says_colour_ruling_and_who_is_odd(board: WearBoardPresenter) -> None:
    odd = line(board, "0")
    assert [colour.name for colour in board.patch(odd, "wristband")] == ["white"]
    assert board.words(odd, "wristband") == "illegal, odd"
    told = board.told(odd, "wristband")
    assert told.startswith(
        "Ovvermire 0, wristband: white, illegal, fix or leave; odd one out: would change where black is kept; at"
    )
    assert board.words(line(board, "3"), "tights") == "cannot be told"
    assert board.patch(line(board, "3"), "tights") == ()


def test_the_choices_stand_by_team(board: WearBoardPresenter) -> None:
    (words,) = board.choices()
    assert words.startswith("Ovvermire must choose: ")
    assert words.endswith("keep black, 0 changes; or keep white, 14 and 22 change")


def test_enter_goes_round_the_tags_of_a_cell(board: WearBoardPresenter) -> None:
    mate = line(board, "14")
    assert board.words(mate, "headband") == "illegal, 2 tags"
    first = board.next_tag(mate, "headband")
    second = board.next_tag(mate, "headband", after=first)
    assert {first, second} == {"t1", "t5"}
    assert board.next_tag(mate, "headband", after=second) == first
    assert board.next_tag(mate, "tights") is None


def test_the_team_s_kit_stands_on_its_line(board: WearBoardPresenter, desk: Desk, film: Film) -> None:
    card = CardPresenter(desk)
    card.open_new(film.frame(60))
    card.type("h3 jersey white")
    card.keep()
    team = line(board, "Thrunnockby")
    assert [colour.name for colour in board.patch(team, "jersey")] == ["white"]
    assert board.words(team, "jersey") == "set up"


def test_nobody_looks_nothing_is_worked_out(desk: Desk, film: Film) -> None:
    made = WearBoardPresenter(desk)
    card = CardPresenter(desk)
    card.open_new(film.frame(10))
    card.type("h3 tights black")
    card.keep()
    assert made.boards == ()
    made.look(True)
    assert len(made.boards) == 2
    made.look(False)
    card.open_new(film.frame(20))
    card.type("h10 tights black")
    card.keep()
    assert made.boards[0].worn_by("10") == ()
    made.look(True)
    assert len(made.boards[0].worn_by("10")) == 1


def test_rulings_that_are_hidden_are_not_on_the_board(board: WearBoardPresenter, desk: Desk) -> None:
    desk.store.apply(EditGame(replace(desk.review.game, rulings_hidden=True)))
    assert [one.head for one in board.lines()] == ["Thrunnockby", "Ovvermire"]
    assert board.choices() == (f"5 tags and the choices: {HIDDEN}",)


def test_a_review_that_is_closed_leaves_an_empty_board(board: WearBoardPresenter, desk: Desk) -> None:
    desk.take_store(None)
    assert (board.lines(), board.items(), board.choices()) == ((), (), ())
