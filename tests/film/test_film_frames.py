"""Every frame of every made film is the right one, however it is reached: the number burnt into it tells."""

import hashlib
import random
from fractions import Fraction
from pathlib import Path

import av
import made
import make_films
import pytest
from burnt import read_number
from footage import real_footage

from filmreview.film.film import Film, open_film

NAMES = made.names()


def ways(count: int) -> dict[str, list[int]]:
    order = list(range(count))
    return {"in order": order, "backwards": order[::-1], "at random": random.Random(7).sample(order, count)}


@pytest.mark.parametrize("name", NAMES)
def test_no_frame_is_wrong(name: str) -> None:
    numbers = made.truth(name)["numbers"]
    with open_film(made.film(name)) as film:
        wrong = {
            way: [number for number in order if read_number(film.frame(number).picture()) != numbers[number]]
            for way, order in ways(len(numbers)).items()
        }
    assert wrong == {"in order": [], "backwards": [], "at random": []}


@pytest.mark.parametrize("name", NAMES)
def test_no_frame_is_wrong_when_nothing_is_kept(name: str) -> None:
    """Every request seeks and decodes anew; the frames at the edges of groups are the ones that can go wrong."""
    numbers = made.truth(name)["numbers"]
    with open_film(made.film(name), kept_bytes=1) as film:
        edges = {at for group in film.index.groups for at in range(group.first - 4, group.first + 4)}
        order = sorted((edges | set(range(0, len(numbers), 7))) & set(range(len(numbers))))
        random.Random(7).shuffle(order)
        wrong = [number for number in order if read_number(film.frame(number).picture()) != numbers[number]]
    assert wrong == []


@pytest.mark.parametrize("name", [name for name in NAMES if not made.truth(name)["interlaced"]])
def test_frames_equal_those_of_decoding_straight_through(name: str) -> None:
    """To the last bit, against PyAV used plainly; but for the frame that the film holds in part only."""
    expected = straight_through(made.film(name))
    partial = made.truth(name)["partial"]
    with open_film(made.film(name), kept_bytes=1) as film:
        order = random.Random(3).sample(range(len(film.index)), min(25, len(film.index)))
        differ = [number for number in order if digest_of(film, number) != expected[number] and number not in partial]
    assert differ == []


@pytest.mark.parametrize("name", ["bikes.mp4", "bigbuckbunny.mp4", "carphone_pristine.mp4"])
def test_real_footage_equals_decoding_straight_through(name: str) -> None:
    path = real_footage(name)
    expected = straight_through(path)
    with open_film(path) as film:
        assert len(film.index) == len(expected)
        order = [0, len(expected) - 1, *random.Random(4).sample(range(len(expected)), 30)]
        assert [number for number in order if digest_of(film, number) != expected[number]] == []


def straight_through(path: Path) -> list[str]:
    found = []
    with av.open(str(path)) as container:
        for packet in container.demux(video=0):
            try:
                found += [digest(frame) for frame in packet.decode()]
            except av.FFmpegError:
                break  # the half frame at the end of a film that was cut off
    return found


def digest_of(film: Film, number: int) -> str:
    return digest(film.frame(number)._decoded)


def digest(frame: av.VideoFrame) -> str:
    return hashlib.sha1(frame.to_ndarray().tobytes()).hexdigest()


def test_stepping_reaches_every_frame_once() -> None:
    with open_film(made.film("variable.mp4")) as film:
        moment, seen = film.start, []
        while moment is not None:
            seen.append(film.number_of(moment))
            moment = film.next(moment)
        assert seen == list(range(80))
        last = film.moment_of(79)
        assert film.next(last) is None
        assert film.previous(film.start) is None
        assert film.previous(last) == film.moment_of(78)


def test_frame_knows_its_moment_and_number() -> None:
    with open_film(made.film("late-start.mp4")) as film:
        frame = film.frame(31)
        assert (frame.number, frame.moment.pts) == (31, 450_000 + 31 * 3000)
        assert film.frame_at(frame.moment).number == 31
        assert read_number(film.frame_at(frame.moment).picture()) == 31


def test_misstamped_packets_after_a_seek_are_refused(tmp_path: Path) -> None:
    """A program stream hands out half a packet under the time of the next one after some seeks: frame 39 came for 42."""
    plan = make_films.Plan(
        "program.mpg", range(0, 100 * 3600, 3600), Fraction(1, 90_000), rate=Fraction(25), gop=20, codec="mpeg2video",
        b_frames=2, encoder={"b": "600k"},
    )  # fmt: skip
    with open_film(make_films.make(plan, tmp_path), kept_bytes=1) as film:
        assert [number for number in reversed(range(100)) if read_number(film.frame(number).picture()) != number] == []
