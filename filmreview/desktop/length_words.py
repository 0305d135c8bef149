"""What the desk says of a length that is being measured: what to place next, its value, its parts, what it rests on. No Qt."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from filmreview.desktop.length_step import Step
from filmreview.facts.keys import KEYS
from filmreview.measure.length import CM, SeenLength

if TYPE_CHECKING:  # the presenter asks for its words; they only need its type
    from filmreview.desktop.length_presenter import LengthPresenter

_COUNTED = {4: "four", 5: "five", 6: "six"}
PAUSE = "pause the film to measure on a frame"


@dataclass(frozen=True)
class LengthTexts:
    """todo: what to do now. value: the length, or why there is none. behind: its parts and view. notes: what it rests on."""

    todo: str
    value: str
    behind: str
    notes: str


def texts_of(presenter: LengthPresenter) -> LengthTexts:
    """All texts of a presenter as it stands."""
    seen = presenter.seen
    behind = _behind(seen) if seen is not None else ""
    if presenter.drawn is not None:
        drawn = presenter.drawn
        low, high = drawn.interval
        behind += f"\nby {drawn.count:,} draws {drawn.inches:.2f} ± {drawn.plus_minus:.2f} in, 95 % {low:.2f} to {high:.2f}"
        behind += "" if drawn.chance is None else f", P {drawn.chance:.2f}"
    return LengthTexts(_todo(presenter), _value(presenter), behind, _notes(presenter))


def length_words(seen: SeenLength) -> str:
    """ "2.31 ± 0.18 in (5.87 ± 0.46 cm), 95 % 1.96 to 2.66 in", or why the film cannot tell."""
    length = seen.length
    if length.why_not:
        return f"cannot be told: {length.why_not}"
    low, high = length.interval
    cm = f"{length.inches * CM:.2f} ± {length.plus_minus * CM:.2f} cm"
    return f"{length.inches:.2f} ± {length.plus_minus:.2f} in ({cm}), 95 % {low:.2f} to {high:.2f} in"


def _todo(presenter: LengthPresenter) -> str:
    asked = presenter.asked
    if asked is None:
        return PAUSE if presenter.on else ""
    item = KEYS[presenter.key].words
    if presenter.other_frame:
        thing = "court points" if asked.closed else item if presenter.step is Step.ITEM else presenter.thing
        return f"another frame: put the points on the {thing} again, then Enter"
    if asked.closed and not asked.whole:
        return f"place the {_COUNTED[len(asked.names)]} court points, then Enter"
    if not asked.whole:
        beside = f"the {presenter.thing} that lies beside the item, as far from the camera as it"
        what = f"the {item}" if presenter.step is Step.ITEM else beside
        return f"place both ends of {what}, then Enter"
    return f"Enter puts the {item} on the card" if presenter.step is Step.ITEM else f"Enter: on to the {item}"


def _value(presenter: LengthPresenter) -> str:
    if presenter.fault:
        return presenter.fault
    seen = presenter.seen
    if seen is None:
        return ""
    words = f"{KEYS[presenter.key].words} {length_words(seen)}"
    limit = presenter.limit
    return words if limit is None else f"{words}\n{seen.decide(limit).words}"


def _behind(seen: SeenLength) -> str:
    length = seen.length
    parts = ", ".join(f"{name} {share * length.inches:.2f}" for name, share in length.parts.items())
    return f"the ± comes from (in): {parts}; {seen.px_to_inch:.1f} px to the inch, view {seen.view}"


def _notes(presenter: LengthPresenter) -> str:
    lines = list(presenter.seen.notes) if presenter.seen is not None else []
    if presenter.limit_fault:
        lines.insert(0, presenter.limit_fault)
    return "; ".join(lines)
