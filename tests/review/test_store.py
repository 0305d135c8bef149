"""Changes, the snapshot, undo, redo, history, and who is told."""

import json
import sqlite3
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from filmreview.colour.palette import parse_colour
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.facts.region import Box
from filmreview.review import store
from filmreview.review.changes import (
    AddBlur,
    AddEvent,
    AddStoppage,
    AddTag,
    EditBlur,
    EditEvent,
    EditGame,
    EditStoppage,
    EditTag,
    MoveFilm,
    NameFilm,
    RemoveBlur,
    RemoveCommonMoment,
    RemoveEvent,
    RemoveFaceChoice,
    RemoveFilm,
    RemoveLesson,
    RemoveOwnCall,
    RemoveReference,
    RemoveStoppage,
    RemoveTag,
    SetCommonMoment,
    SetCrew,
    SetFaceChoice,
    SetLesson,
    SetOwnCall,
    SetReference,
    Together,
)
from filmreview.review.model import CREW_MARKS, Blur, BlurAt, CrewResponse, Stoppage
from filmreview.review.reading import read, read_history
from filmreview.review.store import Store
from tests.review.small_game import a_film, a_game, a_tag, moment

MEASURED = Fact("colour", parse_value("colour", "orange"), Origin.MEASURED, "1,204 px, white reference")
SEEN = Fact("colour", parse_value("colour", "gold"), Origin.SEEN)
FULL_TAG = a_tag(
    region=Box(600, 200, 40, 90),
    facts=(MEASURED, SEEN, Fact("width_in", parse_value("width_in", "2.5 +- 0.3"), Origin.MEASURED), Fact("in_play", True)),
    note='says "été", 長い袖',
    crew=CrewResponse("late", moment("40"), "sent out at the next dead ball"),
)


def test_everything_comes_back_after_closing(kept: Store, path: Path) -> None:
    kept.apply(FULL_TAG)
    kept.apply(a_tag(player=None, item="headband"))
    kept.apply(AddEvent("f1", moment("31"), "time-out granted", "home", length=60))
    kept.apply(SetReference("f1", moment("12"), Box(10, 20, 30, 40), parse_colour("white")))
    snapshot = kept.review
    kept.close()
    with store.open(path, "Ben") as again:
        assert again.review == snapshot
    assert read(path) == snapshot
    assert snapshot.tag("t1").facts == FULL_TAG.facts
    assert snapshot.tag("t1").crew == FULL_TAG.crew
    assert snapshot.tag("t2").player is None
    assert snapshot.game == a_game()


def test_ids_are_short_and_never_used_twice(kept: Store) -> None:
    assert kept.apply(a_tag()) == ("t1",)
    assert kept.apply(a_tag()) == ("t2",)
    kept.undo()
    assert kept.apply(a_tag()) == ("t3",)
    kept.apply(RemoveTag("t3"))
    assert kept.apply(AddEvent("f1", moment("1"), "play stopped")) == ("e1",)
    assert kept.apply(a_tag()) == ("t4",)
    assert [tag.id for tag in kept.review.tags] == ["t1", "t4"]


