"""What a team is charged."""

from __future__ import annotations

from dataclasses import dataclass

KINDS: tuple[str, ...] = ("technical foul", "administrative technical foul")


@dataclass(frozen=True)
class Penalty:
    """One line of penalties.

    team: "home" or "visitor". kind: one of KINDS. count: how many such fouls. charged_to: "head coach", "team", "player" ...
    free_throws: of each foul. coaching_box: "lost" or "kept"; None where the book here says nothing. then: how play goes on.
    rule: code of the consequence group or procedure that says so. players: whose faults brought it.
    """

    team: str
    kind: str
    count: int
    charged_to: str
    free_throws: int
    coaching_box: str | None = None
    then: str = ""
    rule: str = ""
    reference: str = ""
    source: str = ""
    mark: str = "published"
    players: tuple[str, ...] = ()
