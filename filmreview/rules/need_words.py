"""A fact that could still change a ruling, in words: which answer to it would bring what."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from filmreview.rules.checks.check import words_of
from filmreview.rules.checks.colour_words import list_words
from filmreview.rules.ruling import Need

Outcome = tuple[str, str]
"""A ruling and its consequence."""
_COSTS: Mapping[str, str] = {
    "none": "no consequence",
    "leave": "leave the game",
    "cannot be told": "what follows cannot be told yet",
}
_SUCH_AS = ", like "
_MOST_SAMPLES = 2
_MOST_ANSWERS = 8


def need_words(need: Need, now: Outcome) -> str:
    """The answers that would change the outcome, and to what: "width: if more than 3 in, illegal (fix or leave)".

    now: the ruling and consequence as they stand.
    """
    outcomes = {answer: (ruling, need.consequences[answer]) for answer, ruling in need.outcomes.items()}
    return turning_words(need.fact, outcomes, now)


def turning_words(fact: str, outcomes: Mapping[str, Outcome], now: Outcome) -> str:
    """The same from the outcome of each answer."""
    answers: dict[Outcome, list[str]] = {}
    for answer, outcome in outcomes.items():
        if outcome != now:
            answers.setdefault(outcome, []).append(answer)
    if not answers:
        return f"{words_of(fact)}: together with another fact that is not known yet"
    return f"{words_of(fact)}: " + "; ".join(f"if {_either(given)}, {_said(*one)}" for one, given in answers.items())


def _said(ruling: str, cost: str) -> str:
    if cost == "none" and ruling != "illegal":
        return ruling
    return f"{ruling} ({_COSTS.get(cost, cost)})"


def _either(answers: Iterable[str]) -> str:
    """ "white, black or another colour such as red": samples of the same kind stand together, and none that is named itself."""
    named: list[str] = []
    samples: dict[str, list[str]] = {}
    for answer in answers:
        kind, like, sample = answer.partition(_SUCH_AS)
        if like:
            samples.setdefault(kind, []).append(sample)
        else:
            named.append(answer)
    if len(named) > _MOST_ANSWERS:
        named = [*named[: _MOST_ANSWERS - 1], "others"]
    for kind, many in samples.items():
        fresh = [one for one in many if one not in named][:_MOST_SAMPLES]
        if fresh:
            named.append(f"{kind} such as {list_words(fresh)}")
    return list_words(named)
