"""What is written and would be lost when a review is let go, as one question whose buttons say what they do. No Qt."""

from __future__ import annotations

from dataclasses import dataclass

CARD_HOLDS = "The tag on the card is not kept yet."


@dataclass(frozen=True)
class Unkept:
    """on_card: whether the card holds a tag that is not kept. calls: a sentence about own calls that are typed and not given,
    "" for none. many: how many calls those are."""

    on_card: bool = False
    calls: str = ""
    many: int = 0

    @property
    def words(self) -> str:
        """The question; "" when nothing would be lost."""
        parts = [CARD_HOLDS if self.on_card else "", self.calls]
        said = " ".join(part for part in parts if part)
        if not said:
            return ""
        lost = "Both" if self.on_card and self.many == 1 else "All of them" if self.on_card and self.calls else ""
        lost = lost or ("They" if self.many > 1 else "It")
        return f"{said} {lost} {'is' if lost == 'It' else 'are'} lost if you go on."

    @property
    def throw_words(self) -> str:
        """On the button that loses it."""
        if self.on_card:
            return "Drop all" if self.calls else "Drop the tag"
        return "Drop the calls" if self.many > 1 else "Drop the call"

    @property
    def back_words(self) -> str:
        """On the button that goes back to it."""
        if self.on_card:
            return "Back to the card"
        return "Back to the calls" if self.many > 1 else "Back to the call"
