"""Choosing one of a list in a cell of a table: for crew marks, officials, kinds of stoppage."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PyQt6.QtCore import QModelIndex, Qt, QTimer, pyqtSignal
from PyQt6.QtWidgets import QComboBox, QStyledItemDelegate, QWidget


class _Box(QComboBox):
    """list_closed: something was chosen from the list, or the list was left."""

    list_closed = pyqtSignal()

    def hidePopup(self) -> None:
        """Tell it, once, and after Qt has taken what was chosen."""
        words = self.view()
        was_open = words is not None and words.isVisible()
        super().hidePopup()
        if was_open:
            QTimer.singleShot(0, self._tell)

    def _tell(self) -> None:
        if self.isVisible():  # Enter may have ended the edit meanwhile
            self.list_closed.emit()


class CellChoice(QStyledItemDelegate):
    """A box of words in the cell; choosing one from its list ends the edit, so does Enter. name: what a screen reader says.
    words: asked for when an edit begins. taken: gets the index and the word."""

    def __init__(
        self, parent: QWidget, name: str, words: Callable[[], Sequence[str]], taken: Callable[[QModelIndex, str], None]
    ) -> None:
        super().__init__(parent)
        self._name, self._words, self._taken = name, words, taken

    def createEditor(self, parent: QWidget | None, _option: object, _index: QModelIndex) -> QWidget:
        """The box."""
        box = _Box(parent)
        box.setAccessibleName(self._name)
        box.addItems(self._words())
        box.list_closed.connect(lambda: self._end(box))
        return box

    def setEditorData(self, editor: QWidget | None, index: QModelIndex) -> None:
        """Show the present word."""
        assert isinstance(editor, QComboBox), "the editor made above"
        editor.setCurrentText(index.data(Qt.ItemDataRole.EditRole))

    def setModelData(self, editor: QWidget | None, _model: object, index: QModelIndex) -> None:
        """Take the word chosen."""
        assert isinstance(editor, QComboBox), "the editor made above"
        self._taken(index, editor.currentText())

    def _end(self, box: QComboBox) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box)
