"""Each view alone, on a desk whose work is done at once."""

from tests.desktop.desk_on_film import at_once, desk, film

__all__ = ["at_once", "desk", "film"]
