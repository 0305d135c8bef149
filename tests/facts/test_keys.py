"""Reading facts as files and people give them."""

import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount
from filmreview.facts.keys import KEYS, Kind, parse_value, read_value


def message(name: str, raw: object) -> str:
    with pytest.raises(FilmReviewError) as caught:
        read_value(name, raw, "case.toml")
    return str(caught.value)


def test_a_colour_is_one_name_or_several() -> None:
    (one,) = read_value("colour", "orange")
    several = read_value("colour", ["black", "#ff8800"])
    assert one.name == "orange"
    assert [colour.name for colour in several] == ["black", "#ff8800"]


def test_an_amount_is_a_number_or_a_number_with_its_uncertainty() -> None:
    assert read_value("width_in", 2.5) == Amount(2.5, 0.0)
    assert read_value("width_in", {"value": 2.5, "plus_minus": 0.25}) == Amount(2.5, 0.25)
    assert parse_value("width_in", "2.5 +- 0.25") == Amount(2.5, 0.25)
    assert parse_value("width_in", "2.5±0.25") == Amount(2.5, 0.25)


@pytest.mark.parametrize(("typed", "value"), [("yes", True), ("No", False), ("true", True)])
def test_yes_and_no_as_typed(typed: str, value: bool) -> None:
    assert parse_value("hard", typed) is value


@pytest.mark.parametrize(
    ("name", "raw", "words"),
    [
        ("color", "red", 'case.toml: unknown fact "color"; write "colour" if that is what you mean'),
        ("worn", "forhead", 'case.toml, worn: unknown value of worn "forhead"; write "forehead" if that is what you mean'),
        ("width_in", "wide", "case.toml, width_in: 'wide' is not an amount; write a number of 0 or more (in)"),
        ("width_in", float("nan"), "case.toml, width_in: nan is not an amount; write a number of 0 or more (in)"),
        ("width_in", {"value": 2, "plusminus": 1},
         'case.toml, width_in: unknown key "plusminus"; write "plus_minus" if that is what you mean'),
        ("hard", "maybe", "case.toml, hard: 'maybe' is neither yes nor no; write yes or no (true or false in a file)"),
        ("number", 7, "case.toml, number: 7 is not text; write it in quotation marks"),
        ("colour", [], 'case.toml, colour: [] is not a colour; write a name, "#rrggbb", or a list of these'),
    ],
)  # fmt: skip
def test_bad_values_say_what_where_and_what_to_write(name: str, raw: object, words: str) -> None:
    assert message(name, raw) == words


def test_every_choice_key_lists_its_choices_and_no_other_key_does() -> None:
    for key in KEYS.values():
        assert bool(key.choices) == (key.kind is Kind.CHOICE), key.name
