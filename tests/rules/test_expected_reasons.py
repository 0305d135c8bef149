"""A case may expect sentences of a ruling: whole ones, or their beginning."""

from __future__ import annotations

from datetime import date

import pytest

from filmreview.rules.library import book_named
from filmreview.rules.setting import Setting, read_setting
from filmreview.rules.situation_compare import differences
from filmreview.rules.situation_ruling import rule_setting
from filmreview.rules.strict import Table


def setting(*reasons: str) -> Setting:
    raw = {
        "visitor": {"jersey": "navy"},
        "seen": {"team": "visitor", "player": "14", "item": "jewelry"},
        "expect": {"about": "1", "reasons": list(reasons)},
    }
    return read_setting(Table({key: [one] if key != "visitor" else one for key, one in raw.items()}, "a case", tuple(raw)))


def wrong(*reasons: str) -> list[str]:
    what = setting(*reasons)
    return differences(what.expects, rule_setting(what, book_named("nfhs"), date(2023, 12, 5)))


@pytest.mark.parametrize(
    "reasons", [("Jewelry (3-5-7): jewelry: not allowed",), ("Jewelry (3-5-7)…", "consequence by illegal…")]
)
def test_a_sentence_or_its_beginning_is_found(reasons: tuple[str, ...]) -> None:
    assert wrong(*reasons) == []


@pytest.mark.parametrize(
    "reasons", [("Jewelry (3-5-7)",), ("jewelry: not allowed",), ("Jewelry (3-5-7)…", "consequence by uniform…")]
)
def test_a_part_or_another_sentence_is_not(reasons: tuple[str, ...]) -> None:
    [line] = wrong(*reasons)
    assert "reasons: expected" in line
