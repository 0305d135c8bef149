"""How commands answer: one JSON document or plain lines on standard output, progress on standard error."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from filmreview.aside import written_aside
from filmreview.progress import Progress, silent


def print_json(data: Any) -> None:
    """Print one JSON document to standard output."""
    json.dump(data, sys.stdout, ensure_ascii=False, indent=1, allow_nan=False)
    sys.stdout.write("\n")


def print_lines(*lines: str) -> None:
    """Print lines of text to standard output."""
    for line in lines:
        sys.stdout.write(line + "\n")


def counted(count: int, thing: str, several: str = "") -> str:
    """A number with its word: "1 rule", "2 rules", "2 replies". several: the plural where it is not made by an s."""
    return f"{count} {thing if count == 1 else several or f'{thing}s'}"


def tell(line: str) -> None:
    """A message for the person, on standard error."""
    sys.stderr.write(line + "\n")


def bar(width: int = 30) -> Progress:
    """A progress bar on standard error when that is a terminal, else silence. Ctrl-C stops the work."""
    if not sys.stderr.isatty():
        return silent

    def draw(share: float, words: str) -> None:
        done = round(width * min(max(share, 0.0), 1.0))
        end = "\n" if share >= 1.0 else ""
        sys.stderr.write(f"\r[{'=' * done}{' ' * (width - done)}] {share:4.0%} {words[:60]:60}{end}")
        sys.stderr.flush()

    return draw


def written_text(target: Path, text: str) -> None:
    """Write a text file whole or not at all."""
    with written_aside(target) as aside:
        aside.write_text(text, encoding="utf-8", newline="\n")
