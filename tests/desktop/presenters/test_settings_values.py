"""What a settings file holds, read without Qt."""

import pytest

from filmreview.desktop.settings_values import NAMES, Chosen, chosen_from, kept_from, wrong_words

OTHER = Chosen("R. Valdrune", "vlc", 2.5, 140, "fiba", "varsity", "/sheets")


def test_what_is_kept_is_read_back() -> None:
    for chosen in (Chosen(), OTHER):
        assert chosen_from(kept_from(chosen)) == (chosen, ())
    assert set(kept_from(OTHER)) == set(NAMES)


@pytest.mark.parametrize(
    ("name", "text"),
    [("playback", "tape"), ("jump", "soon"), ("jump", "0"), ("jump", "61"), ("jump", "1e9"), ("text", "20"), ("text", "nan"),
     ("book", ""), ("book", "rulebook"), ("level", "minor"), ("jump", None)],
)  # fmt: skip
def test_a_wrong_value_has_its_default_and_is_named(name: str, text: object) -> None:
    chosen, wrong = chosen_from({**kept_from(OTHER), name: text})
    assert wrong == (name,)
    assert getattr(chosen, name) == getattr(Chosen(), name)
    assert {one: getattr(chosen, one) for one in NAMES if one != name} == {
        one: getattr(OTHER, one) for one in NAMES if one != name
    }
    assert wrong_words(wrong, "desk.ini") == (
        f"desk.ini: {name} cannot be read, so the default is taken; Review, Settings puts it right"
    )


def test_nothing_wrong_says_nothing() -> None:
    assert wrong_words((), "desk.ini") == ""


def test_a_name_with_a_comma_is_one_name() -> None:
    """The reader of settings files takes commas for a list (Qt's QSettings)."""
    assert chosen_from({"who": ["Valdrune", "R."]})[0].who == "Valdrune, R."


def test_a_jump_reads_plainly() -> None:
    assert [Chosen(jump=seconds).jump_words for seconds in (1.0, 0.5, 10.0)] == ["1 s", "0.5 s", "10 s"]
