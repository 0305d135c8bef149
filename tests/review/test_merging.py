"""Two observers of one game: what pairs, what differs, and taking it over."""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.facts.region import Box
from filmreview.review import store
from filmreview.review.changes import AddEvent, AddTag, EditGame, SetCrew
from filmreview.review.crew_changes import SetOfficial
from filmreview.review.facts_beside import FactBeside, facts_beside
from filmreview.review.merging import CREW, FACTS, ITEM, NOTE, ONLY_MINE, ONLY_THEIRS, RULING, WHOSE, Beside, beside, take
from filmreview.review.model import CrewMember, CrewResponse, Team
from filmreview.review.own_calls import HIDDEN
from filmreview.review.ruled import findings
from filmreview.review.store import Store
from tests.review.small_game import a_film, a_game, a_tag, declared, moment

BOX = Box(100, 100, 40, 30)


def fact(key: str, text: str, origin: Origin = Origin.SEEN) -> Fact:
    return Fact(key, parse_value(key, text), origin)


ORANGE, BLACK = fact("colour", "orange"), fact("colour", "black")


@pytest.fixture
def theirs(tmp_path: Path) -> Iterator[Store]:
    """Another observer's file: the same recording at another path, as their second film."""
    game = a_game(observer="R. Valdrune")
    with store.create(tmp_path / "theirs.filmreview", game, "R. Valdrune") as opened:
        opened.apply(a_film(path="/elsewhere/warm-up.mp4", digest="zz"))
        opened.apply(a_film(path="/elsewhere/copy.mp4"))
        yield opened


def laid(mine: Store, theirs: Store) -> Beside:
    return beside(findings(mine.review), findings(theirs.review))


def their_tag(seconds: str = "12.5", **changes: object) -> AddTag:
    return a_tag(seconds, **{"film": "f2", **changes})


def seen(found: Beside) -> list[tuple[str | None, str | None, tuple[str, ...]]]:
    ids = [(one.mine.id if one.mine else None, one.theirs.id if one.theirs else None) for one in found.pairs]
    return [(*pair, one.differs) for pair, one in zip(ids, found.pairs, strict=True)]


def test_the_same_recording_is_known_by_size_and_digest(kept: Store, theirs: Store) -> None:
    assert laid(kept, theirs).films == {"f2": "f1"}
    assert laid(kept, theirs).who == "R. Valdrune"


def test_the_same_thing_near_in_time_is_one_observation(kept: Store, theirs: Store) -> None:
    kept.apply(a_tag("12.5"))
    theirs.apply(their_tag("14"))
    theirs.apply(their_tag("13"))
    theirs.apply(their_tag("40"))
    assert seen(laid(kept, theirs)) == [
        (None, "t1", (ONLY_THEIRS,)),
        (None, "t3", (ONLY_THEIRS,)),
        ("t1", "t2", ()),
    ]


def test_differences_come_first_the_gravest_first(kept: Store, theirs: Store) -> None:
    kept.apply(a_tag("10", facts=(fact("colour", "green"),)))
    kept.apply(a_tag("20", player="4", facts=(ORANGE,)))
    kept.apply(a_tag("30", player="5", note="left arm"))
    kept.apply(a_tag("40", player="6"))
    kept.apply(a_tag("50", player="7"))
    theirs.apply(their_tag("10", facts=(ORANGE,)))
    theirs.apply(their_tag("20", player="4", facts=(ORANGE,), crew=CrewResponse("late")))
    theirs.apply(their_tag("30", player="5", note="the left one"))
    theirs.apply(their_tag("50", player="7"))
    theirs.apply(their_tag("60", player="8"))
    found = laid(kept, theirs)
    assert seen(found) == [
        ("t1", "t1", (RULING, FACTS)),
        ("t2", "t2", (CREW,)),
        (None, "t5", (ONLY_THEIRS,)),
        ("t4", None, (ONLY_MINE,)),
        ("t3", "t3", (NOTE,)),
        ("t5", "t4", ()),
    ]
    assert found.pairs[0].rulings[1].startswith("illegal")
    assert found.pairs[0].facts == (FactBeside("colour", "green", "orange"),)
    assert len(found.differing) == 5
    assert [one.theirs.id for one in found.missing if one.theirs] == ["t5"]


