"""Files broken at random: every one is read or refused in one line, whatever stands in it. Nothing else is raised.

RULES_FUZZ_SECONDS sets how long; by default a few seconds.
"""

from __future__ import annotations

import json
import os
import random
import shutil
import time
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.rules.adoption import read_adoption
from filmreview.rules.cases import read_cases, run_case
from filmreview.rules.judge import judge
from filmreview.rules.library import ADOPTIONS_FOLDER, BOOKS_FOLDER, book_named
from filmreview.rules.reading import CASES, read_book
from filmreview.rules.situation import compare, read_situation, rule_situation, to_json

SECONDS = float(os.environ.get("RULES_FUZZ_SECONDS", "4"))
SEED = int(os.environ.get("RULES_FUZZ_SEED", "20261125"))
VALUES = (
    "-1", "0", "1e400", "nan", "inf", "-0.0", "99999999999999999999", "true", '""', '" "', '"x"', "[]", "{}", "[[1]]",
    "{ a = 1 }", "2024-02-29", "0001-01-01", "9999-12-31", "12:00:00", "2024-01-01T00:00:00Z", '"2024-01-01"',
    '"home"', '"visitor"', '["black"]', '"#ffffff"', '["red", "red"]', "{ value = 3, plus_minus = 0.5 }",
    "{ value = 3, plus_minus = nan }", '"0"', '"00"', '"jersey"', '{ is = "solid" }', '[ { is = "solid" } ]',
    "{ any = [ ] }", '{ is = "same_across_team" }', '{ is = "yes", fact = "hard" }', "'''a\nb'''",
    '"opponent.jersey"', '"\\u0000"', '"é"', "0x7fffffff", '[1, "a", true]', '"contrasts"', '"colour"',
    '{ is = "gap", about = "x" }',
)  # fmt: skip

SITUATION = """title = "t"
[game]
book = "nfhs"
day = 2023-12-05
level = "varsity"
adoption = "ohio-school-colour-bands"
[home]
jersey = "white"
trim = ["navy", "gold"]
[visitor]
jersey = "green"
shorts = "green"
[[seen]]
id = "a"
team = "visitor"
player = "14"
item = "arm sleeve"
colour = ["orange", "black"]
solid = false
width_in = { value = 2, plus_minus = 0.4 }
when = "playing"
[[seen]]
team = "home"
player = "7"
item = "number"
number_style = "solid"
[[event]]
at = "31:07.4"
what = "blood seen"
team = "visitor"
player = "14"
[[event]]
at = "31:20"
what = "time-out granted"
length = 60
team = "visitor"
[[event]]
at = "0:10"
what = "book number changed"
before_start = "8:00"
team = "home"
player = "3"
[[expect]]
about = "a"
ruling = "illegal"
[[expect]]
team = "home"
kind = "technical foul"
count = 1
[[expect]]
procedure = "blood"
departures = 0
"""


def broken(text: str, chance: random.Random) -> str:
    """The text with one to three edits: a value changed, a line doubled, left out or moved, a letter changed, cut short."""
    lines = text.split("\n")
    for _ in range(chance.randint(1, 3)):
        place = chance.randrange(len(lines))
        edit = chance.randrange(8)
        if edit <= 2 and "=" in lines[place]:
            lines[place] = lines[place].split("=", 1)[0] + "= " + chance.choice(VALUES)
        elif edit == 3:
            lines.insert(chance.randrange(len(lines)), lines[place])
        elif edit == 4 and len(lines) > 1:
            del lines[place]
        elif edit == 5 and len(lines) > 1:
            lines.insert(chance.randrange(len(lines)), lines.pop(place))
        elif edit == 6 and lines[place]:
            at = chance.randrange(len(lines[place]))
            lines[place] = lines[place][:at] + chance.choice('x"[]{}=.,# \t\u00e9\u0000-5') + lines[place][at + 1 :]
        elif edit == 7 and "=" in lines[place]:
            lines[place] = chance.choice(text.split("\n")).split("=", 1)[0] + "=" + lines[place].split("=", 1)[1]
    return "\n".join(lines)


