"""Judge tags by a book: the engine's front door. Pure: no clock, no files, the order of the tags does not matter.

For each tag every rule in force on its item is run. The tag is illegal if any fails, else it cannot be told if any is open,
else it is legal.

What a fact that was left out means. An observer writes down what stands out, so:

1. A fact that is given decides. Given but uncertain (measured), it may leave the ruling open; it is never presumed.
2. A fact left out that the book marks as *needed* (the colour of a sleeve, the number worn) leaves the rule open and is asked.
3. Any other fact left out is *presumed ordinary*: the rule holds, and the reasons say "nothing seen against ...". One colour
   named is one solid colour; several are not.
4. Once a tag tells a fact that one rule of its item is about, rules it tells nothing about are presumed kept: a headband of
   which only the width was noted is ruled by its width. A tag without any fact asks the needed ones.
5. A breach that is sure decides whatever else is unknown.
6. Where the text is disputed, or the book here has no text, it cannot be told, and nothing is asked.

`needs` lists every unknown fact, presumed ones marked so, for which some answer changes ruling or consequence while the other
open facts are left open or answered in some way; nothing else is listed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from filmreview.facts.items import TEAMS
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book
from filmreview.rules.checks.answer import FAILS
from filmreview.rules.checks.worn import Worn, with_fallbacks
from filmreview.rules.explain import Case, worst_mark
from filmreview.rules.force import Force, in_force
from filmreview.rules.mates import Team, options
from filmreview.rules.penalties import penalties
from filmreview.rules.ruling import Choice, Option, Ruling, Rulings
from filmreview.rules.tag import Tag, TeamFacts
from filmreview.rules.weigh import weigh

OTHER_TEAM: Mapping[str, str] = {"home": "visitor", "visitor": "home"}


def judge(
    tags: Sequence[Tag],
    teams: Mapping[str, TeamFacts],
    book: Book,
    day: date,
    adoption: Adoption | None = None,
    level: str | None = None,
) -> Rulings:
    """What the book says of the tags on the day.

    teams: "home" and "visitor", either may be missing. adoption: laid over the book. level: None means the book's own.
    """
    force = in_force(book, day, level, adoption)
    words = {team: teams[team].facts if team in teams else {} for team in TEAMS}
    mates = {
        team: Team([tag for tag in tags if tag.team == team], words[team], words[OTHER_TEAM[team]], force) for team in TEAMS
    }
    cases = [_case(tag, force, mates[tag.team]) for tag in tags]
    return Rulings(
        rulings=tuple(_ruling(case) for case in cases),
        penalties=penalties(cases),
        choices=tuple(_choices(cases)),
        book=book,
        edition=force.season,
        day=day,
        level=force.level,
        adoption=force.adoption,
    )


def _case(tag: Tag, force: Force, team: Team) -> Case:
    worn = Worn(tag, force.level, with_fallbacks(tag, team.words), team.words, team.opponent, team)
    standings = force.items[tag.item]
    return Case(worn, standings, force, weigh(worn, standings), team)


def _ruling(case: Case) -> Ruling:
    tag, weighed = case.worn.tag, case.weighed
    if weighed.decides is None:
        return Ruling(
            tag.id, tag.team, tag.player, tag.item, weighed.ruling, weighed.consequence, "", "", "", "", "", None, case
        )
    standing = case.standings[weighed.decides]
    edition = standing.edition
    return Ruling(
        id=tag.id,
        team=tag.team,
        player=tag.player,
        item=tag.item,
        ruling=weighed.ruling,
        consequence=weighed.consequence,
        rule=standing.rule.code,
        reference=edition.reference,
        edition=case.force.book.season(edition.starts),
        source=edition.source,
        mark=worst_mark(case),
        adoption=standing.rule.adoption or (standing.group.adoption if weighed.ruling == "illegal" else None),
        explainer=case,
    )


def _choices(cases: Iterable[Case]) -> Iterable[Choice]:
    """One choice for each team and rule that more than one colour of a team breaks."""
    seen: set[tuple[str, str]] = set()
    for case in cases:
        for standing, answer in zip(case.standings, case.weighed.answers, strict=True):
            key = (case.worn.tag.team, standing.rule.code)
            if answer != FAILS or key in seen:
                continue
            for check in standing.across:
                look = case.team.look(check.fact, check.among, check.within)
                if check.run(case.worn) == FAILS and key not in seen:
                    seen.add(key)
                    yield Choice(*key, tuple(Option(keep, change) for keep, change in options(look)))