def test_undo_and_redo_walk_every_kind_of_change(kept: Store) -> None:
    kept.apply(FULL_TAG)
    kept.apply(AddEvent("f1", moment("31"), "returns", "visitor", "14"))
    kept.apply(SetReference("f1", moment("12"), Box(10, 20, 30, 40), parse_colour("white")))
    face = (BlurAt(moment("1"), Box(10, 10, 30, 40)), BlurAt(moment("3"), Box(20, 10, 30, 40)))
    changes = [
        EditGame(a_game(day=date(2024, 1, 9))),
        a_film(digest="cd34", size=5),
        MoveFilm("f1", "/elsewhere/half-1.mp4"),
        RemoveFilm("f2"),
        a_tag("3"),
        EditTag(replace(kept.review.tag("t1"), item="headband", facts=())),
        SetCrew("t1", CrewResponse("not seen")),
        SetCrew("t1", None),
        RemoveTag("t1"),
        AddEvent("f1", moment("50"), "play resumes"),
        EditEvent(replace(kept.review.event("e1"), player="15")),
        RemoveEvent("e1"),
        SetReference("f1", moment("12"), Box(0, 0, 8, 8), parse_colour("grey")),
        RemoveReference("r1"),
        Together((a_tag("5"), RemoveTag("t2")), "keep one, drop one"),
        a_film(path="/films/side.mp4", digest="ef56", what="second angle"),
        NameFilm("f3", "from the far side"),
        SetCommonMoment("f1", moment("10"), "f3", moment("7.5")),
        SetCommonMoment("f3", moment("8"), "f1", moment("10")),
        RemoveCommonMoment("c1"),
        AddStoppage("f1", moment("2"), moment("9"), "free throws"),
        EditStoppage(Stoppage("s1", "f1", moment("3"), moment("9"), "time-out", "full", "proposed")),
        RemoveStoppage("s1"),
        SetOwnCall("t3", "illegal", "fix or leave", "wrong side of the elbow"),
        SetOwnCall("t3", "legal"),
        RemoveOwnCall("t3"),
        AddBlur("f1", face, moment("5")),
        EditBlur(Blur("b1", "f1", face[:1], moment("5"), "proposed")),
        RemoveBlur("b1"),
        SetFaceChoice("f1", moment("0"), moment("9"), "blurred"),
        SetFaceChoice("f1", moment("0"), moment("9"), "consent held"),
        RemoveFaceChoice("h1"),
        SetLesson(None, "Sleeves", '{"clips": []}'),
        SetLesson("n1", "Sleeves and bands", '{"clips": [1]}'),
        RemoveLesson("n1"),
        EditGame(a_game(rulings_hidden=True)),
    ]
    snapshots = [kept.review]
    for change in changes:
        kept.apply(change)
        assert kept.review != snapshots[-1], change
        snapshots.append(kept.review)
    for snapshot in reversed(snapshots[:-1]):
        assert kept.undo() is not None
        assert kept.review == snapshot
    for snapshot in snapshots[1:]:
        assert kept.redo() is not None
        assert kept.review == snapshot
    assert kept.redo() is None


def test_undo_and_redo_work_after_a_restart(kept: Store, path: Path) -> None:
    kept.apply(a_tag())
    kept.apply(a_tag("20", item="headband"))
    with_two = kept.review
    kept.undo()
    kept.close()
    with store.open(path, "Ben") as again:
        assert again.next_redo == "tag t2: visitor 14, headband at 0:20.000"
        assert again.next_undo == "tag t1: visitor 14, arm sleeve at 0:12.500"
        step = again.redo()
        assert step is not None
        assert step.changed == {"tags", "t2"}
        assert again.review == with_two
        for _ in range(3):
            again.undo()
        assert again.undo() is None, "the game itself stays"
        assert (again.review.tags, again.review.films) == ((), ())


def test_a_new_change_abandons_what_was_undone_but_keeps_it_in_the_history(kept: Store, path: Path) -> None:
    kept.apply(a_tag())
    kept.undo()
    kept.apply(a_tag("30", item="headband"))
    assert kept.redo() is None
    steps = kept.history()
    assert [(step.state, step.who) for step in steps] == [
        ("done", "Ann"),
        ("done", "Ann"),
        ("abandoned", "Ann"),
        ("done", "Ann"),
    ]
    assert steps[2].words == "tag t1: visitor 14, arm sleeve at 0:12.500"
    assert steps[2].edits[0].after is not None
    assert read_history(path) == steps


def test_a_white_in_the_history_is_a_white_at_its_time(kept: Store) -> None:
    kept.apply(SetReference("f1", moment("12"), Box(10, 20, 30, 40), parse_colour("white")))
    kept.apply(RemoveReference("r1"))
    assert [step.words for step in kept.history()][-2:] == ["point at white at 0:12.000", "remove the white at 0:12.000"]


def test_a_change_that_changes_nothing_leaves_no_step(kept: Store) -> None:
    kept.apply(a_tag())
    before = len(kept.history())
    assert kept.apply(EditTag(kept.review.tag("t1"))) == ()
    assert kept.apply(EditGame(a_game())) == ()
    assert len(kept.history()) == before


def test_subscribers_hear_what_changed(kept: Store) -> None:
    heard: list[frozenset[str]] = []
    end = kept.subscribe(heard.append)
    kept.apply(a_tag())
    kept.apply(SetCrew("t1", CrewResponse("late")))
    kept.apply(EditGame(a_game(observer="")))
    kept.undo()
    end()
    kept.redo()
    assert heard == [{"tags", "t1", "history"}, {"tags", "t1", "history"}, {"game", "history"}, {"game", "history"}]


