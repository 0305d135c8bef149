"""Colours of what is written are within two levels of the source's, and the file says how to read them."""

from fractions import Fraction
from pathlib import Path

import av
import made
import numpy as np
import pytest
from drawn import PATCHES
from numpy.typing import NDArray

from filmreview.facts.region import Box
from filmreview.film.colours import ColourSettings
from filmreview.film.film import open_film
from filmreview.lessons.blur_drawing import CELLS, LEVELS, blur
from filmreview.lessons.clip import Card, Clip, Hold
from filmreview.lessons.planes import Planes
from filmreview.lessons.writing import write_clip, write_lesson
from tests.lessons.clip_making import a_clip, moments, nobody, span_in

KR_KB = {"bt601": (0.299, 0.114), "bt709": (0.2126, 0.0722)}  # ITU-R BT.601-7, BT.709-6
CODES = {"bt601": 6, "bt709": 1}  # ITU-T H.273, table 4
FILMS = [name for name in made.names() if name.startswith("colour-")]


def colours_of(frame: av.VideoFrame, matrix: str, full: bool, boxes: list[list[int]]) -> NDArray[np.float64]:
    """R'G'B' of 255 in the middle of each box by the formulas of the standards, not by the library's way back."""
    planes = [np.asarray(memoryview(plane)).reshape(-1, plane.line_size) for plane in frame.planes]
    kr, kb = KR_KB[matrix]
    found = []
    for x, y, width, height in boxes:
        part = [planes[0][y + 4 : y + height - 4, x + 4 : x + width - 4]]
        part += [plane[y // 2 + 2 : (y + height) // 2 - 2, x // 2 + 2 : (x + width) // 2 - 2] for plane in planes[1:]]
        luma, blue, red = (float(one.mean()) for one in part)
        if full:
            luma, blue, red = luma / 255, (blue - 128) / 255, (red - 128) / 255
        else:
            luma, blue, red = (luma - 16) / 219, (blue - 128) / 224, (red - 128) / 224
        r, b = luma + 2 * (1 - kr) * red, luma + 2 * (1 - kb) * blue
        found.append([r, (luma - kr * r - kb * b) / (1 - kr - kb), b])
    return np.array(found) * 255


@pytest.mark.parametrize("name", FILMS)
def test_patches_come_back_within_two_levels(tmp_path: Path, name: str) -> None:
    """Played and held pictures; an untagged film is read as the film room guesses: BT.709 from 720 lines on, BT.601 below."""
    truth = made.truth(name)
    settings = None
    if not truth["tagged"] and truth["matrix"] == "bt709" and truth["height"] < 720:
        settings = ColourSettings("bt709")  # as a reviewer would set it
    clip = a_clip(name, 2, 8, hold=Hold(moments(name)[4], Fraction(1, 5)), colours=settings)
    written = write_clip(clip, tmp_path / "clip.mp4", "question")
    boxes, full = [patch["box"] for patch in truth["patches"]], truth["range"] == "full"
    expected = np.array([patch["rgb"] for patch in truth["patches"]], np.float64)
    with av.open(str(written.path)) as film:
        frames = list(film.decode(video=0))
        code = CODES[truth["matrix"]]
        for frame in frames:
            told = (int(frame.color_primaries), int(frame.color_trc), int(frame.colorspace), int(frame.color_range))
            assert told == (code, code, code, 2 if full else 1)
            away = np.abs(colours_of(frame, truth["matrix"], full, boxes) - expected).max()
            assert away <= 2, (frame.pts, away)
    assert len(frames) == 6 + 6


def test_films_of_different_colours_in_one_lesson(tmp_path: Path) -> None:
    """The second film is turned into the first one's matrix and range."""
    one, two = "colour-709-limited.mp4", "colour-601-full.mp4"
    written = write_lesson([a_clip(one, 0, 3), a_clip(two, 0, 3)], tmp_path / "lesson.mp4", "question")
    patches = made.truth(two)["patches"]
    expected = np.array([patch["rgb"] for patch in patches], np.float64)
    with av.open(str(written.path)) as film:
        frames = list(film.decode(video=0))
        for frame in frames:
            away = np.abs(colours_of(frame, "bt709", False, [patch["box"] for patch in patches]) - expected).max()
            assert away <= 3, (frame.pts, away)  # a level more: 4:2:0 of 8 bits is rounded twice on the way
    assert len(frames) == 6


def test_cards_have_their_own_colours_whatever_the_film_s(tmp_path: Path) -> None:
    for name, matrix, full in (("colour-709-limited.mp4", "bt709", False), ("colour-601-full.mp4", "bt601", True)):
        clip = a_clip(name, 0, 2, title=Card(("One",), Fraction(1, 10)))
        written = write_clip(clip, tmp_path / "clip.mp4", "question")
        with av.open(str(written.path)) as film:
            found = colours_of(next(film.decode(video=0)), matrix, full, [[0, 0, 24, 24]])
        assert np.abs(found - (28, 30, 34)).max() <= 2


def test_a_blurred_box_holds_a_few_coarse_cells_and_nothing_else_changes() -> None:
    dice = np.random.default_rng(5)
    planes = Planes(*(dice.integers(0, 256, size, np.uint8) for size in ((90, 160), (45, 80), (45, 80))))
    box = Box(31, 21, 41, 30)
    made_blurred = blur(planes, [box])
    inside = made_blurred.luma[21:51, 31:72]
    outside = np.ones((90, 160), bool)
    outside[21:51, 31:72] = False
    assert (made_blurred.luma == planes.luma)[outside].all()
    # smooth between few cells: neighbouring pixels differ by little, where before they differed by half the range
    assert np.abs(np.diff(inside.astype(int), axis=1)).max() < 256 / (41 / CELLS) + 1
    assert (LEVELS, CELLS) == (16, 4)
    chroma = made_blurred.blue[10:26, 15:36].astype(int)
    assert np.abs(np.diff(chroma, axis=1)).max() < 40
    assert (made_blurred.blue[26:] == planes.blue[26:]).all()


@pytest.mark.parametrize(
    ("codec", "layout"), [("libx264", "yuv420p10le"), ("ffv1", "bgr0"), ("ffv1", "yuv444p"), ("mjpeg", "yuvj422p")]
)
def test_other_ways_of_storing_colours(tmp_path: Path, codec: str, layout: str) -> None:
    """Ten bits, R'G'B', full and halved chroma. The film is told from the written one by the film room's own exact reading."""
    path = tmp_path / "film.mkv"
    picture = np.full((96, 160, 3), 128, np.uint8)
    for place, rgb in enumerate(PATCHES[:8]):
        picture[48 * (place // 4) : 48 * (place // 4) + 48, 40 * (place % 4) : 40 * (place % 4) + 40] = rgb
    with av.open(str(path), "w") as out:
        stream = out.add_stream(codec, rate=25, width=160, height=96, options={"qp": "4"} if codec == "libx264" else {})
        stream.pix_fmt = layout
        if codec == "mjpeg":
            stream.codec_context.qmin = stream.codec_context.qmax = 1
        for number in range(6):
            frame = av.VideoFrame.from_ndarray(picture, format="rgb24").reformat(format=layout)
            frame.pts, frame.time_base = number, Fraction(1, 25)
            out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    with open_film(path) as film:
        span = span_in(film, 0, 6)
        exact = film.frame(2).exact_picture() * 255
    clip = Clip(path, span, hold=Hold(span.start, Fraction(1, 5)), faces=nobody(span))
    write_clip(clip, tmp_path / "clip.mp4", "question")
    with open_film(tmp_path / "clip.mp4") as made_film:
        assert not made_film.info.matrix_assumed
        for number in range(made_film.info.frames):
            away = np.abs(made_film.frame(number).exact_picture() * 255 - exact)
            for place in range(8):
                y, x = 48 * (place // 4), 40 * (place % 4)
                assert away[y + 8 : y + 40, x + 8 : x + 32].mean(axis=(0, 1)).max() <= 2, (number, place)
