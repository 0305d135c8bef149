"""Matrix and range: told, guessed, set by the reviewer; and flat colours against the formulas of BT.601 and BT.709.

The made colour films were written by formulas of `fixtures/films/drawn.py` (ITU-R BT.601-7, BT.709-6), not by the library that
reads them.
"""

from pathlib import Path

import av
import made
import make_films
import numpy as np
import pytest
from drawn import LUMA_WEIGHTS
from footage import real_footage
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError
from filmreview.film.film import ColourSettings, Frame, open_film

COLOUR_FILMS = [name for name in made.names() if name.startswith("colour")]


def worst_level(picture: NDArray[np.floating], patches: list[dict[str, list[int]]]) -> float:
    """The largest difference from the true colours over all patches, in levels of 255, their edges left out."""
    worst = 0.0
    for patch in patches:
        x, y, width, height = patch["box"]
        inner = picture[y + 4 : y + height - 4, x + 4 : x + width - 4]
        worst = max(worst, float(np.abs(inner - patch["rgb"]).max()))
    return worst


@pytest.mark.parametrize("name", COLOUR_FILMS)
def test_flat_colours_come_out_true(name: str) -> None:
    """Within 1.5 levels exactly (rounding to 8-bit Y'CbCr alone costs up to 1.4), within 3.5 levels the fast way."""
    truth = made.truth(name)
    settings = ColourSettings(matrix=truth["matrix"]) if name == "colour-709-untagged.mp4" else None
    with open_film(made.film(name), settings) as film:
        frame = film.frame(5)
    assert (film.info.matrix, film.info.range) == (truth["matrix"], truth["range"])
    assert worst_level(frame.exact_picture() * 255, truth["patches"]) < 1.5
    assert worst_level(frame.picture().astype(float), truth["patches"]) < 3.5


@pytest.mark.parametrize("name", COLOUR_FILMS)
def test_exact_pictures_follow_the_formula(name: str) -> None:
    """From the very Y'CbCr that was decoded, within a twentieth of a level."""
    truth = made.truth(name)
    settings = ColourSettings(matrix=truth["matrix"], range=truth["range"])
    with open_film(made.film(name), settings) as film:
        frame = film.frame(5)
    exact = frame.exact_picture() * 255
    for patch in truth["patches"]:
        x, y, width, height = patch["box"]
        row, column = y + height // 2, x + width // 2
        expected = by_formula(frame, row, column, truth["matrix"], truth["range"])
        assert np.abs(exact[row, column] - expected).max() < 0.05