def test_a_number_or_item_read_otherwise_is_paired_by_its_place_in_the_picture(kept: Store, theirs: Store) -> None:
    kept.apply(a_tag("12", player=None, region=BOX))
    kept.apply(a_tag("20", item="headband", region=BOX))
    theirs.apply(their_tag("12.1", player="14", region=Box(110, 100, 40, 30)))
    theirs.apply(their_tag("20", item="pre-wrap", region=BOX))
    assert [one[2][0] for one in seen(laid(kept, theirs))] in ([WHOSE, ITEM], [RULING, WHOSE], [RULING, RULING])
    assert {(one[0], one[1]) for one in seen(laid(kept, theirs))} == {("t1", "t1"), ("t2", "t2")}


@pytest.mark.parametrize(
    "theirs_at", [their_tag("14", player="9", region=BOX), their_tag("12", player="9", region=Box(600, 100, 40, 30))]
)
def test_another_place_or_time_is_no_pair(kept: Store, theirs: Store, theirs_at: AddTag) -> None:
    kept.apply(a_tag("12", region=BOX))
    theirs.apply(theirs_at)
    assert [one[2] for one in seen(laid(kept, theirs))] == [(ONLY_THEIRS,), (ONLY_MINE,)]


def test_how_near_is_near_can_be_said(kept: Store, theirs: Store) -> None:
    kept.apply(a_tag("12"))
    theirs.apply(their_tag("40"))
    found = beside(findings(kept.review), findings(theirs.review), Fraction(30))
    assert seen(found) == [("t1", "t1", ())]


def test_every_tag_is_in_exactly_one_pair(kept: Store, theirs: Store) -> None:
    for second in range(5, 60, 4):
        kept.apply(a_tag(str(second), player=str(second % 3)))
        theirs.apply(their_tag(str(second + 1), player=str(second % 4), region=BOX))
    pairs = laid(kept, theirs).pairs
    assert sorted(one.mine.id for one in pairs if one.mine) == sorted(tag.id for tag in kept.review.tags)
    assert sorted(one.theirs.id for one in pairs if one.theirs) == sorted(tag.id for tag in theirs.review.tags)


def test_measured_amounts_within_their_uncertainty_do_not_differ() -> None:
    """Coverage factor 2 on the difference (JCGM 100): 2.0 and 2.5 in, each +- 0.2, agree (0.5 < 2 x 0.28); 2.6 does not."""

    def width(value: float) -> list[Fact]:
        return [Fact("width_in", Amount(value, 0.2), Origin.MEASURED)]

    assert facts_beside(width(2.0), width(2.5)) == ()
    assert [one.key for one in facts_beside(width(2.0), width(2.6))] == ["width_in"]
    assert facts_beside([BLACK], []) == (FactBeside("colour", "black", "not said"),)
    two = [fact("colour", "black, white")], [fact("colour", "white, black")]
    assert facts_beside(*two) == ()


def test_taking_theirs_is_one_step_that_undo_takes_back(kept: Store, theirs: Store) -> None:
    kept.apply(a_tag("10", facts=(BLACK,), note="mine"))
    kept.apply(SetOfficial("t1", "umpire"))
    theirs.apply(their_tag("10.5", facts=(ORANGE,), crew=CrewResponse("late", moment("11"), "waved on")))
    theirs.apply(their_tag("60", player="8", region=BOX, note="theirs"))
    before = kept.review
    found = laid(kept, theirs)
    assert kept.apply(take(found, kept.review, found.pairs)) == ("t1", "t2")
    first, second = kept.review.tags
    assert (first.film, first.moment, first.facts, first.crew) == (
        "f1", moment("10.5"), (ORANGE,), CrewResponse("late", moment("11"), "waved on")
    )  # fmt: skip
    assert (second.film, second.player, second.region, second.note) == ("f1", "8", BOX, "theirs")
    assert kept.review.official_of("t1") is not None
    step = kept.history()[-1]
    assert step.words == "take 2 tags from R. Valdrune"
    assert seen(laid(kept, theirs)) == [("t1", "t1", ()), ("t2", "t2", ())]
    kept.undo()
    assert kept.review == before


def test_nothing_to_take_is_told(kept: Store, theirs: Store) -> None:
    kept.apply(a_tag("10"))
    found = laid(kept, theirs)
    with pytest.raises(FilmReviewError, match="nothing of theirs was chosen"):
        take(found, kept.review, found.pairs)


