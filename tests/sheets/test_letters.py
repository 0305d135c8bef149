"""The letter for each official: built from the findings alone, or as the observer wrote it."""

import re
from dataclasses import replace

from filmreview.review.ruled import NOTHING_TO_DO
from filmreview.sheets.letters import letters, official_words
from tests.sheets.small_sheet import GAME, LINE, OTHERS

CREW = GAME.crew
LINES = (
    replace(LINE, official="umpire U. Thornvex", did="Played on in it."),
    replace(OTHERS[0], official="umpire U. Thornvex"),
    OTHERS[1],
    replace(OTHERS[2], official="umpire U. Thornvex"),
)


def test_a_letter_says_what_was_done_what_to_talk_about_and_the_rest() -> None:
    referee, umpire = letters(CREW, LINES, {})
    assert umpire.words == (
        "To U. Thornvex, umpire. 3 of the 4 findings of this game are yours.\nDone as the book asks:\n- No 4 at"
        " 0:12.500, Ovvermire 67, number (charged one technical foul to the head coach).\nTo talk about:\n- No 1 at 0:12.500,"
        " Ovvermire 14, arm sleeve, illegal (3-5-3): not seen (Played on in it). The book asks, while"
        " the ball is dead: tell the coach; the player puts it right or leaves.\nNothing follows for you from:\n- No 2 at"
        " 1:01.000, Thrunnockby 00, headband: legal, nothing to do."
    )
    assert referee.words == "To R. Quillander, referee. No finding of this game is yours alone."
    assert referee.built
    assert umpire.built


def test_nothing_is_invented() -> None:
    """Every word is of the frame of the letter, or stands in the findings or the set-up."""
    frame = (
        "To of the findings of this game are is yours alone Done as the book asks To talk about The book asks,"
        " Nothing follows for you from No at"
    )
    for letter in letters(CREW, LINES, {}):
        if any(line.official == official_words(CREW, letter.position) for line in LINES):
            given = " ".join(map(repr, (*LINES, *CREW, len(LINES), 3))) + frame
            assert not [word for word in re.findall(r"[\w.-]+", letter.words) if word.rstrip(".") not in given]


def test_what_the_observer_wrote_stands_instead() -> None:
    _, umpire = letters(CREW, LINES, {"umpire": "Well seen, and late."})
    assert (umpire.words, umpire.built) == ("Well seen, and late.", False)


def test_an_official_who_is_no_longer_in_the_crew_is_named_by_position() -> None:
    assert official_words(CREW, "umpire") == "umpire U. Thornvex"
    assert official_words(CREW, "umpire 2") == "umpire 2"


def test_where_the_facts_leave_several_cases_a_letter_says_what_it_hangs_on() -> None:
    cases = "before the game: tell the head coach; while the ball is dead: it is put right at once"
    line = replace(LINE, official="umpire U. Thornvex", todo=cases, could_have_done=cases, hangs_on="when it was found")
    _, umpire = letters(CREW, (line, *OTHERS), {})
    assert umpire.words.endswith(
        "not seen. What you could have done hangs on when it was found: that was not put down, the sheet gives each case."
    )
    assert "tell the head coach" not in umpire.words


def test_findings_are_counted_as_one_says_it() -> None:
    mine = replace(LINE, official="umpire U. Thornvex")
    counted = {
        1: "The one finding of this game is yours.",
        2: "All 2 findings of this game are yours.",
    }
    for many, words in counted.items():
        _, umpire = letters(CREW, (mine,) * many, {})
        assert umpire.words.startswith(f"To U. Thornvex, umpire. {words}\nTo talk about:\n- No 1 at ")
    _, umpire = letters(CREW, (mine, OTHERS[0]), {})
    assert "1 of the 2 findings of this game is yours." in umpire.words


def test_what_the_book_allows_left_nothing_to_do() -> None:
    line = replace(
        LINE, official="umpire U. Thornvex", ruling="legal", crew_mark="wrong consequence", todo="",
        could_have_done=NOTHING_TO_DO,
    )  # fmt: skip
    _, umpire = letters(CREW, (line, *OTHERS), {})
    assert ". Nothing was to be done: the book allows it." in umpire.words
