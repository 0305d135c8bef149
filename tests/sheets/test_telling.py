"""From a review to the hand-over: every value in the words of the sheet."""

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from filmreview.review import store
from filmreview.review.changes import AddEvent, SetCrew
from filmreview.review.films import add_film
from filmreview.review.kept import digest_of_inputs
from filmreview.review.model import CrewResponse, KeptRuling, Review
from filmreview.review.ruled import findings
from filmreview.sheets.handover import HandOver
from filmreview.sheets.pictures import film_pictures
from filmreview.sheets.sheet_words import colour_words, fact_words, facts_words
from filmreview.sheets.telling import hand_over
from tests.review.small_game import a_film, a_game, a_tag, moment

FILM = Path(__file__).parents[2] / "fixtures" / "films" / "constant.mp4"


def fact(key: str, text: str, origin: Origin = Origin.SEEN, why: str = "") -> Fact:
    return Fact(key, parse_value(key, text), origin, why)


PLAYED = fact("in_play", "yes")


@pytest.fixture
def review(tmp_path: Path) -> Review:
    with store.create(tmp_path / "game.filmreview", a_game(day=date(2023, 12, 5)), "Ann") as opened:
        opened.apply(a_film())
        opened.apply(a_film(digest="two", path="/films/half-2.mp4"))
        opened.apply(a_tag("5", film="f2", item="undershirt", facts=(fact("colour", "white"), PLAYED)))
        opened.apply(a_tag("70", facts=(fact("colour", "orange"), PLAYED), region=Box(1, 2, 30, 40), note="left arm"))
        opened.apply(a_tag("12", player=None, facts=(fact("colour", "white"), PLAYED)))
        opened.apply(SetCrew("t2", CrewResponse("late", moment("20"), "told the coach", film="f2")))
        opened.apply(a_tag("80", player="67", item="number", facts=(fact("number", "67"), PLAYED)))
        opened.apply(AddEvent("f2", moment("3"), "blood seen", "home", "10"))
        return opened.review


@pytest.fixture
def told(review: Review) -> HandOver:
    return hand_over(findings(review))


def test_lines_stand_in_the_order_of_films_and_times(told: HandOver) -> None:
    assert [(line.number, line.tag, line.film.id, line.time) for line in told.lines] == [
        (1, "t3", "f1", "0:12.000"), (2, "t2", "f1", "1:10.000"), (3, "t4", "f1", "1:20.000"), (4, "t1", "f2", "0:05.000"),
    ]  # fmt: skip


def test_a_line_tells_whose_what_ruling_and_crew(told: HandOver) -> None:
    line = told.lines[1]
    assert (line.whose, line.item, line.ruling, line.consequence) == ("Ovvermire 14", "arm sleeve", "illegal", "fix or leave")
    assert (line.reference, line.note, line.region) == ("3-5-3", "left arm", Box(1, 2, 30, 40))
    assert (line.crew_mark, line.crew_time, line.did) == ("late", "0:20.000 of half-2.mp4", "told the coach")
    assert line.could_have_done == line.todo
    assert told.lines[0].whose == "Ovvermire, number not read"
    assert told.lines[0].crew_mark == "not marked"


def test_counts_penalties_rules_and_cautions_come_from_the_findings(told: HandOver) -> None:
    assert told.count() == 4
    assert told.count(mark="late") == 1
    assert told.count("illegal") == sum(line.ruling == "illegal" for line in told.lines)
    assert [(one.team, one.count, one.players) for one in told.charges] == [("Ovvermire", 1, ("67",))]
    assert {one.reference for one in told.cited} >= {"3-5-3", "3-4-3"}
    assert all(line.number in next(one.by for one in told.cited if one.rule == line.rule) for line in told.lines if line.rule)
    said = " ".join(told.cautions)
    assert "study aid" in said
    assert "medical staff" in said
    assert "minors" in said
    assert "No 3: the ruling rests on a text not marked as published here" in said, "the list of numbers is from memory"
    assert (told.book.startswith("High school rules"), told.edition) == (True, "2023-24")


def test_choices_of_a_team_are_told_the_least_change_first(review: Review) -> None:
    """Teammates in white, black and black: keep black and one changes, keep white and two do (NFHS 3-5-3: one colour)."""
    with store.open(review.path, "Ann") as opened:
        for player in ("20", "21"):
            opened.apply(a_tag("13", player=player, facts=(fact("colour", "black"), PLAYED)))
        told = hand_over(findings(opened.review))
    sleeves = [(one.team, one.keep, one.change, one.first) for one in told.choices if one.team == "Ovvermire"]
    assert (*sleeves[0][:2], len(sleeves[0][2]), sleeves[0][3]) == ("Ovvermire", "black", 2, True)
    assert ("Ovvermire", "white", ("14", "20", "21"), False) in sleeves


