"""The wear board without a screen: which lines and cells there are, what each says, and where Enter goes.

The boards are derived by a job, and only while somebody looks at them: comparing measured colours takes a second or two where
there are hundreds.
"""

from __future__ import annotations

from dataclasses import dataclass

from filmreview.colour.value import Colour
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.errors import FilmReviewError
from filmreview.facts.items import ITEMS
from filmreview.progress import Progress
from filmreview.review.own_calls import HIDDEN, waiting
from filmreview.review.ruled import Findings
from filmreview.review.wear import WearBoard, WearCell, wear_boards

BOTH = "both teams"
NOT_READ = "not read"


@dataclass(frozen=True)
class WearLine:
    """One line of the board: a team with its kit as set up (player None), or one of its players."""

    board: WearBoard
    player: str | None = None

    @property
    def head(self) -> str:
        """What stands before it: the team's name, or the number."""
        return self.board.name if self.player is None else self.player or NOT_READ


class WearBoardPresenter:
    """The boards of the open review. Events: "boards" when lines or cells have changed."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.events = Events("boards")
        self.boards: tuple[WearBoard, ...] = ()
        self.side = ""
        self.everybody = False
        self._looked_at = False
        self._made_of: Findings | None = None
        desk.events.on("findings", self._findings_changed)

    def look(self, looked_at: bool) -> None:
        """Somebody looks at the board, or no longer does."""
        self._looked_at = looked_at
        self._findings_changed()

    def show_side(self, side: str) -> None:
        """Only the "home" or "visitor" team; "" for both."""
        self.side = side
        self.events.tell("boards")

    def show_everybody(self, everybody: bool) -> None:
        """Players of whom nothing was tagged too, or not."""
        self.everybody = everybody
        self.events.tell("boards")

    def sides(self) -> tuple[tuple[str, str], ...]:
        """What can be shown: words and side, both teams first."""
        return ((BOTH, ""), *((board.name, board.side) for board in self.boards))

    def shown(self) -> tuple[WearBoard, ...]:
        """The boards in sight."""
        return tuple(board for board in self.boards if self.side in ("", board.side))

    def items(self) -> tuple[str, ...]:
        """The columns, one for each item tagged on a team in sight, in the order of the list of items."""
        worn = {item for board in self.shown() for item in board.items}
        return tuple(item for item in ITEMS if item in worn)

    def lines(self) -> tuple[WearLine, ...]:
        """For each team its own line and then its players'."""
        found: list[WearLine] = []
        for board in self.shown():
            players = [one for one in board.players if self.everybody or board.worn_by(one)]
            found += [WearLine(board), *(WearLine(board, player) for player in players)]
        return tuple(found)

    def cell(self, line: WearLine, item: str) -> WearCell | None:
        """What the player was seen in; None when nothing was tagged."""
        return None if line.player is None else line.board.cells.get((line.player, item))

    def patch(self, line: WearLine, item: str) -> tuple[Colour, ...]:
        """The colours to show: seen on the player, or set up for the team."""
        cell = self.cell(line, item)
        return cell.colours if cell else line.board.declared.get(item, ()) if line.player is None else ()

    def words(self, line: WearLine, item: str) -> str:
        """The cell's words beside patch and shape: "illegal, odd", "legal, ahead, 2 tags", "set up"."""
        cell = self.cell(line, item)
        if cell is None:
            return "set up" if self.patch(line, item) else ""
        parts = [cell.worst.ruling.ruling, "ahead" if cell.worst.ruling.ahead else ""]
        parts += ["odd" if cell.odd else "", f"{len(cell.findings)} tags" if len(cell.findings) > 1 else ""]
        return ", ".join(part for part in parts if part)

    def told(self, line: WearLine, item: str) -> str:
        """Everything about a cell in one line, for under the table, tooltips and screen readers."""
        cell = self.cell(line, item)
        if cell is None:
            colours = " and ".join(colour.name for colour in self.patch(line, item))
            told = f"{colours}, as set up" if colours else "nothing set up" if line.player is None else "nothing tagged"
            head = line.head if line.player is None else f"{line.board.name} {line.head}"
            return f"{head}, {item}: {told}"
        who = f"{line.board.name} {cell.player or 'number not read'}"
        ruling = cell.worst.ruling
        cost = "" if ruling.consequence == "none" else ruling.consequence
        said = ", ".join(part for part in (cell.colour_words, ruling.ruling, "ahead" if ruling.ahead else "", cost) if part)
        odd = f"; odd one out: {cell.odd}" if cell.odd else ""
        times = ", ".join(one.time for one in cell.findings)
        return f"{who}, {item}: {said}{odd}; at {times}"

    def choices(self) -> tuple[str, ...]:
        """What the teams in sight have to choose, a sentence each."""
        review = self._desk.review
        hidden = len(waiting(review)) if review else 0
        if hidden:
            return (f"{hidden} tag{'s' if hidden > 1 else ''} and the choices: {HIDDEN}",)
        several = len(self.shown()) > 1
        return tuple(
            f"{board.name} must choose: {choice.words}" if several else choice.words
            for board in self.shown()
            for choice in board.choices
        )

    def next_tag(self, line: WearLine, item: str, after: str = "") -> str | None:
        """The tag of the cell to go to: the first one, or the one that follows `after` round and round."""
        cell = self.cell(line, item)
        if cell is None:
            return None
        tags = [one.tag.id for one in cell.findings]
        return tags[(tags.index(after) + 1) % len(tags)] if after in tags else tags[0]

    def _findings_changed(self) -> None:
        found = self._desk.findings
        if not self._looked_at or found is self._made_of:
            return
        self._made_of = found
        if found is None:
            self._desk.forget("wear")
            self._take(())
            return
        made_of = found

        def work(_progress: Progress) -> tuple[WearBoard, ...]:
            return wear_boards(made_of)

        self._desk.start(work, self._take, self._not_made, "wear")

    def _take(self, boards: tuple[WearBoard, ...]) -> None:
        self.boards = boards
        self.events.tell("boards")

    def _not_made(self, error: FilmReviewError) -> None:
        self._desk.message(str(error))
        self._take(())
