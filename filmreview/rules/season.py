"""Seasons: which school year or edition year a day belongs to."""

from __future__ import annotations

from datetime import date


def season_year(day: date, starts: tuple[int, int]) -> int:
    """The year in which the season of that day began. starts: (month, day) of a season's first day."""
    return day.year if (day.month, day.day) >= starts else day.year - 1


def season_text(day: date, starts: tuple[int, int]) -> str:
    """The season of that day as it is written: "2023-24"."""
    year = season_year(day, starts)
    return f"{year}-{(year + 1) % 100:02d}"
