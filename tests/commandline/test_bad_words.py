"""Bad words of every kind: one clear line, exit code 2, nothing changed; and the exit codes that each help tells."""

import subprocess
import sys
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest

from filmreview.commandline import run as running
from filmreview.commandline.exit_codes import exit_words
from filmreview.commandline.words import parser
from filmreview.review.reading import read
from tests.commandline.conftest import FILMS, Say

COMMANDS = [name for name in parser()[1] if name != "books"]
TAG = ("tag", "REVIEW", "--at", "1", "--team", "home", "--item", "headband")
NEW = (
    "new", "OTHER", "--film", str(FILMS / "variable.mp4"), "--book", "nfhs", "--day", "2024-01-09", "--level", "varsity",
    "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green",
)  # fmt: skip
MEASURE = ("measure", str(FILMS / "variable.mp4"), "--at", "1", "--box", "10,10,20,20")


def put(words: tuple[str, ...], review: Path) -> list[str]:
    places = {"REVIEW": str(review), "OTHER": str(review.with_name("other.filmreview"))}
    return [places.get(word, word) for word in words]


@pytest.mark.parametrize(
    "words",
    [
        (*TAG, "--box", ""),
        (*TAG, "--film", " "),
        (*TAG, "--measure", "--box", "10,10,20,20", "--white", ""),
        (*NEW, "--adoption", ""),
        (*MEASURE, "--white", ""),
        ("crew", "REVIEW", "t1", "--mark", "late", "--at", ""),
        ("books", "show", "nfhs", "--day", ""),
        ("books", "show", "nfhs", "--item", ""),
        ("books", "show", "nfhs", "--level", ""),
        ("books", "show", "nfhs", "--adoption", ""),
        ("replies", "REVIEW", "back.xlsx", "--by", ""),
        ("beside", "REVIEW", "REVIEW", "--within", ""),
        ("lesson", "REVIEW", "--to", "lesson", "--tags", ""),
        ("lesson", "results", "a.json", "--key", ""),
        ("demo", "--to", ""),
    ],
)
def test_an_option_with_nothing_is_not_one_left_out(say: Say, review: Path, words: tuple[str, ...]) -> None:
    """As a script gives it where `--at "$T"` finds T unset."""
    assert say(*put(TAG, review)).code == 0
    before, there = read(review), sorted(review.parent.iterdir())
    refused = say(*put(words, review))
    assert refused.code == 2
    option = next(before for before, word in pairwise(words) if not word.strip())
    assert f"argument {option}: nothing is given with it" in refused.line
    assert (read(review), sorted(review.parent.iterdir())) == (before, there)


def test_words_that_may_be_empty_still_may(say: Say, review: Path) -> None:
    assert say(*put((*TAG, "--note", ""), review)).code == 0
    assert say("crew", review, "t1", "--mark", "late", "--did", "", "--official", "").code == 0
    assert say("call", review, "t1", "--ruling", "legal", "--words", "", "--consequence", "").code == 0


@pytest.mark.parametrize(
    "words",
    [
        (*TAG, "--box", "-5,0,10,10"),
        (*MEASURE, "--match", "-5,0,10,10=white"),
        ("measure", str(FILMS / "variable.mp4"), "--at", "1", "--ends", "-5,0,10,10"),
    ],
)
def test_a_place_below_zero_is_outside_the_picture(say: Say, review: Path, words: tuple[str, ...]) -> None:
    refused = say(*put(words, review))
    assert refused.code == 2
    assert "outside the picture of 320x180" in refused.line
    assert "-5,0" in refused.line


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("findings", "a text/game.filmreview"), "not a directory; check the path"),
        (("letter", "REVIEW", "referee", "--from", "nowhere.txt"), "nowhere.txt: there is no such file; check the path"),
        (("letter", "REVIEW", "referee", "--from", "."), ".: this is a folder, not a text; give the file"),
        (("event", "REVIEW", "--at", "1", "--what", "injury", "--team", "hme", "--player", "4"), '--team: unknown team "hme"'),
        (("event", "REVIEW", "--at", "1", "--what", "injury", "--team", "home", "--player", "x"), '--player: "x" is not'),
        (("books", "show", "nfs"), 'books show: unknown book "nfs"; write "nfhs"'),
        ((*NEW, "--level", "pro"), '--level: unknown level "pro"'),
        ((*NEW, "--day", "20240109"), '--day: "20240109" is not a day; write YYYY-MM-DD'),
        ((*NEW, "--day", "2024-W02-2"), '--day: "2024-W02-2" is not a day; write YYYY-MM-DD'),
    ],
)
def test_a_bad_word_is_told_with_its_place_and_what_to_write(
    say: Say, review: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], line: str
) -> None:
    monkeypatch.chdir(review.parent)
    Path("a text").write_text("no folder", encoding="utf-8")
    before = read(review)
    refused = say(*put(words, review))
    assert refused.code == 2
    assert line in refused.line
    assert read(review) == before
    assert not review.with_name("other.filmreview").exists()


