"""Presenters run on a desk without a screen."""

from tests.desktop.desk_on_film import at_once, desk, film

__all__ = ["at_once", "desk", "film"]
