"""A written clip holds exactly the frames asked for, in order, held the right number of times, at the right times."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import made
import pytest
from burnt import read_number

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from filmreview.film.moment import Moment, Span
from filmreview.lessons import letters
from filmreview.lessons.caption_drawing import band_of, hidden
from filmreview.lessons.card_drawing import card_picture
from filmreview.lessons.clip import Card, Clip, Hold, Mark, Slow
from filmreview.lessons.letters import Type, wrapped
from filmreview.lessons.pictures import Look, plan_of
from filmreview.lessons.preview import preview
from filmreview.lessons.writing import write_clip
from tests.lessons.clip_making import a_clip, moments, nobody, read_back, span_in, span_of

TIMED = ["constant.mp4", "variable.mp4", "b-frames.mp4", "open-groups.mp4", "edit-list.mp4", "transport.ts", "late-start.mkv"]
OTHERS = [name for name in made.names() if name not in TIMED and not name.startswith("colour-")]


@pytest.mark.parametrize("name", TIMED)
def test_exactly_the_frames_asked_for(tmp_path: Path, name: str) -> None:
    """Expected numbers and times come from the film's truth, not from the plan."""
    first, held, last = 7, 25, 55
    truth, at = made.truth(name), [moment.seconds for moment in moments(name)]
    rate = Fraction(len(at) - 1) / (at[-1] - at[0]) if name == "variable.mp4" else 1 / (at[1] - at[0])
    hold = Hold(moments(name)[held], Fraction(1, 2), Fraction(1, 3))
    clip = a_clip(name, first, last, hold=hold, mark=Mark(Box(40, 60, 30, 30)), ruling=("Legal",))
    write_clip(clip, tmp_path / "clip.mp4", "answer")
    got = read_back(tmp_path / "clip.mp4")
    asked, answered = round(rate / 2), round(rate / 3)
    numbers = truth["numbers"]
    stills = asked + answered
    before, after = held + 1 - first, last - held - 1
    assert got.numbers[:before] == numbers[first : held + 1]
    assert got.numbers[before + stills :] == numbers[held + 1 : last]
    assert len(got.pictures) == before + stills + after
    # the marked frame is dimmed, so its number is read against its own light
    assert {read_number(picture) for picture in got.pictures[before : before + stills]} == {numbers[held]}
    assert got.times[:before] == [one - at[first] for one in at[first : held + 1]]
    still = got.times[before + stills] - got.times[before]
    assert abs(still - stills / rate) < Fraction(1, 10_000 if name != "variable.mp4" else 20)
    shift = got.times[before + stills] - at[held + 1]
    tail = [one + shift for one in at[held + 1 : last]]
    assert max(abs(one - other) for one, other in zip(got.times[before + stills :], tail, strict=True)) < Fraction(1, 50_000)


@pytest.mark.parametrize("name", OTHERS)
def test_films_of_every_kind(tmp_path: Path, name: str) -> None:
    truth = made.truth(name)
    with open_film(made.film(name)) as film:
        span = span_in(film, 2, 21)
    clip = Clip(made.film(name), span, hold=Hold(span.start, Fraction(1, 5)), faces=nobody(span))
    write_clip(clip, tmp_path / "clip.mp4", "question")
    got = read_back(tmp_path / "clip.mp4")
    stills = len(got.pictures) - 19
    assert stills in (5, 6)
    assert got.numbers == [truth["numbers"][2]] * (1 + stills) + truth["numbers"][3:21]
    height, width = got.pictures[0].shape[:2]
    assert (width, height) == (truth["width"] + truth["width"] % 2, truth["height"] + truth["height"] % 2)


def test_the_version_that_asks_shows_no_ruling(tmp_path: Path) -> None:
    clip = a_clip("constant.mp4", 0, 5, hold=Hold(moments("constant.mp4")[2], Fraction(1), Fraction(2)), ruling=("Illegal",))
    with open_film(clip.film) as film:
        looks = [one.look for one in plan_of(clip, film, "question").pictures]
        answered = [one.look for one in plan_of(clip, film, "answer").pictures]
    assert looks == [Look.PLAY] * 3 + [Look.QUESTION] * 30 + [Look.PLAY] * 2
    assert answered == [Look.PLAY] * 3 + [Look.QUESTION] * 30 + [Look.ANSWER] * 60 + [Look.PLAY] * 2
    write_clip(clip, tmp_path / "clip.mp4", "question")
    assert len(read_back(tmp_path / "clip.mp4").pictures) == 35


