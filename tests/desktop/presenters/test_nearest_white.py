"""Which white the desk measures against, without a screen, on a film of two camera views."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import colour_named, lab_of_code
from filmreview.colour.value import Colour
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.contrast_presenter import ContrastPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.kit_colours_presenter import KitColours
from filmreview.desktop.measuring import Measuring
from filmreview.desktop.white_words import NO_WHITE, WHITE_ELSEWHERE, WITH_WHITE
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.film.film import Film, Moment, open_film
from filmreview.progress import silent
from filmreview.review.changes import SetReference
from filmreview.review.films import add_film
from filmreview.review.model import PlacedReference
from tests.desktop.desk_fixtures import AtOnce
from tests.measure.two_views import ITEM, NEAR, OTHER_VIEW, SECOND_VIEW, write_two_views

GREY = lab_of_code("#808080")
WHITE = colour_named("white")


@pytest.fixture
def views(desk: Desk, tmp_path: Path) -> Iterator[Film]:
    """The film of two views, on the desk."""
    with open_film(write_two_views(tmp_path / "two-views.mp4")) as film:
        desk.take_film(desk.store.apply(add_film(film, desk.store.path))[0], film)
        yield film


def point_at(desk: Desk, film: Film, *names: str) -> None:
    for name in names:
        number, box = {**NEAR, **OTHER_VIEW}[name]
        assert desk.try_change(SetReference(desk.film_id, film.moment_of(number), box, WHITE))


def off(colour: Colour | None) -> float:
    """How far from what the item is in truth."""
    assert colour is not None
    return float(ciede2000(colour.lab, GREY))


def test_the_nearest_in_the_picture_of_this_view(desk: Desk, views: Film) -> None:
    frame = views.frame(4)
    without = desk.measure(frame, ITEM, silent)
    assert desk.white_of(frame.moment, ITEM) is None
    point_at(desk, views, "left", "other")
    against_left = desk.measure(frame, ITEM, silent)
    point_at(desk, views, "right")
    measured = desk.measure(frame, ITEM, silent)
    taken = desk.white_of(frame.moment, ITEM)
    assert (taken.reference.region, taken.elsewhere) == (NEAR["right"][1], False)
    assert "another view" not in measured.why
    assert off(measured.colour) < 0.5 * off(against_left.colour)
    assert off(measured.colour) < 0.5 * off(without.colour)


def test_a_white_of_another_view_only_for_want_of_one_in_this(desk: Desk, views: Film) -> None:
    frame = views.frame(SECOND_VIEW + 6)
    point_at(desk, views, "left", "right")
    assert "a white in another view" in desk.measure(frame, ITEM, silent).why
    assert desk.white_of(frame.moment, ITEM).elsewhere
    point_at(desk, views, "other")
    measured = desk.measure(frame, ITEM, silent)
    assert "against a white" in measured.why
    assert "another view" not in measured.why
    assert desk.white_of(frame.moment, ITEM).reference.region == OTHER_VIEW["other"][1]


def test_whites_of_other_films_are_no_whites_here(desk: Desk, views: Film, film: Film) -> None:
    assert desk.try_change(SetReference("f1", film.moment_of(10), Box(40, 60, 40, 30), WHITE))
    assert desk.whites == ()
    assert "without a white" in desk.measure(views.frame(4), ITEM, silent).why


def test_each_white_s_frame_is_decoded_once_and_never_by_the_player_s_film(
    desk: Desk, views: Film, monkeypatch: pytest.MonkeyPatch
) -> None:
    point_at(desk, views, "left", "right", "other")
    decoded: list[tuple[bool, Moment]] = []
    frame_at = Film.frame_at

    def told(film: Film, moment: Moment) -> object:
        decoded.append((film is views, moment))
        return frame_at(film, moment)

    monkeypatch.setattr(Film, "frame_at", told)
    for number in (4, SECOND_VIEW + 6, 6, SECOND_VIEW + 8):
        for region in (ITEM, Box(120, 170, 50, 50)):
            desk.measure(views.frame(number), region, silent)
    assert sorted(moment.pts for _, moment in decoded) == sorted(one.moment.pts for one in desk.whites)
    assert not any(players for players, _ in decoded)


def test_a_white_just_pointed_at_is_not_decoded_again(desk: Desk, views: Film, monkeypatch: pytest.MonkeyPatch) -> None:
    number, box = NEAR["left"]
    frame = views.frame(number)
    desk.set_white(frame, box, SetReference(desk.film_id, frame.moment, box, WHITE), lambda: pytest.fail("refused"))
    monkeypatch.setattr(Film, "frame_at", lambda *_given: pytest.fail("decoded"))
    assert "against a white" in desk.measure(views.frame(4), ITEM, silent).why


def test_a_white_pointed_at_after_tagging_says_that_kept_tags_stay(desk: Desk, views: Film) -> None:
    number, box = NEAR["left"]
    frame, stay = views.frame(number), "tags kept before stay as measured"
    change = SetReference(desk.film_id, frame.moment, box, WHITE)
    desk.set_white(frame, box, change, lambda: pytest.fail("refused"))
    assert desk.last_message.startswith("kept as a white")
    assert stay not in desk.last_message
    card = CardPresenter(desk)
    card.open_new(views.frame(4), ITEM)
    card.type("v14 arm sleeve")
    assert card.keep()
    before = desk.review.tags
    desk.set_white(frame, box, change, lambda: pytest.fail("refused"))
    assert desk.last_message.endswith(stay)
    assert desk.review.tags == before


def test_whites_are_looked_at_when_the_film_is_opened(desk: Desk, views: Film, monkeypatch: pytest.MonkeyPatch) -> None:
    point_at(desk, views, "left", "right", "other")
    desk.take_film(desk.film_id, views)
    monkeypatch.setattr(Film, "frame_at", lambda *_given: pytest.fail("decoded"))
    assert "against a white" in desk.measure(views.frame(SECOND_VIEW + 6), ITEM, silent).why


def test_what_is_remembered_is_bounded(views: Film, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("filmreview.desktop.measuring._MOST_SEEN", 2)
    measuring = Measuring()
    measuring.take_film(views)
    whites = [PlacedReference(f"r{number}", "f2", views.moment_of(number), NEAR["left"][1], WHITE) for number in range(5)]
    measuring.look_at(whites, silent)
    decoded: list[Moment] = []
    frame_at = Film.frame_at
    monkeypatch.setattr(Film, "frame_at", lambda film, moment: decoded.append(moment) or frame_at(film, moment))
    measuring.look_at(whites[-2:], silent)
    assert decoded == []
    measuring.look_at(whites[:1], silent)
    assert decoded == [whites[0].moment]


def test_a_white_that_cannot_serve_says_why_each_time(desk: Desk, views: Film) -> None:
    number, _ = NEAR["left"]
    moment = views.moment_of(number)
    assert desk.try_change(SetReference(desk.film_id, moment, Box(5, 5, 3, 3), WHITE))
    for _ in range(2):
        with pytest.raises(FilmReviewError, match=r"^the white at 0:00\.080 cannot serve: it is 3 px across"):
            desk.measure(views.frame(4), ITEM, silent)


def test_one_that_cannot_serve_is_passed_over(desk: Desk, views: Film) -> None:
    point_at(desk, views, "left")
    assert desk.try_change(SetReference(desk.film_id, views.moment_of(11), Box(505, 185, 3, 3), WHITE))
    assert "against a white" in desk.measure(views.frame(4), ITEM, silent).why
    assert desk.white_of(views.moment_of(4), ITEM).reference.region == NEAR["left"][1]


def test_a_number_is_measured_against_the_same_white(desk: Desk, views: Film) -> None:
    card = CardPresenter(desk)
    contrast = ContrastPresenter(desk, card)
    frame = views.frame(SECOND_VIEW + 6)
    card.open_new(frame, Box(450, 130, 130, 130))
    contrast.begin(frame)
    assert contrast.behind.endswith(NO_WHITE)
    for names, said in (("left",), WHITE_ELSEWHERE), (("other",), WITH_WHITE):
        point_at(desk, views, *names)
        card.set_region(frame, Box(450, 130, 130, 130))
        assert contrast.behind.endswith(said)


def test_kit_colours_are_measured_by_the_same_choice(at_once: AtOnce, views: Film) -> None:
    placed = {
        name: PlacedReference(name, "f2", views.moment_of(number), box, WHITE)
        for name, (number, box) in {**NEAR, **OTHER_VIEW}.items()
    }
    kit = KitColours(views, at_once.start, at_once.forget, (placed["left"], placed["right"]))
    kit.draw(views.frame(4), ITEM)
    assert off(kit.sample.measured.colour) < 5
    first = kit.sample
    assert kit.white_against(first).reference == placed["right"]
    assert first.words.endswith("; against a white")
    assert kit.white_on(views.moment_of(2)) == placed["left"]
    assert kit.white_on(views.moment_of(3)) is None
    kit.draw(views.frame(SECOND_VIEW + 6), ITEM)
    assert "a white in another view" in kit.sample.measured.why
    assert kit.sample.words.endswith("; against a white in another view")
    assert kit.white_against(kit.sample).elsewhere
    assert kit.white_against(first).reference == placed["right"], "what was measured before keeps its white"
    number, box = OTHER_VIEW["other"]
    kit.point_at_white(views.frame(number), box)
    assert "another view" not in kit.sample.measured.why
