"""A workbook that came back: replies go to their findings, and everything that is not as it was sent is said."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.errors import FilmReviewError
from filmreview.review.crew_changes import SetReply
from filmreview.review.model import LONGEST_WORDS, REPLIES, Review
from filmreview.sheets.inert import inert
from filmreview.sheets.returned import Returned, read_returned
from filmreview.sheets.workbook import write_workbook
from tests.sheets.made_up_sheet import made_up_sheet, review_of


@pytest.fixture(scope="module")
def sent(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sheet of the made-up game for the crew, as it was sent."""
    path = tmp_path_factory.mktemp("sent") / "sheet.xlsx"
    write_workbook(replace(made_up_sheet(path.with_name("made-up-game.mp4"), "crew"), pictures=None), path)
    return path


@pytest.fixture
def review(tmp_path: Path) -> Review:
    return review_of(tmp_path / "made-up-game.mp4")


Come = Callable[[Callable[[Worksheet, dict[str, int]], object]], Path]


@pytest.fixture
def come_back(sent: Path, tmp_path: Path) -> Come:
    """The sheet after something was done to its findings page: (page, column of each head)."""

    def back(do: Callable[[Worksheet, dict[str, int]], object]) -> Path:
        path = tmp_path / "back.xlsx"
        book = openpyxl.load_workbook(sent)
        page = book["Findings"]
        do(page, {str(cell.value): cell.column for cell in page[1]})
        book.save(path)
        return path

    return back


def row_of(page: Worksheet, heads: dict[str, int], tag: str) -> int:
    return next(row for row in range(2, page.max_row + 1) if page.cell(row, heads["Tag"]).value == tag)


def put(tag: str, answer: object, words: object = None) -> Callable[[Worksheet, dict[str, int]], None]:
    def do(page: Worksheet, heads: dict[str, int]) -> None:
        row = row_of(page, heads, tag)
        page.cell(row, heads["Reply"]).value = answer
        page.cell(row, heads["Reply in words"]).value = words

    return do


def test_a_sheet_as_it_was_sent_says_nothing(sent: Path, review: Review) -> None:
    assert read_returned(sent, review) == Returned((), ())


def test_replies_go_to_their_findings_in_whatever_order_the_rows_are(come_back: Come, review: Review) -> None:
    def do(page: Worksheet, heads: dict[str, int]) -> None:
        put("t2", "agreed")(page, heads)
        put("t9", " Seen otherwise ", "  it was a chain of tape  ")(page, heads)
        put("t4", None, 12)(page, heads)
        rows = [[cell.value for cell in row] for row in page.iter_rows(min_row=2)]
        for row, values in enumerate(reversed(rows), 2):
            for column, value in enumerate(values, 1):
                page.cell(row, column).value = value

    found = read_returned(come_back(do), review, "umpire 1")
    assert found.told == ()
    assert sorted(found.replies, key=lambda one: one.tag) == [
        SetReply("t2", "umpire 1", "agreed", ""), SetReply("t4", "umpire 1", "", "12"),
        SetReply("t9", "umpire 1", "seen otherwise", "it was a chain of tape"),
    ]  # fmt: skip


def test_changed_words_are_said_and_only_the_reply_is_read(come_back: Come, review: Review) -> None:
    def do(page: Worksheet, heads: dict[str, int]) -> None:
        put("t2", "agreed")(page, heads)
        page.cell(row_of(page, heads, "t2"), heads["Ruling"]).value = "legal"

    found = read_returned(come_back(do), review)
    assert found.replies == (SetReply("t2", "", "agreed", ""),)
    (told,) = found.told
    assert told.endswith("(t2): its words were changed in the workbook; only the reply is read, the review keeps its own")


def test_missing_rows_and_strangers_are_said(come_back: Come, review: Review) -> None:
    def do(page: Worksheet, heads: dict[str, int]) -> None:
        page.delete_rows(row_of(page, heads, "t1"))
        page.cell(row_of(page, heads, "t3"), heads["Key"]).value = None
        put("t3", "agreed")(page, heads)
        page.cell(row_of(page, heads, "t5"), heads["Key"]).value = "t77 0123456789ab 0123456789ab"

    found = read_returned(come_back(do), review)
    assert found.replies == ()
    assert any("the key is gone, so nobody knows which finding it was" in line for line in found.told)
    assert any("(t77): this finding is not in the review any more" in line for line in found.told)
    assert found.told[-1] == "no row for t1, t3, t5: taken out of the sheet, or tagged after it was made"


def test_another_review_s_finding_of_the_same_name_is_not_taken(come_back: Come, review: Review) -> None:
    moved = replace(review, tags=tuple(replace(tag, item="wristband") if tag.id == "t2" else tag for tag in review.tags))
    found = read_returned(come_back(put("t2", "agreed")), moved)
    assert found.replies == ()
    assert any("(t2): the review has another finding by that name now; the reply was not taken" in line for line in found.told)


