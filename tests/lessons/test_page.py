"""The page of a lesson in a real browser: asked and answered with keys alone, a result that reads back, no text that acts."""

import json
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from filmreview.lessons.lesson import Lesson
from filmreview.lessons.lesson_folder import write_lesson_folder
from filmreview.lessons.lesson_key import key_of_lesson
from filmreview.lessons.page import write_page
from filmreview.lessons.question import Question
from filmreview.lessons.results_reading import Call, read_result
from tests.lessons.small_lesson import PLAYED, QUESTIONS, SLEEVE, a_lesson, hostile
from tests.lessons.small_review import QUICK
from tests.lessons.test_lesson_folder import made
from tests.sheets.browser import PROGRAM, Browser, browser
from tests.sheets.test_in_browser import ATTACKS

pytestmark = pytest.mark.skipif(PROGRAM is None, reason="no Chromium here")
KEYS = {
    "Tab": (9, ""), "Enter": (13, "\r"), " ": (32, " "), "ArrowDown": (40, ""), "ArrowRight": (39, ""),
}  # fmt: skip


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("browser")) as opened:
        yield opened


def opened(page: Browser, lesson: Lesson, folder: Path, name: str = "lesson") -> None:
    path = folder / f"{name}.html"
    write_page(lesson, {one.id: PLAYED for one in lesson.questions if one.place}, path)
    page.open(path.as_uri())
    page.ask("sessionStorage.clear()")  # what an earlier test called
    page.messages.clear()
    page.open(path.as_uri())


def test_the_page_asks_for_a_call_and_keeps_the_ruling_for_the_book(page: Browser, tmp_path: Path) -> None:
    opened(page, a_lesson(), tmp_path)
    said = page.ask("document.documentElement.textContent")
    assert "Give your call and what follows" in said
    assert "your ruling" not in said.casefold()
    legends = page.ask("[...document.querySelectorAll('legend')].map(one => one.textContent)")
    assert set(legends) == {"Your call", "Consequence"}


def test_one_question_is_no_questions(page: Browser, tmp_path: Path) -> None:
    for questions, told in ((QUESTIONS, "A lesson of 4 questions on"), ((SLEEVE,), "A lesson of 1 question on")):
        opened(page, a_lesson(*questions), tmp_path)
        assert told in page.ask("document.querySelector('header').textContent")


def press(page: Browser, key: str, times: int = 1) -> None:
    code, text = KEYS[key]
    for _ in range(times):
        down = {"type": "keyDown", "key": key, "code": key, "windowsVirtualKeyCode": code, "text": text}
        page.call("Input.dispatchKeyEvent", **down)
        page.call("Input.dispatchKeyEvent", type="keyUp", key=key, code=key, windowsVirtualKeyCode=code)


def focus(page: Browser, wanted: str) -> None:
    """Tab until the focus is where it is wanted, as a person would."""
    for _ in range(25):
        if page.ask(f"document.activeElement.matches({wanted!r})"):
            return
        press(page, "Tab")
    raise AssertionError(f"Tab never reaches {wanted}")


def choose(page: Browser, number: int, field: str, value: str) -> None:
    """Tab to a group and go to one of its choices with the arrow keys."""
    focus(page, f"[name={field}-{number}]")
    press(page, " ")
    for _ in range(6):
        if page.ask(f"document.querySelector('[name={field}-{number}]:checked').value") == value:
            return
        press(page, "ArrowDown")
    raise AssertionError(f"the arrow keys never reach {value}")


def answer(page: Browser, number: int, question: Question, call: tuple[str, str]) -> None:
    page.wait_for(f"!!document.querySelector('[data-question=\"{question.id}\"]:not([hidden])')")
    choose(page, number, "ruling", call[0])
    choose(page, number, "consequence", call[1])
    focus(page, "form button")
    press(page, "Enter")
    page.wait_for(f"!document.querySelector('[data-question=\"{question.id}\"] .answer').hidden")
    focus(page, ".next")
    press(page, "Enter")


