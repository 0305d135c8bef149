"""A lesson made by hand, of our own invention: no book and no film is needed to ask it."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from filmreview.film.moment import Moment
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.plan import AskTag, LessonPlan, Settings
from filmreview.lessons.question import Answer, OnFilm, Question
from filmreview.review.model import Review
from tests.review.small_game import a_game

FILMS = Path(__file__).parents[2] / "fixtures" / "films"
PLAYED = FILMS / "constant.mp4"
PLACE = OnFilm("f1", Moment(15360, Fraction(1, 15360)), None, "0:01.000")
SLEEVE = Question(
    "t1", "Visitor 14", "arm sleeve", "Visitor 14, arm sleeve: what is your call, and what follows?",
    ("ball: dead",), "Varsity game of 14 January 2025, a book of our own, 2024-25. Visitor: jersey green.",
    Answer("illegal", "fix or leave", ("orange is none of the colours allowed",), "while the ball is dead: it is put right",
           "3-5-3", "2019-20", source="a book of our own", sure="as published"),
    "A ruling here is a study aid.", PLACE,
)  # fmt: skip
HEADBAND = replace(
    SLEEVE, id="t2", who="Home 00", item="headband", asked="Home 00, headband: what is your call, and what follows?", told=(),
    answer=Answer("legal", "none", ("taken as ordinary, nothing was seen: width",), "", "3-5-4", "2016-17",
                  ahead=("illegal from 1 July 2026 (3-5-4: two inches at most)",)),
)  # fmt: skip
SHIRT = replace(
    SLEEVE, id="s-1234abcd-shirt", who="Visitor, number not read", item="undershirt",
    asked="Visitor, number not read, undershirt: what is your call, and what follows?", place=None,
    told=("colour: white", "also seen: Home 4, undershirt (colour: black)"),
    answer=Answer("cannot be told", "none", ("the colour cannot be told",), "", "3-5-6", "2023-24",
                  asks=("colour: white, then legal; black, then illegal",), case="An undershirt by poor light"),
)  # fmt: skip
NUMBER = replace(
    SLEEVE, id="t3", who="Visitor 67", item="number", asked="Visitor 67, number: what is your call, and what follows?",
    answer=Answer("illegal", "technical foul", ("67 is not on the list",), "charge one technical foul", "3-4-3", "2007-08"),
)  # fmt: skip
QUESTIONS = (SLEEVE, HEADBAND, SHIRT, NUMBER)


def a_lesson(*questions: Question, title: str = "What the players wear: four questions") -> Lesson:
    asked = questions or QUESTIONS
    plan = LessonPlan(title, tuple(AskTag(one.id) for one in asked), Settings())
    return Lesson(plan, asked, Review(Path("game.filmreview"), a_game()), "filmreview")


def hostile(words: str) -> Lesson:
    """The same lesson with these words wherever words of a person or a file can come in."""
    answer = replace(
        SLEEVE.answer, reasons=(words,), todo=words, reference=words, source=words, sure=words, ahead=(words,), asks=(words,),
        case=words,
    )  # fmt: skip
    one = replace(SLEEVE, who=words, asked=words, told=(words,), setting=words, answer=answer, caution=words)
    return a_lesson(one, replace(one, id="t2"), title=words)
