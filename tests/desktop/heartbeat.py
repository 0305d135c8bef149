"""How long the window's event loop is blocked: a timer that should fire every few milliseconds, and by how much it is late.

The machine may be busy with other things, and then everything is late. So a second process that does nothing but sleep keeps
the same beat, and what it is late by at the same time is not counted as the window's. Both read the system's monotonic clock.
"""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, field

from PyQt6.QtCore import Qt, QTimer

BEAT = 0.005
_LATE = 0.010  # what the second process counts as late

_BESIDE = f"""
import sys, time
last = time.monotonic()
sys.stdout.write("ready\\n")
sys.stdout.flush()
while True:
    time.sleep({BEAT})
    now = time.monotonic()
    if now - last > {_LATE}:
        sys.stdout.write(f"{{last}} {{now}}\\n")
        sys.stdout.flush()
    last = now
"""

Stretch = tuple[float, float]


@dataclass
class Blocked:
    """A time in which the window did not beat. seconds: of it, without what the second process was late by. doing: what the
    journey did."""

    start: float
    end: float
    doing: str
    seconds: float = 0.0


@dataclass
class Heartbeat:
    """Beats from `start` to `stop`; `blocked` holds the stretches then, the longest first."""

    doing: str = ""
    blocked: list[Blocked] = field(default_factory=list)
    beats: int = 0
    _beside: subprocess.Popen[str] | None = None

    def start(self) -> None:
        """Begin to beat."""
        self._beside = subprocess.Popen([sys.executable, "-c", _BESIDE], stdout=subprocess.PIPE, text=True)
        assert self._beside.stdout is not None
        self._beside.stdout.readline()
        self._timer = QTimer()
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._beat)
        self._last = time.monotonic()
        self._timer.start(round(BEAT * 1000))

    def stop(self) -> None:
        """Stop, and take off what was the machine's own; a second time does nothing."""
        if self._beside is None:
            return
        self._timer.stop()
        time.sleep(3 * BEAT)
        self._beside.terminate()
        assert self._beside.stdout is not None
        lines = [line.split() for line in self._beside.stdout.read().splitlines()]
        self._beside.stdout.close()
        self._beside.wait()
        self._beside = None
        late = [(float(start) + BEAT, float(end)) for start, end in (line for line in lines if len(line) == 2)]
        for one in self.blocked:
            one.seconds = one.end - one.start - overlap((one.start, one.end), late)
        self.blocked.sort(key=lambda one: -one.seconds)

    def longest(self, doing: str) -> float:
        """Seconds of the longest stretch while the journey did this."""
        return max((one.seconds for one in self.blocked if one.doing == doing), default=0.0)

    def _beat(self) -> None:
        now = time.monotonic()
        self.beats += 1
        if now - self._last > 2 * BEAT:
            self.blocked.append(Blocked(self._last + BEAT, now, self.doing))
        self._last = now


def overlap(one: Stretch, others: Sequence[Stretch]) -> float:
    """Seconds of one stretch that others, which do not overlap each other, cover."""
    return sum(max(0.0, min(one[1], end) - max(one[0], start)) for start, end in others)