def test_a_procedure_is_told_with_what_is_missing(told: HandOver) -> None:
    assert told.procedure is not None
    assert "blood" in " ".join(told.procedure.names)
    assert "Blood on a player or the uniform" in told.procedure.followed, "the title of the book's procedure, not its name"
    assert told.procedure.missing == ("the stoppage has no end in these events (play resumes)",), "no end was noted"


@pytest.mark.parametrize(
    ("ruling", "consequence", "told"),
    [
        ("legal", "none", "legal, none"),
        ("illegal", "leave", "illegal, leave the game"),
        ("illegal", "cannot be told", "illegal, what follows cannot be told"),
        ("cannot be told", "cannot be told", "cannot be told"),
    ],
)
def test_an_earlier_ruling_is_told_beside_the_present_one(review: Review, ruling: str, consequence: str, told: str) -> None:
    old = KeptRuling("t2", "0.0.9", digest_of_inputs(review, review.tag("t2")), "2024-02-01T10:00:00+00:00", "nfhs", "2016-17",
                     ruling, consequence, "sleeve-colour", "3-5-3")  # fmt: skip
    found = findings(review)
    sheet = hand_over(findings(replace(review, ruled=(old,))))
    assert sheet.lines[1].earlier == f"filmreview 0.0.9 on 2024-02-01: {told} (3-5-3)"
    assert "No 2: an earlier version of the program ruled otherwise" in " ".join(sheet.cautions)
    assert hand_over(found).lines[1].earlier == ""


def test_facts_are_told_with_their_origin_and_uncertainty() -> None:
    covariance = ((4.0, 0.0, 0.0), (0.0, 9.0, 0.0), (0.0, 0.0, 16.0))
    navy = Colour((23.0, 19.0, -43.0), "navy", covariance, (("navy", 0.62), ("royal blue", 0.36), ("black", 0.02)))
    assert colour_words(navy) == "navy 62% or royal blue 36% [L* 23 \u00b1 2.0, a* 19 \u00b1 3.0, b* -43 \u00b1 4.0]"
    grey = Colour((60.0, -0.3, -0.4), "grey", covariance, (("grey", 1.0),))
    assert colour_words(grey) == "grey 100% [L* 60 \u00b1 2.0, a* 0 \u00b1 3.0, b* 0 \u00b1 4.0]"
    measured = Fact("colour", (navy,), Origin.MEASURED, "285 px, with reference")
    assert fact_words(measured) == "colour: navy (measured: 285 px, with reference)"
    width = Fact("width_in", Amount(2.5, 0.31), Origin.MEASURED)
    assert fact_words(width) == "width: 2.5 \u00b1 0.31 in (measured)"
    one, more, about = Amount(1.0), Amount(2.0), Amount(1.0, 0.5)
    assert [fact_words(Fact("logos", many)) for many in (one, more, about)] == [
        "logos seen: 1 piece (seen)", "logos seen: 2 pieces (seen)", "logos seen: 1 \u00b1 0.5 pieces (seen)",
    ]  # fmt: skip
    assert facts_words((fact("when", "playing"), fact("solid", "no"), PLAYED)) == (
        "one solid colour: no (seen)",
        "found: playing; has become a player wearing it: yes",
    )


def test_pictures_are_the_exact_frames_of_the_films(tmp_path: Path) -> None:
    path = tmp_path / "game.filmreview"
    with open_film(FILM) as film, store.create(path, a_game(), "Ann") as opened:
        opened.apply(add_film(film, path))
        later = film.moment_at(Fraction(1))
        opened.apply(a_tag(moment=later, region=Box(0, 0, 20, 20)))
        with film_pictures(opened.review) as pictures:
            told = hand_over(findings(opened.review), pictures)
            assert (pictures(told.films[0], later) == film.frame_at(later).picture()).all()
            assert told.picture(told.lines[0]).height > 0
        gone = replace(opened.review, films=(replace(opened.review.films[0], path="/no/such.mp4", beside=""),))
    with film_pictures(gone) as pictures, pytest.raises(FilmReviewError, match="the film is not there any more"):
        pictures(gone.films[0], later)
