"""Time-outs by themselves: their length, when the warning horn sounds, and substitutes against it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from filmreview.rules.procedures.covering import TimeOut, time_outs
from filmreview.rules.procedures.laid_down import Edition
from filmreview.rules.procedures.replacing import ALLOWANCE
from filmreview.rules.procedures.result import Departure, Followed, Missing, departure
from filmreview.rules.procedures.story import Placed, Story, Who, the_team
from filmreview.rules.procedures.trouble import Trouble

# Seconds by which a warning horn may be off before it is told: a project default, for the moment is noted by hand.
HORN_SLACK = 2


def follow_time_outs(story: Story, law: Edition, concerned: Sequence[Trouble]) -> Followed | None:
    """Every time-out of the story; None when there is none."""
    taken = time_outs(story)
    if not taken:
        return None
    followed = Followed(law, "full length")
    for group in _groups(taken):
        over = _too_long(story, law, group, _run_together(group, concerned))
        followed = followed.but(*over)
        if any(one.due is None for one in group):
            followed = followed.but(missing=(Missing("length", "how long the time-out was to be: 60 or 30"),))
        elif len(group) == 1:
            late = _after_horn(story, law, group[0], concerned)
            followed = followed.but(*_horn_off(story, law, group[0]), *late.departures, missing=late.missing)
    return followed


def _groups(taken: Sequence[TimeOut]) -> list[list[TimeOut]]:
    """Time-outs that one last horn ends."""
    groups: list[list[TimeOut]] = []
    for one in taken:
        same = groups and one.ended is not None and groups[-1][-1].ended == one.ended
        groups[-1].append(one) if same else groups.append([one])
    return groups


def _run_together(group: Sequence[TimeOut], concerned: Sequence[Trouble]) -> bool:
    teams = {trouble.who.team for trouble in concerned}
    return len({one.team for one in group}) == 2 and {one.team for one in group} <= teams


def _too_long(story: Story, law: Edition, group: Sequence[TimeOut], together: bool) -> tuple[Departure, ...]:
    if any(one.due is None or not one.granted.timed for one in group):
        return ()
    due = group[0].granted.at
    for one in group:
        length = one.granted.event.length or 0
        due = max(due, one.granted.at + length) if together else max(due, one.granted.at) + length
    whose = " and ".join(dict.fromkeys(the_team(one.team) for one in group))
    ended = group[0].ended
    if ended is None:
        return _no_end(story, law, group[-1], due, whose)
    if ended.at <= due or not ended.timed:
        return ()
    what = f"the time-out of {whose} took {float(ended.at - due):g} s longer than it lasts"
    return (departure(law, what, "the last horn at the end of its length", ended.at, ended.at - due),)


def _no_end(story: Story, law: Edition, last: TimeOut, due: Fraction, whose: str) -> tuple[Departure, ...]:
    """No horn was noted: only play that resumes very late is surely too late. Other players to be dealt with, free throws
    and other time-outs take their own time."""
    resumes = story.first("play resumes", after=last.granted.place)
    if resumes is None or not resumes.timed or resumes.at <= due + ALLOWANCE:
        return ()
    if story.first(
        "free throw",
        "blood seen",
        "injury",
        "directed to leave",
        "time-out granted",
        after=last.granted.place,
        before=resumes.place,
    ):
        return ()
    what = f"play resumed {float(resumes.at - due):g} s after the time-out of {whose} was over"
    asks = f"play goes on when it is over ({ALLOWANCE} s more are allowed here for reporting)"
    return (departure(law, what, asks, resumes.at, resumes.at - due),)


def _horn_off(story: Story, law: Edition, one: TimeOut) -> tuple[Departure, ...]:
    """A warning horn too early or too late. Counted back from the last horn if that was noted, else from when it is due."""
    clock = law.clock(f"horn before the end of {one.granted.event.length}")
    heard = story.first("warning horn", after=one.granted.place)
    if clock is None or heard is None or one.due is None or not (heard.timed and one.granted.timed):
        return ()
    ends = [one.due] if one.ended is None or not one.ended.timed else [one.due, one.ended.at]
    before = [clock.seconds] if clock.or_seconds is None else [clock.seconds, clock.or_seconds]
    if heard.at > max(ends):
        return ()
    off = min((heard.at - (end - seconds) for end in ends for seconds in before), key=abs)
    if abs(off) <= HORN_SLACK:
        return ()
    what = f"the warning horn sounded {float(abs(off)):g} s too {'late' if off > 0 else 'early'}"
    wanted = " or ".join(str(one) for one in before)
    asks = f"the warning horn {wanted} s before the end ({HORN_SLACK} s either way are let pass here)"
    return (departure(law, what, asks, heard.at, abs(off)),)


def _after_horn(story: Story, law: Edition, one: TimeOut, concerned: Sequence[Trouble]) -> Followed:
    """Substitutes who come in after the warning horn without having been at the table before it."""
    clock = law.clock(f"horn before the end of {one.granted.event.length}")
    if clock is None or one.due is None or one.end is None or not one.granted.timed:
        return Followed(law)
    heard = story.first("warning horn", after=one.granted.place)
    noted = heard is not None and heard.at <= one.end
    first = heard.at if heard is not None and noted else one.due - clock.seconds
    latest = first if noted or clock.or_seconds is None else one.due - min(clock.seconds, clock.or_seconds)
    resumes = story.first("play resumes", after=one.granted.place)
    followed = Followed(law)
    for enters in story.all("substitute enters", after=one.granted.place, before=resumes.place if resumes else None):
        if not _excused(story, enters, first, concerned):
            followed = _late(followed, law, enters, (first, latest, one.end), clock.seconds)
    return followed


def _late(
    followed: Followed, law: Edition, enters: Placed, times: tuple[Fraction, Fraction, Fraction], before: int
) -> Followed:
    first, latest, end = times
    if enters.at <= first or not enters.timed:
        return followed
    if enters.at > end:
        return followed.but(
            missing=(Missing("substitute reports", "whether the substitute was at the table before the warning horn"),)
        )
    if enters.at <= latest:
        why = "sources differ on when the warning horn of a 30-second time-out sounded in that season"
        return followed.but(missing=(Missing("warning horn", why),))
    who = Who(enters.event.team, enters.event.player)
    what = f"the substitute, {who}, came in after the warning horn"
    asks = f"be at the table before the warning horn, {before} s before the end"
    return followed.but(departure(law, what, asks, enters.at, enters.at - first))


def _excused(story: Story, enters: Placed, horn: Fraction, concerned: Sequence[Trouble]) -> bool:
    """The substitute had reported before the horn, or replaces somebody who has to go out."""
    event = enters.event
    for reported in story.all("substitute reports", before=enters.place):
        if reported.event.player == event.player and reported.event.team == event.team and reported.at <= horn:
            return True
    return any(
        trouble.who.team in (event.team, None) and trouble.place <= enters.place and trouble.stoppage.first <= enters.place
        for trouble in concerned
        if trouble.stoppage.last is None or enters.place < trouble.stoppage.last
    )
