"""`filmreview beside`: another observer's file of the same film, shown and taken."""

import shutil
import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from filmreview.review import store
from filmreview.review.changes import EditGame
from filmreview.review.crew_changes import SetOfficial
from filmreview.review.model import CrewMember
from filmreview.review.reading import read, read_history
from tests.commandline.conftest import FILMS, Say


@pytest.fixture
def mine(say: Say, review: Path) -> Path:
    for at, item, colour in (("1", "arm sleeve", "orange"), ("2", "headband", "black")):
        made = say(
            "tag", review, "--at", at, "--team", "visitor", "--player", "14", "--item", item, "--fact", f"colour={colour}"
        )
        assert made.code == 0
    assert say("crew", review, "t1", "--mark", "late").code == 0
    return review


@pytest.fixture
def theirs(say: Say, tmp_path: Path) -> Path:
    """The same film from another folder, by another observer."""
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    film = Path(shutil.copy(FILMS / "variable.mp4", folder / "copy.mp4"))
    path = folder / "theirs.filmreview"
    made = say(
        "new", path, "--film", film, "--book", "nfhs", "--day", "2024-01-09", "--level", "sub-varsity",
        "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green", "--observer", "O. Vanterell",
    )  # fmt: skip
    assert made.code == 0, made.told
    for at, item, colour in (("1.2", "arm sleeve", "black"), ("2", "headband", "black"), ("0", "wristband", "red")):
        assert say("tag", path, "--at", at, "--team", "visitor", "--player", "14", "--item", item,
                   "--fact", f"colour={colour}").code == 0  # fmt: skip
    return path


def test_differences_are_shown_and_the_other_file_is_only_read(say: Say, mine: Path, theirs: Path) -> None:
    before = theirs.read_bytes()
    told = say("beside", mine, theirs)
    assert told.code == 0
    assert told.told == "level: varsity here, sub-varsity in theirs\n"
    assert told.out.splitlines() == [
        "beside O. Vanterell: 2 seen by both, 1 of them with differences; 1 only theirs; 0 only mine",
        "  t1 / t1 at 0:00.984: ruling, facts, crew mark",
        "      mine: visitor 14, arm sleeve; illegal, fix or leave; crew late",
        "      theirs: visitor 14, arm sleeve; legal",
        "      colour: orange here, black in theirs",
        "  - / t3 at 0:00.000: only theirs",
        "      theirs: visitor 14, wristband; illegal, fix or leave",
    ]
    assert "t2 / t2 at 0:01.98" in say("beside", mine, theirs, "--all").out
    assert theirs.read_bytes() == before
    assert sorted(path.name for path in theirs.parent.iterdir()) == ["copy.mp4", "theirs.filmreview"]


def test_as_json(say: Say, mine: Path, theirs: Path) -> None:
    data = say("beside", mine, theirs, "--json").data
    assert (data["other"], data["films"]) == ("O. Vanterell", {"f1": "f1"})
    assert [(one["mine"], one["theirs"], one["differs"]) for one in data["pairs"]] == [
        ("t1", "t1", ["ruling", "facts", "crew mark"]), (None, "t3", ["only theirs"])
    ]  # fmt: skip
    assert data["pairs"][0]["facts"] == [{"key": "colour", "mine": "orange", "theirs": "black"}]


def test_taking_theirs_is_one_step(say: Say, mine: Path, theirs: Path) -> None:
    steps = len(read_history(mine))
    made = say("beside", mine, theirs, "--take", "missing")
    assert made.out == "taken from O. Vanterell: t3\n"
    assert say("beside", mine, theirs, "--take", "t1", "--json").data == {"from": "O. Vanterell", "taken": ["t1"]}
    assert [step.words for step in read_history(mine)][steps:] == ["take 1 tag from O. Vanterell"] * 2
    assert say("beside", mine, theirs).out.splitlines()[0].startswith("beside O. Vanterell: 3 seen by both, 0 of them")
    assert [tag.item for tag in read(mine).tags] == ["arm sleeve", "headband", "wristband"]


def test_how_near_is_near(say: Say, mine: Path, theirs: Path) -> None:
    told = say("beside", mine, theirs, "--within", "0.1").out
    assert told.startswith("beside O. Vanterell: 1 seen by both, 0 of them with differences; 2 only theirs; 1 only mine")


def test_what_cannot_be_laid_beside_is_one_line(say: Say, mine: Path, theirs: Path, tmp_path: Path) -> None:
    assert "this is the review itself" in say("beside", mine, mine).line
    assert "there is no such review" in say("beside", mine, tmp_path / "none.filmreview").line
    other = tmp_path / "other.filmreview"
    for film, day, words in (
        ("constant.mp4", "2024-01-09", "it is of other films than this review"),
        ("variable.mp4", "2024-01-10", "its game was on 2024-01-10, this one on 2024-01-09"),
    ):
        made = say(
            "new", other, "--film", FILMS / film, "--book", "nfhs", "--day", day, "--level", "varsity",
            "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green",
        )  # fmt: skip
        assert made.code == 0
        assert words in say("beside", mine, other).line
        other.unlink()
    refused = say("beside", mine, theirs, "--take", "t8").line
    assert 'unknown tag of theirs "t8"' in refused
    assert "nothing of theirs was chosen" in say("beside", mine, theirs, "--take", "").line


def test_a_newer_form_is_refused(say: Say, mine: Path, theirs: Path) -> None:
    with sqlite3.connect(theirs) as connection:
        connection.execute("PRAGMA user_version = 99")
    assert "the review has form 99" in say("beside", mine, theirs).line


def test_whose_finding_it_is_comes_along_and_only_tags_are_named(say: Say, mine: Path, theirs: Path) -> None:
    for path in (mine, theirs):
        with store.open(path, "A") as opened:
            opened.apply(EditGame(replace(opened.review.game, crew=(CrewMember("umpire 1", "U. Thornvex"),))))
    with store.open(theirs, "A") as opened:
        opened.apply(SetOfficial("t3", "umpire 1"))
    made = say("beside", mine, theirs, "--take", "missing")
    assert made.out == "taken from O. Vanterell: t3\n"
    taken = read(mine).official_of("t3")
    assert taken is not None
    assert taken.position == "umpire 1"


def test_what_would_give_a_hidden_ruling_away_is_hidden_too(say: Say, mine: Path, theirs: Path) -> None:
    assert say("crew", theirs, "t1", "--mark", "nothing to do").code == 0
    assert say("crew", theirs, "t3", "--mark", "wrong consequence", "--did", "sent off").code == 0
    assert say("calls", mine, "--hide").code == 0
    out = say("beside", mine, theirs).out
    assert "hidden until your own call" in out
    assert "nothing to do" not in out
    assert "wrong consequence" not in out
    assert say("calls", mine, "--show").code == 0
    assert "crew nothing to do" in say("beside", mine, theirs).out
