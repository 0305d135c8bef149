"""Where the made films lie."""

from pathlib import Path

FILMS = Path(__file__).parents[2] / "fixtures" / "films"
