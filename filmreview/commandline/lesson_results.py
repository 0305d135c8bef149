"""`filmreview lesson results`: what participants handed in, counted against the ruling, the hardest question first."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from pathlib import Path

from filmreview.commandline.answers import print_json, print_lines, tell
from filmreview.commandline.named_files import named_files
from filmreview.errors import FilmReviewError
from filmreview.lessons.lesson_key import NAME, LessonKey, read_key
from filmreview.lessons.results import Counted, Room, count_room, room_to_json
from filmreview.lessons.results_reading import read_results
from filmreview.lessons.results_table import check_table_ending, write_table
from filmreview.sheets import sheet_words as words
from filmreview.sheets.inert import one_line
from filmreview.sheets.share import share_words

_CHECK = 1


def lesson_results(given: argparse.Namespace) -> int:
    """Count the results. A file that is none of this lesson is told in one line and the others are still counted.

    Returns 0 when every file was taken, 1 when one was not; raises FilmReviewError when none could be.
    """
    table = Path(given.to) if given.to else None
    if table is not None:
        check_table_ending(table)
    paths = named_files(given.files, ".json")
    key = _key(given.key, paths)
    results, told = read_results((path for path in paths if path.name != NAME), key)
    for line in told:
        tell(f"filmreview: {one_line(line)}")
    if not results:
        raise FilmReviewError("no result of this lesson was read", where=key.title, todo="give the files that the page saved")
    room = count_room(results, key)
    if table is not None:
        write_table(room, table)
    if given.json:
        print_json({**room_to_json(room), "not_taken": list(told)})
    else:
        print_lines(*room_lines(room))
    return _CHECK if told else 0


def room_lines(room: Room) -> list[str]:
    """The room for a terminal."""
    people = len(room.people)
    lines = [f"{one_line(room.title)}: {people} participant{'' if people == 1 else 's'}, the hardest question first"]
    for one in room.questions:
        lines += _question_lines(one)
    return lines


def _question_lines(one: Counted) -> list[str]:
    question = one.question
    follows = "" if question.consequence == "none" else f", {words.CONSEQUENCES[question.consequence]}"
    rule = f" ({one_line(question.reference)})" if question.reference else ""
    head = f"  {question.number}. {one_line(question.asked)}: {question.ruling.upper()}{follows}{rule}"
    if not one.answered:
        return [head, "      nobody answered"]
    rulings = ", ".join(f"{ruling} {many}" for ruling, many in one.rulings.items())
    consequences = ", ".join(f"{words.CONSEQUENCES[what]} {many}" for what, many in one.consequences.items())
    return [
        head,
        f"      as the book says: {one.as_book.count} of {one.answered} ({share_words(one.as_book)}); split {one.split:.2f}",
        f"      called: {rulings}",
        f"      consequence: {consequences}",
    ]


def _key(given: str | None, paths: Iterable[Path]) -> LessonKey:
    """The key given, else the one that lies among or beside the results, or in the folder above."""
    if given:
        return read_key(Path(given))
    for path in paths:
        for place in (path.parent, path.parent.parent):
            if (place / NAME).is_file():
                return read_key(place / NAME)
    todo = f"give its {NAME}, or the folder it was written to, with --key"
    raise FilmReviewError("which lesson these are of is not known", where="lesson results", todo=todo)
