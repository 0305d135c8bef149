"""A film written from pictures and samples reads back as what was given."""

import subprocess
import sys
import textwrap
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest

from filmreview.errors import FilmReviewError, Stopped
from filmreview.film.writing import FilmWriter, Writing

NTSC = Fraction(30000, 1001)
PATCHES = [(235, 40, 40), (20, 90, 200), (240, 240, 240), (16, 18, 20), (200, 180, 90), (120, 40, 130)]


def patches(width: int = 192, height: int = 128) -> np.ndarray:
    picture = np.zeros((height, width, 3), np.uint8)
    for place, colour in enumerate(PATCHES):
        x = place * width // len(PATCHES)
        picture[:, x : x + width // len(PATCHES)] = colour
    return picture


def write_short(path: Path, pictures: int = 30, **more: object) -> None:
    writing = Writing(192, 128, NTSC, preset="ultrafast", crf=1, **more)  # type: ignore[arg-type]
    with FilmWriter(path, writing) as writer:
        for number in range(pictures):
            writer.add_picture(patches())
            if writing.sound_rate:
                since = 1602 * number + np.arange(1602)
                writer.add_sound(0.3 * np.sin(since * 2 * np.pi * 440 / 48000))


def test_every_picture_stands_at_its_exact_time(tmp_path: Path) -> None:
    write_short(tmp_path / "a.mp4")
    with av.open(str(tmp_path / "a.mp4")) as film:
        stream = film.streams.video[0]
        times = [frame.pts * stream.time_base for frame in film.decode(stream)]
    assert times == [n / NTSC for n in range(30)]


def test_ticks_given_make_a_variable_rate(tmp_path: Path) -> None:
    ticks = [0, 1, 5, 6, 11]
    with FilmWriter(tmp_path / "v.mp4", Writing(192, 128, Fraction(25), preset="ultrafast")) as writer:
        for tick in ticks:
            writer.add_picture(patches(), tick)
    with av.open(str(tmp_path / "v.mp4")) as film:
        stream = film.streams.video[0]
        assert [frame.pts * stream.time_base * 25 for frame in film.decode(stream)] == ticks


def test_the_file_says_bt709_limited(tmp_path: Path) -> None:
    # codes of ITU-T H.273: 1 = BT.709 for primaries, transfer and matrix; libav's range 1 = limited
    write_short(tmp_path / "a.mp4", pictures=3)
    with av.open(str(tmp_path / "a.mp4")) as film:
        context = film.streams.video[0].codec_context
        assert (context.color_primaries, context.color_trc, context.colorspace, context.color_range) == (1, 1, 1, 1)


def test_flat_patches_come_back_within_two_levels(tmp_path: Path) -> None:
    write_short(tmp_path / "a.mp4", pictures=3)
    with av.open(str(tmp_path / "a.mp4")) as film:
        frame = next(film.decode(video=0))
        planes = [np.asarray(plane).reshape(plane.height, plane.line_size)[:, : plane.width] for plane in frame.planes]
    # R'G'B' from Y'CbCr by ITU-R BT.709-6 (Kr 0.2126, Kb 0.0722, limited range), not by the library's own way back
    for place, colour in enumerate(PATCHES):
        x = place * 32 + 16
        luma = (float(planes[0][64, x]) - 16) / 219
        blue = (float(planes[1][32, x // 2]) - 128) / 224
        red = (float(planes[2][32, x // 2]) - 128) / 224
        r, b = luma + 1.5748 * red, luma + 1.8556 * blue
        g = (luma - 0.2126 * r - 0.0722 * b) / 0.7152
        assert np.abs(np.array([r, g, b]) * 255 - colour).max() <= 2, colour


def test_sound_is_as_long_as_given(tmp_path: Path) -> None:
    write_short(tmp_path / "s.mp4", sound_rate=48000)
    with av.open(str(tmp_path / "s.mp4")) as film:
        stream = film.streams.audio[0]
        assert stream.duration is not None
        assert abs(stream.duration * stream.time_base - Fraction(30 * 1602, 48000)) <= Fraction(1024, 48000)
        heard = np.concatenate([frame.to_ndarray()[0] for frame in film.decode(stream)])
    tone = np.abs(np.fft.rfft(heard[4800:28800]))
    assert tone.argmax() * 48000 / 24000 == 440


def stop_after_one(path: Path) -> None:
    with FilmWriter(path, Writing(192, 128, NTSC)) as writer:
        writer.add_picture(patches())
        raise Stopped("stopped")


def test_a_stop_leaves_nothing_and_the_old_file_stays(tmp_path: Path) -> None:
    path = tmp_path / "a.mp4"
    path.write_text("old")
    with pytest.raises(Stopped):
        stop_after_one(path)
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("folder", ["missing", "a-file"])
def test_a_folder_that_cannot_be_written_to_is_one_clear_line(tmp_path: Path, folder: str) -> None:
    (tmp_path / "a-file").write_text("not a folder")
    with pytest.raises(FilmReviewError, match=r"a\.mp4: the film cannot be written .*choose a folder"):
        FilmWriter(tmp_path / folder / "a.mp4", Writing(192, 128, NTSC))


def test_a_full_disk_is_one_clear_line_and_leaves_nothing(tmp_path: Path) -> None:
    # a limit on the size of a file stands in for the full disk: the write fails the same way, part of the film already written
    script = """
        import resource, sys
        from fractions import Fraction
        from pathlib import Path
        import numpy as np
        from filmreview.errors import FilmReviewError
        from filmreview.film.writing import FilmWriter, Writing
        resource.setrlimit(resource.RLIMIT_FSIZE, (200_000, 200_000))
        dice = np.random.default_rng(1)
        try:
            with FilmWriter(Path(sys.argv[1]), Writing(320, 240, Fraction(25), preset="ultrafast", crf=5)) as writer:
                for _ in range(60):
                    writer.add_picture(dice.integers(0, 256, (240, 320, 3), np.uint8))
        except FilmReviewError as error:
            print(error)
    """
    told = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(script), str(tmp_path / "a.mp4")], capture_output=True, text=True, check=True
    )
    assert "a.mp4: the film cannot be written (File too large)" in told.stdout
    assert told.stdout.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_a_picture_of_another_size_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="192x128"), FilmWriter(tmp_path / "a.mp4", Writing(192, 128, NTSC)) as writer:
        writer.add_picture(np.zeros((64, 64, 3), np.uint8))
    assert list(tmp_path.iterdir()) == []
