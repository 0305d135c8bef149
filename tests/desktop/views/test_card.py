"""The card as a person uses it: keys and mouse on the real widgets."""

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QApplication, QLabel, QToolButton
from pytestqt.qtbot import QtBot

from filmreview.cautions import SAFETY, STUDY_AID, caution_for
from filmreview.desktop.card import Card
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.ruling_words import question_words
from filmreview.desktop.small_widgets import Choice
from filmreview.facts.fact import Fact, Origin, Value
from filmreview.facts.keys import KEYS, Key, Kind, parse_value
from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.review.line import parse_line
from filmreview.review.model import CREW_MARKS
from filmreview.rules.ruling import Need
from tests.desktop.walk import cut_off

REGION = Box(20, 60, 30, 24)


@pytest.fixture
def presenter(desk: Desk) -> CardPresenter:
    return CardPresenter(desk)


@pytest.fixture
def card(qtbot: QtBot, presenter: CardPresenter, desk: Desk) -> Card:
    made = Card(presenter, desk)
    qtbot.addWidget(made)
    made.resize(420, 700)
    made.show()
    qtbot.waitExposed(made)
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


@pytest.fixture
def opened(card: Card, presenter: CardPresenter, film: Film) -> Card:
    """The card on a new tag without a region, its line ready to type."""
    presenter.open_new(film.frame(30))
    card.take_keys()
    return card


def button(card: Card, name: str) -> QToolButton:
    found = [one for one in card.findChildren(QToolButton) if one.accessibleName() == name and one.isVisibleTo(card)]
    assert len(found) == 1, [one.accessibleName() for one in card.findChildren(QToolButton)]
    return found[0]


def test_type_and_enter_keeps_the_tag(qtbot: QtBot, opened: Card, desk: Desk) -> None:
    qtbot.keyClicks(opened.line.line, "v14 ar or")
    assert opened.ruling.word.text() == "Illegal"
    qtbot.keyClick(opened.line.line, Qt.Key.Key_Return)
    (tag,) = desk.review.tags
    assert (tag.team, tag.player, tag.item) == ("visitor", "14", "arm sleeve")


def test_escape_drops_it(qtbot: QtBot, opened: Card, desk: Desk, presenter: CardPresenter) -> None:
    qtbot.keyClicks(opened.line.line, "v14 ar or")
    with qtbot.waitSignal(opened.closed):
        qtbot.keyClick(opened.line.line, Qt.Key.Key_Escape)
    assert presenter.draft is None
    assert desk.review.tags == ()


