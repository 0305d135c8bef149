"""The index against what the script of the made films wrote: every time, counts of trouble, moments and their limits."""

from fractions import Fraction
from pathlib import Path

import made
import make_films
import pytest
from burnt import read_number
from footage import real_footage, still_open

from filmreview.errors import FilmReviewError, Stopped
from filmreview.film.film import open_film
from filmreview.film.moment import Moment, format_time, parse_time


@pytest.mark.parametrize("name", made.names())
def test_index_holds_the_times_that_were_written(name: str) -> None:
    truth = made.truth(name)
    with open_film(made.film(name)) as film:
        assert len(film.index) == truth["frames"] == film.info.frames
        if truth["pts"] is None:
            assert not film.index.timed
            assert any("no times" in sentence for sentence in film.info.trouble)
        else:
            assert film.index.pts.tolist() == truth["pts"]
            assert film.index.time_base == made.time_base(name)
            assert film.start == Moment(truth["pts"][0], made.time_base(name))


@pytest.mark.parametrize(("name", "count", "rate"), [("bikes.mp4", 250, 25), ("bigbuckbunny.mp4", 132, 25)])
def test_index_of_real_footage(name: str, count: int, rate: int) -> None:
    with open_film(real_footage(name)) as film:
        assert (len(film.index), film.info.rate, film.info.constant_rate) == (count, rate, True)
        assert film.info.duration == Fraction(count, rate)


def test_ntsc_rate_is_exact() -> None:
    with open_film(made.film("constant.mp4")) as film:
        assert film.info.rate == Fraction(30_000, 1001)
        assert film.info.duration == 90 * Fraction(1001, 30_000)
        assert film.info.constant_rate


def test_variable_rate_is_told() -> None:
    with open_film(made.film("variable.mp4")) as film:
        assert not film.info.constant_rate


def test_good_films_have_no_trouble() -> None:
    for name in ("constant.mp4", "b-frames.mp4", "edit-list.mp4", "late-start.mkv", "transport.ts", "interlaced.mp4"):
        with open_film(made.film(name)) as film:
            assert (name, film.trouble) == (name, ())


def test_run_up_of_an_edit_list_is_not_shown() -> None:
    with open_film(made.film("edit-list.mp4")) as film:
        assert film.index.counted.hidden == 17
        assert read_number(film.frame_at(film.start).picture()) == 17


def test_truncated_film_tells_how_far_it_goes() -> None:
    with open_film(made.film("truncated.mp4")) as film:
        assert film.info.trouble == ("the file is cut off: it promises 90 frames, the last whole one ends at 0:01.900",)
        assert film.index.counted.cut
        assert read_number(film.frame(56).picture()) == 56


def test_corrupt_packets_are_counted() -> None:
    with open_film(made.film("damaged.ts")) as film:
        assert film.index.counted.corrupt == 1
        assert film.info.trouble == ("packets marked as damaged: 1",)


