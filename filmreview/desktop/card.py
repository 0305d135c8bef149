"""The card: one tag being written, its ruling, and what the crew did. Enter keeps it, Escape drops it."""

from __future__ import annotations

from itertools import pairwise

from PyQt6.QtCore import Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PyQt6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from filmreview.cautions import MINORS, SAFETY, STUDY_AID
from filmreview.desktop.card_line import EXAMPLE, CardLine
from filmreview.desktop.card_parts import CardParts
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.card_questions import CardQuestions
from filmreview.desktop.card_ruling import CardRuling
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.draft import Draft
from filmreview.desktop.ledger_presenter import NOT_MARKED
from filmreview.desktop.length_card import MeasuredByHand
from filmreview.desktop.small_widgets import Choice, heading, wrapped
from filmreview.film.moment import format_time
from filmreview.measure.shape import bounds_of
from filmreview.review.model import CREW_MARKS

_CLOSED_WORDS = (
    "Pause the film and draw a region round what you see: the card opens on it.",
    f"Then type one line, such as  {EXAMPLE}  and press Enter.",
)


class CardCrew(QWidget):
    """How the crew dealt with it, when, and the note."""

    here_wanted = pyqtSignal()

    def __init__(self, presenter: CardPresenter, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._presenter = presenter
        self.mark = Choice("crew mark", (NOT_MARKED, *CREW_MARKS))
        self.here = QPushButton()
        self.here.setAccessibleName("the crew acted at the moment on the picture")
        self.here.setToolTip("Take the moment on the picture as the one at which the crew acted")
        self.here.setAutoDefault(False)
        self.here.clicked.connect(self.here_wanted)
        self.did = QLineEdit()
        self.did.setAccessibleName("what the crew did, in words")
        self.did.setPlaceholderText("what they did, in words")
        self.note = QLineEdit()
        self.note.setAccessibleName("note")
        self.mark.chosen.connect(lambda _text: self._set_crew())
        self.did.textEdited.connect(lambda _text: self._set_crew())
        self.note.textEdited.connect(presenter.set_note)
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setVerticalSpacing(4)
        marked = QHBoxLayout()
        marked.addWidget(self.mark, 1)
        marked.addWidget(self.here)
        for row, words in ((0, "Crew"), (2, "Note")):
            layout.addWidget(QLabel(words), row, 0)
        layout.addLayout(marked, 0, 1)
        layout.addWidget(self.did, 1, 1)
        layout.addWidget(self.note, 2, 1)
        layout.setColumnStretch(1, 1)
        presenter.events.on("open", self.refresh)
        presenter.events.on("line", self.refresh)

    def refresh(self) -> None:
        """Show what the draft says."""
        draft = self._presenter.draft
        if draft is None:
            return
        self.mark.show_text(draft.understood.crew or NOT_MARKED)
        marked = draft.understood.crew is not None
        self.did.setEnabled(marked)
        self.here.setEnabled(marked)
        self.here.setText(f"at {self._time_of(draft)}" if draft.crew_moment is not None else "When: here")
        for line, text in ((self.did, draft.did), (self.note, draft.understood.note)):
            if line.text() != text:
                line.setText(text)
                line.home(False)  # the beginning of a long text says more than its end

    def _time_of(self, draft: Draft) -> str:
        assert draft.crew_moment is not None, "asked only then"
        return format_time(self._desk.seconds_of(draft.crew_film or draft.film, draft.crew_moment))

    def _set_crew(self) -> None:
        mark = self.mark.currentText()
        self._presenter.set_crew(None if mark == NOT_MARKED else mark, self.did.text())


class Card(QWidget):
    """The place on the right of the window."""

    closed = pyqtSignal()  # the tag is being kept, or was dropped: the picture takes the keys again
    here_wanted = pyqtSignal()  # the crew acted at the moment on the picture

    def __init__(self, presenter: CardPresenter, desk: Desk) -> None:
        super().__init__()
        self._presenter = presenter
        self._desk = desk
        self.line = CardLine(presenter)
        self.parts = CardParts(presenter, desk)
        self.by_hand = MeasuredByHand(presenter, desk)
        self.questions = CardQuestions(presenter, desk.message)
        self.ruling = CardRuling(presenter)
        self.crew = CardCrew(presenter, desk)
        self._place = wrapped(name="where the tag is")
        self.keep = QPushButton("Keep (Enter)")
        self.drop = QPushButton("Drop (Esc)")
        self._pages = QStackedWidget()
        self.hint = wrapped(name="keys to begin with")
        self._pages.addWidget(_closed_page(self.hint))
        self._pages.addWidget(self._open_page())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._pages)
        self._connect()
        self.refresh()

    def refresh(self) -> None:
        """The draft was opened or closed."""
        draft = self._presenter.draft
        self._pages.setCurrentIndex(0 if draft is None else 1)
        if draft is None:
            return
        time = format_time(self._desk.seconds_of(draft.film, draft.moment))
        what = "New tag" if self._presenter.is_new else "Changing a kept tag"
        where = f", region {bounds_of(draft.region)}" if draft.region else ", no region"
        self._place.setText(f"{what} at {time}{where}")

    def show_keys(self, region: str, tag_here: str, keys: str) -> None:
        """Name the key that puts a region on the picture, the one that opens the card without, and the one that lists all."""
        self.hint.setText(
            f"On the picture {region} puts a region in the middle. {tag_here} opens the card without a region. "
            f"{keys} lists all keys."
        )
        self.hint.setAccessibleName(self.hint.text())

    def take_keys(self) -> None:
        """Give the line the focus; while a tag is on its way to the disk it waits."""
        if self._presenter.draft is not None and not self._presenter.keeping:
            self.line.line.setFocus(Qt.FocusReason.ShortcutFocusReason)
            if self._presenter.is_new:
                self.line.line.end(False)
            else:
                self.line.line.home(False)

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Enter presses the button it is on; on a question it answers; anywhere else it keeps the tag."""
        if event is None or event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
            return
        on = self.focusWidget()
        if isinstance(on, QAbstractButton):
            on.click()
        elif on is None or not self.questions.isAncestorOf(on):
            self._keep()

    def _keep(self) -> None:
        self._presenter.keep()

    def _connect(self) -> None:
        for button, name in ((self.keep, "keep the tag"), (self.drop, "drop what was written")):
            button.setAccessibleName(name)
            button.setAutoDefault(False)
        self.keep.clicked.connect(self._keep)
        self.drop.clicked.connect(self._presenter.drop)
        escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        escape.activated.connect(self._presenter.drop)
        self.crew.here_wanted.connect(self.here_wanted)
        self._presenter.events.on("ruling", self._order_focus)
        self._presenter.events.on("open", self._opened)
        self._presenter.events.on("keeping", self.closed.emit)
        for event in ("refused", "resumed"):
            self._presenter.events.on(event, self.take_keys)
        self._presenter.events.on("measured", self.refresh)

    def _order_focus(self) -> None:
        """Tab follows the work, through questions that were not there before."""
        parts, crew = self.parts, self.crew
        order = [
            self.line.line,
            parts.team,
            parts.player,
            parts.item,
            parts.by_eye,
            *self.by_hand.controls(),
            *self.questions.controls(),
        ]
        order += [crew.mark, crew.here, crew.did, crew.note, self.keep, self.drop, self.ruling.read]
        for one, following in pairwise(order):
            QWidget.setTabOrder(one, following)

    def _opened(self) -> None:
        self.refresh()
        if self._presenter.draft is None:
            self.closed.emit()

    def _open_page(self) -> QWidget:
        inner = QWidget()
        layout = QVBoxLayout(inner)
        layout.setContentsMargins(8, 6, 8, 6)
        layout.setSpacing(8)
        for part in (self._place, self.line, self.parts, self.by_hand, self.ruling, self.questions, self.crew):
            layout.addWidget(part)
        layout.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(inner)
        buttons = QHBoxLayout()
        buttons.setContentsMargins(8, 0, 8, 6)
        buttons.addWidget(self.keep, 1)
        buttons.addWidget(self.drop)
        page = QWidget()
        outer = QVBoxLayout(page)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.setSpacing(4)
        outer.addWidget(scroll, 1)
        outer.addLayout(buttons)
        return page


def _closed_page(hint: QWidget) -> QWidget:
    page = QWidget()
    layout = QVBoxLayout(page)
    layout.setContentsMargins(8, 6, 8, 6)
    layout.setSpacing(8)
    layout.addWidget(heading("Card"))
    for words in _CLOSED_WORDS:
        layout.addWidget(wrapped(words))
    layout.addWidget(hint)
    layout.addStretch(1)
    for words in (STUDY_AID, SAFETY, MINORS):
        layout.addWidget(wrapped(words))
    return page
