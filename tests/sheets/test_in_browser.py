"""The web page and the captions in a real browser: filtered, a link followed to a playing film, no script of a text runs."""

import functools
import threading
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from filmreview.review.model import FilmRef
from filmreview.sheets.handover import HandOver
from filmreview.sheets.kinds import write_sheet
from tests.sheets.browser import PROGRAM, Browser, browser
from tests.sheets.small_sheet import FILM, LINE, OTHERS, sheet
from tests.sheets.test_workbook import hostile

pytestmark = pytest.mark.skipif(PROGRAM is None, reason="no Chromium here")
PLAYED = Path(__file__).parents[2] / "fixtures" / "films" / "constant.mp4"


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("browser")) as opened:
        yield opened


def written(made: HandOver, folder: Path) -> str:
    path = folder / "sheet.html"
    write_sheet(made, path)
    return path.as_uri()


def of_a_real_film() -> HandOver:
    film = replace(FILM, path=str(PLAYED), length=Fraction(2))
    lines = [replace(line, film=film, seconds=Fraction(number, 4)) for number, line in enumerate((LINE, *OTHERS), 1)]
    return sheet(lines, films=(film,))


def shown(page: Browser) -> list[str]:
    found: list[str] = page.ask("[...document.querySelectorAll('article')].filter(one => one.offsetHeight).map(one => one.id)")
    return found


def choose(page: Browser, field: str, value: str) -> None:
    page.ask(
        f"(() => {{ const one = document.querySelector({field!r}); one.value = {value!r};"
        " one.dispatchEvent(new Event('input', {bubbles: true})); })()"
    )


def test_the_findings_can_be_filtered(page: Browser, tmp_path: Path) -> None:
    page.open(written(sheet(), tmp_path))
    assert shown(page) == ["no-1", "no-2", "no-3", "no-4"]
    choose(page, "#look-ruling", "illegal")
    assert shown(page) == ["no-1", "no-4"]
    assert page.ask("document.querySelector('#look-said').textContent") == "2 of 4 shown"
    choose(page, "#look-crew", "not seen")
    assert shown(page) == ["no-1"]
    choose(page, "#look-ruling", "")
    choose(page, "#look-crew", "")
    choose(page, "#look-words", "HEADBAND")
    assert shown(page) == ["no-2"]


def test_every_picture_is_there_and_nothing_is_refused(page: Browser, tmp_path: Path) -> None:
    page.messages.clear()
    page.open(written(sheet(), tmp_path))
    assert page.ask("[...document.images].map(one => one.complete && one.naturalHeight)") == [330] * 4
    assert page.ask("getComputedStyle(document.querySelector('article')).display") == "grid", "its looks are allowed"
    assert page.messages == []


def test_on_a_phone_nothing_is_wider_than_the_screen(page: Browser, tmp_path: Path) -> None:
    page.call("Emulation.setDeviceMetricsOverride", width=390, height=844, deviceScaleFactor=2, mobile=True)
    try:
        page.open(written(sheet(), tmp_path))
        assert page.ask("innerWidth") == 390
        assert page.ask("document.documentElement.scrollWidth") == 390
        assert page.ask("Math.max(...[...document.images].map(one => one.getBoundingClientRect().right))") <= 390
    finally:
        page.call("Emulation.clearDeviceMetricsOverride")


def test_a_link_leads_to_the_film_playing_at_the_time(page: Browser, tmp_path: Path) -> None:
    """W3C Media Fragments URI 1.0, 4.2.1: `#t=` is where playing begins."""
    page.open(written(of_a_real_film(), tmp_path))
    way = page.ask("document.querySelector('#no-4 a[data-seconds]').href")
    assert way.endswith("constant.mp4#t=1")
    page.ask("document.querySelector('#no-4 a[data-seconds]').click()")
    page.wait_for(
        "location.href.endsWith('#t=1') && !!document.querySelector('video') && document.querySelector('video').currentTime > 1"
    )
    assert page.ask("document.querySelector('video').error") is None
    assert 1 < page.ask("document.querySelector('video').currentTime") <= 2.1


def test_a_film_chosen_by_hand_plays_in_the_page_at_the_time(page: Browser, tmp_path: Path) -> None:
    page.messages.clear()
    page.open(written(of_a_real_film(), tmp_path))
    page.choose_file("input[type=file]", PLAYED)
    page.ask("document.querySelector('#no-3 a[data-seconds]').click()")
    page.wait_for("document.querySelector('video').currentTime > 0.75")
    assert page.ask("location.pathname").endswith("sheet.html"), "the page stays"
    assert page.ask("document.querySelector('video').hidden") is False
    assert page.messages == []


