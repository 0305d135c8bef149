"""Stoppages, films that belong together, own calls, blurs, lessons: kept and read again, refused where they cannot be, and
older reviews come up to this form."""

import sqlite3
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.review import schema, store
from filmreview.review.changes import (
    AddBlur,
    AddStoppage,
    Change,
    NameFilm,
    RemoveCommonMoment,
    RemoveFaceChoice,
    RemoveFilm,
    RemoveTag,
    SetCommonMoment,
    SetFaceChoice,
    SetLesson,
    SetOwnCall,
    Together,
)
from filmreview.review.model import BlurAt, CommonMoment, OwnCall, Stoppage
from filmreview.review.reading import read
from filmreview.review.store import Store
from tests.review.small_game import a_film, a_tag, moment

FACE = (BlurAt(moment("1"), Box(10, 10, 30, 40)), BlurAt(moment("3"), Box(20, 10, 30, 40)))
ALL = Together((
    AddStoppage("f1", moment("2"), moment("9"), "free throws", "the second one missed"),
    SetCommonMoment("f1", moment("10"), "f2", moment("7.5")),
    SetOwnCall("t1", "illegal", "fix or leave", "below the elbow"),
    AddBlur("f1", FACE, moment("5"), "proposed"),
    SetFaceChoice("f1", moment("0"), moment("9"), "blurred"),
    SetLesson(None, "Sleeves", '{"clips": ["t1"]}'),
))  # fmt: skip


@pytest.fixture
def two_films(kept: Store) -> Store:
    kept.apply(a_film(path="/films/side.mp4", digest="ef56", what="second angle"))
    kept.apply(a_tag())
    return kept


def test_all_comes_back_after_closing(two_films: Store, path: Path) -> None:
    assert two_films.apply(ALL) == ("s1", "c1", "w1", "b1", "h1", "n1")
    before = two_films.review
    two_films.close()
    again = read(path)
    assert again == before
    assert again.stoppage("s1") == Stoppage("s1", "f1", moment("2"), moment("9"), "free throws", "the second one missed")
    assert again.own_call_on("t1") == OwnCall("w1", "t1", "illegal", "fix or leave", "below the elbow")
    assert (again.blur("b1").regions, again.blur("b1").start) == (FACE, moment("1"))
    assert again.lesson("n1").title == "Sleeves"
    assert again.film("f2").what == "second angle"


def test_two_films_share_one_moment_seen_from_either(two_films: Store) -> None:
    two_films.apply(SetCommonMoment("f1", moment("10"), "f2", moment("7.5")))
    assert two_films.review.common_of("f2", "f1") == CommonMoment("c1", "f2", moment("7.5"), "f1", moment("10"))
    two_films.apply(SetCommonMoment("f2", moment("8"), "f1", moment("10")))
    assert [one.id for one in two_films.review.commons] == ["c1"], "in place of the earlier one"
    assert two_films.review.common_of("f1", "f9") is None


def test_what_hangs_on_a_tag_or_a_film_goes_with_it_and_comes_back(two_films: Store) -> None:
    two_films.apply(Together((SetOwnCall("t1", "legal"), SetCommonMoment("f1", moment("10"), "f2", moment("7.5")))))
    before = two_films.review
    two_films.apply(RemoveTag("t1"))
    assert two_films.review.own_calls == ()
    two_films.apply(RemoveFilm("f2"))
    assert two_films.review.commons == ()
    two_films.undo()
    two_films.undo()
    assert two_films.review == before


def test_a_film_with_a_stoppage_cannot_be_removed(two_films: Store) -> None:
    two_films.apply(AddStoppage("f2", moment("2"), moment("9")))
    with pytest.raises(FilmReviewError, match="s1 lies on this film"):
        two_films.apply(RemoveFilm("f2"))


