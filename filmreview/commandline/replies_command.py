"""`filmreview replies` and `filmreview letter`: what the crew answers to a sheet, and what it is told."""

from __future__ import annotations

import argparse
import shlex
import sys
from pathlib import Path

from filmreview.cautions import SAFETY, STUDY_AID, is_safety
from filmreview.commandline.answers import counted, print_json, print_lines, tell
from filmreview.commandline.review_commands import opened_review
from filmreview.errors import FilmReviewError
from filmreview.review.changes import Together
from filmreview.review.crew_changes import SetLetter, check_position
from filmreview.review.reading import read
from filmreview.review.ruled import findings
from filmreview.sheets.returned import read_returned
from filmreview.sheets.telling import hand_over


def replies(given: argparse.Namespace) -> int:
    """Read the replies of a returned workbook into the review, all as one step of its history.

    Prints the replies; what is not as it was sent is said on standard error (with --json in the document), and then the exit
    code is 1.
    """
    path = Path(given.sheet)
    with opened_review(given.review) as opened:
        if given.by:
            check_position(opened.review, given.by)
        returned = read_returned(path, opened.review, given.by or "")
        words = f"read {counted(len(returned.replies), 'reply', 'replies')} from {path.name}"
        touched = opened.apply(Together(returned.replies, words)) if returned.replies else ()
    if given.json:
        replied = [{"tag": one.tag, "by": one.by, "answer": one.answer, "words": one.words} for one in returned.replies]
        print_json({"replies": replied, "new_or_changed": len(touched), "told": list(returned.told)})
    else:
        print_lines(*(f"{one.tag}: {' - '.join(filter(None, (one.answer, one.words)))}" for one in returned.replies))
        print_lines(f"{counted(len(returned.replies), 'reply', 'replies')}, {len(touched)} of them new or changed")
        for line in returned.told:
            tell(line)
    return 1 if returned.told else 0


def letter(given: argparse.Namespace) -> int:
    """Print what an official is told, with the cautions that go with it; with --from or --anew change it first."""
    if given.source is not None or given.anew:
        text = "" if given.anew else _text(given.source)
        with opened_review(given.review) as opened:
            opened.apply(SetLetter(given.position, text))
    review = read(given.review)
    check_position(review, given.position)
    words = next(one.words for one in hand_over(findings(review)).letters if one.position == given.position)
    theirs = [tag for tag in review.tags if (tied := review.official_of(tag.id)) and tied.position == given.position]
    told = dict.fromkeys((STUDY_AID, *(SAFETY for tag in theirs if is_safety(tag.item, tag.facts))))
    print_lines(words, *(caution for caution in told if caution not in words))
    if not theirs:
        position = given.position
        tell(f"no finding of {position} yet: filmreview crew REVIEW TAG --mark MARK --official {shlex.quote(position)}")
    return 0


def _text(source: str) -> str:
    """The text of a file, or of standard input."""
    try:
        text = sys.stdin.read() if source == "-" else Path(source).read_text(encoding="utf-8")
    except FileNotFoundError:
        raise FilmReviewError("there is no such file", where=source, todo="check the path") from None
    except IsADirectoryError:
        raise FilmReviewError("this is a folder, not a text", where=source, todo="give the file") from None
    except UnicodeDecodeError as error:
        raise FilmReviewError("this is no text in UTF-8", where=source, todo="save it as UTF-8") from error
    if not text.strip():
        raise FilmReviewError("the text is empty", where=source, todo="write something, or use --anew")
    return text.strip()
