"""filmreview rule: situation files, their JSON form, expectations and exit codes."""

import json
from pathlib import Path

import pytest

from tests.commandline.conftest import Say

ORANGE = """
title = "Orange arm sleeve with a green jersey"
[game]
book = "nfhs"
day = 2023-12-05
level = "varsity"
[home]
jersey = "white"
[visitor]
jersey = "green"
[[seen]]
id = "a"
team = "visitor"
player = "14"
item = "arm sleeve"
colour = "orange"
in_play = true
when = "playing"
[[expect]]
about = "a"
ruling = "RULING"
consequence = "fix or leave"
"""


@pytest.fixture
def orange(tmp_path: Path) -> Path:
    """NFHS 2014-15 changes: sleeves white, black, beige or of the jersey's colour (see the book's sources)."""
    path = tmp_path / "orange.situation.toml"
    path.write_text(ORANGE.replace("RULING", "illegal"), encoding="utf-8")
    return path


@pytest.fixture
def wrong(tmp_path: Path) -> Path:
    path = tmp_path / "wrong.situation.toml"
    path.write_text(ORANGE.replace("RULING", "legal"), encoding="utf-8")
    return path


def test_the_json_form_has_the_keys_promised(say: Say, orange: Path) -> None:
    answer = say("rule", orange, "--json")
    assert answer.code == 0
    data = answer.data
    assert (data["title"], data["book"], data["edition"], data["day"], data["adoption"]) == (
        "Orange arm sleeve with a green jersey", "nfhs", "2023-24", "2023-12-05", None,
    )  # fmt: skip
    (ruling,) = data["rulings"]
    assert {key: ruling[key] for key in ("id", "team", "player", "item", "ruling", "consequence", "reference", "mark")} == {
        "id": "a", "team": "visitor", "player": "14", "item": "arm sleeve", "ruling": "illegal",
        "consequence": "fix or leave", "reference": "3-5-3", "mark": "published",
    }  # fmt: skip
    assert {"rule", "source", "reasons", "needs", "ahead", "rules"} <= set(ruling)
    assert {"penalties", "choices", "procedure"} <= set(data)


def test_words_carry_ruling_consequence_and_reference(say: Say, orange: Path) -> None:
    assert "a: visitor 14 arm sleeve: ILLEGAL, fix or leave (3-5-3, published)" in say("rule", orange).out


def test_an_expectation_that_does_not_hold_exits_1_and_says_what_differs(say: Say, wrong: Path) -> None:
    answer = say("rule", wrong)
    assert answer.code == 1
    assert f"{wrong.parent}: {wrong.name}, expect 1" in answer.told
    assert "legal" in answer.told


def test_a_folder_means_every_situation_in_it(say: Say, orange: Path, wrong: Path) -> None:
    assert wrong.parent == orange.parent
    (orange.parent / "notes.toml").write_text("not = 'a situation'", encoding="utf-8")
    answer = say("rule", orange.parent, "--json")
    assert answer.code == 1
    assert len(json.loads(answer.out)) == 2


def test_a_bad_file_among_good_ones_is_one_line_and_the_others_are_ruled(say: Say, orange: Path, tmp_path: Path) -> None:
    bad = tmp_path / "bad.situation.toml"
    bad.write_text(ORANGE.replace('item = "arm sleeve"', 'item = "arm sleve"'), encoding="utf-8")
    answer = say("rule", orange, bad)
    assert answer.code == 2
    assert "ILLEGAL" in answer.out
    assert answer.told.count("\n") == 1
    assert "bad.situation.toml" in answer.told
    assert 'write "arm sleeve" if that is what you mean' in answer.told


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("day = 2023-12-05", 'day = "2023-12-05"', "stands in quotation marks"),
        ('book = "nfhs"', 'book = "nfsh"', 'write "nfhs"'),
        ('player = "14"', 'player = "140"', "is not a player number"),
        ('colour = "orange"', 'colour = "ornage"', 'the nearest is "orange"'),
        ('colour = "orange"', 'color = "orange"', 'write "colour"'),
        ("[[seen]]", "[[seen]", "bad.situation.toml"),
    ],
)
def test_refusals(say: Say, tmp_path: Path, old: str, new: str, told: str) -> None:
    bad = tmp_path / "bad.situation.toml"
    bad.write_text(ORANGE.replace(old, new, 1), encoding="utf-8")
    answer = say("rule", bad)
    assert answer.code == 2
    assert told in answer.line


def test_what_is_no_file(say: Say, tmp_path: Path) -> None:
    assert "no file here ends in .situation.toml" in say("rule", tmp_path).line
    assert "missing.situation.toml" in say("rule", tmp_path / "missing.situation.toml").line
    binary = tmp_path / "film.situation.toml"
    binary.write_bytes(bytes(range(256)))
    assert str(binary.name) in say("rule", binary).line


def test_the_cautions_stand_under_the_rulings(say: Say, orange: Path, tmp_path: Path) -> None:
    assert "study aid" in say("rule", orange).out
    assert "medical staff" not in say("rule", orange).out
    bloody = tmp_path / "bloody.situation.toml"
    text = ORANGE.partition("[[expect]]")[0].replace('colour = "orange"', 'blood = "some"').replace("arm sleeve", "blood")
    bloody.write_text(text, encoding="utf-8")
    assert "medical staff" in say("rule", bloody).out


def test_what_held_is_counted(say: Say, orange: Path, wrong: Path) -> None:
    assert "  1 of 1 expectation held" in say("rule", orange).out
    assert "  0 of 1 expectation held" in say("rule", wrong).out
    assert say("rule", orange, "--json").data["expected"] == {"held": 1, "of": 1}
    two = orange.read_text(encoding="utf-8") + '[[expect]]\nabout = "a"\nruling = "legal"\n'
    orange.write_text(two, encoding="utf-8")
    assert "  1 of 2 expectations held" in say("rule", orange).out
    orange.write_text(two.partition("[[expect]]")[0], encoding="utf-8")
    assert "held" not in say("rule", orange).out


def test_what_the_book_asks_is_told_beside_what_it_costs(say: Say, tmp_path: Path) -> None:
    """A number seen at the table on a substitute costs nothing yet (NFHS 10-6-4 as the book here has it, case of its own)."""
    path = tmp_path / "number.situation.toml"
    text = ORANGE.partition("[[expect]]")[0].replace('item = "arm sleeve"\ncolour = "orange"', 'item = "number"\nnumber = "27"')
    path.write_text(text.replace('true\nwhen = "playing"', 'false\nwhen = "at table"'), encoding="utf-8")
    lines = [line.strip() for line in say("rule", path).out.splitlines()]
    (costs,) = [line for line in lines if line.startswith("consequence by illegal uniform")]
    assert "(10-6-4): none until the wearer has become a player in it; then one technical foul a team" in costs
    (asked,) = [line for line in lines if line.startswith("the book asks: ")]
    assert asked.startswith("the book asks: at the table: tell the coach before beckoning")
    path.write_text(text, encoding="utf-8")
    playing = say("rule", path).out
    assert "none until" not in playing
    assert "the book asks: while the ball is " in playing
    assert "at the table" not in playing
