"""Picking a kit's colours without a screen, on a film whose patches have the colours of its truth file."""

from collections.abc import Iterator

import numpy as np
import pytest

from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import lab_of_code
from filmreview.desktop.kit_colours_presenter import KitColours, Sample, shots_of
from filmreview.facts.fact import Origin
from filmreview.facts.region import Box
from filmreview.film.film import Film, open_film
from tests.desktop.desk_fixtures import FILMS, AtOnce

# Patches of colour-709-limited.mp4, see its truth file, a little inside their edges.
WHITE, GREEN, BLUE, RED = Box(10, 56, 60, 30), Box(10, 98, 60, 30), Box(90, 98, 60, 30), Box(250, 56, 60, 30)


@pytest.fixture
def film() -> Iterator[Film]:
    with open_film(FILMS / "colour-709-limited.mp4") as opened:
        yield opened


@pytest.fixture
def kit(film: Film, at_once: AtOnce) -> KitColours:
    return KitColours(film, at_once.start, at_once.forget, ())


def test_one_region_gives_the_true_colour_and_its_name(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), GREEN)
    colour = kit.here.colour
    assert colour is not None
    assert float(ciede2000(colour.lab, lab_of_code("#007a33"))) < 3
    fact = kit.facts()["home", "jersey"]
    assert (fact.key, fact.origin, fact.value) == ("jersey", Origin.MEASURED, (colour,))
    assert colour.name == "green"
    assert "1 region" in fact.why


def test_regions_of_one_light_are_averaged_and_those_of_another_make_it_surer(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), GREEN)
    once = np.trace(np.array(kit.here.colour.covariance))
    kit.draw(film.frame(4), Box(20, 100, 40, 26))
    again = np.trace(np.array(kit.here.colour.covariance))
    assert again > 0.8 * once, "the same light tells nothing new"
    assert kit.here.shots == 1


def test_parts_of_both_teams_are_kept_apart(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), GREEN)
    kit.choose(("visitor", "shorts"))
    assert kit.sample is None
    kit.draw(film.frame(3), RED)
    facts = kit.facts()
    assert {part: fact.value[0].name for part, fact in facts.items()} == {
        ("home", "jersey"): "green",
        ("visitor", "shorts"): "red",
    }
    assert facts["visitor", "shorts"].key == "shorts"


def test_a_region_that_is_moved_is_measured_again_and_one_dropped_is_gone(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), GREEN)
    kit.change(film.frame(3), RED)
    assert [sample.region for sample in kit.here.samples] == [RED]
    assert kit.here.colour.name == "red"
    kit.drop()
    assert (kit.here.samples, kit.here.colour, kit.facts()) == ((), None, {})


def test_an_answer_that_comes_late_is_nobody_s(kit: KitColours, film: Film, at_once: AtOnce) -> None:
    at_once.hold = True
    kit.draw(film.frame(3), GREEN)
    assert kit.busy
    kit.drop()
    kit.draw(film.frame(3), RED)
    kit.choose(("home", "trim"))
    at_once.hold = False
    at_once.let_go()
    assert kit.of(("home", "jersey")).colour.name == "red"
    assert not kit.busy


def test_regions_that_disagree_are_no_one_colour(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), GREEN)
    kit.draw(film.frame(3), RED)  # far away in the picture: another light
    assert kit.here.colour is None
    assert "disagree" in kit.here.trouble
    assert kit.facts() == {}


def test_the_eye_overrules_and_what_was_measured_stays_beside(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), BLUE)
    kit.overrule("navy")
    fact = kit.facts()["home", "jersey"]
    assert (fact.origin, [colour.name for colour in fact.value]) == (Origin.SEEN, ["navy"])
    assert "royal blue" in fact.why
    kit.overrule("")
    assert kit.facts()["home", "jersey"].origin is Origin.MEASURED


def test_a_region_too_small_says_why_not(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), Box(20, 100, 4, 4))
    (sample,) = kit.here.samples
    assert "across" in sample.words
    assert kit.facts() == {}


def test_a_white_pointed_at_corrects_what_was_picked_before(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), GREEN)
    assert "without a white" in kit.sample.measured.why
    kit.point_at_white(film.frame(3), Box(175, 56, 50, 30))  # the grey patch taken for white: everything gets lighter
    assert "against a white" in kit.sample.measured.why
    assert [white.moment for white in kit.new_whites] == [film.moment_of(3)]


def test_a_white_that_cannot_serve_is_refused(kit: KitColours, film: Film) -> None:
    kit.draw(film.frame(3), GREEN)
    kit.point_at_white(film.frame(3), WHITE)  # clipped
    assert kit.new_whites == ()
    assert "without a white" in kit.sample.measured.why
    assert kit.last_message.startswith("this cannot be the white: ")
    assert kit.sample.words.endswith("; without a white")


def test_what_shares_its_light(film: Film) -> None:
    def at(number: int, x: int) -> Sample:
        return Sample(f"{number} {x}", film.moment_of(number), Box(x, 50, 20, 20))

    assert shots_of([at(0, 10), at(5, 20), at(0, 250)], 320) == ["0", "0", "2"]
    assert shots_of([], 320) == []
