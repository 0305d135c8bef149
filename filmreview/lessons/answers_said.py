"""From a ruling to the answer of a lesson, and from a game to the line that says by which book it is asked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from filmreview.facts.fact import Fact
from filmreview.lessons.question import Answer
from filmreview.rules.need_words import need_words
from filmreview.rules.ruling import Need, Ruling, Rulings
from filmreview.sheets import sheet_words as words

_KIT: Mapping[str, str] = {"jersey": "jersey"}


def answer_of(ruling: Ruling, todo: str, rulings: Rulings, case: str = "") -> Answer:
    """The answer as the rules gave it. todo: what the book asks and when. case: the title of a situation."""
    return Answer(
        ruling=ruling.ruling,
        consequence=ruling.consequence,
        reasons=tuple(ruling.reasons),
        todo=todo,
        reference=ruling.reference,
        edition=ruling.edition,
        adoption=rulings.adoption.title if ruling.adoption and rulings.adoption else "",
        source=ruling.source,
        sure=words.MARKS.get(ruling.mark, ruling.mark),
        ahead=tuple(f"{one.ruling} from {words.day_words(one.starts)} ({one.reference}: {one.says})" for one in ruling.ahead),
        asks=tuple(need_words(need, (ruling.ruling, ruling.consequence)) for need in _open(ruling)),
        case=case,
    )


def setting_words(rulings: Rulings, day: date, kit: Mapping[str, Mapping[str, Fact]]) -> str:
    """ "Varsity game of 19 January 2024, school book, season 2023-24. Home: jersey white. Visitor: jersey green."."""
    adoption = f" with {rulings.adoption.title}" if rulings.adoption else ""
    game = f"{rulings.level.capitalize()} game of {words.day_words(day)}, {rulings.book.title}{adoption}, {rulings.edition}."
    return " ".join((game, *_kits(kit)))


def told_words(facts: Iterable[Fact]) -> tuple[str, ...]:
    """Facts as they are told to a participant: name and value, no origin and no figures."""
    return tuple(f"{words.key_words(fact.key)}: {_value(fact)}" for fact in facts)


def _kits(kit: Mapping[str, Mapping[str, Fact]]) -> Iterable[str]:
    for side, facts in kit.items():
        worn = [f"{said} {_value(facts[name])}" for name, said in _KIT.items() if name in facts]
        if worn:
            yield f"{side.capitalize()}: {', '.join(worn)}."


def _value(fact: Fact) -> str:
    if isinstance(fact.value, tuple):
        return " and ".join(colour.name for colour in fact.value)
    return words.value_words(fact)


def _open(ruling: Ruling) -> Iterable[Need]:
    return (need for need in ruling.needs if not need.presumed)
