"""Figures of the film room, by hand: `pytest tests/bench/test_film_bench.py -s`.

Each figure is taken in one run with the library used plainly (seek, then decode up to the frame) and with decoding straight
through as the limit. Films are made for the occasion: 720 lines, one key frame every 250 and every 30, 18,000 frames of index.
"""

import os
import random
import statistics
import sys
import threading
import time
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest
from numpy.typing import NDArray

FILMS = Path(__file__).resolve().parents[2] / "fixtures" / "films"
sys.path.insert(0, str(FILMS))

import drawn  # noqa: E402 - found in the folder of the made films
import made  # noqa: E402
import make_films  # noqa: E402
from burnt import read_number  # noqa: E402

from filmreview.film.film import Film, open_film  # noqa: E402

TICK = Fraction(1, 90_000)
STEP = 3600
FRAMES = 500


NOISE = np.random.default_rng(1).normal(0, 6, (1280, 1400, 1)).astype(np.int16)


def noisy_scene(width: int, height: int, number: int) -> NDArray[np.uint8]:
    """The scene of the made films under a grain that changes with every frame, so that decoding costs what it does on film."""
    picture = drawn.scene(width, height, number).astype(np.int16)
    top = height // 4
    picture[top:] += NOISE[number % 500 : number % 500 + height - top, number % 97 : number % 97 + width]
    return np.clip(picture, 0, 255).astype(np.uint8)


