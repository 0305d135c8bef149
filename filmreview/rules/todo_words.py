"""What the book asks of the crew about an illegal thing, and when, in one line."""

from __future__ import annotations

from collections.abc import Iterable

from filmreview.rules.ruling import Todo

_FOUND_WORDS = {
    "pre-game": "before the game",
    "warm-up": "in the warm-up",
    "at table": "at the table",
    "live": "while the ball is live",
    "dead": "while the ball is dead",
}
_DURING_PLAY = ("", "live", "dead")


def todo_line(todo: Iterable[Todo], playing: bool) -> str:
    """ "while the ball is dead: put right at once, or the player leaves"; "" where nothing is asked.

    playing: the wearer has become a player, so that only what can still be done during play is told.
    """
    when: dict[str, list[str]] = {}
    for one in _left(todo, playing):
        when.setdefault(one.what, []).append(_FOUND_WORDS.get(one.found, one.found))
    return "; ".join(f"{', '.join(filter(None, times))}: {what}".removeprefix(": ") for what, times in when.items())


def hangs_on(todo: Iterable[Todo], playing: bool) -> str:
    """What decides between the cases of `todo_line` while the facts leave several open: "whether the ball was live or dead";
    "" where one is left."""
    left = _left(todo, playing)
    if len({one.what for one in left}) < 2:
        return ""
    if all(one.found in _DURING_PLAY for one in left):
        return "whether the ball was live or dead"
    return "when it was found, before the game or in it"


def begins_with_time(line: str) -> bool:
    """Whether a line of `todo_line` says first when it counts, so that a sentence can go on with it."""
    return line.startswith(tuple(_FOUND_WORDS.values()))


def _left(todo: Iterable[Todo], playing: bool) -> list[Todo]:
    return [one for one in todo if not playing or one.found in _DURING_PLAY]
