"""The typed line: what is read, what is not, and what it could become."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmreview.facts.fact import Amount, Origin
from filmreview.facts.items import ITEMS
from filmreview.facts.keys import KEYS
from filmreview.review.line import UNREADABLE, completions, fact_in_words, parse_line, write_line
from filmreview.review.model import CREW_MARKS

ROSTERS = {"home": ("3", "10", "14"), "visitor": ("0", "00", "14", "22")}


def values(text: str) -> dict[str, object]:
    return {fact.key: fact.value for fact in parse_line(text, ROSTERS).facts}


def colours(text: str, key: str = "colour") -> tuple[str, ...]:
    return tuple(colour.name for colour in values(text)[key])


@pytest.mark.parametrize(
    ("text", "team", "player", "item"),
    [
        ("v14 arm sleeve orange", "visitor", "14", "arm sleeve"),
        ("orange arm sleeve v14", "visitor", "14", "arm sleeve"),
        ("h3 headband", "home", "3", "headband"),
        ("home 3 headband", "home", "3", "headband"),
        ("visitor #22 tights black", "visitor", "22", "tights"),
        ("v 00 wristband", "visitor", "00", "wristband"),
        ("0 knee sleeve", "visitor", "0", "knee sleeve"),  # one roster alone has a 0
        ("10 hair tie", "home", "10", "hair tie"),
        ("V14 Arm Sleeve Orange", "visitor", "14", "arm sleeve"),
        ("v14 ar or", "visitor", "14", "arm sleeve"),  # cut short where nothing else begins like it
        ("v14 compression shorts", "visitor", "14", "compression shorts"),
        ("v14 blood excessive", "visitor", "14", "blood"),
    ],
)
def test_a_line_says_whose_and_which_item(text: str, team: str, player: str, item: str) -> None:
    understood = parse_line(text, ROSTERS)
    assert (understood.team, understood.player, understood.item) == (team, player, item)
    assert understood.complete
    assert understood.unread == ()
    assert understood.asks == ()


def test_colours_are_gathered_and_may_have_two_words() -> None:
    assert colours("v14 arm sleeve orange") == ("orange",)
    assert colours("v14 arm sleeve royal blue and white") == ("royal blue", "white")
    assert colours("v14 headband black, light grey") == ("black", "light grey")
    assert colours("v14 headband #336699") == ("#336699",)
    assert colours("v14 number border black", "border_colours") == ("black",)
    assert values("v14 ar or") == values("v14 arm sleeve orange")


def test_sizes_are_read_with_their_uncertainty_and_meaning() -> None:
    assert values("v14 headband 2.5 in")["width_in"] == Amount(2.5)
    assert values("v14 headband 2.5 +- 0.3 in wide")["width_in"] == Amount(2.5, 0.3)
    assert values('v14 headband 2.5+-0.3" wide')["width_in"] == Amount(2.5, 0.3)
    assert values("v14 number 6 in")["height_in"] == Amount(6.0)
    assert values("v14 number 0.75 in stroke")["stroke_in"] == Amount(0.75)
    assert values("v14 logo 2 sq in")["area_sq_in"] == Amount(2.0)
    assert values("v14 wristband pieces 2")["count"] == Amount(2.0)


def test_words_of_facts() -> None:
    assert values("v14 headband forehead") == {"worn": "forehead"}
    assert values("v14 arm sleeve not solid") == {"solid": False}
    assert values("v14 jersey untucked") == {"tucked": False}
    assert values("v14 guard or cast hard not padded") == {"hard": True, "padded": False}
    assert values("v14 number solid with border") == {"number_style": "solid with border"}
    assert values("v14 number 7") == {"number": "7"}
    assert values("v14 logo maker apex of neckline") == {"logo_kind": "maker", "logo_at": "apex of neckline"}
    assert values("v14 number above mascot") == {"above_number": "mascot"}
    assert values('v14 headband worn="upper arm" width_in=2.5') == {"worn": "upper arm", "width_in": Amount(2.5)}
    assert values("v14 earbuds warm-up") == {"when": "warm-up"}


@pytest.mark.parametrize(("text", "value"), [("became a player", True), ("in play", True), ("not became a player", False)])
def test_a_wearer_who_became_a_player(text: str, value: bool) -> None:
    read = parse_line(f"v14 jersey {text} playing dead")
    assert read.unread == ()
    assert {fact.key: fact.value for fact in read.facts}["in_play"] is value


def test_typed_facts_are_seen_not_measured() -> None:
    facts = parse_line("v14 headband black forehead 2 in", ROSTERS).facts
    assert len(facts) == 3
    assert {fact.origin for fact in facts} == {Origin.SEEN}


def test_a_note_stands_in_quotation_marks() -> None:
    understood = parse_line('v14 arm sleeve "rolled down, second half"', ROSTERS)
    assert understood.note == "rolled down, second half"
    assert understood.complete


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("", "whose is it?"),
        ("arm sleeve", "whose is it?"),
        ("14 arm sleeve", "14 of which team?"),
        ("v14", "which item?"),
        ("v15 arm sleeve", "15 is not on the visitor roster"),
        ("v14 arm sleeve ornge", '"ornge" is not understood; "orange"?'),
        ("v14 gr headband", "green"),
        ("v14 headband worn=nose", "nose"),
    ],
)
def test_what_is_missing_or_unread_is_asked(text: str, asked: str) -> None:
    assert asked in " / ".join(parse_line(text, ROSTERS).asks)


def test_a_line_with_an_unread_word_is_not_complete() -> None:
    assert not parse_line("v14 arm sleeve ornge", ROSTERS).complete
    assert parse_line("v14 arm sleeve ornge", ROSTERS).unread == ("ornge",)


def test_a_player_off_the_roster_can_still_be_kept() -> None:
    assert parse_line("v15 arm sleeve", ROSTERS).complete


def test_what_was_understood_is_repeated_in_one_line() -> None:
    assert parse_line("or ar v14 not solid", ROSTERS).says == ("visitor 14, arm sleeve, colour orange, not one solid colour")


def test_completions_are_whole_lines() -> None:
    assert completions("v14 ar", ROSTERS) == ("v14 arm sleeve",)  # an item, while none is known
    assert completions("v", ROSTERS) == ("v0", "v00", "v14", "v22")
    assert completions("v2", ROSTERS) == ("v22",)
    assert "v14 arm sleeve orange" in completions("v14 arm sleeve ora", ROSTERS)
    assert completions("v14 arm sleeve ", ROSTERS) == ()
    assert completions("v14 jersey in play", ROSTERS) == ()
    assert "v14 arm sleeve royal blue" in completions("v14 arm sleeve roy", ROSTERS)


@pytest.mark.parametrize("item", ITEMS)
def test_every_item_can_be_typed(item: str) -> None:
    assert parse_line(f"v14 {item}", ROSTERS).item == item


@pytest.mark.parametrize(("key", "choice"), [(key.name, choice) for key in KEYS.values() for choice in key.choices])
def test_every_choice_can_be_typed_behind_its_name(key: str, choice: str) -> None:
    item = "logo" if key.startswith("logo") else "jersey"
    words = key.replace("_", " ")
    assert values(f"v14 {item} {words} {choice}") == {key: choice}
    assert values(f'v14 {item} {key}="{choice}"') == {key: choice}


@settings(deadline=None)
@given(st.text(max_size=60))
def test_no_text_makes_it_fail(text: str) -> None:
    understood = parse_line(text, ROSTERS)
    completions(text, ROSTERS)
    assert understood.complete or understood.asks


@settings(deadline=None)
@given(
    st.permutations(["v14", "arm sleeve", "orange", "not solid", "2.5 in wide", '"a note"']),
)
def test_the_order_of_the_parts_does_not_matter(parts: list[str]) -> None:
    usual = parse_line('v14 arm sleeve orange not solid 2.5 in wide "a note"', ROSTERS)
    understood = parse_line(" ".join(parts), ROSTERS)
    assert (understood.team, understood.player, understood.item, understood.note) == ("visitor", "14", "arm sleeve", "a note")
    assert sorted(understood.facts, key=lambda fact: fact.key) == sorted(usual.facts, key=lambda fact: fact.key)


@settings(deadline=None)
@given(st.text(alphabet=st.characters(blacklist_characters='"'), min_size=1, max_size=40))
def test_any_note_comes_back(note: str) -> None:
    understood = replace(parse_line("v14 tights black"), note=note)
    assert parse_line(write_line(understood)).note == note


def test_a_quotation_inside_a_note_is_made_single() -> None:
    understood = replace(parse_line("v14 tights black"), note='told "in a moment"')
    assert parse_line(write_line(understood)).note == "told 'in a moment'"


def test_facts_in_words() -> None:
    facts = parse_line("v14 headband 2.5 +- 0.3 in wide black white forehead", ROSTERS).facts
    assert {fact_in_words(fact) for fact in facts} == {"width 2.5 +- 0.3 in", "colour black and white", "worn at forehead"}


def test_a_number_that_cannot_be_read_is_said_so() -> None:
    understood = parse_line("v? arm sleeve", ROSTERS)
    assert (understood.team, understood.player, understood.complete) == ("visitor", UNREADABLE, True)
    assert understood.says == "visitor number not read, arm sleeve"
    assert understood.asks == ()


@pytest.mark.parametrize("mark", CREW_MARKS)
def test_the_crew_mark_can_be_typed(mark: str) -> None:
    assert parse_line(f"v14 arm sleeve crew {mark} orange", ROSTERS).crew == mark
    assert parse_line("v14 ar crew la", ROSTERS).crew == "late"


@pytest.mark.parametrize("mark", ["late", "as the book asks", "wrong consequence", "wrong procedure"])
def test_a_crew_mark_that_can_mean_nothing_else_needs_no_word_before_it(mark: str) -> None:
    understood = parse_line(f"v14 arm sleeve orange {mark}", ROSTERS)
    assert (understood.crew, understood.item, understood.unread) == (mark, "arm sleeve", ())
    assert parse_line("v14 arm sleeve not seen", ROSTERS).crew is None


@pytest.mark.parametrize(
    "text",
    [
        "v14 arm sleeve orange",
        "h3 headband royal blue and white 2.5 +- 0.3 in wide forehead",
        'v? number number=7 number_style="solid with border" border black and white',
        'v14 earbuds warm-up crew not seen "before the jump"',
        "v14 guard or cast hard not padded in play pieces 2",
        "v14",
        "14 headband",
        "home",
    ],
)
def test_a_line_written_again_reads_the_same(text: str) -> None:
    understood = parse_line(text)
    again = parse_line(write_line(understood))
    assert again == understood
