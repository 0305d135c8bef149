"""A small review on a made film, of our own invention, whose findings are ruled by the school book that ships."""

from fractions import Fraction
from pathlib import Path

from filmreview.facts.fact import Fact
from filmreview.facts.keys import parse_value
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from filmreview.lessons.plan import Settings
from filmreview.review import store as stores
from filmreview.review.changes import AddTag
from filmreview.review.films import add_film
from filmreview.review.reading import read
from filmreview.review.ruled import Findings, findings
from tests.review.small_game import a_game

FILMS = Path(__file__).parents[2] / "fixtures" / "films"
QUICK = Settings(
    lead_in=Fraction(1, 2), hold=Fraction(1), answer=Fraction(1), after=Fraction(1, 5), card=Fraction(1), height=360
)  # fmt: skip
SITUATION = """title = "A red headband is seen at the table"

[game]
book = "nfhs"
day = 2025-01-14
level = "varsity"

[home]
jersey = "white"

[[seen]]
id = "band"
team = "home"
player = "4"
item = "headband"
colour = "red"
when = "at table"

[[seen]]
id = "sleeve"
team = "home"
player = "5"
item = "arm sleeve"
colour = "black"
"""


def facts(**told: str) -> tuple[Fact, ...]:
    return tuple(Fact(key, parse_value(key, text)) for key, text in told.items())


def make_review(path: Path, film: Path = FILMS / "constant.mp4") -> Path:
    """Four tags: an orange sleeve, a black headband, a number nobody may wear, and one whose number was not read."""
    with open_film(film) as opened, stores.create(path, a_game(), "O. Vanterell") as store:
        (film_id,) = store.apply(add_film(opened, path))
        for second, team, player, item, box, told in (
            (1, "visitor", "14", "arm sleeve", Box(100, 60, 40, 30), facts(colour="orange", ball="dead", in_play="yes")),
            (1, "home", "00", "headband", Box(20, 20, 30, 10), facts(colour="black", medical="no")),
            (2, "visitor", "67", "number", Box(150, 80, 30, 40), facts(number="67", in_play="yes", when="playing")),
            (2, "home", None, "undershirt", None, ()),
        ):
            moment = opened.moment_at(Fraction(second))
            note = "Anyone can see that this is illegal: Idrun Mosswell wore it"
            store.apply(AddTag(film_id, moment, team, player, item, region=box, facts=told, note=note))
    return path


def found_in(path: Path) -> Findings:
    return findings(read(path))
