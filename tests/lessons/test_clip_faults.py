"""What can go wrong when a clip is written: one clear line, and never half a file."""

import subprocess
import sys
import textwrap
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import av
import made
import numpy as np
import pytest
from burnt import read_number
from drawn import scene

from filmreview.errors import FilmReviewError, Stopped
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from filmreview.lessons.clip import Card, Clip, Hold, Mark, Slow
from filmreview.lessons.writing import write_clip, write_files, write_lesson
from tests.lessons.clip_making import a_clip, moments, nobody, read_back, span_in, span_of

HALF = Fraction(1, 2)


def test_a_missing_film_is_one_clear_line(tmp_path: Path) -> None:
    clip = replace(a_clip("constant.mp4", 0, 5), film=tmp_path / "gone.mp4")
    with pytest.raises(FilmReviewError, match=r"gone\.mp4: there is no such file; check the path"):
        write_clip(clip, tmp_path / "clip.mp4", "question")
    assert list(tmp_path.iterdir()) == []


def test_no_clip_at_all(tmp_path: Path) -> None:
    with pytest.raises(FilmReviewError, match="there is no clip to write"):
        write_lesson([], tmp_path / "lesson.mp4", "question")


@pytest.mark.parametrize("at", [0.0, 0.3, 0.8])
def test_a_stop_leaves_nothing_and_the_old_file_stays(tmp_path: Path, at: float) -> None:
    path = tmp_path / "clip.mp4"
    path.write_text("old")

    def stop(share: float, _words: str) -> None:
        if share >= at:
            raise Stopped("stopped")

    with pytest.raises(Stopped):
        write_clip(a_clip("b-frames.mp4", 10, 110), path, "question", stop)
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_progress_rises_to_one(tmp_path: Path) -> None:
    told: list[float] = []
    clips = [a_clip("constant.mp4", 0, 30), a_clip("constant.mp4", 40, 60)]
    paths = [tmp_path / "1.mp4", tmp_path / "2.mp4"]
    written = write_files(clips, paths, "question", lambda share, _words: told.append(share))
    assert [one.path for one in written] == paths
    assert told == sorted(told)
    assert (told[0], told[-1]) == (0.0, 1.0)


@pytest.mark.parametrize("folder", ["missing", "a-file"])
def test_a_folder_that_cannot_be_written_to(tmp_path: Path, folder: str) -> None:
    (tmp_path / "a-file").write_text("not a folder")
    with pytest.raises(FilmReviewError, match=r"there is no such folder|not a directory"):
        write_clip(a_clip("constant.mp4", 0, 5), tmp_path / folder / "clip.mp4", "question")


def test_a_full_disk_is_one_clear_line_and_leaves_nothing(tmp_path: Path) -> None:
    # a limit on the size of a file stands in for the full disk: the write fails the same way, part of the film already written
    script = """
        import resource, sys
        from pathlib import Path
        sys.path.insert(0, sys.argv[2])
        from filmreview.errors import FilmReviewError
        from filmreview.lessons.writing import write_clip
        from tests.lessons.clip_making import a_clip
        resource.setrlimit(resource.RLIMIT_FSIZE, (30_000, 30_000))
        try:
            write_clip(a_clip("b-frames.mp4", 0, 120), Path(sys.argv[1]), "question")
        except FilmReviewError as error:
            print(error)
    """
    root = Path(__file__).parents[2]
    told = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(script), str(tmp_path / "clip.mp4"), str(root / "fixtures" / "films")],
        capture_output=True, text=True, check=True, cwd=root,
    )  # fmt: skip
    assert "clip.mp4: the file was not written: file too large; what was there before is as it was" in told.stdout
    assert told.stdout.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_the_film_that_is_cut_from_is_never_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "film.mp4"
    path.write_bytes(made.film("constant.mp4").read_bytes())
    before = path.read_bytes()
    with pytest.raises(FilmReviewError, match="this is the film that is cut from"):
        write_clip(replace(a_clip("constant.mp4", 0, 5), film=path), path, "question")
    assert path.read_bytes() == before


def odd_film(path: Path, width: int, height: int) -> Path:
    """A film of odd width and height, which 4:2:0 of most encoders does not allow."""
    with av.open(str(path), "w") as out:
        stream = out.add_stream("ffv1", rate=25, width=width, height=height)
        stream.pix_fmt = "yuv444p"
        for number in range(20):
            picture = np.ascontiguousarray(scene(width + 1, height + 1, number)[:height, :width])
            frame = av.VideoFrame.from_ndarray(picture, format="rgb24").reformat(format="yuv444p")
            frame.pts, frame.time_base = number, Fraction(1, 25)
            out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    return path


