"""Which points are being asked of the picture while something is measured by hand. No Qt."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from filmreview.measure.ends import Point

Placed = tuple[Point | None, ...]
THE_FLOOR = "the floor, by court points"
OWN_SIZE = "a size that you know"


class Step(Enum):
    """What is being placed: first what the size is known by, then the item."""

    KNOWN = "known"
    ITEM = "item"


@dataclass(frozen=True)
class Asked:
    """The points wanted of the picture: their names, where they are already, whether they make a closed figure."""

    names: tuple[str, ...]
    at: Placed = ()
    closed: bool = False

    @property
    def whole(self) -> bool:
        """Whether all of them are placed."""
        return len(self.at) == len(self.names) and None not in self.at
