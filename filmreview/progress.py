"""How long work tells how far it is, and how it is stopped.

Long work takes a `Progress` and calls it with the share done (0 to 1) and a few words. To stop the work the callable raises
`filmreview.errors.Stopped`; the work cleans up and lets it through.
"""

from __future__ import annotations

from collections.abc import Callable

Progress = Callable[[float, str], None]


def silent(share: float, words: str) -> None:
    """Progress that nobody watches. share: 0 to 1. words: what is being done."""
