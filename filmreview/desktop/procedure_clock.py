"""The procedure clock: events with film times, entered by one key while the film runs; the seconds between; departures."""

from __future__ import annotations

from fractions import Fraction

from PyQt6.QtCore import Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent, QKeySequence
from PyQt6.QtWidgets import (
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSplitter,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.plain_table import read_only
from filmreview.desktop.procedure_clock_line import EventLine
from filmreview.desktop.procedure_clock_model import MORE, ProcedureClockModel
from filmreview.desktop.procedure_clock_presenter import DepartureRow, ProcedureClockPresenter
from filmreview.desktop.procedure_clock_words import KEY_OF
from filmreview.desktop.scrolled_words import ScrolledWords
from filmreview.desktop.when_seen import WhenSeen
from filmreview.rules.procedures.event import EVENT_WORDS

_PLACE = int(Qt.ItemDataRole.UserRole)


class _Table(QTableView):
    """Enter goes to the event, F2 changes it, Delete removes those chosen."""

    entered_row = pyqtSignal()
    change_wanted = pyqtSignal()
    remove_wanted = pyqtSignal()

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """The three keys; all others as in any table."""
        assert event is not None, "Qt gives the event"
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered_row.emit()
        elif event.key() == Qt.Key.Key_F2:
            self.change_wanted.emit()
        elif event.matches(QKeySequence.StandardKey.Delete):
            self.remove_wanted.emit()
        else:
            super().keyPressEvent(event)


class ProcedureClock(QWidget):
    """The tab over the ledger."""

    jump_wanted = pyqtSignal(str, object)  # film id, Moment
    note_wanted = pyqtSignal(str)  # an event word: note it at the moment on the picture
    moment_wanted = pyqtSignal()  # the line is about to be a new event at the moment on the picture
    here_wanted = pyqtSignal(str)  # an event's id: it gets the moment on the picture
    left = pyqtSignal()  # the line was kept or dropped, and it was not the table that gave it the keys

    def __init__(self, presenter: ProcedureClockPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self._shown_last = ""
        self._from_table = False
        self.model = ProcedureClockModel(presenter)
        self.table = self._made_table()
        self.line = EventLine(presenter)
        self.book = self._made_book()
        self.caution = ScrolledWords("caution", 2)
        self.words = self._made_words()
        self.here = QPushButton("Take this &moment")
        self.here.setAccessibleName("give the event chosen the moment on the picture")
        self._running = QLabel()
        self._running.setAccessibleName("seconds since the last event")
        self._between = QLabel()
        self._between.setAccessibleName("seconds between the events chosen")
        self._lay_out()
        self._connect()
        self.refresh()

    def refresh(self) -> None:
        """Events or departures have changed."""
        chosen = self.chosen()
        self.model.refresh()
        self.table.resizeColumnsToContents()
        self._leave_rest()
        if self._presenter.last and self._presenter.last != self._shown_last and self.choose(self._presenter.last):
            self._shown_last = self._presenter.last
        elif chosen:
            self.choose(chosen[0])
        self.caution.show_words(self._presenter.caution())
        self._show_book(self._presenter.summary(), self._presenter.departures())
        self._show_chosen()

    def _leave_rest(self) -> None:
        """The last column has what is left: long words there end in dots, and stand in full under the pointer."""
        head = self.table.horizontalHeader()
        assert head is not None, "a table has headers"
        head.setSectionResizeMode(MORE, QHeaderView.ResizeMode.Stretch)
        head.setMinimumSectionSize(head.sectionSizeHint(MORE))

    def chosen(self) -> tuple[str, ...]:
        """The ids of the events chosen, from above."""
        selection = self.table.selectionModel()
        rows = selection.selectedRows() if selection is not None else []
        return tuple(self.model.row(number).event for number in sorted(index.row() for index in rows))

    def choose(self, event: str) -> bool:
        """Choose an event's row and bring it into sight; False when it is not there."""
        row = self.model.row_of(event)
        if row is not None and self.chosen() != (event,):
            self.table.selectRow(row)
            self.table.scrollTo(self.model.index(row, 0))
        return row is not None

    def change_chosen(self) -> None:
        """The line takes the event chosen, or else the one put down last."""
        event = next(iter(self.chosen()), self._presenter.last)
        if self.model.row_of(event) is not None:
            self._from_table = self.table.hasFocus()
            self._presenter.change(event)
            self.line.take_keys()

    def _made_table(self) -> _Table:
        table = _Table()
        table.setAccessibleName("procedure clock: events")
        table.setModel(self.model)
        read_only(table, 6)
        return table

    def _made_book(self) -> QListWidget:
        book = QListWidget()
        book.setAccessibleName("what the book says of it; Enter goes to a departure")
        book.setWordWrap(True)
        book.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        book.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        return book

    def _made_words(self) -> QListWidget:
        words = QListWidget()
        words.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        words.setAccessibleName("keys that put an event down at the moment on the picture")
        for what, key in KEY_OF.items():
            item = QListWidgetItem(f"{key}  {what}")
            item.setData(_PLACE, what)
            item.setToolTip(EVENT_WORDS[what].words)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{what}, key {key}")
            words.addItem(item)
        return words

    def _lay_out(self) -> None:
        below = QHBoxLayout()
        below.addWidget(self.line, 1)
        below.addWidget(self._between)
        below.addWidget(self.here)
        self.sides = QSplitter(Qt.Orientation.Horizontal)
        for place, part in enumerate((self.table, self.book, self.words)):
            part.setMinimumHeight(part.fontMetrics().height() * 3)
            self.sides.addWidget(part)
            self.sides.setStretchFactor(place, (6, 4, 0)[place])
        letter = self.fontMetrics().averageCharWidth()
        self.book.setMinimumWidth(letter * 20)
        self.sides.setSizes([letter * 88, letter * 25, letter * 31])
        self.sides.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.sides, 1)
        told = QHBoxLayout()
        told.addWidget(self.caution, 1)
        told.addWidget(self._running)
        layout.addLayout(told)
        layout.addLayout(below)

    def _connect(self) -> None:
        self.table.entered_row.connect(self._jump)
        self.table.doubleClicked.connect(lambda _index: self._jump())
        self.table.change_wanted.connect(self.change_chosen)
        self.table.remove_wanted.connect(lambda: self._presenter.remove(self.chosen()))
        selection = self.table.selectionModel()
        assert selection is not None, "a table with a model has one"
        selection.selectionChanged.connect(lambda _now, _before: self._show_chosen())
        self.book.itemActivated.connect(self._jump_to_departure)
        self.words.itemActivated.connect(lambda item: self.note_wanted.emit(item.data(_PLACE)))
        self.line.begun.connect(self.moment_wanted)
        self.line.left.connect(self._leave_line)
        self._presenter.events.on("line", self._line_changed)
        self.here.clicked.connect(self.take_moment)
        self._presenter.events.on("events", WhenSeen(self, self.refresh))

    def show_now(self, film_id: str | None, seconds: Fraction) -> None:
        """Where the film is: the clock runs along."""
        if self.isVisible():
            self._running.setText(self._presenter.running(film_id, seconds))

    def _line_changed(self) -> None:
        """A new event is begun from the film, whatever was on the line before."""
        if self._presenter.begun is not None:
            self._from_table = False

    def _leave_line(self) -> None:
        """The keys go back to where they came from: the table, or else the film."""
        from_table, self._from_table = self._from_table, False
        if from_table:
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.left.emit()

    def _show_book(self, summary: tuple[str, ...], departures: tuple[DepartureRow, ...]) -> None:
        """What the book says of it: the procedures, each departure (Enter goes there), what is missing to tell, the source."""
        self.book.clear()
        for words, place in (
            (summary[0], None),
            *((row.words, row.place) for row in departures),
            *((one, None) for one in summary[1:]),
        ):
            item = QListWidgetItem(words)
            item.setToolTip(words)
            item.setData(_PLACE, place)
            self.book.addItem(item)

    def _show_chosen(self) -> None:
        chosen = self.chosen()
        self._between.setText(self._presenter.between(chosen))
        self._between.setVisible(bool(self._between.text()))
        self.here.setEnabled(len(chosen) == 1)

    def take_moment(self) -> None:
        """The event chosen gets the moment on the picture."""
        chosen = self.chosen()
        if len(chosen) == 1:
            self.here_wanted.emit(chosen[0])

    def _jump(self) -> None:
        index = self.table.currentIndex()
        place = self._presenter.place(self.model.row(index.row()).event) if index.isValid() else None
        if place is not None:
            self.jump_wanted.emit(*place)

    def _jump_to_departure(self, item: QListWidgetItem) -> None:
        if item.data(_PLACE) is not None:
            self.jump_wanted.emit(*item.data(_PLACE))
