"""The wear board: who wears what, who is odd, what a team has to choose."""

from datetime import date

import pytest

from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.review.changes import EditGame
from filmreview.review.ruled import findings
from filmreview.review.store import Store
from filmreview.review.wear import WearBoard, wear_boards
from tests.review.small_game import a_game, a_tag


def fact(key: str, text: str) -> Fact:
    return Fact(key, parse_value(key, text), Origin.SEEN)


def boards(kept: Store) -> tuple[WearBoard, WearBoard]:
    home, visitor = wear_boards(findings(kept.review))
    return home, visitor


def worn(kept: Store, player: str | None, item: str, colour: str = "", seconds: str = "12.5", team: str = "visitor") -> None:
    kept.apply(a_tag(seconds, team=team, player=player, item=item, facts=(fact("colour", colour),) if colour else ()))


@pytest.fixture(autouse=True)
def in_2023(kept: Store) -> None:
    kept.apply(EditGame(a_game(day=date(2023, 12, 5))))


def test_a_line_for_every_player_by_number_and_a_column_for_every_item_tagged(kept: Store) -> None:
    worn(kept, "22", "headband", "black")
    worn(kept, None, "tights", "black")
    worn(kept, "5", "arm sleeve", "black")
    home, visitor = boards(kept)
    assert (home.name, visitor.name) == ("Thrunnockby", "Ovvermire")
    assert visitor.players == ("5", "22", "")
    assert visitor.items == ("arm sleeve", "tights", "headband")
    assert [cell.item for cell in visitor.worn_by("22")] == ["headband"]
    assert home.players == ("0", "00", "10")  # nothing tagged: the roster
    assert home.items == ()


def test_what_was_set_up_stands_by_item(kept: Store) -> None:
    home, _visitor = boards(kept)
    assert {item: [colour.name for colour in colours] for item, colours in home.declared.items()} == {
        "jersey": ["white"],
        "number": ["navy"],
    }


def test_a_cell_shows_its_worst_finding_first(kept: Store) -> None:
    """A wristband is worn below the elbow (NFHS 3-5-3a as in the books here)."""
    for seconds, place in (("3", "wrist"), ("20", "above elbow"), ("1", "wrist")):
        kept.apply(a_tag(seconds, player="5", item="wristband", facts=(fact("worn", place), fact("colour", "black"))))
    cell = boards(kept)[1].cells["5", "wristband"]
    assert [one.tag.id for one in cell.findings] == ["t2", "t3", "t1"]
    assert cell.worst.ruling.ruling == "illegal"


def test_headbands_wristbands_and_sleeves_of_two_colours_leave_a_choice(kept: Store) -> None:
    """The headband and wristband, and the sleeves and tights, of a team are of one colour: NFHS rule 3-5, as in the books here
    (3-5-3, 3-5-4). The one who wears otherwise than two mates stands out, and so does the one who would have to change."""
    worn(kept, "14", "headband", "black")
    worn(kept, "22", "headband", "black")
    worn(kept, "5", "wristband", "white")
    visitor = boards(kept)[1]
    (choice,) = visitor.choices
    assert [(one.keep, one.change) for one in choice.options] == [("black", ("5",)), ("white", ("14", "22"))]
    assert choice.words.endswith("keep black, 5 changes; or keep white, 14 and 22 change")
    assert {place: cell.odd for place, cell in visitor.cells.items() if cell.odd} == {
        ("5", "wristband"): "would change where black is kept"
    }


def test_one_unlike_most_of_the_team_is_odd_and_of_two_nobody_is(kept: Store) -> None:
    for player, colour in (("4", "black"), ("5", "white")):
        worn(kept, player, "eyewear", colour)
    assert not any(cell.odd for cell in boards(kept)[1].cells.values())
    worn(kept, "6", "eyewear", "black")
    worn(kept, "7", "eyewear")
    odd = {cell.player: cell.odd for cell in boards(kept)[1].cells.values() if cell.odd}
    assert odd == {"5": "2 of 3 wear black"}


def test_teams_are_apart(kept: Store) -> None:
    worn(kept, "10", "headband", "white", team="home")
    worn(kept, "14", "headband", "black")
    home, visitor = boards(kept)
    assert (home.choices, visitor.choices) == ((), ())
    assert set(home.cells) == {("10", "headband")}
    assert set(visitor.cells) == {("14", "headband")}


def test_a_player_without_a_number_is_told_in_the_choices(kept: Store) -> None:
    worn(kept, None, "headband", "white")
    worn(kept, "14", "headband", "black")
    worn(kept, "22", "headband", "black")
    (choice,) = boards(kept)[1].choices
    assert "a player whose number was not read changes" in choice.words


def test_sleeves_count_beside_headbands_where_the_book_looks_across_both(kept: Store) -> None:
    """From 2015-16 on sleeves are of one colour with the team's headbands and wristbands (NFHS 3-5-3, 3-5-4, comments on the
    rules 2015-16, as in the books here): a sleeve that no choice keeps stands out too."""
    worn(kept, "3", "headband", "white")
    worn(kept, "44", "headband", "white")
    worn(kept, "10", "arm sleeve", "black")
    odd = {place: cell.odd for place, cell in boards(kept)[1].cells.items() if cell.odd}
    assert odd == {("10", "arm sleeve"): "would change where white is kept"}
