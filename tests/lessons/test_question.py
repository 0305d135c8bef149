"""Questions from findings and situations: what is asked and told, and that nothing of the answer or of a person is in it."""

from dataclasses import replace
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.lessons.lesson import first_plan, lesson_of
from filmreview.lessons.lesson_clips import ruling_lines
from filmreview.lessons.plan import AskTag, LessonPlan
from filmreview.lessons.question import LONGEST_ASKED, Answer, key_of
from filmreview.lessons.questions_asked import question_of, tags_to_ask
from filmreview.lessons.situations_asked import question_of_situation, situations_to_ask
from filmreview.review.ruled import Findings
from filmreview.rules.situation import read_situation, rule_situation
from tests.lessons.small_review import SITUATION, found_in, make_review


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Findings:
    return found_in(make_review(tmp_path_factory.mktemp("review") / "game.filmreview"))


def test_a_question_names_the_player_by_team_and_number_alone(found: Findings) -> None:
    asked = [question_of(found, tag).asked for tag in ("t1", "t2", "t3", "t4")]
    assert asked == [
        "Visitor 14, arm sleeve: what is your call, and what follows?",
        "Home 00, headband: what is your call, and what follows?",
        "Visitor 67, number: what is your call, and what follows?",
        "Home, number not read, undershirt: what is your call, and what follows?",
    ]


def test_told_is_only_what_the_film_does_not_show(found: Findings) -> None:
    assert question_of(found, "t1").told == ("ball: dead", "has become a player wearing it: yes")
    assert question_of(found, "t2").told == ("worn for a medical reason: no",)
    assert question_of(found, "t4").told == ()


@pytest.mark.parametrize("tag", ["t1", "t2", "t3", "t4"])
def test_nothing_of_the_answer_of_schools_or_of_people_is_in_a_question(found: Findings, tag: str) -> None:
    question = question_of(found, tag)
    said = " ".join((question.asked, question.who, question.item, *question.told, question.setting)).casefold()
    for hidden in ("illegal", "technical", "fix or leave", "orange", "thrunnockby", "ovvermire", "mosswell", "quillander"):
        assert hidden not in said, hidden
    told = repr(question.answer).casefold()
    assert not any(name in told for name in ("mosswell", "thrunnockby", "ovvermire"))


def test_the_answer_is_the_ruling_of_the_finding(found: Findings) -> None:
    for finding in found:
        answer = question_of(found, finding.tag.id).answer
        ruling = finding.ruling
        assert (answer.ruling, answer.consequence, answer.reference) == (ruling.ruling, ruling.consequence, ruling.reference)
        assert answer.reasons == ruling.reasons
    assert question_of(found, "t1").answer.short == "illegal: fix or leave (3-5-3)"
    assert question_of(found, "t3").answer.short == "illegal: technical foul (3-4-3)"
    assert question_of(found, "t4").answer.ruling == "cannot be told"


@pytest.mark.parametrize(
    ("ruling", "consequence", "follows", "ruled"),
    [
        ("illegal", "none", "no consequence", "illegal: no consequence"),
        ("illegal", "cannot be told", "what follows cannot be told", "illegal, what follows cannot be told"),
        ("illegal", "leave", "leave the game", "illegal: leave the game"),
        ("legal", "none", "", "legal"),
        ("cannot be told", "none", "", "cannot be told"),
        ("cannot be told", "cannot be told", "", "cannot be told"),
    ],
)
def test_an_illegal_thing_never_stands_without_what_follows(ruling: str, consequence: str, follows: str, ruled: str) -> None:
    """The question asks what follows, so that the answer has to say it."""
    answer = Answer(ruling, consequence, (), "", "3-4-3", "2023-24")
    assert answer.follows == follows
    assert answer.short == f"{ruled} (3-4-3)"
    assert ruling_lines(answer)[0] == f"{ruling.capitalize()}{' - ' if follows else ''}{follows}"


def test_all_tags_are_asked_by_time_and_chosen_ones_as_chosen(found: Findings) -> None:
    assert tags_to_ask(found) == ("t1", "t2", "t3", "t4")
    assert tags_to_ask(found, ("t3", "t1")) == ("t3", "t1")


