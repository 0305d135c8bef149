"""The cautions, in the words that the screens show."""

from __future__ import annotations

STUDY_AID = (
    "A ruling here is a study aid. The official rule book, what the state association adopted, and the judgement of the "
    "assigned officials decide."
)
SAFETY = "Blood, head injury and hard objects are safety matters: follow the local protocol and the medical staff present."
MINORS = "Most players are minors: have the right to use this film, and blur faces before anything is shared."
OFFLINE = "Everything stays on this machine; nothing is sent anywhere."

SAFETY_ITEMS = frozenset(
    {"blood", "guard or cast", "knee brace", "ankle brace", "face mask", "jewelry", "earbuds", "hair item", "medal"}
)


def caution_for(item: str | None, hard: bool = False) -> str:
    """The caution that belongs beside a ruling on this item: the safety words for a safety matter, the study aid otherwise."""
    return SAFETY if hard or item in SAFETY_ITEMS else STUDY_AID
