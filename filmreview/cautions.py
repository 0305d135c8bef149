"""The cautions, in the words that screens, sheets and the command line show."""

from __future__ import annotations

from collections.abc import Iterable

from filmreview.facts.fact import Fact

STUDY_AID = (
    "A ruling here is a study aid. The official rule book, what the state association adopted, and the judgement of the "
    "assigned officials decide."
)
SAFETY = "Blood, head injury and hard objects are safety matters: follow the local protocol and the medical staff present."
MINORS = "Most players are minors: have the right to use this film, and blur faces before anything is shared."
ALL: tuple[str, ...] = (STUDY_AID, SAFETY, MINORS)
OFFLINE = "Everything stays on this machine; nothing is sent anywhere."

SAFETY_ITEMS = frozenset(
    {"blood", "guard or cast", "knee brace", "ankle brace", "face mask", "eyewear", "jewelry", "earbuds", "hair item", "medal"}
)


def caution_for(item: str | None, facts: Iterable[Fact] = ()) -> str:
    """The caution that belongs beside a ruling: the study aid, with the safety words before it for a safety matter."""
    return f"{SAFETY} {STUDY_AID}" if is_safety(item, facts) else STUDY_AID


def is_safety(item: str | None, facts: Iterable[Fact] = ()) -> bool:
    """Whether the safety words belong beside a ruling on this item with these facts."""
    return item in SAFETY_ITEMS or any(map(_of_safety, facts))


def _of_safety(fact: Fact) -> bool:
    """Whether a fact makes any item a safety matter: blood on it, hard, a hazard."""
    if fact.key == "blood":
        return fact.value != "none"
    return fact.key in ("hard", "hazard") and fact.value is True
