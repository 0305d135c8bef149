"""The words of the command line: every command, its options, its help. No work is done here and no room is imported."""

from __future__ import annotations

import argparse
import textwrap
from collections.abc import Callable, Iterable
from typing import Any, NoReturn

from filmreview import __version__
from filmreview.cautions import ALL
from filmreview.commandline.exit_codes import ALL_WORDS, exit_words
from filmreview.commandline.lesson_words import FACES, RESULTS, faces_words, lesson_words, results_words
from filmreview.commandline.people_words import beside_words, call_words, calls_words, films_words
from filmreview.errors import FilmReviewError, nearest

# The rules hold the list (`rules.procedures.event`); a test keeps this one the same, so that help needs no room.
_EVENTS = (
    "blood seen", "injury", "concussion signs", "play stopped", "staff beckoned", "staff enters", "directed to leave",
    "coach told", "put right", "substitute reports", "withdrawn at table", "substitute enters", "time-out granted",
    "warning horn", "time-out ends", "returns", "free throw", "foul charged", "book number changed", "jersey removed",
    "blood wiped on another", "unreported number", "play resumes",
)  # fmt: skip
# `measure.known` and `measure.courts` hold these lists; a test keeps them the same.
_SIZES = (
    "Things of known size (--known): boys' ball, girls' ball, size 7 ball, size 6 ball, ring inside, ring height, "
    "rectangle width, rectangle height, FIBA rectangle width, FIBA rectangle height, backboard width, front number, "
    "back number, FIBA front number, FIBA back number, headband; or a size you know: 8 in, 8 +- 0.25 in, 20 cm.",
    "Court points (--point), as the camera sees them: left near corner; left lane at end line, near; left lane at free-throw "
    "line, near; division line at near side; centre circle on division line, near; the same with far and right.",
)
_TIME = "time on the film: m:ss.mmm, h:mm:ss.mmm or seconds"
_BOX = "x,y,width,height in pixels of the upright picture"
_FILM_OF_REVIEW = "which film of the review, by its id (default: the only one, or the first)"


class Parser(argparse.ArgumentParser):
    """An argument parser that answers bad words with one line. An option that may be empty says `type=str`."""

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        self.register("type", None, _not_empty)

    def error(self, message: str) -> NoReturn:
        """Raise FilmReviewError in one line instead of printing the usage and leaving."""
        where = self.prog.removeprefix("filmreview").strip() or None
        raise FilmReviewError(message, where=where, todo=f"see `{self.prog} --help`")


def check_command(given: str, known: Iterable[str]) -> None:
    """Raise FilmReviewError for a first word that is no command, naming the nearest one."""
    if given in known or given.startswith("-"):
        return
    close = nearest(given, known)
    todo = f"`filmreview {close}` is the nearest" if close else "`filmreview --help` lists them"
    raise FilmReviewError(f'there is no command "{given}"', todo=todo)


