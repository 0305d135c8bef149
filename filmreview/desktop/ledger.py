"""The ledger: the findings as a table. Type to filter, Enter goes to the moment, crew and note are edited in place."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import QEvent, QModelIndex, Qt, QTimer, pyqtSignal
from PyQt6.QtGui import QImage, QKeyEvent, QKeySequence
from PyQt6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QStyledItemDelegate,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.ledger_model import CREW, PICTURE, PICTURE_SIZE, TIME, LedgerFilter, LedgerModel, widths
from filmreview.desktop.ledger_presenter import NOT_MARKED, LedgerPresenter
from filmreview.review.model import CREW_MARKS


class _MarkBox(QComboBox):
    """list_closed: a mark was chosen from the list, or the list was left."""

    list_closed = pyqtSignal()

    def hidePopup(self) -> None:
        """Tell it, once, and after Qt has taken what was chosen."""
        marks = self.view()
        was_open = marks is not None and marks.isVisible()
        super().hidePopup()
        if was_open:
            QTimer.singleShot(0, self._tell)

    def _tell(self) -> None:
        if self.isVisible():  # Enter may have ended the edit meanwhile
            self.list_closed.emit()


class _CrewDelegate(QStyledItemDelegate):
    """Chooses a crew mark in the cell. taken: gets the index and the mark."""

    def __init__(self, parent: QWidget, taken: Callable[[QModelIndex, str], None]) -> None:
        super().__init__(parent)
        self._taken = taken

    def createEditor(self, parent: QWidget | None, _option: object, _index: QModelIndex) -> QWidget:
        """A box of the marks; choosing one from its list ends the edit, so does Enter."""
        box = _MarkBox(parent)
        box.setAccessibleName("crew mark")
        box.addItems((NOT_MARKED, *CREW_MARKS))
        box.list_closed.connect(lambda: self._end(box))
        return box

    def _end(self, box: QComboBox) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box)

    def setEditorData(self, editor: QWidget | None, index: QModelIndex) -> None:
        """Show the present mark."""
        assert isinstance(editor, QComboBox), "the editor made above"
        editor.setCurrentText(index.data(Qt.ItemDataRole.EditRole))

    def setModelData(self, editor: QWidget | None, _model: object, index: QModelIndex) -> None:
        """Take the mark chosen."""
        assert isinstance(editor, QComboBox), "the editor made above"
        self._taken(index, editor.currentText())


class _Table(QTableView):
    """The table. Enter chooses the row's moment; Delete removes the rows chosen."""

    entered_row = pyqtSignal()
    remove_wanted = pyqtSignal()

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Enter and Delete, unless a cell is being edited."""
        assert event is not None, "Qt gives the event"
        editing = self.state() == QAbstractItemView.State.EditingState
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not editing:
            self.entered_row.emit()
        elif event.matches(QKeySequence.StandardKey.Delete) and not editing:
            self.remove_wanted.emit()
        else:
            super().keyPressEvent(event)


class Ledger(QWidget):
    """The place at the bottom of the window."""

    jump_wanted = pyqtSignal(str)  # a tag's id: go to its moment
    change_wanted = pyqtSignal(str)  # a tag's id: open it on the card

    def __init__(self, presenter: LedgerPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.model = LedgerModel(presenter, self.palette())
        self.filter = LedgerFilter(self.model)
        self.table = self._made_table()
        self.look_for = QLineEdit()
        self.look_for.setPlaceholderText("Type to look for: a number, an item, illegal, late ...")
        self.look_for.setAccessibleName("look for findings")
        self.look_for.setClearButtonEnabled(True)
        self.look_for.textChanged.connect(self._look_for)
        self._summary = QLabel()
        self._summary.setAccessibleName("how many findings")
        self._summary.setMinimumWidth(1)  # a narrow window cuts it rather than the card; its tooltip has it all
        self.look_for.setMinimumWidth(self.look_for.fontMetrics().averageCharWidth() * 20)
        self._lay_out()
        self.refresh()

    def refresh(self) -> None:
        """The review or its findings changed."""
        chosen = self.chosen()
        self.model.refresh()
        self._summary.setText(self._presenter.summary())
        self._summary.setToolTip(self._summary.text())
        if chosen:
            self.choose(chosen[0])

    def chosen(self) -> tuple[str, ...]:
        """The ids of the rows chosen, from above."""
        selection = self.table.selectionModel()
        rows = selection.selectedRows() if selection is not None else []
        numbers = sorted(self.filter.mapToSource(index).row() for index in rows)
        return tuple(self.model.row(number).tag for number in numbers)

    def choose(self, tag: str) -> None:
        """Choose a tag's row and bring it into sight."""
        row = self.model.row_of(tag)
        if row is None:
            return
        index = self.filter.mapFromSource(self.model.index(row, TIME))
        selection = self.table.selectionModel()
        if index.isValid() and selection is not None:
            selection.setCurrentIndex(index, selection.SelectionFlag.ClearAndSelect | selection.SelectionFlag.Rows)
            self.table.scrollTo(index)

    def set_picture(self, tag: str, picture: QImage) -> None:
        """A small picture has been made."""
        self.model.set_picture(tag, picture)

    def remove_chosen(self) -> None:
        """Take the chosen tags out of the review; undo brings them back."""
        self._presenter.remove(self.chosen())

    def changeEvent(self, event: QEvent | None) -> None:
        """Light or dark: the shapes follow."""
        if event is not None and event.type() == QEvent.Type.PaletteChange and hasattr(self, "model"):
            self.model.set_palette(self.palette())
        super().changeEvent(event)

    def _made_table(self) -> _Table:
        table = _Table()
        table.setAccessibleName("ledger of findings")
        table.setModel(self.filter)
        table.setSortingEnabled(True)
        table.sortByColumn(TIME, Qt.SortOrder.AscendingOrder)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed | QAbstractItemView.EditTrigger.SelectedClicked)
        table.setItemDelegateForColumn(CREW, _CrewDelegate(table, self._set_crew))
        table.setIconSize(PICTURE_SIZE)
        table.setAlternatingRowColors(True)
        table.setShowGrid(False)
        table.setWordWrap(False)
        table.setTabKeyNavigation(False)
        rows_at_left, head = table.verticalHeader(), table.horizontalHeader()
        assert rows_at_left is not None, "a table has headers"
        assert head is not None, "a table has headers"
        rows_at_left.hide()
        rows_at_left.setDefaultSectionSize(max(PICTURE_SIZE.height() + 4, table.fontMetrics().height() + 8))
        head.setStretchLastSection(True)
        head.setHighlightSections(False)
        table.setColumnWidth(PICTURE, PICTURE_SIZE.width() + 10)
        letter = table.fontMetrics().averageCharWidth()
        for column, letters in widths().items():
            table.setColumnWidth(column, letters * letter + 24)
        table.entered_row.connect(self._jump)
        table.remove_wanted.connect(self.remove_chosen)
        table.doubleClicked.connect(self._double_clicked)
        return table

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.look_for, 1)
        top.addWidget(self._summary)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(top)
        layout.addWidget(self.table, 1)

    def _look_for(self, text: str) -> None:
        self.filter.look_for(text)

    def _jump(self) -> None:
        index = self.table.currentIndex()
        if index.isValid():
            self.jump_wanted.emit(self.model.row(self.filter.mapToSource(index).row()).tag)

    def _set_crew(self, index: QModelIndex, mark: str) -> None:
        """Of several rows chosen, all get the mark."""
        tag = self.model.row(self.filter.mapToSource(index).row()).tag
        chosen = self.chosen()
        self._presenter.set_crew(chosen if tag in chosen else (tag,), mark)

    def _double_clicked(self, index: QModelIndex) -> None:
        self.change_wanted.emit(self.model.row(self.filter.mapToSource(index).row()).tag)
