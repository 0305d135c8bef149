"""Another's review beside this one, without a screen."""

from dataclasses import replace
from pathlib import Path

import pytest

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.other_review_presenter import MINE, THEIRS, OtherReviewPresenter
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.review.changes import EditGame, SetCrew
from filmreview.review.model import CrewResponse
from filmreview.review.reading import read
from filmreview.review.ruled import findings
from tests.desktop.presenters.test_own_call_presenter import keep
from tests.desktop.two_reviews import OTHER, other_review


@pytest.fixture
def other(desk: Desk, film: Film, tmp_path: Path) -> OtherReviewPresenter:
    """Mine: an orange sleeve marked late, a headband. Theirs: the sleeve black and not seen, a wristband."""
    keep(desk, film.moment_at(1), "v14 arm sleeve orange")
    keep(desk, film.moment_at(2), "h3 headband black")
    desk.try_change(SetCrew("t1", CrewResponse("late")))
    (tmp_path / "theirs").mkdir()
    path = other_review(
        tmp_path / "theirs",
        ("1.2", "v14 arm sleeve black", "not seen"),
        ("1.5", "h3 headband black", ""),
        ("0", "h10 wristband red", ""),
    )
    presenter = OtherReviewPresenter(desk)
    presenter.lay(findings(read(path)))
    return presenter


def test_differences_first_and_who(other: OtherReviewPresenter) -> None:
    assert other.who == ("R. Valdrune", OTHER)
    assert other.summary() == "2 seen by both, 1 of them with differences; 1 only theirs; 0 only mine"
    assert [(row.key, row.differs, row.choice) for row in other.rows()] == [
        (("t1", "t1"), "ruling, colour, crew mark", MINE),
        (("", "t3"), "only theirs", MINE),
    ]
    assert [row.differs for row in other.rows(only_differing=False)] == ["ruling, colour, crew mark", "only theirs", "nothing"]


def test_both_sides_are_told_in_full(other: OtherReviewPresenter) -> None:
    mine, theirs = other.sides(("t1", "t1"))
    assert mine.splitlines() == [
        "visitor 14, arm sleeve", "ruling: illegal, fix or leave", "seen: colour orange", "crew: late"
    ]  # fmt: skip
    assert theirs.splitlines()[-1] == "crew: not seen"
    assert other.sides(("", "t3"))[0] == "no tag"


def test_what_would_give_a_hidden_ruling_away_is_hidden_too(desk: Desk, other: OtherReviewPresenter) -> None:
    assert desk.review is not None
    desk.try_change(EditGame(replace(desk.review.game, rulings_hidden=True)))
    mine, theirs = other.sides(("t1", "t1"))
    assert "ruling: hidden until your own call" in theirs
    assert "not seen" not in theirs
    assert "late" not in mine
    row = next(one for one in other.rows() if one.key == ("t1", "t1"))
    assert (row.mine, row.theirs) == ("hidden until your own call",) * 2


def test_taking_theirs_is_one_change_and_the_pairs_follow(desk: Desk, other: OtherReviewPresenter) -> None:
    other.choose(("t1", "t1"), THEIRS)
    other.choose_missing()
    assert other.taking == 2
    other.choose(("t1", "t1"), MINE)
    assert other.taking == 1
    other.choose(("t1", "t1"), THEIRS)
    before = desk.review
    assert other.take()
    assert desk.last_message == f"2 tags of {OTHER} taken; one undo takes all back"
    assert other.rows() == ()
    assert desk.review is not None
    assert len(desk.review.tags) == 3
    assert desk.store is not None
    assert desk.store.history()[-1].words == f"take 2 tags from {OTHER}"
    desk.store.undo()
    assert desk.review == before
    assert len(other.rows()) == 2


def test_what_is_the_same_or_mine_alone_cannot_be_taken(desk: Desk, other: OtherReviewPresenter, film: Film) -> None:
    keep(desk, film.moment_at(0), "h3 wristband blue")
    mine_alone = next(row for row in other.rows() if row.differs == "only mine")
    for key in (("t2", "t2"), mine_alone.key):
        other.choose(key, THEIRS)
    assert other.taking == 0
    assert not other.take()
    assert desk.last_message == "nothing of theirs was chosen; choose what to take"


def test_a_place_to_look_at(desk: Desk, other: OtherReviewPresenter, film: Film) -> None:
    place = other.place(("", "t3"))
    assert place is not None
    assert (place[0], place[1].moment) == (desk.film_id, film.moment_at(0))
    assert other.place(("t9", "")) is None


def test_closing_the_review_lets_go(desk: Desk, other: OtherReviewPresenter) -> None:
    told: list[str] = []
    other.events.on("pairs", lambda: told.append("pairs"))
    desk.take_store(None)
    assert other.laid is None
    assert told
    assert other.rows() == ()


def test_another_film_is_refused(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "theirs").mkdir()
    path = other_review(tmp_path / "theirs", film="variable.mp4")
    with pytest.raises(FilmReviewError, match="it is of other films than this review"):
        OtherReviewPresenter(desk).lay(findings(read(path)))
