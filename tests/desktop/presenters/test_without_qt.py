"""Presenters run where Qt is missing: none of them imports it, directly or through another module."""

import subprocess
import sys
from pathlib import Path

import pytest

import filmreview.desktop

FOLDER = Path(filmreview.desktop.__file__).parent
MODULES = [
    *sorted(path.stem for path in FOLDER.glob("*_presenter.py")),
    "draft",
    "events",
    "measuring",
    "ruling_words",
    "settings_values",
    "unkept",
]


def test_there_are_presenters() -> None:
    assert {"card_presenter", "desk_presenter", "ledger_presenter", "setup_presenter"} <= set(MODULES)


@pytest.mark.parametrize("module", MODULES)
def test_no_qt(module: str) -> None:
    code = f"import sys; sys.modules['PyQt6'] = None; import filmreview.desktop.{module}"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
