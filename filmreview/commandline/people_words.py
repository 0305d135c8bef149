"""The words of `filmreview call`, `calls`, `beside` and `films`; no room is imported, as in `words`."""

from __future__ import annotations

import argparse


def call_words(p: argparse.ArgumentParser) -> None:
    """What `filmreview call` takes."""
    p.add_argument("review", metavar="REVIEW", help="the review")
    p.add_argument("tag", metavar="TAG", help="the tag's id")
    what = p.add_mutually_exclusive_group(required=True)
    what.add_argument("--ruling", metavar="RULING", help="your call: legal, illegal or cannot be told")
    what.add_argument("--take-back", action="store_true", help="no call on this tag any more")
    p.add_argument(
        "--consequence",
        type=str,
        default="",
        metavar="WORD",
        help="none, fix or leave, leave, technical foul or cannot be told",
    )
    p.add_argument("--words", type=str, default="", metavar="TEXT", help="why, in words")


def calls_words(p: argparse.ArgumentParser) -> None:
    """What `filmreview calls` takes."""
    p.add_argument("review", metavar="REVIEW", help="the review")
    what = p.add_mutually_exclusive_group()
    what.add_argument("--hide", action="store_true", help="hide rulings until your own call on each tag")
    what.add_argument("--show", action="store_true", help="show all rulings again")
    p.add_argument("--json", action="store_true", help="print one JSON document")


def beside_words(p: argparse.ArgumentParser) -> None:
    """What `filmreview beside` takes."""
    p.add_argument("review", metavar="REVIEW", help="your review")
    p.add_argument("other", metavar="OTHER", help="another observer's file of the same film; it is only read")
    p.add_argument("--within", metavar="SECONDS", help="how far apart two tags of one thing may lie (default 10)")
    p.add_argument(
        "--take",
        type=str,
        metavar="TAGS",
        help='take these tags of theirs, by their ids ("t3,t5"); "missing": all that only they have',
    )
    p.add_argument("--all", action="store_true", help="list also what both say alike")
    p.add_argument("--json", action="store_true", help="print one JSON document")


def films_words(p: argparse.ArgumentParser) -> None:
    """What `filmreview films` takes."""
    p.add_argument("review", metavar="REVIEW", help="the review")
    what = p.add_mutually_exclusive_group()
    what.add_argument("--add", type=str, metavar="FILM", help="one more film of the same game; name it with --what")
    what.add_argument("--name", type=str, metavar="ID", help="say what a film shows, with --what")
    what.add_argument(
        "--remove", type=str, metavar="ID", help="take out a film that has no tags, events, stoppages, whites or blurs"
    )
    what.add_argument("--tie", type=str, metavar="ID@T=ID@T", help="an instant that two films share: f1@1:23.4=f2@0:10")
    what.add_argument("--untie", type=str, metavar="ID=ID", help="take the shared instant of two films away")
    what.add_argument(
        "--find",
        type=str,
        metavar="FOLDER",
        help="look here and below for the films that are not where they were, by size and digest",
    )
    what.add_argument("--at", type=str, metavar="ID@T", help="tell where this instant lies on the other films")
    p.add_argument("--what", type=str, metavar="TEXT", help='what the film shows: "first half", "second angle" ...')
    p.add_argument("--json", action="store_true", help="print one JSON document")
