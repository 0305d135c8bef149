"""Rule a setting: its tags by the book, its events by the procedures, penalties of both together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from filmreview.facts.fact import Amount, Fact
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book
from filmreview.rules.judge import judge
from filmreview.rules.penalty import Penalty
from filmreview.rules.procedures.charges import Charge, charges
from filmreview.rules.procedures.event import Event, Found
from filmreview.rules.procedures.result import ProcedureResult
from filmreview.rules.procedures.run import run
from filmreview.rules.ruling import Ruling, Rulings
from filmreview.rules.setting import Setting
from filmreview.rules.tag import Tag


@dataclass(frozen=True)
class Ruled:
    """What comes out. rulings: with the penalties of events added. disputed: sentences on penalties whose readings differ.
    procedure: None when the events call for none."""

    rulings: Rulings
    procedure: ProcedureResult | None
    disputed: tuple[str, ...]


def rule_setting(setting: Setting, book: Book, day: date, adoption: Adoption | None = None, level: str | None = None) -> Ruled:
    """Judge the tags, run the events, put the penalties together. Pure."""
    tags = [with_events(tag, setting.events) for tag in setting.tags]
    rulings = judge(tags, setting.teams, book, day, adoption, level)
    twice = worn_twice(tags, rulings.rulings)
    if twice:
        tags = [twice.get(tag.id, tag) for tag in tags]
        rulings = judge(tags, setting.teams, book, day, adoption, level)
    found = tuple(found_on(tags, rulings.rulings))
    procedure = run(setting.events, book=book.code, day=day, found=found) if setting.events else None
    charged = charges(setting.events, book=book.code, day=day, found=found) if setting.events else ()
    sure = [_penalty(charge) for charge in charged if not charge.disputed]
    disputed = tuple(f"{one.procedure}: disputed: {'; or: '.join(one.disputed)}" for one in charged if one.disputed)
    return Ruled(replace(rulings, penalties=(*rulings.penalties, *sure)), procedure, disputed)


def with_events(tag: Tag, events: Sequence[Event]) -> Tag:
    """The tag with what the events tell of it: a substitute withdrawn at the table has not become a player in it, one who
    entered has, unless it was put right. What was seen at the table on somebody who then entered is dealt with as playing."""
    told = {event.what for event in events if event.team == tag.team and event.player == tag.player}
    withdrawn = "withdrawn at table" in told
    entered = "substitute enters" in told and "put right" not in told and not withdrawn
    if not (entered or withdrawn):
        return tag
    facts = {"in_play": Fact("in_play", entered), **tag.facts}
    seen = facts.get("when")
    if entered and seen is not None and seen.value == "at table" and facts["in_play"].value is True:
        facts["when"] = replace(seen, value="playing")
    return replace(tag, facts=facts)


def worn_twice(tags: Sequence[Tag], rulings: Sequence[Ruling]) -> dict[str, Tag]:
    """Tags of a number that stands on two things seen, with how often: things that a situation lists apart are two. (In a
    review they may be one player seen twice; there only a told count says so.) Id -> the tag with its count."""
    seen: dict[tuple[str, object], list[Tag]] = {}
    for tag, ruling in zip(tags, rulings, strict=True):
        told = tag.facts.get("number")
        if (
            tag.item == "number"
            and told is not None
            and ruling.ruling != "illegal"
            and not {"side", "count"} & tag.facts.keys()
        ):
            seen.setdefault((tag.team, told.value), []).append(tag)
    return {
        tag.id: replace(tag, facts={**tag.facts, "count": Fact("count", Amount(float(len(alike))))})
        for alike in seen.values()
        if len(alike) > 1
        for tag in alike
    }


def found_on(tags: Iterable[Tag], rulings: Iterable[Ruling]) -> Iterable[Found]:
    """What the tags show on whom, as the procedures take it."""
    for tag, ruling in zip(tags, rulings, strict=True):
        kind = _kind(tag, ruling)
        if kind is not None:
            facts = {key: fact.value for key, fact in tag.facts.items()}
            yield Found(
                team=tag.team,
                player=tag.player or None,
                kind=kind,
                item=tag.item,
                when=_text(facts.get("when")),
                ball=_text(facts.get("ball")),
                in_play=_yes_no(facts.get("in_play")),
                hazard=_yes_no(facts.get("hazard")),
                left_floor=_yes_no(facts.get("left_floor")),
                minor=None if kind != "blood" else facts.get("blood") != "excessive",
            )


def _kind(tag: Tag, ruling: Ruling) -> str | None:
    facts = {key: fact.value for key, fact in tag.facts.items()}
    if facts.get("blood") in ("some", "excessive"):
        return "blood"
    if tag.item == "jersey" and facts.get("tucked") is False:
        return "untucked"
    if ruling.ruling != "illegal":
        return None
    return "equipment" if ruling.consequence == "fix or leave" else "uniform" if ruling.consequence != "leave" else None


def _penalty(charge: Charge) -> Penalty:
    each = charge.free_throws // charge.count if charge.count else charge.free_throws
    return Penalty(
        charge.team, charge.kind, charge.count, charge.charged_to, each, charge.coaching_box, charge.then, charge.procedure,
        charge.reference, charge.source, charge.mark, charge.players,
    )  # fmt: skip


def _text(value: object) -> str | None:
    return value if isinstance(value, str) else None


def _yes_no(value: object) -> bool | None:
    return value if isinstance(value, bool) else None