CALLS = {
    "t1": ("illegal", "fix or leave"), "t2": ("illegal", "technical foul"), "s-1234abcd-shirt": ("cannot be told", "none"),
    "t3": ("illegal", "fix or leave"),
}  # fmt: skip


def played_through(page: Browser, lesson: Lesson, name: str) -> None:
    """The whole lesson with keys alone."""
    focus(page, "#name")
    page.call("Input.insertText", text=name)
    press(page, "Enter")
    for number, question in enumerate(lesson.questions, 1):
        answer(page, number, question, CALLS[question.id])
    page.wait_for("!document.querySelector('#end').hidden")


def test_a_lesson_is_done_with_keys_alone_and_the_result_reads_back(page: Browser, tmp_path: Path) -> None:
    lesson = a_lesson()
    opened(page, lesson, tmp_path)
    page.call("Page.setDownloadBehavior", behavior="allow", downloadPath=str(tmp_path))
    played_through(page, lesson, "Idrun Mosswell")
    assert page.ask("document.querySelector('#sum').textContent") == (
        "3 of 4 rulings as the book says, 2 of them with the consequence."
    )
    focus(page, "#save")
    press(page, "Enter")
    saved = tmp_path / "result-Idrun-Mosswell.json"
    end = time.monotonic() + 20
    while not (saved.is_file() and saved.stat().st_size):
        assert time.monotonic() < end, "nothing was saved"
        time.sleep(0.05)
    result = read_result(saved, key_of_lesson(lesson))
    assert result.name == "Idrun Mosswell"
    assert result.calls == {question: Call(*call) for question, call in CALLS.items()}
    assert json.loads(page.ask("document.querySelector('#result').value"))["lesson"] == lesson.key
    assert page.messages == []


def test_the_answer_is_out_of_sight_until_the_call_is_given(page: Browser, tmp_path: Path) -> None:
    opened(page, a_lesson(), tmp_path)
    shown = (
        "[...document.querySelectorAll('main > section')].filter(one => one.offsetHeight)"
        ".map(one => one.id || one.dataset.question)"
    )
    assert page.ask(shown) == ["begin"]
    focus(page, "#name")
    press(page, "Enter")
    page.wait_for("!document.querySelector('[data-question=t1]').hidden")
    assert page.ask(shown) == ["t1"]
    assert page.ask("document.querySelector('[data-question=t1] .answer').offsetHeight") == 0
    assert "3-5-3" not in page.ask("document.body.innerText")
    focus(page, "form button")
    press(page, "Enter")
    assert page.ask("document.querySelector('[data-question=t1] .answer').offsetHeight") == 0, "a call must be given first"
    choose(page, 1, "ruling", "legal")
    choose(page, 1, "consequence", "none")
    focus(page, "form button")
    press(page, "Enter")
    said = page.ask("document.querySelector('[data-question=t1] .answer').innerText")
    assert "Not as the book says." in said
    assert "legal; consequence: none" in said
    assert "3-5-3, so since 2019-20" in said
    assert page.ask("document.activeElement.classList.contains('same')"), "a reader's voice goes on with the answer"


def test_the_clip_inside_plays_without_a_network(page: Browser, tmp_path: Path) -> None:
    opened(page, a_lesson(SLEEVE), tmp_path)
    page.call("Network.enable")
    page.call("Network.emulateNetworkConditions", offline=True, latency=0, downloadThroughput=0, uploadThroughput=0)
    focus(page, "#name")
    press(page, "Enter")
    page.wait_for("document.querySelector('video').readyState > 0")
    focus(page, "video")
    if page.ask("document.querySelector('video').paused"):
        press(page, " ")
    page.wait_for("document.querySelector('video').currentTime > 0.3")
    assert page.ask("document.querySelector('video').error") is None
    assert page.ask("document.querySelector('video').duration") == pytest.approx(3.003, abs=0.001), (
        "90 frames at 30000/1001 a second"
    )
    page.call("Network.emulateNetworkConditions", offline=False, latency=0, downloadThroughput=-1, uploadThroughput=-1)


