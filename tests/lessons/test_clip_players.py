"""Written films play: in VLC's library, in a real browser; with the pictures in order, the right length and the chapters."""

import base64
import ctypes
import itertools
import time
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from burnt import CELLS, read_number

from filmreview.film.vlc_playback import vlc_trouble
from tests.lessons.clip_making import read_back, short_lesson
from tests.sheets.browser import PROGRAM, browser

WIDTH, HEIGHT = 320, 180


@pytest.fixture(scope="module")
def lesson(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[int], list[tuple[Fraction, Fraction, str]]]:
    return short_lesson(tmp_path_factory.mktemp("lesson"))


def test_chapters_and_length(lesson: tuple[Path, list[int], list[tuple[Fraction, Fraction, str]]]) -> None:
    path, numbers, chapters = lesson
    got = read_back(path)
    assert got.numbers == numbers
    assert [name for _, _, name in got.chapters] == [name for _, _, name in chapters]
    for (start, end, _), (right_start, right_end, _) in zip(got.chapters, chapters, strict=True):
        assert max(abs(start - right_start), abs(end - right_end)) <= Fraction(1, 1000)
    assert abs(got.seconds - chapters[-1][1]) < Fraction(1, 100)


@pytest.mark.skipif(vlc_trouble() is not None, reason=f"playback by libvlc: {vlc_trouble()}")
def test_it_plays_in_vlc(lesson: tuple[Path, list[int], list[tuple[Fraction, Fraction, str]]]) -> None:
    import vlc  # cannot be imported where libvlc is not

    path, numbers, chapters = lesson
    seen: list[int | None] = []
    buffer = (ctypes.c_ubyte * (WIDTH * HEIGHT * 4))()

    @vlc.CallbackDecorators.VideoLockCb
    def lend(_data: object, planes: object) -> None:
        planes[0] = ctypes.cast(buffer, ctypes.c_void_p)  # type: ignore[index]

    @vlc.CallbackDecorators.VideoDisplayCb
    def shown(_data: object, _picture: object) -> None:
        seen.append(read_number(np.frombuffer(buffer, np.uint8).reshape(HEIGHT, WIDTH, 4)[..., :3]))

    instance = vlc.Instance("--aout=dummy", "--quiet", "--no-drop-late-frames", "--no-skip-frames")
    player = instance.media_player_new(str(path))
    player.video_set_callbacks(lend, vlc.CallbackDecorators.VideoUnlockCb(0), shown, None)
    player.video_set_format("RV32", WIDTH, HEIGHT, WIDTH * 4)
    player.play()
    end = time.monotonic() + 30
    length, titles = 0, []
    while player.get_state() not in (vlc.State.Ended, vlc.State.Error) and time.monotonic() < end:
        length = max(length, player.get_length())
        if not titles and player.get_chapter_count() > 0:
            titles = [one.name for one in player.get_full_chapter_descriptions(-1)]
        time.sleep(0.02)
    state = player.get_state()
    player.stop()
    player.release()
    instance.release()
    assert state == vlc.State.Ended
    assert abs(length - float(chapters[-1][1] * 1000)) < 50
    assert [title.decode() if isinstance(title, bytes) else title for title in titles] == [name for _, _, name in chapters]
    assert None not in seen
    assert is_in_order(seen, numbers)
    assert len(seen) > 0.5 * len(numbers)
    assert seen[-1] in numbers[-3:]


def is_in_order(seen: list[int | None], numbers: list[int]) -> bool:
    """Every picture seen follows in the order written; a busy machine may leave some out, or show one twice."""
    rest = (number for number, _ in itertools.groupby(numbers))
    return all(any(number == one for one in rest) for number, _ in itertools.groupby(seen))


@pytest.mark.skipif(PROGRAM is None, reason="no Chromium here")
def test_it_plays_in_a_browser(lesson: tuple[Path, list[int], list[tuple[Fraction, Fraction, str]]], tmp_path: Path) -> None:
    path, numbers, chapters = lesson
    got = read_back(path)
    data = base64.b64encode(path.read_bytes()).decode()
    (tmp_path / "page.html").write_text(
        f'<!doctype html><video id="v" muted preload="auto" src="data:video/mp4;base64,{data}"></video>'
        "<script>const v = document.getElementById('v'); let ended = false; v.onended = () => { ended = true; };"
        "async function at(seconds) { await new Promise(done => { v.onseeked = done; v.currentTime = seconds; });"
        f" const c = document.createElement('canvas'); c.width = {WIDTH}; c.height = {HEIGHT}; const g = c.getContext('2d');"
        " g.drawImage(v, 0, 0); const cells = []; for (let n = 0; n < " + str(CELLS) + "; n++) {"
        f" cells.push(g.getImageData(Math.round((n + 0.5) * {WIDTH / CELLS}), 11, 1, 1).data[1]); }} return cells; }}</script>"
    )
    places = [0, 2, 5, 9, 14, 17, 18, 40, 64, 66, 69, 70, 71, 90, len(numbers) - 2]
    with browser(tmp_path) as page:
        page.open((tmp_path / "page.html").as_uri())
        page.wait_for("v.readyState >= 3 || v.error")
        assert page.ask("v.error") is None
        assert abs(page.ask("v.duration") - float(chapters[-1][1])) < 0.05
        assert page.ask("[v.videoWidth, v.videoHeight]") == [WIDTH, HEIGHT]
        seen = [number_of_cells(page.ask(f"at({middle(got.times, place)})")) for place in places]
        page.ask("v.currentTime = 0")
        page.ask("v.play()")
        page.wait_for("ended")
        assert page.ask("v.error") is None
        assert page.ask("v.webkitAudioDecodedByteCount") > 1000
    assert seen == [numbers[place] for place in places]


def middle(times: list[Fraction], place: int) -> float:
    return float(times[place] + (times[place + 1] - times[place]) / 2)


def number_of_cells(cells: list[int]) -> int | None:
    """The burnt number from one pixel of each cell: drawn into a strip that the reader of the fixtures understands."""
    strip = np.zeros((HEIGHT, WIDTH, 3), np.uint8)
    edges = np.linspace(0, WIDTH, CELLS + 1).round().astype(int)
    for left, right, value in zip(edges[:-1], edges[1:], cells, strict=True):
        strip[:, left:right] = value
    return read_number(strip)