def test_a_row_given_twice_is_not_taken(come_back: Come, review: Review) -> None:
    def do(page: Worksheet, heads: dict[str, int]) -> None:
        put("t2", "agreed")(page, heads)
        page.append([cell.value for cell in page[row_of(page, heads, "t2")]])

    found = read_returned(come_back(do), review)
    assert found.replies == ()
    assert [line for line in found.told if "(t2): this finding has more than one row" in line]


def test_what_is_none_of_the_replies_is_taken_as_words(come_back: Come, review: Review) -> None:
    found = read_returned(come_back(put("t2", "yes, but", "late")), review)
    assert found.replies == (SetReply("t2", "", "", "yes, but\nlate"),)
    (told,) = found.told
    assert told.endswith('(t2): "yes, but" is none of agreed, seen otherwise, please explain; it was taken as words')


def test_too_many_words_are_cut_and_said(come_back: Come, review: Review) -> None:
    found = read_returned(come_back(put("t2", "agreed", "a" * 30_000)), review)
    assert len(found.replies[0].words) == LONGEST_WORDS
    assert found.told[0].endswith(f"30000 characters; the first {LONGEST_WORDS} were taken")


def test_hostile_replies_come_in_as_inert_text(come_back: Come, review: Review) -> None:
    for said in ("=1+1", "<script>alert(1)</script>&P", "\u202egnp", "@x", "\U0001f3c0"):
        found = read_returned(come_back(put("t2", None, said)), review)
        assert found.replies[0].words == inert(said)


def test_a_column_that_is_gone_is_said(come_back: Come, review: Review) -> None:
    def do(page: Worksheet, heads: dict[str, int]) -> None:
        page.cell(1, heads["Reply"]).value = "Antwort"

    with pytest.raises(FilmReviewError, match='no column "Reply" on the page Findings'):
        read_returned(come_back(do), review)


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04 not a zip", b"a,b\n", b"\x00" * 5000])
def test_what_is_no_workbook_is_refused_in_one_line(tmp_path: Path, review: Review, content: bytes) -> None:
    path = tmp_path / "back.xlsx"
    path.write_bytes(content)
    with pytest.raises(FilmReviewError, match="this is not a workbook"):
        read_returned(path, review)
    with pytest.raises(FilmReviewError, match="no such file"):
        read_returned(tmp_path / "none.xlsx", review)
    with pytest.raises(FilmReviewError, match="this is not a workbook"):
        read_returned(path.rename(tmp_path / "back.ods"), review)


def test_a_workbook_of_something_else_is_refused(tmp_path: Path, review: Review) -> None:
    path = tmp_path / "other.xlsx"
    book = openpyxl.Workbook()
    book.save(path)
    with pytest.raises(FilmReviewError, match='unknown page "Findings"'):
        read_returned(path, review)


def test_broken_workbooks_are_refused_in_one_line(sent: Path, tmp_path: Path, review: Review) -> None:
    """Every 97th length and a byte turned here and there: refused in one line, or read."""
    whole = sent.read_bytes()
    path = tmp_path / "back.xlsx"
    spoiled = [whole[:end] for end in range(0, len(whole), len(whole) // 20)]
    spoiled += [whole[:at] + bytes([whole[at] ^ 0x55]) + whole[at + 1 :] for at in range(11, len(whole), len(whole) // 60)]
    refused: list[str] = []
    for data in spoiled:
        path.write_bytes(data)
        try:
            read_returned(path, review)
        except FilmReviewError as error:
            refused.append(str(error))
    assert len(refused) > 20
    assert not [line for line in refused if "\n" in line]


def test_the_spreadsheet_asks_for_one_of_the_replies(sent: Path) -> None:
    page = openpyxl.load_workbook(sent)["Findings"]
    heads = {str(cell.value): cell.column_letter for cell in page[1]}
    asked = {str(one.sqref): one for one in page.data_validations.dataValidation}
    choice, words = (asked[f"{heads[head]}2:{heads[head]}13"] for head in ("Reply", "Reply in words"))
    assert (choice.type, choice.formula1) == ("list", f'"{",".join(REPLIES)}"')
    assert (words.type, words.operator, words.formula1) == ("textLength", "lessThanOrEqual", str(LONGEST_WORDS))
    assert page.column_dimensions[heads["Key"]].hidden


def test_the_key_tells_nothing_of_the_player(tmp_path: Path) -> None:
    before = review_of(tmp_path / "made-up-game.mp4")
    after = replace(before, tags=tuple(replace(tag, player="55") for tag in before.tags))
    path = tmp_path / "sheet.xlsx"
    write_workbook(replace(made_up_sheet(tmp_path / "made-up-game.mp4"), pictures=None), path)
    assert read_returned(path, after).told == (), "the finding is known by where it lies, whoever wears it"
