"""One word for one thing in the helps: what the help of a command says, and what it says no longer."""

import pytest

from filmreview.commandline.words import parser


@pytest.mark.parametrize(
    ("command", "said", "not_said"),
    [
        ("films", ("take the shared instant of two films away",), ("common moment", "on which nothing lies")),
        ("films", ("take out a film that has no tags, events, stoppages, whites or blurs",), ()),
        ("call", ("your call: legal, illegal or cannot be told",), ("your ruling",)),
        ("measure", ("a part of the jersey, when the number is not surrounded by it",), ("something else",)),
        ("measure", ("check the +- by random draws too", "film's best (takes some seconds)"), ("best (seconds)",)),
        ("measure", ("boys' ball, girls' ball",), ("boys ball",)),
    ],
)
def test_words_of_a_help(command: str, said: tuple[str, ...], not_said: tuple[str, ...]) -> None:
    told = " ".join(parser()[1][command].format_help().split())
    assert all(words in told for words in said), told
    assert not any(words in told for words in not_said), told
