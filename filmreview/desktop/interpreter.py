"""How this program's process is set up for a window that must stay free beside busy threads and big pictures. No Qt."""

from __future__ import annotations

import contextlib
import ctypes
import sys

SWITCH_SECONDS = 0.001
"""How soon a busy job lets the window's thread go on (Python's own 5 ms add up to a jerk when two jobs run)."""
_BIG = 1 << 20  # bytes from which on a block goes back to the system as soon as it is freed
_MMAP_THRESHOLD = -3  # M_MMAP_THRESHOLD of mallopt(3)


def set_up() -> None:
    """Let threads take turns quickly, and have freed pictures go back to the system.

    The GNU library keeps ever bigger freed blocks for each thread that made one, since its threshold grows by itself
    (mallopt(3)): with a film of 720 lines that is more than 100 MB for nothing. Other systems' libraries are left as they are.
    """
    sys.setswitchinterval(SWITCH_SECONDS)
    if sys.platform == "linux":
        with contextlib.suppress(OSError, AttributeError):  # another C library
            ctypes.CDLL(None).mallopt(_MMAP_THRESHOLD, _BIG)
