"""A file is written whole or not at all, and what a killed program left aside goes when the next one is written."""

import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from filmreview.aside import LEFT_SECONDS, aside_prefix, free_path, left_aside, written_aside
from filmreview.errors import FilmReviewError, Stopped


def test_it_takes_the_old_one_s_place(tmp_path: Path) -> None:
    path = tmp_path / "sheet.xlsx"
    path.write_text("old")
    with written_aside(path) as aside:
        assert (aside.parent, aside.suffix) == (tmp_path, ".xlsx")
        aside.write_text("new")
        assert path.read_text() == "old"
    assert path.read_text() == "new"
    assert os.listdir(tmp_path) == ["sheet.xlsx"]
    (tmp_path / "other").touch()
    assert path.stat().st_mode == (tmp_path / "other").stat().st_mode


def write_half(path: Path, error: Exception) -> None:
    with written_aside(path) as aside:
        aside.write_text("half")
        raise error


def test_what_goes_wrong_leaves_the_old_one_and_nothing_else(tmp_path: Path) -> None:
    path = tmp_path / "sheet.xlsx"
    path.write_text("old")
    with pytest.raises(Stopped):
        write_half(path, Stopped("stopped"))
    with pytest.raises(FilmReviewError) as caught:
        write_half(path, OSError(28, "No space left on device"))
    assert str(caught.value) == f"{path}: the file was not written: no space left on device; what was there before is as it was"
    assert (path.read_text(), os.listdir(tmp_path)) == ("old", ["sheet.xlsx"])


def test_a_place_that_cannot_be_is_said(tmp_path: Path) -> None:
    with pytest.raises(FilmReviewError, match="there is no such folder; make it first"):
        write_half(tmp_path / "a" / "b.xlsx", ValueError())
    with pytest.raises(FilmReviewError, match="this is a folder"):
        write_half(tmp_path, ValueError())


def test_a_path_that_is_taken_gets_a_number(tmp_path: Path) -> None:
    path = tmp_path / "game.filmreview"
    assert free_path(path) == path
    path.touch()
    (tmp_path / "game-2.filmreview").touch()
    assert free_path(path) == tmp_path / "game-3.filmreview"


HALF = """
import json, sys, time
from pathlib import Path
from filmreview.aside import written_aside
with written_aside(Path(sys.argv[1])) as aside:
    aside.write_text("half")
    print(json.dumps(str(aside)), flush=True)
    time.sleep(60)
"""


def killed_while_writing(path: Path) -> tuple[Path, int]:
    """A process that is killed while it writes aside: what it leaves, and its number."""
    with subprocess.Popen([sys.executable, "-c", HALF, str(path)], stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        left = Path(json.loads(child.stdout.readline()))
        child.kill()  # SIGKILL
    assert left.is_file()
    return left, child.pid


def grown_old(path: Path, seconds: float = LEFT_SECONDS + 60) -> Path:
    """The path, last written so long ago."""
    then = time.time() - seconds
    os.utime(path, (then, then), follow_symlinks=False)
    return path


def written_now(path: Path) -> set[str]:
    """Write a file; the names in its folder then."""
    with written_aside(path) as aside:
        aside.write_text("new")
    return {one.name for one in path.parent.iterdir()}


def test_what_a_killed_program_left_goes_after_an_hour(tmp_path: Path) -> None:
    left, _ = killed_while_writing(tmp_path / "sheet.xlsx")
    assert (left.name[0], left.suffix) == (".", ".xlsx")
    grown_old(left, LEFT_SECONDS - 60)
    assert written_now(tmp_path / "other.csv") == {left.name, "other.csv"}
    grown_old(left)
    assert written_now(tmp_path / "other.csv") == {"other.csv"}


def test_nothing_else_is_taken_away(tmp_path: Path) -> None:
    left, process = killed_while_writing(tmp_path / "sheet.xlsx")
    left.unlink()
    mine = f"-{os.getpid()}-"
    here = aside_prefix("sheet").removesuffix(mine)
    machine = here.rpartition("-")[2]
    other = f"{int(machine, 16) ^ 1:08x}"
    names = [
        f"{here}{mine}abcdefgh.xlsx",  # its process runs
        f"{here.replace(machine, other)}-{process}-abcdefgh.xlsx",  # another machine's
        f"{here[1:]}-{process}-abcdefgh.xlsx",  # not hidden
        f"{here}-{process}-abcdefgh.xlsx.bak", f"{here}-{process}-abcdefg.xlsx", f"{here}-{process}.xlsx", f"{here}-0-abcdefgh",
        f"{here}-9999999999-abcdefgh", ".sheet-abcdefgh.xlsx", ".bashrc", "sheet.xlsx",
    ]  # fmt: skip
    for name in names:
        (tmp_path / name).write_text("kept")
    link, folder = f"{here}-{process}-linklink", f"{here}-{process}-folder00"
    (tmp_path / "pointed at").write_text("kept")
    (tmp_path / link).symlink_to(tmp_path / "pointed at")
    (tmp_path / folder).mkdir()
    for one in tmp_path.iterdir():
        grown_old(one)
    assert written_now(tmp_path / "other.csv") == {*names, link, folder, "pointed at", "other.csv"}
    assert left_aside(tmp_path) == [tmp_path / folder], "of the lesson, which takes it away itself"
    (tmp_path / folder / "written just now").touch()
    grown_old(tmp_path / folder)
    assert left_aside(tmp_path) == []


def test_one_left_behind_is_known_as_ours(tmp_path: Path) -> None:
    left, process = killed_while_writing(tmp_path / "a sheet\nof two lines.tar.gz")
    assert f"-{process}-" in left.name
    assert left_aside(tmp_path) == []
    assert left_aside(tmp_path / "missing") == []
    grown_old(left)
    assert left_aside(tmp_path) == [left]
