"""The history and the rule reader as a person uses them."""

import pytest
from PyQt6.QtCore import Qt
from pytestqt.qtbot import QtBot

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.history_dialog import COLUMNS, WHAT, HistoryDialog
from filmreview.desktop.history_presenter import HistoryPresenter
from filmreview.desktop.rule_reader import RuleReader
from filmreview.desktop.rule_reader_presenter import RuleReaderPresenter
from filmreview.film.film import Film


@pytest.fixture
def history(qtbot: QtBot, desk: Desk, film: Film) -> HistoryDialog:
    card = CardPresenter(desk)
    for number, line in ((10, "v14 tights black"), (20, "v22 tights black"), (30, "h3 tights white")):
        card.open_new(film.frame(number))
        card.type(line)
        card.keep()

    def by(steps: int, then: object) -> None:
        for _ in range(abs(steps)):
            desk.store.undo() if steps < 0 else desk.store.redo()
        then(abs(steps))

    made = HistoryDialog(HistoryPresenter(desk, by))
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    return made


@pytest.fixture
def reader(qtbot: QtBot, desk: Desk) -> RuleReader:
    presenter = RuleReaderPresenter(desk)
    presenter.read("sleeve-colour")
    made = RuleReader(presenter)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    return made


def test_enter_goes_back_to_the_step_chosen_and_forward_again(qtbot: QtBot, history: HistoryDialog, desk: Desk) -> None:
    model = history.table.model()
    assert model.rowCount() == 5
    assert history.table.currentIndex().row() == 0
    assert not history.go.isEnabled()
    for _ in range(2):
        qtbot.keyClick(history.table, Qt.Key.Key_Down)
    assert history.go.text() == "Undo 2 steps, back to this one"
    qtbot.keyClick(history.table, Qt.Key.Key_Return)
    assert [tag.player for tag in desk.review.tags] == ["14"]
    assert history.table.currentIndex().row() == 2  # the step chosen stays chosen
    assert "the review stands here" in history._told.text()
    qtbot.keyClick(history.table, Qt.Key.Key_Home, Qt.KeyboardModifier.ControlModifier)
    assert history.go.text() == "Redo 2 steps, up to this one"
    qtbot.mouseClick(history.go, Qt.MouseButton.LeftButton)
    assert [tag.player for tag in desk.review.tags] == ["14", "22", "3"]


def test_steps_are_looked_for_and_tell_a_screen_reader(qtbot: QtBot, history: HistoryDialog) -> None:
    qtbot.keyClicks(history.look_for, "22, tights")
    model = history.table.model()
    assert model.rowCount() == 1
    assert "visitor 22, tights" in model.index(0, WHAT).data()
    for column, words in enumerate(COLUMNS):
        assert model.index(0, column).data(Qt.ItemDataRole.AccessibleTextRole).startswith(words)


def test_the_rule_stands_beside_what_changed(reader: RuleReader) -> None:
    assert reader.rules.currentItem().text() == "Sleeves and tights: colour"
    assert "predominant colour of the jersey" in reader.now.toPlainText()
    assert "predominant colour of the uniform" in reader.changes.toPlainText()
    assert "study aid" in reader.now.toPlainText()


def test_rules_are_looked_for_by_typing(qtbot: QtBot, reader: RuleReader) -> None:
    every = reader.rules.count()
    qtbot.keyClicks(reader.look_for, "jewelry")
    assert 0 < reader.rules.count() < every
    assert "Jewelry" in reader.now.toPlainText()
    qtbot.keyClicks(reader.look_for, " polka")
    assert reader.rules.count() == 0
    assert reader.now.toPlainText() == "Choose a rule on the left."
    reader.look_for.clear()
    assert reader.rules.count() == every
    reader.rules.setFocus()
    reader.rules.setCurrentRow(0)
    first = reader.now.toPlainText()
    qtbot.keyClick(reader.rules, Qt.Key.Key_Down)
    assert reader.now.toPlainText() != first


def test_another_rule_asked_for_is_shown_in_the_open_reader(qtbot: QtBot, reader: RuleReader) -> None:
    qtbot.keyClicks(reader.look_for, "jewelry")
    reader._presenter.read("band-colour")
    assert reader.look_for.text() == ""
    assert "Headband and wristband: colour" in reader.now.toPlainText()
    reader._presenter.look_for("head covering")
    assert reader.look_for.text() == "head covering"
    assert 0 < reader.rules.count() < 10


def test_enter_in_the_line_goes_on_to_what_was_found(qtbot: QtBot, history: HistoryDialog, reader: RuleReader) -> None:
    for dialog, found in ((history, history.table), (reader, reader.rules)):
        dialog.look_for.setFocus()
        qtbot.keyClick(dialog.look_for, Qt.Key.Key_Return)
        assert dialog.isVisible()
        assert dialog.focusWidget() is found
