"""The desk measures as the command line does."""

from filmreview.colour.palette import colour_named
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.measuring import Measuring
from filmreview.facts.region import Box
from filmreview.film.film import Film, open_film
from filmreview.measure.on_film import Known, measure_on_film
from filmreview.progress import silent
from filmreview.review.model import PlacedReference
from tests.desktop.desk_fixtures import FILMS

REGION = Box(40, 60, 40, 30)


def test_the_same_figures_without_a_white(film: Film) -> None:
    measuring = Measuring()
    measuring.take_film(film)
    frame = film.frame(30)
    there, _frame = measure_on_film(film, frame.moment, REGION)
    assert measuring.measure(frame, REGION, (), silent) == there


def test_the_same_figures_with_a_reference_of_another_frame() -> None:
    grey, red = Box(170, 56, 60, 30), Box(250, 56, 60, 30)  # patches of the film, see its truth file
    with open_film(FILMS / "colour-709-limited.mp4") as film:
        measuring = Measuring()
        measuring.take_film(film)
        frame, moment, colour = film.frame(5), film.moment_of(9), colour_named("grey")
        there, _frame = measure_on_film(film, frame.moment, red, Known(moment, grey, colour))
        assert measuring.measure(frame, red, (PlacedReference("r1", "f1", moment, grey, colour),), silent) == there
    assert there.reference
    assert there.colour is not None
    assert there.colour.name == "red"


def test_the_film_s_sharpness_is_looked_up_when_it_is_opened(desk: Desk) -> None:
    frame = desk.film.frame(30)
    figures = dict(desk.measure(frame, REGION, silent).view.figures)
    assert "sharpness" in figures
