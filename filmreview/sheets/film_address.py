"""How a sheet names a film file: as seen from the sheet's own folder, percent-encoded, so that both can move together."""

from __future__ import annotations

import os
from pathlib import Path
from urllib.parse import quote

from filmreview.review.model import FilmRef
from filmreview.sheets.inert import inert


def film_address(film: FilmRef, sheet: Path) -> str:
    """The film as a relative reference (RFC 3986); its name alone when there is no way from the sheet's folder to it."""
    return _quoted(_way_to(film, sheet))


def _way_to(film: FilmRef, sheet: Path) -> str:
    """The film as seen from the sheet's folder; its name alone when there is no way (another drive, another system)."""
    try:
        return Path(os.path.relpath(film.path, sheet.absolute().parent)).as_posix()
    except ValueError:
        return film.name


def _quoted(way: str) -> str:
    """Percent-encoded as the file system names it (RFC 3986); what no file system could name is made harmless first."""
    try:
        return quote(way, errors="surrogateescape")
    except UnicodeEncodeError:
        return quote(inert(way))
