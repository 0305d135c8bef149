"""What the observer of the made-up game puts down: tags, references, crew marks, events; and what the truth expects of them.

The truth was written from the published rules of the season 2023-24 (school book), not from what the engine says.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from filmreview.demo.play import BAND_OFF, BECKONED, FOUL, OUT, THROWN_IN

Raw = str | bool | float


@dataclass(frozen=True)
class Crew:
    """How the crew dealt with it. at: second of the film, None when nothing happened. whose: position of the official whose
    finding it is, "" for the whole crew's."""

    mark: str
    did: str = ""
    at: float | None = None
    whose: str = ""


@dataclass(frozen=True)
class Expect:
    """What the book makes of it. ahead: days from which on it is illegal though legal on the game's day."""

    ruling: str
    consequence: str = "none"
    ahead: tuple[str, ...] = ()


@dataclass(frozen=True)
class Put:
    """One tag. who: key of the person. thing: what is drawn there (`sketch.OWNERS`). inside: the region lies inside the thing,
    for measuring; else it goes around it. measured: its colour is measured there. white_of: the player whose white jersey is
    the reference. seen: facts by the eye, as a file would give them."""

    name: str
    second: float
    who: str
    item: str
    thing: str
    expect: Expect
    crew: Crew
    seen: Mapping[str, Raw] = field(default_factory=dict)
    inside: bool = True
    measured: bool = True
    white_of: str = ""
    note: str = ""


_LINED_UP, _TURNING, _CLOSE, _AT_TABLE, _SIDE_LINE = 13.8, 17.6, 18.88, 22.4, 36.6
_NOTHING = Crew("nothing to do")
_DEAD: dict[str, Raw] = {"when": "playing", "ball": "dead", "in_play": True}

PUTS: tuple[Put, ...] = (
    Put(
        "navy arm sleeve",
        _LINED_UP,
        "h10",
        "arm sleeve",
        "arm sleeve",
        Expect("illegal", "fix or leave"),
        Crew(
            "as the book asks",
            "Umpire 1 told the head coach; 10 left at the substitution and stayed out.",
            BECKONED,
            "umpire 1",
        ),
        _DEAD,
        white_of="h10",
        note="The school's own navy, but the jersey is white.",
    ),
    Put(
        "black undershirt under white",
        _LINED_UP,
        "h21",
        "undershirt",
        "undershirt",
        Expect("illegal", "fix or leave"),
        Crew("not seen", "Played on in it.", whose="umpire 2"),
        _DEAD,
        white_of="h21",
    ),
    Put(
        "black arm sleeve",
        _LINED_UP,
        "v31",
        "arm sleeve",
        "arm sleeve",
        Expect("legal"),
        _NOTHING,
        _DEAD,
        white_of="h21",
        note="Looks like the navy one from afar.",
    ),
    Put(
        "black headband",
        _SIDE_LINE,
        "v5",
        "headband",
        "headband",
        Expect("legal"),
        _NOTHING,
        {**_DEAD, "colour": "black", "worn": "forehead", "count": 1},
        white_of="h21",
    ),
    Put(
        "wristband above the elbow",
        _LINED_UP,
        "v24",
        "wristband",
        "wristband",
        Expect("illegal", "fix or leave"),
        Crew("late", "Seen by nobody at the free throws; taken off at the dead ball after that.", BAND_OFF, "umpire 2"),
        {**_DEAD, "colour": "black", "worn": "above elbow"},
        white_of="h10",
    ),
    Put(
        "visitors' jersey",
        _LINED_UP,
        "v24",
        "jersey",
        "jersey",
        Expect("legal"),
        _NOTHING,
        _DEAD,
        white_of="h10",
    ),
    Put(
        "grey or white undershirt",
        _TURNING,
        "h44",
        "undershirt",
        "undershirt",
        Expect("cannot be told"),
        Crew("cannot be told"),
        _DEAD,
        white_of="h44",
        note="White would be legal, light grey would not; the film cannot tell them apart.",
    ),
    Put(
        "outlined number",
        _CLOSE,
        "h12",
        "number",
        "number",
        Expect("legal", "none", ("2024-07-01",)),
        _NOTHING,
        {**_DEAD, "number": "12", "number_style": "jersey colour with border", "border_colours": "navy"},
        inside=False,
        measured=False,
        note="White digits on white: only the outline shows.",
    ),
    Put(
        "necklace",
        _CLOSE,
        "h3",
        "jewelry",
        "jewelry",
        Expect("illegal", "fix or leave"),
        Crew("not seen", "Played on with it.", whose="umpire 1"),
        _DEAD,
        inside=False,
        measured=False,
    ),
    Put(
        "black undershirt under green",
        _CLOSE,
        "v15",
        "undershirt",
        "undershirt",
        Expect("legal"),
        _NOTHING,
        _DEAD,
        white_of="h3",
        note="New in 2023-24: visitors may wear black.",
    ),
    Put(
        "red knee brace",
        _CLOSE,
        "v15",
        "knee brace",
        "knee brace",
        Expect("legal"),
        _NOTHING,
        {**_DEAD, "altered": False},
        white_of="h3",
    ),
    Put(
        "number 27",
        _AT_TABLE,
        "v27",
        "number",
        "number",
        Expect("illegal", "technical foul"),
        Crew(
            "wrong consequence",
            "Beckoned in; at the next dead ball sent to the bench, and nothing was charged.",
            36.2,
            "referee",
        ),
        {"number": "27", "number_style": "solid", "in_play": True, "when": "playing", "ball": "dead"},
        inside=False,
        measured=False,
        note="Was still a substitute here; became a player seconds later.",
    ),
)


@dataclass(frozen=True)
class Happened:
    """One event. who: key of a player, or a team."""

    second: float
    what: str
    who: str = ""


EVENTS: tuple[Happened, ...] = (
    Happened(FOUL, "play stopped"),
    Happened(15.3, "free throw", "h12"),
    Happened(18.4, "coach told", "home"),
    Happened(20.2, "substitute reports", "v27"),
    Happened(20.4, "substitute reports", "h30"),
    Happened(BECKONED, "directed to leave", "h10"),
    Happened(BECKONED + 0.2, "substitute enters", "v27"),
    Happened(BECKONED + 0.4, "substitute enters", "h30"),
    Happened(30.1, "free throw", "h12"),
    Happened(31.2, "play resumes"),
    Happened(OUT, "play stopped"),
    Happened(36.2, "directed to leave", "v27"),
    Happened(37.0, "substitute enters", "v22"),
    Happened(THROWN_IN + 0.8, "play resumes"),
)


KINDS: tuple[str, ...] = ("free throws", "substitution", "substitution")
"""What the stoppages of `play.STOPPAGES` are for, in their order."""


@dataclass(frozen=True)
class Charged:
    """A penalty the book asks for."""

    team: str
    kind: str
    count: int
    charged_to: str
    free_throws: int


CHARGED: tuple[Charged, ...] = (Charged("visitor", "technical foul", 1, "head coach", 2),)
