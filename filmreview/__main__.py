"""Where the program starts: words given go to the command line; none, or `open REVIEW`, to the desk."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from filmreview.commandline.run import run
from filmreview.errors import FilmReviewError


def main(words: Sequence[str] | None = None) -> int:
    """Run filmreview with these words (the process's own when None). Returns the exit code."""
    given = list(sys.argv[1:] if words is None else words)
    if not given or given[0] == "open":
        return _desk(given[1:])
    return run(given)


def _desk(paths: Sequence[str]) -> int:
    if len(paths) > 1 or any(path.startswith("-") for path in paths):
        print("filmreview open takes one review or film: filmreview open REVIEW", file=sys.stderr)
        return 2
    try:
        # Here and not above: a machine without Qt's system libraries still has the whole command line.
        from filmreview.desktop.app import run as run_desk
    except ImportError as error:
        print(f"the desk cannot start: {error}; run `filmreview doctor` for the line that installs it", file=sys.stderr)
        return 2
    try:
        return run_desk(list(paths))
    except FilmReviewError as error:
        print(error, file=sys.stderr)
        return 2


if __name__ == "__main__":
    sys.exit(main())
