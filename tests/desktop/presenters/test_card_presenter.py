"""The card without a screen: from a region to a kept, ruled tag."""

from collections.abc import Callable
from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest

from filmreview.colour.palette import colour_named
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.draft import plain_line
from filmreview.desktop.ruling_words import questions_of
from filmreview.desktop.setup_presenter import game_of
from filmreview.desktop.stoppage_presenter import StoppagePresenter
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import KEYS, Kind, parse_value
from filmreview.facts.region import Box
from filmreview.film.film import Film, open_film
from filmreview.film.moment import format_time
from filmreview.measure.colour import measure_colour
from filmreview.review import store as stores
from filmreview.review.changes import SetReference
from filmreview.review.films import add_film
from filmreview.review.line import UNREADABLE, Understood, parse_line
from filmreview.review.ruled import deciding_facts
from tests.desktop.desk_fixtures import FILMS, FORM, AtOnce

REGION = Box(20, 60, 30, 24)


@pytest.fixture
def card(desk: Desk) -> CardPresenter:
    return CardPresenter(desk)


@pytest.fixture
def told(card: CardPresenter) -> list[str]:
    """The events, as they come."""
    events: list[str] = []
    for name in ("open", "line", "measured", "ruling", "kept", "refused", "resumed"):
        card.events.on(name, lambda name=name: events.append(name))
    return events


def test_words_that_are_no_fact_are_told_where_to_go(card: CardPresenter, desk: Desk, film: Film) -> None:
    hint = 'words of your own go in "quotes" or under Note'
    card.open_new(film.frame(30))
    card.type("v14 arm")
    assert card.draft is not None
    assert hint not in card.draft.asks
    card.type("v14 arm sleeve orange qwertz")
    assert card.draft.asks[-1] == hint
    assert not card.keep()
    assert desk.last_message.endswith(hint)
    card.type('v14 arm sleeve orange "qwertz"')
    assert card.draft.asks == ()
    assert card.draft.understood.note == "qwertz"


def test_region_line_keep(card: CardPresenter, desk: Desk, film: Film, told: list[str]) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve orange")
    assert card.ruling is not None
    assert card.ruling.ruling == "illegal"
    assert card.keep()
    (tag,) = desk.review.tags
    assert (tag.team, tag.player, tag.item, tag.region, tag.moment) == (
        "visitor", "14", "arm sleeve", REGION, film.moment_of(30),
    )  # fmt: skip
    assert [one.ruling.ruling for one in desk.findings] == ["illegal"]
    assert card.draft is None
    assert desk.last_message == "kept: visitor 14, arm sleeve, colour orange"
    assert told[-1] == "kept"


def test_the_colour_is_measured_by_itself_and_the_eye_overrules_it(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve")
    assert card.measured is not None
    measured = deciding_facts(card.draft.facts)["colour"]
    assert measured.origin is Origin.MEASURED
    card.type("v14 arm sleeve orange")
    assert deciding_facts(card.draft.facts)["colour"].origin is Origin.SEEN
    assert card.ruling.ruling == "illegal"
    card.keep()
    assert {fact.origin for fact in desk.review.tags[0].facts if fact.key == "colour"} == {Origin.MEASURED, Origin.SEEN}


def test_a_lone_white_that_cannot_serve_is_named_on_the_card(card: CardPresenter, desk: Desk, film: Film) -> None:
    assert desk.try_change(SetReference(desk.film_id, film.moment_of(10), Box(5, 5, 3, 3), colour_named("white")))
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve")
    assert not card.measuring
    white = f"the white at {format_time(film.time_of(film.moment_of(10)))} cannot serve"
    why = "it is 3 px across; mark 6 px across or more"
    assert card.measured.why_not == f"{white}: {why}"
    assert (card.measured.colour, card.draft.measured) == (None, ())
    assert card.measured.view == measure_colour(film.frame(30).exact_picture(), REGION).view, "how well it is seen is told"
    assert card.ruling.ruling == "cannot be told"
    assert card.keep()


def test_a_measurement_that_fails_for_something_else_is_a_message(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), Box(-5, 0, 30, 24))
    assert card.measured is None
    assert "reaches outside the picture" in desk.last_message


def test_without_a_region_nothing_is_measured_and_the_colour_is_asked(card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30))
    card.type("v14 arm sleeve")
    assert card.measured is None
    assert card.ruling.ruling == "cannot be told"
    waiting, _presumed = questions_of(card.ruling, 3)
    assert waiting[0].fact == "colour"


def test_an_answer_is_written_into_the_line_and_decides(card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30))
    card.type("v14 arm sleeve black")
    assert card.ruling.ruling == "legal"
    card.answer("solid", False)
    assert card.draft.line == "v14 arm sleeve black not solid"
    assert card.ruling.ruling == "illegal"
    card.answer("solid", None)
    assert card.ruling.ruling == "legal"


