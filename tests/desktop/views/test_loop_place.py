"""The loop joined to the player: whoever pauses while it is made ready has it paused."""

from types import SimpleNamespace

import pytest
from PyQt6.QtCore import QObject, pyqtSignal

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.loop_place import LoopPlace
from filmreview.film.film import Film
from tests.desktop.desk_fixtures import AtOnce


class Hand(QObject):
    """Stands in for a signal's place."""

    playing_changed = pyqtSignal(bool)
    pressed = pyqtSignal()
    dragged = pyqtSignal(bool, object)
    dragging = pyqtSignal(bool, object)
    left = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self.playing = False

    def play(self) -> None:
        self._set(True)

    def pause(self) -> None:
        self._set(False)

    def set_loop(self, _gate: object) -> None:
        pass

    def _set(self, playing: bool) -> None:
        changed, self.playing = playing != self.playing, playing
        if changed:
            self.playing_changed.emit(playing)


def joined_to(player: Hand, desk: Desk, film: Film) -> LoopPlace:
    """The loop beside this player, on whose picture is frame 5."""
    place = SimpleNamespace(on_frame=lambda do: do(film.frame(5)))
    bar = SimpleNamespace(
        loop_from_here=player.pressed, loop_to_here=player.pressed, loop_off=player.pressed, show_loop=lambda _words: None
    )
    strip = SimpleNamespace(
        set_loop=lambda _span: None,
        loop_end_wanted=player.dragged,
        loop_end_dragged=player.dragging,
        loop_end_left=player.left,
    )
    return LoopPlace(desk, place, player, bar, strip)  # type: ignore[arg-type] - only what it uses of them


@pytest.mark.parametrize("person", ["leaves it", "pauses"])
@pytest.mark.parametrize("way", ["key", "drag"])
def test_it_plays_on_unless_the_person_paused_meanwhile(desk: Desk, film: Film, at_once: AtOnce, person: str, way: str) -> None:
    player = Hand()
    joined = joined_to(player, desk, film)
    joined.to_here()
    player.play()
    at_once.hold = True
    if way == "key":
        joined.from_here()
    else:
        player.dragged.emit(True, film.time_of(film.moment_of(20)))
    assert not player.playing
    if person == "pauses":
        player.play()  # the first press finds it paused for the loop's sake
        player.pause()
    at_once.hold = False
    at_once.let_go()
    assert player.playing == (person == "leaves it")


def test_the_status_bar_goes_along_with_a_drag_and_back(desk: Desk, film: Film, at_once: AtOnce) -> None:
    player = Hand()
    joined = joined_to(player, desk, film)
    joined.to_here()
    before = desk.last_message
    at_once.hold = True  # what is only shown makes nothing ready
    player.dragging.emit(True, film.time_of(film.moment_of(20)))
    assert desk.last_message == "the loop: 0:00.000 up to 0:00.667"
    assert joined.loop.end == film.moment_of(5)
    player.left.emit()
    assert desk.last_message == before == "the loop: 0:00.000 up to 0:00.167"
