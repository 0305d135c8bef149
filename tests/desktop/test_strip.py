"""The film strip with a real mouse and keys, and its small pictures on a real film."""

import shutil
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from PyQt6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PyQt6.QtGui import QImage, QMouseEvent, QPixmap
from PyQt6.QtTest import QTest
from PyQt6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from filmreview.desktop import strip_paint
from filmreview.desktop.strip import FilmStrip, Stretch, StripTag
from filmreview.desktop.strip_paint import time_left
from filmreview.desktop.strip_scale import Scale, around
from filmreview.film.film import Film, open_film
from fixtures.films.burnt import read_number
from fixtures.films.made import film as made_film
from tests.desktop.pixels import array_of

TAGS = (
    StripTag("t1", Fraction(1), "legal", words="3 headband"),
    StripTag("t2", Fraction(2), "illegal", True, "14 arm sleeve"),
    StripTag("t3", Fraction(5, 2), "cannot be told"),
)


@pytest.fixture
def film() -> Iterator[Film]:
    with open_film(made_film("constant.mp4")) as film:
        yield film


@pytest.fixture
def strip(qtbot: QtBot, film: Film) -> Iterator[FilmStrip]:
    """A strip on a film of 3.003 s, 600 pixels a line."""
    strip = FilmStrip()
    qtbot.addWidget(strip)
    strip.resize(616, strip.sizeHint().height())
    strip.set_film(film)
    strip.set_tags(TAGS)
    strip.show()
    qtbot.waitExposed(strip)
    yield strip
    strip.close_film()


@pytest.fixture
def wanted(strip: FilmStrip) -> list[Fraction]:
    wanted: list[Fraction] = []
    strip.jump_wanted.connect(wanted.append)
    return wanted


def place(strip: FilmStrip, seconds: float, near: bool = False) -> QPoint:
    line = strip.near_line() if near else strip.whole_line()
    return QPoint(round(line.scale.x_of(Fraction(seconds))), round(line.rect.center().y()))


def move(strip: FilmStrip, at: QPoint, button: Qt.MouseButton = Qt.MouseButton.NoButton) -> None:
    point = QPointF(at)
    event = QMouseEvent(
        QEvent.Type.MouseMove,
        point,
        strip.mapToGlobal(point),
        Qt.MouseButton.NoButton,
        button,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(strip, event)


@pytest.mark.parametrize("near", [False, True])
def test_a_click_wants_the_time_there(strip: FilmStrip, wanted: list[Fraction], near: bool) -> None:
    QTest.mouseClick(strip, Qt.MouseButton.LeftButton, pos=place(strip, 1.5, near))
    assert len(wanted) == 1
    assert float(wanted[0]) == pytest.approx(1.5, abs=0.01)


def test_a_drag_goes_along_and_stays_in_the_film(strip: FilmStrip, wanted: list[Fraction]) -> None:
    QTest.mousePress(strip, Qt.MouseButton.LeftButton, pos=place(strip, 0.5))
    strip.set_now(Fraction(1, 2))
    move(strip, place(strip, 1.5), Qt.MouseButton.LeftButton)
    move(strip, QPoint(4000, 5), Qt.MouseButton.LeftButton)
    QTest.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=QPoint(600, 5))
    assert [round(float(seconds), 1) for seconds in wanted] == [0.5, 1.5, 3.0]


def test_a_click_on_a_shape_chooses_the_tag(strip: FilmStrip, wanted: list[Fraction], qtbot: QtBot) -> None:
    with qtbot.waitSignal(strip.tag_chosen) as chosen:
        QTest.mouseClick(strip, Qt.MouseButton.LeftButton, pos=place(strip, 2.0))
    assert chosen.args == ["t2"]
    assert wanted == []


