"""A letter for each official, built from the findings that are theirs: nothing in it that is not on the sheet.

The observer may write another in its place; it is then given as written.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from filmreview.review.model import CrewMember
from filmreview.sheets import sheet_words as words
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
    """The letter from the findings of one official, a line each."""
    whose = official_words((member,), member.position)
    theirs = [line for line in lines if line.official == whose]
    if not theirs:
        return f"To {member.name}, {member.position}. No finding of this game is yours alone."
    done = [line for line in theirs if line.crew_mark in _DONE]
    open_lines = [line for line in theirs if line.crew_mark in _OPEN and line.ruling != "cannot be told"]
    rest = [line for line in theirs if line not in done and line not in open_lines]
    return "\n".join(
        (
            f"To {member.name}, {member.position}. {_count(len(theirs), len(lines))}",
            *_part("Done as the book asks", (f"{_named(line)}{_did(line)}" for line in done)),
            *_part("To talk about", (_talk(line) for line in open_lines)),
            *_part("Nothing follows for you from", (f"{_named(line)}: {line.ruling}, {line.crew_mark}" for line in rest)),
        )
    )


def _count(theirs: int, every: int) -> str:
    if every == 1:
        return "The one finding of this game is yours."
    if theirs == every:
        return f"All {every} findings of this game are yours."
    return f"{theirs} of the {every} findings of this game {'is' if theirs == 1 else 'are'} yours."


def _part(head: str, said: Iterable[str]) -> tuple[str, ...]:
    """A head with its findings, a line each; nothing without any."""
    every = tuple(f"- {one.rstrip('.')}." for one in said)
    return (f"{head}:", *every) if every else ()


def _named(line: Line) -> str:
    return f"No {line.number} at {line.time}, {one_line(line.whose)}, {line.item}"


def _did(line: Line) -> str:
    return f" ({one_line(line.did).rstrip('.')})" if line.did else ""


def _talk(line: Line) -> str:
    rule = f" ({line.reference})" if line.reference else ""
    could = _could(line)
    return f"{_named(line)}, {line.ruling}{rule}: {line.crew_mark}{_did(line)}{'. ' if could else ''}{could}"


def _could(line: Line) -> str:
    """The case that counts; where the facts leave several, only what it hangs on: the sheet beside gives them all."""
    if line.could_have_done and line.could_have_done == line.todo and line.hangs_on:
        return f"What you could have done hangs on {line.hangs_on}: that was not put down, the sheet gives each case"
    return words.could_sentence(line.could_have_done)
