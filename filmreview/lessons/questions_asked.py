"""From the findings of a review to questions: what the film shows is asked, what it cannot show is told.

The facts that a tag holds are the answer's business; told are only the circumstances (when it was found, whether the ball was
live) and what no picture shows (a medical or religious reason, an approval). Notes, names, schools, crew marks and own calls
never come into a question.
"""

from __future__ import annotations

from collections.abc import Sequence

from filmreview.cautions import caution_for
from filmreview.errors import FilmReviewError, unknown
from filmreview.lessons.answers_said import answer_of, setting_words, told_words
from filmreview.lessons.question import OnFilm, Question, question_words, who_words
from filmreview.review.ruled import Finding, Findings, deciding_facts, todo_words

NOT_ON_FILM: tuple[str, ...] = ("when", "ball", "in_play", "left_floor", "medical", "religious", "approved")
"""Keys of facts that are told with a question."""


def question_of(found: Findings, tag_id: str) -> Question:
    """The question made from one finding; raises FilmReviewError for an unknown tag."""
    if tag_id not in {one.tag.id for one in found}:
        raise unknown("tag", tag_id, [one.tag.id for one in found], where=found.review.path.name)
    return _question(found, found.of(tag_id))


def tags_to_ask(found: Findings, chosen: Sequence[str] = ()) -> tuple[str, ...]:
    """The ids of the tags in the order they are asked: those chosen, as given; else all, by film and time.

    Raises FilmReviewError for an unknown tag, one given twice, and a review without any.
    """
    if not len(found):
        raise FilmReviewError("the review has no finding yet", where=found.review.path.name, todo="put a tag down first")
    for tag_id in chosen:
        question_of(found, tag_id)
        if list(chosen).count(tag_id) > 1:
            raise FilmReviewError(f"{tag_id} is given twice", where=found.review.path.name, todo="give each tag once")
    if chosen:
        return tuple(chosen)
    films = [film.id for film in found.review.films]
    in_order = sorted(found, key=lambda one: (films.index(one.film.id), one.seconds, int(one.tag.id[1:])))
    return tuple(one.tag.id for one in in_order)


def _question(found: Findings, finding: Finding) -> Question:
    tag, review = finding.tag, found.review
    facts = deciding_facts(tag.facts)
    who = who_words(tag.team, tag.player)
    return Question(
        id=tag.id,
        who=who,
        item=tag.item,
        asked=question_words(who, tag.item),
        told=told_words(facts[key] for key in NOT_ON_FILM if key in facts),
        setting=setting_words(found.rulings, review.game.day, review.kit),
        answer=answer_of(finding.ruling, todo_words(finding.ruling, tag), found.rulings),
        caution=caution_for(tag.item, tag.facts),
        place=OnFilm(tag.film, tag.moment, tag.region, _time(found, finding)),
    )


def _time(found: Findings, finding: Finding) -> str:
    """The time in its film; the film's id before it where there are several."""
    return finding.time if len(found.review.films) == 1 else f"{finding.film.id} {finding.time}"
