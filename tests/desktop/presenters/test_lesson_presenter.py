"""A lesson put together without a screen: rows, order, words, settings, and the very picture that will be written."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.lesson_faces_presenter import FacesPresenter
from filmreview.desktop.lesson_presenter import LessonPresenter, draft_of
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact
from filmreview.facts.keys import parse_value
from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.lessons.lesson_faces import BLURRED, CONSENT, NOBODY, OPEN
from filmreview.lessons.plan import Settings
from filmreview.review.changes import AddTag
from filmreview.review.ruled import findings
from tests.lessons.small_review import QUICK, SITUATION


@pytest.fixture
def tagged(desk: Desk, film: Film) -> Desk:
    """Two findings, one second apart."""
    for number, player, item, colour in ((30, "14", "arm sleeve", "orange"), (60, "22", "headband", "black")):
        facts = (Fact("colour", parse_value("colour", colour)),)
        desk.try_change(AddTag("f1", film.moment_of(number), "visitor", player, item, Box(40, 40, 30, 30), facts))
    return desk


@pytest.fixture
def lesson(tagged: Desk) -> LessonPresenter:
    assert tagged.findings is not None
    made = LessonPresenter(tagged, draft_of(tagged.findings))
    made.settings = QUICK
    return made


def asked(lesson: LessonPresenter) -> list[str]:
    return [one.id for one in lesson.lesson().questions]


def test_a_new_lesson_asks_everything_with_usual_settings(tagged: Desk) -> None:
    assert tagged.findings is not None
    lesson = LessonPresenter(tagged, draft_of(tagged.findings))
    assert lesson.settings == Settings()
    assert asked(lesson) == ["t1", "t2"]
    assert lesson.rows[0].words == "0:01.001  Visitor 14, arm sleeve - illegal: fix or leave (3-5-3)"
    assert lesson.plan().title == "What the players wear: 2 questions"


def test_all_or_none_are_asked_and_told_once(lesson: LessonPresenter) -> None:
    told: list[str] = []
    lesson.events.on("rows", lambda: told.append("rows"))
    lesson.set_all(False)
    assert not any(row.on for row in lesson.rows)
    lesson.set_all(True)
    assert asked(lesson) == ["t1", "t2"]
    assert told == ["rows", "rows"]


def test_questions_are_left_out_moved_and_asked_in_own_words(lesson: LessonPresenter) -> None:
    assert lesson.move(0, 1) == 1
    assert asked(lesson) == ["t2", "t1"]
    assert lesson.move(1, 1) == 1, "the last one stays"
    lesson.set_own(0, "  What of 22?  ")
    assert lesson.lesson().questions[0].asked == "What of 22?"
    lesson.set_on(0, False)
    assert asked(lesson) == ["t1"]
    lesson.set_on(1, False)
    assert lesson.problem == "the lesson asks nothing; choose at least one finding or situation"


def test_a_situation_is_added_once(lesson: LessonPresenter, tmp_path: Path) -> None:
    path = tmp_path / "band.situation.toml"
    path.write_text(SITUATION, encoding="utf-8")
    lesson.add_situation(path)
    assert len(asked(lesson)) == 4
    with pytest.raises(FilmReviewError, match="this situation is asked already"):
        lesson.add_situation(path)
    pictures = []
    for version, share, look in (("question", 0.9, "question"), ("answer", 0.2, "question"), ("answer", 0.9, "answer")):
        lesson.want_picture(2, version, share)
        assert lesson.shown is not None
        assert (lesson.shown.look, lesson.shown.picture.shape) == (look, (360, 640, 3))
        pictures.append(lesson.shown.picture)
    assert (pictures[0] == pictures[1]).all()
    assert (pictures[0] != pictures[2]).any()


def test_what_cannot_be_is_told(lesson: LessonPresenter) -> None:
    lesson.set_setting("slow", Fraction(5))
    assert lesson.problem == "lesson: more slow motion than lead-in; give as much lead-in or less slow motion"
    lesson.want_picture(0, "question", 0.5)
    assert (lesson.shown, lesson.fault) == (None, lesson.problem)
    lesson.set_setting("slow", Fraction(0))
    assert "nobody has answered for the faces on this stretch yet (page Faces)" in lesson.problem


def test_the_picture_is_that_of_its_place_in_the_clip(lesson: LessonPresenter) -> None:
    told = []
    lesson.events.on("picture", lambda: told.append(lesson.shown))
    for share, look in ((0.0, "play"), (0.4, "question"), (0.75, "answer"), (1.0, "play")):
        lesson.want_picture(0, "answer", share)
        assert lesson.shown is not None
        assert lesson.shown.look == look
        assert lesson.shown.seconds == pytest.approx(2.7, abs=0.05)
    assert len(told) == 4


def test_the_preview_is_the_picture_that_is_written(lesson: LessonPresenter, tagged: Desk, tmp_path: Path) -> None:
    """Decoded from the written clip: within what an encoder changes of the picture shown before."""
    import av

    from filmreview.lessons.writing import write_clip

    faces = FacesPresenter(tagged, lesson.stretches)
    faces.answer_all(NOBODY)
    clip = lesson.piece(lesson.rows[0])
    write_clip(clip, tmp_path / "one.mp4", "answer", height=QUICK.height)
    with av.open(str(tmp_path / "one.mp4")) as film:
        written = [frame.to_ndarray(format="rgb24") for frame in film.decode(video=0)]
    lesson.want_picture(0, "answer", 0.5)
    assert lesson.shown is not None
    number = int(0.5 * len(written))
    apart = np.abs(written[number].astype(int) - lesson.shown.picture.astype(int))
    assert apart.mean() < 3
    assert np.abs(written[0].astype(int) - lesson.shown.picture.astype(int)).mean() > 10, "and not just any picture"


def test_a_kept_lesson_is_opened_as_it_was(lesson: LessonPresenter, tagged: Desk) -> None:
    lesson.move(0, 1)
    lesson.set_on(1, False)
    lesson.set_words("Sleeves", "Ask.")
    tagged.try_change(lesson.keeping())
    review = tagged.review
    assert review is not None
    again = LessonPresenter(tagged, draft_of(findings(review), review.lessons[0]))
    assert (again.title, again.end, again.settings, again.kept) == ("Sleeves", "Ask.", QUICK, review.lessons[0].id)
    assert [(row.question.id, row.on) for row in again.rows] == [("t2", True), ("t1", False)]
    again.set_words("Sleeves and bands", "")
    tagged.try_change(again.keeping())
    assert tagged.review is not None
    assert [one.title for one in tagged.review.lessons] == ["Sleeves and bands"]


@pytest.fixture
def faces(lesson: LessonPresenter, tagged: Desk) -> FacesPresenter:
    return FacesPresenter(tagged, lesson.stretches)


def choices(faces: FacesPresenter) -> list[str]:
    return [one.choice for one in faces.stretches()]


def test_answers_are_kept_in_the_review(faces: FacesPresenter, lesson: LessonPresenter) -> None:
    assert choices(faces) == [OPEN, OPEN]
    faces.answer(0, CONSENT)
    assert choices(faces) == [CONSENT, OPEN]
    faces.answer_all(CONSENT)
    assert choices(faces) == [CONSENT, CONSENT]
    assert lesson.problem == ""
    faces.answer_all(BLURRED)
    assert choices(faces) == [CONSENT, CONSENT], "without a list nothing is blurred"


def test_a_face_is_followed_and_the_answer_asked_for_again(faces: FacesPresenter) -> None:
    faces.answer_all(CONSENT)
    faces.want_frame(0, 0.5, False)
    assert faces.frame is not None
    faces.add(0, Box(20, 20, 24, 24))
    stretch = faces.stretches()[0]
    (blur,) = stretch.blurs
    assert blur.origin == "by hand"
    assert choices(faces) == [OPEN, CONSENT]
    faces.want_frame(0, 0.5, False)
    assert faces.frame is not None
    assert [name for name, _ in faces.frame.boxes] == [blur.id]
    plain = faces.frame.picture
    faces.want_frame(0, 0.5, True)
    assert faces.frame is not None
    box = faces.frame.boxes[0][1]
    inside = (slice(box.y, box.bottom), slice(box.x, box.right))
    assert faces.frame.picture[inside].std() < plain[inside].std(), "as it will be written: blurred"
    faces.want_pictures(0)
    small = faces.picture_of(blur)
    assert small is not None
    assert small.shape[0] >= 24
    faces.answer(0, BLURRED)
    assert choices(faces) == [BLURRED, CONSENT]
    faces.correct(0, blur.id, Box(60, 60, 24, 24))
    assert choices(faces) == [OPEN, CONSENT], "the list is not the one that was confirmed"
    faces.want_frame(0, 0.5, False)
    assert faces.frame is not None
    assert faces.frame.boxes[0][1] == Box(60, 60, 24, 24)
    faces.remove(0, blur.id)
    assert faces.stretches()[0].blurs == ()


def test_what_cannot_be_read_is_told(faces: FacesPresenter, tagged: Desk, lesson: LessonPresenter) -> None:
    review = tagged.review
    assert review is not None
    gone = replace(review.films[0], path="/films/gone.mp4", beside="")
    tagged.take_review(replace(review, films=(gone,)))
    faces.want_frame(0, 0.5, False)
    assert "the film is not there any more" in faces.fault
    lesson.want_picture(0, "question", 0.5)
    assert "the film is not there any more" in lesson.fault
