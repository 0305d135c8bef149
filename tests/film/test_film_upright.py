"""Pictures stand upright, have square pixels and whole fields, whatever the film stores."""

from fractions import Fraction
from pathlib import Path

import av
import made
import numpy as np
import pytest
from av.filter import Graph
from burnt import read_number
from drawn import moving_block, scene
from footage import real_footage
from numpy.typing import NDArray

from filmreview.film.film import open_film
from filmreview.film.upright import Turn, square_size


@pytest.mark.parametrize("name", made.names())
def test_size_is_of_the_upright_picture(name: str) -> None:
    truth = made.truth(name)
    with open_film(made.film(name)) as film:
        frame = film.frame(len(film.index) // 2)
        size = (truth["width"], truth["height"])
        assert (film.info.width, film.info.height) == (frame.width, frame.height) == size
        assert frame.picture().shape == frame.exact_picture().shape == (size[1], size[0], 3)
        assert (frame.picture().dtype, frame.exact_picture().dtype) == (np.uint8, np.float32)
        assert (film.info.rotation, film.info.mirrored) == (truth["rotation"], False)
        assert film.info.interlaced == truth["interlaced"]
        assert film.info.sample_aspect == Fraction(truth["sample_aspect"])


@pytest.mark.parametrize("name", ["turned-90.mp4", "turned-180.mp4", "turned-270.mp4", "wide-pixels.mp4", "narrow-pixels.mp4"])
def test_the_drawn_block_is_where_it_was_drawn(name: str) -> None:
    truth = made.truth(name)
    drawn_width = {"wide-pixels.mp4": 240, "narrow-pixels.mp4": 352}.get(name, truth["width"])
    drawn_height = 180 if name.endswith("pixels.mp4") else truth["height"]
    left, top = moving_block(drawn_width, drawn_height, 20)
    side = drawn_height // 4
    with open_film(made.film(name)) as film:
        picture = film.frame(20).picture()
    x = round((left + side / 2) * truth["width"] / drawn_width)
    y = round((top + side / 2) * truth["height"] / drawn_height)
    assert np.abs(picture[y, x].astype(int) - (225, 120, 40)).max() < 12


def test_non_square_pixels_of_real_footage() -> None:
    """176x144 with pixels of 128:117 is 192.5 pixels wide."""
    with open_film(real_footage("carphone_pristine.mp4")) as film:
        assert (film.info.width, film.info.height, film.info.stored_width) == (193, 144, 176)
        assert film.frame(3).picture().shape == (144, 193, 3)


def test_no_direction_is_made_smaller() -> None:
    assert square_size(1440, 1080, Fraction(4, 3)) == (1920, 1080)
    assert square_size(720, 480, Fraction(10, 11)) == (720, 528)
    assert square_size(720, 576, Fraction(1)) == (720, 576)


def test_a_picture_survives_the_way_to_the_exact_one() -> None:
    """Fast and exact pictures are the same picture."""
    with open_film(made.film("turned-270.mp4")) as film:
        frame = film.frame(9)
    assert np.abs(frame.picture() / 255 - frame.exact_picture()).mean() < 0.01
    assert read_number(frame.exact_picture()) == 9


def test_all_eight_turns() -> None:
    """Against NumPy's own turning: clockwise by the told degrees, mirrored left-right after it."""
    picture = np.arange(24, dtype=np.uint8).reshape(2, 4, 3)
    for exchanged in (False, True):
        for left_right in (False, True):
            for top_bottom in (False, True):
                turn = Turn(exchanged, left_right, top_bottom)
                expected = np.rot90(picture, -turn.degrees // 90)
                if turn.mirrored:
                    expected = expected[:, ::-1]
                assert np.array_equal(turn.apply(picture), expected), turn


@pytest.mark.parametrize(("flips", "degrees"), [({"hflip": True}, 0), ({"vflip": True}, 0), ({"hflip": True}, 90)])
def test_mirrored_films_are_mirrored_back(tmp_path: Path, flips: dict[str, bool], degrees: int) -> None:
    """Stored so that the film's matrix lays it right: the number can be read."""
    path = tmp_path / "mirrored.mp4"
    with av.open(str(path), "w") as out:
        stream = out.add_stream("libx264", rate=25)
        stream.width, stream.height, stream.pix_fmt = 320, 320, "yuv420p"
        stream.set_display_rotation(degrees, **flips)
        stored = np.ascontiguousarray(lay_back(scene(320, 320, 21), degrees, **flips))
        out.mux(stream.encode(av.VideoFrame.from_ndarray(stored, format="rgb24")))
        out.mux(stream.encode(None))
    with open_film(path) as film:
        assert film.info.mirrored
        assert read_number(film.frame(0).picture()) == 21


def lay_back(picture: NDArray[np.uint8], degrees: int, hflip: bool = False, vflip: bool = False) -> NDArray[np.uint8]:
    """The stored picture whose display matrix (turned against the clock by degrees, then mirrored) shows this one."""
    if hflip:
        picture = picture[:, ::-1]
    if vflip:
        picture = picture[::-1]
    return np.rot90(picture, -degrees // 90)


def test_interlaced_fields_are_filled_up() -> None:
    """Rows of a moving edge alternate before and not after; and inside a group it is what the library's filter gives."""
    with av.open(str(made.film("interlaced.mp4"))) as container:
        stored = [frame.to_ndarray(format="gray").astype(int) for frame in container.decode(video=0)]
    with open_film(made.film("interlaced.mp4")) as film:
        filled = film.frame(10)._decoded.to_ndarray(format="gray").astype(int)
        assert film.index.group_of(10) == film.index.group_of(9) == film.index.group_of(11)
    assert combing(stored[10]) > 3 * combing(filled)
    assert np.abs(filled - straight_through_filter(10)).max() == 0


def combing(luma: NDArray[np.int_]) -> float:
    """How much rows differ from both neighbours in the same direction, below the burnt number."""
    rows = luma[80:]
    above, below = rows[1:-1] - rows[:-2], rows[1:-1] - rows[2:]
    return float(np.where(above * below > 0, np.minimum(abs(above), abs(below)), 0).sum())


def straight_through_filter(number: int) -> NDArray[np.int_]:
    graph = Graph()
    with av.open(str(made.film("interlaced.mp4"))) as container:
        source = graph.add_buffer(template=container.streams.video[0])
        graph.link_nodes(source, graph.add("bwdif", mode="send_frame"), graph.add("buffersink")).configure()
        done = []
        for frame in container.decode(video=0):
            graph.vpush(frame)
            while len(done) <= number:
                try:
                    done.append(graph.vpull().to_ndarray(format="gray").astype(int))
                except (av.BlockingIOError, av.EOFError):
                    break
            if len(done) > number:
                return done[number]
    raise AssertionError("the film is shorter")


def test_interlaced_frames_look_the_same_however_reached() -> None:
    with open_film(made.film("interlaced.mp4")) as film, open_film(made.film("interlaced.mp4"), kept_bytes=1) as other:
        in_order = [film.frame(number).picture() for number in range(60)]
        for number in (59, 0, 20, 19, 21, 40, 39, 1):
            assert np.array_equal(other.frame(number).picture(), in_order[number]), number


def test_frames_outlive_their_film() -> None:
    with open_film(made.film("constant.mp4")) as film:
        frame = film.frame(44)
    assert read_number(frame.picture()) == 44
    assert read_number(frame.exact_picture()) == 44
