"""The card shows what was measured by hand, and takes it back."""

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QLabel, QToolButton
from pytestqt.qtbot import QtBot

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.length_card import MeasuredByHand
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.film.film import Film

WIDTH = Fact("width_in", Amount(2.3, 0.2), Origin.MEASURED, "2.30±0.20 in, against boys' ball")
HEIGHT = Fact("height_in", Amount(1.0, 0.1), Origin.MEASURED, "1.00±0.10 in, against boys' ball")


@pytest.fixture
def card(desk: Desk) -> CardPresenter:
    return CardPresenter(desk)


@pytest.fixture
def shown(qtbot: QtBot, card: CardPresenter, desk: Desk) -> MeasuredByHand:
    made = MeasuredByHand(card, desk)
    qtbot.addWidget(made)
    return made


def lines(shown: MeasuredByHand) -> list[str]:
    return [label.text() for label in shown.findChildren(QLabel) if label.isVisibleTo(shown)]


def test_each_fact_with_its_plus_minus(shown: MeasuredByHand, card: CardPresenter, film: Film) -> None:
    assert shown.isHidden()
    card.put(film.frame(3), WIDTH)
    card.put(film.frame(3), HEIGHT)
    assert not shown.isHidden()
    assert lines(shown) == [
        "measured width: 2.30±0.20 in, against boys' ball; holds for the frame at 0:00.100",
        "measured height: 1.00±0.10 in, against boys' ball; holds for the frame at 0:00.100",
    ]


def test_taken_back_by_its_button(qtbot: QtBot, shown: MeasuredByHand, card: CardPresenter, film: Film) -> None:
    card.put(film.frame(3), WIDTH)
    card.put(film.frame(3), HEIGHT)
    first = shown.controls()[0]
    assert isinstance(first, QToolButton)
    assert first.accessibleName() == "take back the measured width"
    qtbot.mouseClick(first, Qt.MouseButton.LeftButton)
    assert card.draft.by_hand == (HEIGHT,)
    card.drop()
    assert shown.isHidden()
