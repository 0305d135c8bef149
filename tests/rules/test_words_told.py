"""What reasons say: nothing of alternatives meant for other items, nothing empty, no endless list of what was presumed."""

from datetime import date

from filmreview.facts.fact import Fact
from filmreview.facts.keys import read_value
from filmreview.rules.judge import judge
from filmreview.rules.library import book_named
from filmreview.rules.ruling import Ruling
from filmreview.rules.tag import Tag
from filmreview.rules.todo_words import begins_with_time, hangs_on, todo_line
from tests.rules import make


def ruling(book: str, day: date, item: str, **facts: object) -> Ruling:
    known = {key: Fact(key, read_value(key, value)) for key, value in facts.items()}
    (one,) = judge([Tag("a", "visitor", "14", item, known)], {}, book_named(book, ()), day).rulings
    return one


def test_an_alternative_for_another_item_is_not_told() -> None:
    one = ruling("nfhs", date(2024, 1, 10), "arm sleeve", area_sq_in=4)
    assert one.ruling == "illegal"
    assert one.reasons[0].endswith("area 4; it must be at most 2.25 sq in")


def test_the_rule_that_looks_at_most_of_what_was_told_is_named() -> None:
    told = {"logo_kind": "maker", "logo_at": "front shoulder", "area_sq_in": 2, "side_in": 1.5}
    one = ruling("nfhs", date(2013, 7, 1), "logo", **told)
    assert (one.ruling, one.rule, one.reference) == ("legal", "jersey-maker-logo", "3-4-2")
    assert not any(line.endswith(")") and ":" not in line.partition("(")[2] for line in one.reasons)


def test_a_long_list_of_what_was_presumed_is_cut_with_its_count() -> None:
    one = ruling("nfhs", date(2024, 1, 10), "jersey", colour="green")
    (presumed,) = [line for line in one.reasons if line.startswith("taken as ordinary, nothing was seen: ")]
    assert presumed.partition(": ")[2].count(",") == 3
    assert " and " in presumed
    assert presumed.endswith(" more")


def test_a_book_that_takes_every_number_still_asks_for_it() -> None:
    """FIBA since 2014: 0, 00 and 1 to 99 (from memory, as the book says): no number is outside the list."""
    (one,) = judge([Tag("a", "visitor", "", "number", {})], {}, book_named("fiba", ()), date(2024, 1, 10)).rulings
    assert one.ruling == "cannot be told"
    assert all(need.outcomes for need in one.needs)


def test_a_number_that_could_not_be_read_is_not_known_and_asked() -> None:
    (one,) = judge([Tag("a", "visitor", "", "number", {})], {}, book_named("nfhs", ()), date(2024, 1, 10)).rulings
    assert one.ruling == "cannot be told"
    assert one.needs[0].fact in ("number", "colour", "number_style")
    assert "number" in {need.fact for need in one.needs}


def test_a_number_that_stands_out_by_its_border_says_so_once_and_plainly() -> None:
    """Legal through 2023-24 by the book here (NFHS 3-4-3 as changed for 2024-25); both limits of contrast hold, one is said."""
    outlined = make.tag("number", team="home", player="12", number_style="jersey colour with border", border_colours="navy")
    first = make.ruling(outlined, home={"jersey": "white"}, visitor={"jersey": "green"}).reasons[0]
    assert first == (
        "Number: stands out from the jersey (3-4-3): number style: jersey colour with border (not one of: solid,"
        " solid with border or solid with shadow); border colours navy, which contrasts with the jersey (white) by L* 36 or"
        " more, our own limit"
    )


def test_a_consequence_that_hangs_on_a_fact_is_told_in_a_sentence() -> None:
    """A substitute in an illegal number costs nothing until the player is one (NFHS 10-6-4 as the book here has it)."""
    on_bench = make.ruling(make.tag("number", number="67", in_play=False, when="at table")).reasons
    assert any("none until the wearer has become a player in it; then one technical foul a team" in one for one in on_bench)
    unknown = make.ruling(make.tag("number", number="67")).reasons
    hangs = "the consequence (technical foul or none) hangs on whether the wearer has become a player in it"
    assert hangs in unknown


def test_the_cases_of_what_to_do_are_told_apart_only_where_the_facts_leave_several() -> None:
    anywhere = make.ruling(make.tag("arm sleeve", colour="orange"), visitor={"jersey": "green"}).todo
    assert hangs_on(anywhere, playing=False) == "when it was found, before the game or in it"
    assert hangs_on(anywhere, playing=True) == "whether the ball was live or dead"
    dead = make.ruling(make.tag("arm sleeve", colour="orange", ball="dead"), visitor={"jersey": "green"}).todo
    assert hangs_on(dead, playing=True) == ""
    assert begins_with_time(todo_line(dead, playing=True))
    assert not begins_with_time("nothing was to be done: the book allows it")


def test_what_does_not_contrast_says_what_it_must() -> None:
    like = make.tag("number", team="home", player="12", number_style="jersey colour with border",
                    border_colours="white", colour="white")  # fmt: skip
    first = make.ruling(like, home={"jersey": "white"}, visitor={"jersey": "green"}).reasons[0]
    assert "border colours white against the jersey (white); it must contrast (L* apart by 30" in first


def test_items_that_must_be_of_one_colour_are_not_told_as_if_they_had_been_seen() -> None:
    """One arm sleeve was seen; the rule is about sleeves and tights (NFHS 3-5-3 as the book here has it)."""
    told = " ".join(make.ruling(make.tag("arm sleeve", colour="black")).reasons)
    assert "this team shows black; arm sleeve, " in told
    assert " must be of one colour for the team" in told
    assert "wears black on" not in told


def test_what_a_breach_costs_is_told_as_of_the_day_of_the_game() -> None:
    """One foul for each through 2007-08, then one a team on the head coach (the change of 2008-09, source S08 of the book)."""
    grey = make.tag("jersey", team="home", colour="grey", in_play=True)
    before, after = (" ".join(make.ruling(grey, day=day).reasons) for day in (date(2008, 6, 30), date(2008, 7, 1)))
    assert "one technical foul for each starter and each substitute who entered, charged to the team" in before
    assert "one technical foul a team, charged to the head coach, however many wear it" in after
    assert "one technical foul a team" not in before
    assert "starter" not in after