def test_an_answer_for_the_faces_of_a_film_goes_with_it_and_comes_back(two_films: Store) -> None:
    two_films.apply(SetFaceChoice("f2", moment("2"), moment("9"), "nobody on it"))
    before = two_films.review
    two_films.apply(RemoveFilm("f2"))
    assert two_films.review.face_choices == ()
    two_films.undo()
    assert two_films.review == before


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (AddStoppage("f1", moment("9"), moment("9")), "the stretch ends before it begins; give an end after its start"),
        (AddStoppage("f1", moment("9"), moment("91")), "the film ends before 1:31.000; give an end up to 1:30.000"),
        (AddStoppage("f1", moment("-1"), moment("9")), "no picture at -1.000 s"),
        (
            AddStoppage("f1", moment("2"), moment("9"), "free throw"),
            'unknown kind of stoppage "free throw"; write "free throws"',
        ),
        (AddStoppage("f1", moment("2"), moment("9"), origin="guessed"), 'unknown origin of a stoppage "guessed"'),
        (SetCommonMoment("f1", moment("2"), "f1", moment("3")), "a film shares every moment with itself"),
        (SetCommonMoment("f1", moment("2"), "f2", moment("95")), "no picture at 95.000 s"),
        (RemoveCommonMoment("c7"), 'unknown shared instant "c7"'),
        (SetOwnCall("t1", "ilegal"), 'unknown ruling "ilegal"; write "illegal"'),
        (SetOwnCall("t1", "illegal", "techncal foul"), 'unknown consequence "techncal foul"; write "technical foul"'),
        (SetOwnCall("t9", "illegal"), 'unknown tag "t9"'),
        (AddBlur("f1", (), moment("5")), "the blur has no region"),
        (AddBlur("f1", FACE[::-1], moment("5")), "do not lie in order of time"),
        (AddBlur("f1", FACE, moment("3")), "ends before it begins"),
        (AddBlur("f1", (BlurAt(moment("1"), Box(1270, 0, 20, 20)),), moment("5")), "reaches outside the picture"),
        (SetFaceChoice("f1", moment("0"), moment("9"), "blured"), 'unknown choice for the faces "blured"; write "blurred"'),
        (RemoveFaceChoice("h4"), 'unknown choice "h4"'),
        (SetLesson(None, " ", "{}"), "the lesson has no title"),
        (SetLesson(None, "Sleeves", "{"), "the plan of the lesson is no JSON"),
        (SetLesson("n3", "Sleeves", "{}"), 'unknown lesson "n3"'),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(two_films: Store, change: Change, said: str) -> None:
    before = two_films.review
    with pytest.raises(FilmReviewError) as caught:
        two_films.apply(change)
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)
    assert two_films.review == before


def test_a_review_of_form_3_is_brought_up(path: Path) -> None:
    """The file was made by the program while form 3 was the newest (commit "tests: name the parser plainly")."""
    side = sqlite3.connect(path)
    side.executescript(Path(__file__).with_name("form-3.sql").read_text(encoding="utf-8"))
    side.close()
    before = path.read_bytes()
    looked_at = read(path)
    assert path.read_bytes() == before, "reading leaves the file as it is"
    assert (looked_at.stoppages, looked_at.game.rulings_hidden, looked_at.film("f1").what) == ((), False, "")
    with store.open(path, "Ben") as opened:
        assert opened.review == looked_at
        assert opened.undo() is not None, "the removal of a film, as form 3 wrote it"
        assert opened.review.film("f2").what == ""
        assert opened.apply(AddStoppage("f2", moment("2"), moment("9"))) == ("s1",)
    side = sqlite3.connect(path)
    assert side.execute("PRAGMA user_version").fetchone() == (schema.FORM,)
    assert side.execute("SELECT from_form FROM migration WHERE to_form = 4").fetchone() == (3,)
    side.close()


def test_what_is_meant_for_one_line_has_no_line_breaks(two_films: Store) -> None:
    two_films.apply(NameFilm("f1", "first\n half\r\n"))
    two_films.apply(AddStoppage("f1", moment("2"), moment("9"), "", "one\n\ntwo"))
    two_films.apply(SetLesson(None, "Sleeves\u2028and bands", "{}"))
    review = two_films.review
    assert (review.film("f1").what, review.stoppages[0].note) == ("first half", "one two")
    assert review.lessons[0].title == "Sleeves and bands"
