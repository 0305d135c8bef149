"""The ledger's rows as a Qt table model, its sorting and its filter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PyQt6.QtCore import QAbstractTableModel, QModelIndex, QSize, QSortFilterProxyModel, Qt
from PyQt6.QtGui import QIcon, QImage, QPalette, QPixmap

from filmreview.desktop.ledger_presenter import NOT_MARKED, WHOLE_CREW, LedgerPresenter, LedgerRow, words_of
from filmreview.desktop.shapes import row_icon

COLUMNS = ("Picture", "Time", "Whose", "Item", "Ruling", "Consequence", "Crew", "Official", "Note")
PICTURE, TIME, WHO, ITEM, RULING, CONSEQUENCE, CREW, OFFICIAL, NOTE = range(len(COLUMNS))
PICTURE_SIZE = QSize(64, 40)
EDITABLE = (CREW, OFFICIAL, NOTE)
SORT_ROLE = int(Qt.ItemDataRole.UserRole)
_LONGEST_FILM = 1e6  # seconds; keeps the films of a game apart in the order of time
_RULING_ORDER = {"illegal": 0, "cannot be told": 1, "legal": 2, "": 3}


def _where_they_differ(before: Sequence[str], after: Sequence[str]) -> tuple[int, int]:
    """How many are the same from the start, and then from the end."""
    first = next((n for n, (one, other) in enumerate(zip(before, after, strict=False)) if one != other), None)
    shorter = min(len(before), len(after))
    first = shorter if first is None else first
    ends = zip(reversed(before), reversed(after), strict=False)
    last = next((n for n, (one, other) in enumerate(ends) if one != other), shorter)
    return first, min(last, shorter - first)


class LedgerModel(QAbstractTableModel):
    """One row a finding. Crew and note can be edited; the presenter makes the change, and the rows come back by `refresh`."""

    def __init__(self, presenter: LedgerPresenter, palette: QPalette) -> None:
        super().__init__()
        self._presenter = presenter
        self._palette = palette
        self._rows: tuple[LedgerRow, ...] = ()
        self._places: dict[str, int] = {}
        self._pictures: dict[str, QPixmap] = {}
        self._shapes: dict[tuple[str, bool], QIcon] = {}

    def refresh(self) -> None:
        """Take the presenter's rows; those that are still there stay, and what is chosen too. Only what differs is told."""
        before, rows = self._rows, self._presenter.rows()
        first, last = _where_they_differ([row.tag for row in before], [row.tag for row in rows])
        if first < len(before) - last:
            self.beginRemoveRows(QModelIndex(), first, len(before) - last - 1)
            self._take((*before[:first], *before[len(before) - last :]))
            self.endRemoveRows()
        if first < len(rows) - last:
            self.beginInsertRows(QModelIndex(), first, len(rows) - last - 1)
            self._take((*self._rows[:first], *rows[first : len(rows) - last], *self._rows[first:]))
            self.endInsertRows()
        changed = [number for number, (one, other) in enumerate(zip(self._rows, rows, strict=True)) if one is not other]
        self._take(rows)
        if changed:
            self.dataChanged.emit(self.index(changed[0], 0), self.index(changed[-1], NOTE))

    def _take(self, rows: tuple[LedgerRow, ...]) -> None:
        self._rows = rows
        self._places = {row.tag: number for number, row in enumerate(rows)}

    def set_palette(self, palette: QPalette) -> None:
        """Draw the shapes for this palette."""
        self._palette = palette
        self._shapes.clear()
        if self._rows:
            self.dataChanged.emit(self.index(0, RULING), self.index(len(self._rows) - 1, RULING))

    def set_picture(self, tag: str, picture: QImage) -> None:
        """Show this small picture in the tag's row."""
        self._pictures[tag] = QPixmap.fromImage(picture)
        row = self.row_of(tag)
        if row is not None:
            self.dataChanged.emit(self.index(row, PICTURE), self.index(row, PICTURE))

    def forget_pictures(self) -> None:
        """Another review: its tags have their own pictures."""
        self._pictures.clear()

    def row(self, number: int) -> LedgerRow:
        """The row of that number, unsorted."""
        return self._rows[number]

    def row_of(self, tag: str) -> int | None:
        """The number of a tag's row, unsorted."""
        return self._places.get(tag)

    def rowCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """As many as there are tags."""
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """As many as COLUMNS."""
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The words over the columns."""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return COLUMNS[section]
        return None

    def flags(self, index: QModelIndex) -> Qt.ItemFlag:
        """Crew and note can be edited."""
        flags = super().flags(index)
        return flags | Qt.ItemFlag.ItemIsEditable if index.column() in EDITABLE else flags

    def data(self, index: QModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """A cell's words, picture, shape, place in the order."""
        if not index.isValid():
            return None
        row, column = self._rows[index.row()], index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return _text(row, column)
        if role == SORT_ROLE:
            return _sort_key(row, column)
        if role == Qt.ItemDataRole.DecorationRole:
            return self._decoration(row, column)
        if role == Qt.ItemDataRole.ToolTipRole:
            return _tooltip(row, column)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{COLUMNS[column]}: {_text(row, column) or 'empty'}"
        return None

    def setData(self, index: QModelIndex, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """A crew mark or note edited in place; True when the review took it."""
        if role != Qt.ItemDataRole.EditRole:
            return False
        row = self._rows[index.row()]
        if index.column() == CREW:
            return self._presenter.set_crew((row.tag,), str(value))
        if index.column() == OFFICIAL:
            return self._presenter.set_official((row.tag,), str(value))
        return index.column() == NOTE and self._presenter.set_note(row.tag, str(value))

    def _decoration(self, row: LedgerRow, column: int) -> object:
        if column == PICTURE:
            return self._pictures.get(row.tag)
        if column == RULING and row.ruling:
            key = (row.ruling, row.ahead)
            if key not in self._shapes:
                self._shapes[key] = row_icon(row.ruling, row.ahead, self._palette)
            return self._shapes[key]
        return None


def _text(row: LedgerRow, column: int) -> str:
    return ("", row.time, row.who, row.item, row.ruling_words, row.consequence, row.crew, row.official, row.note)[column]


def _tooltip(row: LedgerRow, column: int) -> str | None:
    if column == RULING and row.reference:
        return f"{_text(row, column)}, rule {row.reference}"
    return _text(row, column) or None


def _sort_key(row: LedgerRow, column: int) -> object:
    if column in (PICTURE, TIME):
        return row.order * _LONGEST_FILM + float(row.seconds)
    if column == WHO:
        return f"{row.who.rpartition(' ')[0]} {row.player:>3}"
    if column == RULING:
        return _RULING_ORDER.get(row.ruling, 3)
    if column == CREW:
        return "~" if row.crew == NOT_MARKED else row.crew
    if column == OFFICIAL:
        return "~" if row.official == WHOLE_CREW else row.official
    return _text(row, column).casefold()


class LedgerFilter(QSortFilterProxyModel):
    """Rows that hold every word typed, sorted by what a column means rather than how it reads."""

    def __init__(self, model: LedgerModel) -> None:
        super().__init__()
        self._model = model
        self._words: Sequence[str] = ()
        self.setSourceModel(model)
        self.setSortRole(SORT_ROLE)

    def look_for(self, text: str) -> None:
        """Show only the rows that hold these words."""
        self._words = words_of(text)
        self.invalidateFilter()

    def filterAcceptsRow(self, source_row: int, source_parent: QModelIndex) -> bool:  # noqa: ARG002 - Qt's signature
        """Whether the row holds every word."""
        return self._model.row(source_row).holds(self._words)


def widths() -> Mapping[int, int]:
    """How many letters wide the columns start."""
    return {TIME: 9, WHO: 16, ITEM: 12, RULING: 17, CONSEQUENCE: 14, CREW: 16, OFFICIAL: 10}