def by_formula(frame: Frame, row: int, column: int, matrix: str, value_range: str) -> NDArray[np.float64]:
    luma, blue, red = (
        np.frombuffer(plane, np.uint8).reshape(plane.height, plane.line_size)[row // step, column // step]
        for plane, step in zip(frame._decoded.planes, (1, 2, 2), strict=True)
    )
    low, luma_steps, chroma_steps = (0, 255, 255) if value_range == "full" else (16, 219, 224)
    kr, kb = LUMA_WEIGHTS[matrix]
    y, b, r = (float(luma) - low) / luma_steps, (float(blue) - 128) / chroma_steps, (float(red) - 128) / chroma_steps
    rgb = np.array([y + (2 - 2 * kr) * r, 0, y + (2 - 2 * kb) * b])
    rgb[1] = (y - kr * rgb[0] - kb * rgb[2]) / (1 - kr - kb)
    return np.clip(rgb, 0, 1) * 255


@pytest.mark.parametrize(
    ("name", "matrix", "assumed"),
    [
        ("colour-601-untagged.mp4", "bt601", True),
        ("colour-709-untagged.mp4", "bt601", True),  # a wrong guess, and shown as a guess
        ("colour-720-lines-untagged.mp4", "bt709", True),
        ("colour-709-limited.mp4", "bt709", False),
        ("colour-601-full.mp4", "bt601", False),
    ],
)
def test_what_is_assumed_is_told(name: str, matrix: str, assumed: bool) -> None:
    with open_film(made.film(name)) as film:
        info = film.info
    assert (info.matrix, info.matrix_assumed, info.range_assumed) == (matrix, assumed, assumed)


def test_real_footage_of_720_lines_is_taken_for_high_definition() -> None:
    with open_film(real_footage("bigbuckbunny.mp4")) as film:
        assert (film.info.matrix, film.info.matrix_assumed) == ("bt709", True)
    with open_film(real_footage("bikes.mp4")) as film:
        assert (film.info.matrix, film.info.matrix_assumed) == ("bt601", True)


def test_the_lines_of_a_turned_film_are_counted_as_it_was_shot(tmp_path: Path) -> None:
    """A phone held upright stores 1280x720 and a turn; stored without a turn, 720x1280 is high definition too."""
    for width, height, matrix in ((720, 1280, "bt709"), (1280, 704, "bt601")):
        plan = make_films.Plan("shot.mp4", range(0, 3000, 3000), make_films.TICK, width=width, height=height, tagged=False)
        with open_film(make_films.make(plan, tmp_path)) as film:
            assert film.info.matrix == matrix


def test_the_wrong_matrix_costs_what_it_is_said_to() -> None:
    """Reading BT.709 as BT.601 puts some colour over 15 levels off: the reason why the guess is shown and can be set."""
    truth = made.truth("colour-709-untagged.mp4")
    with open_film(made.film("colour-709-untagged.mp4")) as film:
        assert worst_level(film.frame(0).exact_picture() * 255, truth["patches"]) > 15


def test_the_reviewer_has_the_last_word() -> None:
    with open_film(made.film("colour-709-limited.mp4"), ColourSettings("bt601", "full")) as film:
        info = film.info
    assert (info.matrix, info.range, info.matrix_assumed, info.range_assumed) == ("bt601", "full", False, False)


def test_an_unknown_matrix_or_range_is_refused_with_the_nearest() -> None:
    with pytest.raises(FilmReviewError, match='write "bt709"'):
        ColourSettings(matrix="bt707")
    with pytest.raises(FilmReviewError, match='write "limited"'):
        ColourSettings(range="limitd")


GREYS = {  # layout: code of its luma, the grey that is by the formula of limited range (full for R'G'B')
    "yuv420p10le": (502, (502 - 64) / 876),
    "yuv422p": (126, 110 / 219),
    "yuv444p": (126, 110 / 219),
    "nv12": (126, 110 / 219),
    "rgb24": (128, 128 / 255),
}


@pytest.mark.parametrize("layout", GREYS)
def test_ten_bits_and_other_layouts_are_read(tmp_path: Path, layout: str) -> None:
    code, grey = GREYS[layout]
    path = tmp_path / "grey.mkv"
    write_grey(path, layout, code)
    with open_film(path) as film:
        picture = film.frame(0).exact_picture()
        assert film.info.matrix == ("rgb" if layout == "rgb24" else "bt601")
    assert picture.shape == (48, 64, 3)
    assert np.abs(picture - grey).max() < 0.1 / 255


def write_grey(path: Path, layout: str, code: int) -> None:
    """One frame without loss."""
    wide = "10" in layout
    with av.open(str(path), "w") as out:
        stream = out.add_stream("libx264rgb" if layout == "rgb24" else "libx264", rate=25, options={"qp": "0"})
        stream.width, stream.height, stream.pix_fmt = 64, 48, layout
        frame = av.VideoFrame(64, 48, layout)
        for number, plane in enumerate(frame.planes):
            value = code if number == 0 else 512 if wide else 128
            plane.update(np.full(plane.buffer_size // (2 if wide else 1), value, "<u2" if wide else "u1"))
        frame.pts = 0
        out.mux(stream.encode(frame))
        out.mux(stream.encode(None))


def test_high_dynamic_range_is_told(tmp_path: Path) -> None:
    path = tmp_path / "bright.mp4"
    with av.open(str(path), "w") as out:
        stream = out.add_stream("libx264", rate=25)
        stream.width, stream.height, stream.pix_fmt = 64, 48, "yuv420p"
        stream.codec_context.color_trc, stream.codec_context.colorspace = 18, 9  # H.273: HLG, BT.2020
        out.mux(stream.encode(av.VideoFrame(64, 48, "yuv420p")))
        out.mux(stream.encode(None))
    with open_film(path) as film:
        assert film.info.high_dynamic == "HLG"
        assert film.info.matrix == "bt2020"
        assert "cannot be measured" in film.info.trouble[0]
