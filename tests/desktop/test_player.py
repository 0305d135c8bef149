"""The player on real films through both sources: whatever is done, it stands on exactly the frame that was seen."""

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from pytestqt.qtbot import QtBot

from filmreview.desktop import player as player_module
from filmreview.desktop.player import Player
from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.film.moment import Moment
from filmreview.film.playback import RATES, SOURCES
from filmreview.film.vlc_playback import vlc_trouble
from fixtures.films.burnt import read_number
from fixtures.films.made import film as made_film
from fixtures.films.made import truth

TIMEOUT = 8000


class Screen:
    """A player, and everything that reached the screen."""

    def __init__(self, qtbot: QtBot, player: Player) -> None:
        self.qtbot, self.player = qtbot, player
        self.painted: list[np.ndarray] = []
        self.troubles: list[str] = []
        self.times: list[Fraction] = []
        player.picture_shown.connect(self._paint)
        player.trouble.connect(self.troubles.append)
        player.time_changed.connect(self.times.append)

    def _paint(self, picture: np.ndarray | None) -> None:
        if picture is not None:
            self.painted.append(picture)

    def open(self, name: str) -> None:
        self.player.open(open_film(made_film(name)))
        self.stands()

    def stands(self) -> int:
        """Wait for the exact frame; its number."""
        self.qtbot.waitUntil(lambda: self.player.frame is not None, timeout=TIMEOUT)
        assert self.player.frame is not None
        assert (self.painted[-1] == self.player.frame.picture()).all()
        return self.player.frame.number

    def plays(self, pictures: int = 4) -> None:
        """Play until so many pictures were painted."""
        count = len(self.painted)
        self.player.play()
        assert self.player.frame is None
        self.qtbot.waitUntil(lambda: len(self.painted) >= count + pictures, timeout=TIMEOUT)

    def number(self) -> int | None:
        """The number burnt into what is on the screen now."""
        return read_number(self.painted[-1])


@pytest.fixture(params=SOURCES)
def source(request: pytest.FixtureRequest) -> str:
    if request.param == "vlc" and vlc_trouble() is not None:
        pytest.skip(f"playback by libvlc: {vlc_trouble()}")
    return request.param


@pytest.fixture
def make_screen(qtbot: QtBot) -> Iterator[Callable[[str | None], Screen]]:
    players = []

    def make(source: str | None) -> Screen:
        players.append(Player(wanted_source=source))
        return Screen(qtbot, players[-1])

    yield make
    for player in players:
        player.close()
        player.deleteLater()


@pytest.fixture
def screen(make_screen: Callable[[str | None], Screen], source: str) -> Screen:
    """For what depends on the source."""
    return make_screen(source)


@pytest.fixture
def still(make_screen: Callable[[str | None], Screen]) -> Screen:
    """For what does not play at all."""
    return make_screen("built-in")


# Playing


@pytest.mark.parametrize("name", ["constant.mp4", "variable.mp4", "interlaced.mp4"])
def test_a_pause_stands_on_the_frame_that_was_seen(screen: Screen, source: str, name: str) -> None:
    screen.open(name)
    for pictures in (3, 8, 5):
        screen.plays(pictures)
        screen.player.pause()
        seen = screen.number()
        assert truth(name)["numbers"][screen.stands()] == seen == screen.number()
    assert screen.player.source_name == source


def test_plays_on_from_where_it_stood(screen: Screen) -> None:
    screen.open("constant.mp4")
    for number in (50, 20, 35):
        screen.player.jump_to(screen.player.film.time_of(screen.player.film.moment_of(number)))
        assert screen.stands() == number
        count = len(screen.painted)
        screen.plays()
        screen.player.pause()
        first = read_number(screen.painted[count])
        assert first in range(number, number + 6)  # not where the source was before
        assert screen.stands() >= number


