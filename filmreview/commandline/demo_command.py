"""`filmreview demo`: the made-up game, and the whole job done on it."""

from __future__ import annotations

import argparse
from pathlib import Path

from filmreview.commandline.answers import bar, print_lines
from filmreview.demo.run import make_demo


def demo(given: argparse.Namespace) -> int:
    """Make film, truth, review, situations and sheet; 0 when the sheet's rulings equal the truth file, else 1."""
    made = make_demo(Path(given.to), bar())
    print_lines(*made.lines())
    return 1 if made.differences else 0
