"""What does not fit scrolls, and what takes the keys is brought into sight."""

import pytest
from PyQt6.QtCore import QRect, QSize, Qt
from PyQt6.QtWidgets import QDialog, QLineEdit, QMainWindow, QMessageBox, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop import roomy
from filmreview.desktop.roomy import FitDialogs, Roomy, fit
from filmreview.desktop.setup_throwing import ask_to_throw_away


def tall(parent: QWidget, count: int = 30) -> list[QLineEdit]:
    """Lines one below another."""
    layout = QVBoxLayout(parent)
    lines = [QLineEdit(f"line {number}") for number in range(count)]
    for line in lines:
        layout.addWidget(line)
    return lines


def seen(widget: QWidget, top: QWidget) -> bool:
    """Whether all of a widget is in sight."""
    return widget.visibleRegion().boundingRect() == QRect(0, 0, widget.width(), widget.height()) and top.isVisible()


def test_a_page_with_room_has_no_bars(qtbot: QtBot) -> None:
    inside = QWidget()
    tall(inside, 3)
    page = Roomy(inside)
    qtbot.addWidget(page)
    page.resize(400, 400)
    page.show()
    qtbot.waitExposed(page)
    assert not page.verticalScrollBar().isVisible()
    assert inside.size() == page.viewport().size()


def test_a_page_without_room_scrolls_to_what_takes_the_keys(qtbot: QtBot) -> None:
    inside = QWidget()
    lines = tall(inside)
    page = Roomy(inside)
    qtbot.addWidget(page)
    page.resize(300, 200)
    page.show()
    qtbot.waitExposed(page)
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    assert page.minimumSizeHint().height() <= 200
    for line in (lines[-1], lines[0], lines[15]):
        line.setFocus(Qt.FocusReason.TabFocusReason)
        qtbot.waitUntil(lambda line=line: seen(line, page))


def test_a_dialog_larger_than_the_screen_is_made_to_fit(qtbot: QtBot) -> None:
    dialog = QDialog()
    qtbot.addWidget(dialog)
    lines = tall(dialog)
    dialog.setMinimumSize(900, 700)
    fit(dialog, QSize(600, 300))
    dialog.show()
    qtbot.waitExposed(dialog)
    assert (dialog.width(), dialog.height()) <= (600, 300)
    (page,) = dialog.findChildren(Roomy)
    assert page.widget().isAncestorOf(lines[0])
    assert page.widget().minimumSize() == QSize(900, 700)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    lines[-1].setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(lambda: page.verticalScrollBar().value() > 0)


def test_a_dialog_that_fits_is_left_alone(qtbot: QtBot) -> None:
    dialog = QDialog()
    qtbot.addWidget(dialog)
    tall(dialog, 3)
    layout = dialog.layout()
    fit(dialog, QSize(600, 300))
    assert dialog.layout() is layout


def test_every_dialog_of_a_window_is_looked_at_before_it_is_shown(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    FitDialogs(window)
    outer = QDialog(window)
    tall(outer, 60)
    inner = QDialog(outer)
    tall(inner, 60)
    button = QPushButton("inner")
    inner.layout().addWidget(button)
    window.show()
    for dialog in (outer, inner):
        dialog.open()
        qtbot.waitExposed(dialog)
        assert dialog.findChildren(Roomy)
        assert dialog.height() <= dialog.screen().availableGeometry().height()
    inner.close()
    outer.close()


def test_a_long_question_is_not_wider_than_a_small_screen(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(roomy, "room_on", lambda _window: QSize(675, 348))  # 1366 x 768 at 200 %, without the frame
    window = QMainWindow()
    qtbot.addWidget(window)
    FitDialogs(window)
    window.show()
    ask_to_throw_away(window, "Throw away your own call on a player of a school with a long name? " * 3, "Go on with it", bool)
    (box,) = window.findChildren(QMessageBox)
    assert box.findChildren(Roomy) == [], "it wraps, so nothing scrolls"
    assert box.width() <= 675
    box.done(0)