def parser() -> tuple[Parser, dict[str, Parser]]:
    """The parser of all commands, and the parser of each command by its name."""
    top = Parser(
        prog="filmreview",
        description="Review basketball game film for uniforms, equipment and apparel. Without words the desk opens.",
        epilog="\n".join(textwrap.fill(one, 100) for one in (*ALL, ALL_WORDS)),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"filmreview {__version__}")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", required=True, parser_class=Parser)
    commands.type = str  # what belongs to a command is for its own parser to read
    made: dict[str, Parser] = {}

    def add(name: str, words: str, fill: Callable[[Parser], None]) -> None:
        made[name] = commands.add_parser(name, help=words, description=words[0].upper() + words[1:] + ".")
        fill(made[name])
        _tell_exits(made[name], name)

    add("open", "open the desk on a review or a film", lambda p: _named(p, "path", "REVIEW", "the review or film"))
    add("demo", "make the made-up game and do the whole job on it, without a screen", _demo)
    add("new", "start a review: films, day, level, book, teams, crew", _new)
    add("film", "tell what a film holds and what trouble was found in it", _film)
    add("frame", "write the exact frame at a time as a picture", _frame)
    add("measure", "measure a colour, a length, a time or a number's contrast", _measure)
    add("tag", "put a tag down at a moment", _tag)
    add("crew", "put down how the crew dealt with a tag", _crew)
    add("event", "put down an event of a procedure", _event)
    add("findings", "print every tag with its ruling, penalties, choices", _findings)
    add("rule", "rule situation files, without film", _rule)
    add("books", "list, show or check the books", _books)
    add("sheet", "write the findings sheet", _sheet)
    add("replies", "read the replies of a returned workbook into the review", _replies)
    add("letter", "print or write what an official is told", _letter)
    add("call", "give your own call on a tag, then see the book's", call_words)
    add("calls", "the score of your own calls; hide rulings until you have called", calls_words)
    add("beside", "lay another observer's review of the same film beside yours", beside_words)
    add("films", "the films of one game: add, name, tie, remove, find again", films_words)
    add("lesson", "make teaching clips, questions and answers from a review", lesson_words)
    add(FACES, "list and change who is blurred in a lesson", faces_words)
    add(RESULTS, "count what participants of a lesson handed in", results_words)
    add("doctor", "tell what this machine has, lacks, and the line that installs it", _json)
    return top, made


def _named(p: Parser, name: str, metavar: str, words: str, **more: Any) -> None:
    p.add_argument(name, metavar=metavar, help=words, type=_some, **more)


def _some(text: str) -> str:
    """A name that is not empty: an empty one would mean the present folder."""
    if not text.strip():
        raise argparse.ArgumentTypeError("the name is empty")
    return text


def _not_empty(text: str) -> str:
    """Words that say something: `--at "$T"` with T unset is refused, not taken for an option left out."""
    if not text.strip():
        raise argparse.ArgumentTypeError("nothing is given with it")
    return text


def _tell_exits(p: argparse.ArgumentParser, command: str) -> None:
    before = f"{p.epilog}\n" if p.epilog else ""
    p.epilog = before + textwrap.fill(exit_words(command), 100, subsequent_indent="  ")
    p.formatter_class = argparse.RawDescriptionHelpFormatter


def _json(p: Parser) -> None:
    p.add_argument("--json", action="store_true", help="print one JSON document")


def _demo(p: Parser) -> None:
    p.add_argument("--to", metavar="DIR", default="exports", help="folder to write to (default: exports)")


def _new(p: Parser) -> None:
    _named(p, "review", "REVIEW", "the review file to make, NAME.filmreview")
    p.add_argument("--film", metavar="FILM", action="append", required=True, help="a film of the game; may be given again")
    p.add_argument("--book", required=True, help="nfhs, ncaa-men, ncaa-women, fiba, or a book of your own")
    p.add_argument("--day", required=True, metavar="YYYY-MM-DD", help="the game's day: it picks the edition in force")
    p.add_argument("--level", required=True, help="varsity, sub-varsity, middle school, college or open")
    p.add_argument("--adoption", help="what the state, league or event changed: its code, or a file")
    p.add_argument("--home", required=True, metavar="NAME=COLOUR", help="home team and the colour of its jersey")
    p.add_argument("--visitor", required=True, metavar="NAME=COLOUR", help="visiting team and the colour of its jersey")
    p.add_argument("--kit", action="append", default=[], metavar="TEAM.PART=COLOUR", help="more of a kit: home.shorts=white")
    p.add_argument("--roster", action="append", default=[], metavar="TEAM=4,5,...", help="the players' numbers of a team")
    p.add_argument("--crew", action="append", default=[], metavar="POSITION=NAME", help="an official; may be given again")
    p.add_argument("--observer", type=str, default="", metavar="NAME", help="who reviews")


def _film(p: Parser) -> None:
    _named(p, "film", "FILM", "the film")
    _json(p)


def _when(p: Parser) -> None:
    p.add_argument("--at", required=True, metavar="T", help=_TIME)


