"""The loop without a screen: its ends, and what the player is told."""

from fractions import Fraction

import pytest

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.loop_gate import LoopGate
from filmreview.desktop.loop_presenter import Loop
from filmreview.film.film import Film
from tests.desktop.desk_fixtures import AtOnce


@pytest.fixture
def told() -> list[LoopGate | None]:
    return []


@pytest.fixture
def loop(desk: Desk, told: list[LoopGate | None]) -> Loop:
    return Loop(desk, told.append)


def ends(gate: LoopGate | None) -> tuple[int, int]:
    assert gate is not None
    return (gate.first, gate.last)


def test_a_start_alone_goes_up_to_the_end_of_the_film(loop: Loop, film: Film, told: list[LoopGate | None]) -> None:
    loop.from_here(film.moment_of(20))
    assert ends(told[-1]) == (20, film.info.frames)
    assert loop.words == "0:00.667 up to the end of the film"
    loop.to_here(film.moment_of(32))
    assert ends(told[-1]) == (20, 32)


def test_an_end_alone_begins_with_the_film(loop: Loop, film: Film, told: list[LoopGate | None]) -> None:
    loop.to_here(film.moment_of(32))
    assert ends(told[-1]) == (0, 32)


def test_an_end_that_another_one_has_passed_goes(loop: Loop, film: Film, told: list[LoopGate | None]) -> None:
    loop.from_here(film.moment_of(20))
    loop.to_here(film.moment_of(32))
    loop.from_here(film.moment_of(40))
    assert ends(told[-1]) == (40, film.info.frames)
    loop.to_here(film.moment_of(10))
    assert ends(told[-1]) == (0, 10)


def test_a_loop_of_no_frame_is_not_set(loop: Loop, desk: Desk, film: Film, told: list[LoopGate | None]) -> None:
    loop.to_here(film.moment_of(0))
    assert (loop.on, told) == (False, [])
    assert "holds none" in desk.last_message


def test_an_end_dragged_comes_out_as_with_its_frame_on_the_picture(
    loop: Loop, desk: Desk, film: Film, told: list[LoopGate | None]
) -> None:
    loop.from_here(film.moment_of(20))
    loop.to_here(film.moment_of(32))
    by_key = (told[-1], desk.last_message)
    loop.from_here(film.moment_of(0))
    loop.drag_to(True, film.time_of(film.moment_of(41)))
    between = Fraction(1, 100)  # a third of a frame on: the same one is on screen
    loop.drag_to(False, film.time_of(film.moment_of(20)) + between)
    loop.drag_to(True, film.time_of(film.moment_of(32)) + between)
    assert (ends(told[-1]), desk.last_message) == (ends(by_key[0]), by_key[1])


def test_an_end_dragged_leaves_a_frame_and_stays_in_the_film(loop: Loop, film: Film, told: list[LoopGate | None]) -> None:
    loop.drag_to(True, Fraction(1))
    assert not loop.on, "there is nothing to drag"
    loop.from_here(film.moment_of(20))
    loop.to_here(film.moment_of(32))
    loop.drag_to(False, film.time_of(film.moment_of(50)))
    assert ends(told[-1]) == (31, 32)
    loop.drag_to(True, Fraction(0))
    assert ends(told[-1]) == (31, 32)
    loop.drag_to(True, film.info.duration)
    assert (ends(told[-1]), loop.end) == ((31, film.info.frames), None)
    loop.drag_to(False, film.info.duration)
    assert ends(told[-1]) == (film.info.frames - 1, film.info.frames)
    loop.drag_to(False, Fraction(0))
    assert ends(told[-1]) == (0, film.info.frames)


def test_off_and_another_film_end_it(loop: Loop, desk: Desk, film: Film, told: list[LoopGate | None]) -> None:
    heard: list[bool] = []
    loop.events.on("loop", lambda: heard.append(loop.on))
    loop.from_here(film.moment_of(20))
    loop.off()
    assert (told[-1], loop.on, loop.words) == (None, False, "")
    loop.from_here(film.moment_of(20))
    desk.take_film(None, None)
    assert (told[-1], loop.on) == (None, False)
    assert heard == [True, False, True, False]


def test_a_loop_that_is_put_off_before_it_is_ready_does_not_come(
    loop: Loop, film: Film, told: list[LoopGate | None], at_once: AtOnce
) -> None:
    at_once.hold = True
    loop.from_here(film.moment_of(20))
    loop.off()
    at_once.let_go()
    assert told == [None]
