"""`filmreview replies` and `letter`: a sheet goes out, comes back, and its replies are one step of the review."""

from pathlib import Path

import openpyxl
import pytest

from filmreview.cautions import SAFETY, STUDY_AID
from filmreview.review.reading import read, read_history
from tests.commandline.conftest import Say


@pytest.fixture
def tagged(say: Say, review: Path) -> Path:
    for at, item in (("1", "arm sleeve"), ("2", "headband")):
        assert say("tag", review, "--at", at, "--team", "visitor", "--player", "14", "--item", item,
                   "--fact", "colour=orange", "--note", "ask the coach").code == 0  # fmt: skip
    assert say("crew", review, "t1", "--mark", "not seen", "--did", "Played on.", "--official", "referee").code == 0
    return review


def answer(sheet: Path, **replies: str) -> None:
    book = openpyxl.load_workbook(sheet)
    page = book["Findings"]
    heads = {str(cell.value): cell.column for cell in page[1]}
    for row in range(2, page.max_row + 1):
        tag = str(page.cell(row, heads["Tag"]).value)
        if tag in replies:
            page.cell(row, heads["Reply"]).value = replies[tag]
    book.save(sheet)


def test_replies_come_back_as_one_step(say: Say, tagged: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.xlsx"
    assert say("sheet", tagged, "--to", sheet, "--for", "crew").code == 0
    answer(sheet, t1="agreed", t2="seen otherwise")
    steps = len(read_history(tagged))
    made = say("replies", tagged, sheet, "--by", "referee")
    assert (made.code, made.told) == (0, "")
    assert made.out == "t1: agreed\nt2: seen otherwise\n2 replies, 2 of them new or changed\n"
    assert len(read_history(tagged)) == steps + 1
    assert read_history(tagged)[-1].words == "read 2 replies from sheet.xlsx"
    assert [(one.tag, one.by, one.answer) for one in read(tagged).replies] == [
        ("t1", "referee", "agreed"), ("t2", "referee", "seen otherwise"),
    ]  # fmt: skip
    again = say("replies", tagged, sheet, "--by", "referee", "--json")
    assert again.data["new_or_changed"] == 0
    assert len(read_history(tagged)) == steps + 1, "nothing new, no step"


def test_what_is_not_as_it_was_sent_is_said(say: Say, tagged: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.xlsx"
    assert say("sheet", tagged, "--to", sheet).code == 0
    assert say("tag", tagged, "--at", "1.5", "--team", "home", "--item", "jersey").code == 0
    made = say("replies", tagged, sheet)
    assert made.code == 1
    assert made.told == "no row for t3: taken out of the sheet, or tagged after it was made\n"
    refused = say("replies", tagged, sheet, "--by", "referre").line
    assert refused.endswith('unknown position "referre"; write "referee" if that is what you mean')
    assert "no such file" in say("replies", tagged, tmp_path / "none.xlsx").line


def test_the_crew_s_sheet_leaves_out_notes_and_replies(say: Say, tagged: Path, tmp_path: Path) -> None:
    for reader, holds in (("crew", False), ("coordinator", True)):
        sheet = tmp_path / f"{reader}.csv"
        assert say("sheet", tagged, "--to", sheet, "--for", reader).code == 0
        assert ("ask the coach" in sheet.read_text(encoding="utf-8")) is holds
    assert 'unknown reader "crow"; write "crew"' in say("sheet", tagged, "--to", tmp_path / "a.csv", "--for", "crow").line


def test_a_letter_is_printed_written_and_built_again(say: Say, tagged: Path, tmp_path: Path) -> None:
    printed = say("letter", tagged, "referee")
    to, head, one, caution = printed.out.splitlines()
    assert (caution, printed.told) == (STUDY_AID, "")
    assert to == "To Idrun Mosswell, referee. 1 of the 2 findings of this game is yours."
    assert head == "To talk about:"
    assert one.startswith("- No 1 at ")
    text = tmp_path / "letter.txt"
    text.write_text("Look at the sleeves first.\n", encoding="utf-8")
    assert say("letter", tagged, "referee", "--from", text).out == f"Look at the sleeves first.\n{STUDY_AID}\n"
    assert say("letter", tagged, "referee").out == f"Look at the sleeves first.\n{STUDY_AID}\n"
    sheet = tmp_path / "sheet.csv"
    assert say("sheet", tagged, "--to", sheet.with_suffix(".json")).code == 0
    assert "Look at the sleeves first." in sheet.with_suffix(".json").read_text(encoding="utf-8")
    assert say("letter", tagged, "referee", "--anew").out == printed.out
    text.write_text(" \n")
    assert "the text is empty" in say("letter", tagged, "referee", "--from", text).line
    text.write_bytes(b"\xff\xfe\x00")
    assert "this is no text in UTF-8" in say("letter", tagged, "referee", "--from", text).line
    assert 'unknown position "umpire"' in say("letter", tagged, "umpire").line


def test_an_official_is_set_and_taken_away(say: Say, tagged: Path) -> None:
    assert [one.position for one in read(tagged).officials] == ["referee"]
    assert say("crew", tagged, "t1", "--mark", "late", "--official", "").code == 0
    assert read(tagged).officials == ()
    assert 'unknown position "umpire"' in say("crew", tagged, "t1", "--mark", "late", "--official", "umpire").line


def test_a_letter_says_how_a_tag_becomes_an_officials_and_carries_the_safety_words(say: Say, tagged: Path) -> None:
    assert say("crew", tagged, "t1", "--mark", "late", "--official", "").code == 0
    none = say("letter", tagged, "referee")
    assert none.told == "no finding of referee yet: filmreview crew REVIEW TAG --mark MARK --official referee\n"
    assert SAFETY not in none.out
    assert say("tag", tagged, "--at", "1", "--team", "home", "--item", "jewelry").code == 0
    assert say("crew", tagged, "t3", "--mark", "late", "--official", "referee").code == 0
    assert say("letter", tagged, "referee").out.splitlines()[3:] == [STUDY_AID, SAFETY]


def test_one_reply_is_no_replies(say: Say, tagged: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.xlsx"
    assert say("sheet", tagged, "--to", sheet).code == 0
    answer(sheet, t1="agreed")
    assert say("replies", tagged, sheet).out == "t1: agreed\n1 reply, 1 of them new or changed\n"
    assert read_history(tagged)[-1].words == "read 1 reply from sheet.xlsx"
