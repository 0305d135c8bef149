"""Pictures for the crew: nothing outside the region can be made out, the region stays, and on the head it does not."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from numpy.fft import fft2, fftfreq
from openpyxl import load_workbook
from PIL import Image

from filmreview.errors import FilmReviewError
from filmreview.facts.items import ITEMS
from filmreview.facts.region import Box, Polygon
from filmreview.sheets.blurring import ON_THE_HEAD, ROWS, blurred
from filmreview.sheets.handover import CREW
from filmreview.sheets.marking import Picture
from filmreview.sheets.workbook import write_workbook
from tests.sheets.small_sheet import LINE, sheet

BOX = Box(600, 200, 60, 90)


def noise() -> Picture:
    return np.random.default_rng(7).integers(0, 256, (720, 1280, 3), dtype=np.uint8)


def finest(picture: Picture) -> float:
    """The share of the picture's variance in waves shorter than a cell, down the picture."""
    grey = picture.astype(float).mean(axis=2)
    power = np.abs(fft2(grey - grey.mean())) ** 2
    short = np.abs(fftfreq(grey.shape[0]))[:, None] > ROWS / grey.shape[0]
    return float((power * short).sum() / power.sum())


def test_what_is_finer_than_a_cell_is_gone() -> None:
    assert finest(noise()) > 0.9
    assert finest(blurred(noise(), None, "jersey")) < 0.04


def test_the_region_stays_as_it_was_and_nothing_else_does() -> None:
    before = noise()
    after = blurred(before, BOX, "arm sleeve")
    inside = np.zeros(before.shape[:2], bool)
    inside[BOX.y : BOX.bottom, BOX.x : BOX.right] = True
    assert np.array_equal(after[inside], before[inside])
    assert abs(np.corrcoef(after[~inside].ravel(), before[~inside].ravel())[0, 1]) < 0.1
    assert np.array_equal(before, noise()), "the picture it came from is not touched"


def test_only_the_inside_of_a_polygon_stays() -> None:
    before = noise()
    after = blurred(before, Polygon(((600, 200), (700, 200), (600, 300))), "jersey")
    assert np.array_equal(after[210, 610], before[210, 610])
    assert not np.array_equal(after[285:300, 685:700], before[285:300, 685:700])


@pytest.mark.parametrize("item", sorted(ON_THE_HEAD))
def test_on_the_head_the_region_is_coarse_too(item: str) -> None:
    before = noise()
    after = blurred(before, BOX, item)
    part = (slice(BOX.y, BOX.bottom), slice(BOX.x, BOX.right))
    assert abs(np.corrcoef(after[part].ravel(), before[part].ravel())[0, 1]) < 0.25
    assert np.abs(after[part].mean() - before[part].mean()) < 3, "its colour as a whole is still that of the item"


def test_the_items_are_words_of_the_closed_list() -> None:
    assert set(ITEMS) >= ON_THE_HEAD


def test_small_and_odd_pictures_are_taken() -> None:
    picture = np.full((5, 3, 3), 80, np.uint8)
    assert np.array_equal(blurred(picture, Box(0, 0, 3, 1), "headband"), picture)
    with pytest.raises(FilmReviewError, match="reaches outside"):
        blurred(picture, Box(0, 0, 4, 1), "jersey")


def test_the_crew_s_workbook_holds_blurred_pictures_only(tmp_path: Path) -> None:
    made = sheet((replace(LINE, region=BOX),), pictures=lambda *_: noise())
    sharp = {}
    for reader in ("coordinator", CREW):
        path = tmp_path / f"{reader}.xlsx"
        write_workbook(replace(made, made_for=reader), path)
        (image,) = load_workbook(path)["Findings"]._images
        frame = np.asarray(Image.open(image.ref).convert("L"), float)[:, :500]
        sharp[reader] = float(np.abs(np.diff(frame, axis=1)).mean())
    assert sharp["crew"] < 0.15 * sharp["coordinator"]