def test_tab_completes_and_then_goes_on(qtbot: QtBot, opened: Card) -> None:
    qtbot.keyClicks(opened.line.line, "v14 arm sl")
    qtbot.keyClick(opened.line.line, Qt.Key.Key_Tab)
    assert opened.line.line.text() == "v14 arm sleeve "
    qtbot.keyClick(opened.line.line, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is opened.parts.team


def test_what_else_a_word_could_become_is_told_with_or(qtbot: QtBot, opened: Card, presenter: CardPresenter) -> None:
    qtbot.keyClicks(opened.line.line, "v14 number s")
    first, *more = (line.split()[-1] for line in presenter.completions())
    assert more
    (told,) = [one.text() for one in opened.line.findChildren(QLabel) if one.text().startswith("Tab writes")]
    assert told == f"Tab writes: {first}   or: {', '.join(more[:3])}"


def test_the_widgets_show_what_was_typed_and_write_what_is_chosen(qtbot: QtBot, opened: Card) -> None:
    qtbot.keyClicks(opened.line.line, "v14 arm sleeve orange crew late")
    shown = (opened.parts.team, opened.parts.player, opened.parts.item, opened.parts.by_eye, opened.crew.mark)
    assert [box.currentText() for box in shown] == ["visitor", "14", "arm sleeve", "orange", "late"]
    opened.parts.item.setFocus()
    qtbot.keyClicks(opened.parts.item, "tights")
    opened.parts.item.activated.emit(opened.parts.item.currentIndex())
    assert opened.line.line.text() == "v14 tights orange crew late"


def test_a_question_is_asked_and_its_answer_decides(qtbot: QtBot, opened: Card, presenter: CardPresenter) -> None:
    qtbot.keyClicks(opened.line.line, "v14 arm sleeve black")
    assert opened.ruling.word.text() == "Legal"
    turning = [
        (need.fact, answer)
        for need in presenter.ruling.needs
        for answer, ruling in need.outcomes.items()
        if ruling == "illegal" and KEYS[need.fact].kind is Kind.YES_NO
    ]
    fact, answer = turning[0]
    qtbot.mouseClick(button(opened, f"{question_words(fact)} {answer}"), Qt.MouseButton.LeftButton)
    assert opened.ruling.word.text() == "Illegal"
    (told,) = [one for one in parse_line(opened.line.line.text()).facts if one.key == fact]
    assert told.value == (answer == "yes")


@pytest.mark.parametrize("key", [key for key in KEYS.values() if key.kind is Kind.AMOUNT], ids=lambda key: key.name)
def test_the_example_of_an_amount_is_one_that_can_be_typed(opened: Card, key: Key) -> None:
    (line,) = opened.questions._answers(key, Need(key.name, "", {}, {}, False))
    amount = parse_value(key.name, line.placeholderText())
    counted = float(amount.value).is_integer() and not amount.plus_minus
    assert counted == (key.unit == "pieces"), "pieces are counted, lengths and areas are not"


def test_what_is_missing_is_said_and_enter_does_not_keep(qtbot: QtBot, opened: Card, desk: Desk) -> None:
    qtbot.keyClicks(opened.line.line, "v14 ornge")
    qtbot.keyClick(opened.line.line, Qt.Key.Key_Return)
    assert desk.review.tags == ()
    assert "ornge" in desk.last_message
    assert opened.ruling.word.text() == "No ruling yet"


def test_the_caution_fits_the_item(qtbot: QtBot, opened: Card) -> None:
    def words() -> str:
        return " ".join(label.text() for label in opened.ruling.findChildren(type(opened.ruling.word)) if label.isVisible())

    qtbot.keyClicks(opened.line.line, "v14 arm sleeve black")
    assert STUDY_AID in words()
    opened.line.line.clear()
    qtbot.keyClicks(opened.line.line, "v14 guard or cast hard")
    assert f"{SAFETY} {STUDY_AID}" in words(), "the safety words do not stand in place of the study aid"
    opened.line.line.clear()
    qtbot.keyClicks(opened.line.line, "v14 arm sleeve black blood some")
    assert f"{SAFETY} {STUDY_AID}" in words(), "the safety words do not stand in place of the study aid"


@pytest.mark.parametrize(
    ("item", "facts", "caution"),
    [
        ("eyewear", {}, f"{SAFETY} {STUDY_AID}"),
        ("jersey", {"blood": "some"}, f"{SAFETY} {STUDY_AID}"),
        ("jersey", {"blood": "excessive"}, f"{SAFETY} {STUDY_AID}"),
        ("jersey", {"blood": "none"}, STUDY_AID),
        ("headband", {"hazard": True}, f"{SAFETY} {STUDY_AID}"),
        ("headband", {"hazard": False, "hard": False}, STUDY_AID),
        (None, {"hard": True}, f"{SAFETY} {STUDY_AID}"),
    ],
)
def test_blood_and_hazards_are_a_safety_matter_on_any_item(item: str | None, facts: dict[str, Value], caution: str) -> None:
    assert caution_for(item, [Fact(key, value, Origin.SEEN) for key, value in facts.items()]) == caution


def test_a_region_is_measured_and_shown(card: Card, presenter: CardPresenter, film: Film) -> None:
    presenter.open_new(film.frame(30), REGION)
    words = [label.text() for label in card.parts.findChildren(type(card.ruling.word))]
    assert any(text.startswith(("measured:", "the film does not tell")) for text in words)


def test_crew_and_note_by_widget(qtbot: QtBot, opened: Card, desk: Desk) -> None:
    qtbot.keyClicks(opened.line.line, "v14 arm sleeve orange")
    assert not opened.crew.did.isEnabled()
    opened.crew.mark.setCurrentText("late")
    opened.crew.mark.activated.emit(opened.crew.mark.currentIndex())
    qtbot.keyClicks(opened.crew.did, "sent out in the third")
    qtbot.keyClicks(opened.crew.note, "clear view")
    qtbot.keyClick(opened.crew.note, Qt.Key.Key_Return)
    (tag,) = desk.review.tags
    assert (tag.crew.mark, tag.crew.did, tag.note) == ("late", "sent out in the third", "clear view")


def test_closed_it_says_how_to_begin(card: Card, presenter: CardPresenter, film: Film) -> None:
    assert not card.keep.isVisible()
    presenter.open_new(film.frame(30))
    assert card.keep.isVisible()


def test_enter_on_a_button_presses_that_button(qtbot: QtBot, opened: Card, desk: Desk, presenter: CardPresenter) -> None:
    qtbot.keyClicks(opened.line.line, "v14 arm sleeve orange")
    opened.drop.setFocus()
    qtbot.keyClick(opened.drop, Qt.Key.Key_Return)
    assert presenter.draft is None
    assert desk.review.tags == ()


def test_enter_on_an_answer_answers_and_does_not_keep_yet(qtbot: QtBot, opened: Card, presenter: CardPresenter) -> None:
    qtbot.keyClicks(opened.line.line, "v14 arm sleeve black")
    yes_no = [one for one in opened.questions.findChildren(QToolButton) if one.isVisible()]
    yes_no[0].setFocus()
    qtbot.keyClick(yes_no[0], Qt.Key.Key_Return)
    assert presenter.draft is not None
    assert len(presenter.draft.understood.facts) == 2  # the colour typed, and the answer


def test_tab_follows_the_work(qtbot: QtBot, opened: Card) -> None:
    qtbot.keyClicks(opened.line.line, "v14 arm sleeve black crew late")
    asked = opened.questions.controls()
    assert asked
    crew = opened.crew
    wanted = [opened.parts.team, opened.parts.player, opened.parts.item, opened.parts.by_eye, *asked]
    wanted += [crew.mark, crew.here, crew.did, crew.note, opened.keep, opened.drop]
    came = []
    for _ in wanted:
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        came.append(QApplication.focusWidget())
    assert [one.accessibleName() for one in came] == [one.accessibleName() for one in wanted]


def test_when_the_crew_acted(qtbot: QtBot, opened: Card, desk: Desk, presenter: CardPresenter, film: Film) -> None:
    qtbot.keyClicks(opened.line.line, "v14 arm sleeve orange")
    assert not opened.crew.here.isEnabled()
    qtbot.keyClicks(opened.line.line, " crew late")
    with qtbot.waitSignal(opened.here_wanted):
        qtbot.mouseClick(opened.crew.here, Qt.MouseButton.LeftButton)
    presenter.set_crew_moment("f1", film.moment_of(60))
    assert opened.crew.here.text() == "at 0:02.002"  # 60 frames of 30000/1001 a second
    presenter.keep()
    assert desk.review.tags[0].crew.moment == film.moment_of(60)


@pytest.mark.parametrize(
    "line", ["v14 arm sleeve orange", 'v14 arm sleeve orange "seen late"', "v14 headband black 2.5 in wide forehead"]
)
def test_choosing_a_crew_mark_moves_nothing(qtbot: QtBot, card: Card, presenter: CardPresenter, film: Film, line: str) -> None:
    card.resize(412, 700)  # its width beside the picture on a small screen
    presenter.open_new(film.frame(30), REGION)
    qtbot.keyClicks(card.line.line, line)
    qtbot.wait(20)
    place = card.crew.mark.mapTo(card, card.crew.mark.rect().topLeft())
    for mark in (*CREW_MARKS, "not marked"):
        card.crew.mark.setCurrentText(mark)
        card.crew.mark.activated.emit(card.crew.mark.currentIndex())
        qtbot.wait(20)
        assert card.crew.mark.mapTo(card, card.crew.mark.rect().topLeft()) == place


def test_a_kept_tag_is_read_back_in_words(opened: Card, presenter: CardPresenter, desk: Desk) -> None:
    presenter.type("v14 jersey red in_play=yes when=playing")
    presenter.keep()
    presenter.open_tag(desk.review.tags[0].id)
    words = [one.text() for one in opened.line.findChildren(QLabel) if one.isVisibleTo(opened)]
    assert any("has become a player wearing it, found playing" in one for one in words)


@pytest.mark.parametrize("typed", ["h12 number navy", "h12 number number=12 number style jersey colour with border"])
def test_no_question_is_wider_than_a_narrow_card(qtbot: QtBot, opened: Card, typed: str) -> None:
    opened.resize(opened.fontMetrics().averageCharWidth() * 44, 700)  # as narrow as the window makes it
    qtbot.keyClicks(opened.line.line, typed + " ")
    assert opened.questions.controls()
    qtbot.waitUntil(lambda: cut_off(opened) == [])


def test_long_answers_are_a_list_and_short_ones_are_buttons(opened: Card) -> None:
    needs = [Need(name, "", {}, {}, presumed=False) for name in ("number_style", "lettering", "ball")]
    asked = [opened.questions._answers(KEYS[need.fact], need) for need in needs]
    assert [[type(widget) for widget in one] for one in asked] == [[Choice], [Choice], [QToolButton, QToolButton]]
