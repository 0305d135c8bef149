"""The region on the picture and the tag on the card, joined, without a screen."""

from collections.abc import Callable
from types import SimpleNamespace

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.region_work import RegionWork
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.film.film import Film


class Drawn:
    """A signal of the canvas."""

    def __init__(self) -> None:
        self.tell: Callable[..., object] = lambda *_given: None

    def connect(self, to: Callable[..., object]) -> None:
        self.tell = to


def test_a_region_drawn_while_a_tag_is_kept_is_a_step_of_its_own_tag_or_of_none(
    desk: Desk, film: Film, monkeypatch: pytest.MonkeyPatch
) -> None:
    card = CardPresenter(desk)
    shown: list[object] = []
    canvas = SimpleNamespace(region_drawn=Drawn(), region_changed=Drawn(), region_dropped=Drawn(), set_region=shown.append)
    frame = film.frame(0)
    place = SimpleNamespace(frame=frame, on_frame=lambda do: do(frame))
    work = RegionWork(canvas, desk, card, place, lambda: None)  # type: ignore[arg-type] - a canvas without a screen
    first, second = Box(10, 10, 30, 30), Box(40, 40, 60, 60)

    def keep_and_draw() -> tuple[Callable[..., None], Callable[..., None]]:
        ways: list[tuple[Callable[..., None], Callable[..., None]]] = []
        with monkeypatch.context() as slow_disk:
            slow_disk.setattr(desk, "_push", lambda _change, then, failed: ways.append((then, failed)))
            card.keep()
        canvas.region_drawn.tell(second)
        return ways[0]

    canvas.region_drawn.tell(first)
    card.type("v14 arm sleeve orange")
    _kept, refused = keep_and_draw()
    refused(FilmReviewError("the disk is full"))
    assert card.draft is not None
    assert card.draft.region == first
    assert shown[-1] == first
    assert work.back() == "draw the region"
    assert work.history.undo_words == ""

    work.history.again()
    kept, _refused = keep_and_draw()
    kept(("t1",))
    assert card.draft.region == second
    assert work.history.undo_words == "draw the region"
