"""The view grade as data and as a line: the word, why it is not good, and the figures behind it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from filmreview.measure.view import ViewGrade

_SHARES = ("clipped", "dark", "sharpness")


def view_document(view: ViewGrade) -> dict[str, Any]:
    """{"word": , "reasons": [...], "figures": {name: number}}."""
    return {"word": view.word, "reasons": list(view.reasons), "figures": dict(view.figures)}


def view_line(view: Mapping[str, Any]) -> str:
    """The same for a reader."""
    figures = ", ".join(_figure(name, value) for name, value in view["figures"].items())
    return (
        f"  view {view['word']}" + "".join(f"; {reason}" for reason in view["reasons"]) + (f" ({figures})" if figures else "")
    )


def _figure(name: str, value: float) -> str:
    return f"{name} {value:.0%}" if name in _SHARES else f"{name} {value:.1f}".removesuffix(".0")
