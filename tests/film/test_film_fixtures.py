"""The made films themselves: small, with their truth, made alike each time; and the burnt number survives scaling."""

from pathlib import Path

import made
import make_films
import numpy as np
import pytest
from burnt import burn, read_number
from drawn import to_yuv420
from PIL import Image

FILM_ENDINGS = {".mp4", ".mkv", ".ts", ".avi", ".h264", ".m4a"}


def test_every_film_has_its_truth_and_is_small() -> None:
    films = [path for path in made.FOLDER.iterdir() if path.suffix in FILM_ENDINGS]
    assert {path.name for path in films} == set(made.names(pictures=False))
    assert max(path.stat().st_size for path in films) < 150_000
    assert sum(path.stat().st_size for path in films) < 1_500_000


@pytest.mark.parametrize("plan", make_films.plans(), ids=lambda plan: plan.name)
def test_the_truth_is_that_of_the_script(plan: make_films.Plan) -> None:
    assert made.truth(plan.name) == make_films.truth_of(plan)


@pytest.mark.parametrize("name", ["b-frames.mp4", "late-start.mkv"])
def test_a_film_is_made_alike_each_time(tmp_path: Path, name: str) -> None:
    plan = next(plan for plan in make_films.plans() if plan.name == name)
    made_twice = []
    for turn in ("one", "two"):
        (tmp_path / turn).mkdir()
        made_twice.append(make_films.make(plan, tmp_path / turn).read_bytes())
    assert made_twice[0] == made_twice[1]


@pytest.mark.parametrize("size", [(64, 36), (107, 60), (320, 180), (1280, 720)])
def test_the_number_is_read_at_any_size(size: tuple[int, int]) -> None:
    for number in (0, 1, 39, 42, 255, 256, 18_000, 65_535):
        picture = np.full((180, 320, 3), 90, np.uint8)
        burn(picture, number)
        scaled = np.asarray(Image.fromarray(picture).resize(size, Image.Resampling.BILINEAR))
        assert read_number(scaled) == number
        assert read_number(scaled.astype(np.float32) / 255) == number


def test_a_picture_without_a_number_reads_as_none() -> None:
    picture = np.full((180, 320, 3), 90, np.uint8)
    assert read_number(picture) is None
    burn(picture, 5)
    assert read_number(picture[:, ::-1]) is None
    assert read_number(picture[::-1]) is None
    blended = picture // 2
    other = np.zeros_like(picture)
    burn(other, 6)
    assert read_number(blended + other // 2) is None  # two frames mixed by a filter


@pytest.mark.parametrize(
    ("rgb", "matrix", "full", "yuv"),
    [
        # ITU-R BT.709-6, 3.4: white 235, black 16; red by the formula: Y 63, Cb 102, Cr 240.
        ((255, 255, 255), "bt709", False, (235, 128, 128)),
        ((0, 0, 0), "bt709", False, (16, 128, 128)),
        ((255, 0, 0), "bt709", False, (63, 102, 240)),
        # ITU-R BT.601-7, 100 % colour bars (values known from memory): red Y 81, Cb 90, Cr 240; blue 41, 240, 110.
        ((255, 0, 0), "bt601", False, (81, 90, 240)),
        ((0, 0, 255), "bt601", False, (41, 240, 110)),
        # JFIF 1.02: full range.
        ((255, 0, 0), "bt601", True, (76, 85, 255)),
    ],
)
def test_the_formulas_that_write_the_colour_films(
    rgb: tuple[int, int, int], matrix: str, full: bool, yuv: tuple[int, int, int]
) -> None:
    planes = to_yuv420(np.full((2, 2, 3), rgb, np.uint8), matrix, full).ravel()
    assert (planes[0], planes[4], planes[5]) == yuv
