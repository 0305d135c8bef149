"""A ruled situation as plain JSON data."""

from __future__ import annotations

from typing import Any

from filmreview.facts.stored import fact_to_json
from filmreview.rules.penalty import Penalty
from filmreview.rules.ruling import Ruling, Rulings
from filmreview.rules.situation_ruling import Ruled


def ruled_to_json(title: str, ruled: Ruled) -> dict[str, Any]:
    """The whole document: rulings, penalties, choices, procedure."""
    document = rulings_to_json(ruled.rulings)
    return {
        "title": title,
        **document,
        "disputed": list(ruled.disputed),
        "procedure": ruled.procedure.to_json() if ruled.procedure else None,
    }


def rulings_to_json(rulings: Rulings) -> dict[str, Any]:
    """Everything that judging gave."""
    return {
        "book": rulings.book.code,
        "edition": rulings.edition,
        "day": rulings.day.isoformat(),
        "level": rulings.level,
        "adoption": rulings.adoption.code if rulings.adoption else None,
        "rulings": [ruling_to_json(ruling) for ruling in rulings.rulings],
        "penalties": [penalty_to_json(penalty) for penalty in rulings.penalties],
        "choices": [
            {
                "team": choice.team,
                "rule": choice.rule,
                "options": [{"keep": option.keep, "change": list(option.change)} for option in choice.options],
            }
            for choice in rulings.choices
        ],
    }


def ruling_to_json(ruling: Ruling) -> dict[str, Any]:
    """One ruling, its words included."""
    return {
        "id": ruling.id,
        "team": ruling.team,
        "player": ruling.player,
        "item": ruling.item,
        "ruling": ruling.ruling,
        "consequence": ruling.consequence,
        "rule": ruling.rule,
        "reference": ruling.reference,
        "edition": ruling.edition,
        "source": ruling.source,
        "mark": ruling.mark,
        "adoption": ruling.adoption,
        "reasons": list(ruling.reasons),
        "needs": [
            {
                "fact": need.fact,
                "why": need.why,
                "presumed": need.presumed,
                "outcomes": dict(need.outcomes),
                "consequences": dict(need.consequences),
            }
            for need in ruling.needs
        ],
        "ahead": [
            {
                "rule": one.rule,
                "from": one.starts.isoformat(),
                "ruling": one.ruling,
                "reference": one.reference,
                "says": one.says,
            }
            for one in ruling.ahead
        ],
        "rules": [
            {"rule": one.rule, "holds": one.holds, "presumed": one.presumed, "reference": one.reference} for one in ruling.rules
        ],
        "todo": [{"found": one.found, "what": one.what} for one in ruling.todo],
        "facts": [fact_to_json(fact) for fact in ruling.facts_used],
    }


def penalty_to_json(penalty: Penalty) -> dict[str, Any]:
    """One penalty."""
    return {
        "team": penalty.team,
        "kind": penalty.kind,
        "count": penalty.count,
        "charged_to": penalty.charged_to,
        "free_throws": penalty.free_throws,
        "coaching_box": penalty.coaching_box,
        "then": penalty.then,
        "players": list(penalty.players),
        "rule": penalty.rule,
        "reference": penalty.reference,
        "source": penalty.source,
        "mark": penalty.mark,
    }
