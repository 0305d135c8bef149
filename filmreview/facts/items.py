"""The closed lists of things worn, teams and levels of play."""

from __future__ import annotations

from filmreview.errors import FilmReviewError, unknown

ITEMS: tuple[str, ...] = (
    "jersey", "number", "name lettering", "side insert", "shorts", "undershirt", "arm sleeve", "leg sleeve", "knee sleeve",
    "tights", "compression shorts", "headband", "wristband", "hair tie", "hair item", "hair ribbon", "pre-wrap",
    "head covering", "knee brace", "ankle brace", "guard or cast", "face mask", "eyewear", "mouthguard", "jewelry", "medal",
    "earbuds", "logo", "flag", "patch", "blood",
)  # fmt: skip
TEAMS: tuple[str, ...] = ("home", "visitor")
LEVELS: tuple[str, ...] = ("varsity", "sub-varsity", "middle school", "college", "open")
BOOKS: tuple[str, ...] = ("nfhs", "ncaa-men", "ncaa-women", "fiba")


def check_item(text: str, where: str | None = None) -> str:
    """The item by its exact word; raises FilmReviewError with the nearest known one."""
    return _on_list("item", text, ITEMS, where)


def check_team(text: str, where: str | None = None) -> str:
    """ "home" or "visitor"; raises FilmReviewError otherwise."""
    return _on_list("team", text, TEAMS, where)


def check_level(text: str, where: str | None = None) -> str:
    """A level of play; raises FilmReviewError otherwise."""
    return _on_list("level", text, LEVELS, where)


def check_player(text: str, where: str | None = None) -> str:
    """A player's number as worn: one or two digits, kept as text so that 0 and 00 differ. Whether the number is a legal one
    is for the book."""
    if not (1 <= len(text) <= 2 and text.isascii() and text.isdigit()):
        raise FilmReviewError(f'"{text}" is not a player number', where=where, todo="write one or two digits, 0 to 99 or 00")
    return text


def _on_list(kind: str, text: str, known: tuple[str, ...], where: str | None) -> str:
    if text not in known:
        raise unknown(kind, text, known, where=where)
    return text
