"""The engine: what decides, what is presumed, what is asked, what is charged."""

from __future__ import annotations

from datetime import date

import pytest

from filmreview.colour.palette import measured
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.rules.judge import judge
from filmreview.rules.judging import Judging
from filmreview.rules.library import book_named
from filmreview.rules.tag import Tag
from tests.rules.make import ruled, ruling, tag

GREEN = {"jersey": "green"}
BEFORE_2008 = date(2007, 12, 1)


def test_a_sure_breach_decides_whatever_else_is_unknown() -> None:
    one = ruling(tag("arm sleeve", colour="orange"), visitor=GREEN)
    assert (one.ruling, one.consequence, one.rule, one.reference) == ("illegal", "fix or leave", "sleeve-colour", "3-5-3")
    assert one.needs == ()
    assert "orange" in one.reasons[0]
    assert "dE00 under 10" in one.reasons[0]  # the limit stands in the reasons
    assert "our own limit" in one.reasons[0]


def test_what_was_left_out_is_presumed_ordinary_and_the_reasons_say_so() -> None:
    one = ruling(tag("arm sleeve", colour="black"))
    assert one.ruling == "legal"
    assert any(line.startswith("taken as ordinary, nothing was seen: ") and "one solid colour" in line for line in one.reasons)
    assert {need.fact for need in one.needs if need.presumed} >= {"solid"}
    assert not [need for need in one.needs if not need.presumed]


def test_a_needed_fact_left_out_is_asked_with_how_each_answer_turns_out() -> None:
    one = ruling(tag("arm sleeve"), visitor=GREEN)
    assert one.ruling == "cannot be told"
    first = one.needs[0]
    assert first.fact == "colour"
    assert not first.presumed
    assert first.outcomes["black"] == first.outcomes["green"] == "legal"
    assert "illegal" in first.outcomes.values()


def test_a_headband_of_which_only_the_width_was_noted_is_ruled_by_its_width() -> None:
    assert ruling(tag("headband", width_in=2.5)).ruling == "legal"
    assert ruling(tag("headband", width_in=2.5), day=date(2019, 1, 10)).ruling == "illegal"
    assert ruling(tag("headband", width_in=2.5, solid=True)).ruling == "legal"  # an ordinary fact more changes nothing
    assert ruling(tag("headband")).ruling == "cannot be told"


def test_a_uniform_breach_asks_whether_the_wearer_has_become_a_player() -> None:
    one = ruling(tag("jersey", "home", colour="grey"))
    assert (one.ruling, one.consequence) == ("illegal", "cannot be told")
    assert one.needs[0].fact == "in_play"
    assert one.needs[0].consequences == {"yes": "technical foul", "no": "none"}
    assert ruled(tag("jersey", "home", colour="grey")).penalties == ()


@pytest.mark.parametrize(
    ("when", "consequence"), [("playing", "technical foul"), ("at table", "none"), ("warm-up", "none"), ("pre-game", "none")]
)
def test_when_it_was_found_tells_whether_the_wearer_has_become_a_player(when: str, consequence: str) -> None:
    one = ruling(tag("jersey", "home", colour="grey", when=when))
    assert one.consequence == consequence
    assert {todo.found for todo in one.todo} == ({"live", "dead"} if when == "playing" else {when})


def test_left_the_floor_before_it_was_found_names_both_readings() -> None:
    one = ruling(tag("jersey", "home", colour="grey", in_play=True, left_floor=True))
    assert (one.ruling, one.consequence) == ("illegal", "cannot be told")
    said = next(line for line in one.reasons if line.startswith("disputed: "))
    assert "; or: " in said
    assert ruled(tag("jersey", "home", colour="grey", in_play=True, left_floor=True)).penalties == ()


def test_one_technical_foul_a_team_however_many_wear_it() -> None:
    tags = [tag("jersey", "home", player, f"j{player}", colour="grey", in_play=True) for player in ("3", "4", "5")]
    tags += [tag("number", "home", "7", "n", in_play=True), tag("headband", "home", "3", "h", worn="neck", in_play=True)]
    (penalty,) = ruled(*tags, home={"number_colour": "navy", "jersey": "grey"}).penalties
    assert (penalty.team, penalty.kind, penalty.count, penalty.charged_to) == ("home", "technical foul", 1, "head coach")
    assert (penalty.free_throws, penalty.coaching_box, penalty.players) == (2, "lost", ("3", "4", "5", "7"))


