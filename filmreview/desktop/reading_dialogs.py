"""The two dialogs that are read beside the window: the history of the review, and the rules of its book."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PyQt6.QtWidgets import QDialog, QWidget

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.history_dialog import HistoryDialog
from filmreview.desktop.history_presenter import HistoryPresenter
from filmreview.desktop.ledger import Ledger
from filmreview.desktop.rule_reader import RuleReader
from filmreview.desktop.rule_reader_presenter import RuleReaderPresenter
from filmreview.desktop.undo import Undo


class ReadingDialogs:
    """Each is made when it is first asked for, and once."""

    def __init__(
        self, desk: Desk, undo: Undo, card: CardPresenter, ledger: Ledger, window: QWidget, login: Callable[[], str]
    ) -> None:
        """login: gives the name that stands in for an observer who is not named."""
        self._desk, self._card, self._ledger, self._window = desk, card, ledger, window
        self.history_presenter = HistoryPresenter(desk, undo.by, login)
        self.rules_presenter = RuleReaderPresenter(desk)
        self.history: HistoryDialog | None = None
        self.rules: RuleReader | None = None

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """What happens for the deeds of `actions.DEEDS` that belong here."""
        return {"history": self._show_history, "rule": self._show_rule}

    def close(self) -> None:
        """The window closes."""
        for dialog in (self.history, self.rules):
            if dialog is not None:
                dialog.close()

    def _show_history(self) -> None:
        if self.history is None:
            self.history = HistoryDialog(self.history_presenter, self._window)
        _bring(self.history, self.history.table)

    def _show_rule(self) -> None:
        """The rule that decided the tag on the card, else the tag chosen in the ledger, else those about the item."""
        rule, item = self._meant()
        if rule:
            self.rules_presenter.read(rule)
        elif item or not self.rules_presenter.code:
            self.rules_presenter.look_for(item)
        if self.rules is None:
            self.rules = RuleReader(self.rules_presenter, self._window)
        _bring(self.rules, self.rules.rules)

    def _meant(self) -> tuple[str, str]:
        """A rule's code and an item, "" where there is none."""
        draft = self._card.draft
        if draft is not None:
            return (self._card.ruling.rule if self._card.ruling else "", draft.understood.item or "")
        chosen, found = self._ledger.chosen(), self._desk.findings
        tags = {one.tag.id: one for one in found} if found is not None else {}
        if not chosen or chosen[0] not in tags:
            return "", ""
        one = tags[chosen[0]]
        return one.ruling.rule, one.tag.item


def _bring(dialog: QDialog, focus: QWidget) -> None:
    dialog.show()
    dialog.raise_()
    dialog.activateWindow()
    focus.setFocus()
