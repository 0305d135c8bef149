"""A ruling as the card and the ledger say it: short sentences, no Qt."""

from __future__ import annotations

from collections.abc import Iterable

from filmreview.colour.value import Colour
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import KEYS, Kind
from filmreview.review.line import value_in_words
from filmreview.rules.need_words import need_words
from filmreview.rules.ruling import Need, Ruling

CONSEQUENCE_WORDS = {
    "none": "no consequence",
    "fix or leave": "fix or leave: put it right, or leave the game until it is",
    "leave": "leave the game",
    "technical foul": "technical foul",
    "cannot be told": "what follows cannot be told yet",
}
LEAST_CHANCE = 0.1
MARK_WORDS = {
    "published": "",
    "memory": "the book here gives this value from memory; look it up",
    "unsure": "sources differ on this value; look it up",
    "deduced": "this value is deduced, not published; look it up",
}


def origin_words(fact: Fact) -> str:
    """Where a fact came from, for a person."""
    return {
        Origin.MEASURED: "measured on the film",
        Origin.SEEN: "seen by the observer",
        Origin.DECLARED: "declared at set-up",
    }[fact.origin]


def measured_words(colour: Colour) -> str:
    """The likeliest names with their chances, and the value with its standard uncertainty:
    "orange 97%; L*a*b* 61, 40, 48 ± 3, 4, 5"."""
    likely = [pair for pair in colour.names[:3] if pair[1] >= LEAST_CHANCE] or [(colour.name, 1.0)]
    names = ", ".join(f"{name} {chance:.0%}" for name, chance in likely)
    if colour.covariance is None:
        return colour.name
    values = ", ".join(f"{round(value) + 0}" for value in colour.lab)
    spread = ", ".join(f"{colour.covariance[row][row] ** 0.5:.0f}" for row in range(3))
    return f"{names}; L*a*b* {values} ± {spread}"


def question_words(key: str) -> str:
    """How a fact is asked for: "One solid colour?", "Width, in", "Logos seen?"."""
    known = KEYS[key]
    words = known.words[:1].upper() + known.words[1:]
    if known.kind is Kind.YES_NO:
        return f"{words}?"
    if known.unit == "pieces":  # counted, not measured
        return f"{words}?"
    return f"{words}, {known.unit}" if known.unit else words


def facts_line(facts: Iterable[Fact]) -> str:
    """The facts of a tag in one line, each with its origin."""
    return "; ".join(f"{KEYS[fact.key].words} {value_in_words(fact)} ({fact.origin.value})" for fact in facts)


def consequence_words(ruling: Ruling) -> str:
    """What it costs, in the book's word, and for an illegal thing what to do when it is found during play.

    While the cost cannot be told nothing is advised: what to do hangs on it."""
    if ruling.consequence == "cannot be told":
        return CONSEQUENCE_WORDS[ruling.consequence]
    if ruling.consequence == "none" and ruling.ruling != "illegal":
        return "nothing follows from it" if ruling.ruling == "legal" else "nothing follows from it so far"
    todo = next((one.what for one in ruling.todo if one.found in ("", "dead")), "")
    if ruling.ruling == "illegal" and todo:
        return f"{ruling.consequence}: {todo}"
    return CONSEQUENCE_WORDS.get(ruling.consequence, ruling.consequence)


def reason_words(ruling: Ruling) -> str:
    """The first reason, as a sentence."""
    return ruling.reasons[0] if ruling.reasons else ""


def source_words(ruling: Ruling) -> str:
    """Reference, the season since which it reads so, and how sure the value is: "rule 3-5-3, so since 2016-17"."""
    parts = [f"rule {ruling.reference}" if ruling.reference else "", f"so since {ruling.edition}" if ruling.edition else ""]
    if ruling.adoption:
        parts.append(f"as adopted by {ruling.adoption}")
    parts.append(MARK_WORDS.get(ruling.mark, ruling.mark))
    return ", ".join(part for part in parts if part)


def ahead_words(ruling: Ruling) -> str:
    """What changes on a later day: "ahead: illegal from 2024-07-01, rule 3-4-3"."""
    return "; ".join(f"ahead: {one.ruling} from {one.starts}, rule {one.reference}" for one in ruling.ahead)


def change_words(ruling: Ruling) -> str:
    """Which answers would turn the ruling or what follows from it, a line each, as `need_said` has them."""
    turns = [need_said(need, ruling) for need in ruling.needs if _turns(need)]
    return "\n".join(("would change it:", *turns[:3])) if turns else ""


def need_said(need: Need, ruling: Ruling) -> str:
    """What the answers to one fact would bring instead of what stands, in the words of the sheet: "worn backward: if
    yes, illegal (fix or leave)"."""
    return need_words(need, (ruling.ruling, ruling.consequence))


def waiting_words(ruling: Ruling | None) -> str:
    """What stands over the facts that are not presumed: the ruling waits for them only while it cannot be told."""
    if ruling is not None and ruling.ruling != "cannot be told":
        return "Not known yet; it may still change it"
    return "The ruling waits for this"


def presumed_words(ruling: Ruling | None) -> str:
    """What stands over the facts that are presumed ordinary."""
    if ruling is not None and ruling.ruling == "legal":
        return "Taken as ordinary, nothing was seen; say if it is otherwise"
    return "Taken as ordinary; say if it is otherwise"


def questions_of(ruling: Ruling | None, most: int) -> tuple[tuple[Need, ...], tuple[Need, ...]]:
    """The facts the ruling waits for, and those presumed ordinary that would turn it; at most so many in all.

    Facts of which every answer brings the same by itself are left out, unless the ruling waits for nothing but such facts:
    they then decide together. A colour that is known is left out too, since the card has a widget to overrule it.
    """
    if ruling is None:
        return (), ()
    waiting = [need for need in ruling.needs if not need.presumed]
    waiting = [need for need in waiting if _turns(need)] or waiting
    presumed = [need for need in ruling.needs if need.presumed and need.fact != "colour" and _turns(need)]
    return tuple(waiting[:most]), tuple(presumed[: max(0, most - len(waiting))])


def _turns(need: Need) -> bool:
    """Whether the answers differ in ruling or consequence."""
    outcomes = {(ruling, need.consequences[answer]) for answer, ruling in need.outcomes.items()}
    return len(outcomes) > 1  # of two different ones at least one is not the present