def test_a_crew_moment_on_a_film_that_is_not_here_is_left_out(kept: Store, theirs: Store) -> None:
    theirs.apply(their_tag("10"))
    theirs.apply(SetCrew("t1", CrewResponse("late", moment("5"), "waved on", "f1")))
    found = laid(kept, theirs)
    kept.apply(take(found, kept.review, found.missing))
    assert kept.review.tags[0].crew == CrewResponse("late", None, "waved on")


def test_what_differs_between_the_set_ups_is_told(kept: Store, theirs: Store) -> None:
    theirs.apply(
        EditGame(
            a_game(
                level="sub-varsity", visitor=Team("Ovvermire", declared(jersey="green", trim="white, black", shorts="black"))
            )
        )
    )
    theirs.apply(a_tag("3"))
    assert laid(kept, theirs).told == (
        "level: varsity here, sub-varsity in theirs",
        "visitor shorts: not said here, black in theirs",
        "1 of their tags lie on a film that this review does not have",
    )


def test_events_that_only_they_have_are_told(kept: Store, theirs: Store) -> None:
    kept.apply(AddEvent("f1", moment("20"), "blood seen", "home", "10"))
    for seconds, player in (("21", "10"), ("50", "10"), ("20", "0")):
        theirs.apply(AddEvent("f2", moment(seconds), "blood seen", "home", player))
    assert laid(kept, theirs).told == (
        "2 of their events have no like here; only tags are taken over, put events down by hand",
    )


def test_hidden_rulings_stay_hidden_beside_theirs(kept: Store, theirs: Store) -> None:
    kept.apply(EditGame(a_game(rulings_hidden=True)))
    kept.apply(a_tag("10", facts=(fact("colour", "green"),)))
    theirs.apply(their_tag("10", facts=(ORANGE,)))
    theirs.apply(their_tag("60", player="8", facts=(ORANGE,)))
    found = laid(kept, theirs)
    assert [(one.differs, one.rulings) for one in found.pairs] == [((FACTS,), (HIDDEN, HIDDEN)), ((ONLY_THEIRS,), ("", HIDDEN))]


@pytest.mark.parametrize(
    ("game", "words"),
    [
        (a_game(day=date(2025, 1, 15)), "its game was on 2025-01-15, this one on 2025-01-14"),
        (a_game(home=Team("ovvermire"), visitor=Team("Thrunnockby")), "home and visitor the other way round"),
    ],
)
def test_another_game_is_refused_in_one_line(kept: Store, theirs: Store, game: object, words: str) -> None:
    theirs.apply(EditGame(game))  # type: ignore[arg-type]
    with pytest.raises(FilmReviewError, match=f"theirs.filmreview: .*{words}"):
        laid(kept, theirs)


def test_other_films_and_the_review_itself_are_refused(kept: Store, tmp_path: Path) -> None:
    with store.create(tmp_path / "other.filmreview", a_game(crew=(CrewMember("referee", "R. Quillander"),)), "B") as other:
        other.apply(a_film(size=1_000_001))
        with pytest.raises(FilmReviewError, match="it is of other films than this review"):
            laid(kept, other)
    with pytest.raises(FilmReviewError, match="this is the review itself"):
        laid(kept, kept)


def test_a_taken_tag_carries_whose_finding_it_is_where_my_crew_has_that_official(kept: Store, theirs: Store) -> None:
    kept.apply(EditGame(a_game(crew=(CrewMember("umpire 1", "U. Thornvex"),))))
    crew = (CrewMember("umpire 1", "U. Thornvex"), CrewMember("umpire 2", "B. Ashgrove"))
    theirs.apply(EditGame(a_game(observer="R. Valdrune", crew=crew)))
    for seconds, position in (("10", "umpire 1"), ("30", "umpire 2"), ("50", None)):
        (tag,) = theirs.apply(their_tag(seconds))
        theirs.apply(SetOfficial(tag, position))
    found = laid(kept, theirs)
    kept.apply(take(found, kept.review, found.missing))
    review = kept.review
    whose = [one.position if (one := review.official_of(tag.id)) else None for tag in review.tags]
    assert whose == ["umpire 1", None, None]
    kept.undo()
    assert (kept.review.tags, kept.review.officials) == ((), ())
