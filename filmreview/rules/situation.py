"""Rule a case without film: read a situation file, rule it, put it out as JSON, compare it with what the file expects."""

from __future__ import annotations

from typing import Any

from filmreview.rules.situation_compare import differences, held
from filmreview.rules.situation_json import ruled_to_json
from filmreview.rules.situation_reading import Situation, read_situation
from filmreview.rules.situation_ruling import Ruled, rule_setting

__all__ = ["Ruled", "Situation", "compare", "held_of", "read_situation", "rule_situation", "to_json"]


def rule_situation(situation: Situation) -> Ruled:
    """What comes out of a situation. Pure."""
    return rule_setting(situation.setting, situation.book, situation.day, situation.adoption, situation.level)


def to_json(situation: Situation, ruled: Ruled) -> dict[str, Any]:
    """The document that `filmreview rule --json` prints."""
    return ruled_to_json(situation.title, ruled)


def compare(situation: Situation, ruled: Ruled) -> list[str]:
    """One line for each expectation of the file that does not hold; empty when all hold."""
    return differences(situation.setting.expects, ruled)


def held_of(situation: Situation, ruled: Ruled) -> tuple[int, int]:
    """How many expectations of the file hold, and how many it has."""
    expects = situation.setting.expects
    return held(expects, ruled), len(expects)
