"""Commands run in this process: what they print, and their exit code."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from filmreview.__main__ import main

FILMS = Path(__file__).parents[2] / "fixtures" / "films"


@dataclass(frozen=True)
class Answer:
    """What a command said. code: exit code. out, told: standard output and standard error."""

    code: int
    out: str
    told: str

    @property
    def data(self) -> Any:
        return json.loads(self.out)

    @property
    def line(self) -> str:
        """The one line of a refusal."""
        assert self.out == ""
        assert self.told.count("\n") == 1, self.told
        return self.told.strip()


Say = Callable[..., Answer]


@pytest.fixture
def say(capsys: pytest.CaptureFixture[str]) -> Say:
    def run(*words: object) -> Answer:
        capsys.readouterr()
        code = main([str(word) for word in words])
        out, told = capsys.readouterr()
        return Answer(code, out, told)

    return run


@pytest.fixture
def films() -> Path:
    return FILMS


@pytest.fixture
def review(say: Say, tmp_path: Path) -> Path:
    """A review of the variable-rate film, made through the command line."""
    path = tmp_path / "game.filmreview"
    made = say(
        "new", path, "--film", FILMS / "variable.mp4", "--book", "nfhs", "--day", "2024-01-09", "--level", "varsity",
        "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green", "--crew", "referee=Idrun Mosswell",
    )  # fmt: skip
    assert made.code == 0, made.told
    return path