def test_a_written_lesson_plays_and_stays_on_the_held_frame(page: Browser, tmp_path: Path) -> None:
    write_lesson_folder(made(tmp_path), tmp_path / "lesson")
    page.open((tmp_path / "lesson" / "lesson.html").as_uri())
    focus(page, "#name")
    press(page, "Enter")
    page.wait_for("document.querySelector('video').ended || document.querySelector('video').readyState > 2")
    page.ask("document.querySelector('video').play()")
    page.wait_for("document.querySelector('video').ended")
    held = float(QUICK.lead_in + 1)  # the lead-in, and the held frame for a second
    assert page.ask("document.querySelector('video').duration") == pytest.approx(held, abs=0.05)
    assert page.ask("document.querySelector('video').videoHeight") == 180, "the film's own lines: nothing is enlarged"


def test_calls_survive_a_page_loaded_anew(page: Browser, tmp_path: Path) -> None:
    lesson = a_lesson(*QUESTIONS[:2])
    opened(page, lesson, tmp_path, "anew")
    focus(page, "#name")
    press(page, "Enter")
    answer(page, 1, lesson.questions[0], CALLS["t1"])
    page.call("Page.reload")
    page.wait_for("document.readyState === 'complete' && !document.querySelector('#begin').hidden")
    focus(page, "#begin-form button")  # by Tab: so it is known that the page loaded anew takes keys
    press(page, "Enter")
    page.wait_for("!document.querySelector('[data-question=t2]').hidden")


@pytest.mark.parametrize("attack", ATTACKS)
def test_no_script_of_a_text_runs(page: Browser, tmp_path: Path, attack: str) -> None:
    opened(page, hostile(attack), tmp_path, "hostile")
    focus(page, "#name")
    page.call("Input.insertText", text=attack)
    press(page, "Enter")
    choose(page, 1, "ruling", "illegal")
    choose(page, 1, "consequence", "none")
    focus(page, "form button")
    press(page, "Enter")
    focus(page, ".next")
    press(page, "Enter")
    page.ask("new Promise(done => setTimeout(done, 50))")
    assert page.ask("window.hit === undefined")
    assert page.ask("[...document.scripts].filter(one => one.type !== 'text/plain').length") == 1
    assert page.ask(f"document.querySelector('h1').textContent === {attack!r}"), "readable as it was typed"
    assert page.messages == []


def test_a_script_that_came_in_all_the_same_would_be_refused(page: Browser, tmp_path: Path) -> None:
    opened(page, a_lesson(), tmp_path)
    page.ask(
        "(() => { const one = document.createElement('script'); one.textContent = 'hit = 1'; document.body.append(one); })()"
    )
    assert page.ask("window.hit === undefined")
    assert page.ask("fetch('http://localhost:9/').then(() => 'reached', () => 'refused')") == "refused"


def test_every_field_has_a_name_and_every_part_a_heading(page: Browser, tmp_path: Path) -> None:
    """Names as the browser's own accessibility tree has them (WAI-ARIA 1.2, 4.2)."""
    opened(page, a_lesson(), tmp_path)
    page.ask("document.querySelectorAll('[hidden]').forEach(one => { one.hidden = false; })")
    nodes = page.call("Accessibility.getFullAXTree")["nodes"]
    named = ("button", "radio", "textbox", "group", "heading", "Video", "columnheader")
    found = [(one["role"]["value"], one.get("name", {}).get("value", "")) for one in nodes if not one.get("ignored")]
    roles = [role for role, _ in found]
    assert roles.count("radio") == 4 * 8
    assert roles.count("Video") == 3
    assert [one for one in found if one[0] in named and not one[1] and one != ("heading", "")] == []
    assert sum(one == ("heading", "") for one in found) == 4, "the four that are filled when the call is given"


def test_on_a_phone_nothing_is_wider_than_the_screen(page: Browser, tmp_path: Path) -> None:
    page.call("Emulation.setDeviceMetricsOverride", width=390, height=844, deviceScaleFactor=2, mobile=True)
    try:
        opened(page, a_lesson(), tmp_path)
        focus(page, "#name")
        press(page, "Enter")
        assert page.ask("document.documentElement.scrollWidth") == 390
    finally:
        page.call("Emulation.clearDeviceMetricsOverride")
