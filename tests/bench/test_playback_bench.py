"""Figures of playback and of the player, by hand: pytest tests/bench/test_playback_bench.py -s

20 pauses on each source, constant and variable rate; held steps; a click on the strip against PyAV's own bare seek and
decode, in one run; how long the window's thread is kept busy while the film plays.
"""

import random
import statistics
import time
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest
from PyQt6.QtCore import QTimer
from pytestqt.qtbot import QtBot

from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.player import Player
from filmreview.desktop.strip import FilmStrip
from filmreview.film.film import open_film
from filmreview.film.playback import SOURCES
from fixtures.films.burnt import burn, read_number
from fixtures.films.made import film as made_film
from fixtures.films.made import truth
from tests.desktop.screen import start_screen

start_screen()

PAUSES = 20
TIMEOUT = 10_000
FRAMES, TICK = 900, Fraction(1, 30_000)


@pytest.fixture(scope="session", params=["constant", "variable"])
def big_film(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """900 frames of 720p with noise, B-frames, a key frame every 250, sound; the number burnt into each."""
    path = tmp_path_factory.mktemp("bench") / f"{request.param}.mp4"
    chance = np.random.default_rng(3)
    steps = [1001] * FRAMES if request.param == "constant" else chance.choice([500, 1001, 1502, 2503], FRAMES).tolist()
    noise = (90 + chance.normal(0, 4, (720, 1280, 3))).astype(np.uint8)
    with av.open(str(path), "w") as container:
        stream = container.add_stream("libx264", rate=30, options={"g": "250", "bf": "2", "preset": "veryfast"})
        stream.width, stream.height, stream.pix_fmt, stream.time_base = 1280, 720, "yuv420p", TICK
        stream.codec_context.time_base = TICK
        sound = container.add_stream("aac", rate=48_000, layout="mono")
        at = heard = 0
        for number, step in enumerate(steps):
            picture = np.roll(noise, 3 * number, axis=1)
            burn(picture, number)
            frame = av.VideoFrame.from_ndarray(picture, format="rgb24").reformat(format="yuv420p")
            frame.pts, frame.time_base = at, TICK
            container.mux(stream.encode(frame))
            at += int(step)
            while heard / 48_000 < at * TICK:
                tone = np.sin(2 * np.pi * 440 * (heard + np.arange(1024)) / 48_000).astype(np.float32)[None] / 10
                block = av.AudioFrame.from_ndarray(tone, format="fltp", layout="mono")
                block.sample_rate, block.pts, block.time_base = 48_000, heard, Fraction(1, 48_000)
                container.mux(sound.encode(block))
                heard += 1024
        container.mux(stream.encode(None))
        container.mux(sound.encode(None))
    return path


class Desk:
    """Player, picture and strip joined as in the window."""

    def __init__(self, qtbot: QtBot, source: str) -> None:
        self.qtbot = qtbot
        self.player, self.canvas, self.strip = Player(wanted_source=source), PictureCanvas(), FilmStrip()
        self.painted: list[np.ndarray] = []
        self.player.picture_shown.connect(self.canvas.show_picture)
        self.player.picture_shown.connect(lambda picture: picture is not None and self.painted.append(picture))
        self.player.time_changed.connect(self.strip.set_now)
        self.strip.jump_wanted.connect(self.player.jump_to)
        for widget in (self.canvas, self.strip):
            qtbot.addWidget(widget)
        self.canvas.resize(960, 560)
        self.canvas.show()
        self.strip.show()

    def open(self, path: Path) -> None:
        self.player.open(open_film(path))
        self.strip.set_film(self.player.film)
        self.stands()

    def stands(self) -> int:
        if self.player.frame is None:  # no looking every so often: that would count as time of the player
            with self.qtbot.waitSignal(self.player.frame_shown, timeout=TIMEOUT):
                pass
        assert self.player.frame is not None
        return self.player.frame.number

    def close(self) -> None:
        self.strip.close_film()
        self.player.close()


@pytest.fixture(params=SOURCES)
def desk(qtbot: QtBot, request: pytest.FixtureRequest) -> Iterator[Desk]:
    desk = Desk(qtbot, request.param)
    yield desk
    desk.close()


def _pauses(desk: Desk, frames: int, numbers: list[int]) -> tuple[int, list[float]]:
    """How many of the pauses stood on the frame seen, and the seconds from pause to frame."""
    chance, right, took = random.Random(7), 0, []
    for _ in range(PAUSES):
        start = chance.randrange(0, frames * 3 // 4)
        desk.player.jump(desk.player.film.moment_of(start))
        desk.stands()
        count = len(desk.painted)
        desk.player.play()
        wanted = count + chance.randint(2, 25)
        desk.qtbot.waitUntil(lambda wanted=wanted: len(desk.painted) >= wanted or not desk.player.playing, timeout=TIMEOUT)
        began = time.perf_counter()
        desk.player.pause()
        seen = read_number(desk.painted[-1])
        number = desk.stands()
        took.append(time.perf_counter() - began)
        right += seen == read_number(desk.player.frame.picture()) == numbers[number]
    return right, took


@pytest.mark.parametrize("name", ["constant.mp4", "variable.mp4", "b-frames.mp4"])
def test_pauses_on_the_small_films(desk: Desk, name: str) -> None:
    desk.open(made_film(name))
    right, took = _pauses(desk, desk.player.film.info.frames, truth(name)["numbers"])
    print(f"\n{desk.player.source_name}, {name}: {right} of {PAUSES} pauses; frame after {_spread(took)}")
    assert right == PAUSES


def test_pauses_on_720p(desk: Desk, big_film: Path) -> None:
    desk.open(big_film)
    right, took = _pauses(desk, FRAMES, list(range(FRAMES)))
    print(f"\n{desk.player.source_name}, 720p {big_film.stem}: {right} of {PAUSES} pauses; frame after {_spread(took)}")
    assert right == PAUSES


def _spread(seconds: list[float]) -> str:
    ordered = sorted(seconds)
    return f"median {statistics.median(ordered) * 1000:.0f} ms, longest {ordered[-1] * 1000:.0f} ms"


def test_held_steps_at_720p(qtbot: QtBot, big_film: Path) -> None:
    desk = Desk(qtbot, "built-in")
    try:
        desk.open(big_film)
        desk.player.jump(desk.player.film.moment_of(260))
        desk.stands()
        for count, words in ((1, "forward"), (-1, "back")):
            desk.player.film.wait_until_filled(20)
            start = desk.stands()
            desk.painted.clear()
            began = time.perf_counter()
            for _ in range(100):
                desk.player.step(count)
                desk.stands()
            rate = 100 / (time.perf_counter() - began)
            assert [read_number(picture) for picture in desk.painted] == [start + count * (n + 1) for n in range(100)]
            print(f"\nheld steps {words}, 720p {big_film.stem}: {rate:.0f} exact frames a second")
            assert rate >= 25
    finally:
        desk.close()


def test_a_click_on_the_strip_against_bare_pyav(qtbot: QtBot, big_film: Path) -> None:
    chance = random.Random(11)
    targets = [chance.randrange(0, FRAMES) for _ in range(15)]
    desk = Desk(qtbot, "built-in")
    ours, bare = [], []
    try:
        desk.open(big_film)
        film = desk.player.film
        with av.open(str(big_film)) as container:
            stream = container.streams.video[0]
            stream.thread_type = "AUTO"
            for target in targets:
                moment = film.moment_of(target)
                film.wait_until_filled(20)
                began = time.perf_counter()
                desk.strip.jump_wanted.emit(film.time_of(moment))
                assert desk.stands() == target
                ours.append(time.perf_counter() - began)
                film.wait_until_filled(20)
                began = time.perf_counter()
                container.seek(moment.pts, stream=stream)
                next(frame for frame in container.decode(stream) if frame.pts == moment.pts).to_ndarray(format="rgb24")
                bare.append(time.perf_counter() - began)
    finally:
        desk.close()
    ratio = statistics.median(ours) / statistics.median(bare)
    print(f"\nclick on the strip, 720p {big_film.stem}: {_spread(ours)}; PyAV alone: {_spread(bare)}; {ratio:.2f} times")


def test_the_window_stays_free_while_playing(desk: Desk, big_film: Path) -> None:
    desk.open(big_film)
    busy: list[float] = []
    last = [time.perf_counter(), time.thread_time()]

    def beat() -> None:
        now, used = time.perf_counter(), time.thread_time()
        busy.append(used - last[1])
        gaps.append(now - last[0])
        last[:] = [now, used]

    gaps: list[float] = []
    timer = QTimer()
    timer.timeout.connect(beat)
    timer.start(5)
    desk.player.play()
    desk.qtbot.wait(5000)
    desk.player.pause()
    desk.stands()
    timer.stop()
    print(
        f"\n{desk.player.source_name}, playing 720p {big_film.stem}: {len(desk.painted)} pictures in 5 s; between two beats of "
        f"5 ms the window's thread worked {_spread(busy)}, by the clock {_spread(gaps)}"
    )
    assert max(busy) < 0.05
