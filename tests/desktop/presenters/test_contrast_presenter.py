"""A number against its jersey, without a screen."""

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.contrast_presenter import DRAW_FIRST, ContrastPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.facts.fact import Origin
from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.measure.contrast import measure_number
from tests.desktop.desk_fixtures import AtOnce

NUMBER = Box(8, 8, 120, 60)
CORNERS = ((200.0, 100.0), (240.0, 100.0), (240.0, 130.0), (200.0, 130.0))


@pytest.fixture
def card(desk: Desk) -> CardPresenter:
    return CardPresenter(desk)


@pytest.fixture
def contrast(desk: Desk, card: CardPresenter) -> ContrastPresenter:
    return ContrastPresenter(desk, card)


def test_a_region_is_wanted_first(contrast: ContrastPresenter, desk: Desk, card: CardPresenter, film: Film) -> None:
    contrast.begin(film.frame(30))
    assert not contrast.on
    assert desk.last_message == DRAW_FIRST.format("Insert")
    card.open_new(film.frame(29), NUMBER)
    contrast.begin(film.frame(30))
    assert not contrast.on
    card.open_new(film.frame(30), NUMBER)
    desk.take_film("f2", film)  # where a moment of the other film is equal, its region is not
    contrast.begin(film.frame(30))
    assert not contrast.on


def test_the_same_as_measured_directly(contrast: ContrastPresenter, card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30), NUMBER)
    contrast.begin(film.frame(30))
    found = measure_number(film.frame(30).exact_picture(), NUMBER)
    assert contrast.found == found
    assert contrast.value == f"stands out from the jersey: {found.contrast.answer}; {found.contrast.reason}"
    assert found.contrast.figures in contrast.behind
    assert "protan" in contrast.behind
    assert "WCAG" not in contrast.behind
    assert contrast.asked is None


def test_the_jersey_by_its_own_corners(contrast: ContrastPresenter, card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30), NUMBER)
    contrast.begin(film.frame(30))
    around = contrast.found
    contrast.show_jersey()
    assert contrast.asked.closed
    assert contrast.todo == "place four corners on the jersey, beside the number"
    contrast.place((*CORNERS[:3], None))
    assert contrast.found == around
    contrast.place(CORNERS)
    assert contrast.has_jersey
    assert contrast.found.jersey != around.jersey


def test_a_number_that_is_told_goes_on_the_card(
    contrast: ContrastPresenter, card: CardPresenter, desk: Desk, film: Film
) -> None:
    card.open_new(film.frame(30), NUMBER)
    contrast.begin(film.frame(30))
    facts = contrast.found.facts()
    contrast.go_on()
    if facts:
        assert card.draft.by_hand == facts
        assert all(one.origin is Origin.MEASURED for one in card.draft.by_hand)
        assert not contrast.on
    else:
        assert "not put on the card" in desk.last_message
        assert card.draft.by_hand == ()


def test_a_number_that_is_not_told_stays_off_the_card(
    contrast: ContrastPresenter, card: CardPresenter, desk: Desk, film: Film
) -> None:
    card.open_new(film.frame(30), Box(10, 10, 5, 40))
    contrast.begin(film.frame(30))
    assert contrast.value == "stands out from the jersey: cannot be told: 5 px across, 8 are needed"
    contrast.go_on()
    assert desk.last_message == "the number's colour is not put on the card: 5 px across, 8 are needed"
    assert card.draft.by_hand == ()
    assert contrast.on


def test_it_follows_the_cards_region_and_ends_with_it(
    contrast: ContrastPresenter, card: CardPresenter, film: Film, at_once: AtOnce
) -> None:
    card.open_new(film.frame(30), NUMBER)
    contrast.begin(film.frame(30))
    at_once.hold = True
    card.set_region(film.frame(30), Box(8, 8, 100, 60))
    assert contrast.value == "measuring the number ..."
    at_once.let_go()
    assert contrast.found == measure_number(film.frame(30).exact_picture(), Box(8, 8, 100, 60))
    card.drop()
    assert not contrast.on


def test_another_frame_ends_it(contrast: ContrastPresenter, card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30), NUMBER)
    contrast.begin(film.frame(30))
    contrast.stand(film.frame(30))
    assert contrast.on
    contrast.stand(film.frame(31))
    assert not contrast.on
