"""How long it took to replace a player, and how long the whole stoppage."""

from __future__ import annotations

from fractions import Fraction

from filmreview.rules.procedures.covering import time_outs
from filmreview.rules.procedures.laid_down import Edition
from filmreview.rules.procedures.result import Followed, Missing, departure
from filmreview.rules.procedures.staying import Course
from filmreview.rules.procedures.story import Placed, Story, Who
from filmreview.rules.procedures.trouble import BLOOD, EQUIPMENT, INJURY, SENT_OUT, UNTUCKED, Trouble

# Seconds that reporting and putting the ball in play may add to the clocks of the book before a stoppage is called too long.
# No book gives a number: a project default.
ALLOWANCE = 30


def follow_interval(story: Story, trouble: Trouble, law: Edition, course: Course) -> Followed:
    """The replacement interval of a player who went out: from the coach being told, else from the direction to leave."""
    hurt = law.clock("replacement of an injured player") if trouble.kind == INJURY else None
    clock = hurt or law.clock("replacement")
    if clock is None or course.replaced is None or course.cover is not None:
        return Followed(law)
    after, before = trouble.place - 1, course.replaced.place
    if any(time_outs(story, trouble.stoppage.first - 1, before)):
        return Followed(law)
    told = story.first("coach told", after=after, before=before, team=trouble.who.team)
    start = told or course.sent_out
    if start is not None and start.place < before:
        return _over(law, trouble.who, start.at, course.replaced, clock.seconds) if start.timed else Followed(law)
    if not trouble.timed:
        return Followed(law)
    since = max(trouble.since.at, trouble.stoppage.start)
    return _start_unknown(law, trouble, course.replaced, course.replaced.at - since, clock.seconds)


def _over(law: Edition, who: Who, start: Fraction, replaced: Placed, limit: int) -> Followed:
    took = replaced.at - start
    if took <= limit or not replaced.timed:
        return Followed(law, measured=replaced.timed)
    what = f"replacing {who} took {float(took):g} s"
    return Followed(law, departures=(departure(law, what, f"replace within {limit} s", replaced.at, took - limit),))


def _start_unknown(law: Edition, trouble: Trouble, replaced: Placed, took: Fraction, limit: int) -> Followed:
    """Neither the direction nor the telling was noted: only a very long wait is surely too long."""
    if trouble.kind != BLOOD or took <= limit:
        return Followed(law)
    if took > limit + ALLOWANCE:
        return _over(law, trouble.who, replaced.at - took, replaced, limit)
    return Followed(law, missing=(Missing("coach told", f"the {limit} s to replace the player start there"),))


def follow_told(story: Story, law: Edition) -> Followed | None:
    """A replacement with no known reason but that the coach was told: a disqualified player. None when there is none."""
    clock = law.clock("replacement")
    if law.gap is not None:
        told_of = story.first("coach told")
        return Followed(law) if told_of and story.first("substitute enters", after=told_of.place) else None
    for told in story.all("coach told"):
        stoppage = story.stoppage(told.place)
        enters = story.first("substitute enters", after=told.place, before=stoppage.last, team=told.event.team)
        if enters is None or clock is None:
            continue
        if any(one.granted.event.team == told.event.team for one in time_outs(story, told.place, enters.place)):
            return Followed(law, "own time-out")
        who = Who(told.event.team, told.event.player)
        over = _over(law, who, told.at, enters, clock.seconds) if told.timed else Followed(law)
        return Followed(law, "sent out and replaced", over.departures)
    fouled_out = next((one for one in story.all("foul charged") if one.event.kind == "disqualifying"), None)
    if fouled_out is not None and story.first("substitute enters", after=fouled_out.place, team=fouled_out.event.team):
        return Followed(law, missing=(Missing("coach told", "the seconds to replace the player start there"),))
    return None


def follow_whole(story: Story, trouble: Trouble, law: Edition, interval: int) -> Followed:
    """The whole stoppage against every clock of the book that may run in it. Treating an injury and shooting free throws take
    their time and are not measured."""
    resumed = trouble.stoppage.resumed
    timed = trouble.kind in (BLOOD, EQUIPMENT, UNTUCKED, SENT_OUT)
    if (
        resumed is None
        or not timed
        or not (resumed.timed and trouble.timed)
        or story.first("free throw", after=trouble.stoppage.first, before=resumed.place)
    ):
        return Followed(law)
    window = law.clock("clean-up")
    taken = time_outs(story, trouble.stoppage.first - 1, resumed.place)
    lengths = [one.granted.event.length for one in taken]
    if None in lengths or story.first("injury", after=trouble.stoppage.first - 1, before=resumed.place):
        return Followed(law)
    allowed = interval + (window.seconds if window else 0) + sum(length or 0 for length in lengths)
    start = max(trouble.since.at, trouble.stoppage.start) if not taken else min(trouble.stoppage.start, trouble.since.at)
    spent = resumed.at - start
    if spent <= allowed + ALLOWANCE:
        return Followed(law)
    what = f"the stoppage took {float(spent):g} s"
    asks = f"the clocks that may run in it add up to {allowed} s ({ALLOWANCE} s more are allowed here for reporting)"
    return Followed(law, departures=(departure(law, what, asks, resumed.at, spent - allowed),))
