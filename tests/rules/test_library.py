"""A user's own books and adoptions are found in the configuration folder, before what ships."""

from datetime import date
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.rules.library import adoption_named, adoption_names, adoptions_found, book_named, book_names, own_folder
from filmreview.rules.situation import read_situation, rule_situation

OWN = """
code = "own-league-bands"
title = "Own league: bands may have the colour of the trim"
book = "nfhs"
source = "made up for this test"
mark = "published"
checked = 2025-09-03
from = 2023-09-01
[[change]]
rule = "band-colour"
check = "one_of_colours"
set = { team = ["jersey", "trim"] }
"""
SITUATION = """
title = "gold headband of a green team trimmed with gold"
[game]
book = "nfhs"
day = 2024-01-09
ADOPTION
[visitor]
jersey = "green"
trim = ["gold"]
[[seen]]
team = "visitor"
player = "14"
item = "headband"
colour = "gold"
"""


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    folder = tmp_path / "filmreview" / "books"
    folder.mkdir(parents=True)
    assert own_folder() == folder
    return folder


def ruled(folder: Path, adoption: str) -> tuple[str, str | None]:
    path = folder / "case.situation.toml"
    path.write_text(SITUATION.replace("ADOPTION", adoption), encoding="utf-8")
    (ruling,) = rule_situation(read_situation(path)).rulings.rulings
    return ruling.ruling, ruling.adoption


def test_an_adoption_of_ones_own_decides_and_is_named(own: Path, tmp_path: Path) -> None:
    (own / "own-league-bands.toml").write_text(OWN, encoding="utf-8")
    assert ruled(tmp_path, "") == ("illegal", None)
    assert ruled(tmp_path, 'adoption = "own-league-bands"') == ("legal", "own-league-bands")


def test_own_ones_are_listed_beside_those_that_ship(own: Path) -> None:
    (own / "own-league-bands.toml").write_text(OWN, encoding="utf-8")
    assert "own-league-bands" in adoption_names()
    assert "ohio-school-colour-bands" in adoption_names()
    assert {one.code for one in adoptions_found()} == set(adoption_names())
    assert adoption_named("own-league-bands", book_named("nfhs")).starts == date(2023, 9, 1)


@pytest.mark.usefixtures("own")
def test_what_is_nowhere_is_refused_with_the_nearest() -> None:
    assert set(book_names()) == {"nfhs", "ncaa-men", "ncaa-women", "fiba"}
    with pytest.raises(FilmReviewError, match='unknown adoption "ohio-school-color-bands"; write "ohio-school-colour-bands"'):
        adoption_named("ohio-school-color-bands", book_named("nfhs"))


def test_an_adoption_is_named_by_its_code_whatever_its_file_is_called(own: Path, tmp_path: Path) -> None:
    (own / "letter of september.toml").write_text(OWN, encoding="utf-8")
    assert "own-league-bands" in adoption_names()
    assert ruled(tmp_path, 'adoption = "own-league-bands"') == ("legal", "own-league-bands")
    assert adoption_named("letter of september", book_named("nfhs")).code == "own-league-bands", "by the file's name, too"
    assert [one.code for one in adoptions_found()].count("own-league-bands") == 1
    with pytest.raises(FilmReviewError, match='unknown adoption "own-league-band"; write "own-league-bands"'):
        adoption_named("own-league-band", book_named("nfhs"))


def test_a_code_goes_before_the_name_of_another_file(own: Path) -> None:
    (own / "a.toml").write_text(OWN, encoding="utf-8")
    (own / "own-league-bands.toml").write_text(OWN.replace("own-league-bands", "other-league"), encoding="utf-8")
    assert adoption_named("own-league-bands", book_named("nfhs")).code == "own-league-bands"
    assert adoption_named("other-league", book_named("nfhs")).code == "other-league"


def test_two_files_of_one_code_are_refused_with_both_paths(own: Path) -> None:
    for name in ("a", "own-league-bands"):
        (own / f"{name}.toml").write_text(OWN, encoding="utf-8")
    for attempt in (lambda: adoption_named("own-league-bands", book_named("nfhs"), where="--adoption"), adoptions_found):
        with pytest.raises(FilmReviewError, match='two adoptions have the code "own-league-bands"') as refused:
            attempt()
        assert f"{own / 'a.toml'} and {own / 'own-league-bands.toml'}" in str(refused.value)
    assert adoption_named(str(own / "a.toml"), book_named("nfhs")).code == "own-league-bands", "one can be named by its path"


def test_ones_own_goes_before_one_that_ships_with_its_code(own: Path) -> None:
    mine = OWN.replace("own-league-bands", "ohio-school-colour-bands")
    (own / "mine.toml").write_text(mine, encoding="utf-8")
    assert adoption_named("ohio-school-colour-bands", book_named("nfhs")).source == "made up for this test"


def test_a_file_that_cannot_be_read_is_told_only_to_who_names_it(own: Path) -> None:
    (own / "broken.toml").write_text("code = ", encoding="utf-8")
    (own / "own-league-bands.toml").write_text(OWN, encoding="utf-8")
    assert adoption_named("own-league-bands", book_named("nfhs")).code == "own-league-bands"
    with pytest.raises(FilmReviewError, match=r"broken.toml: is not valid TOML"):
        adoption_named("broken", book_named("nfhs"))
