"""The rule reader without a screen: what a rule says on the game's day, beside how it read before and will read after, and what
the adoption changes. The words are those of the books here: our own, with the reference to look the official text up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from filmreview.cautions import STUDY_AID
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.desktop.ruling_words import MARK_WORDS
from filmreview.errors import FilmReviewError
from filmreview.review.model import Game
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book, Edition, Rule
from filmreview.rules.handbook import Handbook, handbook
from filmreview.rules.library import adoption_named, book_named


@dataclass(frozen=True)
class Said:
    """A paragraph. head: "" for one that follows the paragraph before."""

    head: str
    words: str


@dataclass(frozen=True)
class RuleText:
    """A rule for reading. now: what holds on the game's day. changes: the other editions, the newest first, and what the
    adoption changes."""

    code: str
    title: str
    now: tuple[Said, ...]
    changes: tuple[Said, ...]


@dataclass(frozen=True)
class _Library:
    """The book as it stands on a game's day. changed: the rules with the adoption laid over them, by code."""

    book: Book
    adoption: Adoption | None
    day: date
    level: str
    shown: Handbook
    changed: Mapping[str, Rule]


class RuleReaderPresenter:
    """The rules of the open review's book. Events: "rules" when book, day or adoption have changed, "rule" when another rule is
    to be read."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.events = Events("rules", "rule")
        self.code = ""
        self.wanted = ""
        """What to look for when it is opened; "" for all rules."""
        self._of: tuple[object, ...] = ()
        self._library: _Library | None = None
        desk.events.on("review", self._review_changed)

    def head(self) -> str:
        """Which book, edition, day, level, adoption."""
        library = self._read()
        if library is None:
            return "No book to read: open a review first."
        edition = library.book.season(library.day)
        adopted = f", adopted: {library.adoption.title}" if library.adoption else ""
        return f"{library.book.title}, edition {edition}, game of {library.day}, {library.level}{adopted}"

    def rules(self, text: str = "") -> tuple[tuple[str, str], ...]:
        """Code and title of the rules that hold every word typed, by title: those in force, and those set aside or to come."""
        library = self._read()
        if library is None:
            return ()
        words = text.casefold().split()
        found = [rule for rule in library.changed.values() if all(word in _searched(rule) for word in words)]
        return tuple((rule.code, _listed(rule, library)) for rule in sorted(found, key=lambda rule: rule.title))

    def read(self, code: str) -> None:
        """This rule is to be read."""
        self.code, self.wanted = code, ""
        self.events.tell("rule")

    def look_for(self, text: str) -> None:
        """No one rule: the list of those that hold these words."""
        self.code, self.wanted = "", text
        self.events.tell("rule")

    def text(self) -> RuleText | None:
        """The rule to read; None when it is not in the book."""
        library = self._read()
        rule = library.changed.get(self.code) if library else None
        if library is None or rule is None:
            return None
        return RuleText(rule.code, rule.title, tuple(_now(rule, library)), tuple(_changes(rule, library)))

    def _read(self) -> _Library | None:
        review = self._desk.review
        game = review.game if review else None
        of = (game.book, game.adoption, game.day, game.level) if game else ()
        if of != self._of:
            self._of = of
            try:
                self._library = _library(game) if game else None
            except FilmReviewError as error:  # told; the reader says that there is nothing to read
                self._library = None
                self._desk.message(str(error))
        return self._library

    def _review_changed(self) -> None:
        review, before = self._desk.review, self._of
        game = review.game if review else None
        if before != ((game.book, game.adoption, game.day, game.level) if game else ()):
            self.events.tell("rules")


def _library(game: Game) -> _Library:
    book = book_named(game.book)
    adoption = None if game.adoption is None else adoption_named(game.adoption, book)
    level = game.level or book.level
    rules = adoption.rules_of(book, game.day, level) if adoption else book.rules
    here = {rule.code: rule for rule in rules if not rule.levels or level in rule.levels}
    return _Library(book, adoption, game.day, level, handbook(book, game.day, None, adoption, level), here)


def _searched(rule: Rule) -> str:
    parts = [rule.code.replace("-", " "), rule.title]
    parts += [part for edition in rule.editions for part in (edition.says, edition.reference, *edition.items)]
    return " ".join(parts).casefold()


def _listed(rule: Rule, library: _Library) -> str:
    entry = next((one for one in library.shown.entries if one.rule.code == rule.code), None)
    if rule.waived:
        return f"{rule.title} (set aside by the adoption)"
    if entry is None:
        return f"{rule.title} (not in force that day)"
    news = [word for word, is_so in (("new that season", entry.changed), ("ahead", entry.ahead is not None)) if is_so]
    return f"{rule.title} ({', '.join(news)})" if news else rule.title


def _now(rule: Rule, library: _Library) -> list[Said]:
    edition = rule.on(library.day)
    if rule.waived and library.adoption:
        said = [
            Said(f"Set aside on {library.day}", f"The adoption {library.adoption.title} sets it aside. The book itself says:")
        ]
    else:
        said = [Said(f"On the game's day, {library.day}", "")]
    if edition is None:
        words = "The book here has no text for that day." if rule.before == "no text" else "No such rule yet."
        return [*said, Said("", _begins(library.book) if library.day < library.book.first_day else words)]
    said += [Said("", _says(edition)), Said("", _source(edition, library.book)), *_costs(edition, library)]
    unseen = library.book.unseen_on(library.day)
    if unseen:
        said.append(Said("Not seen", unseen.says))
    return [*said, Said("", STUDY_AID)]


def _costs(edition: Edition, library: _Library) -> list[Said]:
    group = library.book.groups.get(edition.group)
    if group is None or edition.kind != "checks":
        return []
    if library.adoption:
        group = library.adoption.group_of(group, library.day, library.level)
    cost = group.on(library.day)
    if cost is None:
        return []
    adopted = f" As adopted by {group.adoption}." if group.adoption else ""
    return [Said("Consequence", f"{group.title}: {cost.costs}; {group.says_of(cost)} (rule {cost.reference}).{adopted}")]


def _changes(rule: Rule, library: _Library) -> list[Said]:
    now = rule.on(library.day)
    said = [] if library.adoption is None else _adopted(rule, library.adoption, library)
    editions = [one for one in reversed(rule.editions) if one is not now]
    for edition in editions:
        said.append(Said(_when(edition, rule, library.day), f"{_says(edition)} ({edition.reference})"))
    if not editions:
        said.append(Said("", f"It has read so since {rule.editions[0].starts}, as far as the book here goes back."))
    else:
        said.append(Said(f"Before {rule.editions[0].starts}", _before(rule, library.book)))
    return said


def _before(rule: Rule, book: Book) -> str:
    """What the book here tells of the days before a rule's first edition; of those before its own first day, nothing."""
    if rule.editions[0].starts <= book.first_day:
        return _begins(book)
    return "The book here has no text." if rule.before == "no text" else "No such rule."


