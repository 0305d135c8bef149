"""The lesson as one web page: a single file that plays its clips, asks, takes the call, then shows the ruling. No network.

Everything is inside: looks, the small program, the clips. The content security policy forbids everything else, and all words
are escaped, so no text can load or run anything. What a participant calls stays in his browser until he saves it as a small
file, which `results_reading` reads.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from filmreview.aside import written_aside
from filmreview.cautions import OFFLINE, STUDY_AID
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.question import CONSEQUENCE_CHOICES, RULING_CHOICES, Answer, Question
from filmreview.progress import Progress, silent
from filmreview.sheets import sheet_words as words
from filmreview.sheets.page_words import pairs, person, ruling_piece, text

_LOOKS = Path(__file__).with_name("page.css")
_PROGRAM = Path(__file__).with_name("page.js")
LONGEST_NAME = 80
LONGEST_WHY = 500


def write_page(lesson: Lesson, clips: Mapping[str, Path], path: Path, progress: Progress = silent) -> None:
    """Write the page, in place of an older one only when it is whole. clips: mp4 files that ask, by the id of the question.

    Raises FilmReviewError when it cannot be written; lets `Stopped` of progress through.
    """
    with written_aside(path) as aside, aside.open("w", encoding="utf-8", newline="\n") as file:
        for piece in _pieces(lesson, clips, progress):
            file.write(piece)
    progress(1.0, "page written")


def _pieces(lesson: Lesson, clips: Mapping[str, Path], progress: Progress) -> Iterator[str]:
    count = len(lesson.questions)
    yield _head(lesson)
    yield _begin(lesson)
    for number, question in enumerate(lesson.questions, 1):
        yield _ask(question, number, count, question.id in clips)
    yield _end()
    yield f"</main><footer><p>{text(lesson.program)}. {text(OFFLINE)}</p></footer>\n"
    for number, question in enumerate(lesson.questions, 1):
        if question.id in clips:
            progress(number / (count + 1), f"clip {number} of {count} into the page")
            data = base64.b64encode(clips[question.id].read_bytes()).decode()
            yield f'<script type="text/plain" id="clip-{number}">{data}</script>\n'
    yield f"<script>{_PROGRAM.read_text(encoding='utf-8')}</script>\n</body></html>\n"


def _head(lesson: Lesson) -> str:
    looks, program = _LOOKS.read_text(encoding="utf-8"), _PROGRAM.read_text(encoding="utf-8")
    many = len(lesson.questions)
    policy = (
        f"default-src 'none'; media-src blob:; style-src '{_hash(looks)}'; script-src '{_hash(program)}'; "
        "base-uri 'none'; form-action 'none'"
    )
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{text(policy)}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n<meta name="referrer" content="no-referrer">\n'
        f"<title>{text(lesson.title)}</title>\n<style>{looks}</style></head>\n"
        f'<body data-lesson="{text(lesson.key)}"><header><h1>{text(lesson.title)}</h1>'
        f'<p class="under">A lesson of {many} question{"" if many == 1 else "s"} on what players wear.</p></header>\n<main>\n'
    )


def _hash(content: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(content.encode()).digest()).decode()


def _begin(lesson: Lesson) -> str:
    cautions = "".join(f"<li>{text(one)}</li>" for one in lesson.cautions)
    return (
        '<section id="begin"><h2 tabindex="-1">Before you begin</h2>'
        "<p>Each question shows a clip or tells a situation. Give your call and what follows; then the page shows what the"
        " book says. At the end you can save your calls as a small file to hand in.</p>"
        f"<ul>{cautions}</ul>"
        "<noscript><p>This page needs its own small program to ask; the browser has scripts switched off.</p></noscript>"
        '<form id="begin-form"><label class="over">Your name, as it is to stand on the result (may be left empty)'
        f'<input type="text" id="name" maxlength="{LONGEST_NAME}" autocomplete="off"></label>'
        "<button>Begin</button></form></section>\n"
    )


def _ask(question: Question, number: int, count: int, has_clip: bool) -> str:
    answer = question.answer
    told = "".join(f"<li>{person(one)}</li>" for one in question.told)
    video = (
        f'<video controls playsinline preload="none" data-clip="clip-{number}" aria-label="clip of question {number}"></video>'
        if has_clip
        else ""
    )
    kind, asked = "with-clip" if has_clip else "without-clip", f"{question.who}, {question.item}"
    return (
        f'<section class="{kind}" data-question="{text(question.id)}"'
        f' data-asked="{text(asked)}" data-ruling="{text(answer.ruling)}"'
        f' data-consequence="{text(answer.consequence)}" hidden>'
        f'<h2 tabindex="-1">Question {number} of {count}</h2>{video}<div>'
        f"<h3>{person(question.asked)}</h3>"
        f'<p class="setting">{person(question.setting)}</p>'
        + (f'<ul class="told">{told}</ul>' if told else "")
        + "<form>"
        + _radios("ruling", number, "Your call", {one: one for one in RULING_CHOICES})
        + _radios("consequence", number, "Consequence", {one: words.CONSEQUENCES[one] for one in CONSEQUENCE_CHOICES})
        + f'<label class="over">Why (if you like)<textarea rows="2" maxlength="{LONGEST_WHY}"></textarea></label>'
        "<button>Give this call</button></form>"
        f"{_answer(question, last=number == count)}</div></section>\n"
    )


def _radios(field: str, number: int, legend: str, choices: Mapping[str, str]) -> str:
    inside = "".join(
        f'<label><input type="radio" required name="{field}-{number}" data-field="{field}" value="{text(value)}"'
        f' data-words="{text(said)}">{text(said)}</label>'
        for value, said in choices.items()
    )
    return f"<fieldset><legend>{legend}</legend>{inside}</fieldset>"


def _answer(question: Question, last: bool) -> str:
    answer = question.answer
    rows = (
        ("Your call", '<span class="yours"></span>'),
        ("The ruling", ruling_piece(answer.ruling)),
        ("Consequence", text(answer.consequence_words)),
        *((label, person(said)) for label, said in _told(answer) if said),
        ("Caution", text(question.caution) if question.caution != STUDY_AID else ""),
    )
    return (
        '<div class="answer" hidden><h3 tabindex="-1" class="same"></h3>'
        f'{pairs(rows)}<button type="button" class="next">{"To the end" if last else "Next question"}</button></div>'
    )


def _told(answer: Answer) -> Sequence[tuple[str, str]]:
    source = f"\n{answer.source} ({answer.sure})" if answer.source else ""
    return (
        ("The book asks", answer.todo),
        ("Why", "\n".join(answer.reasons)),
        ("Rule", answer.rule + source if answer.rule else ""),
        ("Would change it", "\n".join(answer.asks)),
        ("Ahead", "\n".join(answer.ahead)),
        ("Situation", answer.case),
    )


def _end() -> str:
    heads = ("No", "Asked", "Your call", "By the book", "Your consequence", "By the book")
    head = "".join(f'<th scope="col">{one}</th>' for one in heads)
    return (
        '<section id="end" hidden><h2 tabindex="-1">Your calls</h2><p id="sum"></p>'
        f'<div class="wide"><table id="calls"><thead><tr>{head}</tr></thead><tbody></tbody></table></div>'
        "<h3>To hand in</h3><p>Save the result and give the file to whoever leads the lesson. It holds your name as you typed"
        " it, your calls and when you made them, nothing else.</p>"
        '<p><button type="button" id="save">Save the result</button></p><p id="saved" role="status"></p>'
        '<label class="over">The same as text, where saving is not possible'
        '<textarea id="result" rows="6" readonly></textarea></label>'
        '<p><button type="button" id="again" class="quiet">Begin anew, without these calls</button></p></section>\n'
    )