def test_keys_go_through_the_film_and_its_tags(strip: FilmStrip, wanted: list[Fraction], film: Film) -> None:
    strip.set_now(Fraction(2))
    for key in (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Home, Qt.Key.Key_End, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
        QTest.keyClick(strip, key)
    assert wanted == [Fraction(1), Fraction(5, 2), 0, film.info.duration, 0, film.info.duration]


def test_hover_shows_the_exact_small_picture(strip: FilmStrip, qtbot: QtBot, film: Film) -> None:
    assert strip._thumbnails is not None
    for seconds, other in ((0.77, None), (2.3, 0.4)):
        if other is not None:
            move(strip, place(strip, other))  # moved on at once: its picture must not be shown late
        move(strip, place(strip, seconds))
        hovered = strip._hovered
        assert hovered is not None
        got: list[tuple[Fraction, QImage]] = []
        strip._thumbnails.ready.connect(lambda at, image, got=got: got.append((at, image)))
        qtbot.waitUntil(lambda got=got, at=hovered: any(one == at for one, _ in got), timeout=8000)
        number = film.number_of(film.moment_at(hovered))
        assert read_number(array_of(got[-1][1])) == number
        shown = strip._hover._picture.pixmap().toImage()
        assert read_number(array_of(shown)) == number
    assert strip._hover.isVisible()
    strip.leaveEvent(None)
    assert not strip._hover.isVisible()


def test_hover_tells_time_tag_and_stoppage(strip: FilmStrip) -> None:
    strip.set_stoppages([Stretch(Fraction(3, 2), Fraction(5, 2), "free throws")])
    move(strip, place(strip, 2.0))
    assert strip._hover._words.text().split("\n") == ["0:02.000", "14 arm sleeve", "illegal, ahead", "free throws"]
    strip.leaveEvent(None)


def test_stoppages_tags_and_now_are_painted(strip: FilmStrip) -> None:
    strip.set_tags(())
    plain = array_of(strip.grab().toImage())
    strip.set_stoppages([Stretch(Fraction(1), Fraction(3, 2))])
    shaded = array_of(strip.grab().toImage())
    x, y = place(strip, 1.25).x(), place(strip, 1.25).y()
    assert (plain[y - 3 : y + 3, x - 6 : x + 6] != shaded[y - 3 : y + 3, x - 6 : x + 6]).any()
    left = place(strip, 0.8).x()
    assert (plain[y - 3 : y + 3, left - 3 : left + 3] == shaded[y - 3 : y + 3, left - 3 : left + 3]).all()
    strip.set_now(Fraction(2))
    moved = array_of(strip.grab().toImage())
    x = place(strip, 2.0).x()
    assert (shaded[y, x - 2 : x + 2] != moved[y, x - 2 : x + 2]).any()


def test_a_screen_reader_is_told(strip: FilmStrip) -> None:
    strip.set_now(Fraction(1))
    assert strip.accessibleName() == "Film strip"
    assert strip.accessibleDescription() == "0:01.000 of 0:03.003, 3 tags, 0 stoppages"


def test_without_a_film_nothing_happens(qtbot: QtBot) -> None:
    strip = FilmStrip()
    qtbot.addWidget(strip)
    wanted: list[Fraction] = []
    strip.jump_wanted.connect(wanted.append)
    strip.show()
    QTest.mouseClick(strip, Qt.MouseButton.LeftButton, pos=QPoint(100, 12))
    move(strip, QPoint(120, 12))
    QTest.keyClick(strip, Qt.Key.Key_End)
    assert wanted == []


def test_a_film_that_went_away_gives_no_small_picture(strip: FilmStrip, qtbot: QtBot, tmp_path: Path) -> None:
    path = Path(shutil.copy(made_film("constant.mp4"), tmp_path / "game.mp4"))
    with open_film(path) as film:
        strip.set_film(film)
        path.unlink()
        assert strip._thumbnails is not None
        failed: list[object] = []
        strip._thumbnails._worker.failed.connect(lambda _ticket, error: failed.append(error))
        move(strip, place(strip, 0.5))
        qtbot.waitUntil(lambda: bool(failed), timeout=8000)
        assert strip._hover._picture.pixmap().isNull()
        strip.leaveEvent(None)
        strip.close_film()


@settings(deadline=None)  # the first call may be slow on a busy machine
@given(some.fractions(0, 7200), some.fractions(1, 900), some.fractions(1, 7200))
def test_the_near_line_lies_in_the_film_and_holds_now(now: Fraction, span: Fraction, length: Fraction) -> None:
    now = min(now, length)
    start, end = around(now, span, length)
    assert 0 <= start <= now <= end <= length
    assert end - start == min(span, length)


@settings(deadline=None)  # the first call may be slow on a busy machine
@given(some.fractions(0, 7200), some.fractions(1, 7200), some.floats(50, 3000))
def test_place_and_time_are_inverse(start: Fraction, length: Fraction, width: float) -> None:
    scale = Scale(start, start + length, 8.0, width)
    for share in (0.0, 0.25, 1.0):
        seconds = scale.seconds_at(8.0 + share * width)
        assert scale.x_of(seconds) == pytest.approx(8.0 + share * width, abs=0.01)


def test_written_times_are_round_and_have_room() -> None:
    hour = Scale(Fraction(0), Fraction(3600), 0.0, 1000.0)
    assert hour.written_times(90.0)[:3] == [0, 600, 1200]
    near = Scale(Fraction(61), Fraction(101), 0.0, 1000.0)
    assert near.written_times(90.0)[:3] == [65, 70, 75]
    assert Scale(Fraction(0), Fraction(0), 0.0, 100.0).written_times(90.0) == []


def test_the_ground_is_drawn_anew_when_what_stands_on_it_changes(strip: FilmStrip) -> None:
    def look() -> bytes:
        return array_of(strip.grab().toImage()).tobytes()

    looks = [look()]
    strip.set_stoppages([Stretch(Fraction(1), Fraction(2))])
    looks.append(look())
    strip.set_tags(TAGS[:1])
    looks.append(look())
    palette = strip.palette()
    palette.setColor(palette.ColorRole.Base, palette.color(palette.ColorRole.Text))
    strip.setPalette(palette)
    looks.append(look())
    assert len(set(looks)) == 4
    strip.set_tags(TAGS[:1])
    assert look() == looks[-1]


def test_a_film_that_plays_draws_no_shape_of_the_whole_line_anew(strip: FilmStrip, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[str] = []
    strip.grab()

    def stamp(ruling: str, *_given: object) -> QPixmap:
        drawn.append(ruling)
        return QPixmap(14, 14)

    monkeypatch.setattr(strip_paint, "ruling_stamp", stamp)
    strip.set_now(Fraction(1, 2))
    strip.grab()
    assert drawn == [tag.ruling for tag in TAGS]  # those of the lower line alone


def test_a_loop_shows_on_both_lines_and_is_told(strip: FilmStrip) -> None:
    plain = array_of(strip.grab().toImage())
    strip.set_loop((Fraction(1, 2), Fraction(3, 2)))
    shown = array_of(strip.grab().toImage())
    for line in (strip.whole_line(), strip.near_line()):
        for seconds in (Fraction(1, 2), Fraction(1)):
            x, y = round(line.scale.x_of(seconds)), round(line.rect.top() + 2)
            if line.shows(seconds):
                assert (plain[y - 3 : y + 2, x - 2 : x + 3] != shown[y - 3 : y + 2, x - 2 : x + 3]).any()
    assert "loop 0:00.500 up to 0:01.500" in strip.accessibleDescription()
    strip.set_loop(None)
    assert (array_of(strip.grab().toImage()) == plain).all()


def test_a_stoppage_being_set_is_shaded_up_to_now(strip: FilmStrip) -> None:
    strip.set_tags(())
    strip.set_now(Fraction(2))
    plain = array_of(strip.grab().toImage())
    strip.set_begun(Fraction(1))
    shaded = array_of(strip.grab().toImage())
    y = place(strip, 1).y()
    for seconds, inside in ((0.8, False), (1.2, True), (1.8, True), (2.2, False)):
        x = place(strip, seconds).x()
        assert (plain[y - 6 : y + 6, x - 5 : x + 5] != shaded[y - 6 : y + 6, x - 5 : x + 5]).any() == inside
    strip.set_now(Fraction(3, 2))  # it goes along with now
    x = place(strip, 1.8).x()
    moved = array_of(strip.grab().toImage())
    assert (plain[y - 6 : y + 6, x - 5 : x + 5] == moved[y - 6 : y + 6, x - 5 : x + 5]).all()
    strip.set_begun(None)


def test_a_time_is_written_clear_of_tags_and_inside_the_line() -> None:
    line, shape = QRectF(8, 0, 600, 20), QRectF(125, 3, 14, 14)
    assert time_left(100.0, 30.0, line, []) == 103.0
    assert time_left(100.0, 30.0, line, [shape]) == 67.0
    assert time_left(100.0, 30.0, line, [shape, QRectF(60, 3, 14, 14)]) is None
    assert time_left(600.0, 30.0, line, []) == 567.0
    assert time_left(8.0, 30.0, line, [QRectF(10, 3, 14, 14)]) is None


@pytest.fixture
def dragged(strip: FilmStrip) -> list[tuple[bool, float]]:
    """A loop of a second, and where its ends were dragged to."""
    strip.set_now(Fraction(3, 2))
    strip.set_tags(())
    strip.set_loop((Fraction(1), Fraction(2)))
    dragged: list[tuple[bool, float]] = []
    strip.loop_end_wanted.connect(lambda end, seconds: dragged.append((end, round(float(seconds), 2))))
    return dragged


def drag_loop(strip: FilmStrip, start: float, stop: float, near: bool) -> None:
    QTest.mousePress(strip, Qt.MouseButton.LeftButton, pos=place(strip, start, near))
    for share in (0.5, 1.0):
        move(strip, place(strip, start + (stop - start) * share, near), Qt.MouseButton.LeftButton)


@pytest.mark.parametrize("near", [False, True])
@pytest.mark.parametrize(("end", "start", "stop", "came"), [
    (False, 1, 0.5, 0.5), (True, 2, 2.5, 2.5),
    (False, 1, 2.8, 2.0), (True, 2, 0.2, 1.0),  # up to the other end
    (True, 2, 9, 3.0), (False, 1, -9, 0.0),  # held in the film
])  # fmt: skip
def test_both_ends_of_a_loop_are_dragged_on_both_lines(
    strip: FilmStrip, dragged: list[tuple[bool, float]], wanted: list[Fraction], near: bool, end: bool, start: float,
    stop: float, came: float,
) -> None:  # fmt: skip
    before = array_of(strip.grab().toImage())
    drag_loop(strip, start, stop, near)
    assert dragged == [], "it is set when it is let go"
    assert (before != array_of(strip.grab().toImage())).any(), "the bracket goes along"
    assert strip._hover._words.text().split("\n")[1] == f"the loop's {'end' if end else 'start'}"
    QTest.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=place(strip, stop, near))
    assert dragged == [(end, pytest.approx(came, abs=0.011))]
    assert wanted == []
    assert not strip._hover.isVisible()


def test_escape_leaves_the_end_where_it_was(
    strip: FilmStrip, dragged: list[tuple[bool, float]], wanted: list[Fraction]
) -> None:
    before = array_of(strip.grab().toImage())
    drag_loop(strip, 2, 2.5, near=False)
    QTest.keyClick(strip, Qt.Key.Key_Escape)
    assert (before == array_of(strip.grab().toImage())).all()
    QTest.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=place(strip, 2.5))
    assert (dragged, wanted) == ([], [])