@pytest.mark.parametrize("command", [("rule",), ("lesson", "results")])
def test_a_folder_that_may_not_be_read_is_not_an_empty_one(
    say: Say, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: tuple[str, ...]
) -> None:
    def refuse(path: Path) -> None:
        raise PermissionError(13, "Permission denied", str(path))  # the superuser of the tests may read every folder

    monkeypatch.setattr("os.scandir", refuse)
    refused = say(*command, tmp_path)
    assert (refused.code, refused.line) == (
        2, f"filmreview: {tmp_path}: permission denied; ask for the right to it, or choose another place"
    )  # fmt: skip


def test_an_adoption_file_is_found_from_any_folder(say: Say, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "own.toml").write_text(
        'code = "own-bands"\ntitle = "Own bands"\nbook = "nfhs"\nsource = "made up for this test"\nmark = "published"\n'
        'checked = 2025-09-03\nfrom = 2023-09-01\n[[change]]\nrule = "band-colour"\nwaive = true\n',
        encoding="utf-8",
    )
    monkeypatch.chdir(tmp_path)
    assert say(*put((*NEW, "--adoption", "own.toml"), tmp_path / "game.filmreview")).code == 0
    (tmp_path / "below").mkdir()
    monkeypatch.chdir(tmp_path / "below")
    told = say("findings", "../other.filmreview")
    assert told.code == 0, told.told
    assert "adoption own-bands" in told.out


@pytest.mark.parametrize("command", COMMANDS)
def test_the_help_of_every_command_tells_its_exit_codes(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        running.run([*command.split(), "--help"])
    assert left.value.code == 0
    told = " ".join(capsys.readouterr().out.split())
    assert exit_words(command) in told
    for code in ("0 done", "2 bad input", "130 stopped by hand"):
        assert code in exit_words(command)


@pytest.mark.parametrize("kind", ["list", "show", "check"])
def test_the_help_of_the_books_tells_them_too(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        running.run(["books", kind, "--help"])
    assert exit_words(f"books {kind}") in " ".join(capsys.readouterr().out.split())


def differing_case(tmp_path: Path) -> tuple[object, ...]:
    path = tmp_path / "a.situation.toml"
    path.write_text(
        'title = "a"\n[game]\nbook = "nfhs"\nday = 2023-12-05\n[visitor]\njersey = "green"\n[[seen]]\nid = "a"\n'
        'team = "visitor"\nplayer = "14"\nitem = "arm sleeve"\ncolour = "orange"\n[[expect]]\nabout = "a"\nruling = "legal"\n',
        encoding="utf-8",
    )
    return ("rule", path)


def differing_adoption(tmp_path: Path) -> tuple[object, ...]:
    path = tmp_path / "a.toml"
    path.write_text(
        'code = "a"\ntitle = "a"\nbook = "nfhs"\nsource = "made up"\nmark = "published"\nchecked = 2025-09-03\n'
        'from = 2023-09-01\n[[change]]\nrule = "band-colour"\nwaive = true\n',
        encoding="utf-8",
    )
    path.with_name("a.cases.toml").write_text(
        '[[case]]\ntitle = "a"\nsource = "made up"\nadoption = "a"\nvisitor = { jersey = "green" }\n'
        'seen = { team = "visitor", player = "14", item = "headband", colour = "orange" }\n'
        'on = [{ day = 2024-01-09, ruling = "illegal" }]\n',
        encoding="utf-8",
    )
    return ("books", "check", path)


@pytest.mark.parametrize("words", [differing_case, differing_adoption])
def test_a_check_that_does_not_hold_exits_1_as_the_help_tells(
    say: Say, tmp_path: Path, words: Callable[[Path], tuple[str, ...]]
) -> None:
    given = words(tmp_path)
    answer = say(*given)
    assert answer.code == 1, answer.told
    assert "; 1 " in exit_words(" ".join(given[:-1]))


def test_ctrl_c_exits_130_and_leaves_nothing(tmp_path: Path) -> None:
    """The signal itself, not what stands for it: a program of its own is told to stop while it draws the game."""
    program = (
        "import _thread, sys, threading\n"
        "from filmreview.commandline.run import run\n"
        "from filmreview.demo import run as demo\n"
        "threading.Timer(1.5, _thread.interrupt_main).start()\n"
        f"sys.exit(run(['demo', '--to', {str(tmp_path / 'game')!r}]))\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=120, check=False)
    assert (done.returncode, done.stderr) == (130, "stopped; nothing half-made was left behind\n")
    left = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert left == []
