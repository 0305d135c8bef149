"""Who is in trouble, and since when: the players whom blood, an injury, kit or a direction to leave concerns."""

from __future__ import annotations

from dataclasses import dataclass

from filmreview.rules.procedures.event import Found
from filmreview.rules.procedures.story import Placed, Stoppage, Story, Who

BLOOD, INJURY, CONCUSSION = "blood", "injury", "concussion"
EQUIPMENT, UNTUCKED, SENT_OUT = "equipment", "untucked", "sent out"
_OF_EVENT = {"concussion signs": CONCUSSION, "blood seen": BLOOD, "injury": INJURY}
_OF_FOUND = {"blood": BLOOD, "equipment": EQUIPMENT, "untucked": UNTUCKED}
_DEALT_WITH = ("directed to leave", "put right")
"""What shows by itself that somebody saw to a thing worn; a shot, a return, a word to the coach do so in a stoppage only."""


@dataclass(frozen=True)
class Trouble:
    """One player who has to be dealt with in one stoppage. since: the event that begins it."""

    kind: str
    who: Who
    since: Placed
    stoppage: Stoppage
    found: Found | None = None

    @property
    def timed(self) -> bool:
        """Whether the film time of its beginning is known."""
        return self.since.timed and self.stoppage.timed

    @property
    def place(self) -> int:
        """Where in the story it begins."""
        return self.since.place


def troubles(story: Story) -> tuple[Trouble, ...]:
    """Every trouble, by the event that begins it; a direction to leave with no known reason is a trouble of its own."""
    found: list[Trouble] = []
    for one in story.all(*_OF_EVENT):
        kind = _OF_EVENT[one.event.what]
        who = Who(one.event.team, one.event.player)
        found.append(Trouble(kind, who, one, story.stoppage(one.place), _found_for(story, who, kind)))
    for tagged in story.found:
        begins = _begins(story, tagged, found)
        if begins is not None:
            who = Who(tagged.team, tagged.player)
            found.append(Trouble(_OF_FOUND[tagged.kind], who, begins, story.stoppage(begins.place), tagged))
    for one in story.all("directed to leave"):
        if not any(_explains(trouble, one) for trouble in found):
            who = Who(one.event.team, one.event.player)
            found.append(Trouble(SENT_OUT, who, one, story.stoppage(one.place)))
    return tuple(sorted(found, key=lambda trouble: trouble.place))


def _found_for(story: Story, who: Who, kind: str) -> Found | None:
    for one in story.found:
        if _OF_FOUND.get(one.kind) == kind and one.team == who.team and one.player == who.player:
            return one
    return None


def _begins(story: Story, tagged: Found, known: list[Trouble]) -> Placed | None:
    """The event that a tag's trouble begins with; None when the events do not touch that player, or tell of it already."""
    who = Who(tagged.team, tagged.player)
    kind = _OF_FOUND.get(tagged.kind)
    if kind is None or any(one.kind == kind and one.who == who for one in known):
        return None
    own = story.all(*_DEALT_WITH, "returns", "free throw", who=who, loose=False)
    told = story.all("coach told", team=tagged.team, loose=False) if kind == EQUIPMENT else ()
    first = min((one for one in (*own, *told) if _shows(story, one)), key=lambda one: one.place, default=None)
    if first is None or any(one.who == who and one.place <= first.place for one in known):
        return None
    stops = list(story.all("play stopped", after=story.stoppage(first.place).first - 1, before=first.place))
    return stops[0] if stops else first


def _shows(story: Story, one: Placed) -> bool:
    """Whether the event shows that the thing was seen to: without any stoppage around it nothing says so."""
    if one.event.what in _DEALT_WITH:
        return True
    stoppage = story.stoppage(one.place)
    return stoppage.resumed is not None or story.events[stoppage.first].event.what == "play stopped"


def _explains(trouble: Trouble, direction: Placed) -> bool:
    event, who = direction.event, trouble.who
    same = (who.team is None or event.team in (who.team, None)) and (who.player is None or event.player in (who.player, None))
    ended = trouble.stoppage.last is not None and trouble.stoppage.last < direction.place
    return same and not ended and trouble.place <= direction.place
