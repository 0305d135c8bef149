"""A length measured by hand, without a screen: step by step, live words, what cannot be, and the fact on the card."""

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.length_presenter import LengthPresenter
from filmreview.desktop.length_step import OWN_SIZE, THE_FLOOR, Step
from filmreview.facts.fact import Origin
from filmreview.film.film import Film
from filmreview.measure.known import known_in
from filmreview.measure.view import frame_sharpness
from tests.desktop.desk_fixtures import AtOnce

BALL = ((130.0, 50.0), (130.0, 77.0))
AT_3_PX = ((130.0, 50.0), (130.0, 50.0 + 3 * 9.47))
NUMBER = ((100.0, 50.0), (100.0, 67.0))


@pytest.fixture
def card(desk: Desk) -> CardPresenter:
    return CardPresenter(desk)


@pytest.fixture
def length(desk: Desk, card: CardPresenter, film: Film) -> LengthPresenter:
    made = LengthPresenter(desk, card)
    made.begin(film.frame(30))
    return made


def measure(length: LengthPresenter, known: object = BALL, item: object = NUMBER) -> None:
    length.place(known)
    length.go_on()
    length.place(item)


def test_the_known_thing_first_then_the_item_then_the_card(length: LengthPresenter, card: CardPresenter, film: Film) -> None:
    told: list[str] = []
    for name in ("asked", "put"):
        length.events.on(name, lambda name=name: told.append(name))
    length.choose_key("height_in")
    ball = known_in("nfhs")[0].name
    assert length.asked.names == (f"{ball}: one end", f"{ball}: other end")
    assert length.texts.todo == (
        f"place both ends of the {ball} that lies beside the item, as far from the camera as it, then Enter"
    )
    length.place((BALL[0], None))
    length.go_on()
    assert length.step is Step.KNOWN
    length.place(BALL)
    assert length.texts.todo == "Enter: on to the height"
    length.go_on()
    assert length.asked.names == ("height: one end", "height: other end")
    length.place((NUMBER[0], None))
    assert length.texts.value == ""
    length.go_on()
    assert card.draft is None
    length.place(NUMBER)
    length.go_on()
    assert told[-1] == "put"
    assert not length.on
    assert card.draft.moment == film.moment_of(30)
    (fact,) = card.draft.by_hand
    assert (fact.key, fact.origin) == ("height_in", Origin.MEASURED)
    assert fact.value.value == pytest.approx(17 / 27 * 9.47, abs=0.005)
    assert fact.value.plus_minus > 0.3


def test_the_worked_example(length: LengthPresenter) -> None:
    # Own worked example: 17 px beside a ball of 27 px, depth 2 %, lean 0 to 15 degrees: 6.03 +- 0.36 in, P(at least 6) = 0.53.
    length.choose_key("height_in")
    length.set_lean(15.0)
    length.set_limit("at least 6")
    measure(length)
    assert length.texts.value.startswith(
        "height 6.03 ± 0.36 in (15.32 ± 0.90 cm), 95 % 5.33 to 6.73 in\nat least 6 in: cannot be told"
    )
    assert "item's ends 0.29, known thing's ends 0.18" in length.texts.behind
    assert "view thin (17 px long)" in length.texts.behind
    length.draw()
    assert "by 200,000 draws 6.0" in length.texts.behind
    assert "± 0.36 in" in length.texts.behind
    assert "P 0.53" in length.texts.behind


def test_a_headband_at_3_px_to_the_inch(length: LengthPresenter, at_once: AtOnce) -> None:
    # Own worked example: at 3 px/in a 3 in headband limit can only be called below 2 or above 4 in.
    at_once.hold = True  # as the example has it, without motion blur
    length.set_limit("at most 3")
    measure(length, AT_3_PX, ((100.0, 50.0), (100.0, 59.0)))
    assert "at most 3 in: cannot be told" in length.texts.value
    assert "3 in can only be called below 2 or above 4 in" in length.texts.value