def test_before_2008_one_technical_foul_each() -> None:  # NFHS 2008-09 rule changes
    tags = [tag("jersey", "home", player, player, colour="grey", in_play=True) for player in ("3", "4")]
    tags += [tag("number", "home", "3", "n", number="7", in_play=True)]
    (penalty,) = ruled(*tags, day=BEFORE_2008, home={"number_colour": "navy", "jersey": "grey"}).penalties
    assert penalty.count == 2


def test_every_choice_of_a_team_is_named_the_least_change_first() -> None:
    tags = [tag("arm sleeve", player=player, name=player, colour="green") for player in ("4", "31")]
    tags += [tag("leg sleeve", player="22", name="22", colour="black")]
    rulings = ruled(*tags, visitor=GREEN)
    assert {one.ruling for one in rulings.rulings} == {"illegal"}
    choice = next(one for one in rulings.choices if one.rule == "sleeve-colour")
    assert [(one.keep, one.change) for one in choice.options] == [("green", ("22",)), ("black", ("4", "31"))]


def test_a_colour_that_has_to_go_anyway_is_no_choice() -> None:
    tags = [tag("arm sleeve", player="4", name="4", colour="black"), tag("arm sleeve", player="5", name="5", colour="white")]
    tags += [tag("tights", player="6", name="6", colour="orange")]
    rulings = ruled(*tags, visitor=GREEN)
    choice = next(one for one in rulings.choices if one.rule == "sleeve-colour")
    assert [(one.keep, one.change) for one in choice.options] == [("black", ("5", "6")), ("white", ("4", "6"))]
    alone = ruled(tags[0], tags[2], visitor=GREEN)
    assert [one.ruling for one in alone.rulings] == ["legal", "illegal"]
    assert alone.choices == ()


def test_the_other_teams_colours_do_not_count() -> None:
    rulings = ruled(tag("arm sleeve", "home", name="1", colour="white"), tag("arm sleeve", "visitor", name="2", colour="black"))
    assert [one.ruling for one in rulings.rulings] == ["legal", "legal"]


def test_a_measured_colour_near_the_limit_cannot_be_told_and_is_asked() -> None:
    green = measured((47.0, -45.0, 21.0), ((7.3, 0.0, 0.0), (0.0, 7.3, 0.0), (0.0, 0.0, 13.7)))
    near = Fact("colour", (green,), Origin.MEASURED)
    one = ruling(Tag("a", "visitor", "14", "arm sleeve", {"colour": near}), visitor={"jersey": "dark green"})
    assert one.ruling == "illegal"  # dE00 to dark green is over 25
    jersey = measured((40.0, -38.0, 18.0), ((7.3, 0.0, 0.0), (0.0, 7.3, 0.0), (0.0, 0.0, 13.7)))
    worn = {"jersey": Fact("jersey", (jersey,), Origin.MEASURED)}
    from filmreview.rules.tag import TeamFacts

    rulings = judge(
        [Tag("a", "visitor", "14", "arm sleeve", {"colour": near})],
        {"visitor": TeamFacts(worn)},
        book_named("nfhs"),
        date(2024, 1, 10),
    )
    assert rulings.rulings[0].ruling == "cannot be told"
    assert "colour" in {need.fact for need in rulings.rulings[0].needs if not need.presumed}


def test_a_size_is_decided_with_a_guard_band() -> None:
    """At 3 pixels an inch (0.27 in for two clicks, JCGM 106:2012) a limit of 3 in is sure only well away from it."""
    spread = 0.58 * 2**0.5 / 3
    wide = [Fact("width_in", Amount(width, spread), Origin.MEASURED) for width in (2.0, 3.0, 4.0)]
    got = [ruling(Tag("a", "home", "14", "headband", {"width_in": one})).ruling for one in wide]
    assert got == ["legal", "cannot be told", "illegal"]