def _frame(p: Parser) -> None:
    _named(p, "film", "FILM", "the film")
    one = p.add_mutually_exclusive_group(required=True)
    one.add_argument("--at", metavar="T", help=_TIME)
    one.add_argument("--number", type=int, metavar="N", help="number of the frame, the first is 0")
    p.add_argument("--to", required=True, metavar="PNG", type=_some, help="the picture to write")
    p.add_argument("--json", action="store_true", help="print one JSON document (it always does)")


def _measure(p: Parser) -> None:
    _named(p, "film", "FILM", "the film")
    _when(p)
    what = p.add_argument_group("what to measure (one of these)")
    what.add_argument("--box", metavar="BOX", help="a colour: " + _BOX)
    what.add_argument("--ends", metavar="X,Y,X,Y", help="a length: its two ends in pixels of the upright picture")
    what.add_argument("--until", metavar="T", help="a time: from --at to here")
    what.add_argument("--number", metavar="BOX", help="a number's contrast with its jersey: a region close around the number")
    colours = p.add_argument_group("of a colour or a number")
    known = colours.add_mutually_exclusive_group()
    known.add_argument("--white", metavar="BOX", help="a region that is white in truth, near the item")
    known.add_argument("--match", metavar="BOX=COLOUR", help="a region whose true colour is known")
    colours.add_argument("--jersey", metavar="BOX", help="a part of the jersey, when the number is not surrounded by it")
    colours.add_argument("--frames", type=int, metavar="N", help="use the sharpest of N frames around T (default 1)")
    lengths = p.add_argument_group("of a length")
    _against(lengths)
    lengths.add_argument("--draws", action="store_true", help="check the +- by random draws too")
    more = p.add_argument_group("more")
    more.add_argument(
        "--limit", metavar="LIMIT", help='"at most 3", "at least 6" or "2 to 4" (in, or s with --until): is it kept?'
    )
    more.add_argument(
        "--sharpness", action="store_true", help="hold the frame's sharpness against the film's best (takes some seconds)"
    )
    _json(p)
    p.epilog = "\n".join(textwrap.fill(one, 100, subsequent_indent="  ") for one in _SIZES)
    p.formatter_class = argparse.RawDescriptionHelpFormatter


def _against(p: argparse._ActionsContainer) -> None:
    """What turns pixels into inches: the same for `measure` and `tag`."""
    p.add_argument("--known", metavar="NAME=X,Y,X,Y", help="a thing of known size at the item's depth, and its two ends")
    p.add_argument("--floor", metavar="COURT", help="for lengths on the floor: school, college or fiba")
    p.add_argument("--point", metavar="NAME=X,Y", action="append", default=[], help="a court point; four or more are needed")
    p.add_argument(
        "--depth", metavar="SHARE", help="how much nearer or farther the item may be: 0.02, 2%% or feet/feet (default 2%%)"
    )
    p.add_argument("--lean", metavar="DEGREES", help="how far the item may lean away from the camera (default 0)")
    p.add_argument("--blur", metavar="PX", help="motion blur along the length (default: from the frames around)")


def _tag(p: Parser) -> None:
    _named(p, "review", "REVIEW", "the review")
    _when(p)
    p.add_argument("--team", required=True, help="home or visitor")
    p.add_argument("--player", help="the player's number; leave out when it cannot be read")
    p.add_argument("--item", required=True, help='the thing worn, such as "arm sleeve"')
    p.add_argument("--box", metavar="BOX", help=_BOX)
    p.add_argument("--fact", action="append", default=[], metavar="KEY=VALUE", help="a fact seen, such as colour=orange")
    p.add_argument("--measure", action="store_true", help="measure the colour of the region on the film")
    p.add_argument(
        "--white", metavar="BOX",
        help="with --measure: a region that is white in truth, near the item (default: the review's own, nearest in this view)",
    )  # fmt: skip
    p.add_argument("--jersey", metavar="BOX", help="with --measure, of a number: a region of its jersey (default: around it)")
    p.add_argument(
        "--length", metavar="KEY=X,Y,X,Y", action="append", default=[],
        help="measure a length between two ends: width_in, height_in, stroke_in, border_in or side_in",
    )  # fmt: skip
    _against(p)
    p.add_argument("--note", type=str, default="", metavar="TEXT", help="a note")
    p.add_argument("--film", metavar="ID", help=_FILM_OF_REVIEW)


