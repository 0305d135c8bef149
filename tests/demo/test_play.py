"""What happens in the made-up game is possible on a real court."""

import math

import pytest

from filmreview.demo.ball import ball_at, bounces
from filmreview.demo.made_up_game import GAME
from filmreview.demo.play import PEOPLE, RATE, SECONDS, STOPPAGES, placed
from filmreview.demo.shots import shot_at
from filmreview.demo.stand import BIG_HEIGHT, BIG_WIDTH, BOARD, FREE_THROW_LINE, RING, scale_at, spot

FRAMES = range(SECONDS * RATE)


@pytest.mark.parametrize("second", [3.0, 7.0, 13.8, 18.9, 29.0, 33.0])
def test_five_of_each_team_and_three_officials_are_on_the_court(second: float) -> None:
    # five players a team is the game; a crew of three is common practice in varsity games
    inside = [key for key in PEOPLE if -10 < placed(key, second).y < 50.5 or GAME.person(key).team == "crew"]
    teams = [GAME.person(key).team for key in inside]
    assert {team: teams.count(team) for team in ("home", "visitor", "crew")} == {"home": 5, "visitor": 5, "crew": 3}


def test_nobody_is_faster_than_a_sprinter() -> None:
    # 12.4 m/s (40.7 ft/s) is the fastest human running measured, Berlin 2009, from memory
    for key in PEOPLE:
        for number in FRAMES[1:]:
            before, now = placed(key, (number - 1) / RATE), placed(key, number / RATE)
            assert math.dist((before.x, before.y), (now.x, now.y)) * RATE < 40.7, (key, number / RATE)


def test_the_ball_never_jumps() -> None:
    for number in FRAMES[1:]:
        assert math.dist(ball_at((number - 1) / RATE), ball_at(number / RATE)) < 3.2, number / RATE


def test_the_ball_is_in_or_above_the_floor() -> None:
    assert min(ball_at(number / RATE)[2] for number in FRAMES) >= 0.39  # its radius: 9.4 in across by the school book


def test_stoppages_lie_in_the_film_one_after_the_other() -> None:
    edges = [edge for stoppage in STOPPAGES for edge in stoppage]
    assert edges == sorted(edges)
    assert 0 < edges[0] < edges[-1] < SECONDS


def test_bounces_lie_in_the_film() -> None:
    assert len(bounces()) > 15
    assert all(0 < second < SECONDS + 1 for second in bounces())


def test_the_camera_moves_without_jumps_and_stays_inside() -> None:
    for number in FRAMES:
        left, top, right, bottom = shot_at(number / RATE).box
        assert 0 <= left < right <= BIG_WIDTH
        assert 0 <= top < bottom <= BIG_HEIGHT
        before = shot_at(max(number - 1, 0) / RATE)
        assert abs(math.log(shot_at(number / RATE).width / before.width)) < 0.06


def test_the_gym_has_the_dimensions_of_a_school_court() -> None:
    # NFHS court: ring 10 ft up, 15 ft from the free-throw line to the plane of the board; from memory: ring middle 15 in off it
    assert FREE_THROW_LINE == BOARD - 15
    assert RING[2] == 10
    low, high = spot(RING[0], RING[1]), spot(*RING)
    assert (low[1] - high[1]) / scale_at(RING[1]) == pytest.approx(10)


def test_players_wear_legal_numbers_but_one() -> None:
    # NFHS: 0 to 5, 00 and no digit over 5 (published in part, list from memory)
    numbers = [person.number for person in GAME.people if person.team != "crew"]
    assert [number for number in numbers if any(digit > "5" for digit in number)] == ["27"]
    assert len({(person.team, person.number) for person in GAME.people}) == len(GAME.people)
