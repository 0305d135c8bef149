"""The view grade: words with the figures behind them."""

import cv2
import numpy as np
import pytest

from filmreview.facts.region import Box
from filmreview.measure.shape import Eroded, erode, mask_of
from filmreview.measure.view import Blur, Exposure, blur_length, frame_sharpness, grade, sharpness


def _shape(width: int, height: int) -> Eroded:
    return erode(*mask_of(Box(0, 0, width, height), 500, 500), 4)


def test_a_good_view() -> None:
    view = grade(_shape(40, 60), 0.0, sharpness_share=0.9)
    assert (view.word, view.reasons) == ("good", ())
    assert dict(view.figures) == {"px across": 40.0, "pixels": 32 * 52.0, "clipped": 0.0, "sharpness": 0.9}


@pytest.mark.parametrize(
    ("shape", "clipped", "share", "blur", "word", "reason"),
    [
        (_shape(9, 40), 0.0, None, None, "thin", "9 px across"),
        (_shape(12, 12), 0.0, None, None, "thin", "16 pixels"),
        (_shape(40, 60), 0.1, None, None, "thin", "10% of the pixels are clipped"),
        (_shape(40, 60), 0.0, 0.1, None, "thin", "sharpness 10% of the film's best"),
        (_shape(40, 60), 0.0, None, Blur(8.0, 0.2), "thin", "motion blur 8 px"),
        (_shape(5, 60), 0.0, None, None, "too poor", "5 px across, 6 are needed"),
        (_shape(40, 60), 0.7, None, None, "too poor", "70% of the pixels are clipped"),
        (_shape(12, 60), 0.0, None, Blur(9.0, 0.75), "too poor", "motion blur 9 px"),
        (_shape(12, 60), 0.0, None, Blur(9.0, 0.15), "thin", "motion blur 9 px"),  # along its length
    ],
)
def test_why_it_is_not_good(
    shape: Eroded, clipped: float, share: float | None, blur: Blur | None, word: str, reason: str
) -> None:  # fmt: skip
    view = grade(shape, clipped, share, blur)
    assert view.word == word
    assert reason in view.reasons
    assert str(view).startswith(word)


@pytest.mark.parametrize(
    ("clipped", "exposure", "word", "reasons"),
    [
        (0.0, Exposure(1081, 0.0), "good", ()),
        (0.0, Exposure(1081, 0.25), "good", ()),  # all of it is dropped by trimming
        (0.0, Exposure(1081, 0.3), "thin", ("30% of the pixels have no light",)),
        (0.0, Exposure(1081, 1.0, black=True), "too poor", ("the picture is black",)),
        (0.45, Exposure(20, 0.0), "thin", ("45% of the pixels are clipped", "only 20 pixels can be used")),
        (1.0, Exposure(0, 0.0), "too poor", ("100% of the pixels are clipped", "no pixel can be used")),
    ],
)
def test_the_light_and_what_is_left_after_trimming(
    clipped: float, exposure: Exposure, word: str, reasons: tuple[str, ...]
) -> None:  # fmt: skip
    view = grade(_shape(40, 60), clipped, exposure=exposure)
    assert (view.word, view.reasons) == (word, reasons)
    assert dict(view.figures)["pixels used"] == exposure.left
    assert dict(view.figures)["dark"] == exposure.dark


def test_one_pixel_is_one() -> None:
    assert "only 1 pixel can be used" in grade(_shape(40, 60), 0.45, exposure=Exposure(1, 0.0)).reasons


def test_sharpness_is_the_variance_of_opencvs_laplacian() -> None:
    picture = np.random.default_rng(1).random((50, 60, 3))
    luma = (picture @ np.array([0.2126, 0.7152, 0.0722]) * 255).astype(np.float64)
    theirs = cv2.Laplacian(luma, cv2.CV_64F, ksize=1)[1:-1, 1:-1].var()
    assert sharpness(picture) == pytest.approx(theirs, rel=1e-6)
    assert sharpness(picture[:2]) == 0.0


def test_blur_takes_sharpness_away() -> None:
    draw = np.random.default_rng(2)
    sharp = cv2.resize(draw.random((72, 128, 3)), (1280, 720), interpolation=cv2.INTER_NEAREST)
    soft = cv2.GaussianBlur(sharp, (0, 0), 3.0)
    assert frame_sharpness(soft) < 0.25 * frame_sharpness(sharp)
    coded = np.rint(sharp * 255).astype(np.uint8)
    assert frame_sharpness(coded) == pytest.approx(frame_sharpness(sharp), rel=0.01)


def test_blur_length_of_half_an_open_shutter() -> None:
    assert blur_length(6.0, 0.5) == 3.0  # open for half the frame time: common practice