def test_an_edit_list_s_run_up_is_not_shown(screen: Screen) -> None:
    screen.open("edit-list.mp4")
    screen.plays(6)
    screen.player.pause()
    screen.stands()
    told = truth("edit-list.mp4")["numbers"]
    assert {read_number(picture) for picture in screen.painted} <= set(told)


def test_a_step_while_playing_goes_from_the_frame_seen(screen: Screen) -> None:
    screen.open("constant.mp4")
    for count in (1, -1, 3):
        screen.plays()
        screen.player.step(count)
        seen = screen.number()
        assert screen.stands() == seen + count
        assert not screen.player.playing


def test_the_end_stands_on_the_last_frame_and_play_begins_anew(screen: Screen) -> None:
    screen.open("constant.mp4")
    last = screen.player.film.info.frames - 1
    screen.player.step(last - 12)
    screen.stands()
    with screen.qtbot.waitSignal(screen.player.ended, timeout=TIMEOUT):
        screen.player.play()
    assert screen.stands() == last
    assert not screen.player.playing
    count = len(screen.painted)
    screen.plays()
    assert read_number(screen.painted[count]) in range(6)


def test_a_pause_before_the_first_picture_stays_where_it_was(screen: Screen) -> None:
    screen.open("constant.mp4")
    screen.player.step(7)
    screen.stands()
    screen.player.play()
    screen.player.pause()
    assert screen.stands() == 7


def test_time_runs_while_playing_and_is_exact_when_paused(screen: Screen) -> None:
    screen.open("variable.mp4")
    screen.plays(10)
    screen.player.pause()
    number = screen.stands()
    film = screen.player.film
    assert screen.times[-1] == screen.player.time == film.time_of(film.moment_of(number))
    running = screen.times[1:-1]
    assert running[-1] > running[0]
    assert abs(running[-1] - screen.times[-1]) < 1


def test_rate_and_sound_hold_before_and_while_playing(screen: Screen) -> None:
    told: list[object] = []
    screen.player.rate_changed.connect(told.append)
    screen.player.sound_changed.connect(told.append)
    screen.open("two-tracks.mp4")
    screen.player.set_rate(0.25)
    screen.player.set_sound(False)
    screen.plays(3)
    screen.player.set_sound(True)
    screen.player.set_rate(0.5)
    screen.plays(0)
    count = len(screen.painted)
    screen.qtbot.waitUntil(lambda: len(screen.painted) > count + 2, timeout=TIMEOUT)
    assert told == [0.25, False, True, 0.5]
    assert (screen.player.rate, screen.player.sound) == (0.5, True)
    assert screen.player.rates == RATES


# Standing


def test_opening_stands_on_the_first_frame(still: Screen) -> None:
    still.open("constant.mp4")
    assert still.number() == still.player.frame.number == 0
    assert still.player.time == 0
    assert still.player.source_name is None


def test_steps_are_exact_and_end_at_the_film_s_ends(still: Screen) -> None:
    still.open("variable.mp4")
    last = still.player.film.info.frames - 1
    for count, number in ((1, 1), (1, 2), (-1, 1), (-5, 0), (30, 30), (500, last), (1, last), (-1, last - 1)):
        still.player.step(count)
        assert still.stands() == still.number() == number


def test_many_steps_at_once_all_count(still: Screen) -> None:
    still.open("constant.mp4")
    for _ in range(40):
        still.player.step(1)
    for _ in range(15):
        still.player.step(-1)
    assert still.stands() == 25


def test_jumps_are_exact(still: Screen) -> None:
    still.open("b-frames.mp4")
    film = still.player.film
    for number in (70, 3, 44):
        still.player.jump(film.moment_of(number))
        assert still.stands() == still.number() == number
    for seconds, number in ((Fraction(-3), 0), (film.info.duration + 5, film.info.frames - 1), (Fraction(1), 25)):
        still.player.jump_to(seconds)
        assert still.stands() == number


def test_a_moment_of_another_film_is_refused(still: Screen) -> None:
    still.open("constant.mp4")
    with pytest.raises(FilmReviewError, match="no frame at exactly"):
        still.player.jump(Moment(1, Fraction(1, 30000)))
    assert still.stands() == 0