def test_a_point_moved_changes_the_length_at_once(length: LengthPresenter) -> None:
    measure(length)
    before = length.seen.length.inches
    length.place((NUMBER[0], (100.0, 68.0)))
    assert length.seen.length.inches == pytest.approx(before * 18 / 17)
    length.place((NUMBER[0], None))
    assert length.seen is None
    assert length.texts.value == ""


def test_several_lengths_by_the_same_thing(length: LengthPresenter) -> None:
    measure(length)
    length.back()
    assert length.step is Step.KNOWN
    assert length.asked.at == BALL
    length.go_on()
    assert length.asked.at == NUMBER


def test_motion_blur_is_looked_for(length: LengthPresenter, at_once: AtOnce) -> None:
    at_once.hold = True
    measure(length)
    assert "motion blur is not known and not counted" in length.texts.notes
    at_once.let_go()
    assert length.seen.blur is not None
    assert "not counted" not in length.texts.notes
    assert dict(length.seen.view.figures)["blur px"] == length.seen.blur


def test_the_frames_sharpness_is_part_of_the_view(length: LengthPresenter, desk: Desk, film: Film) -> None:
    assert desk.sharpest is not None
    measure(length)
    share = dict(length.seen.view.figures)["sharpness"]
    assert share == pytest.approx(frame_sharpness(film.frame(30).picture()) / desk.sharpest)


def test_another_frame_asks_for_the_known_thing_again(length: LengthPresenter, film: Film) -> None:
    measure(length)
    length.stand(film.frame(30))
    assert length.step is Step.ITEM
    length.stand(None)
    assert length.asked is None
    assert length.texts.todo == "pause the film to measure on a frame"
    length.stand(film.frame(31))
    assert (length.step, length.asked.at, length.seen) == (Step.KNOWN, BALL, None)
    length.go_on()
    length.go_on()
    assert not length.on


def test_points_do_not_follow_the_camera_and_it_is_said(length: LengthPresenter, film: Film) -> None:
    measure(length)
    length.stand(film.frame(31))
    assert length.texts.todo == f"another frame: put the points on the {length.thing} again, then Enter"
    length.go_on()
    assert length.texts.todo == "another frame: put the points on the width again, then Enter"
    length.place(NUMBER)
    assert length.texts.todo == "Enter puts the width on the card"
    length.back()
    assert length.texts.todo == "Enter: on to the width"


def test_what_the_item_on_the_card_is_usually_measured_by(desk: Desk, card: CardPresenter, film: Film) -> None:
    for line, key in (("v14 number", "height_in"), ("v14 headband", "width_in"), ("v14 logo", "side_in")):
        card.open_new(film.frame(30))
        card.type(line)
        made = LengthPresenter(desk, card)
        made.begin(film.frame(30))
        assert made.key == key
        card.drop()


def test_the_things_are_those_of_the_book(length: LengthPresenter) -> None:
    assert length.choices == (*(thing.name for thing in known_in("nfhs")), OWN_SIZE, THE_FLOOR)
    assert "size 7 ball" not in length.choices
    assert length.court == "school"


def test_a_size_that_the_reviewer_knows(length: LengthPresenter) -> None:
    length.choose_against(OWN_SIZE)
    assert length.asked.names[0] == "known thing: one end"
    length.place(BALL)
    length.go_on()
    assert length.step is Step.KNOWN
    assert "is not a size; write such as" in length.texts.value
    length.set_own_size("8 in")
    length.go_on()
    length.place(NUMBER)
    assert length.seen.length.inches == pytest.approx(17 / 27 * 8)
    assert "as declared by the observer" in length.texts.notes


LANE = ((60.0, 60.0), (120.0, 50.0), (170.0, 80.0), (100.0, 95.0))  # near corners left, far ones right: wrong for a camera
LANE_SEEN = ((60.0, 120.0), (150.0, 130.0), (170.0, 90.0), (100.0, 84.0))


