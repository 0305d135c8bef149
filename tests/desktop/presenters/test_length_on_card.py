"""What is measured by hand joins the tag on the card, and stays apart from what the region measures by itself."""

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.draft import draft_of
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.facts.region import Box
from filmreview.film.film import Film

REGION = Box(20, 60, 30, 24)
WIDTH = Fact("width_in", Amount(2.3, 0.2), Origin.MEASURED, "2.30±0.20 in")
WIDER = Fact("width_in", Amount(5.0, 0.2), Origin.MEASURED, "5.00±0.20 in")
HEIGHT = Fact("height_in", Amount(1.0, 0.1), Origin.MEASURED, "1.00±0.10 in")


@pytest.fixture
def card(desk: Desk) -> CardPresenter:
    return CardPresenter(desk)


def keys(card: CardPresenter) -> list[tuple[str, str]]:
    assert card.draft is not None
    return [(one.key, one.origin.value) for one in card.draft.facts]


def test_a_length_begins_a_tag_and_rules_it(card: CardPresenter, film: Film) -> None:
    assert card.put(film.frame(30), WIDER)
    card.type("v14 headband white forehead")
    assert card.ruling is not None
    assert card.ruling.ruling == "illegal"  # school headbands are at most 3 in wide (rule-book dimension)
    assert card.put(film.frame(30), WIDTH)  # measured again: in place of the first
    assert card.ruling.ruling != "illegal"
    assert [one for one in card.draft.facts if one.key == "width_in"] == [WIDTH]
    card.take_back("width_in")
    assert "width_in" not in dict(keys(card))


def test_region_and_lengths_do_not_take_each_other_away(card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    colour = keys(card)
    assert ("colour", "measured") in colour
    card.put(film.frame(30), WIDTH)
    card.put(film.frame(30), HEIGHT)
    assert keys(card) == [*colour, ("width_in", "measured"), ("height_in", "measured")]
    card.set_region(film.frame(30), Box(22, 60, 30, 24))
    assert {("colour", "measured"), ("width_in", "measured"), ("height_in", "measured")} <= set(keys(card))


def test_what_was_measured_on_a_frame_goes_with_it(card: CardPresenter, film: Film) -> None:
    card.put(film.frame(30), WIDTH)
    card.set_region(film.frame(31), REGION)
    assert "width_in" not in dict(keys(card))


def test_a_tag_of_another_frame_is_not_touched(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 headband")
    assert not card.put(film.frame(40), WIDTH)
    assert "at another moment" in desk.last_message
    assert card.draft.moment == film.moment_of(30)
    assert card.put(film.frame(30), WIDTH)


def test_a_number_by_hand_stands_in_place_of_the_regions_colour(card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    (measured,) = [one for one in card.draft.measured if one.key == "colour"]
    number = Fact("colour", measured.value, Origin.MEASURED, "L* apart 40")
    card.put(film.frame(30), number)
    assert [one for one in card.draft.facts if one.origin is Origin.MEASURED] == [number]
    card.take_back("colour")
    assert set(card.draft.measured) <= set(card.draft.facts)


def test_kept_and_opened_again_it_is_the_same(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.put(film.frame(30), WIDTH)
    card.type("v14 headband forehead")
    assert card.keep()
    (tag,) = desk.review.tags
    assert WIDTH in tag.facts
    card.open_tag(tag.id)
    assert card.draft.by_hand == (WIDTH,)
    assert not card.unsaved
    card.take_back("width_in")
    assert card.unsaved
    assert WIDTH not in draft_of(tag).measured


def test_a_new_tag_with_a_length_alone_is_not_lost_without_asking(card: CardPresenter, film: Film) -> None:
    card.put(film.frame(30), WIDTH)
    assert card.unsaved
    assert not card.put(film.frame(40), HEIGHT)
