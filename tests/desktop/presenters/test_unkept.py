"""The question before a review is let go: what would be lost, and buttons that say what they do."""

import pytest

from filmreview.desktop.unkept import CARD_HOLDS, CHANGE_ON_CARD, Unkept

ONE = "Your own call on Ovvermire 14 (arm sleeve, at 0:00.000) is typed but not given yet."
MORE = "Your own calls on Ovvermire 14 (arm sleeve, at 0:00.000) and another tag are typed but not given yet."


@pytest.mark.parametrize(
    ("unkept", "words", "throw", "back"),
    [
        (Unkept(calls=ONE, many=1), f"{ONE} It is lost if you go on.", "Drop the call", "Back to the call"),
        (Unkept(calls=MORE, many=2), f"{MORE} They are lost if you go on.", "Drop the calls", "Back to the calls"),
        (Unkept(True), f"{CARD_HOLDS} It is lost if you go on.", "Drop the tag", "Back to the card"),
        (Unkept(True, ONE, 1), f"{CARD_HOLDS} {ONE} Both are lost if you go on.", "Drop all", "Back to the card"),
        (
            Unkept(True, MORE, 2),
            f"{CARD_HOLDS} {MORE} All of them are lost if you go on.",
            "Drop all",
            "Back to the card",
        ),
        (
            Unkept(True, is_change=True),
            f"{CHANGE_ON_CARD} It is lost if you go on; the tag stays as it was.",
            "Drop the change",
            "Back to the card",
        ),
        (
            Unkept(True, ONE, 1, is_change=True),
            f"{CHANGE_ON_CARD} {ONE} Both are lost if you go on; the tag stays as it was.",
            "Drop all",
            "Back to the card",
        ),
    ],
)
def test_the_question_and_its_buttons(unkept: Unkept, words: str, throw: str, back: str) -> None:
    assert (unkept.words, unkept.throw_words, unkept.back_words) == (words, throw, back)


def test_nothing_unkept_asks_nothing() -> None:
    assert Unkept().words == ""
