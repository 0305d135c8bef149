"""A hand-over made by hand, of our own invention: no book and no film is needed to lay it out."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from fractions import Fraction

import numpy as np

from filmreview.cautions import ALL
from filmreview.facts.region import Box
from filmreview.film.moment import Moment, format_time
from filmreview.review.model import CrewMember, FilmRef, Game, Team
from filmreview.sheets.handover import Ahead, Charge, Choice, Cited, HandOver, Line
from filmreview.sheets.marking import Picture
from filmreview.sheets.sheet_words import NOT_MARKED

TICK = Fraction(1, 15360)
FILM = FilmRef("f1", "/films/half-1.mp4", 1_000_000, Fraction(1290), "ab12", Moment(1024, TICK), 1280, 720)
GAME = Game(
    date(2023, 12, 5), "varsity", "nfhs", None, Team("Thrunnockby"), Team("Ovvermire"),
    (CrewMember("referee", "R. Quillander"), CrewMember("umpire", "U. Thornvex")), "O. Vanterell",
)  # fmt: skip
LINE = Line(
    number=1, tag="t1", film=FILM, moment=Moment(1024 + 192_000, TICK), seconds=Fraction("12.5"), time="0:12.500",
    side="visitor", team="Ovvermire", player="14", item="arm sleeve", region=Box(600, 200, 40, 90),
    seen=("colour: orange (measured on the film: 1,204 pixels, white reference)", "has become a player wearing it: yes "
          "(seen by the observer)"),
    ruling="illegal", reasons=("orange is not white, black, beige or the predominant colour of the jersey (green)",),
    consequence="fix or leave", todo="while the ball is dead: tell the coach; the player puts it right or leaves",
    rule="sleeve-colour", reference="3-5-3", edition="2019-20", adoption="", source="a book of our own", mark="published",
    asks=("one solid colour: if no, illegal (fix or leave)",), ahead=(), earlier="", crew_mark="not seen", crew_time="", did="",
    could_have_done="while the ball is dead: tell the coach; the player puts it right or leaves", note="left arm, lane line",
)  # fmt: skip
OTHERS: tuple[Line, ...] = (
    replace(
        LINE, number=2, tag="t2", side="home", team="Thrunnockby", player="00", item="headband", ruling="legal",
        reasons=("taken as ordinary, nothing was seen: width",), consequence="none", todo="", could_have_done="",
        region=Box(20, 30, 60, 24),
        seconds=Fraction(61), time="1:01.000", crew_mark="nothing to do", note="",
        ahead=(Ahead("3-5-4: two inches at most", "1 July 2024", "illegal"),),
    ),
    replace(
        LINE, number=3, tag="t4", player=None, item="undershirt", ruling="cannot be told", region=None, consequence="none",
        reasons=("the colour cannot be told from this film", "taken as ordinary, nothing was seen: length"), todo="",
        could_have_done="",
        seconds=Fraction("1289.75"), time=format_time(Fraction("1289.75")), crew_mark=NOT_MARKED, mark="memory", note="",
    ),
    replace(
        LINE, number=4, tag="t3", player="67", item="number", consequence="technical foul", crew_mark="as the book asks",
        did="charged one technical foul to the head coach", crew_time="1:30.000", could_have_done="", note="", rule="numbers",
        reference="3-4-3", reasons=("67 is not on the list",), region=Box(1100, 500, 180, 220),
    ),
)  # fmt: skip


def sheet(lines: Iterable[Line] = (LINE, *OTHERS), **changes: object) -> HandOver:
    every = tuple(lines)
    made = HandOver(
        game=GAME, book="A book of our own", edition="2023-24", adoption="", films=(FILM,), lines=every,
        counts=Counter((line.ruling, line.crew_mark) for line in every),
        charges=(Charge("Ovvermire", "technical foul", 1, "head coach", 2, "lost", "ball to the opponent", "10-6-4", "a book",
                        "published", ("67",)),),
        choices=(Choice("Ovvermire", "sleeves match", "black", ("22",), True),
                 Choice("Ovvermire", "sleeves match", "green", ("4", "31"), False)),
        cited=(Cited("sleeve-colour", "Colour of a sleeve", "3-5-3", "2019-20", "a sleeve is white, black, beige or the "
                     "predominant colour of the jersey", "a book of our own", "published", (1, 2, 3)),),
        cautions=ALL, program="filmreview 0", pictures=gym,
    )  # fmt: skip
    return replace(made, **changes)  # type: ignore[arg-type]


def gym(film: FilmRef, moment: Moment) -> Picture:
    """A floor, a wall, and somebody in green with an orange sleeve at 600,200."""
    picture = np.empty((film.height, film.width, 3), np.uint8)
    picture[:400], picture[400:] = (118, 96, 74), (193, 152, 101)
    picture[180:470, 560:660] = (24, 104, 52)
    picture[200:290, 600:640] = (222, 116, 30)
    picture[:, : moment.pts % 200] //= 2
    return picture