def _begins(book: Book) -> str:
    return f"The book here begins on {book.first_day}; it does not tell of earlier days."


def _when(edition: Edition, rule: Rule, day: date) -> str:
    """From when an edition that does not hold on the day holds, or until when it held: up to the one after it."""
    if edition.starts > day:
        known = edition.published is not None and edition.published <= day
        return f"Later, from {edition.starts}" + (f" (known since {edition.published})" if known else "")
    ended = min(one.starts for one in rule.editions if one.starts > edition.starts)
    return f"From {edition.starts} until {ended}"


def _adopted(rule: Rule, adoption: Adoption, library: _Library) -> list[Said]:
    """What the adoption does to this rule on the day."""
    if rule.adoption != adoption.code:
        return [Said(f"Adopted: {adoption.title}", "It leaves this rule as it is.")]
    mine = [one for one in adoption.changes if one.rule == rule.code and one.counts(library.day, library.level)]
    if not mine and rule not in adoption.rules:
        return [Said(f"Adopted: {adoption.title}", f"It sets limits of its own for colours ({adoption.source}).")]
    if not mine:
        return [Said(f"Adopted: {adoption.title}", f"It adds this rule ({adoption.source}).")]
    return [
        Said(f"Adopted: {adoption.title}", ("It sets this rule aside" if one.waive else _set(one.values)) + f" ({one.source}).")
        for one in mine
    ]


def _set(values: Mapping[str, Any]) -> str:
    return "It sets " + "; ".join(f"{key.replace('_', ' ')}: {_value(value)}" for key, value in values.items())


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Sequence) and not isinstance(value, str):
        named = [_value(one) for one in value]
        return ", ".join(named) if len(named) <= 12 else f"{', '.join(named[:6])} ... {named[-1]}"
    return str(value)


def _says(edition: Edition) -> str:
    if edition.kind == "repealed":
        return f"No longer a rule since {edition.starts}."
    return edition.says


def _source(edition: Edition, book: Book) -> str:
    parts = [f"rule {edition.reference}", f"so since {edition.starts} ({book.season(edition.starts)})"]
    parts += [edition.source, MARK_WORDS.get(edition.mark, edition.mark)]
    text = "; ".join(part for part in parts if part)
    return text[:1].upper() + text[1:] + "."
