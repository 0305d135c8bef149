"""Whose finding a tag is, replies to it, letters: kept, undone, gone with their tag; and older reviews come up to this form."""

import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.review import schema, store
from filmreview.review.changes import EditTag, RemoveReply, RemoveTag, SetLetter, SetOfficial, SetReply, Together
from filmreview.review.model import LONGEST_WORDS, REPLIES, Letter, Reply, TagOfficial
from filmreview.review.reading import read, read_history
from filmreview.review.store import Store
from tests.review.small_game import a_tag, moment


@pytest.fixture
def tagged(kept: Store) -> Store:
    kept.apply(a_tag())
    kept.apply(a_tag("20", item="headband"))
    return kept


def test_a_tag_is_tied_to_an_official_and_set_free(tagged: Store) -> None:
    assert tagged.apply(SetOfficial("t1", "umpire")) == ("o1",)
    assert tagged.apply(SetOfficial("t1", "umpire")) == (), "nothing differs"
    tagged.apply(SetOfficial("t1", "referee"))
    assert tagged.review.official_of("t1") == TagOfficial("o1", "t1", "referee")
    assert tagged.review.official_of("t2") is None
    tagged.apply(SetOfficial("t1", None))
    assert tagged.review.officials == ()
    tagged.undo()
    tagged.undo()
    assert tagged.review.official_of("t1") == TagOfficial("o1", "t1", "umpire")
    with pytest.raises(FilmReviewError, match='unknown position "umpier"; write "umpire"'):
        tagged.apply(SetOfficial("t2", "umpier"))
    with pytest.raises(FilmReviewError, match="unknown tag"):
        tagged.apply(SetOfficial("t9", "umpire"))


def test_a_tag_put_down_anew_keeps_what_lies_beside_it(tagged: Store) -> None:
    tagged.apply(SetOfficial("t1", "umpire"))
    tagged.apply(SetReply("t1", "umpire", "agreed"))
    tagged.apply(EditTag(replace(tagged.review.tag("t1"), item="wristband", moment=moment("14"))))
    assert (len(tagged.review.officials), len(tagged.review.replies)) == (1, 1)


def test_many_replies_are_one_step(tagged: Store) -> None:
    steps = len(tagged.history())
    replies = (SetReply("t1", "umpire", "agreed"), SetReply("t2", "umpire", "", "Not in my view."),
               SetReply("t1", "referee", "seen otherwise", "It was black."))  # fmt: skip
    tagged.apply(Together(replies, "read 3 replies"))
    assert len(tagged.history()) == steps + 1
    assert [(one.by, one.answer) for one in tagged.review.replies_to("t1")] == [
        ("umpire", "agreed"),
        ("referee", "seen otherwise"),
    ]
    tagged.apply(SetReply("t1", "umpire", "please explain"))
    assert tagged.review.replies_to("t1")[0] == Reply("a1", "t1", "umpire", "please explain")
    tagged.undo()
    tagged.undo()
    assert tagged.review.replies == ()
    assert tagged.redo() is not None
    assert len(tagged.review.replies) == 3


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (SetReply("t1", "umpire", "agree"), 'unknown reply "agree"; write "agreed"'),
        (SetReply("t1", "judge", "agreed"), 'unknown position "judge"'),
        (SetReply("t1", "", "", " \n"), "the reply says nothing"),
        (SetReply("t1", "", "agreed", "a" * (LONGEST_WORDS + 1)), "2001 characters are too many"),
        (SetLetter("umpire", "a" * (LONGEST_WORDS + 1)), "2001 characters are too many"),
        (SetLetter("judge", "a"), 'unknown position "judge"'),
    ],
)
def test_what_cannot_be_is_refused(tagged: Store, change: SetReply | SetLetter, said: str) -> None:
    with pytest.raises(FilmReviewError, match=said):
        tagged.apply(change)
    assert not tagged.review.replies + tagged.review.letters


def test_with_its_tag_goes_what_was_tied_to_it_and_comes_back_with_it(tagged: Store, path: Path) -> None:
    tagged.apply(Together((SetOfficial("t1", "umpire"), SetReply("t1", "", "agreed"), SetReply("t2", "", "agreed"))))
    before = tagged.review
    tagged.apply(RemoveTag("t1"))
    assert (tagged.review.officials, [one.tag for one in tagged.review.replies]) == ((), ["t2"])
    tagged.undo()
    assert tagged.review == before
    tagged.close()
    assert read(path) == before


def test_a_reply_can_be_taken_away(tagged: Store) -> None:
    tagged.apply(SetReply("t1", "", "agreed"))
    assert tagged.apply(RemoveReply("t1", "")) == ("a1",)
    assert tagged.apply(RemoveReply("t1", "")) == ()


def test_a_letter_is_written_changed_and_left_to_the_sheet_again(tagged: Store, path: Path) -> None:
    tagged.apply(SetLetter("umpire", "Well seen."))
    tagged.apply(SetLetter("umpire", "Well seen, twice."))
    assert tagged.review.letter_to("umpire") == Letter("l1", "umpire", "Well seen, twice.")
    tagged.close()
    assert read(path).letters == (Letter("l1", "umpire", "Well seen, twice."),)
    with store.open(path, "Ben") as opened:
        opened.apply(SetLetter("umpire", " "))
        assert opened.review.letters == ()


def test_the_store_tells_which_parts_changed(tagged: Store) -> None:
    told: list[frozenset[str]] = []
    tagged.subscribe(told.append)
    tagged.apply(SetReply("t1", "", REPLIES[0]))
    tagged.apply(SetOfficial("t1", "umpire"))
    assert told == [frozenset({"replies", "a1", "history"}), frozenset({"officials", "o1", "history"})]


def test_a_review_of_form_2_is_brought_up(path: Path) -> None:
    """The file was made by the program while form 2 was the newest (commit "film: bring squared pictures ...")."""
    side = sqlite3.connect(path)
    side.executescript(Path(__file__).with_name("form-2.sql").read_text(encoding="utf-8"))
    side.close()
    before = path.read_bytes()
    looked_at = read(path)
    assert path.read_bytes() == before, "reading leaves the file as it is"
    assert (looked_at.officials, looked_at.replies, looked_at.letters) == ((), (), ())
    with store.open(path, "Ben") as opened:
        assert opened.review == looked_at
        assert [(tag.id, tag.crew.did if tag.crew else "") for tag in opened.review.tags] == [
            ("t1", "told the coach"),
            ("t2", ""),
        ]
        opened.apply(SetOfficial("t1", "umpire"))
        for _ in range(3):
            opened.undo()
        assert opened.redo() is not None
    side = sqlite3.connect(path)
    assert side.execute("PRAGMA user_version").fetchone() == (schema.FORM,)
    assert side.execute("SELECT from_form FROM migration WHERE to_form = 3").fetchone() == (2,)
    side.close()


def test_the_history_says_whose_finding_a_tag_is_and_what_is_written_to_whom(tagged: Store) -> None:
    for change in (
        SetOfficial("t1", "umpire"),
        SetOfficial("t1", None),
        SetLetter("umpire", "Well seen."),
        SetLetter("umpire", ""),
    ):
        tagged.apply(change)
    assert [step.words for step in read_history(tagged.review.path)][-4:] == [
        "t1, whose finding it is: umpire",
        "t1, whose finding it is: the whole crew",
        "letter to umpire: own words",
        "letter to umpire: as the sheet builds it",
    ]
