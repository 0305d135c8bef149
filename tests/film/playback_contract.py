"""What every playback source must do, once; each source's test module makes a subclass with `opened` and `wait`."""

import time
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from filmreview.film.film import Film, open_film
from filmreview.film.playback import RATES, SOURCES, Listener, Playback
from filmreview.film.playback_match import shown_frame
from fixtures.films.burnt import read_number
from fixtures.films.made import film as made_film
from fixtures.films.made import truth
from tests.film.playback_watching import Wait, Watcher

Opener = Callable[[Film, Listener], Playback]
PATIENCE = 8.0  # seconds; only a source that shows nothing makes a test wait so long


class PlaybackContract:
    """Needs the fixtures `opener` (makes the source) and `wait`."""

    @pytest.fixture
    def watcher(self) -> Watcher:
        return Watcher()

    @pytest.fixture
    def film(self, request: pytest.FixtureRequest) -> Iterator[Film]:
        with open_film(made_film(getattr(request, "param", "constant.mp4"))) as film:
            yield film

    @pytest.fixture
    def playback(self, opener: Opener, film: Film, watcher: Watcher) -> Iterator[Playback]:
        playback = opener(film, watcher)
        yield playback
        playback.close()

    @pytest.mark.parametrize(
        ("film", "pauses"),
        [
            ("constant.mp4", 5),
            ("variable.mp4", 5),
            ("b-frames.mp4", 2),
            ("late-start.mp4", 2),
            ("late-start.mkv", 2),
            ("turned-90.mp4", 2),
            ("turned-270.mp4", 2),
            ("narrow-pixels.mp4", 2),
            ("interlaced.mp4", 2),
            ("colour-709-full.mp4", 2),
            ("edit-list.mp4", 2),
        ],
        indirect=["film"],
    )
    def test_on_pause_the_frame_seen_is_found(
        self, playback: Playback, film: Film, watcher: Watcher, wait: Wait, pauses: int
    ) -> None:
        for number in range(pauses):
            watcher.shown.clear()
            # Not from the very first frame: libvlc shows an edit list's run-up, which is no part of the film (the player
            # does not let it through to the screen).
            playback.play(film.moment_of(4 + number * film.info.frames // (2 * pauses)))
            assert wait(lambda number=number: len(watcher.shown) > 2 + 3 * number, PATIENCE)  # type: ignore[misc]
            playback.pause()
            seen = watcher.shown[-1]
            found = shown_frame(film, seen)
            # The number burnt into the picture is read from both, apart from how the frame was found.
            told = truth(film.path.name)["numbers"]
            assert read_number(seen.picture) == read_number(found.picture()) == told[found.number]

    def test_the_playing_picture_looks_as_the_paused_one(
        self, playback: Playback, film: Film, watcher: Watcher, wait: Wait
    ) -> None:
        playback.play(film.start)
        assert wait(lambda: len(watcher.shown) > 3, PATIENCE)
        playback.pause()
        seen = watcher.shown[-1]
        assert (seen.picture == shown_frame(film, seen).picture()).all()

    def test_plays_on_from_the_moment_asked_for(self, playback: Playback, film: Film, watcher: Watcher, wait: Wait) -> None:
        for number in (30, 10):
            watcher.shown.clear()
            playback.play(film.moment_of(number))
            assert wait(lambda number=number: number + 5 in watcher.numbers(), PATIENCE)  # type: ignore[misc]
            playback.pause()
            assert watcher.numbers()[-1] in range(number, number + 20)

    def test_nothing_comes_after_a_pause(self, playback: Playback, film: Film, watcher: Watcher, wait: Wait) -> None:
        playback.play(film.start)
        assert wait(lambda: len(watcher.shown) > 2, PATIENCE)
        playback.pause()
        count = len(watcher.shown)
        assert not wait(lambda: len(watcher.shown) != count, 0.3)

    def test_a_pause_at_once_is_heard(self, playback: Playback, film: Film, watcher: Watcher, wait: Wait) -> None:
        playback.play(film.start)
        playback.pause()
        count = len(watcher.shown)
        assert not wait(lambda: len(watcher.shown) != count, 0.5)
        playback.play(film.start)
        assert wait(lambda: len(watcher.shown) > count + 2, PATIENCE)

    def test_tells_the_end_and_plays_again_after_it(self, playback: Playback, film: Film, watcher: Watcher, wait: Wait) -> None:
        playback.play(film.moment_of(film.info.frames - 15))
        assert wait(lambda: watcher.ended == 1, PATIENCE)
        assert watcher.numbers()[-1] in range(film.info.frames - 3, film.info.frames)
        watcher.shown.clear()
        playback.play(film.moment_of(3))
        assert wait(lambda: len(watcher.shown) > 2, PATIENCE)
        assert watcher.numbers()[-1] in range(20)
        assert watcher.ended == 1

    @pytest.mark.parametrize("rate", [0.25, 2.0])
    def test_keeps_the_rate(self, playback: Playback, film: Film, watcher: Watcher, wait: Wait, rate: float) -> None:
        playback.set_rate(rate)
        playback.play(film.moment_of(5))
        assert wait(lambda: bool(watcher.shown) and (watcher.numbers()[-1] or 0) >= 10, PATIENCE)
        first, began = watcher.numbers()[-1], time.monotonic()
        wait(lambda: False, 0.8)
        last, passed = watcher.numbers()[-1], time.monotonic() - began
        assert first is not None
        assert last is not None
        # Loose, for a machine that is busy: the rates tested lie eightfold apart.
        assert last - first == pytest.approx(passed * rate * film.info.rate, rel=0.5)

    @pytest.mark.parametrize("film", ["two-tracks.mp4"], indirect=True)
    def test_plays_on_with_sound_off_and_on(self, playback: Playback, film: Film, watcher: Watcher, wait: Wait) -> None:
        playback.play(film.start)
        for on in (False, True):
            assert wait(lambda: len(watcher.shown) > 3, PATIENCE)
            playback.set_sound(on)
            watcher.shown.clear()
        assert wait(lambda: len(watcher.shown) > 3, PATIENCE)
        assert not watcher.failed

    def test_says_so_when_the_film_is_gone(self, opener: Opener, watcher: Watcher, wait: Wait, tmp_path: Path) -> None:
        copy = tmp_path / "gone.mp4"
        copy.write_bytes(made_film("constant.mp4").read_bytes())
        with open_film(copy) as film:
            copy.unlink()
            playback = opener(film, watcher)
            try:
                wait(lambda: False, 0.3)
                playback.play(film.start)
                assert wait(lambda: bool(watcher.failed), PATIENCE)
            except Exception as error:  # noqa: BLE001 - looked at right below
                watcher.failed.append(error)  # type: ignore[arg-type]
            finally:
                playback.close()
        assert "gone.mp4" in str(watcher.failed[0])
        assert not watcher.shown

    def test_closes_while_playing_and_twice(self, opener: Opener, film: Film, watcher: Watcher, wait: Wait) -> None:
        playback = opener(film, watcher)
        playback.play(film.start)
        assert wait(lambda: len(watcher.shown) > 2, PATIENCE)
        playback.close()
        count = len(watcher.shown)
        playback.close()
        assert not wait(lambda: len(watcher.shown) != count, 0.2)

    def test_says_who_it_is(self, playback: Playback) -> None:
        assert playback.name in SOURCES
        assert playback.rates == RATES
        assert Fraction(1) in playback.rates