def test_where_it_would_be_let_go_is_told_while_it_is_dragged(qtbot: QtBot, strip: FilmStrip, dragged: list) -> None:
    told: list[tuple[bool, float]] = []
    strip.loop_end_dragged.connect(lambda end, seconds: told.append((end, round(float(seconds), 1))))
    drag_loop(strip, 2, 2.5, near=False)
    assert told[-1] == (True, 2.5)
    with qtbot.waitSignal(strip.loop_end_left):
        QTest.keyClick(strip, Qt.Key.Key_Escape)
    QTest.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=place(strip, 2.5))
    assert dragged == []


def test_a_click_on_an_end_goes_there_and_a_tag_on_it_is_still_chosen(
    qtbot: QtBot, strip: FilmStrip, dragged: list[tuple[bool, float]], wanted: list[Fraction]
) -> None:
    QTest.mouseClick(strip, Qt.MouseButton.LeftButton, pos=place(strip, 2))
    assert [float(one) for one in wanted] == [2.0]
    strip.set_tags(TAGS)  # t2 lies on the loop's end
    with qtbot.waitSignal(strip.tag_chosen) as chosen:
        QTest.mouseClick(strip, Qt.MouseButton.LeftButton, pos=place(strip, 2) + QPoint(4, 0))
    assert chosen.args == ["t2"]
    drag_loop(strip, 2, 2.5, near=False)
    QTest.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=place(strip, 2.5))
    assert dragged == [(True, pytest.approx(2.5, abs=0.01))]


def test_what_can_be_dragged_is_shown(strip: FilmStrip, dragged: list[tuple[bool, float]]) -> None:
    move(strip, place(strip, 2) + QPoint(5, 0))
    assert strip.cursor().shape() == Qt.CursorShape.SizeHorCursor
    assert strip._hover._words.text().endswith("drag moves the loop's end")
    move(strip, place(strip, 2) + QPoint(9, 0))
    assert strip.cursor().shape() == Qt.CursorShape.ArrowCursor
    assert "drag" not in strip._hover._words.text()
    strip.leaveEvent(None)
    assert dragged == []
