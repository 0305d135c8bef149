"""The plan of a lesson: which questions in which order, and how they are shown. It is kept in the review as JSON.

Everything here is a choice of a person; what the book says is asked of the rules each time the lesson is made.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields, replace
from fractions import Fraction
from typing import Any

from filmreview.errors import FilmReviewError, unknown
from filmreview.lessons.clip import VERSIONS
from filmreview.lessons.question import LONGEST_ASKED

FORM = 1
ONE_FILM, SINGLE_FILES = "one film", "single files"
LAYOUTS: tuple[str, ...] = (ONE_FILM, SINGLE_FILES)
MARKS: tuple[str, ...] = ("dim", "outline", "no mark")
"""How the item is marked on the held frame: all else dimmed, a line around it, or not at all."""
KEPT, MUTED = "kept", "muted"
SOUNDS: tuple[str, ...] = (KEPT, MUTED)
HEIGHTS: tuple[int, ...] = (360, 480, 540, 720, 1080)
"""Lines of the written pictures; a smaller film is not enlarged."""
PAGE_HEIGHT = 540
"""Lines of the clips inside the page: what a laptop shows beside the question, at half the bytes of 720."""
LONGEST_TITLE = 120
LONGEST_END = 400
_SECONDS: Mapping[str, tuple[int, int]] = {
    "lead_in": (0, 60), "slow": (0, 60), "hold": (1, 120), "answer": (1, 120), "after": (0, 60), "card": (0, 30),
}  # fmt: skip


@dataclass(frozen=True)
class Settings:
    """How every question is shown. Seconds, exact: lead_in before the moment; slow: the last of them at half speed; hold: the
    question on the held frame; answer: the ruling on the held frame; after: played on when the hold is over; card: each title
    and end card at least (longer words are held longer), 0 for none. mark, sound, layout, versions, height: of the lists above.
    page: also write the page."""

    lead_in: Fraction = Fraction(4)
    slow: Fraction = Fraction(0)
    hold: Fraction = Fraction(6)
    answer: Fraction = Fraction(8)
    after: Fraction = Fraction(1)
    card: Fraction = Fraction(4)
    mark: str = "dim"
    inset: bool = True
    sound: str = KEPT
    layout: str = ONE_FILM
    versions: tuple[str, ...] = VERSIONS
    height: int = 720
    page: bool = True


@dataclass(frozen=True)
class AskTag:
    """A question made from a tag. own: the instructor's own words for it, "" for the usual ones."""

    tag: str
    own: str = ""


@dataclass(frozen=True)
class AskSituation:
    """A question made from a thing seen in a situation file. path: where it was read, absolute. text: what it held, so that the
    lesson can be made again without it. seen: the id of the thing seen."""

    path: str
    text: str
    seen: str
    own: str = ""


Ask = AskTag | AskSituation


@dataclass(frozen=True)
class LessonPlan:
    """The whole plan. end: words of the end card."""

    title: str
    asks: tuple[Ask, ...]
    settings: Settings = Settings()
    end: str = ""

    def checked(self) -> LessonPlan:
        """The same plan; raises FilmReviewError in one line for what cannot be."""
        _check_words("title", self.title, LONGEST_TITLE)
        _check_words("words of the end card", self.end, LONGEST_END)
        if not self.title.strip():
            raise FilmReviewError("the lesson has no title", todo="give it one")
        if not self.asks:
            raise FilmReviewError("the lesson asks nothing", todo="choose at least one finding or situation")
        for ask in self.asks:
            _check_words("question", ask.own, LONGEST_ASKED)
        check_settings(self.settings)
        return self


def check_settings(settings: Settings) -> Settings:
    """The same settings; raises FilmReviewError for a value outside its list or limits."""
    for name, (least, most) in _SECONDS.items():
        value = getattr(settings, name)
        if not least <= value <= most:
            todo = f"give {least} to {most} seconds"
            raise FilmReviewError(f"{setting_words(name)} of {float(value):g} seconds", where="lesson", todo=todo)
    if settings.slow > settings.lead_in:
        raise FilmReviewError("more slow motion than lead-in", where="lesson", todo="give as much lead-in or less slow motion")
    for name, value, known in (
        ("mark", settings.mark, MARKS), ("sound", settings.sound, SOUNDS), ("layout", settings.layout, LAYOUTS),
        *(("version", one, VERSIONS) for one in settings.versions),
        ("height", str(settings.height), [str(one) for one in HEIGHTS]),
    ):  # fmt: skip
        if value not in known:
            raise unknown(name, value, known, where="lesson")
    if not settings.versions and not settings.page:
        raise FilmReviewError("nothing is to be written", where="lesson", todo="choose a version, or the page")
    return settings


def setting_words(name: str) -> str:
    """A setting's name for people: "lead-in"."""
    return {"lead_in": "lead-in", "slow": "slow motion", "after": "play after the hold", "card": "cards"}.get(name, name)


def plan_to_text(plan: LessonPlan) -> str:
    """The plan as JSON text."""
    settings = {name: str(value) if isinstance(value, Fraction) else value for name, value in asdict(plan.settings).items()}
    asks = [{name: value for name, value in asdict(ask).items() if value != ""} for ask in plan.asks]
    data = {"form": FORM, "title": plan.title, "ask": asks, "settings": settings, "end": plan.end}
    return json.dumps(data, ensure_ascii=False, indent=1)


def plan_from_text(text: str, where: str = "lesson") -> LessonPlan:
    """The inverse of `plan_to_text`, checked; raises FilmReviewError for anything else."""
    try:
        data = json.loads(text)
        if data["form"] != FORM:
            raise FilmReviewError(f"a plan of form {data['form']}", where=where, todo="open it with the version that made it")
        plan = LessonPlan(str(data["title"]), tuple(map(_ask, data["ask"])), _settings(data["settings"]), str(data["end"]))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError, ZeroDivisionError) as error:
        raise FilmReviewError("this is not the plan of a lesson", where=where, todo="make the lesson anew") from error
    return plan.checked()


def _ask(data: Mapping[str, str]) -> Ask:
    given = {name: str(value) for name, value in data.items()}
    return AskTag(**given) if "tag" in given else AskSituation(**given)


def _settings(data: Mapping[str, Any]) -> Settings:
    known = {one.name: one for one in fields(Settings)}
    made = Settings()
    for name, value in data.items():
        kept = getattr(made, known[name].name)
        if isinstance(kept, Fraction):
            value = Fraction(str(value))  # noqa: PLW2901 - as its field holds it
        elif isinstance(kept, tuple):
            value = tuple(map(str, value))  # noqa: PLW2901
        elif type(value) is not type(kept):
            raise TypeError(name)
        made = replace(made, **{name: value})
    return made


def _check_words(what: str, text: str, most: int) -> None:
    if len(text) > most:
        raise FilmReviewError(f"the {what} has {len(text)} characters", where=text[:40], todo=f"keep to {most}")
