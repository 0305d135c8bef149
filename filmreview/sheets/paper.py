"""The findings on paper (.pdf), laid out by reportlab: summary, a block a finding with its picture, crew, letters, tables.

No script, no form, no link out of the file; a line of the summary leads to its finding, and so does the outline.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    CondPageBreak,
    Flowable,
    Frame,
    KeepTogether,
    PageTemplate,
    Paragraph,
    Spacer,
)

from filmreview.aside import written_aside
from filmreview.cautions import ALL
from filmreview.errors import FilmReviewError, Stopped
from filmreview.film.moment import format_time
from filmreview.progress import Progress, silent
from filmreview.sheets import paper_looks as looks
from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import FAINT
from filmreview.sheets.crew_page import crew_page
from filmreview.sheets.handover import MARK_ORDER, RULINGS, HandOver, Line
from filmreview.sheets.inert import one_line
from filmreview.sheets.paper_text import BODY, markup, register
from filmreview.sheets.table_pages import TablePage, table_pages

_PAGES = "pages"  # of a form: no space in it
_PICTURE_HIGH = 122.0  # points
_LAID_OUT = 0.6  # share of the work done when every block is made; the rest is the pages
_MOST_ASKS = 4
_MOST_IN_HEADING = 200  # characters: a heading that runs over the page would lose its place in the outline
_MOST_COLUMNS = 7  # a table of more is no table on upright paper
_OWN_PLACE = ("Letters",)


def write_paper(sheet_of: HandOver, path: Path, progress: Progress = silent) -> None:
    """Write the file, in place of an older one only when it is whole.

    Raises FilmReviewError when it cannot be written; lets `Stopped` of progress through.
    """
    register()
    with written_aside(path) as aside:
        document = _Document(str(aside), sheet_of, progress)
        document.build(list(_blocks(sheet_of, progress)), canvasmaker=_NumberedCanvas)
    progress(1.0, "written")


class _Document(BaseDocTemplate):
    """The file with its page frame; tells progress page by page."""

    def __init__(self, path: str, sheet_of: HandOver, progress: Progress) -> None:
        super().__init__(
            path, pagesize=(looks.WIDTH, looks.HEIGHT), title=one_line(sheet_of.title), author=one_line(sheet_of.game.observer),
            subject="findings sheet", creator=sheet_of.program, invariant=1, pageCompression=1,
        )  # fmt: skip
        frame = Frame(looks.MARGIN, looks.MARGIN, looks.ACROSS, looks.HEIGHT - 2 * looks.MARGIN, 0, 0, 0, 0, id="page")
        self.addPageTemplates(PageTemplate("page", [frame], onPage=self._foot))
        self._footer, self._progress, self._pages = one_line(sheet_of.footer), progress, 2 + len(sheet_of.lines) // 2

    def _foot(self, canvas: Canvas, _: object) -> None:
        share = min(0.99, _LAID_OUT + (1 - _LAID_OUT) * canvas.getPageNumber() / (self._pages + 2))
        self._progress(share, f"page {canvas.getPageNumber()}")
        foot = Paragraph(markup(self._footer[:110]), looks.SMALL)
        foot.wrapOn(canvas, looks.ACROSS * 0.82, 20)
        foot.drawOn(canvas, looks.MARGIN, looks.MARGIN * 0.5)
        right, up = looks.WIDTH - looks.MARGIN - 18, looks.MARGIN * 0.5 + 2.5
        _set_small(canvas)
        canvas.drawRightString(right, up, f"page {canvas.getPageNumber()} of ")
        canvas.translate(right, up)
        canvas.doForm(_PAGES)
        canvas.translate(-right, -up)

    def afterFlowable(self, flowable: Flowable) -> None:  # noqa: N802 - reportlab's name
        """Give sections and findings their place in the outline."""
        place = getattr(flowable, "place", None)
        if place is not None:
            name, said, level = place
            self.canv.bookmarkPage(name)
            self.canv.addOutlineEntry(said, name, level, closed=level == 0 and name == "Findings")


class _NumberedCanvas(Canvas):
    """Knows how many pages there are when the last is written; every page shows that form beside its own number."""

    def save(self) -> None:
        """Write the number of pages, and the file."""
        self.beginForm(_PAGES)
        _set_small(self)
        self.drawString(0, 0, str(self.getPageNumber() - 1))
        self.endForm()
        super().save()


def _set_small(canvas: Canvas) -> None:
    canvas.setFont(BODY, 7.6)
    canvas.setFillColor(HexColor(f"#{FAINT}"))


def _blocks(sheet_of: HandOver, progress: Progress) -> Iterator[Flowable]:
    yield from _summary(sheet_of)
    yield from _section("Findings", f"Findings: {sheet_of.count()}", 330)
    for line in sheet_of.lines:
        progress(_LAID_OUT * line.number / (len(sheet_of.lines) + 1), f"finding {line.number} of {len(sheet_of.lines)}")
        yield from _finding(sheet_of, line)
    if sheet_of.letters:
        yield from _section("Letters")
        for letter in sheet_of.letters:
            yield from _letter(letter.words)
            yield Paragraph(f"({'built from the findings' if letter.built else 'written by the observer'})", looks.FAINTER)
            yield Spacer(1, 6)
    for page in (crew_page(sheet_of), *table_pages(sheet_of)):
        if page.name not in _OWN_PLACE:
            yield from _table(page)
    yield from _section("Cautions", "Cautions")
    yield from (Paragraph(markup(text), looks.POINT, bulletText="-") for text in sheet_of.cautions)


def _letter(written: str) -> Iterator[Flowable]:
    """Line for line; one that begins with a dash hangs on it."""
    for line in written.split("\n"):
        if line.startswith("- "):
            yield Paragraph(markup(line.removeprefix("- ")), looks.POINT, bulletText="-")
        else:
            yield Paragraph(markup(line), looks.PLAIN) if line.strip() else Spacer(1, looks.PLAIN.leading)


def _section(name: str, said: str = "", room: float = 80) -> Iterator[Flowable]:
    """A heading with its rule. room: points that must be left for what follows, else it begins on the next page."""
    yield CondPageBreak(room)
    yield _placed(Paragraph(markup(said or name), looks.SECTION), name, said or name, 0)
    yield looks.Rule(1.2, below=4)


def _placed(paragraph: Paragraph, name: str, said: str, level: int) -> Paragraph:
    paragraph.place = (name, one_line(said), level)  # type: ignore[attr-defined]  # read by `_Document.afterFlowable`
    return paragraph


def _summary(sheet_of: HandOver) -> Iterator[Flowable]:
    game = sheet_of.game
    level = f", {game.level}" if game.level else ""
    yield Paragraph(markup(sheet_of.title), looks.TITLE)
    under = f"What the players wore and what the crew did, from film: {words.day_words(game.day)}{level}"
    yield Paragraph(markup(under), looks.FAINTER)
    yield Spacer(1, 4)
    yield from (Paragraph(markup(text), looks.PLAIN) for text in ALL)  # whole at the end; these are read first
    yield from _section("Game", "The game")
    yield from looks.pairs(
        (
            ("Home", words.team_words(game.home)),
            ("Visitor", words.team_words(game.visitor)),
            ("Book", f"{sheet_of.book}, edition {sheet_of.edition}"),
            ("Adoption", sheet_of.adoption or "none"),
            ("Crew", "; ".join(f"{one.position} {one.name}" for one in game.crew) or "not told"),
            ("Observer", game.observer or "not told"),
            ("Film", "; ".join(f"{film.name} ({format_time(film.length)})" for film in sheet_of.films) or "none"),
            ("Made for", f"the {sheet_of.made_for}"),
        )
    )
    yield from _section("Counts", f"What was found: {sheet_of.count()} in all, by ruling and by what the crew did")
    counts = {one: [sheet_of.count(one, mark) for mark in (*MARK_ORDER, None)] for one in RULINGS}
    rows = [[looks.ruling_cell(one), *many] for one, many in counts.items()]
    widths = [max(1.0, 0.145 * max(map(len, mark.split()))) for mark in MARK_ORDER]  # so that no word of a head is broken
    yield looks.table(["", *MARK_ORDER, "all"], rows, (1.85, *widths, 0.6), RULINGS)
    yield from _short("Praise", "Done as the book asks", sheet_of.praise, "No finding is marked so.")
    yield from _short("Talk", "To talk about", sheet_of.to_talk_about, "Nothing was left to do.")
    yield from _section("Charged", "Penalties by the book")
    charged = [(one.team, f"{one.count} {one.kind}, charged to {one.charged_to} ({one.reference})") for one in sheet_of.charges]
    yield from looks.pairs(charged)
    none = () if charged or sheet_of.uncharged else (words.NO_FOUL,)
    yield from (Paragraph(markup(text), looks.PLAIN) for text in (*sheet_of.uncharged, *none))


def _short(name: str, heading: str, lines: tuple[Line, ...], none: str) -> Iterator[Flowable]:
    yield from _section(name, f"{heading}: {len(lines)}" if lines else heading)
    if not lines:
        yield Paragraph(none, looks.PLAIN)
    for line in lines:
        could = words.could_sentence(line.could_have_done)
        did = f" ({line.did.rstrip('.')})" if line.did else ""
        said = markup(f"{line.whose}, {line.item}: {line.ruling}. Crew: {line.crew_mark}{did}. {could}".rstrip())
        link = f'<a href="#no-{line.number}">No {line.number}</a> at {line.time}: '
        yield Paragraph(link + said, looks.POINT, bulletText="-")


def _finding(sheet_of: HandOver, line: Line) -> Iterator[Flowable]:
    said = f"No {line.number} at {line.time}: {line.whose}, {line.item}"
    ruled = words.ruled_words(line.ruling, words.follows_words(line.ruling, line.consequence))
    heading = _placed(Paragraph(markup(said, _MOST_IN_HEADING), looks.HEADING), f"no-{line.number}", said, 1)
    top = [Spacer(1, 7), heading, looks.band(looks.ruling_cell(line.ruling, ruled)), Spacer(1, 3)]
    told = looks.pairs(_told(line))
    yield KeepTogether([*top, _picture(sheet_of, line), Spacer(1, 4), *told, looks.Rule(above=6)])


def _told(line: Line) -> Iterator[tuple[str, str]]:
    yield "Seen", "\n".join(line.seen) or "nothing noted"
    yield "Why", "\n".join(line.reasons)
    yield "Rule", _rule(line)
    yield "The crew", words.crew_words(line.crew_mark, line.crew_time, line.did, line.official)
    yield "What they could have done", line.could_have_done
    yield "The book asks", "" if line.could_have_done == line.todo else line.todo
    yield "Ahead", "\n".join(f"{one.ruling} from {one.starts} ({one.rule})" for one in line.ahead)
    if line.ruling == "cannot be told":
        more = [f"and {len(line.asks) - _MOST_ASKS} more, in the workbook"] if len(line.asks) > _MOST_ASKS else []
        yield "Would change it", "\n".join((*line.asks[:_MOST_ASKS], *more))
    yield "Ruled before", line.earlier
    yield "Replies", "\n".join(line.replies)
    yield "Note", line.note


def _rule(line: Line) -> str:
    if not line.reference:
        return ""
    adoption = f", changed by {line.adoption}" if line.adoption else ""
    source = f"\n{line.source} ({words.MARKS.get(line.mark, line.mark)})" if line.source else ""
    return f"{line.reference}, {words.so_since(line.edition)}{adoption}{source}"


def _picture(sheet_of: HandOver, line: Line) -> Flowable:
    try:
        picture = sheet_of.picture(line)
    except Stopped:
        raise
    except FilmReviewError as error:
        return Paragraph(markup(words.no_picture(error)), looks.FAINTER)
    scale = min(_PICTURE_HIGH / picture.height, looks.ACROSS / picture.width)
    return looks.Picture(picture.jpeg, picture.width * scale, picture.height * scale)


def _table(page: TablePage) -> Iterator[Flowable]:
    yield from _section(page.name, room=130 if page.rows else 80)
    if not page.rows:
        yield Paragraph(markup(page.empty), looks.PLAIN)
        return
    heads = [column.head for column in page.columns]
    if len(heads) <= _MOST_COLUMNS:
        yield looks.table(heads, page.rows, [column.width for column in page.columns])
        return
    for row in page.rows:
        yield from looks.pairs((head, str(value)) for head, value in zip(heads, row, strict=True))
        yield looks.Rule(above=4, below=2)


rl_config.useA85 = 0  # pictures as they are, not as text: a fifth less
