"""filmreview books: what ships, what is in force on a day, checking a book of one's own."""

import shutil
from html.parser import HTMLParser
from pathlib import Path

import pytest

from filmreview.rules.library import BOOKS_FOLDER
from tests.commandline.conftest import Say


def rules_on(say: Say, day: str, *more: str) -> dict[str, dict]:
    return {one["rule"]: one for one in say("books", "show", "nfhs", "--day", day, "--json", *more).data["rules"]}


def test_the_books_and_adoptions_that_ship_are_listed(say: Say) -> None:
    data = say("books", "list", "--json").data
    assert {one["code"] for one in data["books"]} == {"nfhs", "ncaa-men", "ncaa-women", "fiba"}
    ohio = next(one for one in data["adoptions"] if one["code"] == "ohio-school-colour-bands")
    assert ohio["book"] == "nfhs"
    assert ohio["source"]


def test_a_change_shows_on_its_first_day_with_what_was_before_and_as_ahead_on_earlier_days(say: Say) -> None:
    """NFHS 2024-25 number style (press release of 15 May 2019, see the book's sources)."""
    eve, first = rules_on(say, "2024-06-30")["number-style"], rules_on(say, "2024-07-01")["number-style"]
    assert (eve["changed_this_season"], first["changed_this_season"]) == (False, True)
    assert eve["ahead"] == {"from": "2024-07-01", "says": first["says"]}
    assert first["before"] == eve["says"] != first["says"]
    assert rules_on(say, "2019-05-14")["number-style"]["ahead"] is None


def test_one_item_shows_only_rules_about_it(say: Say) -> None:
    shown = rules_on(say, "2024-01-09", "--item", "headband")
    assert shown
    assert all("headband" in one["items"] for one in shown.values())
    assert len(shown) < len(rules_on(say, "2024-01-09"))


def test_words_data_and_page_say_the_same(say: Say, tmp_path: Path) -> None:
    words = say("books", "show", "nfhs", "--day", "2024-07-01").out
    page = tmp_path / "rules.html"
    assert say("books", "show", "nfhs", "--day", "2024-07-01", "--html", page).code == 0
    text = _text(page.read_text(encoding="utf-8"))
    assert ", edition 2024-25, in force on 2024-07-01 (" in words
    assert ", edition 2024-25" in text
    for told in (words, text):
        assert "Consequence" in told
        assert not any(old in told for old in ("What a breach costs", "season 2024-25"))
    for one in rules_on(say, "2024-07-01").values():
        assert one["title"] in words
        assert one["title"] in text
        if one["state"] not in ("repealed", "no text"):
            assert one["says"] in words
            assert one["says"] in text


OWN = """
code = "own-league-bands"
title = "Own league: bands may have a colour of the trim"
book = "nfhs"
source = "letter of the league, 3 September 2025"
mark = "published"
checked = 2025-09-03
from = 2025-09-03
[[change]]
rule = "band-colour"
check = "one_of_colours"
set = { team = ["jersey", "trim"] }
"""


def test_what_an_adoption_changes_is_told_as_its_own_and_the_book_keeps_its_source(say: Say, tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text(OWN, encoding="utf-8")
    book, adopted = rules_on(say, "2025-10-01"), rules_on(say, "2025-10-01", "--adoption", str(own))
    plain, changed = book["band-colour"], adopted["band-colour"]
    assert {key: changed[key] for key in ("says", "reference", "source", "mark", "from")} == {
        key: plain[key] for key in ("says", "reference", "source", "mark", "from")
    }
    letter = "letter of the league, 3 September 2025"
    what = "changes allowed colours of the team: jersey, trim (in the book: jersey)"
    assert changed["adopted"] == [{"what": what, "source": letter, "mark": "published"}]
    assert [code for code, one in adopted.items() if one["adopted"]] == ["band-colour"]
    page = tmp_path / "rules.html"
    shown = ("books", "show", "nfhs", "--day", "2025-10-01", "--adoption", own)
    assert say(*shown, "--html", page).code == 0
    for text in (say(*shown).out, _text(page.read_text(encoding="utf-8"))):
        assert f"the adoption own-league-bands {what} (published: {letter})" in text
        assert plain["source"] in text
    early = say("books", "show", "nfhs", "--day", "2025-09-02", "--adoption", own)
    assert "The adoption own-league-bands is not in force on 2025-09-02" in early.out
    assert "changes allowed colours" not in early.out


def test_a_rule_set_aside_and_one_added_are_told(say: Say) -> None:
    """As the adoption that ships says: home white waived, and the home team changes when both wear one colour."""
    more = ("--adoption", "tennessee-middle-school-home-white", "--level", "middle school")
    shown = rules_on(say, "2024-01-09", *more)
    aside, added = shown["jersey-colour"], shown["home-changes-on-a-clash"]
    assert (aside["state"], [one["what"] for one in aside["adopted"]]) == ("set aside", ["sets this rule aside"])
    assert [one["what"] for one in added["adopted"]] == ["adds this rule"]
    assert rules_on(say, "2024-01-09")["jersey-colour"]["state"] == "checks"


def test_what_an_adoption_changes_in_what_a_breach_costs_is_told(say: Say) -> None:
    shown = say("books", "show", "nfhs", "--day", "2015-01-09", "--adoption", "north-carolina-pilot-2014", "--json").data
    costs = {one["group"]: one for one in shown["costs"]}
    (changed,) = costs["equipment"]["adopted"]
    assert changed["what"].startswith("leaves open which reading counts: fix or leave, as the book says; or: ")
    assert costs["equipment"]["source"] != changed["source"]
    assert costs["blood"]["adopted"] == []


def test_the_page_loads_nothing_and_runs_nothing(say: Say, tmp_path: Path) -> None:
    say("books", "show", "nfhs", "--day", "2024-07-01", "--html", tmp_path / "rules.html")
    source = (tmp_path / "rules.html").read_text(encoding="utf-8")
    for word in ("<script", "http:", "https:", "src=", "@import", "url("):
        assert word not in source


def test_a_book_of_ones_own_is_checked_with_its_cases(say: Say, tmp_path: Path) -> None:
    own = tmp_path / "nfhs"
    shutil.copytree(BOOKS_FOLDER / "nfhs", own)
    assert say("books", "check", own).code == 0
    rule = own / "headband-size.toml"
    text = rule.read_text(encoding="utf-8")
    assert "limit = 3" in text
    rule.write_text(text.replace("limit = 3", "limit = 4"), encoding="utf-8")
    answer = say("books", "check", own)
    assert answer.code == 1
    assert "headband-size.cases.toml" in answer.told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["show", "nfsh"], 'unknown book "nfsh"; write "nfhs" if that is what you mean'),
        (["show", "nfhs", "--day", "tomorrow"], '--day: "tomorrow" is not a day; write YYYY-MM-DD'),
        (["show", "nfhs", "--item", "head band"], '--item: unknown item "head band"; write "headband"'),
        (["show", "nfhs", "--adoption", "ohio"], '--adoption: unknown adoption "ohio"'),
        (["check", "missing"], "missing: there is no such file or folder"),
        (["check", __file__], "this is no adoption"),
    ],
)
def test_bad_words(say: Say, words: list[str], told: str) -> None:
    answer = say("books", *words)
    assert answer.code == 2
    assert told in answer.line


class _Text(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.parts: list[str] = []

    def handle_data(self, data: str) -> None:
        self.parts.append(data)


def _text(source: str) -> str:
    reader = _Text()
    reader.feed(source)
    return "".join(reader.parts)