def test_ahead_notes_stand_from_publication_to_the_first_day() -> None:
    kit = tag("number", "home", number_style="jersey colour with border", colour="white", border_colours="black")
    notes = {
        day: [(one.rule, one.starts, one.ruling) for one in ruling(kit, day=day, home={"jersey": "white"}).ahead]
        for day in (date(2019, 5, 14), date(2019, 5, 15), date(2024, 6, 30), date(2024, 7, 1))
    }
    note = [("number-style", date(2024, 7, 1), "illegal")]
    assert list(notes.values()) == [[], note, note, []]


def test_an_item_without_text_says_so() -> None:
    one = ruling(tag("arm sleeve", colour="orange"), day=date(2012, 12, 1))
    assert one.ruling == "cannot be told"
    assert "the book here has no text" in one.reasons[0]
    early = ruling(tag("jersey", "home", colour="grey"), day=date(2007, 6, 30))
    assert (early.ruling, early.rule) == ("cannot be told", "")
    assert "before 2007-07-01" in early.reasons[0]


def test_a_season_that_nobody_saw_is_marked_unsure() -> None:
    one = ruling(tag("arm sleeve", colour="black"), day=date(2026, 11, 25))
    assert (one.ruling, one.mark) == ("legal", "unsure")
    assert any("2026-27" in line for line in one.reasons)


def test_a_ruling_from_memory_says_so() -> None:
    one = ruling(tag("number", "home", "7", in_play=True), home={"jersey": "white", "number_colour": "navy"})
    assert (one.ruling, one.mark) == ("illegal", "memory")
    assert any("from memory" in line for line in one.reasons)


def test_facts_used_keep_their_origin() -> None:
    one = ruling(tag("arm sleeve", colour="green"), visitor=GREEN)
    assert {(fact.key, fact.origin.value) for fact in one.facts_used} == {("colour", "seen"), ("jersey", "declared")}


def test_a_changed_tag_is_judged_as_if_all_were_judged_again() -> None:
    tags = [tag("arm sleeve", player=player, name=player, colour="black") for player in ("1", "2", "3")]
    tags += [tag("number", player="0", name="n", in_play=True)]
    judging = Judging.of(tags, {}, book_named("nfhs"), date(2024, 1, 10))
    other = tag("arm sleeve", player="2", name="2", colour="white")
    again = judging.changed(other)
    assert again.rulings == Judging.of([tags[0], other, *tags[2:]], {}, book_named("nfhs"), date(2024, 1, 10)).rulings
    assert [one.ruling for one in judging.rulings.rulings][:3] == ["legal"] * 3  # the old one still stands
    with pytest.raises(FilmReviewError, match="no tag"):
        judging.changed(tag("arm sleeve", name="9"))


def test_two_tags_of_one_id_are_refused() -> None:
    with pytest.raises(FilmReviewError, match="same id"):
        ruled(tag("arm sleeve"), tag("tights"))


def test_what_the_team_declared_is_what_the_others_wear() -> None:
    odd = tag("shorts", player="5", colour="black", in_play=True)
    like = tag("shorts", player="6", name="b", colour="red", in_play=True)
    rulings = ruled(odd, like, visitor={"shorts": "red"})
    assert [one.ruling for one in rulings.rulings] == ["illegal", "legal"]
    (choice,) = rulings.choices
    assert [(one.keep, one.change) for one in choice.options] == [("red", ("5",))]
    assert ruling(odd).ruling == "legal"  # nobody else's is known


def test_a_player_whose_number_could_not_be_read_is_charged_like_any() -> None:
    tags = [tag("jersey", "home", player, player or "x", colour="grey", in_play=True) for player in ("", "3", "4")]
    (penalty,) = ruled(*tags).penalties
    assert (penalty.count, penalty.players) == (1, ("", "3", "4"))
    unread = [tag("arm sleeve", "home", "", "a", colour="black"), tag("arm sleeve", "home", "3", "b", colour="white")]
    choice = next(one for one in ruled(*unread).choices if one.rule == "sleeve-colour")
    assert [one.change for one in choice.options] == [("3",), ("",)]


def test_the_needs_of_a_sure_breach_are_few_and_quick() -> None:
    one = ruling(tag("number", number="7"))
    assert [need.fact for need in one.needs] == ["in_play", "when"]
    known = ruling(tag("number", number="8", in_play=True))
    assert [need.fact for need in known.needs] == ["left_floor"]
