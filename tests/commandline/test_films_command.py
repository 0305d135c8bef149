"""`filmreview films`: several films of one game."""

import re
import shlex
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from filmreview.film.moment import parse_time
from filmreview.review import store
from filmreview.review.films import found_film
from filmreview.review.reading import read, read_history
from tests.commandline.conftest import FILMS, Say


@pytest.fixture
def two(say: Say, review: Path) -> Path:
    """The review with a second angle."""
    made = say("films", review, "--add", FILMS / "constant.mp4", "--what", "second angle")
    assert made.code == 0, made.told
    return review


def test_a_film_added_later_is_named_and_listed(say: Say, two: Path) -> None:
    assert say("films", two, "--name", "f1", "--what", "from the stands").out.splitlines() == [
        "f1: from the stands (variable.mp4), 0:03.185", "f2: second angle (constant.mp4), 0:03.003"
    ]  # fmt: skip
    assert [step.words for step in read_history(two)][-2:] == [
        "add the film constant.mp4 as f2", "f1 shows from the stands"
    ]  # fmt: skip


def test_new_takes_several_films(say: Say, tmp_path: Path) -> None:
    path = tmp_path / "both.filmreview"
    made = say(
        "new", path, "--film", FILMS / "variable.mp4", "--film", FILMS / "constant.mp4", "--book", "nfhs",
        "--day", "2024-01-09", "--level", "varsity", "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green",
    )  # fmt: skip
    assert made.out.splitlines()[1:] == ["  f1: variable.mp4", "  f2: constant.mp4"]


def test_one_instant_ties_two_films(say: Say, two: Path) -> None:
    assert say("films", two, "--at", "f1@2").code == 1
    told = say("films", two, "--tie", "f1@1.5=f2@0.5")
    assert told.code == 0
    assert told.out.splitlines()[0].endswith("0:01.451 is 0:00.467 of f2")  # the frames on screen at these times
    data = say("films", two, "--at", "f1@2", "--json").data
    there, here = (parse_time(time) for time in (data["on"]["f2"], data["time"]))
    assert there - here == pytest.approx(parse_time("0.467") - parse_time("1.451"), abs=0.002)
    assert say("films", two, "--at", "f2@0").code == 0
    outside = say("films", two, "--at", "f1@0.2")
    assert outside.code == 1
    assert "second angle (constant.mp4) does not show 0:00.184" in outside.told
    assert "begins" in outside.told
    assert say("films", two, "--json").data["films"][1]["common"][0]["film"] == "f1"


def test_a_second_instant_that_does_not_fit_is_doubted_and_kept(say: Say, two: Path) -> None:
    assert say("films", two, "--tie", "f1@1=f2@0").told == ""
    told = say("films", two, "--tie", "f1@2=f2@1.9")
    assert told.code == 0
    assert "from what the earlier shared instant said" in told.told
    (common,) = read(two).commons
    assert read(two).time_text(common.other, common.other_moment).startswith("0:01.8")


def test_untying_and_removing(say: Say, two: Path) -> None:
    assert say("films", two, "--tie", "f1@1=f2@0").code == 0
    assert say("films", two, "--untie", "f2=f1").code == 0
    assert read(two).commons == ()
    assert say("tag", two, "--film", "f2", "--at", "1", "--team", "home", "--item", "jersey").code == 0
    assert "t1 lies on this film; remove what lies on it first" in say("films", two, "--remove", "f2").line
    assert [film.id for film in read(two).films] == ["f1", "f2"]
    assert read(two).tags[0].film == "f2"


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("--tie", "f1@1"), '"f1@1" is not ID@T=ID@T'),
        (("--tie", "f1@1=f2"), '"f2" is not ID@T'),
        (("--tie", "f1@1=f1@2"), "a film shares every moment with itself"),
        (("--tie", "f1@1=f9@2"), 'unknown film "f9"'),
        (("--untie", "f1=f2"), "f1 and f2 have no shared instant"),
        (("--name", "f1"), "what the film shows is missing"),
        (("--what", "first half"), "there is no film to name"),
        (("--at", "f1@9:00"), "9:00"),
        (("--add", str(FILMS / "constant.mp4")), "this film is in the review already"),
    ],
)
def test_bad_words_are_one_line(say: Say, two: Path, words: tuple[str, ...], line: str) -> None:
    before = read(two)
    refused = say("films", two, *words)
    assert refused.code == 2
    assert line in refused.line
    assert read(two) == before


