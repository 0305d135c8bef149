"""Files named on the command line, and those in the folders named."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from filmreview.errors import FilmReviewError


def named_files(named: Iterable[str], ending: str) -> list[Path]:
    """The files named, and every file of the folders named with that ending (".json"), by name; raises FilmReviewError for a
    folder without one, OSError for a folder that may not be read."""
    found: list[Path] = []
    for name in named:
        path = Path(name)
        if not path.is_dir():
            found.append(path)
            continue
        os.scandir(path).close()  # a folder that may not be read is not an empty one
        inside = sorted(path.glob(f"*{ending}"))
        if not inside:
            raise FilmReviewError(f"no file here ends in {ending}", where=str(path), todo="name the files themselves")
        found += inside
    return found