def test_the_widgets_write_the_same_line(card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30))
    card.set_who("visitor", "22")
    card.set_item("tights")
    card.set_crew("late", "sent out at the next dead ball")
    card.set_note('second "half"')
    assert card.draft.line == "v22 tights crew late \"second 'half'\""
    card.set_who("visitor", UNREADABLE)
    assert card.draft.understood.player == UNREADABLE
    card.keep()


def test_an_unfinished_line_is_not_kept_and_says_why(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30))
    card.type("v14 arm sleeve ornge")
    assert not card.keep()
    assert "ornge" in desk.last_message
    assert desk.review.tags == ()
    assert card.draft is not None


def test_a_tag_that_the_review_refuses_stays_on_the_card(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve black")
    desk.store.close()
    assert not card.keep()
    assert "closed" in desk.last_message
    assert card.draft is not None


def test_drop_leaves_no_trace(card: CardPresenter, desk: Desk, film: Film, told: list[str]) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve")
    card.drop()
    assert (card.draft, card.ruling, desk.review.tags) == (None, None, ())
    assert told[-1] == "open"


def test_a_kept_tag_is_changed_in_place(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type('v14 arm sleeve orange crew late "a note"')
    card.keep()
    before = desk.review.tags[0]
    card.open_tag(before.id)
    assert not card.is_new
    card.type(card.draft.line.replace("orange", "green"))
    assert card.ruling.ruling == "legal"
    card.keep()
    (after,) = desk.review.tags
    assert (after.id, after.region, after.note, after.crew) == (before.id, before.region, "a note", before.crew)
    assert [one.ruling.ruling for one in desk.findings] == ["legal"]


def test_opening_and_keeping_a_tag_again_changes_nothing(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type('v14 headband black 2.5 +- 0.3 in wide forehead not hard crew wrong procedure "a note"')
    card.keep()
    steps = len(desk.store.history())
    card.open_tag("t1")
    card.keep()
    assert len(desk.store.history()) == steps


def test_a_tag_undone_elsewhere_closes_the_card(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve black")
    card.keep()
    card.open_tag("t1")
    desk.store.undo()
    assert card.draft is None


def test_a_measurement_that_comes_late_is_for_the_newest_region(card: CardPresenter, at_once: AtOnce, film: Film) -> None:
    at_once.hold = True
    card.open_new(film.frame(30), REGION)
    card.set_region(film.frame(31), Box(10, 60, 20, 20))
    assert card.measuring
    at_once.let_go()
    assert not card.measuring
    assert card.draft.moment == film.moment_of(31)
    assert card.measured is not None


def test_an_answer_after_the_card_closed_is_dropped(card: CardPresenter, at_once: AtOnce, film: Film) -> None:
    at_once.hold = True
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve")
    card.drop()
    at_once.let_go()
    assert (card.measured, card.ruling, card.draft) == (None, None, None)


def test_the_number_shows_the_player_s_number_unless_said_otherwise(card: CardPresenter, film: Film) -> None:
    card.open_new(film.frame(30))
    card.type("v14 number")
    assert {fact.key: fact.value for fact in card.draft.facts} == {"number": "14"}
    card.type("v14 number 41")
    assert {fact.key: fact.value for fact in card.draft.facts} == {"number": "41"}


def test_a_region_drawn_elsewhere_begins_a_new_tag_beside_a_kept_one(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 tights black")
    card.keep()
    card.open_tag("t1")
    assert not card.unsaved
    assert card.draw(film.frame(40), REGION)
    assert card.is_new
    assert desk.review.tag("t1").moment == film.moment_of(30)


def test_a_change_to_a_kept_tag_is_not_lost_by_drawing_elsewhere(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 tights black")
    card.keep()
    card.open_tag("t1")
    card.type("v14 tights white")
    assert card.unsaved
    assert not card.draw(film.frame(40), REGION)
    assert "first" in desk.last_message
    assert card.draft.id == "t1"


def test_a_region_drawn_on_its_own_frame_moves_a_kept_tag(card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 tights black")
    card.keep()
    card.open_tag("t1", film.frame(30))
    card.draw(film.frame(30), Box(60, 70, 30, 24))
    card.keep()
    assert [tag.region for tag in desk.review.tags] == [Box(60, 70, 30, 24)]


PLAIN_LINES = {
    "v14 jersey red in_play=yes when=playing": "v14 jersey red became a player found playing",
    "v14 jersey in_play=no tucked=no": "v14 jersey not became a player not tucked",
    "v14 headband black, red solid=no worn=forehead": "v14 headband black and red not solid worn at forehead",
    'v? guard or cast hard=yes padded=no crew late "it was ""hard"""': None,
    "h3 headband width_in=2.5 hazard=no": "h3 headband width 2.5 in not hazard",
}


@pytest.mark.parametrize("typed", PLAIN_LINES)
def test_a_line_in_words_is_read_as_the_same(typed: str) -> None:
    said = parse_line(typed)
    assert said.unread == ()
    line = plain_line(said)
    assert parse_line(line) == said
    assert "=" not in line
    assert line == (PLAIN_LINES[typed] or line)


@pytest.mark.parametrize("key", list(KEYS))
def test_every_fact_is_read_back_from_the_line_of_a_kept_tag(key: str) -> None:
    texts = {Kind.YES_NO: ("yes", "no"), Kind.CHOICE: KEYS[key].choices, Kind.COLOURS: ("red", "red, white"),
             Kind.AMOUNT: ("2.5", "2.5 +- 0.3"), Kind.NUMBER_TEXT: ("14",)}[KEYS[key].kind]  # fmt: skip
    for text, item in product(texts, ("jersey", "logo", "number", "blood", "headband")):
        said = Understood("visitor", "22", item, (Fact(key, parse_value(key, text), Origin.SEEN),), "a note", "late")
        again = parse_line(plain_line(said))
        assert again == replace(said, says=again.says)


@pytest.fixture
def slow_disk(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> list[Callable[[], None]]:
    """Changes wait here for the disk, until they are called."""
    waiting: list[Callable[[], None]] = []
    push = desk._push
    monkeypatch.setattr(desk, "_push", lambda *given: waiting.append(lambda: push(*given)))
    return waiting


def test_while_a_tag_is_on_its_way_the_draft_stays_as_it_is(
    card: CardPresenter, desk: Desk, film: Film, told: list[str], slow_disk: list[Callable[[], None]]
) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 tights black")
    draft = card.draft
    told.clear()
    assert card.keep()
    assert not card.keep()  # a second Enter is none too many
    card.type("v14 tights white")
    card.set_crew("late")
    card.drop()
    assert card.draft is draft
    assert told == ["line"]  # the widgets show what is being kept
    assert desk.review.tags == ()
    assert len(slow_disk) == 1
    slow_disk.pop()()
    assert [tag.item for tag in desk.review.tags] == ["tights"]
    assert card.draft is None
    assert desk.last_message == "kept: visitor 14, tights, colour black"


def test_what_comes_meanwhile_waits_and_begins_the_next_tag(
    card: CardPresenter, desk: Desk, film: Film, told: list[str], slow_disk: list[Callable[[], None]]
) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 tights black")
    card.keep()
    assert card.draw(film.frame(40), Box(60, 70, 30, 24))
    assert card.draft.moment == film.moment_of(30)
    slow_disk.pop()()
    assert (card.is_new, card.draft.moment, card.draft.line) == (True, film.moment_of(40), "")
    assert told[-1] == "resumed"
    assert [tag.moment for tag in desk.review.tags] == [film.moment_of(30)]


def test_what_comes_meanwhile_is_forgotten_when_the_tag_is_refused(
    card: CardPresenter, desk: Desk, film: Film, told: list[str], slow_disk: list[Callable[[], None]]
) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 tights black")
    card.keep()
    card.draw(film.frame(40), Box(60, 70, 30, 24))
    desk.store.close()
    slow_disk.pop()()
    assert (card.draft.moment, card.draft.line) == (film.moment_of(30), "v14 tights black")
    assert card.ruling is not None
    assert desk.last_message.startswith("not kept: ")
    assert told[-1] == "refused"


@pytest.fixture
def other_film(desk: Desk) -> str:
    """A second film of the game; the desk is given the first one's frames for it, as if their moments were equal."""
    assert desk.review is not None
    with open_film(FILMS / "variable.mp4") as other:
        desk.try_change(add_film(other, desk.review.path))
    return desk.review.films[1].id


def test_a_region_drawn_on_another_film_is_of_that_film(card: CardPresenter, desk: Desk, film: Film, other_film: str) -> None:
    card.open_new(film.frame(30))
    card.type("v14 arm sleeve orange")
    card.put(film.frame(30), Fact("width_in", parse_value("width_in", "2.5"), Origin.MEASURED))
    desk.take_film(other_film, film)
    card.draw(film.frame(30), REGION)
    assert card.draft is not None
    assert (card.draft.film, card.draft.by_hand) == (other_film, ())
    card.keep()
    assert [tag.film for tag in desk.review.tags] == [other_film]


def test_a_kept_tag_gets_no_region_of_another_film(card: CardPresenter, desk: Desk, film: Film, other_film: str) -> None:
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve orange")
    card.keep()
    card.open_tag(card.last_kept, film.frame(30))
    desk.take_film(other_film, film)
    assert card.draw(film.frame(30), Box(1, 2, 30, 24))
    assert card.is_new
    assert card.draft is not None
    assert card.draft.film == other_film
    assert desk.review.tags[0].region == REGION


def test_what_is_begun_on_one_review_does_not_go_into_another(
    card: CardPresenter, desk: Desk, film: Film, tmp_path: Path
) -> None:
    stoppages = StoppagePresenter(desk)
    card.open_new(film.frame(30), REGION)
    card.type("v14 arm sleeve orange")
    stoppages.mark(("f1", film.moment_of(30)))
    other = stores.create(tmp_path / "other.filmreview", game_of(FORM), "R. Valdrune")
    other.apply(add_film(film, other.path))
    desk.take_store(other)
    assert card.draft is None
    assert stoppages.begun is None
    assert desk.review is not None
    assert desk.review.path == other.path