def test_a_length_on_the_floor(length: LengthPresenter, card: CardPresenter) -> None:
    length.choose_against(THE_FLOOR)
    assert length.asked.closed
    assert len(length.asked.names) == 4
    assert length.texts.todo == "place the four court points, then Enter"
    length.place(LANE_SEEN)
    length.go_on()
    assert length.step is Step.ITEM, length.fault
    length.place((LANE_SEEN[0], LANE_SEEN[3]))
    assert length.seen.length.inches == pytest.approx(144.0, abs=0.5)  # a lane is 12 ft wide (rule-book dimension)
    assert "on the floor only" in length.texts.notes
    length.go_on()
    assert card.draft.by_hand[0].value.value == pytest.approx(144.0, abs=0.5)


def test_court_points_change_places(length: LengthPresenter) -> None:
    length.choose_against(THE_FLOOR)
    first, second = length.corners[:2]
    length.choose_corner(0, second)
    assert length.corners[:2] == (second, first)
    length.choose_corner(0, "right near corner")
    assert length.corners[:2] == ("right near corner", first)
    assert len(set(length.corners)) == 4


def test_more_than_four_court_points(length: LengthPresenter) -> None:
    length.choose_against(THE_FLOOR)
    length.place(LANE_SEEN)
    four = length.corners
    length.choose_corner(4, four[0])
    assert length.corners == four  # it is used already
    length.choose_corner(4, "left near corner")
    assert length.corners == (*four, "left near corner")
    assert length.texts.todo == "place the five court points, then Enter"
    assert length.asked.at == LANE_SEEN
    length.go_on()
    assert length.step is Step.KNOWN  # the fifth is not placed
    length.place((*LANE_SEEN, (30.0, 150.0)))
    length.go_on()
    assert length.step is Step.ITEM, length.fault
    length.choose_corner(4, "")
    length.choose_corner(3, "")
    assert length.corners == four
    assert length.asked.at == LANE_SEEN


@pytest.mark.parametrize(
    ("points", "fault"),
    [
        (((50.0, 50.0), (60.0, 60.0), (70.0, 70.0), (80.0, 90.0)), "three of the court points lie on one line"),
        (LANE, "the court points do not lie as on a floor"),
        (((50.0, 50.0), (50.0, 50.0), (70.0, 90.0), (80.0, 90.0)), "three of the court points lie on one line"),
    ],
)
def test_court_points_that_cannot_be(length: LengthPresenter, points: object, fault: str) -> None:
    length.choose_against(THE_FLOOR)
    length.place(points)
    length.go_on()
    assert length.step is Step.KNOWN
    assert fault in length.texts.value


def test_ends_that_cannot_be(length: LengthPresenter, card: CardPresenter, desk: Desk) -> None:
    length.place((BALL[0], BALL[0]))
    length.go_on()
    assert length.step is Step.KNOWN
    assert "both ends are the same point" in length.texts.value
    measure(length, BALL, (NUMBER[0], NUMBER[0]))
    assert "both ends are the same point" in length.texts.value
    length.go_on()
    assert card.draft is None
    length.place((NUMBER[0], (100.0, 54.0)))
    assert length.texts.value == "width cannot be told: the item is 4 px long, 5 are needed"
    length.go_on()
    assert desk.last_message == "not put on the card: the item is 4 px long, 5 are needed"
    assert card.draft is None
    assert length.on


def test_a_limit_that_cannot_be_read_is_said(length: LengthPresenter) -> None:
    measure(length)
    length.set_limit("3 in")
    assert length.texts.notes.startswith('write "at most 3", "at least 6" or "2 to 4"')
    assert "3 in" not in length.texts.value.partition("\n")[2]


def test_a_card_of_another_moment_waits(length: LengthPresenter, card: CardPresenter, desk: Desk, film: Film) -> None:
    card.open_new(film.frame(50))
    card.type("v14 headband")
    measure(length)
    length.go_on()
    assert "at another moment" in desk.last_message
    assert length.on


def test_stopped_it_asks_for_nothing(length: LengthPresenter) -> None:
    measure(length)
    length.stop()
    assert (length.on, length.asked, length.seen) == (False, None, None)
    assert length.texts.todo == ""
    length.go_on()