@pytest.mark.parametrize("option", ["--add", "--name", "--remove", "--tie", "--untie", "--find", "--at"])
def test_an_option_that_says_nothing_is_one_line(say: Say, review: Path, option: str) -> None:
    refused = say("films", review, option, "")
    assert (refused.code, refused.out) == (2, "")
    assert refused.line.endswith("says nothing; give a film, a folder, an id or an instant with it")


@pytest.fixture
def lost(say: Say, tmp_path: Path) -> Path:
    """A review whose film was renamed and moved into a folder of another one."""
    path, film = tmp_path / "lost.filmreview", tmp_path / "half.mp4"
    shutil.copy(FILMS / "variable.mp4", film)
    made = say(
        "new", path, "--film", film, "--book", "nfhs", "--day", "2024-01-09", "--level", "varsity",
        "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green",
    )  # fmt: skip
    assert made.code == 0, made.told
    assert say("tag", path, "--at", "1", "--team", "home", "--item", "jersey").code == 0
    below = tmp_path / "card" / "january"
    below.mkdir(parents=True)
    film.rename(below / "renamed.mp4")
    shutil.copy(FILMS / "constant.mp4", tmp_path / "card" / "half.mp4")  # of its name, and another film
    return path


def test_a_renamed_film_is_found_again_below_a_folder_as_one_step_that_can_be_undone(
    say: Say, lost: Path, tmp_path: Path
) -> None:
    told = say("tag", lost, "--at", "1", "--team", "home", "--item", "number").line
    assert "the film is not there any more" in told
    assert f"filmreview films {lost} --find FOLDER" in told
    found = tmp_path / "card" / "january" / "renamed.mp4"
    said = say("films", lost, "--find", tmp_path / "card")
    assert (said.code, said.out, said.told) == (0, f"f1: found at {found}\n", "")
    assert read_history(lost)[-1].words == "find the film f1 at renamed.mp4"
    assert say("tag", lost, "--at", "1", "--team", "home", "--item", "number").code == 0
    with store.open(lost, "Ann") as opened:
        opened.undo(), opened.undo()
        assert [film.name for film in opened.review.films] == ["half.mp4"]
        opened.redo()
        assert found_film(opened.review, "f1") == found


@pytest.mark.parametrize("ending", ["html", "pdf", "xlsx"])
def test_a_sheet_without_its_pictures_says_so(say: Say, lost: Path, tmp_path: Path, ending: str) -> None:
    made = say("sheet", lost, "--to", tmp_path / f"sheet.{ending}")
    assert (made.code, made.out) == (0, f"{tmp_path}/sheet.{ending}\n")
    assert made.told.startswith("1 of 1 picture could not be had: half.mp4: the film is not there any more; put it back")
    assert made.told.count("\n") == 1
    assert say("sheet", lost, "--to", tmp_path / "sheet.csv").told == "", "a table has no pictures"


def test_a_film_that_is_not_there_is_one_clear_line(say: Say, lost: Path, tmp_path: Path) -> None:
    before = read(lost)
    empty = tmp_path / "empty"
    empty.mkdir()
    said = say("films", lost, "--find", empty)
    assert (said.code, said.line) == (1, f"f1: half.mp4 is not in {empty} or below it, under any name")
    data = say("films", lost, "--find", empty, "--json").data
    assert data == {"found": {}, "not_found": ["f1"], "other_films": {"f1": []}}
    assert say("films", lost, "--find", tmp_path / "nowhere").code == 2
    assert read(lost) == before


