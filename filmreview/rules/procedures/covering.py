"""Time-outs within a stoppage: whose they are, when they end, whom they cover."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from filmreview.rules.procedures.story import Placed, Story
from filmreview.rules.procedures.trouble import Trouble

# Seconds between the end of a time-out and the next one of the same team within which the two count as successive: a project
# default.
REPORTING = 5


@dataclass(frozen=True)
class TimeOut:
    """A time-out. due: film time its length runs out, None when the length is not known. ended: the horn noted, if any."""

    granted: Placed
    due: Fraction | None
    ended: Placed | None

    @property
    def end(self) -> Fraction | None:
        """The end as noted, else as due, else None."""
        return self.due if self.ended is None else self.ended.at

    @property
    def timed(self) -> bool:
        """Whether its end can be read from film times."""
        return (self.granted if self.ended is None else self.ended).timed

    @property
    def team(self) -> str | None:
        """Whose it is."""
        return self.granted.event.team


def time_outs(story: Story, after: int = -1, before: int | None = None) -> tuple[TimeOut, ...]:
    """Every time-out granted between two places, each with its end. Time-outs of both teams granted before an end was noted
    run together when each covers a player sent out, else one after the other."""
    found: list[TimeOut] = []
    for granted in story.all("time-out granted", after=after, before=before):
        resumes = story.first("play resumes", after=granted.place)
        until = None if resumes is None else resumes.place
        ended = story.first("time-out ends", after=granted.place, before=until, team=granted.event.team)
        length = granted.event.length
        found.append(TimeOut(granted, None if length is None else granted.at + length, ended))
    return tuple(found)


def cover_of(story: Story, trouble: Trouble, covered_by: str) -> TimeOut | None:
    """The time-out that keeps this player in, or None. It may be running already when the trouble is seen."""
    if covered_by == "nothing":
        return None
    for one in time_outs(story, trouble.stoppage.first - 1, trouble.stoppage.last):
        over = one.end is not None and one.end < trouble.since.at
        if not over and (covered_by == "any time-out" or one.team == trouble.who.team):
            return one
    return None


def _own_after(story: Story, trouble: Trouble, cover: TimeOut) -> list[TimeOut]:
    """Further time-outs of the same team, each granted by the end of the one before (reporting takes a few seconds)."""
    chain = [cover]
    for one in time_outs(story, cover.granted.place, trouble.stoppage.last):
        end = chain[-1].end
        if one.team == cover.team and end is not None and one.granted.at <= end + REPORTING:
            chain.append(one)
    return chain[1:]


def deadline(story: Story, trouble: Trouble, cover: TimeOut, others: tuple[Trouble, ...]) -> Fraction | None:
    """When the player has to be ready: the end of the time-out, of the next one when the own team takes another at once, or of
    the longer one when the opponents took one for a player of theirs in the same stoppage (they run together)."""
    ends = [cover.end]
    for one in _own_after(story, trouble, cover):
        ends.append(one.end)
    for one in time_outs(story, trouble.stoppage.first - 1, trouble.stoppage.last):
        theirs = any(other.who.team == one.team and other.stoppage.first == trouble.stoppage.first for other in others)
        if one.team != cover.team and theirs:
            ends.append(one.end)
    known = [end for end in ends if end is not None]
    return max(known) if len(known) == len(ends) else None
