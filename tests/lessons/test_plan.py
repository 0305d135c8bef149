"""The plan of a lesson: kept as JSON, read back the same, refused in one line when it cannot be."""

import json
from dataclasses import replace
from fractions import Fraction

import pytest

from filmreview.errors import FilmReviewError
from filmreview.lessons.plan import (
    AskSituation,
    AskTag,
    LessonPlan,
    Settings,
    check_settings,
    plan_from_text,
    plan_to_text,
)

PLAN = LessonPlan(
    'Sleeves & "bands" <b>', (AskTag("t3"), AskTag("t1", "And this?"), AskSituation("/a/b.toml", "x = 1\n", "band")),
    Settings(
        lead_in=Fraction("2.5"), slow=Fraction(1, 3), mark="outline", inset=False, sound="muted", layout="single files",
        versions=("answer",), height=480, page=False,
    ),
    "Ask your assigner.",
)  # fmt: skip


def test_a_plan_reads_back_as_it_was() -> None:
    assert plan_from_text(plan_to_text(PLAN)) == PLAN
    assert plan_from_text(plan_to_text(LessonPlan("x", (AskTag("t1"),)))) == LessonPlan("x", (AskTag("t1"),))


def test_settings_that_a_later_version_added_are_refused_and_missing_ones_usual() -> None:
    data = json.loads(plan_to_text(PLAN))
    del data["settings"]["hold"]
    assert plan_from_text(json.dumps(data)).settings.hold == Settings().hold
    data["settings"]["sparkle"] = 1
    with pytest.raises(FilmReviewError, match="this is not the plan of a lesson"):
        plan_from_text(json.dumps(data))


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"form": 1}', "1", '{"form": 1, "title": 1, "ask": [{}], "settings": {}}'])
def test_what_is_no_plan_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(FilmReviewError) as told:
        plan_from_text(text, "l1")
    assert str(told.value).startswith("l1: ")


def test_a_plan_of_another_form_says_so() -> None:
    with pytest.raises(FilmReviewError, match="a plan of form 2; open it with the version that made it"):
        plan_from_text('{"form": 2}')


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({"hold": Fraction(0)}, "lesson: hold of 0 seconds; give 1 to 120 seconds"),
        ({"lead_in": Fraction(61)}, "lesson: lead-in of 61 seconds; give 0 to 60 seconds"),
        ({"slow": Fraction(5)}, "lesson: more slow motion than lead-in"),
        ({"mark": "dimm"}, 'lesson: unknown mark "dimm"; write "dim" if that is what you mean'),
        ({"height": 700}, 'lesson: unknown height "700"'),
        ({"versions": ("questoin",)}, 'lesson: unknown version "questoin"; write "question"'),
        ({"versions": (), "page": False}, "lesson: nothing is to be written; choose a version, or the page"),
    ],
)
def test_settings_that_cannot_be_are_refused_in_one_line(changes: dict[str, object], line: str) -> None:
    with pytest.raises(FilmReviewError) as told:
        check_settings(replace(Settings(), **changes))  # type: ignore[arg-type]
    assert str(told.value).startswith(line)


@pytest.mark.parametrize(
    ("plan", "line"),
    [
        (LessonPlan(" ", (AskTag("t1"),)), "the lesson has no title; give it one"),
        (LessonPlan("x", ()), "the lesson asks nothing; choose at least one finding or situation"),
        (LessonPlan("x" * 121, (AskTag("t1"),)), "the title has 121 characters"),
    ],
)
def test_a_plan_that_cannot_be_is_refused_in_one_line(plan: LessonPlan, line: str) -> None:
    with pytest.raises(FilmReviewError) as told:
        plan.checked()
    assert line in str(told.value)