ATTACKS = (
    "<script>window.hit = 1</script>", "</script><script>window.hit = 1</script>", '"><img src=x onerror="window.hit=1">',
    "<svg onload=window.hit=1>", "javascript:window.hit=1", "'-window.hit=1-'", "</style><script>window.hit=1</script>",
    "]]><script>window.hit=1</script>", "&lt;script&gt;window.hit=1&lt;/script&gt;",
    "<iframe srcdoc='<script>parent.hit=1</script>'>",
)  # fmt: skip


@pytest.mark.parametrize("attack", ATTACKS)
def test_no_script_of_a_text_runs(page: Browser, tmp_path: Path, attack: str) -> None:
    page.messages.clear()
    page.open(written(hostile(attack), tmp_path))
    page.ask("[...document.querySelectorAll('a[data-seconds]')].length")
    page.ask("new Promise(done => setTimeout(done, 100))")
    assert page.ask("window.hit === undefined")
    assert page.ask("document.scripts.length") == 1
    assert page.ask(f"document.body.textContent.includes({attack!r})"), "readable as it was typed"
    assert page.messages == []


def test_a_script_that_came_in_all_the_same_would_be_refused(page: Browser, tmp_path: Path) -> None:
    """The content security policy, tried by putting a script into the page by hand."""
    page.open(written(sheet(), tmp_path))
    page.ask(
        "(() => { const one = document.createElement('script'); one.textContent = 'hit = 1'; document.body.append(one); })()"
    )
    assert page.ask("window.hit === undefined")
    assert page.ask("fetch('http://localhost:9/').then(() => 'reached', () => 'refused')") == "refused"


@pytest.fixture
def served(tmp_path: Path) -> Iterator[str]:
    """The folder by HTTP on this machine: a browser takes no captions from a file."""
    handler = functools.partial(_Quiet, directory=str(tmp_path))
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    thread.join()
    server.server_close()


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:  # the tests' own output is enough
        pass


def cues(page: Browser, served: str, folder: Path, made: HandOver) -> list[list[object]]:
    write_sheet(made, folder / "sheet.vtt")
    (folder / "index.html").write_text("<video><track default src=sheet.vtt></video>", encoding="utf-8")
    page.open(f"{served}/index.html")
    page.wait_for("document.querySelector('track').readyState > 1")
    assert page.ask("document.querySelector('track').readyState") == 2, "loaded, and no error"
    found: list[list[object]] = page.ask(
        "[...document.querySelector('track').track.cues].map(one => [one.id, one.startTime, one.endTime,"
        " one.getCueAsHTML().textContent, one.getCueAsHTML().querySelectorAll('*').length])"
    )
    return found


def test_the_captions_are_a_track(page: Browser, served: str, tmp_path: Path) -> None:
    found = cues(page, served, tmp_path, sheet())
    assert [one[:3] for one in found] == [["t1", 12.5, 16.5], ["t3", 12.5, 16.5], ["t2", 61, 65], ["t4", 1289.75, 1290]]
    assert found[0][3] == "\u25c6 illegal: Ovvermire 14, arm sleeve\nRule 3-5-3, so since 2019-20\nCrew: not seen"


@pytest.mark.parametrize("attack", [*ATTACKS, "a\n\n00:00.000 --> 00:01.000\nb", "--> & <b>bold</b>"])
def test_hostile_text_is_text_in_the_track(page: Browser, served: str, tmp_path: Path, attack: str) -> None:
    found = cues(page, served, tmp_path, hostile(attack))
    assert len(found) == 2
    assert [one[4] for one in found] == [0, 0], "no markup"
    assert " ".join(attack.split()) in str(found[0][3])


def test_the_films_of_the_page_are_told_apart(page: Browser, tmp_path: Path) -> None:
    second = FilmRef("f2", "/films/half-2.mp4", 1, Fraction(60), "cd", FILM.start, 1280, 720)
    made = sheet((LINE, replace(LINE, number=2, tag="t2", film=second)), films=(FILM, second))
    page.open(written(made, tmp_path))
    assert page.ask("[...document.querySelectorAll('a[data-film]')].map(one => one.dataset.film)") == ["f1", "f2"]
