"""Frames kept and filled by the worker: bounded, safe for several threads, and nothing outlives closing."""

import random
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import av
import made
import pytest
from burnt import read_number
from footage import real_footage, still_open

from filmreview.errors import FilmReviewError
from filmreview.film.decoder import Decoder
from filmreview.film.film import Film, open_film
from filmreview.film.kept import AHEAD_COST, KeptFrames, stored_bytes

FRAME_BYTES = 320 * 180 * 3 // 2


def workers() -> list[threading.Thread]:
    return [thread for thread in threading.enumerate() if thread.name == "film-frames"]


def kept_of(film: Film) -> KeptFrames:
    return film._reach._kept


def test_worker_fills_the_group_and_steps_back_decode_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    with open_film(made.film("b-frames.mp4")) as film:
        film.frame(60)
        assert film.wait_until_filled(20)
        group = film.index.groups[film.index.group_of(60)]
        assert all(number in kept_of(film) for number in range(group.first, group.last))
        monkeypatch.setattr(Decoder, "run", lambda *_: pytest.fail("a step inside the group decoded anew"))
        for number in (*range(59, group.first - 1, -1), *range(group.first, group.last)):
            assert film.frame(number).number == number


def test_the_frame_asked_for_comes_before_the_rest_of_its_group() -> None:
    """A click is answered as soon as its frame is decoded: what lies after it is the worker's."""
    with open_film(made.film("b-frames.mp4")) as film:
        film.wait_until_filled(20)
        decoded: list[int] = []
        real = film._reach._next_of_run

        def counted() -> tuple[int, av.VideoFrame] | None:
            got = real()
            if got is not None and threading.current_thread() is threading.main_thread():
                decoded.append(got[0])
            return got

        film._reach._next_of_run = counted  # type: ignore[method-assign]
        film.frame(100)
        assert decoded == list(range(96, 101))


@pytest.mark.parametrize("limit", [FRAME_BYTES * 9, FRAME_BYTES * 30])
def test_what_is_kept_is_bounded(limit: int) -> None:
    with open_film(made.film("b-frames.mp4"), kept_bytes=limit) as film:
        for number in (0, 47, 40, 100, 119, 3, 60, 59, 58, 57):
            film.frame(number)
            film.wait_until_filled(20)
            bound = kept_of(film)
            assert bound.bytes <= limit
            assert bound.bytes == sum(stored_bytes(frame) for frame in bound._frames.values())
            assert number in bound


def test_the_farthest_frames_go_first() -> None:
    frame = av.VideoFrame(16, 16, "gray")
    bound = KeptFrames(limit=5 * stored_bytes(frame))
    bound.here = 100
    for number in (80, 90, 95, 100, 101, 103, 99, 98):
        bound.put(number, frame)
    assert sorted(bound._frames) == [95, 98, 99, 100, 101]
    assert AHEAD_COST * 3 > 5  # 103 counts as farther than 95
    assert bound.has_room_for(97, stored_bytes(frame))
    assert not bound.has_room_for(90, stored_bytes(frame))


def test_stepping_back_over_the_edge_of_a_group_is_decoded_ahead(monkeypatch: pytest.MonkeyPatch) -> None:
    with open_film(made.film("b-frames.mp4")) as film:
        for number in (60, 59, 58):
            film.frame(number)
        assert film.wait_until_filled(20)
        monkeypatch.setattr(Decoder, "run", lambda *_: pytest.fail("the step over the edge was not decoded ahead"))
        for number in range(57, 35, -1):
            film.frame(number)


def test_many_threads_get_their_own_frames() -> None:
    numbers = random.Random(1).choices(range(120), k=300)
    with open_film(made.film("b-frames.mp4"), kept_bytes=FRAME_BYTES * 20) as film, ThreadPoolExecutor(6) as pool:
        read = list(pool.map(lambda number: read_number(film.frame(number).picture()), numbers))
    assert read == numbers


def test_one_frame_can_be_converted_by_many_threads() -> None:
    with open_film(made.film("constant.mp4")) as film, ThreadPoolExecutor(6) as pool:
        frame = film.frame(50)
        first = (frame.picture().tobytes(), frame.exact_picture().tobytes())
        results = list(pool.map(lambda _: (frame.picture().tobytes(), frame.exact_picture().tobytes()), range(40)))
    assert set(results) == {first}


def test_closing_ends_the_worker_and_lets_the_file_go() -> None:
    path = real_footage("bigbuckbunny.mp4")
    film = open_film(path)
    film.frame(2)  # the worker has 130 frames of 720 lines to go
    assert len(workers()) == 1
    assert still_open(path)
    start = time.monotonic()
    film.close()
    assert time.monotonic() - start < 5
    assert workers() == []
    assert not still_open(path)
    film.close()  # a second time does nothing


def test_closing_while_others_ask_gives_them_one_clear_error() -> None:
    film = open_film(made.film("b-frames.mp4"), kept_bytes=1)
    answers: list[str] = []

    def ask() -> None:
        while True:
            try:
                film.frame(random.randrange(120))
            except FilmReviewError as error:
                answers.append(str(error))
                return

    askers = [threading.Thread(target=ask) for _ in range(4)]
    for asker in askers:
        asker.start()
    time.sleep(0.1)
    film.close()
    for asker in askers:
        asker.join(10)
    assert answers == ["the film is closed; open it again"] * 4
    assert workers() == []


def test_opening_and_closing_often_leaves_nothing() -> None:
    for _ in range(30):
        with open_film(made.film("constant.mp4")) as film:
            film.frame(80)
    assert workers() == []
    assert not still_open(made.film("constant.mp4"))


def test_a_film_left_open_does_not_keep_python_from_ending() -> None:
    script = (
        "from filmreview.film.film import open_film\n"
        f"film = open_film({str(real_footage('bigbuckbunny.mp4'))!r})\n"
        "film.frame(1)\n"
        "print('here')\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "here\n", "")


def test_a_film_that_goes_away_while_open_is_told_in_one_line(tmp_path: Path) -> None:
    path = tmp_path / "film.h264"
    path.write_bytes(made.film("timeless.h264").read_bytes())
    with open_film(path, kept_bytes=1) as film:  # a stream without times is opened anew for every way back
        film.frame(30)
        path.unlink()
        with pytest.raises(FilmReviewError, match="there is no such file"):
            film.frame(2)


def test_a_damaged_frame_is_refused_each_time_and_its_neighbours_are_not(tmp_path: Path) -> None:
    """The payload of one late frame is wiped out; the ones before it stand."""
    data = bytearray(made.film("constant.mp4").read_bytes())
    with av.open(str(made.film("constant.mp4"))) as container:
        packet = [packet for packet in container.demux(video=0) if packet.size][75]
        data[packet.pos : packet.pos + packet.size] = b"\0" * packet.size
    path = tmp_path / "hole.mp4"
    path.write_bytes(data)
    with open_film(path) as film:
        assert film.trouble == ()
        for _ in range(2):
            with pytest.raises(FilmReviewError, match="frame 75 is damaged"):
                film.frame(75)
        assert read_number(film.frame(74).picture()) == 74
        assert "frames that cannot be decoded: 1" in film.trouble
