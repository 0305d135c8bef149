"""The rule reader: a rule as it stands on the game's day, and beside it what changed before and after, and by adoption."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from PyQt6.QtCore import Qt
from PyQt6.QtGui import QShowEvent
from PyQt6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QSplitter,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.rule_reader_presenter import RuleReaderPresenter, Said
from filmreview.desktop.small_widgets import heading, wrapped

_CODE = int(Qt.ItemDataRole.UserRole)
NOTHING = "Choose a rule on the left."


class RuleReader(QDialog):
    """Beside the window; it stays open and follows what is asked for."""

    def __init__(self, presenter: RuleReaderPresenter, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Rule reader")
        self._presenter = presenter
        self._head = wrapped(name="which book is read")
        self.look_for = QLineEdit()
        self.look_for.setPlaceholderText("Look for: sleeve, 3-5-3 ...")
        self.look_for.setAccessibleName("look for rules")
        self.look_for.setClearButtonEnabled(True)
        self.rules = QListWidget()
        self.rules.setAccessibleName("rules of the book")
        self.rules.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.now = _page("the rule on the game's day")
        self.changes = _page("what changed: earlier and later editions, the adoption")
        self._lay_out()
        self.look_for.textChanged.connect(lambda _text: self._fill())
        self.look_for.returnPressed.connect(self.rules.setFocus)
        self.rules.currentItemChanged.connect(self._chosen)
        presenter.events.on("rules", self._rules_changed)
        presenter.events.on("rule", self._rule_wanted)

    def showEvent(self, event: QShowEvent | None) -> None:
        """Fill it, and keep it on the screen."""
        super().showEvent(event)
        self._rules_changed()
        screen = self.screen()
        if screen is not None:
            self.resize(self.size().boundedTo(screen.availableGeometry().size()))

    def _lay_out(self) -> None:
        left, middle, right = QWidget(), QWidget(), QWidget()
        for side, parts in (
            (left, (self.look_for, self.rules)),
            (middle, (heading("On the game's day"), self.now)),
            (right, (heading("What changed"), self.changes)),
        ):
            layout = QVBoxLayout(side)
            layout.setContentsMargins(0, 0, 0, 0)
            for part in parts:
                layout.addWidget(part)
        sides = QSplitter(Qt.Orientation.Horizontal)
        for side in (left, middle, right):
            sides.addWidget(side)
        letter = self.fontMetrics().averageCharWidth()
        sides.setSizes([letter * 40, letter * 54, letter * 54])
        sides.setChildrenCollapsible(False)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close = buttons.button(QDialogButtonBox.StandardButton.Close)
        assert close is not None, "it was asked for"
        close.setAutoDefault(False)  # Enter in the line looks for words, it does not close
        buttons.rejected.connect(self.reject)
        below = QHBoxLayout()
        below.addWidget(self._head, 1)
        below.addWidget(buttons)
        layout = QVBoxLayout(self)
        layout.addWidget(sides, 1)
        layout.addLayout(below)
        self.resize(letter * 150, self.fontMetrics().height() * 30)

    def _rules_changed(self) -> None:
        self._head.setText(self._presenter.head())
        self._rule_wanted()

    def _rule_wanted(self) -> None:
        """Another rule is asked for: a search that would leave it out is dropped."""
        if self._presenter.wanted != self.look_for.text():
            self.look_for.setText(self._presenter.wanted)
        self._fill()

    def _fill(self) -> None:
        self.rules.blockSignals(True)
        self.rules.clear()
        for code, title in self._presenter.rules(self.look_for.text()):
            item = QListWidgetItem(title)
            item.setData(_CODE, code)
            item.setToolTip(title)
            self.rules.addItem(item)
            if code == self._presenter.code:
                self.rules.setCurrentItem(item)
        if self.rules.currentItem() is None and self.look_for.text():
            self.rules.setCurrentRow(0)
        self.rules.blockSignals(False)
        chosen = self.rules.currentItem()
        if chosen is not None:
            self.rules.scrollToItem(chosen, QAbstractItemView.ScrollHint.PositionAtCenter)
        self._chosen()

    def _chosen(self, *_items: object) -> None:
        item = self.rules.currentItem()
        if item is not None:
            self._presenter.code = item.data(_CODE)
        text = self._presenter.text() if item is not None else None
        self.now.setHtml(_html(text.title, text.now) if text else f"<p>{NOTHING}</p>")
        self.changes.setHtml(_html("", text.changes) if text else "")


def _page(name: str) -> QTextBrowser:
    page = QTextBrowser()
    page.setAccessibleName(name)
    page.setOpenLinks(False)
    page.setTabChangesFocus(True)
    return page


def _html(title: str, parts: Sequence[Said]) -> str:
    """Plain headings and paragraphs; nothing of the words is taken as markup."""
    said = [f"<h3>{escape(title)}</h3>"] if title else []
    for part in parts:
        said += [f"<p><b>{escape(part.head)}</b></p>"] if part.head else []
        said += [f"<p>{escape(part.words)}</p>"] if part.words else []
    return "".join(said)