def test_many_together_are_whole_or_not_at_all(kept: Store) -> None:
    before = kept.review
    with pytest.raises(FilmReviewError, match='unknown item "arm sleeeve"; write "arm sleeve"'):
        kept.apply(Together((a_tag("1"), a_tag("2", item="arm sleeeve"))))
    assert kept.review == before
    assert kept.apply(Together(tuple(a_tag(str(second)) for second in range(5)))) == ("t1", "t2", "t3", "t4", "t5")
    kept.undo()
    assert kept.review == before


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (a_tag(item="headbnd"), 'unknown item "headbnd"; write "headband"'),
        (a_tag(team="visitors"), 'unknown team "visitors"; write "visitor"'),
        (a_tag(player="123"), '"123" is not a player number'),
        (a_tag(player="x"), '"x" is not a player number'),
        (a_tag(film="f9"), 'unknown film "f9"'),
        (a_tag("90.5"), "half-1.mp4: no picture at 90.500 s; give a time from 0:00.000 to before 1:30.000"),
        (a_tag("-1"), "no picture at -1.000 s"),
        (a_tag(region=Box(1270, 10, 20, 20)), "reaches outside the picture of 1280x720"),
        (a_tag(crew=CrewResponse("not sen")), 'unknown crew mark "not sen"; write "not seen"'),
        (SetCrew("t7", CrewResponse("late")), 'unknown tag "t7"'),
        (RemoveFilm("f2"), 'unknown film "f2"'),
        (a_film(), "this film is in the review already"),
        (a_film(digest="x", length=0), "holds no pictures"),
        (EditGame(a_game(level="varsty")), 'unknown level "varsty"; write "varsity"'),
        (a_tag(note="half \ud83c pair"), "a text holds something that is no character: 'half \\ud83c'; take it out"),
        (
            a_film(path="/films/\udcff.mp4", digest="x"),
            "'/films/\\udcff'; take it out, or rename the file",
        ),
        (AddEvent("f1", moment("3"), "return"), 'unknown event "return"; write "returns"'),
        (AddEvent("f1", moment("3"), "time-out granted", "home", length=20), "20 s is not a length of a time-out"),
        (AddEvent("f1", moment("3"), "foul charged", "home", kind="technicl"), 'write "technical"'),
        (SetReference("f1", moment("3"), Box(0, 700, 30, 30), parse_colour("white")), "outside the picture"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(kept: Store, change: AddTag, words: str) -> None:
    before, steps = kept.review, len(kept.history())
    with pytest.raises(FilmReviewError) as caught:
        kept.apply(change)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)
    assert (kept.review, len(kept.history())) == (before, steps)


def test_any_character_can_be_kept(kept: Store, path: Path) -> None:
    note = "".join(chr(code) for code in (*range(0x300), 0x202E, 0x2028, 0xFFFE, 0xFFFF, 0x1F3C0, 0x10FFFF))
    kept.apply(a_tag(note=note, crew=CrewResponse("late", did=note)))
    assert read(path).tag("t1") == kept.review.tag("t1")
    assert read(path).tag("t1").note == note


def test_a_film_with_tags_cannot_be_removed(kept: Store) -> None:
    kept.apply(a_tag())
    with pytest.raises(FilmReviewError, match="t1 lies on this film; remove what lies on it first"):
        kept.apply(RemoveFilm("f1"))


def test_every_crew_mark_is_taken(kept: Store) -> None:
    kept.apply(a_tag())
    for mark in CREW_MARKS:
        kept.apply(SetCrew("t1", CrewResponse(mark)))
        response = kept.review.tag("t1").crew
        assert response is not None
        assert response.mark == mark


def test_the_step_is_in_the_same_transaction_as_the_change(kept: Store, path: Path) -> None:
    """When the history cannot be written, the tag is not there either."""
    refuse = "CREATE TEMP TRIGGER refuse BEFORE INSERT ON main.step BEGIN SELECT RAISE(ABORT, 'no'); END"
    kept._connection.execute(refuse)
    with pytest.raises(FilmReviewError):
        kept.apply(a_tag())
    assert kept.review.tags == ()
    assert read(path).tags == ()
    kept._connection.execute("DROP TRIGGER refuse")
    assert kept.apply(a_tag()) == ("t1",), "the id was not used up by the change that failed"


def test_the_file_is_plain_sqlite_with_its_marks(kept: Store, path: Path) -> None:
    kept.apply(FULL_TAG)
    kept.close()
    side = sqlite3.connect(path)
    assert side.execute("PRAGMA application_id").fetchone() == (0x46526576,)
    row = side.execute("SELECT pts, time_base, player, region FROM tag").fetchone()
    assert row == (moment("12.5").pts, "1/15360", "14", '{"box":[600,200,40,90]}')
    assert json.loads(side.execute("SELECT facts FROM tag").fetchone()[0])[0]["key"] == "colour"
    side.close()
