"""A player who has to go out: did the player stay or come back, and did the book let them?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from filmreview.rules.procedures.covering import TimeOut, cover_of, deadline, time_outs
from filmreview.rules.procedures.laid_down import Edition
from filmreview.rules.procedures.result import Followed, Missing, departure
from filmreview.rules.procedures.story import Placed, Story
from filmreview.rules.procedures.trouble import BLOOD, CONCUSSION, EQUIPMENT, INJURY, SENT_OUT, UNTUCKED, Trouble

_NO_TIME = Missing("at", "the film times of these events: a clock runs between them")


@dataclass(frozen=True)
class Course:
    """What happened to one player within the stoppage; None = not noted."""

    sent_out: Placed | None
    replaced: Placed | None
    back: Placed | None
    put_right: Placed | None
    shot: Placed | None
    cover: TimeOut | None

    @property
    def ready(self) -> Placed | None:
        """The event that shows the player ready."""
        return self.put_right or self.back


def course_of(story: Story, trouble: Trouble, covered_by: str, others: Sequence[Trouble] = ()) -> Course:
    """Look up what happened to the player of a trouble until play resumes."""
    after, before, who = trouble.place - 1, trouble.stoppage.last, trouble.who
    sent_out = story.first("directed to leave", after=after, before=before, who=who)
    return Course(
        sent_out=sent_out,
        replaced=_replaced(story, trouble, others),
        back=_back(story, trouble),
        put_right=story.first("put right", after=after, before=before, who=who),
        shot=story.first("free throw", after=after, before=before, who=who, loose=False),
        cover=cover_of(story, trouble, covered_by),
    )


def _replaced(story: Story, trouble: Trouble, others: Sequence[Trouble]) -> Placed | None:
    """The substitute for this player. Teammates in trouble in the same stoppage share the substitutes who enter: those who
    were sent out first, in that order, then the others."""
    after, before, team = trouble.place - 1, trouble.stoppage.last, trouble.who.team
    mates = [one for one in others if one.who.team == team and one.stoppage.first == trouble.stoppage.first] or [trouble]
    players = dict.fromkeys(one.who for one in sorted(mates, key=lambda one: _turn(story, one)))
    names = {who.player for who in players if who.player is not None}
    entered = [
        one for one in story.all("substitute enters", after=after, before=before, team=team) if one.event.player not in names
    ]
    turn = list(players).index(trouble.who) if trouble.who in players else 0
    return entered[turn] if turn < len(entered) else None


def _turn(story: Story, trouble: Trouble) -> tuple[bool, int]:
    sent_out = story.first(
        "directed to leave",
        after=trouble.place - 1,
        before=trouble.stoppage.last,
        who=trouble.who,
        loose=trouble.who.player is None,
    )
    return (sent_out is None, trouble.place if sent_out is None else sent_out.place)


def _back(story: Story, trouble: Trouble) -> Placed | None:
    """The player comes back in the same dead ball: as "returns", or as the substitute who enters."""
    after, before = trouble.place, trouble.stoppage.last
    returned = story.first("returns", after=after, before=before, who=trouble.who)
    if trouble.who.player is None:
        return returned
    entered = story.first("substitute enters", after=after, before=before, who=trouble.who, loose=False)
    return min((one for one in (returned, entered) if one), key=lambda one: one.place, default=None)


def follow_staying(story: Story, trouble: Trouble, law: Edition, others: tuple[Trouble, ...]) -> Followed:
    """Whether the player was dealt with as this edition asks, within the stoppage."""
    course = course_of(story, trouble, law.covered_by, others)
    resumed = trouble.stoppage.resumed
    gone = course.sent_out or course.replaced
    stays = course.back or course.shot or (None if gone else resumed)
    if stays is None:
        return _went(law, trouble, course)
    if trouble.who.team is None and time_outs(story, trouble.stoppage.first - 1, trouble.stoppage.last):
        return Followed(law, missing=(Missing("team", "whose player it is says whose time-out would help"),))
    if course.cover is not None and not _replaced_before(course, course.cover.granted):
        if trouble.kind == SENT_OUT:
            return Followed(
                law, "own time-out", missing=(Missing("blood seen or injury", "why the player was sent out decides"),)
            )
        return _ready_in_time(law, trouble, course, deadline(story, trouble, course.cover, others))
    if gone or law.leaves_when == "always":
        return _stayed(law, trouble, course, stays)
    return _may_stay(story, trouble, law, course, stays)


def _replaced_before(course: Course, placed: Placed) -> bool:
    return course.replaced is not None and course.replaced.place < placed.place


def _went(law: Edition, trouble: Trouble, course: Course) -> Followed:
    if course.replaced is not None:
        return Followed(law, "sent out and replaced")
    if trouble.stoppage.resumed is None:
        return Followed(law, missing=(Missing("play resumes", "the stoppage has no end in these events"),))
    if course.cover is not None:
        return Followed(law, "own time-out", missing=(Missing("returns", "whether the player was ready when it ended"),))
    return Followed(law, missing=(Missing("substitute enters", "who came in, and when"),))


def _ready_in_time(law: Edition, trouble: Trouble, course: Course, due: Fraction | None) -> Followed:
    path = "own time-out, ready by its end" if law.covered_by == "own time-out" else "time-out, ready by its end"
    ready = course.ready
    if ready is None:
        return Followed(law, path)
    if not ready.timed or (course.cover is not None and not course.cover.timed):
        return Followed(law, path, missing=(_NO_TIME,))
    if due is None:
        return Followed(law, path, missing=(Missing("time-out ends", "the player has to be ready when it ends"),))
    if ready.at <= due:
        return Followed(law, path)
    late = departure(
        law,
        f"{trouble.who} was not ready when the time-out ended and stayed in",
        "be ready when the time-out ends, or be replaced",
        ready.at,
        ready.at - due,
    )
    return Followed(law, "time-out, not ready by its end", (late,))


def _stayed(law: Edition, trouble: Trouble, course: Course, stays: Placed) -> Followed:
    """Nothing covers the player: only blood cleaned in time and kit put right at once let them stay."""
    gone = course.sent_out or course.replaced
    if trouble.kind == BLOOD and gone is None:
        return _cleaned(law, trouble, course, stays)
    if trouble.kind == UNTUCKED and gone is None and stays == course.shot:
        resumed = trouble.stoppage.resumed
        if resumed is None:
            return Followed(law, missing=(Missing("directed to leave", "after the throws the player goes out"),))
        stays = resumed
    if gone is None:
        return Followed(law, "stayed in", (departure(law, f"{trouble.who} stayed in the game", _asks(law, trouble), stays.at),))
    if stays == course.shot:
        if trouble.kind == UNTUCKED:
            return _went(law, trouble, course)
        what = f"{trouble.who} shot the free throw after having to go out"
        return Followed(law, "stayed in", (departure(law, what, "the substitute shoots", stays.at),))
    what = f"{trouble.who} came back in the same dead ball"
    return Followed(law, "came back in the same dead ball", (departure(law, what, _asks(law, trouble), stays.at),))


def _cleaned(law: Edition, trouble: Trouble, course: Course, stays: Placed) -> Followed:
    window = law.clock("clean-up")
    much = trouble.found is not None and trouble.found.minor is False
    if window is None or much:
        what = f"{trouble.who} stayed in the game with blood"
        return Followed(law, "stayed in", (departure(law, what, _asks(law, trouble), stays.at),))
    ready = course.ready or stays
    if not (trouble.timed and ready.timed):
        return Followed(law, missing=(_NO_TIME,))
    start, done = max(trouble.since.at, trouble.stoppage.start), ready.at
    over = done - start - window.seconds
    if over <= 0:
        return Followed(law, "cleaned in time")
    what = f"{trouble.who} took {float(done - start):g} s to be put right and stayed in"
    asks = f"clean it within {window.seconds} s, or go out or take a time-out"
    return Followed(law, "cleaned too late", (departure(law, what, asks, done, over),))


def _may_stay(story: Story, trouble: Trouble, law: Edition, course: Course, stays: Placed) -> Followed:
    """Nobody sent the player out and the book does not always ask for it."""
    if trouble.kind == INJURY:
        return _hurt(story, trouble, law, stays)
    if trouble.kind == EQUIPMENT and course.put_right is None:
        return Followed(law, missing=(Missing("put right", "whether it came off before play went on"),))
    return Followed(law, "put right at once")


def _hurt(story: Story, trouble: Trouble, law: Edition, stays: Placed) -> Followed:
    after, before, team = trouble.place - 1, trouble.stoppage.last, trouble.who.team
    entered = story.first("staff enters", after=after, before=before, team=team)
    beckoned = story.first("staff beckoned", after=after, before=before, team=team)
    beckoning_counts = law.leaves_when == "staff beckoned or enters"
    must = (entered if beckoning_counts or law.leaves_when == "staff enters" else None) or (
        beckoned if beckoning_counts else None
    )
    if must is not None:
        what = f"{trouble.who} stayed in after the staff was {'on the floor' if must == entered else 'beckoned'}"
        return Followed(law, "stayed in", (departure(law, what, _asks(law, trouble), stays.at),))
    if beckoned is not None:
        both = (
            "before 2024-25 the player goes out when the staff comes on (the rule as told); "
            "a case of the time names being beckoned too: the events do not say whether they came"
        )
        return Followed(law, "staff beckoned", missing=(Missing("staff enters", both),))
    return Followed(law, "ready at once")


def follow_later(story: Story, trouble: Trouble, law: Edition) -> Followed:
    """With signs of a concussion nobody comes back at a later stoppage either, as far as the events show no clearance."""
    after = trouble.stoppage.last
    if trouble.kind != CONCUSSION or after is None:
        return Followed(law)
    back = story.first("returns", "substitute enters", after=after, who=trouble.who, loose=False)
    if back is None:
        return Followed(law)
    what = f"{trouble.who} came back after signs of a concussion"
    return Followed(law, departures=(departure(law, what, "not come back without proper medical clearance", back.at),))


def _asks(law: Edition, trouble: Trouble) -> str:
    out = "go out and come back at the next chance to substitute after the clock has run"
    if trouble.kind == CONCUSSION:
        return "go out and not come back without proper medical clearance; no time-out helps"
    if trouble.kind in (EQUIPMENT, UNTUCKED) or law.covered_by == "nothing":
        return f"{out}; no time-out helps"
    whose = "a time-out of the own team" if law.covered_by == "own time-out" else "a time-out"
    return f"{out}, unless {whose} covers the player"