def test_front_cut_off_leaves_out_what_cannot_be_decoded(tmp_path: Path) -> None:
    whole = made.film("transport.ts").read_bytes()
    path = tmp_path / "front.ts"
    path.write_bytes(whole[188 * (len(whole) // 188 // 5) :])
    with open_film(path) as film:
        assert film.index.counted.orphaned > 0
        assert "at the front" in film.info.trouble[0]
        assert read_number(film.frame(0).picture()) == 50  # the key frame of the second group
        assert len(film.index) == 50


def test_packets_without_a_time_are_left_out_and_the_others_stand(tmp_path: Path) -> None:
    path = tmp_path / "timeless in part.ts"
    path.write_bytes(without_some_times(made.film("transport.ts").read_bytes(), leave_out=(30, 31, 40)))
    with open_film(path) as film:
        assert film.index.counted.missing == 3
        assert film.info.trouble == ("frames without a time, left out: 3",)
        times = [(pts - 900_000) // 3600 for pts in film.index.pts.tolist()]
        assert len(times) == 97
        assert [read_number(film.frame(number).picture()) for number in range(97)] == times


def without_some_times(stream: bytes, leave_out: tuple[int, ...]) -> bytes:
    """Wipe the times out of some PES headers of the picture stream (ISO/IEC 13818-1 2.4.3.6: PTS_DTS_flags, then stuffing)."""
    data, count = bytearray(stream), 0
    for at in range(0, len(data), 188):
        pid, starts = int.from_bytes(data[at + 1 : at + 3], "big") & 0x1FFF, data[at + 1] & 0x40
        if pid != 256 or not starts:
            continue
        count += 1
        if count in leave_out:
            head = at + 4 + (data[at + 4] + 1 if data[at + 3] & 0x20 else 0)
            length = data[head + 8]
            data[head + 7] &= 0x3F
            data[head + 9 : head + 9 + length] = b"\xff" * length
    return bytes(data)


def test_packets_with_the_time_of_another_are_left_out(tmp_path: Path) -> None:
    path = tmp_path / "double.mkv"
    plan = make_films.Plan("double.mkv", range(0, 40 * 40, 40), Fraction(1, 1000), rate=Fraction(25))
    make_films.make(plan, tmp_path)
    data = bytearray(path.read_bytes())
    # A SimpleBlock (Matroska, RFC 9559 5.1.3.5): 0xA3, size, track, two bytes of time. Give block 20 the time of block 19.
    times = [place for place in range(len(data) - 8) if data[place] == 0xA3 and data[place + 3 : place + 4] == b"\x81"]
    written = {int.from_bytes(data[place + 4 : place + 6], "big"): place + 4 for place in times}
    data[written[800] : written[800] + 2] = (760).to_bytes(2, "big")
    path.write_bytes(data)
    with open_film(path) as film:
        assert film.index.counted.double == 1
        assert len(film.index) == 39
        assert "frames with the time of another one, left out: 1" in film.info.trouble


def test_garbage_in_the_middle_never_crashes(tmp_path: Path) -> None:
    """Frames that do not decode raise one clear line, the others are there, and the trouble is told."""
    data = bytearray(made.film("constant.mp4").read_bytes())
    for place in range(4000, 12_000, 900):
        data[place : place + 60] = bytes(range(60))
    path = tmp_path / "garbage.mp4"
    path.write_bytes(data)
    with open_film(path) as film:
        refused = []
        for number in range(len(film.index)):
            try:
                film.frame(number).picture()
            except FilmReviewError as error:
                refused.append(str(error))
        assert 0 < len(refused) < len(film.index) / 2
        assert all("is damaged and cannot be decoded; step to the frame before or after it" in line for line in refused)
        assert f"frames that cannot be decoded: {len(refused)}" in film.trouble
        assert read_number(film.frame(0).picture()) == 0


def test_moment_at_is_the_frame_on_screen() -> None:
    truth = made.truth("variable.mp4")
    with open_film(made.film("variable.mp4")) as film:
        for number in (0, 1, 5, 40, 79):
            start = (truth["pts"][number] - truth["pts"][0]) * Fraction(1, 90_000)
            assert film.number_of(film.moment_at(start)) == number
            assert film.time_of(film.moment_of(number)) == start
            if number:
                assert film.number_of(film.moment_at(start - Fraction(1, 10**9))) == number - 1
        assert film.number_of(film.moment_at(film.info.duration - Fraction(1, 10**9))) == 79


@pytest.mark.parametrize("seconds", [Fraction(2), Fraction(10_000), Fraction(-1, 1000)])
def test_times_outside_the_film_are_refused_with_the_last_one_that_can_be_named(seconds: Fraction) -> None:
    with open_film(made.film("late-start.mp4")) as film:
        with pytest.raises(FilmReviewError, match=r"of the film, whose last frame is at 0:01\.967") as raised:
            film.moment_at(seconds)
        assert str(raised.value).endswith("; give a time from 0:00.000 to 0:01.967")
        assert "\n" not in str(raised.value)
        assert film.number_of(film.moment_at(parse_time("0:01.967"))) == len(film.index) - 1


@pytest.mark.parametrize("name", made.names())
def test_the_time_written_of_a_frame_names_that_frame(name: str) -> None:
    """Also where frames lie between milliseconds, as at 29.97 a second: 0:00.033 is frame 1, which comes at 0.033367 s."""
    with open_film(made.film(name)) as film:
        for number in range(len(film.index)):
            written = format_time(film.time_of(film.moment_of(number)))
            assert film.number_of(film.moment_at(parse_time(written))) == number, written


def test_numbers_and_moments_that_are_not_there_are_refused() -> None:
    with open_film(made.film("constant.mp4")) as film:
        for number in (-1, 90):
            with pytest.raises(FilmReviewError, match="frames 0 to 89"):
                film.frame(number)
        with pytest.raises(FilmReviewError, match="no frame at exactly 1000 ticks"):
            film.frame_at(Moment(1000, Fraction(1, 30_000)))
        assert film.number_of(Moment(3003, Fraction(1, 90_000))) == 1  # the same moment in other ticks


def test_opening_can_be_stopped(tmp_path: Path) -> None:
    def stop(*_: object) -> None:
        raise Stopped("stopped")

    plan = make_films.Plan("small.mp4", range(2100), Fraction(1, 1000), width=32, height=16, draw=make_films.scene)
    path = make_films.make(plan, tmp_path)
    with pytest.raises(Stopped):
        open_film(path, progress=stop)
    assert not still_open(path)


def test_progress_rises_to_the_end(tmp_path: Path) -> None:
    shares: list[float] = []
    plan = make_films.Plan("small.mp4", range(4200), Fraction(1, 1000), width=32, height=16, draw=make_films.scene)
    with open_film(make_films.make(plan, tmp_path), progress=lambda share, _: shares.append(share)):
        assert len(shares) == 2
        assert 0 < shares[0] < shares[1] <= 1
