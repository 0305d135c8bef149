"""How work on the review's file is asked for: in turn, beside the window. No Qt."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol

from filmreview.errors import FilmReviewError
from filmreview.progress import Progress

Failed = Callable[[FilmReviewError], None]


class InTurn(Protocol):
    """Does work when all that was asked before is done; `jobs.Jobs.in_turn` is one."""

    def __call__(
        self, work: Callable[[Progress], Any], then: Callable[[Any], None] = ..., failed: Failed | None = None
    ) -> object:
        """Do it in turn; then gets its answer, failed its fault, both on the caller's thread."""
