"""A loop on real films through both sources: nothing from outside it is ever painted, at any rate."""

import itertools
from collections.abc import Callable, Iterator
from fractions import Fraction

import numpy as np
import pytest
from pytestqt.qtbot import QtBot

from filmreview.desktop import qt_playback
from filmreview.desktop.loop_gate import LoopWatch, Verdict, loop_gate
from filmreview.desktop.player import Player
from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.film.playback import Shown
from filmreview.film.vlc_playback import vlc_trouble
from fixtures.films.burnt import read_number
from fixtures.films.made import film as made_film

TIMEOUT = 20_000


class Looped:
    """A player of one film, and the numbers burnt into all it painted."""

    def __init__(self, qtbot: QtBot, source: str, name: str) -> None:
        self.qtbot = qtbot
        self.player = Player(wanted_source=source)
        self.film = open_film(made_film(name))
        self.painted: list[int | None] = []
        self.player.picture_shown.connect(self._paint)
        self.player.open(self.film)
        self.stand()

    def _paint(self, picture: np.ndarray | None) -> None:
        if picture is not None:
            self.painted.append(read_number(picture))

    def stand(self) -> None:
        self.qtbot.waitUntil(lambda: self.player.frame is not None, timeout=TIMEOUT)

    def loop(self, first: int, last: int | None) -> None:
        end = self.film.moment_of(last) if last is not None else None
        self.player.set_loop(loop_gate(self.film, self.film.moment_of(first), end))

    def passes(self) -> int:
        """How often it began anew."""
        seen = [number for number in self.painted if number is not None]
        return sum(after < before for before, after in itertools.pairwise(seen))

    def play_through(self, passes: int) -> list[int | None]:
        self.painted.clear()
        self.player.play()
        self.qtbot.waitUntil(lambda: self.passes() >= passes, timeout=TIMEOUT)
        self.player.pause()
        self.stand()
        return self.painted


@pytest.fixture(params=["built-in", "vlc"])
def source(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Built-in playback, which plays loops wherever it works, or libvlc where it does not."""
    if request.param == "vlc":
        if vlc_trouble() is not None:
            pytest.skip(f"playback by libvlc: {vlc_trouble()}")
        monkeypatch.setattr(qt_playback, "built_in_trouble", lambda: "not here")
    return request.param


@pytest.fixture
def looped(qtbot: QtBot, source: str) -> Iterator[Callable[[str], Looped]]:
    made: list[Looped] = []

    def make(name: str) -> Looped:
        made.append(Looped(qtbot, source, name))
        return made[-1]

    yield make
    for one in made:
        one.player.close()


def test_nothing_from_outside_the_loop_is_painted(looped: Callable[[str], Looped], source: str) -> None:
    on = looped("constant.mp4")
    on.loop(20, 32)
    for rate in (0.25, 1.0, 2.0) if source == "built-in" else (1.0, 2.0):  # libvlc at 0.25: the same, but 2 s before each pass
        on.player.set_rate(rate)
        painted = on.play_through(2)
        assert None not in painted
        assert {number for number in painted if number is not None} <= set(range(20, 32)), rate
        assert on.player.source_name == source
        assert on.player.frame is not None
        assert 20 <= on.player.frame.number < 32, "a pause stands in the loop too"


def test_playing_goes_on_from_a_frame_inside_and_to_the_start_from_outside(looped: Callable[[str], Looped]) -> None:
    on = looped("constant.mp4")
    on.player.jump(on.film.moment_of(26))
    on.stand()
    on.loop(20, 32)
    first = on.play_through(1)[0]
    assert first is not None
    assert first >= 26
    on.player.jump(on.film.moment_of(40))
    on.stand()
    assert on.play_through(1)[0] in range(20, 26)


def test_a_loop_up_to_the_film_s_end_and_one_put_off(looped: Callable[[str], Looped]) -> None:
    on = looped("constant.mp4")
    last = on.film.info.frames
    on.loop(last - 12, None)
    assert set(on.play_through(2)) <= set(range(last - 12, last))
    on.player.set_loop(None)
    on.player.jump(on.film.moment_of(last - 12))
    on.stand()
    ended: list[bool] = []
    on.player.ended.connect(lambda: ended.append(True))
    on.player.play()
    on.qtbot.waitUntil(lambda: bool(ended), timeout=TIMEOUT)
    on.stand()


def test_a_loop_is_played_by_the_built_in_source_and_other_film_by_the_wanted_one(qtbot: QtBot) -> None:
    if vlc_trouble() is not None:
        pytest.skip(f"playback by libvlc: {vlc_trouble()}")
    on = Looped(qtbot, "vlc", "constant.mp4")
    on.loop(20, 32)
    on.play_through(1)
    assert on.player.source_name == "built-in"
    on.player.set_loop(None)
    count = len(on.painted)
    on.player.play()
    qtbot.waitUntil(lambda: len(on.painted) > count + 3, timeout=TIMEOUT)
    assert on.player.source_name == "vlc"
    on.player.close()


def test_another_film_has_no_loop(looped: Callable[[str], Looped]) -> None:
    on = looped("constant.mp4")
    on.loop(20, 32)
    other = open_film(made_film("variable.mp4"))
    on.player.open(other)
    on.stand()
    on.painted.clear()
    on.player.play()
    on.qtbot.waitUntil(lambda: len(on.painted) > 3, timeout=TIMEOUT)
    on.player.pause()
    on.stand()


def test_the_picture_decides_where_the_time_leaves_it_open() -> None:
    with open_film(made_film("constant.mp4")) as film:
        gate = loop_gate(film, film.moment_of(20), film.moment_of(32))
        for number in range(24, 37):
            picture = film.frame(number).picture()
            for off in (Fraction(-1, 10), Fraction(0), Fraction(1, 10)):
                seconds = film.time_of(film.moment_of(number)) + off
                assert gate.past(picture, seconds, Fraction(1, 5)) == (number >= 32), (number, off)
        for number in range(14, 27):
            picture = film.frame(number).picture()
            for off in (Fraction(-1, 10), Fraction(0), Fraction(1, 10)):
                seconds = film.time_of(film.moment_of(number)) + off
                assert gate.early(picture, seconds, Fraction(1, 5)) == (number < 20), (number, off)


def test_a_source_that_begins_late_by_its_own_clock_is_put_right() -> None:
    # As libvlc does: sent to the start, it hands over two old pictures, and its time has run on meanwhile.
    with open_film(made_film("constant.mp4")) as film:
        watch = LoopWatch(loop_gate(film, film.moment_of(20), film.moment_of(32)))
        watch.begin_again(1.0)
        said = []
        for place, number in enumerate([33, 34, 19, *range(20, 34)]):
            late = film.time_of(film.moment_of(20)) + place * film.time_of(film.moment_of(1)) + Fraction(9, 10)
            said.append((number, watch.judge(Shown(film.frame(number).picture(), late, Fraction(1, 5)))))
        assert [number for number, verdict in said if verdict is Verdict.PAINT] == list(range(20, 32))
        assert [number for number, verdict in said if verdict is Verdict.AGAIN] == [32, 33]


def test_a_loop_of_no_frame_is_refused() -> None:
    with open_film(made_film("constant.mp4")) as film, pytest.raises(FilmReviewError, match="holds no frame"):
        loop_gate(film, film.moment_of(20), film.moment_of(20))
