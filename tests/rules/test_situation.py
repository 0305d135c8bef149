"""Situation files: read, ruled, put out as JSON, compared."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from filmreview.facts.fact import Amount
from filmreview.rules.situation import compare, read_situation, rule_situation, to_json

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
trim = ["white", "gold"]
[[seen]]
id = "a"
team = "visitor"
player = "14"
item = "arm sleeve"
colour = "orange"
in_play = true
when = "playing"
"""


def written(folder: Path, text: str) -> Path:
    path = folder / "made.situation.toml"
    path.write_text(text, encoding="utf-8")
    return path


def document(folder: Path, text: str) -> dict:  # type: ignore[type-arg] # plain JSON
    situation = read_situation(written(folder, text))
    made = to_json(situation, rule_situation(situation))
    return json.loads(json.dumps(made))


def differences(folder: Path, text: str) -> list[str]:
    situation = read_situation(written(folder, text))
    return compare(situation, rule_situation(situation))


def test_the_example_of_the_design(tmp_path: Path) -> None:
    made = document(tmp_path, ORANGE)
    assert (made["title"], made["book"], made["edition"]) == ("Orange arm sleeve with a green jersey", "nfhs", "2023-24")
    assert (made["day"], made["adoption"], made["procedure"]) == ("2023-12-05", None, None)
    (ruling,) = made["rulings"]
    expected = {
        "id": "a", "team": "visitor", "player": "14", "item": "arm sleeve", "ruling": "illegal",
        "consequence": "fix or leave", "rule": "sleeve-colour", "reference": "3-5-3", "mark": "published",
    }  # fmt: skip
    assert {key: ruling[key] for key in expected} == expected
    assert ruling["source"]
    assert ruling["reasons"]
    assert ruling["needs"] == ruling["ahead"] == []
    assert {"rule": "sleeve-colour", "holds": False}.items() <= next(
        one for one in ruling["rules"] if one["rule"] == "sleeve-colour"
    ).items()
    assert made["penalties"] == made["choices"] == []


def test_the_keys_of_the_document(tmp_path: Path) -> None:
    made = document(
        tmp_path,
        ORANGE.replace('"orange"', '"black"')
        + '[[seen]]\nteam = "visitor"\nplayer = "22"\nitem = "headband"\ncolour = "white"\n'
        + '[[seen]]\nteam = "home"\nplayer = "7"\nitem = "number"\nin_play = true\n'
        + '[[seen]]\nteam = "home"\nplayer = "12"\nitem = "number"\ncolour = "white"\nborder_colours = "black"\n',
    )
    penalty = {"team": "home", "kind": "technical foul", "count": 1, "charged_to": "head coach", "free_throws": 2}
    assert penalty.items() <= made["penalties"][0].items()
    choice = next(one for one in made["choices"] if one["rule"] == "sleeve-colour")
    assert choice == {
        "team": "visitor",
        "rule": "sleeve-colour",
        "options": [{"keep": "black", "change": ["22"]}, {"keep": "white", "change": ["14"]}],
    }
    outlined = made["rulings"][3]
    assert outlined["ahead"][0].items() >= {"rule": "number-style", "from": "2024-07-01", "ruling": "illegal"}.items()
    assert {"fact", "why"} <= outlined["needs"][0].keys()
    assert [one["id"] for one in made["rulings"]] == ["a", "2", "3", "4"]


@pytest.mark.parametrize(
    ("expect", "said"),
    [
        ('about = "a"\nruling = "illegal"\nconsequence = "fix or leave"', None),
        ('about = "a"\nruling = "legal"', '"a" ruling: expected legal, got illegal'),
        ('about = "a"\nconsequence = "technical foul"', '"a" consequence: expected technical foul, got fix or leave'),
        ('team = "visitor"\nkind = "technical foul"\ncount = 0', None),
        ('team = "visitor"\nkind = "technical foul"\ncount = 1', "visitor penalties: expected 1, got 0"),
        ('team = "home"\nkind = "technical foul"', "home penalties: expected technical foul, got none"),
        ('procedure = "blood"\ndepartures = 0', "procedure: expected blood, got no procedure"),
    ],
)
def test_an_expectation_is_compared(expect: str, said: str | None, tmp_path: Path) -> None:
    lines = differences(tmp_path, f"{ORANGE}[[expect]]\n{expect}\n")
    assert lines == [] if said is None else said in lines[0]


def test_a_substitute_withdrawn_at_the_table_has_not_become_a_player(tmp_path: Path) -> None:
    kit = '[[seen]]\nid = "n"\nteam = "home"\nplayer = "7"\nitem = "number"\n'
    gone = '[[event]]\nat = "3:10"\nwhat = "withdrawn at table"\nteam = "home"\nplayer = "7"\n'
    assert document(tmp_path, ORANGE + kit)["rulings"][1]["consequence"] == "cannot be told"
    assert document(tmp_path, ORANGE + kit + gone)["rulings"][1]["consequence"] == "none"
    other = gone.replace('player = "7"', 'player = "8"')
    assert document(tmp_path, ORANGE + kit + other)["rulings"][1]["consequence"] == "cannot be told"


