"""What the desk says of the white that a colour was measured against. One word for it everywhere: white. No Qt."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from filmreview.desktop.measuring import White
from filmreview.film.moment import Moment
from filmreview.review.model import PlacedReference

NO_WHITE, WITH_WHITE, WHITE_ELSEWHERE = "without a white", "against a white", "against a white in another view"
IN_ANOTHER_VIEW = ", in another view"
NONE_YET = "no white pointed at yet"


def light_words(white: bool, elsewhere: bool) -> str:
    """What a colour was measured against. elsewhere: that white stands in another camera view."""
    if not white:
        return NO_WHITE
    return WHITE_ELSEWHERE if elsewhere else WITH_WHITE


def white_words(white: White | None, whites: Sequence[PlacedReference], time_of: Callable[[Moment], str]) -> str:
    """The white that a region was measured against; where that is none, what there is to measure against."""
    if white is not None:
        return f"against the white at {time_of(white.reference.moment)}{IN_ANOTHER_VIEW if white.elsewhere else ''}"
    if len(whites) == 1:
        return f"one white pointed at ({time_of(whites[0].moment)})"
    return f"{len(whites)} whites pointed at" if whites else NONE_YET
