"""How long the window's event loop is blocked: a timer that should fire every few milliseconds, and by how much it is late.

The machine may be busy with other things, and then everything is late. The kernel tells for each thread how long it was ready
to run and had to wait for a processor (Linux, `/proc/self/task/*/schedstat`, second figure, in nanoseconds): what the window's
thread waited so is not counted as blocked, nor what a thread waited that may have kept the interpreter from it meanwhile.
What the window's thread worked always counts. Elsewhere the clock alone counts.
"""

from __future__ import annotations

import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

from PyQt6.QtCore import Qt, QTimer

BEAT = 0.005
_TASKS = Path("/proc/self/task")


@dataclass(frozen=True)
class Blocked:
    """A time in which the window did not beat. doing: what the journey did. late: seconds by the clock. worked: of them, the
    window's thread was running; waited: it was ready and had no processor; beside: the longest that another thread of this
    process had none."""

    doing: str
    late: float
    worked: float
    waited: float
    beside: float

    @property
    def seconds(self) -> float:
        """How long the window's thread, or one that kept the interpreter from it, was really at something."""
        return max(min(self.worked, self.late), self.late - self.waited - self.beside)

    def __str__(self) -> str:
        """In a line."""
        figures = (self.seconds, self.late, self.worked, self.waited, self.beside)
        blocked, late, worked, waited, beside = (round(1000 * one) for one in figures)
        return f"{self.doing}: {blocked} ms ({late} by the clock, worked {worked}, waited {waited}, other threads {beside})"


@dataclass
class Heartbeat:
    """Beats from `start` to `stop`; `blocked` holds what was late, the longest first."""

    doing: str = ""
    blocked: list[Blocked] = field(default_factory=list)
    beats: int = 0
    _timer: QTimer | None = None
    _last: float = 0.0
    _worked: float = 0.0
    _waits: dict[int, int] = field(default_factory=dict)

    def start(self) -> None:
        """Begin to beat."""
        self._own = threading.get_native_id()
        self._timer = QTimer()
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._beat)
        self._waits = waits()
        self._last, self._worked = time.monotonic(), time.thread_time()
        self._timer.start(round(BEAT * 1000))

    def stop(self) -> None:
        """Stop; a second time does nothing."""
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
            self.blocked.sort(key=lambda one: -one.seconds)

    def longest(self, doing: str = "") -> float:
        """Seconds of the longest time blocked while the journey did this; "" for all of it."""
        return max((one.seconds for one in self.blocked if doing in ("", one.doing)), default=0.0)

    def _beat(self) -> None:
        now, before, self._waits = time.monotonic(), self._waits, waits()
        late = now - self._last - BEAT
        if late > BEAT:
            since = {one: (told - before.get(one, 0)) / 1e9 for one, told in self._waits.items()}
            worked = time.thread_time() - self._worked
            own = since.pop(self._own, 0.0)
            self.blocked.append(Blocked(self.doing, late, worked, own, max(since.values(), default=0.0)))
        self._last, self._worked = time.monotonic(), time.thread_time()
        self.beats += 1


def waits() -> dict[int, int]:
    """Nanoseconds that each thread of this process waited for a processor so far; nothing where the system does not tell."""
    told: dict[int, int] = {}
    for task in _TASKS.glob("*") if _TASKS.is_dir() else ():
        try:
            told[int(task.name)] = int((task / "schedstat").read_bytes().split()[1])
        except (OSError, IndexError):  # it has ended meanwhile
            continue
    return told
