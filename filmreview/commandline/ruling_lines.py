"""Rulings as lines of text for a terminal, from the JSON form of `filmreview.rules.situation.to_json`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from filmreview.cautions import SAFETY, STUDY_AID, is_safety
from filmreview.commandline.answers import counted
from filmreview.facts.keys import KEYS
from filmreview.facts.stored import fact_from_json
from filmreview.rules.procedures.laid_down import title_of
from filmreview.rules.procedures.missing_words import missing_words
from filmreview.rules.procedures.result import Missing
from filmreview.rules.ruling import Todo
from filmreview.rules.todo_words import todo_line
from filmreview.sheets.sheet_words import follows_words


def lines_of(document: Mapping[str, Any]) -> list[str]:
    """Title, book and day, then every ruling, penalty, choice and departure, each with its reasons."""
    title = document.get("title") or "Situation"
    adoption = f", adoption {document['adoption']}" if document.get("adoption") else ""
    films = document.get("films") or ()
    lines = [f"{title} ({document['book']} {document['edition']}, game of {document['day']}{adoption})"]
    if len(films) > 1:
        lines += [f"  film {film['id']}: {film['name']}" for film in films]
    for ruling in document["rulings"]:
        lines += ruling_lines(ruling, len(films) > 1)
    lines += [_penalty(one) for one in document.get("penalties") or ()]
    lines += [f"  {one}" for one in document.get("disputed") or ()]
    lines += _choices(document.get("choices") or ())
    return [*lines, *_procedure(document.get("procedure"), document["book"]), *_cautions(document)]


def ruling_lines(ruling: Mapping[str, Any], name_film: bool = False) -> list[str]:
    """One ruling: what it is, why, what the crew did, what could still change it, what is ahead."""
    who = " ".join(str(part) for part in (ruling.get("team"), ruling.get("player")) if part)
    head = f"  {ruling['id']}: {who} {ruling['item']}{_at(ruling, name_film)}: {ruling['ruling'].upper()}"
    head += behind_ruling(ruling["ruling"], ruling.get("consequence"))
    rest = ", ".join(str(part) for part in (ruling.get("reference"), ruling.get("mark")) if part)
    lines = [head + (f" ({rest})" if rest else "")]
    lines += [f"      {reason}" for reason in ruling.get("reasons") or ()]
    asked = _asked(ruling)
    lines += [f"      the book asks: {asked}"] if asked else []
    if "crew" in ruling:
        lines += [f"      {line}" for line in _crew_lines(ruling)]
    # Presumed ones are left to the JSON form: the reasons already name them ("taken as ordinary").
    needs = [need for need in ruling.get("needs") or () if not need["presumed"]]
    lines += [f"      would change it: {need['why']}" for need in needs]
    lines += [f"      ahead: {one['ruling']} from {one['from']} ({one['reference']})" for one in ruling.get("ahead") or ()]
    return lines


def behind_ruling(ruling: str, consequence: str | None) -> str:
    """What follows, to stand behind a ruling: ", technical foul", ", what follows cannot be told"; "" where nothing does."""
    follows = follows_words(ruling, consequence or "none")
    return f", {follows}" if follows else ""


def _asked(ruling: Mapping[str, Any]) -> str:
    playing = any(fact["key"] == "in_play" and fact["value"] is True for fact in ruling.get("facts") or ())
    return todo_line((Todo(one["found"], one["what"]) for one in ruling.get("todo") or ()), playing)


def _at(ruling: Mapping[str, Any], name_film: bool) -> str:
    if not ruling.get("time"):
        return ""
    return f" at {ruling['film']} {ruling['time']}" if name_film else f" at {ruling['time']}"


def _crew_lines(ruling: Mapping[str, Any]) -> list[str]:
    crew = ruling["crew"]
    parts = [f"at {crew['time']}" if crew["time"] else "", crew["did"]] if crew else []
    said = "crew: " + ", ".join([crew["mark"] if crew else "not marked", *filter(None, parts)])
    return [said, *([f"note: {ruling['note']}"] if ruling["note"] else [])]


def _cautions(document: Mapping[str, Any]) -> list[str]:
    """The study aid, and the safety words where a ruling or a procedure is about a safety matter."""
    told = []
    for one in document["rulings"]:
        own = [fact_from_json(fact) for fact in one["facts"] if fact["key"] in KEYS]  # the others are what a team declared
        told += [SAFETY] if is_safety(one["item"], own) else []
    followed = (document.get("procedure") or {"names": ()})["names"]
    if any(word in name for name in followed for word in ("blood", "injury", "concussion")):
        told.append(SAFETY)
    return [f"  {line}" for line in dict.fromkeys([*told, STUDY_AID])]


def _penalty(penalty: Mapping[str, Any]) -> str:
    kind = counted(penalty["count"], penalty["kind"])
    throws = penalty.get("free_throws")
    tail = f", {counted(throws, 'free throw')}" if throws else ""
    return f"  {kind} to {penalty['team']}, charged to {penalty['charged_to']}{tail}"


def _choices(choices: Iterable[Mapping[str, Any]]) -> list[str]:
    """The choices of each team; rules that leave the same choices share them."""
    rules: dict[tuple[str, tuple[tuple[str, tuple[str, ...]], ...]], list[str]] = {}
    for choice in choices:
        options = tuple((option["keep"], tuple(option["change"])) for option in choice["options"])
        rules.setdefault((choice["team"], options), []).append(choice["rule"])
    lines = []
    for (team, options), named in rules.items():
        lines.append(f"  {team} must choose ({', '.join(named)}):")
        lines += [f"      keep {keep}: {', '.join(change) or 'nobody'} must change" for keep, change in options]
    return lines


def _procedure(procedure: Mapping[str, Any] | None, book: str) -> list[str]:
    if not procedure:
        return []
    untold = procedure["ruling"] == "cannot be told"
    said = procedure["ruling"] if untold else counted(len(procedure["departures"]), "departure")
    titles = "; ".join(title_of(book, name) for name in procedure["names"])
    lines = [f"  procedure {titles}: {said}"]
    lines += [f"      not known: {missing_words(Missing(**gone))}" for gone in procedure["missing"]]
    lines += [f"      {procedure['gap']}"] if procedure["gap"] else []
    for departure in procedure["departures"]:
        seconds = f", {departure['seconds']} s" if departure.get("seconds") is not None else ""
        lines.append(f"      {departure['what']}; asked: {departure['asks']} ({departure['reference']}{seconds})")
    return lines
