"""The page on writing a book says what the reader takes."""

import re
import tomllib
from pathlib import Path

import pytest

from filmreview.rules.adoption import read_adoption
from filmreview.rules.checks.listed import CHECKS
from filmreview.rules.library import BOOKS_FOLDER, book_named
from filmreview.rules.reading import read_rule
from filmreview.rules.reading_costs import read_cost

PAGE = (BOOKS_FOLDER / "WRITING.md").read_text(encoding="utf-8")


def block(holding: str) -> str:
    (found,) = [one for one in re.findall(r"```toml\n(.*?)```", PAGE, flags=re.DOTALL) if holding in one]
    return str(found)


def checks_listed() -> dict[str, str]:
    """Each check with the cell of its parameters."""
    rows = re.findall(r"^\| (`[a-z_`, ]+`) \| [^|]* \|([^|]*)\|$", PAGE, flags=re.MULTILINE)
    return {name: cell for names, cell in rows for name in re.findall(r"`([a-z_]+)`", names)}


def test_every_check_is_listed_and_no_other() -> None:
    assert set(checks_listed()) == set(CHECKS)


@pytest.mark.parametrize("name", sorted(CHECKS))
def test_every_parameter_of_a_check_is_named(name: str) -> None:
    assert set(CHECKS[name].parameters) <= set(re.findall(r"`([a-z_]+)`", checks_listed()[name]))


def test_the_rule_shown_is_read() -> None:
    book = book_named("nfhs")
    rule = read_rule(tomllib.loads(block('code = "headband-size"')), "page", book.sources, book.groups, book.first_day)
    assert rule.code == "headband-size"


def test_the_group_shown_is_read() -> None:
    group = tomllib.loads(block('code = "uniform"'))["group"][0]
    assert read_cost(group["edition"][0], "page", None).free_throws == 2


def test_the_adoption_shown_is_read(tmp_path: Path) -> None:
    path = tmp_path / "own-league-bands.toml"
    path.write_text(block('code = "own-league-bands"'), encoding="utf-8")
    assert len(read_adoption(path, book_named("nfhs")).changes) == 3
