"""Finding the exact frame of a picture, and making playing pictures look as the exact ones."""

from fractions import Fraction

import numpy as np
import pytest

from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.film.playback import Shown
from filmreview.film.playback_match import difference, shown_frame
from filmreview.film.playback_picture import PictureMaker, turn_from
from filmreview.film.upright import Turn
from fixtures.films.made import film as made_film
from fixtures.films.made import names

SLACK = Fraction(1, 5)


@pytest.mark.parametrize("name", ["constant.mp4", "variable.mp4", "transport.ts", "timeless.h264", "open-groups.mp4"])
@pytest.mark.parametrize("off", ["0", "0.35", "-0.35", "1.4", "-1.4"])
def test_finds_the_frame_however_wrong_the_time_is(name: str, off: str) -> None:
    with open_film(made_film(name)) as film:
        for number in range(3, film.info.frames, 29):
            frame = film.frame(number)
            seconds = film.time_of(frame.moment) + Fraction(off)
            assert shown_frame(film, Shown(frame.picture(), seconds, SLACK)).number == number


def test_finds_a_frame_that_was_decoded_a_little_differently() -> None:
    noise = np.random.default_rng(5)
    with open_film(made_film("variable.mp4")) as film:
        for number in (2, 40, 71):
            frame = film.frame(number)
            picture = frame.picture().astype(int) + noise.integers(-2, 3, (frame.height, frame.width, 3))
            shown = Shown(picture.clip(0, 255).astype(np.uint8), film.time_of(frame.moment) + Fraction(1, 4), SLACK)
            assert shown_frame(film, shown).number == number


def test_of_frames_that_look_alike_the_nearest_in_time_is_taken() -> None:
    with open_film(made_film("colour-709-limited.mp4")) as film:
        picture = film.frame(4).picture()
        alike = [n for n in range(film.info.frames) if difference(film.frame(n).picture(), picture) == 0.0]
        for number in alike:
            shown = Shown(picture, film.time_of(film.moment_of(number)), SLACK)
            assert shown_frame(film, shown).number == number
        assert alike


def test_a_picture_that_is_of_no_frame_gets_the_likest() -> None:
    with open_film(made_film("constant.mp4")) as film:
        shown = Shown(255 - film.frame(30).picture(), film.time_of(film.moment_of(30)), SLACK)
        assert 0 <= shown_frame(film, shown).number < film.info.frames


def test_a_film_of_damaged_frames_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    with open_film(made_film("constant.mp4")) as film:
        shown = Shown(film.frame(0).picture(), Fraction(0), SLACK)

        def damaged(number: int) -> None:
            raise FilmReviewError(f"frame {number} is damaged")

        monkeypatch.setattr(film, "frame", damaged)
        with pytest.raises(FilmReviewError, match="no frame here can be decoded"):
            shown_frame(film, shown)


def test_pictures_of_different_size_are_never_the_same() -> None:
    assert difference(np.zeros((2, 2, 3), np.uint8), np.zeros((2, 4, 3), np.uint8)) == float("inf")


@pytest.mark.parametrize("name", [name for name in names() if name.endswith(".mp4")])
def test_planes_make_the_same_picture_as_the_film_itself(name: str) -> None:
    with open_film(made_film(name)) as film:
        frame = film.frame(film.info.frames // 2)
        decoded = frame._decoded
        planes = [(np.frombuffer(memoryview(plane), np.uint8), plane.line_size) for plane in decoded.planes]
        maker = PictureMaker(film, turned=False)
        assert maker.stored_size == (decoded.width, decoded.height)
        picture = maker.picture("yuv420p", maker.stored_size, planes)
        assert picture.shape == frame.picture().shape
        assert difference(picture, frame.picture()) < 0.3  # scaled chroma may be placed differently; else equal
        if film.info.sample_aspect == 1:
            assert (picture == frame.picture()).all()


def test_a_picture_of_a_pixel_more_or_less_is_brought_to_the_film_s_size() -> None:
    with open_film(made_film("constant.mp4")) as film:
        frame, maker = film.frame(20), PictureMaker(film, turned=True)
        picture = frame.picture()
        assert maker.fitted(picture) is picture
        wider = np.concatenate([picture, picture[:, -1:]], axis=1)
        for rounded in (wider, picture[:, :-1], picture[:-1]):
            assert maker.fitted(rounded).shape == picture.shape
            shown = Shown(maker.fitted(rounded), film.time_of(film.moment_of(25)), SLACK)
            assert shown_frame(film, shown).number == 20


@pytest.mark.parametrize("exchanged", [False, True])
@pytest.mark.parametrize("left_right", [False, True])
@pytest.mark.parametrize("top_bottom", [False, True])
def test_a_turn_is_told_whole_by_degrees_and_mirroring(exchanged: bool, left_right: bool, top_bottom: bool) -> None:
    turn = Turn(exchanged, left_right, top_bottom)
    assert turn_from(turn.degrees, turn.mirrored) == turn


@pytest.mark.parametrize("size", [(320, 180), (319, 180), (322, 181)])
def test_planes_made_square_by_the_source_are_brought_to_the_film_s_size(size: tuple[int, int]) -> None:
    # wide-pixels.mp4 stores 240x180 pixels of 4:3; a source that squares them may round a pixel off.
    with open_film(made_film("wide-pixels.mp4")) as film:
        frame = film.frame(20)
        squared = frame._decoded.reformat(*size, interpolation="BILINEAR")
        planes = [(np.frombuffer(memoryview(plane), np.uint8), plane.line_size) for plane in squared.planes]
        picture = PictureMaker(film, turned=False).picture("yuv420p", size, planes)
        assert picture.shape == (film.info.height, film.info.width, 3)
        assert shown_frame(film, Shown(picture, film.time_of(film.moment_of(27)), SLACK)).number == 20
