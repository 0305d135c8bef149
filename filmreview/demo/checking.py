"""Hold the findings sheet to the truth file: both are read back from the disk, and every difference is told in one line."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

import pandas as pd

from filmreview.film.moment import parse_time
from filmreview.sheets import sheet_words as words

_RULING = re.compile(r"\b(illegal|cannot be told|legal)\b")
_DAY = re.compile(r"from (\d{1,2} \w+ \d{4})")
_COSTS: Mapping[str, str] = {told: word for word, told in words.CONSEQUENCES.items()}
_COMPARED = ("time", "ruling", "consequence", "ahead", "crew")


def differences(sheet: Path, truth: Path) -> tuple[str, ...]:
    """What the workbook says otherwise than the truth file: tags, times, rulings, consequences, later days, crew marks,
    penalties. Empty when all is equal."""
    told = json.loads(truth.read_text(encoding="utf-8"))
    findings = pd.read_excel(sheet, sheet_name="Findings", dtype=str, keep_default_na=False)
    found = {_key(row["Side"], row["Player"], row["Item"]): _in_sheet(row) for row in findings.to_dict("records")}
    expected = {_key(tag["team"], tag["player"], tag["item"]): _in_truth(tag) for tag in told["tags"]}
    lines = [f"{key}: not in the sheet" for key in expected if key not in found]
    lines += [f"{key}: in the sheet, not in the truth" for key in found if key not in expected]
    for key in expected.keys() & found.keys():
        for part in _COMPARED:
            if expected[key][part] != found[key][part]:
                lines.append(f"{key}: {part} is {expected[key][part]!r} in truth, {found[key][part]!r} in the sheet")
    return (*sorted(lines), *_penalty_differences(sheet, told))


def _penalty_differences(sheet: Path, told: Mapping[str, Any]) -> tuple[str, ...]:
    table = pd.read_excel(sheet, sheet_name="Penalties", dtype=str, keep_default_na=False)
    found = sorted(
        (row["Team"], row["Foul"], row["How many"], row["Charged to"], row["Free throws each"])
        for row in table.to_dict("records")
        if row["Foul"]
    )
    expected = sorted(
        (told["game"][one["team"]], one["kind"], str(one["count"]), one["charged_to"], str(one["free_throws"]))
        for one in told["penalties"]
    )
    return () if found == expected else (f"penalties: {expected} in truth, {found} in the sheet",)


def _key(side: str, player: str, item: str) -> str:
    return f"{side} {player}, {item}"


def _in_truth(tag: Mapping[str, Any]) -> dict[str, Any]:
    days = [words.day_words(date.fromisoformat(day)) for day in tag["expect"]["ahead"]]
    return {
        "time": round(float(tag["time"]), 3),
        "ruling": tag["expect"]["ruling"],
        "consequence": tag["expect"]["consequence"],
        "ahead": days,
        "crew": tag["crew"]["mark"],
    }


def _in_sheet(row: Mapping[Any, Any]) -> dict[str, Any]:
    ruling = _RULING.search(row["Ruled"])
    return {
        "time": round(float(parse_time(row["Time"], "sheet")), 3),
        "ruling": ruling.group(1) if ruling else row["Ruled"],
        "consequence": _COSTS.get(row["Consequence"], row["Consequence"]),
        "ahead": _DAY.findall(row["Ahead"]),
        "crew": row["Crew mark"],
    }
