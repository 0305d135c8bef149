"""What the README shows is what happens: its two lines, its situation, its adoption, its commands."""

import re
import shlex
from pathlib import Path

import pytest

from filmreview.commandline.lesson_words import joined
from filmreview.commandline.words import parser
from tests.commandline.conftest import Say

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", README, flags=re.DOTALL)


def shown_commands() -> list[str]:
    text = "\n".join(blocks("sh")).replace("\\\n", " ")
    return [line for line in text.splitlines() if line.startswith("filmreview ")]


def test_set_up_is_two_lines_each_in_a_block_of_its_own() -> None:
    alone = [block for block in blocks("sh") if block.count("\n") == 1]
    assert len(alone) == 2
    assert all("pip install" in block for block in alone)
    assert "filmreview demo" in alone[0]
    assert "pytest" in alone[1]


@pytest.mark.parametrize("line", shown_commands())
def test_every_command_shown_is_one_the_program_takes(line: str) -> None:
    words = joined(shlex.split(line, comments=True)[1:])
    top, _ = parser()
    assert top.parse_args(words).command == words[0]


def test_the_situation_shown_holds(say: Say, tmp_path: Path) -> None:
    (shown,) = [block for block in blocks("toml") if "[[seen]]" in block]
    path = tmp_path / "shown.situation.toml"
    path.write_text(shown, encoding="utf-8")
    answer = say("rule", path)
    assert answer.code == 0, answer.told
    assert "ILLEGAL, fix or leave" in answer.out


def test_the_adoption_shown_is_read_and_checked(say: Say, tmp_path: Path) -> None:
    (shown,) = [block for block in blocks("toml") if "[[change]]" in block]
    path = tmp_path / "own-league-bands.toml"
    path.write_text(shown, encoding="utf-8")
    answer = say("books", "check", path)
    assert answer.code == 0, answer.told
    assert "Own league" in answer.out


def test_pictures_shown_are_there() -> None:
    shown = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert len(shown) == 2
    for name in shown:
        assert (Path(__file__).parents[2] / name).is_file(), name