@pytest.mark.parametrize("size", [(321, 181), (320, 181), (321, 180)])
@pytest.mark.parametrize("height", [None, 120])
def test_odd_sizes(tmp_path: Path, size: tuple[int, int], height: int | None) -> None:
    path = odd_film(tmp_path / "odd.mkv", *size)
    with open_film(path) as film:
        span, held = span_in(film, 2, 18), film.moment_of(9)
    region = Box(size[0] - 40, size[1] - 30, 40, 30)  # up to the last odd column and row
    clip = Clip(path, span, hold=Hold(held, HALF), mark=Mark(region), inset=True, faces=nobody(span))
    write_clip(clip, tmp_path / "clip.mp4", "question", height=height)
    got = read_back(tmp_path / "clip.mp4")
    assert got.numbers[:8] + got.numbers[20:] == list(range(2, 18))  # the inset lies over the number of the still
    assert len(got.pictures) == 16 + 12
    assert got.pictures[0].shape[:2] == ((size[1] + 1) // 2 * 2, (size[0] + 1) // 2 * 2) if height is None else (120, 212)


def test_a_smaller_picture_and_none_is_enlarged(tmp_path: Path) -> None:
    for height, expected in ((120, (120, 214)), (720, (180, 320))):
        write_clip(a_clip("constant.mp4", 20, 70), tmp_path / "clip.mp4", "question", height=height)
        got = read_back(tmp_path / "clip.mp4")
        assert got.pictures[0].shape[:2] == expected
        assert got.numbers == made.truth("constant.mp4")["numbers"][20:70]
    with pytest.raises(FilmReviewError, match="a picture of 20 lines"):
        write_clip(a_clip("constant.mp4", 0, 5), tmp_path / "no.mp4", "question", height=20)


def test_a_lesson_of_films_of_different_shapes(tmp_path: Path) -> None:
    """The largest gives the size; the others stand in the middle on black."""
    clips = [a_clip("constant.mp4", 0, 5), a_clip("turned-90.mp4", 0, 5), a_clip("narrow-pixels.mp4", 0, 5)]
    write_lesson(clips, tmp_path / "lesson.mp4", "question")
    got = read_back(tmp_path / "lesson.mp4")
    height, width = got.pictures[0].shape[:2]
    assert (width, height) == (352, 320)
    numbers = [strip_of(picture, made.truth(name)) for picture, name in zip(
        got.pictures, ["constant.mp4"] * 5 + ["turned-90.mp4"] * 5 + ["narrow-pixels.mp4"] * 5, strict=True)]  # fmt: skip
    assert numbers == [0, 1, 2, 3, 4] * 3
    assert got.pictures[0][:60].max() < 20
    assert got.pictures[7][:, :80].max() < 20


def strip_of(picture: np.ndarray, truth: dict[str, object]) -> int | None:
    height, width = picture.shape[:2]
    own_width, own_height = int(str(truth["width"])), int(str(truth["height"]))
    x, y = (width - own_width) // 4 * 2, (height - own_height) // 4 * 2
    return read_number(picture[y : y + own_height, x : x + own_width])


def test_what_is_asked_for_is_checked() -> None:
    span, other = span_of("constant.mp4", 0, 20), span_of("constant.mp4", 10, 30)
    film = made.film("constant.mp4")
    with pytest.raises(FilmReviewError, match="the held moment lies outside"):
        Clip(film, span, hold=Hold(moments("constant.mp4")[20]))
    with pytest.raises(FilmReviewError, match="the slow stretch reaches outside"):
        Clip(film, span, slow=Slow(other, HALF))
    with pytest.raises(FilmReviewError, match="is not slow motion"):
        Slow(span, Fraction(2))
    with pytest.raises(FilmReviewError, match="a still of 0 s cannot be shown"):
        Card(("One",), Fraction(0))
    with pytest.raises(FilmReviewError, match='unknown way to mark "dims"; write "dim"'):
        Mark(Box(0, 0, 5, 5), "dims")
    with pytest.raises(FilmReviewError, match='unknown word for the sound "mute"; write "muted"'):
        Clip(film, span, sound="mute")


def test_a_region_outside_the_picture_is_one_clear_line(tmp_path: Path) -> None:
    mark = Mark(Box(300, 100, 40, 40))
    clip = a_clip("constant.mp4", 0, 5, hold=Hold(moments("constant.mp4")[2], HALF), mark=mark)
    with pytest.raises(FilmReviewError, match="the region 300,100,40,40 reaches outside the picture of 320x180 pixels"):
        write_clip(clip, tmp_path / "clip.mp4", "question")
    assert list(tmp_path.iterdir()) == []


def test_damaged_frames_are_stood_in_for_and_counted(tmp_path: Path) -> None:
    """Every picture of a film with a few coded pictures overwritten still has its place; how many were replaced is told."""
    path = tmp_path / "hurt.mp4"
    data = bytearray(made.film("b-frames.mp4").read_bytes())
    with av.open(str(made.film("b-frames.mp4"))) as film:
        hurt = [packet for packet in film.demux(video=0) if packet.size][20:24]
    for packet in hurt:
        data[packet.pos : packet.pos + packet.size] = b"\xff" * packet.size
    path.write_bytes(bytes(data))
    written = write_clip(replace(a_clip("b-frames.mp4", 10, 70), film=path), tmp_path / "clip.mp4", "question")
    got = read_back(written.path)
    assert len(got.pictures) == 60
    assert got.numbers[:5] == [10, 11, 12, 13, 14]
    assert got.numbers[38:] == list(range(48, 70))  # whole again from the next key frame on
    assert any("damaged frames, the one beside each stands in its place: " in note for note in written.notes)