class Fuzz:
    """Breaks files until the time is up; counts what was read and what refused."""

    def __init__(self) -> None:
        self.chance = random.Random(SEED)
        self.end = time.monotonic() + SECONDS
        self.read = self.refused = self.lines = 0

    def __bool__(self) -> bool:
        return time.monotonic() < self.end or self.read + self.refused < 50

    def tried(self, work: object, text: str) -> None:
        try:
            work()  # type: ignore[operator]
        except FilmReviewError as refused:
            self.refused += 1
            self.lines += "\n" in str(refused)
        except Exception as trouble:
            trouble.add_note(text)  # the file that broke it
            raise
        else:
            self.read += 1

    def done(self, what: str) -> None:
        print(f"\n{what}: {self.read} read, {self.refused} refused, seed {SEED}")
        assert self.lines == 0
        assert self.read > 0
        assert self.refused > 0


def test_situations(tmp_path: Path) -> None:
    fuzz, path = Fuzz(), tmp_path / "made.situation.toml"

    def work() -> None:
        situation = read_situation(path)
        ruled = rule_situation(situation)
        json.dumps(to_json(situation, ruled), allow_nan=False)
        compare(situation, ruled)

    while fuzz:
        text = broken(SITUATION, fuzz.chance)
        path.write_text(text, encoding="utf-8")
        fuzz.tried(work, text)
    fuzz.done("situations")


def test_books(tmp_path: Path) -> None:
    fuzz, folder = Fuzz(), tmp_path / "nfhs"
    some = (
        "book.toml",
        "sources.toml",
        "consequences.toml",
        "sleeve-colour.toml",
        "number-style.toml",
        "undershirt-colour.toml",
    )
    situation = read_situation(_written(tmp_path / "plain.situation.toml", SITUATION.replace("adoption", "# adoption", 1)))
    folder.mkdir()
    while fuzz:
        for name in some:
            shutil.copy(BOOKS_FOLDER / "nfhs" / name, folder / name)
        name = fuzz.chance.choice(some)
        text = broken((BOOKS_FOLDER / "nfhs" / name).read_text(encoding="utf-8"), fuzz.chance)
        (folder / name).write_text(text, encoding="utf-8")

        def work() -> None:
            book = read_book(folder)
            for ruling in judge(situation.setting.tags, situation.setting.teams, book, situation.day).rulings:
                assert ruling.reasons
                assert ruling.needs is not None

        fuzz.tried(work, text)
    fuzz.done("books")


def test_adoptions(tmp_path: Path) -> None:
    fuzz, path = Fuzz(), tmp_path / "made.toml"
    book = book_named("nfhs")
    paths = [one for one in sorted(ADOPTIONS_FOLDER.glob("*.toml")) if not one.name.endswith(CASES)]
    texts = [text for one in paths if 'book = "nfhs"' in (text := one.read_text(encoding="utf-8"))]
    situation = read_situation(_written(tmp_path / "plain.situation.toml", SITUATION))
    while fuzz:
        text = broken(fuzz.chance.choice(texts), fuzz.chance)
        path.write_text(text, encoding="utf-8")

        def work() -> None:
            adoption = read_adoption(path, book)
            for ruling in judge(situation.setting.tags, situation.setting.teams, book, situation.day, adoption).rulings:
                assert ruling.reasons

        fuzz.tried(work, text)
    fuzz.done("adoptions")


def test_cases(tmp_path: Path) -> None:
    fuzz, path = Fuzz(), tmp_path / "made.cases.toml"
    book = book_named("nfhs")
    texts = [one.read_text(encoding="utf-8") for one in sorted((BOOKS_FOLDER / "nfhs").glob(f"*{CASES}"))]

    def work() -> None:
        for case in read_cases(path, book.sources)[:3]:
            run_case(case, book)

    while fuzz:
        text = broken(fuzz.chance.choice(texts)[:2000].rsplit("\n\n", 1)[0], fuzz.chance)
        path.write_text(text, encoding="utf-8")
        fuzz.tried(work, text)
    fuzz.done("cases")


def _written(path: Path, text: str) -> Path:
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("seed", [1, 2])
def test_the_same_seed_breaks_the_same_way(seed: int) -> None:
    assert broken(SITUATION, random.Random(seed)) == broken(SITUATION, random.Random(seed))
