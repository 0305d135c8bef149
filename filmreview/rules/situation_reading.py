"""Reading a situation file: a case to be ruled without film."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from filmreview.facts.items import LEVELS
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book
from filmreview.rules.library import adoption_named, book_named
from filmreview.rules.setting import SETTING_KEYS, Setting, read_setting
from filmreview.rules.strict import Table, read_toml


@dataclass(frozen=True)
class Situation:
    """One situation. level: None means the book's own."""

    path: Path
    title: str
    book: Book
    day: date
    level: str | None
    adoption: Adoption | None
    setting: Setting


def read_situation(path: Path, folders: Sequence[Path] | None = None) -> Situation:
    """The situation of a file. folders: with books and adoptions; left out, the user's own. An adoption's path counts from
    the file.

    Raises FilmReviewError in one line for whatever is not right.
    """
    table = Table(read_toml(path), path.name, ("title", "game", *SETTING_KEYS))
    table.need("game")
    game = Table(table.table("game"), table.at("game"), ("book", "day", "level", "adoption"))
    book = book_named(game.text("book"), folders, game.at("book"))
    adoption = None
    if "adoption" in game:
        named = game.text("adoption")
        beside = path.parent / named
        found = str(beside) if named.endswith(".toml") and beside.is_file() else named
        adoption = adoption_named(found, book, folders, game.at("adoption"))
    return Situation(
        path=path,
        title=table.text_or("title", path.name.removesuffix(".toml").removesuffix(".situation")),
        book=book,
        day=game.day("day"),
        level=game.choice("level", LEVELS) if "level" in game else None,
        adoption=adoption,
        setting=read_setting(table),
    )
