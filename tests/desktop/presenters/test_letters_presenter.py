"""Letters to the crew and their replies, without a screen."""

from dataclasses import replace

import pytest

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.letters_presenter import LettersPresenter, build
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.review.changes import EditGame, SetCrew
from filmreview.review.crew_changes import SetOfficial, SetReply
from filmreview.review.model import LONGEST_WORDS, CrewMember, CrewResponse
from filmreview.review.ruled import findings
from filmreview.sheets.telling import hand_over
from tests.desktop.presenters.test_own_call_presenter import keep

CREW = (CrewMember("referee", "J. Mosswell"), CrewMember("umpire 1", "U. Thornvex"))


@pytest.fixture
def letters(desk: Desk, film: Film) -> LettersPresenter:
    """Two officials; the referee missed an orange sleeve."""
    assert desk.review is not None
    desk.try_change(EditGame(replace(desk.review.game, crew=CREW)))
    keep(desk, film.moment_at(1), "v14 arm sleeve orange")
    desk.try_change(SetCrew("t1", CrewResponse("not seen")))
    desk.try_change(SetOfficial("t1", "referee"))
    made = LettersPresenter(desk)
    made.take(build(desk.review))
    return made


def test_they_begin_as_the_sheet_builds_them(letters: LettersPresenter) -> None:
    first, second = letters.entries()
    assert (first.title, first.written) == ("referee: J. Mosswell", False)
    assert "arm sleeve, illegal" in first.words
    assert second.words == "To U. Thornvex, umpire 1. No finding of this game is yours alone."


def test_a_letter_written_is_on_the_sheet_and_can_be_left_to_it_again(desk: Desk, letters: LettersPresenter) -> None:
    assert letters.keep("referee", "  Look at sleeves before the jump.\n")
    assert desk.review is not None
    assert desk.last_message == "letter to referee: kept"
    assert letters.entries()[0].title == "referee: J. Mosswell (written by you)"
    assert hand_over(findings(desk.review)).letters[0].words == "Look at sleeves before the jump."
    assert letters.anew("referee")
    assert desk.last_message == "letter to referee: built by the sheet"
    assert not letters.entries()[0].written
    assert desk.store is not None
    desk.store.undo()
    assert letters.entries()[0].words == "Look at sleeves before the jump."


def test_the_words_of_the_sheet_itself_are_no_letter(desk: Desk, letters: LettersPresenter) -> None:
    letters.keep("referee", letters.built("referee") + " ")
    assert desk.review is not None
    assert desk.review.letters == ()
    letters.keep("referee", "other words")
    letters.keep("referee", letters.built("referee"))
    assert desk.review.letters == ()


def test_too_long_a_letter_is_refused(desk: Desk, letters: LettersPresenter) -> None:
    assert not letters.keep("referee", "x" * (LONGEST_WORDS + 1))
    assert "too many" in desk.last_message
    assert letters.count_words("x" * (LONGEST_WORDS - 5)) == "5 characters left"
    assert letters.count_words("x" * (LONGEST_WORDS + 3)) == "3 characters too many"
    assert letters.count_words("short") == ""


def test_replies_stand_with_their_findings(desk: Desk, letters: LettersPresenter) -> None:
    assert letters.replies() == ()
    desk.try_change(SetReply("t1", "referee", "seen otherwise", "it looked black"))
    desk.try_change(SetReply("t1", "", "", "who was nearest?"))
    assert [(row.tag, row.who, row.item, row.by, row.answer, row.words) for row in letters.replies()] == [
        ("t1", "Ovvermire 14", "arm sleeve", "referee", "seen otherwise", "it looked black"),
        ("t1", "Ovvermire 14", "arm sleeve", "crew", "in words", "who was nearest?"),
    ]


def test_no_letter_while_rulings_are_hidden(desk: Desk, letters: LettersPresenter) -> None:
    assert letters.entries()
    assert desk.review is not None
    desk.try_change(EditGame(replace(desk.review.game, rulings_hidden=True)))
    with pytest.raises(FilmReviewError, match="rulings are hidden until your own call on t1"):
        build(desk.review)