def _crew(p: Parser) -> None:
    _named(p, "review", "REVIEW", "the review")
    _named(p, "tag", "TAG", "the tag's id")
    p.add_argument("--mark", required=True, help="as the book asks, late, wrong consequence, not seen ...")
    p.add_argument("--at", metavar="T", help="when the crew acted: " + _TIME)
    p.add_argument("--did", type=str, default="", metavar="TEXT", help="what the crew did")
    p.add_argument("--official", type=str, metavar="POSITION", help="whose finding it is, by position; '' for the whole crew's")


def _event(p: Parser) -> None:
    _named(p, "review", "REVIEW", "the review")
    _when(p)
    p.add_argument("--what", required=True, help="the event: " + ", ".join(_EVENTS))
    p.add_argument("--team", help="home or visitor")
    p.add_argument("--player", help="the player's number")
    p.add_argument("--length", type=int, metavar="SECONDS", help="of a time-out: 60 or 30")
    p.add_argument("--before-start", metavar="M:SS", help="of a book number change: time left before the start")
    p.add_argument("--film", metavar="ID", help=_FILM_OF_REVIEW)


def _findings(p: Parser) -> None:
    _named(p, "review", "REVIEW", "the review")
    _json(p)


def _rule(p: Parser) -> None:
    _named(p, "files", "FILE|DIR", "situation files, or folders of *.situation.toml", nargs="+")
    _json(p)


def _books(p: Parser) -> None:
    kinds = p.add_subparsers(dest="what", metavar="list|show|check", required=True, parser_class=Parser)
    kinds.type = str
    listed = kinds.add_parser("list", help="the books and adoptions there are")
    _json(listed)
    _tell_exits(listed, "books list")
    shown = kinds.add_parser("show", help="the rules of a book in force on a day, in our own words")
    _named(shown, "book", "BOOK", "the book's name")
    shown.add_argument("--day", metavar="YYYY-MM-DD", help="the day (default: today)")
    shown.add_argument("--item", help="only the rules about this item")
    shown.add_argument("--level", help="level of play (default: the book's own)")
    shown.add_argument("--adoption", help="an adoption laid over the book: its code, or a file")
    shown.add_argument("--html", metavar="FILE", type=_some, help="write a page to read before the season")
    _json(shown)
    _tell_exits(shown, "books show")
    checked = kinds.add_parser("check", help="check a book or an adoption of your own")
    _named(checked, "path", "FILE|DIR", "the book's folder or the adoption file")
    _tell_exits(checked, "books check")


def _sheet(p: Parser) -> None:
    _named(p, "review", "REVIEW", "the review")
    p.add_argument("--to", required=True, metavar="FILE", help="the sheet to write; its ending says the kind")
    p.add_argument(
        "--for", dest="made_for", default="coordinator", metavar="READER",
        help="coordinator (all, the default) or crew (no notes or replies, pictures blurred but for the marked region)",
    )  # fmt: skip


def _replies(p: Parser) -> None:
    _named(p, "review", "REVIEW", "the review")
    _named(p, "sheet", "SHEET.xlsx", "the workbook that came back")
    p.add_argument("--by", metavar="POSITION", help="whose replies they are, by position in the crew")
    _json(p)


def _letter(p: Parser) -> None:
    _named(p, "review", "REVIEW", "the review")
    _named(p, "position", "POSITION", "the official, by position in the crew")
    what = p.add_mutually_exclusive_group()
    what.add_argument("--from", dest="source", metavar="FILE", help="put this text in its place; - reads standard input")
    what.add_argument("--anew", action="store_true", help="forget what was written and build it from the findings again")
