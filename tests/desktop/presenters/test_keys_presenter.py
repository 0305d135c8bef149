"""Which key does what, without a screen."""

from collections.abc import Mapping

import pytest

from filmreview.desktop.keys_presenter import ANYWHERE, ON_FILM, Given, KeyDeed, KeyRow, KeysPresenter, types_something

DEEDS = (
    KeyDeed("play", "Film", "Play or pause", Given(("F6",), ("Space",))),
    KeyDeed("back", "Film", "One frame back", Given(("F7",), ("Left",))),
    KeyDeed("sheet", "Review", "Make the findings sheet", Given(("Ctrl+Shift+S",))),
    KeyDeed("close", "Review", "Close the review", Given()),
)
TAKEN = {ANYWHERE: {"Esc": "drops what was written", "Left": "moves"}, ON_FILM: {"Esc": "drops what was written"}}


class Kept:
    def __init__(self) -> None:
        self.own: Mapping[str, Given] = {}
        self.times = 0

    def __call__(self, own: Mapping[str, Given]) -> None:
        self.own, self.times = own, self.times + 1


@pytest.fixture
def kept() -> Kept:
    return Kept()


@pytest.fixture
def keys(kept: Kept) -> KeysPresenter:
    return KeysPresenter(DEEDS, [KeyRow("Picture", "drag", "draw a region")], TAKEN, {}, kept)


def test_every_deed_and_every_line_about_the_mouse_is_listed(keys: KeysPresenter) -> None:
    assert [(row.keys, row.words) for row in keys.rows()] == [
        ("F6, or Space on the picture", "Play or pause"),
        ("F7, or Left on the picture", "One frame back"),
        ("Ctrl+Shift+S", "Make the findings sheet"),
        ("", "Close the review"),
        ("drag", "draw a region"),
    ]


@pytest.mark.parametrize(("typed", "found"), [("SHEET", ["sheet"]), ("film f7", ["back"]), ("left", ["back"]), ("nothing", [])])
def test_typing_finds_deeds_and_keys(keys: KeysPresenter, typed: str, found: list[str]) -> None:
    assert [row.name for row in keys.rows(typed)] == found


def test_a_new_key_replaces_the_old_ones_of_its_place_and_is_kept(keys: KeysPresenter, kept: Kept) -> None:
    told = []
    keys.events.on("keys", lambda: told.append(keys.given("play")))
    assert keys.give("play", "Ctrl+P", ANYWHERE) == ""
    assert keys.given("play") == Given(("Ctrl+P",), ("Space",))
    assert kept.own == {"play": Given(("Ctrl+P",), ("Space",))}
    assert told == [Given(("Ctrl+P",), ("Space",))]
    assert [row.changed for row in keys.rows()] == [True, False, False, False, False]


@pytest.mark.parametrize(
    ("key", "scope", "words"),
    [
        ("F7", ANYWHERE, "F7 is taken already, for: One frame back"),
        ("F7", ON_FILM, "F7 is taken already, for: One frame back"),
        ("Left", ON_FILM, "Left is taken already, for: One frame back"),
        ("Esc", ON_FILM, "Esc is taken already: drops what was written"),
        ("P", ANYWHERE, "P alone types something: take it with Ctrl or Alt, or only on the picture and the film strip"),
        ("", ANYWHERE, "press the new key first"),
    ],
)
def test_a_key_that_is_not_free_is_refused_by_name(keys: KeysPresenter, kept: Kept, key: str, scope: str, words: str) -> None:
    assert keys.give("play", key, scope) == words
    assert keys.given("play") == DEEDS[0].first
    assert kept.times == 0


def test_its_own_key_may_change_its_place(keys: KeysPresenter) -> None:
    assert keys.give("play", "Space", ON_FILM) == ""
    assert keys.give("play", "F6", ON_FILM) == ""
    assert keys.give("play", "P", ON_FILM) == ""


def test_a_key_given_away_is_free_for_another(keys: KeysPresenter) -> None:
    keys.take_away("back", ON_FILM)
    assert keys.give("play", "Left", ON_FILM) == ""
    assert keys.reset("back") == "Left is now for: Play or pause; change that one first"
    assert keys.reset("play") == ""
    assert keys.reset("back") == ""
    assert not keys.changed


def test_all_as_at_first(keys: KeysPresenter, kept: Kept) -> None:
    keys.take_away("play", ANYWHERE)
    keys.give("sheet", "F6", ANYWHERE)
    keys.reset_all()
    assert [keys.given(deed.name) for deed in DEEDS] == [deed.first for deed in DEEDS]
    assert kept.own == {}


def test_a_key_set_back_by_hand_is_no_change(keys: KeysPresenter, kept: Kept) -> None:
    keys.give("sheet", "F5", ANYWHERE)
    keys.give("sheet", "Ctrl+Shift+S", ANYWHERE)
    assert kept.own == {}
    assert not keys.changed


def test_a_settings_file_cannot_give_one_key_twice(kept: Kept) -> None:
    """By hand F7 was written beside two deeds, one of them another's at first, and a deed that is no more."""
    own = {"play": Given(("F7",), ("Space",)), "sheet": Given(("F7", "F3")), "gone": Given(("F2",))}
    keys = KeysPresenter(DEEDS, (), TAKEN, own, kept)
    assert [keys.given(name).anywhere for name in ("play", "back", "sheet")] == [("F7",), (), ("F3",)]


def test_what_types_something() -> None:
    assert [types_something(key) for key in ("A", "Shift+A", "5", "+", "Space", "Ctrl+A", "F5", "Ins", "Alt++")] == [
        True, True, True, True, True, False, False, False, False,
    ]  # fmt: skip
