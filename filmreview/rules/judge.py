"""Judge tags by a book: the engine's front door. Pure: no clock, no files, the order of the tags does not matter.

For each tag every rule in force on its item is run. The tag is illegal if any fails, else it cannot be told if any is open,
else it is legal.

What a fact that was left out means. An observer writes down what stands out, so:

1. A fact that is given decides. Given but uncertain (measured), it may leave the ruling open; it is never presumed.
2. A fact left out that the book marks as *needed* (the colour of a sleeve, the number worn) leaves the rule open and is asked.
3. Any other fact left out is *presumed ordinary*: the rule holds, and the reasons say "taken as ordinary". One colour
   named is one solid colour; several are not.
4. Once a tag tells a fact that one rule of its item is about, rules it tells nothing about are presumed kept: a headband of
   which only the width was noted is ruled by its width. A tag without any fact asks the needed ones.
5. A breach that is sure decides whatever else is unknown.
6. Where the text is disputed, or the book here has no text, it cannot be told, and nothing is asked.

`needs` lists every unknown fact, presumed ones marked so, for which some answer changes ruling or consequence while the other
open facts are left open or answered in some way; nothing else is listed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book
from filmreview.rules.judging import Judging
from filmreview.rules.ruling import Rulings
from filmreview.rules.tag import Tag, TeamFacts


def judge(
    tags: Sequence[Tag],
    teams: Mapping[str, TeamFacts],
    book: Book,
    day: date,
    adoption: Adoption | None = None,
    level: str | None = None,
) -> Rulings:
    """What the book says of the tags on the day.

    teams: "home" and "visitor", either may be missing. adoption: laid over the book. level: None means the book's own. To judge
    again after one tag changed, keep a `judging.Judging` instead.
    """
    return Judging.of(tags, teams, book, day, adoption, level).rulings
