"""How the sheet says things: facts with their origin, rulings with their shape, consequences, marks. Text only."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.facts.keys import KEYS
from filmreview.review.model import Team
from filmreview.review.ruled import NOTHING_TO_DO
from filmreview.rules.checks.check import words_of
from filmreview.rules.todo_words import begins_with_time

SHAPES: Mapping[str, str] = {"illegal": "\u25c6", "legal": "\u25cb", "cannot be told": "\u25cc"}
"""A filled diamond, a ring, a dotted ring: the ruling by shape as well as by word."""
AHEAD_SHAPE = "\u25d0"
"""A half-filled ring: legal on the day, illegal from a later one."""

CONSEQUENCES: Mapping[str, str] = {
    "none": "none",
    "fix or leave": "fix or leave",
    "leave": "leave the game",
    "technical foul": "technical foul",
    "cannot be told": "cannot be told",
}
PROCEDURE_WORDS: Mapping[str, str] = {
    "legal": f"{SHAPES['legal']} as the book asks",
    "illegal": f"{SHAPES['illegal']} not as the book asks",
    "cannot be told": f"{SHAPES['cannot be told']} cannot be told",
}
MARKS: Mapping[str, str] = {
    "published": "as published",
    "memory": "from memory: look it up",
    "unsure": "sources differ: look it up",
    "deduced": "deduced: look it up",
}
ORIGINS: Mapping[Origin, str] = {
    Origin.MEASURED: "measured",
    Origin.SEEN: "seen",
    Origin.DECLARED: "declared",
}
_CIRCUMSTANCES = ("when", "ball", "in_play", "left_floor")
NO_NUMBER = "number not read"
NOT_MARKED = "not marked"
NO_FOUL = "Nothing found costs a foul."
FOUL_UNKNOWN = "what follows cannot be told, nor whether it costs a foul"


def ruling_words(ruling: str) -> str:
    """The ruling by shape and word: "\u25c6 illegal"."""
    return f"{SHAPES[ruling]} {ruling}"


def so_since(edition: str) -> str:
    """Since when a rule stands as it ruled: "so since 2016-17". The season of the game is said of the book."""
    return f"so since {edition}"


def follows_words(ruling: str, consequence: str) -> str:
    """What follows, to stand beside a ruling: "fix or leave", "what follows cannot be told"; "" where nothing does, or the
    ruling says it already."""
    if consequence in ("none", ruling):
        return ""
    return "what follows cannot be told" if consequence == "cannot be told" else CONSEQUENCES[consequence]


def ruled_words(ruling: str, follows: str) -> str:
    """The ruling with what follows, in one line: "illegal: fix or leave", "illegal, what follows cannot be told", "legal"."""
    between = "" if not follows else ", " if follows.startswith("what follows") else ": "
    return f"{ruling}{between}{follows}"


def fact_words(fact: Fact) -> str:
    """One fact with its origin: "colour: navy (measured: L*a*b* 23\u00b12, 19\u00b12, -43\u00b13; 285 px, with reference)"."""
    shown = value_words(fact) if not fact.why or not isinstance(fact.value, tuple) else _names(fact.value)
    return f"{KEYS[fact.key].words}: {shown} ({': '.join(part for part in (ORIGINS[fact.origin], fact.why) if part)})"


def key_words(fact: str) -> str:
    """A fact's key as it is asked for; what a team declared as its team's."""
    return words_of(fact)


def facts_words(facts: Iterable[Fact]) -> tuple[str, ...]:
    """Every fact of a tag, a line each; the circumstances it was found in come last, on one line."""
    every = tuple(facts)
    thing = tuple(fact_words(fact) for fact in every if fact.key not in _CIRCUMSTANCES)
    around = [f"{KEYS[fact.key].words}: {value_words(fact)}" for fact in every if fact.key in _CIRCUMSTANCES]
    return (*thing, "; ".join(around)) if around else thing


def _names(colours: Iterable[Colour]) -> str:
    return " and ".join(colour.name for colour in colours)


def value_words(fact: Fact) -> str:
    """The value with its uncertainty: "orange (94 %)", "2.5 \u00b1 0.3 in", "yes"."""
    value = fact.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Amount):
        spread = f" \u00b1 {value.plus_minus:.2g}" if value.plus_minus else ""
        return f"{value.value:.3g}{spread} {_unit(KEYS[fact.key].unit, value)}".strip()
    if isinstance(value, tuple):
        return " and ".join(colour_words(colour) for colour in value)
    return value


def _unit(unit: str, amount: Amount) -> str:
    """One thing is one piece; other units have one form."""
    return unit.removesuffix("s") if unit == "pieces" and amount.value == 1 and not amount.plus_minus else unit


def colour_words(colour: Colour) -> str:
    """The name of a colour; of a measured one the names that may hold with their chances and the spread of L*, a*, b*."""
    if colour.covariance is None:
        return colour.name
    likely = [f"{name} {chance:.0%}" for name, chance in colour.names[:3] if chance >= 0.05]
    spread = ", ".join(
        f"{axis} {round(value)} \u00b1 {colour.covariance[row][row] ** 0.5:.1f}"
        for row, (axis, value) in enumerate(zip(("L*", "a*", "b*"), colour.lab, strict=True))
    )
    return f"{' or '.join(likely) or colour.name} [{spread}]"


def could_sentence(could: str) -> str:
    """What could have been done, as a sentence: "The book asks, while the ball is dead: it is put right at once."; where the
    book allows it "Nothing was to be done: the book allows it."; "" for nothing said."""
    if not could:
        return ""
    said = could.rstrip(".")
    if could == NOTHING_TO_DO:
        return f"{said[0].upper()}{said[1:]}."
    return f"The book asks{', ' if begins_with_time(could) else ': '}{said}."


def crew_words(mark: str, time: str, did: str, official: str) -> str:
    """The crew's part in one line: "late, at 0:36.400: taken off after that (umpire 2 A. Voorwick)"."""
    at = f", at {time}" if time else ""
    done = f": {did.rstrip('.')}" if did else ""
    return f"{mark}{at}{done}{f' ({official})' if official else ''}"


def day_words(day: date) -> str:
    """A day in full, its month in words so that nobody takes it for another: "14 January 2025"."""
    return f"{day.day} {day:%B} {day.year}"


def team_words(team: Team) -> str:
    """The school with what was declared of its kit: "Ovvermire (jersey green, trim black)"."""
    kit = ", ".join(f"{name.replace('_', ' ')} {value_words(fact)}" for name, fact in team.facts.items())
    return f"{team.name} ({kit})" if kit else team.name


def picture_words(time: str, film: str) -> str:
    """A finding's picture for readers who do not see it."""
    return f"frame at {time} of {film}, the region marked, and close"


def whose_words(team: str, player: str | None) -> str:
    """The school and the number: "Ovvermire 14"."""
    return f"{team} {player}" if player is not None else f"{team}, {NO_NUMBER}"


def no_picture(error: FilmReviewError) -> str:
    """Why a finding has no picture; without the place of the film, which is nobody's business who reads the sheet."""
    return f"no picture: {error.what}"
