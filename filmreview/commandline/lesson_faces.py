"""`filmreview lesson faces`: what a lesson shows of the films, who is blurred there, and what was answered for the faces."""

from __future__ import annotations

import argparse
from fractions import Fraction
from typing import Any

from filmreview.commandline.answers import bar, print_json, print_lines, tell
from filmreview.commandline.lesson_command import plan_for
from filmreview.commandline.review_commands import opened_review
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, parse_box
from filmreview.film.film import Film, open_film
from filmreview.film.moment import parse_time
from filmreview.lessons.face_proposal import propose_faces
from filmreview.lessons.lesson import lesson_of
from filmreview.lessons.lesson_blurs import LOST, followed_face, list_change, put_right
from filmreview.lessons.lesson_faces import OPEN, Stretch, stretches
from filmreview.lessons.plan import LessonPlan
from filmreview.review.changes import Together
from filmreview.review.films import found_film
from filmreview.review.lesson_changes import EditBlur, RemoveBlur
from filmreview.review.model import Blur, BlurAt
from filmreview.review.ruled import findings
from filmreview.review.store import Store


def lesson_faces(given: argparse.Namespace) -> int:
    """List the stretches and their blurs, after the changes asked for: faces put on the list, put right, proposed, removed."""
    with opened_review(given.review) as opened:
        plan = plan_for(given, findings(opened.review))
        for blur in given.remove:
            _remove(opened, _stretches(opened, plan), blur)
        for words in given.blur:
            _blur(opened, _stretches(opened, plan), words)
        if given.propose:
            _propose(opened, _stretches(opened, plan))
        found = _stretches(opened, plan)
    if given.json:
        print_json([_to_json(one) for one in found])
    else:
        for one in found:
            print_lines(
                f"{one.film.name}, {one.words}: {one.choice or 'not answered'}", *(_line(one, blur) for blur in one.blurs)
            )
    return 0


def _stretches(opened: Store, plan: LessonPlan) -> tuple[Stretch, ...]:
    return stretches(lesson_of(plan, findings(opened.review)))


def _blur(opened: Store, found: tuple[Stretch, ...], words: str) -> None:
    """ "T=BOX" puts a face on the list, "ID@T=BOX" puts one right."""
    head, _, box_words = words.partition("=")
    blur_id, _, time = head.rpartition("@")
    box, seconds = parse_box(box_words, "--blur"), parse_time(time, "--blur")
    stretch = _stretch_at(found, seconds, time)
    blur = opened.review.blur(blur_id) if blur_id else None
    with _opened(opened, stretch) as film:
        at = BlurAt(film.moment_at(seconds), box)
        _check_box(film, box)
        if blur is None:
            face = followed_face(film, stretch, at, bar())
            change = list_change(opened.review, stretch, face.add, "face put on the list")
            lost = face.lost
        else:
            edit = EditBlur(put_right(film, stretch, blur, at, bar()))
            change = list_change(opened.review, stretch, edit, "blur put right", blur)
            lost = False
    opened.apply(change)
    if lost:
        tell(f"{stretch.film.name}, {time}: {LOST}")


def _remove(opened: Store, found: tuple[Stretch, ...], blur_id: str) -> None:
    blur = opened.review.blur(blur_id)
    stretch = next((one for one in found if blur in one.blurs), None)
    change = RemoveBlur(blur.id)
    opened.apply(list_change(opened.review, stretch, change, f"take {blur.id} off the list", blur) if stretch else change)


def _propose(opened: Store, found: tuple[Stretch, ...]) -> None:
    """Every stretch without blurs gets what the face finder proposes; a person looks at it before anything is written."""
    for stretch in found:
        if not stretch.blurs:
            with _opened(opened, stretch) as film:
                proposed = propose_faces(film, stretch.span, stretch.film.id, bar())
            if proposed:
                words = f"{len(proposed)} faces proposed"
                opened.apply(list_change(opened.review, stretch, Together(proposed, words), words))
            tell(f"{stretch.film.name}, {stretch.words}: {len(proposed)} faces found; look at every frame, add what was missed")


def _opened(opened: Store, stretch: Stretch) -> Film:
    return open_film(found_film(opened.review, stretch.film.id), kept_bytes=1)


def _stretch_at(found: tuple[Stretch, ...], seconds: Fraction, words: str) -> Stretch:
    for one in found:
        if one.film.seconds_of(one.span.start) <= seconds < one.film.seconds_of(one.span.end):
            return one
    todo = "give a time in one of: " + ", ".join(one.words for one in found) if found else "choose findings on film"
    raise FilmReviewError(f"the lesson shows nothing at {words}", where="--blur", todo=todo)


def _check_box(film: Film, box: Box) -> None:
    box.check_inside(film.info.width, film.info.height)


def _line(stretch: Stretch, blur: Blur) -> str:
    times = f"{stretch.film.time_text(blur.start)} to {stretch.film.time_text(blur.end)}"
    return f"  {blur.id}: {times}, {blur.regions[0].box} at its start, {blur.origin}"


def _to_json(one: Stretch) -> dict[str, Any]:
    film = one.film
    return {
        "film": film.id, "start": film.time_text(one.span.start), "end": film.time_text(one.span.end),
        "questions": list(one.questions), "answer": None if one.choice == OPEN else one.choice,
        "blurs": [
            {"id": blur.id, "start": film.time_text(blur.start), "end": film.time_text(blur.end), "origin": blur.origin,
             "boxes": [{"at": film.time_text(at.moment), "box": str(at.box)} for at in blur.regions]}
            for blur in one.blurs
        ],
    }  # fmt: skip
