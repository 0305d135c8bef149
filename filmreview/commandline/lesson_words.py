"""The words of `filmreview lesson`, `lesson faces` and `lesson results`; no room is imported, as in `words`."""

from __future__ import annotations

import argparse

_YES_NO = ("yes", "no")
_FACES = (
    'for the faces on all that is shown: "blurred" (the blurs listed in the review were looked at and are right), "consent'
    ' held" or "nobody on it"; kept in the review'
)
FACES, RESULTS = "lesson faces", "lesson results"
"""Commands of two words: who is blurred, what participants handed in."""


def joined(words: list[str]) -> list[str]:
    """The words with a command of two words put together, so that the parser knows it."""
    two = " ".join(words[:2])
    return [two, *words[2:]] if two in (FACES, RESULTS) else words


def lesson_words(p: argparse.ArgumentParser) -> None:
    """What `filmreview lesson` takes."""
    p.add_argument("review", metavar="REVIEW", help="the review; its findings are the questions")
    p.add_argument("--to", metavar="DIR", help="folder to write to, made when missing")
    p.add_argument("--faces", metavar="ANSWER", help=_FACES)
    _asked(p)
    p.add_argument("--title", type=str, default="", metavar="TEXT", help="the title; no names of schools or players")
    p.add_argument("--end", type=str, default="", metavar="TEXT", help="the words of the end card (default: the cautions)")
    _shown(p)
    p.add_argument("--versions", metavar="V,V", help="question, answer, or both (default: question,answer)")
    p.add_argument("--as", dest="layout", metavar="HOW", help='"one film" with chapters (default) or "single files"')
    p.add_argument("--page", choices=_YES_NO, help="the page that plays, asks and answers (default yes)")
    p.add_argument("--list", action="store_true", help="only list the lessons that the review keeps")
    p.add_argument("--json", action="store_true", help="print one JSON document")


def _asked(p: argparse.ArgumentParser) -> None:
    """Which questions are asked."""
    p.add_argument("--tags", metavar="T1,T2,...", help="only these findings, in this order (default: all)")
    p.add_argument("--no-findings", action="store_true", help="ask situations only")
    p.add_argument("--situation", action="append", default=[], metavar="FILE", help="a situation without film; may be repeated")
    p.add_argument("--again", metavar="ID", help="a lesson that the review keeps, made again")


def _shown(p: argparse.ArgumentParser) -> None:
    """How a question is shown; what is left out is as it was, or as usual."""
    p.add_argument("--lead-in", metavar="SECONDS", help="film before the moment (default 4)")
    p.add_argument("--slow", metavar="SECONDS", help="the last of the lead-in at half speed (default 0)")
    p.add_argument("--hold", metavar="SECONDS", help="the question on the held frame (default 6)")
    p.add_argument("--answer", metavar="SECONDS", help="the ruling on the held frame (default 8)")
    p.add_argument("--after", metavar="SECONDS", help="film played on after the hold (default 1)")
    p.add_argument("--card", metavar="SECONDS", help="each title and end card, at least; 0 for none (default 4)")
    p.add_argument("--mark", metavar="HOW", help='"dim" all else (default), "outline" the item, or "no mark"')
    p.add_argument("--inset", choices=_YES_NO, help="the item enlarged in a corner (default yes)")
    p.add_argument("--mute", choices=_YES_NO, help="leave the sound out (default no)")
    p.add_argument("--height", type=int, metavar="LINES", help="lines of the films: 360, 480, 540, 720 (default) or 1080")


def faces_words(p: argparse.ArgumentParser) -> None:
    """What `filmreview lesson faces` takes: the same questions and times as the lesson, as they say what is shown."""
    p.add_argument("review", metavar="REVIEW", help="the review")
    _asked(p)
    _shown(p)
    p.add_argument(
        "--blur", action="append", default=[], metavar="[ID@]T=BOX",
        help="a face in this box (x,y,width,height) at this time, followed to both ends; with an id: put that blur right",
    )  # fmt: skip
    p.add_argument("--remove", action="append", default=[], metavar="ID", help="take a blur off the list")
    p.add_argument("--propose", action="store_true", help="let the face finder (extra `faces`) propose where none is listed")
    p.add_argument("--json", action="store_true", help="print one JSON document")
    p.set_defaults(title="", end="", versions=None, layout=None, page=None)


def results_words(p: argparse.ArgumentParser) -> None:
    """What `filmreview lesson results` takes."""
    p.add_argument("files", metavar="FILE|DIR", nargs="+", help="the files that the page saved, or folders of them")
    p.add_argument("--key", metavar="FILE|DIR", help="lesson.json, or the folder of the lesson (default: beside the results)")
    p.add_argument("--to", metavar="FILE", help="also write a table: .xlsx or .csv")
    p.add_argument("--json", action="store_true", help="print one JSON document")