@pytest.fixture(scope="module", params=[250, 30], ids=["key-every-250", "key-every-30"])
def big_film(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    plan = make_films.Plan(
        f"key-{request.param}.mp4", range(0, FRAMES * STEP, STEP), TICK, width=1280, height=720, rate=Fraction(25),
        draw=noisy_scene, gop=request.param, b_frames=2,
        encoder={"preset": "veryfast", "crf": "23", "x264-params": "scenecut=0:asm=auto"},
    )  # fmt: skip
    return make_films.make(plan, tmp_path_factory.mktemp("films"))


@pytest.fixture(scope="module")
def long_film(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """18,000 frames with sound, from one small film put behind itself 200 times without decoding."""
    path = tmp_path_factory.mktemp("films") / "long.mp4"
    with av.open(str(made.film("variable.mp4"))) as source, av.open(str(path), "w") as out:
        streams = {stream.index: out.add_stream_from_template(stream) for stream in source.streams}
        packets = [packet for packet in source.demux() if packet.size]
        length = max((one.pts + one.duration) * one.time_base for one in packets)
        kept = [
            (bytes(one), one.pts, one.dts, one.duration, one.time_base, one.is_keyframe, one.stream.index) for one in packets
        ]
        for turn in range(18_000 // 80):
            for data, pts, dts, duration, base, key, index in kept:
                packet = av.Packet(data)
                shift = round(turn * length / base)
                packet.pts, packet.dts, packet.duration, packet.time_base = pts + shift, dts + shift, duration, base
                packet.is_keyframe, packet.stream = key, streams[index]
                out.mux(packet)
    return path


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - start)


def plain_frame(container: av.container.InputContainer, pts: int) -> av.VideoFrame:
    """The library used plainly: seek to the key frame before, decode up to the frame."""
    stream = container.streams.video[0]
    container.seek(pts, stream=stream, backward=True)
    return next(frame for frame in container.decode(stream) if frame.pts >= pts)


def frame_by_frame(path: Path) -> float:
    """Milliseconds a frame of decoding straight through, with the threads that the film room uses."""
    with av.open(str(path)) as container:
        stream = container.streams.video[0]
        stream.thread_type = "AUTO"
        start = time.perf_counter()
        count = sum(1 for _ in container.decode(stream))
        return 1000 * (time.perf_counter() - start) / count


def opened(path: Path) -> Iterator[av.container.InputContainer]:
    with av.open(str(path)) as container:
        container.streams.video[0].thread_type = "AUTO"
        yield container


def test_index_takes_less_than_twice_a_plain_demux(long_film: Path) -> None:
    def demux() -> None:
        with av.open(str(long_film)) as container:
            assert sum(1 for packet in container.demux(video=0) if packet.size) == 18_000

    def index() -> None:
        with open_film(long_film) as film:
            assert len(film.index) == 18_000

    plain = min(milliseconds(demux) for _ in range(5))
    ours = min(milliseconds(index) for _ in range(5))
    print(f"\nindex of 18,000 frames with opening: {ours:.0f} ms, plain demux: {plain:.0f} ms, {ours / plain:.2f} times")
    assert ours < 2 * plain


def test_random_access(big_film: Path) -> None:
    """Ours and the plain way take turns, so that other work on the machine falls on both."""
    numbers = random.Random(5).sample(range(FRAMES), 40)
    limit = frame_by_frame(big_film)
    bare, kept, plain = [], [], []
    container = next(source := opened(big_film))
    with open_film(big_film, kept_bytes=1) as keeps_nothing, open_film(big_film) as film:
        for n in numbers:
            bare.append(milliseconds(lambda n=n: keeps_nothing.frame(n)))
            at = film.moment_of(n).pts
            plain.append(milliseconds(lambda at=at: plain_frame(container, at)))
            kept.append(milliseconds(lambda n=n: film.frame(n)))
            settled(film)
    source.close()
    mine, theirs = statistics.median(bare), statistics.median(plain)
    print(
        f"\n{big_film.name} random access, median: {mine:.1f} ms with nothing kept, {statistics.median(kept):.1f} ms with "
        f"what is kept of the group, plain: {theirs:.1f} ms; limit {limit:.2f} ms a frame"
    )
    assert sum(bare) < 1.2 * sum(plain)


def settled(film: Film) -> bool:
    """Let the worker finish, so that a figure is of one request alone."""
    return film.wait_until_filled(60)


def test_steps_from_the_cache(big_film: Path) -> None:
    limit = frame_by_frame(big_film)
    with open_film(big_film) as film:
        film.frame(249)
        settled(film)
        back = [milliseconds(lambda n=n: film.frame(n)) for n in range(248, 20, -1)]
        forward = [milliseconds(lambda n=n: film.frame(n)) for n in range(21, 249)]
        shown = statistics.median(milliseconds(film.frame(n).picture) for n in range(100, 140))
        exact = statistics.median(milliseconds(film.frame(n).exact_picture) for n in range(100, 120))
        pts = [film.moment_of(n).pts for n in range(248, 200, -1)]
    plain_container = next(source := opened(big_film))
    plain = [milliseconds(lambda at=at: plain_frame(plain_container, at)) for at in pts]
    source.close()
    mine, theirs = statistics.median(back), statistics.median(plain)
    print(
        f"\n{big_film.name} step back {mine:.4f} ms (worst {max(back):.1f}), forward {statistics.median(forward):.4f} ms "
        f"(worst {max(forward):.1f}), plain {theirs:.1f} ms: {theirs / mine:.0f} times; with its picture "
        f"{mine + shown:.2f} ms: {theirs / (mine + shown):.0f} times"
    )
    print(f"picture {shown:.2f} ms, exact picture {exact:.1f} ms, limit {limit:.2f} ms a frame")
    assert theirs > 50 * mine


def test_steps_without_waiting_for_the_worker(big_film: Path) -> None:
    limit = frame_by_frame(big_film)
    with open_film(big_film) as film:
        film.frame(400)
        back = [milliseconds(lambda n=n: film.frame(n).picture()) for n in range(399, 150, -1)]
        forward = [milliseconds(lambda n=n: film.frame(n).picture()) for n in range(249)]
    print(
        f"\n{big_film.name} with pictures, at once: 250 steps back {sum(back):.0f} ms (worst {max(back):.0f}), "
        f"250 steps forward {sum(forward):.0f} ms (worst {max(forward):.0f}); limit {250 * limit:.0f} ms"
    )
    assert sum(forward) < 60_000


def test_wrong_frames_beside_another_library() -> None:
    os.environ["OPENCV_FFMPEG_LOGLEVEL"] = "-8"  # its complaints would bury the figures
    cv2 = pytest.importorskip("cv2")
    total = {"ours": 0, "OpenCV": 0}
    print()
    for name in made.names():
        truth = made.truth(name)
        order = random.Random(3).sample(range(truth["frames"]), truth["frames"])
        capture = cv2.VideoCapture(str(made.film(name)))
        theirs = sum(_seek(cv2, capture, number) != truth["numbers"][number] for number in order)
        with open_film(made.film(name)) as film:
            ours = sum(read_number(film.frame(number).picture()) != truth["numbers"][number] for number in order)
        total["ours"] += ours
        total["OpenCV"] += theirs
        print(f"{name:28s} {truth['frames']:4d} frames at random: wrong {ours:3d}, OpenCV {theirs:3d}")
    print(total, "threads left:", threading.active_count() - 1)
    assert total["ours"] == 0


def _seek(cv2: object, capture: object, number: int) -> int | None:
    capture.set(cv2.CAP_PROP_POS_FRAMES, number)  # type: ignore[attr-defined]
    good, picture = capture.read()  # type: ignore[attr-defined]
    return read_number(picture) if good else None