def test_slow_motion_and_cards(tmp_path: Path) -> None:
    name = "b-frames.mp4"
    clip = a_clip(
        name, 0, 20, slow=Slow(span_of(name, 5, 10), Fraction(1, 4)), title=Card(("One",), Fraction(1)),
        end=Card(("End",), Fraction(2)),
    )  # fmt: skip
    write_clip(clip, tmp_path / "clip.mp4", "answer")
    got = read_back(tmp_path / "clip.mp4")
    assert got.numbers == [None] * 25 + made.truth(name)["numbers"][:20] + [None] * 50
    steps = [Fraction(1, 25)] * 30 + [Fraction(4, 25)] * 5 + [Fraction(1, 25)] * 60
    assert [after - one for one, after in zip(got.times, got.times[1:], strict=False)] == steps[: len(got.times) - 1]
    assert abs(got.seconds - sum(steps)) < Fraction(1, 1000)


@pytest.mark.parametrize("look", ["dim", "outline"])
def test_the_preview_is_the_picture_written(tmp_path: Path, look: str) -> None:
    name = "colour-709-full.mp4"
    hold = Hold(moments(name)[3], Fraction(1, 5))
    mark = Mark(Box(100, 80, 60, 40), look)
    clip = a_clip(
        name, 0, 8, hold=hold, mark=mark, inset=True, question="May it be worn?", title=Card(("One",), Fraction(1, 10))
    )
    write_clip(clip, tmp_path / "clip.mp4", "question")
    got = read_back(tmp_path / "clip.mp4")
    with open_film(clip.film) as film:
        for number, picture in enumerate(got.pictures):
            shown = preview(clip, film, number, "question")
            away = abs(shown.astype(int) - picture.astype(int))
            assert away.mean() < 2.5, number  # what the encoder loses at edges
    assert number > 10


def test_a_mark_darkens_all_but_the_item() -> None:
    clip = a_clip("constant.mp4", 0, 5, hold=Hold(moments("constant.mp4")[2]), mark=Mark(Box(100, 90, 40, 30)))
    with open_film(clip.film) as film:
        plain = preview(clip, film, 2, "question").astype(int)
        held = preview(clip, film, 3, "question").astype(int)
    assert abs(held[92:118, 102:138] - plain[92:118, 102:138]).max() <= 3
    outside = plain.sum(axis=2) > 150
    outside[84:126, 94:146] = False
    assert (held.sum(axis=2)[outside] < 0.45 * plain.sum(axis=2)[outside]).all()


def test_a_hostile_or_foreign_text_is_drawn_and_never_lost_in_silence() -> None:
    lines = wrapped("<b>A & B</b>\u202e \U0001f3c0 " + "W" * 200, Type(20), 300)
    assert "[U+202E]" in " ".join(lines)
    assert "[U+1F3C0]" in " ".join(lines)
    assert "".join(lines).count("W") == 200
    assert lines[0].startswith("<b>A")


def test_a_span_outside_the_film_is_one_clear_line() -> None:
    name = "constant.mp4"
    end = moments(name)[-1]
    outside = Clip(made.film(name), Span(moments(name)[80], Moment(end.pts + 5005, end.time_base)))
    off = a_clip(name, 0, 9, hold=Hold(Moment(1002, end.time_base)))
    between = replace(a_clip(name, 0, 9), span=Span(Moment(1, end.time_base), Moment(1000, end.time_base)))
    with open_film(made.film(name)) as film:
        with pytest.raises(
            FilmReviewError, match=r"the span 0:02\.669 to 0:03\.170 reaches outside the film, which is 0:03\.003"
        ):
            plan_of(outside, film, "question")
        with pytest.raises(FilmReviewError, match="no frame at exactly"):
            plan_of(off, film, "question")
        with pytest.raises(FilmReviewError, match="holds no frame"):
            plan_of(between, film, "question")
        with pytest.raises(FilmReviewError, match='unknown version "answers"'):
            plan_of(a_clip(name, 0, 9), film, "answers")


def test_the_words_leave_the_item_free_and_what_does_not_fit_is_said() -> None:
    item = Box(140, 85, 40, 20)
    band, lines = band_of(320, 180, "May it be worn?", ("Illegal", "Rule 3-5-3", "Put it right while the ball is dead"), item)
    assert hidden(item, band) == 0
    assert "Rule 3-5-3" in [line for line, _ in lines]
    low = Box(140, 150, 40, 25)
    assert band_of(320, 180, "May it be worn?", (), low)[0].y == 0
    assert band_of(320, 180, "May it be worn?", (), None)[0].bottom == 180
    band, lines = band_of(320, 180, "word " * 400, (), None)
    assert lines[-1][0] == "... (more than fits here)"
    assert band.height <= 0.5 * 180
    assert band_of(320, 180, " ", (), item)[0].height == 0


def test_letters_that_no_typeface_here_has_are_told_by_number(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(letters, "_wide", lambda: (letters._PLAIN, frozenset()))
    assert wrapped("Жук, é", Type(20), 900) == ["[U+0416][U+0443][U+043A], é"]
    picture = card_picture(Card(("Жук", "אבג")), 320, 180)
    assert (picture != picture[0, 0]).any()