@pytest.mark.parametrize(
    ("chosen", "line"),
    [
        (("t9",), 'game.filmreview: unknown tag "t9"; write one of: t1, t2, t3, t4'),
        (("t1", "t1"), "game.filmreview: t1 is given twice; give each tag once"),
    ],
)
def test_a_tag_that_cannot_be_asked_is_refused_in_one_line(found: Findings, chosen: tuple[str, ...], line: str) -> None:
    with pytest.raises(FilmReviewError) as told:
        tags_to_ask(found, chosen)
    assert str(told.value).startswith(line.partition(";")[0])


def test_a_review_without_findings_is_refused(found: Findings) -> None:
    with pytest.raises(FilmReviewError, match="the review has no finding yet; put a tag down first"):
        first_plan(replace(found, findings=()))


def test_own_words_stand_in_for_the_usual_ones(found: Findings) -> None:
    plan = LessonPlan("Sleeves", (AskTag("t1", "  What do you do about 14?  "), AskTag("t2")))
    asked = [one.asked for one in lesson_of(plan, found).questions]
    assert asked == ["What do you do about 14?", "Home 00, headband: what is your call, and what follows?"]
    with pytest.raises(FilmReviewError, match=f"keep to {LONGEST_ASKED}"):
        lesson_of(LessonPlan("Sleeves", (AskTag("t1", "x" * (LONGEST_ASKED + 1)),)), found)


@pytest.fixture
def situation(tmp_path: Path) -> Path:
    path = tmp_path / "band.situation.toml"
    path.write_text(SITUATION, encoding="utf-8")
    return path


def test_a_situation_asks_one_question_a_thing_seen(situation: Path) -> None:
    asks = situations_to_ask(situation)
    band, sleeve = (question_of_situation(one) for one in asks)
    assert (band.asked, sleeve.who) == ("Home 4, headband: what is your call, and what follows?", "Home 5")
    assert band.place is None
    assert band.told == ("colour: red", "found: at table", "also seen: Home 5, arm sleeve (colour: black)")
    assert band.setting.startswith("Varsity game of 14 January 2025, ")
    ruled = rule_situation(read_situation(situation))
    assert [(one.answer.ruling, one.answer.consequence) for one in (band, sleeve)] == [
        (one.ruling, one.consequence) for one in ruled.rulings.rulings
    ]


def test_the_title_of_a_situation_is_told_with_the_answer_only(situation: Path) -> None:
    question = question_of_situation(situations_to_ask(situation)[0])
    assert question.answer.case == "A red headband is seen at the table"
    assert "seen at the table" not in " ".join((question.asked, question.setting, *question.told))


def test_a_situation_is_asked_again_when_its_file_has_gone_or_changed(situation: Path) -> None:
    ask = situations_to_ask(situation)[0]
    before = question_of_situation(ask)
    situation.write_text(SITUATION.replace("red", "white"), encoding="utf-8")
    assert question_of_situation(ask) == before, "the plan keeps what was asked"
    situation.unlink()
    assert question_of_situation(ask) == before


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("nothing = 1", "unknown key"),
        (SITUATION.partition("[[seen]]")[0], "nothing is seen in this situation; add a"),
        (SITUATION.replace('"headband"', '"hedband"'), 'unknown item "hedband"; write "headband"'),
    ],
)
def test_a_bad_situation_is_refused_in_one_line(tmp_path: Path, text: str, line: str) -> None:
    path = tmp_path / "bad.situation.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(FilmReviewError, match=line.replace("[", r"\[")) as told:
        situations_to_ask(path)
    assert "\n" not in str(told.value)


def test_the_key_holds_questions_and_rulings_not_their_order(found: Findings) -> None:
    one, other = (lesson_of(first_plan(found, tags), found) for tags in (("t1", "t2"), ("t2", "t1")))
    assert one.key == other.key
    assert len(one.key) == 16
    changed = replace(one.questions[0], answer=replace(one.questions[0].answer, consequence="leave"))
    assert key_of((changed, one.questions[1])) != one.key
    assert lesson_of(first_plan(found, ("t1", "t3")), found).key != one.key
