"""What editions of rules and of costs have alike: a first day, the day it became known, sources."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from itertools import pairwise
from typing import Protocol

from filmreview.errors import FilmReviewError, unknown
from filmreview.rules.strict import Table


class Dated(Protocol):
    """What starts on a day."""

    @property
    def starts(self) -> date:
        """Its first day."""


def in_order(dated: Sequence[Dated], where: str) -> None:
    """Refuse editions that are not in the order of their first days, or two of one day."""
    for place, (one, two) in enumerate(pairwise(dated), 2):
        spot = f"{where}, edition {place}, from"
        if one.starts == two.starts:
            raise FilmReviewError(f"a second edition from {two.starts}", where=spot, todo="put both into one edition")
        if one.starts > two.starts:
            raise FilmReviewError(
                f"{two.starts} stands after {one.starts}", where=spot, todo="put the editions in the order of their first days"
            )


def source_text(table: Table, sources: Mapping[str, str] | None) -> str:
    """The sources of an edition in full; every code must be in sources.toml."""
    if sources is None:
        return table.text("source")
    table.need("source")
    for code in table.texts("source"):
        if code not in sources:
            raise unknown("source", code, sources, where=table.at("source"))
    return "; ".join(sources[code] for code in table.texts("source"))


def published(table: Table, starts: date) -> date | None:
    """The day an edition was published, which is before it starts."""
    known = table.day_or_none("published")
    if known is not None and known > starts:
        raise FilmReviewError(f"{known} is after the first day", where=table.at("published"), todo="correct one of the days")
    return known
