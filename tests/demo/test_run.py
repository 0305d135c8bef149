"""The whole job on the made-up game, once, and the check that holds the sheet to the truth."""

import json
import re
import shlex
import shutil
from collections.abc import Callable
from pathlib import Path

import pandas as pd
import pytest

from filmreview.commandline.run import run as run_words
from filmreview.demo import run
from filmreview.demo.checking import differences
from filmreview.demo.run import DemoResult, make_demo
from filmreview.errors import FilmReviewError, Stopped
from filmreview.progress import silent
from filmreview.review.reading import read
from filmreview.review.ruled import findings
from filmreview.sheets.telling import hand_over

README = Path(__file__).parents[2] / "README.md"
NOT_HERE = ("far-side.mp4", "handed-in/")
"""A second film and answers handed in, which only the reader has."""
FARTHEST = 5.3  # dE00: 95 % of torsos with a white reference lie within it on another made film (measuring notes)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> DemoResult:
    return make_demo(tmp_path_factory.mktemp("demo"))


@pytest.fixture
def ready_film(made: DemoResult, monkeypatch: pytest.MonkeyPatch) -> None:
    """The film is copied, not drawn again."""

    def copy(path: Path, progress: Callable[[float, str], None]) -> None:
        progress(0.0, "copying")
        shutil.copy(made.film, path)

    monkeypatch.setattr(run, "film_game", copy)


def test_the_sheet_says_what_the_truth_says(made: DemoResult) -> None:
    assert made.differences == ()
    rows = pd.read_excel(made.sheet, sheet_name="Findings")
    told = json.loads(made.truth.read_text())
    assert len(rows) == len(told["tags"]) == made.findings
    assert {tag["expect"]["ruling"] for tag in told["tags"]} == {"legal", "illegal", "cannot be told"}
    assert {tag["expect"]["consequence"] for tag in told["tags"]} == {"none", "fix or leave", "technical foul"}
    assert any(tag["expect"]["ahead"] for tag in told["tags"])


def test_every_colour_is_measured_near_its_true_one(made: DemoResult) -> None:
    assert len(made.measured) >= 8
    for one in made.measured:
        assert one.off is not None, one
        assert one.off < FARTHEST, one


def test_the_review_holds_everything(made: DemoResult) -> None:
    review = read(made.review)
    assert review.game.home.name == "Quillmarsh"
    assert [film.name for film in review.films] == ["made-up-game.mp4"]
    assert len(review.events) >= 10
    film, told = review.films[0], json.loads(made.truth.read_text())["stoppages"]
    assert [
        (float(film.seconds_of(one.start)), float(film.seconds_of(one.end)), one.kind, one.origin) for one in review.stoppages
    ] == [(one["from"], one["to"], one["kind"], "by hand") for one in told]
    assert {tag.crew.mark for tag in review.tags if tag.crew} >= {
        "as the book asks", "late", "not seen", "wrong consequence", "nothing to do", "cannot be told",
    }  # fmt: skip
    assert len(review.ruled) == len(findings(review))


def test_every_official_of_the_made_up_game_has_a_letter_that_says_something(made: DemoResult) -> None:
    """What was done is that official's whose the truth says; the rest is the whole crew's."""
    review, told = read(made.review), json.loads(made.truth.read_text())["tags"]
    tied = [review.official_of(tag.id) for tag in review.tags]
    assert [one.position if one else "" for one in tied] == [tag["crew"]["whose"] for tag in told]
    whole = hand_over(findings(review)).letters
    assert [one.position for one in whole] == ["referee", "umpire 1", "umpire 2"]
    for letter in whole:
        assert "To talk about:\n- No " in letter.words, letter.position
        assert ". The book asks, while the ball is dead: " in letter.words


def lines_of_the_readme() -> list[list[str]]:
    blocks = re.findall(r"```sh\n(.*?)```", README.read_text(encoding="utf-8"), flags=re.DOTALL)
    shown = [line for block in blocks for line in block.replace("\\\n", " ").splitlines() if line.startswith("filmreview ")]
    return [shlex.split(line, comments=True)[1:] for line in shown if not any(name in line for name in NOT_HERE)]


def test_the_lines_of_the_readme_run_in_order_on_the_made_up_game(
    made: DemoResult, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(shutil.copytree(made.film.parent, tmp_path / "exports"))
    lines = lines_of_the_readme()
    assert len(lines) >= 20
    for words in lines:
        assert run_words(words) == 0, (words, capsys.readouterr().err)
        capsys.readouterr()
    assert Path("crew.xlsx").is_file()
    assert Path("lesson", "lesson.html").is_file()


def test_a_wrong_ruling_would_be_told(made: DemoResult, tmp_path: Path) -> None:
    told = json.loads(made.truth.read_text())
    told["tags"][0]["expect"]["ruling"] = "legal"
    told["tags"][1]["crew"]["mark"] = "late"
    told["tags"][2]["time"] += 0.04
    told["penalties"] = []
    removed = told["tags"].pop()
    other = tmp_path / "truth.json"
    other.write_text(json.dumps(told))
    lines = differences(made.sheet, other)
    assert len(lines) == 5
    assert any(line.startswith("penalties:") for line in lines)
    assert f"{removed['team']} {removed['player']}, {removed['item']}: in the sheet, not in the truth" in lines


@pytest.mark.usefixtures("ready_film")
def test_a_second_run_leaves_the_first_alone(made: DemoResult) -> None:
    before = {path.name: path.read_bytes() for path in made.folder.iterdir() if path.is_file()}
    again = make_demo(made.folder)
    assert again.folder == made.folder / "made-up-game-2"
    assert again.differences == ()
    assert {path.name: path.read_bytes() for path in made.folder.iterdir() if path.is_file()} == before


@pytest.mark.usefixtures("ready_film")
def test_a_stop_leaves_nothing_but_what_was_there(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")

    def stop(share: float, _: str) -> None:
        if share > 0.93:
            raise Stopped("stopped")

    with pytest.raises(Stopped):
        make_demo(tmp_path, stop)
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_a_folder_that_is_a_file_is_told_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(FilmReviewError, match="the folder cannot be written"):
        make_demo(tmp_path / "file", silent)


def test_the_result_tells_where_everything_is(made: DemoResult) -> None:
    lines = made.lines()
    assert f"all {made.findings} rulings of the sheet equal the truth" in lines
    for path in (made.film, made.truth, made.review, made.sheet):
        assert any(line.startswith(f"{path}:") for line in lines)
