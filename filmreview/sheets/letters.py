"""A paragraph for each official, built from the findings that are theirs: nothing in it that is not on the sheet.

The observer may write another in its place; it is then given as written.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from filmreview.review.model import CrewMember
from filmreview.sheets.handover import LetterTo, Line
from filmreview.sheets.inert import one_line

_DONE = ("as the book asks",)
_OPEN = ("late", "wrong consequence", "wrong procedure", "not seen")


def letters(crew: Iterable[CrewMember], lines: Sequence[Line], written: Mapping[str, str]) -> tuple[LetterTo, ...]:
    """One for each of the crew. written: what the observer wrote, by position."""
    return tuple(
        LetterTo(one.position, one.name, written.get(one.position) or built(one, lines), one.position not in written)
        for one in crew
    )


def official_words(crew: Iterable[CrewMember], position: str) -> str:
    """The position and, when the crew has it, the name: "umpire U. Thornvex"."""
    name = next((one.name for one in crew if one.position == position), "")
    return f"{position} {name}".strip()


def built(member: CrewMember, lines: Sequence[Line]) -> str:
    """The paragraph from the findings of one official."""
    whose = official_words((member,), member.position)
    theirs = [line for line in lines if line.official == whose]
    if not theirs:
        return f"To {member.name}, {member.position}. No finding of this game is put down to you alone."
    done = [line for line in theirs if line.crew_mark in _DONE]
    open_lines = [line for line in theirs if line.crew_mark in _OPEN and line.ruling != "cannot be told"]
    rest = [line for line in theirs if line not in done and line not in open_lines]
    count = f"{len(theirs)} of the {len(lines)} findings of this game {'is' if len(theirs) == 1 else 'are'} put down to you."
    parts = (
        _sentence("Done as the book asks", (f"{_named(line)}{_did(line)}" for line in done)),
        _sentence("To talk about", (_talk(line) for line in open_lines)),
        _sentence("Nothing follows for you from", (f"{_named(line)}: {line.ruling}, {line.crew_mark}" for line in rest)),
    )
    return " ".join((f"To {member.name}, {member.position}.", count, *filter(None, parts)))


def _sentence(head: str, said: Iterable[str]) -> str:
    every = "; ".join(said)
    return f"{head}: {every}." if every else ""


def _named(line: Line) -> str:
    return f"No {line.number} at {line.time}, {one_line(line.whose)}, {line.item}"


def _did(line: Line) -> str:
    return f" ({one_line(line.did).rstrip('.')})" if line.did else ""


def _talk(line: Line) -> str:
    rule = f" ({line.reference})" if line.reference else ""
    could = f"; what you could have done: {line.could_have_done}" if line.could_have_done else ""
    return f"{_named(line)}, {line.ruling}{rule}: {line.crew_mark}{_did(line)}{could}"
