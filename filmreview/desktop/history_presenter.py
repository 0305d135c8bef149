"""The history of the review without a screen: every step with when, who and what, and walking back and forth to one of them.

It is read from the review's file, so what was done before a restart is there too. Each step stays one of its own: after going
back over several, all of them can be done again.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.progress import Progress
from filmreview.review.history import Step

STATES = {"done": "done", "undone": "undone, can be done again", "abandoned": "undone, then done otherwise"}
UNNAMED = "observer not named"
By = Callable[[int, Callable[[int], None]], None]
"""Undoes (less than 0) or redoes so many steps, then tells how many were walked; `undo.Undo.by` is one."""


@dataclass(frozen=True)
class HistoryRow:
    """One step. walk: how many steps it takes to make it the last one done, less than 0 to undo; None when it cannot be.
    who_told: who it was, and where there is only a login, that one and how to name oneself."""

    number: int
    when: str
    who: str
    what: str
    state: str
    walk: int | None
    who_told: str = ""

    @property
    def walk_words(self) -> str:
        """What choosing it does: "undo 3 steps, back to this one"; "" when nothing is to be done."""
        if not self.walk:
            return ""
        many = f"{abs(self.walk)} step{'s' if abs(self.walk) != 1 else ''}"
        return f"undo {many}, back to this one" if self.walk < 0 else f"redo {many}, up to this one"

    def holds(self, words: Sequence[str]) -> bool:
        """True when every word (folded) stands somewhere in the row."""
        text = " ".join((self.when, self.who, self.who_told, self.what, self.state)).casefold()
        return all(word in text for word in words)


class HistoryPresenter:
    """The steps of the open review, the newest first. by: walks. login: gives the name that stands in the file where the person
    has given none, "" where that name is his own too. Events: "history" when they have changed."""

    def __init__(self, desk: Desk, by: By, login: Callable[[], str] = lambda: "") -> None:
        self._desk, self._by, self._login = desk, by, login
        self.events = Events("history")
        self.rows: tuple[HistoryRow, ...] = ()
        self._looked_at = False
        desk.events.on("review", self._read)

    def look(self, looked_at: bool) -> None:
        """Somebody looks at the history, or no longer does; it is read only then."""
        self._looked_at = looked_at
        self._read()

    def go_to(self, number: int) -> None:
        """Make this step the last one done: undo what came after it, or redo up to it."""
        row = next((row for row in self.rows if row.number == number), None)
        if row is None or not row.walk:
            self._desk.message("nothing to undo or redo there" if row else "that step is no longer known")
            return
        wanted = row.walk

        def walked(many: int) -> None:
            done, back = ("undone", "redo") if wanted < 0 else ("redone", "undo")
            self._desk.message(f"{done}: {many} step{'s' if many != 1 else ''}; {back} takes them back one by one")

        self._by(wanted, walked)

    def _read(self) -> None:
        store = self._desk.store
        if not self._looked_at:
            return
        if store is None:
            self._take(())
            return

        login = self._login()

        def work(_progress: Progress) -> tuple[HistoryRow, ...]:
            stand_in = "" if login == store.review.game.observer else login
            return tuple(_rows(store.history(), stand_in))

        def take(rows: tuple[HistoryRow, ...]) -> None:
            if store is self._desk.store:  # another review may have been opened meanwhile
                self._take(rows)

        self._desk.in_turn(work, take, lambda error: self._desk.message(str(error)))

    def _take(self, rows: tuple[HistoryRow, ...]) -> None:
        self.rows = rows
        self.events.tell("history")


def _rows(steps: Sequence[Step], login: str) -> list[HistoryRow]:
    """The newest first. The last step that is done is where the review stands. login: nobody's name, "" for none such."""
    done = [step.number for step in steps if step.state == "done"]
    undone = [step.number for step in steps if step.state == "undone"]
    walks = {number: place + 1 - len(done) for place, number in enumerate(done)}
    walks |= {number: place + 1 for place, number in enumerate(undone)}
    return [_row(step, walks.get(step.number), login) for step in reversed(steps)]


def _row(step: Step, walk: int | None, login: str) -> HistoryRow:
    state = STATES[step.state] if walk != 0 else "done, the review stands here"
    if step.state != "done":
        state += f" ({local_time(step.state_at)}, {_name(step.state_who, login)})"
    name = _name(step.who, login)
    told = f"{UNNAMED} (login {step.who}: Review, Settings takes a name)" if name == UNNAMED else name
    return HistoryRow(step.number, local_time(step.at), name, step.words, state, walk, told)


def _name(who: str, login: str) -> str:
    return UNNAMED if login and who == login else who


def local_time(at: str) -> str:
    """A moment of UTC, as kept, as this machine's clock reads it: "2026-01-14 20:15:07"."""
    return datetime.fromisoformat(at).astimezone().strftime("%Y-%m-%d %H:%M:%S")
