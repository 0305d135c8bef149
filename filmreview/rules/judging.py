"""A judged set of tags that can take a changed tag without judging all the others again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from filmreview.errors import FilmReviewError
from filmreview.facts.items import TEAMS
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book
from filmreview.rules.checks.answer import FAILS
from filmreview.rules.checks.worn import Worn, with_fallbacks
from filmreview.rules.explain import Case, worst_mark
from filmreview.rules.force import Force, Standing, in_force
from filmreview.rules.mates import Team
from filmreview.rules.penalties import Offenders, offences, penalties
from filmreview.rules.ruling import Choice, Option, Ruling, Rulings
from filmreview.rules.tag import Tag, TeamFacts
from filmreview.rules.weigh import ILLEGAL, weigh

OTHER_TEAM: Mapping[str, str] = {"home": "visitor", "visitor": "home"}


@dataclass(frozen=True, eq=False)
class Judging:
    """Tags, what is in force, and their rulings. judged: tag id -> its ruling, in the order of the tags."""

    force: Force
    teams: Mapping[str, Team]
    judged: Mapping[str, Ruling]
    offenders: Offenders

    @classmethod
    def of(
        cls,
        tags: Sequence[Tag],
        teams: Mapping[str, TeamFacts],
        book: Book,
        day: date,
        adoption: Adoption | None = None,
        level: str | None = None,
    ) -> Judging:
        """Judge all tags; see `judge.judge`."""
        force = in_force(book, day, level, adoption)
        words = {team: teams[team].facts if team in teams else {} for team in TEAMS}
        mates = {
            team: Team({tag.id: tag for tag in tags if tag.team == team}, words[team], words[OTHER_TEAM[team]], force)
            for team in TEAMS
        }
        cases = [_case(tag, force, mates[tag.team]) for tag in tags]
        judged = {case.worn.tag.id: _ruling(case) for case in cases}
        if len(judged) != len(cases):
            raise FilmReviewError("two tags have the same id", todo="give each tag its own id")
        offenders: Offenders = {}
        for case in cases:
            _count(offenders, case, 1)
        return cls(force, mates, judged, offenders)

    def changed(self, tag: Tag) -> Judging:
        """The same with one tag changed: the tag, and those teammates for whom the team now looks different, are judged
        again. The tag must be there and stay in its team; raises FilmReviewError otherwise."""
        before = self.judged.get(tag.id)
        if before is None or before.team != tag.team:
            raise FilmReviewError(f'no tag "{tag.id}" of that team was judged', todo="judge all tags again")
        team, otherwise = self.teams[tag.team].changed(_case_of(before).worn.tag, tag)
        mates = team.tags.values() if otherwise else ()
        again = [tag.id, *(mate.id for mate in mates if mate.item in otherwise and mate.id != tag.id)]
        by_id = {tag.id: tag}
        judged, offenders = dict(self.judged), {key: Counter(players) for key, players in self.offenders.items()}
        for key in again:
            old = _case_of(judged[key])
            new = _case(by_id.get(key, old.worn.tag), self.force, team)
            _count(offenders, old, -1)
            _count(offenders, new, 1)
            judged[key] = _ruling(new)
        return replace(self, teams={**self.teams, tag.team: team}, judged=judged, offenders=offenders)

    @cached_property
    def rulings(self) -> Rulings:
        """Everything that comes out."""
        return Rulings(
            rulings=tuple(self.judged.values()),
            penalties=penalties(self.offenders, self.force),
            choices=tuple(choice for team in TEAMS for choice in _choices(team, self.teams[team])),
            book=self.force.book,
            edition=self.force.season,
            day=self.force.day,
            level=self.force.level,
            adoption=self.force.adoption,
        )


def _case(tag: Tag, force: Force, team: Team) -> Case:
    worn = Worn(tag, force.level, with_fallbacks(tag, team.words), team.words, team.opponent, team)
    standings = force.items[tag.item]
    return Case(worn, standings, force, weigh(worn, standings), team)


def _case_of(ruling: Ruling) -> Case:
    assert isinstance(ruling.explainer, Case)
    return ruling.explainer


def _ruling(case: Case) -> Ruling:
    tag, weighed = case.worn.tag, case.weighed
    if weighed.decides is None:
        nothing = ("", "", "", "", "", None)
        return Ruling(tag.id, tag.team, tag.player, tag.item, weighed.ruling, weighed.consequence, *nothing, case)
    standing = case.standings[weighed.decides]
    return Ruling(
        id=tag.id,
        team=tag.team,
        player=tag.player,
        item=tag.item,
        ruling=weighed.ruling,
        consequence=weighed.consequence,
        rule=standing.rule.code,
        reference=standing.edition.reference,
        edition=case.force.book.season(standing.edition.starts),
        source=standing.edition.source,
        mark=worst_mark(case),
        adoption=standing.rule.adoption or (standing.group.adoption if weighed.ruling == ILLEGAL else None),
        explainer=case,
    )


def _count(offenders: Offenders, case: Case, by: int) -> None:
    for group in offences(case):
        offenders.setdefault((case.worn.tag.team, group), Counter())[case.worn.tag.player] += by


def _choices(name: str, team: Team) -> Iterator[Choice]:
    """One choice for each rule by which more than one colour of the team may not stay, in the order of the rules' codes."""
    rules = {standing.rule.code: standing for item in team.force.items.values() for standing in item if standing.across}
    for code in sorted(rules):
        for check in rules[code].across:
            look = team.look(check.fact, check.among, check.within)
            if look.answer == FAILS and _breaks(rules[code], look.stays.values(), team):
                yield Choice(name, code, tuple(Option(keep, change) for keep, change in look.options))
                break


def _breaks(standing: Standing, tags: Iterable[Tag], team: Team) -> bool:
    """Whether the rule fails for one of these tags."""
    return any(
        standing.check is not None
        and tag.item in standing.edition.items
        and standing.check.run(replace(team.alone(tag), mates=team)) == FAILS
        for tag in tags
    )
