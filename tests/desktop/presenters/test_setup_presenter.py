"""The set-up form without a screen."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from filmreview.colour.palette import measured
from filmreview.desktop.setup_presenter import (
    SetupForm,
    TeamForm,
    form_of,
    game_of,
    problems_of,
    read_day,
    read_roster,
    season_words,
)
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact, Origin
from filmreview.review.model import CrewMember


def form() -> SetupForm:
    return SetupForm(
        "2025-01-14",
        "varsity",
        "nfhs",
        "",
        "R. Valdrune",
        TeamForm("Thrunnockby", {"jersey": "white", "trim": "navy, gold"}, "3, 10, 14"),
        TeamForm("Ovvermire", {"jersey": "green"}, "0 00\n22"),
        (("referee", "J. Mosswell"), ("umpire 1", ""), ("umpire 2", "T. Reddlecombe")),
    )


def test_a_full_form_makes_the_game() -> None:
    game = game_of(form())
    assert (game.day, game.level, game.book, game.adoption) == (date(2025, 1, 14), "varsity", "nfhs", None)
    assert game.home.roster == ("3", "10", "14")
    assert game.visitor.roster == ("0", "00", "22")
    assert [colour.name for colour in game.home.facts["trim"].value] == ["navy", "gold"]
    assert game.home.facts["jersey"].origin is Origin.DECLARED
    assert game.crew == (CrewMember("referee", "J. Mosswell"), CrewMember("umpire 2", "T. Reddlecombe"))


def test_the_form_of_a_game_makes_the_same_game() -> None:
    game = game_of(form())
    assert game_of(form_of(game)) == game


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("3, 10, 14", ("3", "10", "14")),
        ("0 00 5", ("0", "00", "5")),
        ("14\tSambrel Doonix\tsenior\n3  Kimra Pollwyn  11th\n", ("14", "3")),
        ("#14 Sambrel Doonix 6 ft 2\n#3 Kimra Pollwyn", ("14", "3")),
        ("", ()),
        ("\n\n", ()),
    ],
)
def test_a_roster_typed_or_pasted(text: str, numbers: tuple[str, ...]) -> None:
    assert read_roster(text) == numbers


@pytest.mark.parametrize(("text", "says"), [("Sambrel Doonix", "no number"), ("3, 3", "twice"), ("123", "not a player number")])
def test_a_roster_that_cannot_be_read_says_why(text: str, says: str) -> None:
    with pytest.raises(FilmReviewError, match=says):
        read_roster(text)


def test_no_name_of_a_player_is_kept() -> None:
    pasted = replace(form(), visitor=TeamForm("Ovvermire", {"jersey": "green"}, "14 Sambrel Doonix\n22 Kimra Pollwyn"))
    assert "Sambrel" not in repr(game_of(pasted))


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"home": TeamForm("", {"jersey": "white"})}, "home.name"),
        ({"visitor": TeamForm("Ovvermire")}, "visitor.jersey"),
        ({"visitor": TeamForm("Ovvermire", {"jersey": "grean"})}, "visitor.jersey"),
        ({"visitor": TeamForm("Ovvermire", {"jersey": "green"}, "14, 14")}, "visitor.roster"),
        ({"book": "another"}, "book"),
        ({"day": "2025-02-30"}, "day"),
        ({"level": "masters"}, "level"),
    ],
)
def test_each_problem_names_its_field(changed: dict[str, object], field: str) -> None:
    problems = problems_of(replace(form(), **changed))
    assert [problem.field for problem in problems] == [field]
    with pytest.raises(FilmReviewError):
        game_of(replace(form(), **changed))


def test_a_wrong_colour_names_its_team_and_suggests_the_nearest() -> None:
    wrong = replace(form(), visitor=TeamForm("Ovvermire", {"jersey": "grean"}))
    words = problems_of(wrong)[0].words
    assert words.startswith("visitor jersey")
    assert '"green"' in words


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "missing"),
        ("2025", "not a day"),
        ("14.01.2025", "not a day"),
        ("20250114", "not a day"),
        ("2025-W03-2", "not a day"),
        ("2025-02-29", "no day"),
        ("2025-13-01", "no day"),
    ],
)
def test_a_day_that_cannot_be_read_says_why_and_shows_no_season(text: str, says: str) -> None:
    with pytest.raises(FilmReviewError, match=says):
        read_day(text)
    assert season_words(text) == ""


def test_a_season_begins_with_july() -> None:
    assert [season_words(day) for day in ("2024-06-30", "2024-07-01")] == ["season 2023-24", "season 2024-25"]


def test_a_picked_colour_counts_until_another_one_is_typed() -> None:
    colour = measured((45.0, -40.0, 25.0), np.diag([4.0, 4.0, 4.0]))
    fact = Fact("jersey", (colour,), Origin.MEASURED, "3 regions")
    picked = replace(form(), visitor=TeamForm("Ovvermire", {"jersey": colour.name}, "0", {"jersey": fact}))
    assert game_of(picked).visitor.facts["jersey"] == fact
    again = form_of(game_of(picked))
    assert game_of(again) == game_of(picked)
    again.visitor.kit["jersey"] = "red"
    overruled = game_of(again).visitor.facts["jersey"]
    assert (overruled.origin, [one.name for one in overruled.value]) == (Origin.DECLARED, ["red"])
    again.visitor.kit["jersey"] = ""
    assert [problem.field for problem in problems_of(again)] == ["visitor.jersey"]