def test_a_frame_that_cannot_be_decoded_is_told(still: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
    still.open("constant.mp4")
    film = still.player.film
    whole = film.frame

    def damaged(number: int) -> Any:
        if number == 2:
            raise FilmReviewError("frame 2 of the film is damaged and cannot be decoded")
        return whole(number)

    monkeypatch.setattr(film, "frame", damaged)
    still.player.step(2)
    still.qtbot.waitUntil(lambda: bool(still.troubles), timeout=TIMEOUT)
    assert "frame 2 of the film is damaged" in still.troubles[0]
    still.player.step(1)
    assert still.stands() == 3


# Opening, failing, closing


def test_a_second_film_takes_the_place_of_the_first(screen: Screen) -> None:
    films: list[object] = []
    screen.player.film_changed.connect(films.append)
    screen.open("constant.mp4")
    first = screen.player.film
    screen.plays()
    screen.open("variable.mp4")
    assert films == [first, None, screen.player.film]
    with pytest.raises(FilmReviewError, match="closed"):
        first.frame(0)
    assert screen.stands() == 0
    screen.plays()


def test_closing_twice_and_doing_things_with_no_film_is_harmless(still: Screen) -> None:
    still.open("constant.mp4")
    still.player.step(3)
    still.player.close()
    still.player.close()
    for do in (still.player.play, still.player.pause, still.player.toggle):
        do()
    still.player.step(1)
    still.player.jump_to(Fraction(1))
    assert still.player.film is still.player.frame is None


class Failing:
    """A source that fails as soon as it is to play."""

    name = "vlc"
    rates = RATES

    def __init__(self, listener: Any, how: str) -> None:
        self.listener, self.how, self.closed = listener, how, False

    def play(self, _start: Moment) -> None:
        error = FilmReviewError("this source cannot play it")
        if self.how == "told":
            self.listener.playback_failed(error)
        elif self.how == "raised":
            raise error

    def pause(self) -> None: ...

    def set_rate(self, rate: float) -> None: ...

    def set_sound(self, on: bool) -> None: ...

    def close(self) -> None:
        self.closed = True


@pytest.fixture(params=["told", "raised", "silent"])
def failing(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> list[Failing]:
    """The first source opened fails in one of the ways there are; the next one is a real one."""
    made: list[Failing] = []
    real = player_module.open_playback

    def open_playback(film: Any, listener: Any, wanted: Any, refused: Any) -> Any:
        if not made:
            made.append(Failing(listener, request.param))
            return made[0]
        assert refused == {"vlc"}
        return real(film, listener, wanted, refused)

    monkeypatch.setattr(player_module, "open_playback", open_playback)
    monkeypatch.setattr(player_module, "_NO_PICTURE_MS", 200)
    return made


def test_when_one_source_fails_the_other_plays(still: Screen, failing: list[Failing]) -> None:
    still.open("constant.mp4")
    still.plays()
    assert still.player.source_name == "built-in"
    assert failing[0].closed
    assert not still.troubles


def test_when_none_plays_the_film_can_still_be_stepped(still: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
    def open_playback(*_given: Any) -> Any:
        raise FilmReviewError("the film cannot be played here, only stepped through")

    monkeypatch.setattr(player_module, "open_playback", open_playback)
    still.open("constant.mp4")
    still.player.play()
    assert still.troubles == ["the film cannot be played here, only stepped through"]
    assert not still.player.playing
    still.player.step(1)
    assert still.stands() == 1


def test_a_fault_of_the_program_is_not_hidden(still: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
    still.open("constant.mp4")
    monkeypatch.setattr(still.player.film, "frame", lambda number: 1 / 0 if number else None)
    with still.qtbot.capture_exceptions() as raised:
        still.player.step(1)
        still.qtbot.waitUntil(lambda: bool(raised), timeout=TIMEOUT)
    assert raised[0][0] is ZeroDivisionError
