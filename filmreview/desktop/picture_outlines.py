"""Which kept tags stand on a frame, as outlines to draw: for the picture and for the one beside it. No Qt."""

from __future__ import annotations

from collections.abc import Iterable

from filmreview.desktop.ledger_presenter import LedgerRow
from filmreview.desktop.picture_tags import TagOutline
from filmreview.film.moment import Moment
from filmreview.review.model import PlacedReference, Review


def outlines_at(review: Review, rows: Iterable[LedgerRow], film_id: str, moment: Moment) -> list[TagOutline]:
    """The regions of the tags kept at this moment of this film, with their rulings."""
    known = {row.tag: row for row in rows if row.film == film_id}
    return [
        TagOutline(tag.id, tag.region, known[tag.id].ruling, known[tag.id].ahead, f"{tag.player or '?'} {tag.item}")
        for tag in review.tags
        if tag.id in known and tag.region is not None and tag.moment == moment
    ]


def reference_on(review: Review, film_id: str, moment: Moment) -> PlacedReference | None:
    """The white pointed at on this very frame; None when there is none."""
    return next((one for one in review.references if (one.film, one.moment) == (film_id, moment)), None)
