"""The findings as one web page: a single file that needs no network, for a phone, a laptop or paper.

Everything is inside: looks, the small program that filters, pictures. The content security policy forbids everything else, so
no text can load or run anything. A link goes to the film at the time of a finding (W3C Media Fragments URI 1.0, `#t=`).
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from filmreview.aside import written_aside
from filmreview.errors import FilmReviewError, Stopped
from filmreview.film.moment import format_time
from filmreview.progress import Progress, silent
from filmreview.sheets import sheet_words as words
from filmreview.sheets.crew_page import crew_page
from filmreview.sheets.film_address import film_address
from filmreview.sheets.handover import MARK_ORDER, RULINGS, HandOver, Line
from filmreview.sheets.page_words import pairs, person, ruling_piece, section, shape, table, text
from filmreview.sheets.table_pages import TablePage, table_pages

_LOOKS = Path(__file__).with_name("page.css")
_MOST_COLUMNS = 8
_PROGRAM = Path(__file__).with_name("page.js")


def write_page(sheet_of: HandOver, path: Path, progress: Progress = silent) -> None:
    """Write the page, in place of an older one only when it is whole.

    Raises FilmReviewError when it cannot be written; lets `Stopped` of progress through.
    """
    with written_aside(path) as aside, aside.open("w", encoding="utf-8", newline="\n") as file:
        for piece in _pieces(sheet_of, path, progress):
            file.write(piece)
    progress(1.0, "written")


def _pieces(sheet_of: HandOver, path: Path, progress: Progress) -> Iterator[str]:
    yield _head(sheet_of)
    yield section("game", "The game", _game(sheet_of))
    yield section("counts", f"What was found: {sheet_of.count()} in all", _counts(sheet_of))
    yield section("praise", "Done as the book asks", _short(sheet_of.praise, "No finding is marked so."))
    yield section("talk", "To talk about", _short(sheet_of.to_talk_about, "Nothing was left to do."))
    yield f'<section aria-labelledby="findings"><h2 id="findings">Findings</h2>\n{_look(sheet_of)}\n'
    for line in sheet_of.lines:
        progress(line.number / (len(sheet_of.lines) + 1), f"finding {line.number} of {len(sheet_of.lines)}")
        yield _article(sheet_of, line, path)
    yield "</section>\n"
    for page in (crew_page(sheet_of), *table_pages(sheet_of)):
        yield section(f"page-{page.name.lower()}", page.name, _rows(page))
    cautions = "".join(f"<li>{text(one)}</li>" for one in sheet_of.cautions)
    yield section("cautions", "Cautions", f"<ul>{cautions}</ul>")
    yield f"</main><footer><p>{text(sheet_of.program)}</p></footer>\n<script>{_program()}</script>\n</body></html>\n"


def _rows(page: TablePage) -> str:
    """A table; one of many columns as a list a row, since neither a telephone nor paper has room for it."""
    if not page.rows:
        return f"<p>{text(page.empty)}</p>"
    heads = [column.head for column in page.columns]
    if len(heads) <= _MOST_COLUMNS:
        return table(heads, page.rows)
    return "".join(pairs((head, person(str(value))) for head, value in zip(heads, row, strict=True) if value != "")
                   for row in page.rows)  # fmt: skip


def _program() -> str:
    return _PROGRAM.read_text(encoding="utf-8")


def _head(sheet_of: HandOver) -> str:
    looks, program = _LOOKS.read_text(encoding="utf-8"), _program()
    policy = (
        f"default-src 'none'; img-src data:; media-src blob:; style-src '{_hash(looks)}'; script-src '{_hash(program)}'; "
        "base-uri 'none'; form-action 'none'"
    )
    level = f", {sheet_of.game.level}" if sheet_of.game.level else ""
    under = f"What the players wore and what the crew did, from film: {words.day_words(sheet_of.game.day)}{level}"
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{text(policy)}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n<meta name="referrer" content="no-referrer">\n'
        f"<title>{text(sheet_of.title)}</title>\n<style>{looks}</style></head>\n"
        f'<body><header><h1>{person(sheet_of.title)}</h1><p class="under">{text(under)}</p>'
        f'<p class="caution">{text(sheet_of.cautions[0])} <a href="#cautions">All cautions</a></p></header>\n<main>\n'
    )


def _hash(content: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(content.encode()).digest()).decode()


def _game(sheet_of: HandOver) -> str:
    game = sheet_of.game
    crew = "\n".join(f"{one.position}: {one.name}" for one in game.crew)
    films = "\n".join(f"{film.name} ({format_time(film.length)})" for film in sheet_of.films)
    return pairs(
        (
            ("Home", person(words.team_words(game.home))),
            ("Visitor", person(words.team_words(game.visitor))),
            ("Book", text(f"{sheet_of.book}, edition {sheet_of.edition}")),
            ("Adoption", person(sheet_of.adoption or "none")),
            ("Crew", person(crew or "not told")),
            ("Observer", person(game.observer or "not told")),
            ("Film", person(films or "none")),
        )
    )


def _counts(sheet_of: HandOver) -> str:
    heads = "".join(f'<th scope="col" class="number">{text(one)}</th>' for one in (*MARK_ORDER, "all"))
    rows = "".join(
        f'<tr><th scope="row">{ruling_piece(ruling)}</th>'
        + "".join(f'<td class="number">{sheet_of.count(ruling, mark) or "&middot;"}</td>' for mark in MARK_ORDER)
        + f'<td class="number">{sheet_of.count(ruling)}</td></tr>'
        for ruling in RULINGS
    )
    return f'<div class="wide"><table><thead><tr><td></td>{heads}</tr></thead><tbody>{rows}</tbody></table></div>'


def _short(lines: tuple[Line, ...], none: str) -> str:
    if not lines:
        return f"<p>{text(none)}</p>"
    items = "".join(
        f'<li><a href="#no-{line.number}">No {line.number} at {line.time}</a>: {person(line.whose)}, {text(line.item)}: '
        f"{ruling_piece(line.ruling)}, crew: {text(line.crew_mark)}</li>"
        for line in lines
    )
    return f"<ul>{items}</ul>"


def _look(sheet_of: HandOver) -> str:
    films = "".join(
        f'<label>Play {text(film.name)} from this machine <input type="file" accept="video/*" data-film="{film.id}"></label>'
        for film in sheet_of.films
    )
    return (
        '<form id="look"><label>Look for <input type="search" id="look-words"></label>'
        f"{_choice('look-ruling', 'Ruling', RULINGS)}{_choice('look-crew', 'Crew', MARK_ORDER)}"
        f'<output id="look-said" aria-live="polite"></output>{films}</form><video controls hidden></video>'
    )


def _choice(name: str, label: str, values: tuple[str, ...]) -> str:
    options = "".join(f'<option value="{text(one)}">{text(one)}</option>' for one in values)
    return f'<label>{label} <select id="{name}"><option value="">all</option>{options}</select></label>'


def _article(sheet_of: HandOver, line: Line, path: Path) -> str:
    rule = f"{line.reference}, {words.so_since(line.edition)}" if line.reference else ""
    costs = words.follows_words(line.ruling, line.consequence)
    crew = "\n".join(part for part in (line.crew_mark, f"at {line.crew_time}" if line.crew_time else "", line.did) if part)
    ahead = "<br>".join(f"{shape('ahead')} {text(f'{one.ruling} from {one.starts} ({one.rule})')}" for one in line.ahead)
    told = pairs(
        (
            ("Ruling", ruling_piece(line.ruling)),
            ("Consequence", text(costs)),
            ("Seen", person("\n".join(line.seen) or "nothing noted")),
            ("Why", text("\n".join(line.reasons))),
            ("Rule", text(rule)),
            ("Changed by", person(line.adoption) if line.adoption else ""),
            ("Source", text(f"{line.source} ({words.MARKS.get(line.mark, line.mark)})") if line.source else ""),
            ("The book asks", text("" if line.could_have_done == line.todo else line.todo)),
            ("The crew", person(crew)),
            ("What they could have done", text(line.could_have_done)),
            ("Ahead", ahead),
            ("Would change it", text("\n".join(line.asks))),
            ("Ruled before", text(line.earlier)),
            ("Whose finding", person(line.official) if line.official else ""),
            ("Replies", person("\n".join(line.replies)) if line.replies else ""),
            ("Note", person(line.note) if line.note else ""),
        )
    )
    return (
        f'<article id="no-{line.number}" data-ruling="{text(line.ruling)}" data-crew="{text(line.crew_mark)}">'
        f"<h3>No {line.number} at {line.time}: {person(line.whose)}, {text(line.item)}</h3>"
        f"{_figure(sheet_of, line, path)}<div>{told}</div></article>\n"
    )


def _figure(sheet_of: HandOver, line: Line, path: Path) -> str:
    address = f"{film_address(line.film, path)}#t={_seconds(line.seconds)}"
    play = (
        f'<a href="{text(address)}" data-film="{line.film.id}" data-seconds="{_seconds(line.seconds)}">'
        f"play the film from {line.time}</a>"
    )
    return f"<figure>{_picture(sheet_of, line)}<figcaption>{play}</figcaption></figure>"


def _picture(sheet_of: HandOver, line: Line) -> str:
    try:
        picture = sheet_of.picture(line)
    except Stopped:
        raise
    except FilmReviewError as error:
        return f"<p>{text(words.no_picture(error))}</p>"
    data = base64.b64encode(picture.jpeg).decode()
    size = f'width="{picture.width}" height="{picture.height}"'
    return f'<img alt="{text(words.picture_words(line.time, line.film.name))}" {size} src="data:image/jpeg;base64,{data}">'


def _seconds(seconds: Fraction) -> str:
    return f"{float(seconds):.3f}".rstrip("0").rstrip(".")
