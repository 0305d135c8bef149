"""What the exit codes of each command mean, as its help tells it."""

from __future__ import annotations

STOPPED_WORDS = "130 stopped by hand"
_CHECKS = {
    "demo": "a ruling of the sheet differs from the truth",
    "rule": "something expected does not hold",
    "books check": "a case does not come out as it expects",
    "replies": "something is not as it was sent",
    "films": "--find did not find every film, or the instant of --at is on no other film",
    "lesson results": "a file was not taken",
    "doctor": "something is missing that everything needs",
}
"""The commands with a check that may not hold (1), and what that is."""
_OPEN = ("measure", "findings")


def exit_words(command: str) -> str:
    """One line on the exit codes of a command."""
    done = "0 done, also where it cannot be told" if command in _OPEN else "0 done"
    check = [f"1 {_CHECKS[command]}"] if command in _CHECKS else []
    return f"Exit codes: {'; '.join((done, *check, '2 bad input', STOPPED_WORDS))}."


ALL_WORDS = f"Exit codes: 0 done; 1 a check did not hold; 2 bad input; {STOPPED_WORDS}."
