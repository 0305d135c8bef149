"""`filmreview books`: list the books, show the rules in force on a day, check a book or an adoption of your own."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path
from typing import Any

from filmreview.commandline.answers import counted, print_json, print_lines, tell, written_text
from filmreview.commandline.game_words import day_of
from filmreview.commandline.handbook_page import adopted_words, adoption_words, page_of
from filmreview.errors import FilmReviewError
from filmreview.facts.items import check_item, check_level
from filmreview.rules.adopted import Adopted
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book, Group
from filmreview.rules.checking import check_path
from filmreview.rules.handbook import Entry, Handbook, handbook
from filmreview.rules.library import adoption_named, adoptions_found, book_named, book_names


def books(given: argparse.Namespace) -> int:
    """One of list, show and check."""
    return {"list": _list, "show": _show, "check": _check}[given.what](given)


def _list(given: argparse.Namespace) -> int:
    found = [book_named(name) for name in book_names()]
    adoptions = [_adoption_entry(adoption) for adoption in adoptions_found()]
    if given.json:
        print_json({"books": [_book_entry(book) for book in found], "adoptions": adoptions})
        return 0
    for book in found:
        print_lines(f"{book.code}: {book.title}, from {book.first_day}, {counted(len(book.rules), 'rule')}")
    for one in adoptions:
        print_lines(f"  adoption {one['code']} ({one['book']}): {one['title']}; {one['source']}")
    return 0


def _book_entry(book: Book) -> dict[str, Any]:
    return {
        "code": book.code,
        "title": book.title,
        "publisher": book.publisher,
        "from": book.first_day.isoformat(),
        "rules": [{"code": rule.code, "title": rule.title, "editions": len(rule.editions)} for rule in book.rules],
        "gaps": [gap.says for gap in book.gaps],
    }


def _adoption_entry(adoption: Adoption) -> dict[str, Any]:
    return {
        "code": adoption.code,
        "title": adoption.title,
        "book": adoption.book,
        "from": adoption.starts.isoformat(),
        "until": adoption.ends.isoformat() if adoption.ends else None,
        "source": adoption.source,
        "mark": adoption.mark,
    }


def _show(given: argparse.Namespace) -> int:
    day = day_of(given.day, "--day") if given.day else date.today()
    if given.item:
        check_item(given.item, "--item")
    if given.level:
        check_level(given.level, "--level")
    book = book_named(given.book, where="books show")
    if day < book.first_day:
        raise FilmReviewError(f"the book here begins on {book.first_day}", where="--day", todo="give that day or a later one")
    adoption = adoption_named(given.adoption, book, where="--adoption") if given.adoption else None
    if given.html and Path(given.html).suffix.casefold() not in (".html", ".htm"):
        raise FilmReviewError(f'"{given.html}" does not end in .html', where="--html", todo="name an HTML file")
    shown = handbook(book, day, given.item, adoption, given.level)
    if given.html:
        written_text(Path(given.html), page_of(shown))
        tell(f"{given.html} written")
    elif given.json:
        print_json(_document(shown))
    else:
        print_lines(*_lines(shown))
    return 0


def _document(shown: Handbook) -> dict[str, Any]:
    return {
        "book": shown.book.code,
        "day": shown.day.isoformat(),
        "season": shown.season,
        "unseen": shown.unseen or None,
        "adoption": {**_adoption_entry(shown.adoption), "in_force": shown.counts} if shown.adoption else None,
        "rules": [_entry_document(entry) for entry in shown.entries],
        "costs": [_cost_document(group, shown) for group in shown.groups if group.on(shown.day)],
        "gaps": list(shown.gaps),
    }


def _cost_document(group: Group, shown: Handbook) -> dict[str, Any]:
    cost = group.on(shown.day)
    assert cost is not None  # asked for only where there is one
    return {
        "group": group.code,
        "title": group.title,
        "says": group.says_of(cost),
        "costs": cost.costs,
        "charged_to": cost.charged_to or None,
        "free_throws": cost.free_throws,
        "reference": cost.reference,
        "source": cost.source,
        "mark": cost.mark,
        "adopted": [_adopted_document(one) for one in shown.adopted_costs.get(group.code, ())],
    }


def _entry_document(entry: Entry) -> dict[str, Any]:
    edition = entry.edition
    return {
        "rule": entry.rule.code,
        "title": entry.rule.title,
        "says": edition.says if edition else None,
        "items": list(edition.items) if edition else [],
        "from": edition.starts.isoformat() if edition else None,
        "reference": edition.reference if edition else None,
        "source": edition.source if edition else None,
        "mark": edition.mark if edition else None,
        "state": "set aside" if entry.rule.waived else edition.kind if edition else "no text",
        "changed_this_season": entry.changed,
        "before": entry.before.says if entry.before else None,
        "ahead": {"from": entry.ahead.starts.isoformat(), "says": entry.ahead.says} if entry.ahead else None,
        "adoption": entry.rule.adoption,
        "adopted": [_adopted_document(one) for one in entry.adopted],
    }


def _adopted_document(one: Adopted) -> dict[str, Any]:
    return {"what": one.what, "source": one.source, "mark": one.mark}


def _lines(shown: Handbook) -> list[str]:
    lines = [f"{shown.book.title}, edition {shown.season}, in force on {shown.day} (our own words; the official book decides)"]
    if shown.unseen:
        lines.append(f"Not seen: {shown.unseen}")
    lines += [adoption_words(shown)] if shown.adoption else []
    for entry in shown.entries:
        lines += ["", *_entry_lines(entry, shown)]
    lines += ["", "Consequence", *(line for group in shown.groups for line in _cost_lines(group, shown))]
    return [*lines, "", *(f"No text here: {gap}" for gap in shown.gaps)]


def _cost_lines(group: Group, shown: Handbook) -> list[str]:
    cost = group.on(shown.day)
    if cost is None:
        return []
    lines = [f"  {group.title}: {cost.costs}; {group.says} ({cost.reference}, {cost.mark}: {cost.source})"]
    return [*lines, *(f"    {adopted_words(shown, one)}" for one in shown.adopted_costs.get(group.code, ()))]


def _entry_lines(entry: Entry, shown: Handbook) -> list[str]:
    """The book's own text and source first, then what the adoption changes, with its own."""
    edition = entry.edition
    lines = [entry.rule.title]
    if edition is not None and edition.kind == "repealed":
        lines.append(f"  ended on {edition.starts} ({edition.source})")
    elif edition is not None:
        new = "; new this season" if entry.changed else ""
        lines += [f"  {edition.says}", f"  {edition.reference}, since {edition.starts}{new}; {edition.mark}: {edition.source}"]
    if entry.before is not None:
        lines.append(f"  before: {entry.before.says}")
    if entry.ahead is not None:
        lines.append(f"  ahead, from {entry.ahead.starts}: {entry.ahead.says}")
    return [*lines, *(f"  {adopted_words(shown, one)}" for one in entry.adopted)]


def _check(given: argparse.Namespace) -> int:
    """Read it and run its cases; 1 when one does not come out as it expects. What cannot be read exits with 2."""
    checked = check_path(Path(given.path), date.today())
    print_lines(f"{given.path}: {checked.title}: {counted(checked.rules, 'rule')}, {counted(checked.cases, 'case')}")
    print_lines(*(f"  not read again for a year: {one}" for one in checked.stale))
    for line in checked.differences:
        tell(line)
    return 1 if checked.differences else 0
