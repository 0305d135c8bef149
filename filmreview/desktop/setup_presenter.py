"""The set-up of a game, without a screen: what was typed into the form, what is wrong with it, and the `Game` it makes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.items import BOOKS, LEVELS, check_player
from filmreview.facts.keys import parse_value
from filmreview.review.model import TEAM_FACTS, CrewMember, Game, Team

BOOK_WORDS: Mapping[str, str] = {
    "nfhs": "NFHS (US high school)",
    "ncaa-men": "NCAA men",
    "ncaa-women": "NCAA women",
    "fiba": "FIBA",
}
KIT_WORDS: Mapping[str, str] = {
    "jersey": "Jersey",
    "trim": "Trim",
    "number_colour": "Number",
    "shorts": "Shorts",
    "undershirt": "Undershirt",
}
DAY_SHAPE = "YYYY-MM-DD"
CREW_POSITIONS = ("referee", "umpire 1", "umpire 2")


@dataclass
class TeamForm:
    """One team as typed. kit: colours by the names in TEAM_FACTS, each "" or "white" or "green, white". roster: free text.
    picked: facts picked from the film, by the same names; each counts while the kit says the colours it has."""

    name: str = ""
    kit: dict[str, str] = field(default_factory=dict)
    roster: str = ""
    picked: dict[str, Fact] = field(default_factory=dict)

    def picked_fact(self, part: str) -> Fact | None:
        """What was picked from the film for a part, None when nothing was or another colour was typed since."""
        fact = self.picked.get(part)
        return fact if fact is not None and colours_text(fact) == self.kit.get(part, "").strip() else None


@dataclass
class SetupForm:
    """The whole form as typed.

    day: as text, "2025-01-14". level: "" when left open. adoption: "" for none, a name or a path. crew: position and name.
    """

    day: str
    level: str = ""
    book: str = "nfhs"
    adoption: str = ""
    observer: str = ""
    home: TeamForm = field(default_factory=TeamForm)
    visitor: TeamForm = field(default_factory=TeamForm)
    crew: tuple[tuple[str, str], ...] = ()

    def team(self, side: str) -> TeamForm:
        """The form of "home" or "visitor"."""
        return self.home if side == "home" else self.visitor


@dataclass(frozen=True)
class Problem:
    """What stands in the way. field: the name of the form's part, for example "visitor.jersey". words: one sentence."""

    field: str
    words: str


def read_day(text: str) -> date:
    """The day written as year, month and day: "2025-01-14". Raises FilmReviewError for anything else."""
    text = text.strip()
    if not text:
        raise FilmReviewError("the game's day is missing", todo=f"write it as {DAY_SHAPE}")
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        raise FilmReviewError(f'"{text}" is not a day written as {DAY_SHAPE}', todo="for example 2025-01-14")
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise FilmReviewError(f"there is no day {text}", todo=f"write year, month and day: {DAY_SHAPE}") from None


def season_words(text: str) -> str:
    """The season that the day typed lies in, "season 2024-25"; "" while no day can be read."""
    try:
        day = read_day(text)
    except FilmReviewError:
        return ""
    first = day.year if day.month >= 7 else day.year - 1
    return f"season {first}-{(first + 1) % 100:02d}"


def read_roster(text: str) -> tuple[str, ...]:
    """The numbers of a roster typed or pasted: "3, 10" or lines like "14  Sambrel Doonix  12th" of which the number is kept.

    Names are not kept: most players are minors, and no ruling needs a name. Raises FilmReviewError for a line without a
    number, and for a number that stands there twice.
    """
    numbers: list[str] = []
    for line in text.splitlines():
        words = re.findall(r"[^\s,;#.]+", line)
        if not words:
            continue
        found = [word for word in words if re.fullmatch(r"\d{1,3}", word)]
        if not found:
            raise FilmReviewError(f'no number in the roster line "{line.strip()}"', todo="begin it with the player's number")
        numbers += found if len(found) == len(words) else found[:1]
    for number in numbers:
        check_player(number)
        if numbers.count(number) > 1:
            raise FilmReviewError(f"{number} stands twice in the roster", todo="leave one of them")
    return tuple(numbers)


def problems_of(form: SetupForm) -> tuple[Problem, ...]:
    """Everything that keeps the form from making a game, in the form's order; empty when it is fit."""
    found = []
    try:
        read_day(form.day)
    except FilmReviewError as error:
        found.append(Problem("day", str(error)))
    if form.book not in BOOKS:
        found.append(Problem("book", "choose a rule book"))
    if form.level and form.level not in LEVELS:
        found.append(Problem("level", "choose a level of play or leave it open"))
    for side in ("home", "visitor"):
        found += _team_problems(side, form.team(side))
    return tuple(found)


def _team_problems(side: str, team: TeamForm) -> list[Problem]:
    found = []
    if not team.name.strip():
        found.append(Problem(f"{side}.name", f"name the {side} team"))
    if not team.kit.get("jersey", "").strip():
        found.append(Problem(f"{side}.jersey", f"say the colour of the {side} jersey"))
    for part in TEAM_FACTS:
        try:
            _kit_fact(side, part, team)
        except FilmReviewError as error:
            found.append(Problem(f"{side}.{part}", str(error)))
    try:
        read_roster(team.roster)
    except FilmReviewError as error:
        found.append(Problem(f"{side}.roster", f"the {side} team: {error}"))
    return found


def colours_text(fact: Fact) -> str:
    """The colours of a kit fact as they are typed: "green, white"."""
    return ", ".join(colour.name for colour in fact.value) if isinstance(fact.value, tuple) else ""


def _kit_fact(side: str, part: str, team: TeamForm) -> Fact | None:
    text, picked = team.kit.get(part, ""), team.picked_fact(part)
    if not text.strip() or picked is not None:
        return picked
    return Fact(part, parse_value("colour", text, f"{side} {KIT_WORDS[part].casefold()}"), Origin.DECLARED)


def game_of(form: SetupForm) -> Game:
    """The game the form describes. Raises FilmReviewError with the first problem when there is one."""
    problems = problems_of(form)
    if problems:
        raise FilmReviewError(problems[0].words)
    crew = tuple(CrewMember(position.strip(), name.strip()) for position, name in form.crew if name.strip())
    return Game(
        read_day(form.day),
        form.level or None,
        form.book,
        form.adoption.strip() or None,
        _team_of("home", form.home),
        _team_of("visitor", form.visitor),
        crew,
        form.observer.strip(),
    )


def _team_of(side: str, form: TeamForm) -> Team:
    facts = {part: fact for part in TEAM_FACTS if (fact := _kit_fact(side, part, form))}
    return Team(form.name.strip(), facts, read_roster(form.roster))


def form_of(game: Game) -> SetupForm:
    """The form that makes this game again, for changing a set-up."""
    return SetupForm(
        game.day.isoformat(),
        game.level or "",
        game.book,
        game.adoption or "",
        game.observer,
        _team_form(game.home),
        _team_form(game.visitor),
        tuple((one.position, one.name) for one in game.crew),
    )


def _team_form(team: Team) -> TeamForm:
    kit = {part: colours_text(fact) for part, fact in team.facts.items()}
    picked = {part: fact for part, fact in team.facts.items() if fact.origin is not Origin.DECLARED}
    return TeamForm(team.name, kit, ", ".join(team.roster), picked)
