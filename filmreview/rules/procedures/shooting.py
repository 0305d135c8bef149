"""Free throws of a player who has to go out: who is to shoot them, and what waits until the substitute is in."""

from __future__ import annotations

from filmreview.rules.procedures.covering import time_outs
from filmreview.rules.procedures.laid_down import Edition
from filmreview.rules.procedures.result import Followed, Missing, departure
from filmreview.rules.procedures.staying import Course
from filmreview.rules.procedures.story import Placed, Story, Who, of_team
from filmreview.rules.procedures.trouble import UNTUCKED, Trouble


def follow_shooter(story: Story, trouble: Trouble, law: Edition, course: Course) -> Followed | None:
    """The first free throw of the team after its player had to go out; None when there is none in this stoppage."""
    out = course.sent_out or course.replaced
    if out is None or trouble.who.team is None:
        return None
    throw = story.first("free throw", after=out.place, before=trouble.stoppage.last, team=trouble.who.team, loose=False)
    if throw is None or not _was_shooter(story, trouble, throw):
        return None
    if throw.event.player is None:
        return Followed(law, missing=(Missing("free throw", "who shot it: the player is not given"),))
    if trouble.kind == UNTUCKED:
        return _own_throws(trouble, law, throw)
    return _substitute_throws(story, trouble, law, course, throw)


def _was_shooter(story: Story, trouble: Trouble, throw: Placed) -> bool:
    """False when another player of the team had shot an earlier throw of the same stoppage: then the one who went out was
    not the shooter."""
    earlier = list(
        story.all("free throw", after=trouble.stoppage.first, before=throw.place, team=trouble.who.team, loose=False)
    )
    shooters = {one.event.player for one in earlier}
    return not shooters or shooters <= {trouble.who.player}


def _own_throws(trouble: Trouble, law: Edition, throw: Placed) -> Followed:
    if throw.event.player == trouble.who.player:
        return Followed(law, "shoots first, then leaves")
    what = f"{Who(throw.event.team, throw.event.player)} shot in place of {trouble.who}"
    asks = "for an untucked jersey or low shorts the player shoots first and leaves then"
    return Followed(law, departures=(departure(law, what, asks, throw.at),))


def _substitute_throws(story: Story, trouble: Trouble, law: Edition, course: Course, throw: Placed) -> Followed:
    shooter, player = throw.event.player, trouble.who.player
    if shooter == player and player is not None:
        return Followed(law)  # whether the player may still be there is told by `staying`
    if course.cover is not None and course.replaced is None:
        what = f"{Who(throw.event.team, shooter)} shot though {trouble.who} was kept in by a time-out"
        return Followed(law, departures=(departure(law, what, "the player who was fouled shoots", throw.at),))
    if course.replaced is None:
        return Followed(law, missing=(Missing("substitute enters", "the substitute shoots"),))
    sub = course.replaced.event.player
    entered = story.all("substitute enters", after=trouble.place, before=throw.place, team=trouble.who.team, loose=False)
    if shooter in {one.event.player for one in entered}:
        return Followed(law, "the substitute shoots")
    if course.replaced.place > throw.place:
        what = f"{Who(throw.event.team, shooter)} shot before the substitute was in"
        return Followed(law, departures=(departure(law, what, "the substitute comes in first and shoots", throw.at),))
    if sub is None:
        return Followed(law, missing=(Missing("substitute enters", "who the substitute was: the player is not given"),))
    what = f"{Who(throw.event.team, shooter)} shot the free throw, not the substitute {sub}"
    asks = "the substitute of the player who went out shoots"
    return Followed(law, "the wrong player shot", (departure(law, what, asks, throw.at),))


def follow_waiting(story: Story, trouble: Trouble, law: Edition, course: Course) -> Followed:
    """A time-out of the opponents waits until the player who was sent out has been replaced or is covered."""
    if course.sent_out is None or course.replaced is None or course.back is not None:
        return Followed(law)
    early = [
        one
        for one in time_outs(story, course.sent_out.place, course.replaced.place)
        if one.team not in (None, trouble.who.team) and course.cover is None
    ]
    if not early:
        return Followed(law)
    what = f"{of_team(early[0].team)} time-out was granted before {trouble.who} was replaced"
    asks = "the substitute comes in first, then a time-out of the opponents is granted"
    return Followed(law, departures=(departure(law, what, asks, early[0].granted.at),))
