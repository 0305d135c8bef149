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
    for one in todo:
        if not playing or one.found in _DURING_PLAY:
            when.setdefault(one.what, []).append(_FOUND_WORDS.get(one.found, one.found))
    return "; ".join(f"{', '.join(filter(None, times))}: {what}".removeprefix(": ") for what, times in when.items())
