"""`filmreview demo`: the made-up game, and the whole job done on it."""

from __future__ import annotations

import argparse
from pathlib import Path

from filmreview.commandline.answers import bar, print_lines
from filmreview.demo.run import DemoResult, make_demo
from filmreview.progress import Progress


def demo(given: argparse.Namespace) -> int:
    """Make film, truth, review, situations and sheet; 0 when the sheet's rulings equal the truth file, else 1."""
    made = made_up_game(Path(given.to), bar())
    print_lines(*made.lines())
    return 1 if made.differences else 0


def made_up_game(folder: Path, progress: Progress) -> DemoResult:
    """Make the made-up game in a folder; the desk's way to it too, since only this room may import the demo."""
    return make_demo(folder, progress)
