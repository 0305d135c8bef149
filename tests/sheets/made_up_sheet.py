"""The hand-over of the made-up game: the observer's work on its drawn pictures, without a film file.

What is measured on the film is given here as a fixed spread around the true colour, so that no sheet depends on an encoder; and
the rulings are those of the game's truth with words of our own, so that the sheets change only when the sheets' code does.
"""

from collections import Counter
from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import cache
from pathlib import Path

import numpy as np

from filmreview.cautions import ALL
from filmreview.colour.palette import measured
from filmreview.colour.spaces import srgb_to_lab
from filmreview.demo.drawing import HEIGHT, WIDTH, draw_picture
from filmreview.demo.made_up_game import GAME
from filmreview.demo.observed import CHARGED, EVENTS, PUTS, Put
from filmreview.demo.play import RATE, SECONDS
from filmreview.demo.reviewing import game_set_up
from filmreview.demo.truth import region_of, true_colour
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import read_value
from filmreview.film.moment import Moment
from filmreview.review.model import CrewResponse, FilmRef, PlacedEvent, PlacedTag, Reply, Review, TagOfficial
from filmreview.review.ruled import findings
from filmreview.sheets import sheet_words as words
from filmreview.sheets.handover import Ahead, Charge, Choice, Cited, Departure, HandOver, Line, Procedure
from filmreview.sheets.letters import letters
from filmreview.sheets.marking import Picture
from filmreview.sheets.telling import hand_over

TICK = Fraction(1, 15360)
SPREAD = np.diag((4.0, 2.0, 2.0))  # variances of L*, a*, b*
WHOSE = {put.name: put.crew.whose for put in PUTS if put.crew.whose}


def review_of(film: Path) -> Review:
    """The review; film: where its film would lie."""
    ref = FilmRef("f1", str(film), 1_000_000, Fraction(SECONDS), "made up", Moment(0, TICK), WIDTH, HEIGHT)
    tags = tuple(_tag(number, put) for number, put in enumerate(PUTS, 1))
    ids = {put.name: f"t{number}" for number, put in enumerate(PUTS, 1)}
    officials = tuple(TagOfficial(f"o{place}", ids[name], who) for place, (name, who) in enumerate(WHOSE.items(), 1))
    words = "The scorer was told before the throw-in."
    replies = (
        Reply("a1", ids["necklace"], "umpire 1", "agreed"),
        Reply("a2", ids["number 27"], "referee", "seen otherwise", words),
    )
    return Review(film.with_suffix(".filmreview"), game_set_up(), (ref,), tags, _events(), (), officials, replies)


def _tag(number: int, put: Put) -> PlacedTag:
    facts = [Fact(key, read_value(key, raw, put.name), Origin.SEEN) for key, raw in put.seen.items()]
    if put.measured:
        lab = srgb_to_lab(np.array(true_colour(put)) / 255)
        facts.insert(0, Fact("colour", (measured(lab, SPREAD),), Origin.MEASURED, "as drawn"))
    crew = CrewResponse(put.crew.mark, None if put.crew.at is None else _at(put.crew.at), put.crew.did)
    person = GAME.person(put.who)
    region = region_of(put)
    return PlacedTag(
        f"t{number}", "f1", _at(put.second), person.team, person.number, put.item, region, tuple(facts), put.note, crew
    )


def _events() -> tuple[PlacedEvent, ...]:
    made = []
    for number, one in enumerate(EVENTS, 1):
        person = next((person for person in GAME.people if person.key == one.who), None)
        team, player = (person.team, person.number) if person else (one.who or None, None)
        made.append(PlacedEvent(f"e{number}", "f1", _at(one.second), one.what, team, player))
    return tuple(made)


def _at(second: float) -> Moment:
    return Moment(round(second * RATE) * 15360 // RATE, TICK)


@cache
def drawn(number: int) -> Picture:
    return draw_picture(number)


def pictures(_: FilmRef, moment: Moment) -> Picture:
    return drawn(round(moment.seconds * RATE))


def made_up_sheet(film: Path, made_for: str = "coordinator") -> HandOver:
    """The hand-over; the version of the program is left out of it."""
    made = hand_over(findings(review_of(film), folders=()), pictures, made_for)
    puts = {f"t{number}": put for number, put in enumerate(PUTS, 1)}
    lines = tuple(_as_in_truth(line, puts[line.tag]) for line in made.lines)
    charges = tuple(
        Charge(made.game.team(one.team).name, one.kind, one.count, one.charged_to, one.free_throws, "lost",
               "ball to the opponent",
               "10-6", "the game's truth", "published", ("27",))
        for one in CHARGED
    )  # fmt: skip
    late = Departure("illegal uniform", "made-up-game.mp4", "0:36.200", "27 was sent off, and nothing was charged",
                     "one technical",
                     "", "10-6", "the game's truth", "published")  # fmt: skip
    followed = Procedure(
        ("illegal uniform",), "found during play", "illegal", (late,), ("when it was first seen",), "10-6", "2023-24"
    )
    says = "what is worn must be of the colours, sizes and places that the book allows"
    cited = Cited(
        "worn", "Things worn", "3-5", "2023-24", says, "the game's truth", "published", tuple(range(1, len(lines) + 1))
    )
    return replace(
        made, lines=lines, counts=Counter((line.ruling, line.crew_mark) for line in lines), charges=charges,
        choices=(Choice(made.game.visitor.name, "bands of one colour", "black", ("24",), True),), cited=(cited,),
        cautions=(*ALL, made.cautions[-1]), procedure=followed, disputed=(), letters=letters(made.game.crew, lines, {}),
        book="The school book", edition="2023-24", program="filmreview",
    )  # fmt: skip


def _as_in_truth(line: Line, put: Put) -> Line:
    expect = put.expect
    illegal, open_ruling = expect.ruling == "illegal", expect.ruling == "cannot be told"
    asks = ("colour: if white, legal; if another colour such as red, illegal (fix or leave)",) if open_ruling else ()
    ahead = tuple(Ahead("3-4: the number", words.day_words(date.fromisoformat(day)), "illegal") for day in expect.ahead)
    todo = _TODO[expect.consequence] if illegal else ""
    could = todo if line.crew_mark in ("late", "wrong consequence", "not seen") else ""
    return replace(
        line, ruling=expect.ruling, consequence=expect.consequence, reasons=(f"{put.name}: by the game's truth",),
        todo=todo,
        rule="worn", reference="3-5", edition="2023-24", adoption="", source="the game's truth", mark="published", asks=asks,
        ahead=ahead, earlier="", could_have_done=could,
    )  # fmt: skip


_TODO = {
    "fix or leave": "while the ball is dead: it is put right at once or the player leaves",
    "technical foul": "while the ball is dead: charge one technical foul to the head coach; the player may go on",
}
