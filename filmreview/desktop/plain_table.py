"""A table of the desk that is read and walked row by row, not edited."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QHeaderView, QTableWidget


def set_up_plain(
    table: QTableWidget, head_words: Sequence[str], letters: Mapping[int, int], stretched: Collection[int], beside: int = 0
) -> None:
    """Rows chosen whole, one at a time; Tab leaves the table. letters: the width of a column in letters, with `beside` pixels
    more; stretched: the columns that share what is left."""
    table.setHorizontalHeaderLabels(list(head_words))
    table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
    table.setSelectionBehavior(QTableWidget.SelectionBehavior.SelectRows)
    table.setSelectionMode(QTableWidget.SelectionMode.SingleSelection)
    table.setTabKeyNavigation(False)
    table.setAlternatingRowColors(True)
    table.setShowGrid(False)
    table.setWordWrap(False)
    rows_at_left, head = table.verticalHeader(), table.horizontalHeader()
    assert rows_at_left is not None, "a table has headers"
    assert head is not None, "a table has headers"
    rows_at_left.hide()
    rows_at_left.setDefaultSectionSize(table.fontMetrics().height() + 8)
    head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
    head.setHighlightSections(False)
    head.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
    for column in stretched:
        head.setSectionResizeMode(column, QHeaderView.ResizeMode.Stretch)
    letter = table.fontMetrics().averageCharWidth()
    for column, many in letters.items():
        table.setColumnWidth(column, many * letter + beside)