@pytest.mark.parametrize(
    ("item", "facts", "deed"),
    [("number", 'number = "7"', "charge one technical foul"), ("arm sleeve", 'colour = "orange"', "put right at once")],
)
def test_who_enters_in_what_was_seen_at_the_table_is_dealt_with_as_playing(
    item: str, facts: str, deed: str, tmp_path: Path
) -> None:
    seen = f'[[seen]]\nid = "n"\nteam = "visitor"\nplayer = "7"\nitem = "{item}"\n{facts}\nwhen = "at table"\n'
    event = '[[event]]\nat = "3:30"\nwhat = "{}"\nteam = "visitor"\nplayer = "7"\n'
    enters = event.format("substitute enters")

    def todo(*events: str) -> dict[str, str]:
        return {one["found"]: one["what"] for one in document(tmp_path, ORANGE + seen + "".join(events))["rulings"][1]["todo"]}

    assert set(todo()) == {"at table"}
    assert set(todo(enters)) == {"live", "dead"}
    assert all(deed in what for what in todo(enters).values())
    assert set(todo(event.format("withdrawn at table"))) == {"at table"}
    assert set(todo(enters.replace('player = "7"', 'player = "8"'))) == {"at table"}
    assert set(todo(event.format("put right"), enters)) == {"at table"}


def test_a_number_changed_in_the_book_is_the_teams_foul(tmp_path: Path) -> None:
    changed = '[[event]]\nat = "0:10"\nwhat = "book number changed"\nteam = "home"\nplayer = "00"\nbefore_start = "8:00"\n'
    lines = '[[expect]]\nteam = "home"\nkind = "technical foul"\ncount = 1\ncharged_to = "team"\ncoaching_box = "kept"\n'
    assert differences(tmp_path, ORANGE + changed + lines) == []
    assert differences(tmp_path, ORANGE + changed + lines.replace("technical foul", "team technical foul")) == []
    free = ORANGE + changed.replace('"8:00"', '"14:00"') + '[[expect]]\nteam = "home"\nkind = "technical foul"\ncount = 0\n'
    assert differences(tmp_path, free) == []


def test_every_fact_of_the_format_is_read(tmp_path: Path) -> None:
    text = ORANGE + (
        "solid = true\nwidth_in = { value = 2.5, plus_minus = 0.2 }\nheight_in = 3\nlogos = 1\nmedical = false\n"
        'worn = "forearm"\nlogo_kind = "maker"\nlogo_at = "other"\nabove_number = "school name"\nlettering = "horizontal"\n'
    )
    (tag,) = read_situation(written(tmp_path, text)).setting.tags
    assert tag.facts["width_in"].value == Amount(2.5, 0.2)
    assert tag.facts["medical"].value is False
    assert tag.facts["above_number"].value == "school name"


def test_a_title_may_be_left_out(tmp_path: Path) -> None:
    assert document(tmp_path, ORANGE.replace('title = "Orange arm sleeve with a green jersey"\n', ""))["title"] == "made"


def test_a_path_names_an_adoption_beside_the_file(tmp_path: Path) -> None:
    (tmp_path / "ours.toml").write_text(
        'code = "ours"\ntitle = "Our league"\nbook = "nfhs"\nsource = "our letter"\nmark = "published"\nchecked = 2026-11-25\n'
        'from = 2014-07-01\n[[change]]\nrule = "sleeve-colour"\ncheck = "one_of_colours"\n'
        'set = { team = ["jersey", "trim"] }\n[limits]\nsame = 12\n',
        encoding="utf-8",
    )
    text = ORANGE.replace('level = "varsity"', 'adoption = "ours.toml"').replace('"orange"', '"gold"')
    made = document(tmp_path, text)
    assert (made["adoption"], made["rulings"][0]["adoption"]) == ("ours", "ours")
    assert made["rulings"][0]["ruling"] == "legal"
    assert "dE00 under 12" in made["rulings"][0]["reasons"][0]
    assert document(tmp_path, text.replace('adoption = "ours.toml"', ""))["rulings"][0]["ruling"] == "illegal"
    early = text.replace("2023-12-05", "2014-06-30")
    assert document(tmp_path, early)["adoption"] is None


@pytest.mark.parametrize("key", ["colour", "border_colours"])
def test_codes_and_lists_of_colours_are_read(key: str, tmp_path: Path) -> None:
    text = ORANGE.replace('colour = "orange"', f'{key} = ["#ff8800", "white"]')
    (tag,) = read_situation(written(tmp_path, text)).setting.tags
    assert [colour.name for colour in tag.facts[key].value] == ["#ff8800", "white"]  # type: ignore[union-attr]


def test_a_number_on_two_things_seen_is_worn_twice(tmp_path: Path) -> None:
    kit = '[[seen]]\nteam = "home"\nplayer = "12"\nitem = "number"\nnumber = "12"\nin_play = true\n'
    lines = '[[expect]]\nteam = "home"\nkind = "technical foul"\ncharged_to = "team"\ncount = '
    assert differences(tmp_path, ORANGE + kit + lines + "0") == []
    assert differences(tmp_path, ORANGE + kit + kit + lines + "1") == []
    assert differences(tmp_path, ORANGE + kit + kit.replace("in_play", 'side = "back"\nin_play') + lines + "0") == []