def test_a_film_that_is_where_it_was_is_not_looked_for(say: Say, two: Path) -> None:
    steps = len(read_history(two))
    assert say("films", two, "--find", FILMS).out == "every film is where it was\n"
    assert len(read_history(two)) == steps


def test_a_folder_that_is_not_there_is_refused_though_no_film_is_lost(say: Say, two: Path, tmp_path: Path) -> None:
    said = say("films", two, "--find", tmp_path / "nowhere")
    assert (said.code, said.line) == (
        2, f"filmreview: {tmp_path}/nowhere: there is no such folder; name the folder that the film lies in or below"
    )  # fmt: skip


def test_the_list_says_what_is_missing_and_the_line_that_finds_it(say: Say, lost: Path, tmp_path: Path) -> None:
    spaced = lost.rename(tmp_path / "Ann's game.filmreview")
    said = say("films", spaced)
    line = f"filmreview films {shlex.quote(str(spaced))} --find FOLDER"
    assert (said.code, said.told) == (0, "")
    assert said.out.splitlines() == [
        "f1: half.mp4, 0:03.185",
        f"    missing: it is not at {tmp_path}/half.mp4 any more",
        f"to find a film that was moved or renamed: {line}",
    ]
    (told,) = say("films", spaced, "--json").data["films"]
    assert (told["state"], told["path"], told["find"]) == ("missing", f"{tmp_path}/half.mp4", line)
    words = [str(tmp_path / "card") if word == "FOLDER" else word for word in shlex.split(line)[1:]]
    assert say(*words).code == 0, "the line does what it says"
    assert say("films", spaced).out == "f1: renamed.mp4, 0:03.185\n"
    (told,) = say("films", spaced, "--json").data["films"]
    assert (told["state"], told["path"], told["find"]) == ("there", f"{tmp_path}/card/january/renamed.mp4", None)


def same_size(path: Path) -> None:
    path.write_bytes((FILMS / "variable.mp4").read_bytes()[:-1] + b"?")


def another(path: Path) -> None:
    shutil.copy(FILMS / "constant.mp4", path)


@pytest.mark.parametrize(
    ("put", "words"),
    [(another, r"it has [\d,]+ bytes, not [\d,]+"), (same_size, "it is as large, and something else is in it")],
)
def test_another_film_in_its_place_is_said(
    say: Say, lost: Path, tmp_path: Path, put: Callable[[Path], None], words: str
) -> None:
    put(tmp_path / "half.mp4")
    lines = say("films", lost).out.splitlines()
    assert re.fullmatch(rf"    missing: another film lies at {tmp_path}/half.mp4: {words}", lines[1])
    assert lines[2].endswith(f"filmreview films {lost} --find FOLDER")
    assert say("films", lost, "--json").data["films"][0]["state"] == "another film"
    refused = say("tag", lost, "--at", "1", "--team", "home", "--item", "jersey")
    assert refused.code == 2
    assert re.search(f"half.mp4: this is not the film of the review: {words}; put it back", refused.line)
    assert say("films", lost, "--find", tmp_path).out == f"f1: found at {tmp_path}/card/january/renamed.mp4\n"


def test_another_film_of_its_name_in_the_folder_is_told_from_it(say: Say, lost: Path, tmp_path: Path) -> None:
    (tmp_path / "card" / "january" / "renamed.mp4").unlink()
    other = tmp_path / "card" / "half.mp4"
    told = f"f1: half.mp4 is not in {tmp_path}/card or below it, under any name; {other} is another film: it is "
    assert say("films", lost, "--find", tmp_path / "card").line == told + "0:03.003 long, not 0:03.185"
    data = say("films", lost, "--find", tmp_path / "card", "--json").data
    assert data["other_films"] == {"f1": [{"path": str(other), "differs": "it is 0:03.003 long, not 0:03.185"}]}
    same_size(other)
    assert say("films", lost, "--find", tmp_path / "card").line == told + "as large, and something else is in it"
    other.write_text("no film", encoding="utf-8")
    assert " is another film: it has 7 bytes, not " in say("films", lost, "--find", other).line
