"""What is written and would be lost when a review is let go, as one question whose buttons say what they do. No Qt."""

from __future__ import annotations

from dataclasses import dataclass

CARD_HOLDS = "The tag on the card is not kept yet."
CHANGE_ON_CARD = "The change to the tag on the card is not kept yet."


@dataclass(frozen=True)
class Unkept:
    """on_card: whether the card holds a tag, or a change to a kept one, that is not kept. is_change: whether it is such a
    change. calls: a sentence about own calls that are typed and not given, "" for none. many: how many calls those are."""

    on_card: bool = False
    calls: str = ""
    many: int = 0
    is_change: bool = False

    @property
    def words(self) -> str:
        """The question; "" when nothing would be lost."""
        card = CHANGE_ON_CARD if self.is_change else CARD_HOLDS
        parts = [card if self.on_card else "", self.calls]
        said = " ".join(part for part in parts if part)
        if not said:
            return ""
        lost = "Both" if self.on_card and self.many == 1 else "All of them" if self.on_card and self.calls else ""
        lost = lost or ("They" if self.many > 1 else "It")
        stays = "; the tag stays as it was" if self.on_card and self.is_change else ""
        return f"{said} {lost} {'is' if lost == 'It' else 'are'} lost if you go on{stays}."

    @property
    def throw_words(self) -> str:
        """On the button that loses it."""
        if self.on_card:
            return "Drop all" if self.calls else "Drop the change" if self.is_change else "Drop the tag"
        return "Drop the calls" if self.many > 1 else "Drop the call"

    @property
    def back_words(self) -> str:
        """On the button that goes back to it."""
        if self.on_card:
            return "Back to the card"
        return "Back to the calls" if self.many > 1 else "Back to the call"
