"""The score of the own calls on a page of its own: the whole, by rule and by item."""

from __future__ import annotations

from collections.abc import Mapping

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import (
    QDialog,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from filmreview.cautions import STUDY_AID
from filmreview.desktop.dialog_parts import close_button, sized
from filmreview.desktop.plain_table import set_up_fitted
from filmreview.desktop.small_widgets import heading, wrapped
from filmreview.review.own_calls import OUTCOMES, Score, Tally

STAYS = "The score and your calls stay in the review: no sheet carries them."


class ScoreDialog(QDialog):
    """Shows a score; nothing can be changed here."""

    def __init__(self, score: Score, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Score of your own calls")
        self.rules = _table("by rule", score.by_rule)
        self.items = _table("by item", score.by_item)
        left = len(score.waiting)
        words = score.words[:1].upper() + score.words[1:]
        words += f"; {left} without your call" if left else ""
        buttons = close_button()
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(heading(words[:1].upper() + words[1:]))
        for table, title in ((self.rules, "By rule"), (self.items, "By item")):
            layout.addWidget(heading(title))
            layout.addWidget(table, 1)
        layout.addWidget(wrapped(f"{STAYS} {STUDY_AID}"))
        layout.addWidget(buttons)
        sized(self, 110, 30)


def _table(name: str, tallies: Mapping[str, Tally]) -> QTableWidget:
    table = QTableWidget(len(tallies), 1 + len(OUTCOMES))
    table.setAccessibleName(f"score {name}")
    table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
    head = set_up_fitted(table, (name[3:].capitalize(), *(word.capitalize() for word in OUTCOMES)), 0)
    head.setDefaultAlignment(Qt.AlignmentFlag.AlignCenter)
    for number, (what, tally) in enumerate(tallies.items()):
        texts = (what, *(str(many) for many in (tally.agreed, tally.consequence, tally.differed, tally.open)))
        for column, text in enumerate(texts):
            cell = QTableWidgetItem(text)
            if column:
                cell.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            table.setItem(number, column, cell)
    return table
