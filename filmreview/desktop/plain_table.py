"""Tables of the desk that are read and walked row by row."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QHeaderView, QTableView, QTableWidget, QTableWidgetItem


def read_only(table: QTableView, between: int) -> QHeaderView:
    """Rows chosen whole, nothing edited, Tab leaves the table. between: pixels a row is higher than its letters."""
    table.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
    table.setEditTriggers(QTableView.EditTrigger.NoEditTriggers)
    table.setAlternatingRowColors(True)
    table.setShowGrid(False)
    table.setWordWrap(False)
    table.setTabKeyNavigation(False)
    rows_at_left, head = table.verticalHeader(), table.horizontalHeader()
    assert rows_at_left is not None, "a table has headers"
    assert head is not None, "a table has headers"
    rows_at_left.hide()
    rows_at_left.setDefaultSectionSize(table.fontMetrics().height() + between)
    head.setHighlightSections(False)
    return head


def set_up_plain(
    table: QTableWidget, head_words: Sequence[str], letters: Mapping[int, int], stretched: Collection[int], beside: int = 0
) -> None:
    """Rows chosen whole, one at a time; Tab leaves the table. letters: the width of a column in letters, with `beside` pixels
    more; stretched: the columns that share what is left."""
    table.setHorizontalHeaderLabels(list(head_words))
    table.setSelectionMode(QTableWidget.SelectionMode.SingleSelection)
    head = read_only(table, 8)
    head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
    head.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
    for column in stretched:
        head.setSectionResizeMode(column, QHeaderView.ResizeMode.Stretch)
    letter = table.fontMetrics().averageCharWidth()
    for column, many in letters.items():
        table.setColumnWidth(column, many * letter + beside)


def set_up_fitted(table: QTableWidget, head_words: Sequence[str], stretched: int) -> QHeaderView:
    """Rows chosen whole, as high as their words and columns as wide; Tab leaves the table. stretched: the column that takes
    what is left."""
    table.setHorizontalHeaderLabels(list(head_words))
    table.setSelectionBehavior(QTableWidget.SelectionBehavior.SelectRows)
    table.setTabKeyNavigation(False)
    rows_at_left, head = table.verticalHeader(), table.horizontalHeader()
    assert rows_at_left is not None, "a table has headers"
    assert head is not None, "a table has headers"
    rows_at_left.hide()
    rows_at_left.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
    head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    head.setSectionResizeMode(stretched, QHeaderView.ResizeMode.Stretch)
    return head


def told_cell(text: str, head_word: str) -> QTableWidgetItem:
    """A cell whose words may be longer than it: its tip tells them all, and a screen reader hears what they are."""
    cell = QTableWidgetItem(text)
    cell.setToolTip(text)
    cell.setData(Qt.ItemDataRole.AccessibleTextRole, f"{head_word}: {text or 'empty'}")
    return cell
