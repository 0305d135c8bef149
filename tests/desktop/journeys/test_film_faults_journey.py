"""The film, the disk or the player's library fails in the middle of the work: a plain line, nothing lost, the window lives."""

import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from filmreview.desktop import player as player_module
from filmreview.desktop import player_source, sheet_making
from filmreview.desktop.window import DeskWindow
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.film import vlc_playback
from filmreview.film.moment import Moment
from filmreview.film.playback import RATES
from filmreview.review.reading import read
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, drag, press, settle, stand, type_words
from tests.desktop.long_film import long_film

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
needs_proc = pytest.mark.skipif(sys.platform != "linux", reason="open files are found under /proc")


@pytest.fixture(scope="module")
def some(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Some film, more than any source reads ahead."""
    return long_film(tmp_path_factory.mktemp("some") / "some.mp4", 20, width=640, height=360, group=30)


@pytest.fixture
def film(some: Path, tmp_path: Path) -> Path:
    """A copy that may be broken."""
    path = tmp_path / "game.mp4"
    path.write_bytes(some.read_bytes())
    return path


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, film: Path, tmp_path: Path) -> DeskWindow:
    begin_review(qtbot, window, film, tmp_path / "game.filmreview")
    settle(qtbot, window)
    tag(qtbot, window, "v14 tights black")
    return window


def tag(qtbot: QtBot, window: DeskWindow, words: str) -> None:
    """Draw, type, keep."""
    drag(qtbot, window, Box(40, 160, 60, 40))
    qtbot.waitUntil(window.card.line.line.hasFocus, timeout=WAIT)
    type_words(qtbot, words)
    settle(qtbot, window)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, window)


def plays(qtbot: QtBot, window: DeskWindow, seconds: float = 0.5) -> None:
    """Play for a while."""
    player = window.film_place.player
    press(qtbot, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: player.playing and player.time > seconds, timeout=WAIT)


def reads_fail(path: Path) -> None:
    """From now on the system refuses to read what is open of this file, as of a drive that was pulled out."""
    nothing = os.open(os.devnull, os.O_WRONLY)
    for one in os.listdir("/proc/self/fd"):
        try:
            held = os.readlink(f"/proc/self/fd/{one}")
        except OSError:
            continue
        if held.removesuffix(" (deleted)") == str(path):
            os.dup2(nothing, int(one))
    os.close(nothing)


def cut(path: Path) -> None:
    """The rest of the file is gone."""
    os.truncate(path, path.stat().st_size // 5)


def pull_out(path: Path) -> None:
    """The file is gone, and what is open of it cannot be read."""
    reads_fail(path)
    path.unlink()


@needs_proc
@pytest.mark.parametrize("fail", [pull_out, cut])
def test_a_film_unplugged_while_playing(qtbot: QtBot, opened: DeskWindow, film: Path, fail: Callable[[Path], None]) -> None:
    player, said = opened.film_place.player, []
    opened.desk.events.on("message", lambda: said.append(opened.desk.last_message))
    plays(qtbot, opened)
    fail(film)
    qtbot.waitUntil(lambda: not player.playing, timeout=4 * WAIT)
    qtbot.waitUntil(lambda: any(str(film) in words or film.name in words for words in said), timeout=WAIT)
    press(qtbot, Qt.Key.Key_End)
    settle(qtbot, opened)
    assert opened.isVisible()
    assert [one.item for one in opened.desk.review.tags] == ["tights"]
    opened.ledger_presenter.set_note("t1", "near the bench")  # all else goes on
    settle(qtbot, opened)
    opened.close()
    kept = read(opened_path(film))
    assert [(one.item, one.note) for one in kept.tags] == [("tights", "near the bench")]


def opened_path(film: Path) -> Path:
    return film.with_name("game.filmreview")


def test_the_disk_is_full_while_tagging(qtbot: QtBot, opened: DeskWindow, film: Path) -> None:
    connection = opened.desk.store._connection
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.execute(f"PRAGMA max_page_count = {pages}")
    words = f'v22 headband black "{"n" * 60_000}"'
    drag(qtbot, opened, Box(300, 160, 60, 40))
    qtbot.waitUntil(opened.card.line.line.hasFocus, timeout=WAIT)
    opened.card_presenter.type(words)
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    said = opened.messages.words.text()
    assert said.startswith("not kept: ")
    assert "the disk is full, so this change was not kept; make room and do it again" in said
    assert opened.card_presenter.draft is not None
    assert opened.card_presenter.draft.line == words
    assert len(opened.desk.review.tags) == 1
    connection.execute("PRAGMA max_page_count = 1000000")  # room was made
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    opened.close()
    assert [one.item for one in read(opened_path(film)).tags] == ["tights", "headband"]


def test_a_window_that_closes_over_a_full_disk_stays_with_the_tag(qtbot: QtBot, opened: DeskWindow, film: Path) -> None:
    connection = opened.desk.store._connection
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.execute(f"PRAGMA max_page_count = {pages}")
    drag(qtbot, opened, Box(300, 160, 60, 40))
    qtbot.waitUntil(opened.card.line.line.hasFocus, timeout=WAIT)
    opened.card_presenter.type(f'v22 headband black "{"n" * 60_000}"')
    press(qtbot, Qt.Key.Key_Return)
    assert not opened.close()  # the tag was still on its way
    assert opened.isVisible()
    assert opened.card_presenter.draft is not None
    assert "the disk is full" in opened.messages.words.text()
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_Escape)
    assert opened.close()
    assert len(read(opened_path(film)).tags) == 1


def test_what_is_drawn_while_a_tag_is_on_its_way_begins_the_next_one(qtbot: QtBot, opened: DeskWindow) -> None:
    drag(qtbot, opened, Box(300, 160, 60, 40))
    qtbot.waitUntil(opened.card.line.line.hasFocus, timeout=WAIT)
    type_words(qtbot, "v22 headband black")
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_Return)
    assert opened.card_presenter.keeping
    assert opened.film_place.canvas.hasFocus()
    drag(qtbot, opened, Box(100, 60, 60, 40))
    settle(qtbot, opened)
    assert [one.item for one in opened.desk.review.tags] == ["tights", "headband"]
    assert opened.card_presenter.is_new
    assert opened.card.line.line.hasFocus()
    assert opened.card.line.line.text() == ""


def test_without_libvlc_the_other_source_plays(qtbot: QtBot, opened: DeskWindow, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(vlc_playback, "vlc", None)
    monkeypatch.setattr(vlc_playback, "_WHY_NOT", "libvlc.so.5: cannot open shared object file", raising=False)
    plays(qtbot, opened)
    assert opened.film_place.player.source_name == "built-in"
    press(qtbot, Qt.Key.Key_F6)
    stand(qtbot, opened)


class ShowsNothing:
    """A source that takes the film and never shows a picture, as for a codec it does not know."""

    rates = RATES

    def __init__(self, name: str) -> None:
        self.name = name

    def play(self, _start: Moment) -> None: ...

    def pause(self) -> None: ...

    def set_rate(self, rate: float) -> None: ...

    def set_sound(self, on: bool) -> None: ...

    def close(self) -> None: ...


def broken(*_given: Any) -> None:
    raise FilmReviewError("the film cannot be played: libvlc found none of its plugins")


@pytest.mark.parametrize("vlc", [lambda *_given: ShowsNothing("vlc"), broken])
def test_a_film_that_neither_source_plays_is_stepped_and_tagged(
    qtbot: QtBot, opened: DeskWindow, monkeypatch: pytest.MonkeyPatch, vlc: Callable[..., object]
) -> None:
    monkeypatch.setattr(player_source, "VlcPlayback", vlc)
    monkeypatch.setattr(player_source, "QtPlayback", lambda *_given: ShowsNothing("built-in"))
    monkeypatch.setattr(player_module, "_NO_PICTURE_MS", 150)
    press(qtbot, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: "playback shows no picture" in opened.messages.words.text(), timeout=WAIT)
    assert not opened.film_place.player.playing
    stand(qtbot, opened)
    press(qtbot, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: "cannot be played here, only stepped through" in opened.messages.words.text(), timeout=WAIT)
    press(qtbot, Qt.Key.Key_F8)
    stand(qtbot, opened)
    assert opened.film_place.frame.number == 1
    tag(qtbot, opened, "v22 headband black")
    assert [one.item for one in opened.desk.review.tags] == ["tights", "headband"]


def test_a_codec_that_nothing_reads_is_refused_in_words(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    path = tmp_path / "unknown.mp4"
    path.write_bytes((FILMS / "constant.mp4").read_bytes().replace(b"avc1", b"zzq1").replace(b"avcC", b"zzqC"))
    window.open_path(path)
    settle(qtbot, window)
    assert "unknown.mp4" in window.messages.words.text()
    assert "\n" not in window.messages.words.text()
    assert window.start_page.isVisible()
    window.open_path(FILMS / "constant.mp4")  # and the next film is read as ever
    qtbot.waitUntil(lambda: "is read" in window.messages.words.text(), timeout=WAIT)
    for dialog in window.findChildren(sheet_making.QWidget):
        if dialog.isWindow() and dialog.isVisible() and dialog is not window:
            dialog.close()
    settle(qtbot, window)


@needs_proc
def test_a_sheet_whose_process_is_killed(
    qtbot: QtBot, opened: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "sheets" / "sheet.xlsx"
    path.parent.mkdir()
    path.write_text("the sheet of yesterday")
    monkeypatch.setattr(sheet_making, "WRITE", "tests.desktop.alone_work:write_slowly")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_given: (str(path), ""))
    press(qtbot, Qt.Key.Key_S, CONTROL | SHIFT)
    qtbot.waitUntil(lambda: opened.messages.bar.value() == 50, timeout=WAIT)
    children = Path(f"/proc/self/task/{os.getpid()}/children").read_text().split()
    children += [one for task in Path("/proc/self/task").iterdir() for one in (task / "children").read_text().split()]
    for child in dict.fromkeys(children):
        if b"filmreview.desktop.alone" in Path(f"/proc/{child}/cmdline").read_bytes():
            os.kill(int(child), signal.SIGKILL)
    settle(qtbot, opened)
    assert "the work broke off" in opened.messages.words.text()
    assert path.read_text() == "the sheet of yesterday"
    tag(qtbot, opened, "v22 headband black")
    assert len(opened.desk.review.tags) == 2
