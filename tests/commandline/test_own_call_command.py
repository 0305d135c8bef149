"""`filmreview call` and `calls`: rulings hidden, an own call, both rulings, the score."""

from pathlib import Path

import pytest

from filmreview.review.reading import read, read_history
from tests.commandline.conftest import Say


@pytest.fixture
def hidden(say: Say, review: Path) -> Path:
    """An orange sleeve with a green jersey is illegal (worked example of the situation format); a black headband is legal."""
    for item, colour in (("arm sleeve", "orange"), ("headband", "black")):
        made = say(
            "tag", review, "--at", "1", "--team", "visitor", "--player", "14", "--item", item, "--fact", f"colour={colour}"
        )
        assert made.code == 0
    assert say("calls", review, "--hide").code == 0
    return review


def test_findings_tell_only_what_was_called(say: Say, hidden: Path) -> None:
    told = say("findings", hidden)
    assert told.code == 0
    assert told.told.splitlines() == [
        "rulings of t1, t2 are hidden until your own call: filmreview call",
        "penalties, choices and procedures are left out until then",
    ]
    assert "ILLEGAL" not in told.out
    document = say("findings", hidden, "--json")
    assert (document.data["rulings"], document.data["hidden"]) == ([], ["t1", "t2"])
    assert document.told == told.told
    assert say("call", hidden, "t1", "--ruling", "illegal").code == 0
    data = say("findings", hidden, "--json").data
    assert ([one["id"] for one in data["rulings"]], data["hidden"]) == (["t1"], ["t2"])


def test_both_rulings_after_the_call(say: Say, hidden: Path) -> None:
    made = say("call", hidden, "t1", "--ruling", "illegal", "--consequence", "technical foul", "--words", "orange on green")
    lines = made.out.splitlines()
    assert lines[0] == "t1: visitor 14, arm sleeve at 0:00.984: CONSEQUENCE DIFFERED"
    assert lines[1] == "    your call: illegal, technical foul"
    assert lines[2].startswith("    the book: illegal, fix or leave (")
    assert lines[3] == "    your words: orange on green"
    assert say("call", hidden, "t1", "--take-back").out == "t1: no call of yours; the ruling is hidden until your own call\n"
    assert [step.words for step in read_history(hidden)][-2:] == ["own call on t1: illegal", "remove the own call on t1"]


def test_the_score(say: Say, hidden: Path) -> None:
    for tag in ("t1", "t2"):
        assert say("call", hidden, tag, "--ruling", "illegal", "--consequence", "fix or leave").code == 0
    told = say("calls", hidden)
    assert told.out.splitlines()[0] == "rulings are hidden until your own call; own calls: 1 of 2 agreed, 1 differed"
    assert "  headband: 0 of 1 agreed, 1 differed" in told.out
    data = say("calls", hidden, "--json").data
    assert data["whole"] == {"agreed": 1, "consequence differed": 0, "differed": 1, "cannot be told": 0}
    assert [(one["tag"], one["outcome"]) for one in data["calls"]] == [("t1", "agreed"), ("t2", "differed")]
    assert data["without_call"] == []


def test_showing_all_again(say: Say, hidden: Path) -> None:
    assert say("calls", hidden, "--show").out.splitlines() == [
        "rulings are shown; own calls: no call of yours yet", "  without your call: t1, t2"
    ]  # fmt: skip
    assert not read(hidden).game.rulings_hidden
    assert "ILLEGAL" in say("findings", hidden).out


def test_no_sheet_and_no_letter_while_rulings_are_hidden(say: Say, hidden: Path, tmp_path: Path) -> None:
    for words in (("sheet", hidden, "--to", tmp_path / "sheet.html"), ("letter", hidden, "referee")):
        line = say(*words).line
        assert "rulings are hidden until your own call on t1, t2; give your calls, or show the rulings" in line
    assert not (tmp_path / "sheet.html").exists()


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("t9", "--ruling", "legal"), 'unknown tag "t9"'),
        (("t1", "--ruling", "ilegal"), 'unknown ruling "ilegal"; write "illegal" if that is what you mean'),
        (("t1", "--ruling", "legal", "--consequence", "foul"), 'unknown consequence "foul"'),
        (("t1", "--take-back", "--words", "no"), "a call that is taken back has no consequence or words"),
        (("t1",), "one of the arguments --ruling --take-back is required"),
    ],
)
def test_bad_words_are_one_line(say: Say, hidden: Path, words: tuple[str, ...], line: str) -> None:
    refused = say("call", hidden, *words)
    assert refused.code == 2
    assert line in refused.line
    assert read(hidden).own_calls == ()


def test_an_open_consequence_is_not_told_as_an_open_ruling(say: Say, review: Path) -> None:
    """A uniform found on somebody of whom it is not known whether he plays yet: NFHS 10-6-4 as the book here has it."""
    number = ("--team", "visitor", "--player", "27", "--item", "number", "--fact", "number=27")
    assert say("tag", review, "--at", "1", *number).code == 0
    (ruling,) = say("findings", review, "--json").data["rulings"]
    assert (ruling["ruling"], ruling["consequence"]) == ("illegal", "cannot be told")
    assert ": ILLEGAL, what follows cannot be told (" in say("findings", review).out
    made = say("call", review, "t1", "--ruling", "illegal", "--consequence", "none").out.splitlines()
    assert made[1] == "    your call: illegal, none"
    assert made[2].startswith("    the book: illegal, what follows cannot be told (")
