"""The film strip: the whole film on one line, the time around now on a second one.

In: length, now, stoppages, tags, loop. Out: where the person wants to go, or wants the loop's start or end. All times are
seconds from the film's start.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from PyQt6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, pyqtSignal
from PyQt6.QtGui import QImage, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPalette, QPixmap, QWheelEvent
from PyQt6.QtWidgets import QSizePolicy, QWidget

from filmreview.desktop.strip_hover import HoverPicture
from filmreview.desktop.strip_loop import Ends, Grip, grip_at, paint_loop
from filmreview.desktop.strip_paint import Line, Stretch, StripTag, paint_begun, paint_ground, paint_now, paint_window
from filmreview.desktop.strip_scale import Scale, around
from filmreview.desktop.strip_thumbnails import Thumbnails
from filmreview.film.film import Film
from filmreview.film.moment import format_time

__all__ = ["FilmStrip", "Stretch", "StripTag"]

_MARGIN = 8.0
_NEAR = Fraction(40)  # seconds that the second line shows at first
_NEAREST, _WIDEST = Fraction(4), Fraction(600)
_KEY_STEP = Fraction(10)  # seconds that Page Up and Page Down go


class FilmStrip(QWidget):
    """Two lines of the film; hover shows a small picture, a click or drag jumps, a click on a tag's shape chooses the tag, a
    drag of the loop's start or end moves it (Esc: leaves it where it was).

    The wheel on the lower line shows more or less around now. With the focus here Page Up and Page Down go ten seconds back
    and forward, Home and End to the film's ends, Up and Down to the tag before and after now.
    """

    jump_wanted = pyqtSignal(object)  # Fraction: seconds from the film's start
    tag_chosen = pyqtSignal(str)  # the id of the tag whose shape was clicked
    loop_end_wanted = pyqtSignal(bool, object)  # True: the loop's end, False: its start; Fraction: seconds
    loop_end_dragged = pyqtSignal(bool, object)  # the same while it is dragged and not let go
    loop_end_left = pyqtSignal()  # the drag is over, and the loop as it was

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._length = Fraction(0)
        self._now = Fraction(0)
        self._span = _NEAR
        self._stoppages: tuple[Stretch, ...] = ()
        self._tags: tuple[StripTag, ...] = ()
        self._begun: Fraction | None = None
        self._loop: Ends | None = None
        self._grip: Grip | None = None
        self._ground: tuple[tuple[object, ...], QPixmap] | None = None
        self._thumbnails: Thumbnails | None = None
        self._hover = HoverPicture(self)
        self._hovered: Fraction | None = None
        self._dragged: Line | None = None  # as it was when the drag began: the lower line moves with now
        self.setAccessibleName("Film strip")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Two lines of text and shapes."""
        return QSize(600, 2 * self._line_height() + 14)

    # What is shown

    def set_film(self, film: Film | None) -> None:
        """Take length and small pictures from this film (a worker opens it a second time for the small pictures)."""
        self.close_film()
        self._length = film.info.duration if film is not None else Fraction(0)
        self._now = Fraction(0)
        if film is not None:
            self._thumbnails = Thumbnails(film, self)
            self._thumbnails.ready.connect(self._show_hover)
        self._changed()

    def set_now(self, seconds: Fraction) -> None:
        """Where the film is."""
        self._now = seconds
        self._changed()

    def set_stoppages(self, stretches: Sequence[Stretch]) -> None:
        """Shade these."""
        self._stoppages = tuple(stretches)
        self._changed()

    def set_begun(self, seconds: Fraction | None) -> None:
        """Shade from here up to now, whatever now is: a stoppage is being set. None: none is."""
        self._begun = seconds
        self._changed()

    def set_tags(self, tags: Sequence[StripTag]) -> None:
        """Draw these tags' shapes."""
        self._tags = tuple(sorted(tags, key=lambda tag: tag.seconds))
        self._changed()

    def set_loop(self, ends: Ends | None) -> None:
        """Show the part that is played over and over: seconds of its start and its end; None for none."""
        self._loop = ends
        if ends is None:
            self._grip = None
        self._changed()

    def close_film(self) -> None:
        """Stop the worker and let the film go; called before the window closes."""
        self._hide_hover()
        if self._thumbnails is not None:
            self._thumbnails.close()
            self._thumbnails.deleteLater()
            self._thumbnails = None
        self._length = self._now = Fraction(0)
        self._changed()

    def _changed(self) -> None:
        told = f"{format_time(self._now)} of {format_time(self._length)}"
        self.setAccessibleDescription(
            f"{told}, {len(self._tags)} tags, {len(self._stoppages)} stoppages{self._loop_words(', ')}"
        )
        self.update()

    # The two lines

    def _line_height(self) -> int:
        return max(22, self.fontMetrics().height() + 8)

    def whole_line(self) -> Line:
        """The line that shows the whole film."""
        return self._line(4.0, Fraction(0), self._length)

    def near_line(self) -> Line:
        """The line that shows what lies around now."""
        return self._line(10.0 + self._line_height(), *around(self._now, self._span, self._length))

    def _line(self, top: float, start: Fraction, end: Fraction) -> Line:
        rect = QRectF(_MARGIN, top, max(1.0, self.width() - 2 * _MARGIN), self._line_height())
        return Line(rect, Scale(start, end, rect.left(), rect.width()))

    def paintEvent(self, _event: QPaintEvent | None) -> None:
        """Both lines, and on the upper one what the lower one shows."""
        painter = QPainter(self)
        palette = self.palette()
        whole, near = self.whole_line(), self.near_line()
        if self._length <= 0:
            for line in (whole, near):
                painter.fillRect(line.rect, palette.brush(QPalette.ColorRole.Base))
            return
        painter.drawPixmap(0, 0, self._whole_ground(whole))
        paint_ground(painter, palette, near, self._stoppages, self._tags)
        for line in (whole, near):
            if self._begun is not None:
                paint_begun(painter, palette, line, self._begun, self._now)
            if self._loop is not None:
                paint_loop(painter, palette, line, self._dragged_loop(self._loop))
            paint_now(painter, palette, line, self._now)
        paint_window(painter, palette, whole, near)
        if self.hasFocus():
            painter.setPen(palette.color(QPalette.ColorRole.Highlight))
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))

    def _whole_ground(self, whole: Line) -> QPixmap:
        """The upper line without now: hundreds of shapes that are not drawn anew for every picture of a film that plays."""
        ratio = self.devicePixelRatioF()
        key = (self.size(), ratio, self.palette().cacheKey(), self.font(), self._length, self._stoppages, self._tags)
        if self._ground is None or self._ground[0] != key:
            pixmap = QPixmap(self.size() * ratio)
            pixmap.setDevicePixelRatio(ratio)
            pixmap.fill(Qt.GlobalColor.transparent)
            painter = QPainter(pixmap)
            painter.setFont(self.font())
            paint_ground(painter, self.palette(), whole, self._stoppages, self._tags)
            painter.end()
            self._ground = (key, pixmap)
        return self._ground[1]

    def _line_at(self, at: QPointF) -> Line | None:
        if self._length <= 0:
            return None
        return next((line for line in (self.whole_line(), self.near_line()) if line.rect.contains(at)), None)

    def _tag_at(self, line: Line, at: QPointF) -> StripTag | None:
        near = [tag for tag in self._tags if line.shows(tag.seconds) and line.shape_rect(tag).contains(at)]
        return min(near, key=lambda tag: abs(line.scale.x_of(tag.seconds) - at.x()), default=None)

    def _grip_at(self, line: Line, at: QPointF) -> Grip | None:
        on_tag = self._tag_at(line, at) is not None
        near = line.rect == self.near_line().rect
        return grip_at(line, near, self._loop, at.x(), on_tag) if self._loop is not None else None

    def _dragged_loop(self, ends: Ends) -> Ends:
        """The loop, with the end that is dragged under the mouse: the lower line may move meanwhile."""
        grip = self._grip
        return ends if grip is None else grip.ends_on(self.near_line() if grip.near else self.whole_line(), ends)

    # Mouse

    def mousePressEvent(self, event: QMouseEvent | None) -> None:
        """Take hold of the loop's end or choose the tag that is pressed, or go to the time there."""
        assert event is not None
        line = self._line_at(event.position())
        if event.button() != Qt.MouseButton.LeftButton or line is None:
            return
        self._grip = self._grip_at(line, event.position())
        if self._grip is not None:
            return
        tag = self._tag_at(line, event.position())
        if tag is not None:
            self.tag_chosen.emit(tag.tag)
            return
        self._dragged = line
        self._want(line.scale.seconds_at(event.position().x()))

    def mouseMoveEvent(self, event: QMouseEvent | None) -> None:
        """Go along with a drag; otherwise show what is there."""
        assert event is not None
        if self._grip is not None:
            self._drag_loop(self._grip.at(event.position().x()))
            return
        if self._dragged is not None:
            self._want(self._dragged.scale.seconds_at(event.position().x()))
            return
        line = self._line_at(event.position())
        if line is None:
            self.setCursor(Qt.CursorShape.ArrowCursor)
            self._hide_hover()
            return
        tag, grip = self._tag_at(line, event.position()), self._grip_at(line, event.position())
        self.setCursor(Qt.CursorShape.SizeHorCursor if grip is not None else Qt.CursorShape.ArrowCursor)
        seconds = tag.seconds if tag is not None else line.scale.seconds_at(event.position().x())
        dragging = f"drag moves {grip.words}" if grip is not None else ""
        self._show_at(seconds, self._words(tag, seconds, dragging), event.position().x())

    def mouseReleaseEvent(self, event: QMouseEvent | None) -> None:
        """End a drag; a click on the loop's start or end goes there as any other."""
        assert event is not None
        self._dragged = None
        if event.button() != Qt.MouseButton.LeftButton or self._grip is None or self._loop is None:
            return
        grip = self._grip = self._grip.at(event.position().x())
        seconds = self._dragged_loop(self._loop)[grip.end]
        self._grip = None
        self._hide_hover()
        self._changed()
        if grip.moved:
            self.loop_end_wanted.emit(grip.end, seconds)
        else:
            self._want(min(seconds, self._length))

    def _drag_loop(self, grip: Grip) -> None:
        self._grip = grip
        self._changed()
        if grip.moved and self._loop is not None:
            seconds = self._dragged_loop(self._loop)[grip.end]
            self._show_at(seconds, f"{format_time(seconds)}\n{grip.words}", grip.x)
            self.loop_end_dragged.emit(grip.end, seconds)

    def _show_at(self, seconds: Fraction, words: str, x: float) -> None:
        """Show these words and the small picture of that time above a place of the strip."""
        self._hover.say(words, x)
        self._hovered = min(seconds, self._length - Fraction(1, 1000))
        if self._thumbnails is not None:
            self._thumbnails.ask(self._hovered)

    def leaveEvent(self, _event: QEvent | None) -> None:
        """Nothing is pointed at any more."""
        self._hide_hover()

    def wheelEvent(self, event: QWheelEvent | None) -> None:
        """Show more or less around now."""
        assert event is not None
        turns = event.angleDelta().y() / 120
        if turns:
            factor = Fraction(2, 3) if turns > 0 else Fraction(3, 2)
            self._span = min(max(_NEAREST, self._span * factor), _WIDEST)
            self.update()
        event.accept()

    def _words(self, tag: StripTag | None, seconds: Fraction, last: str = "") -> str:
        words = [format_time(seconds)]
        if tag is not None:
            words += [tag.words, tag.ruling + (", ahead" if tag.ahead else "")]
        words += [stretch.words or "stoppage" for stretch in self._stoppages if stretch.start <= seconds < stretch.end]
        if self._loop is not None and self._loop[0] <= seconds < self._loop[1]:
            words.append(self._loop_words())
        words.append(last)
        return "\n".join(word for word in words if word)

    def _loop_words(self, before: str = "") -> str:
        return f"{before}loop {format_time(self._loop[0])} up to {format_time(self._loop[1])}" if self._loop is not None else ""

    def _show_hover(self, seconds: Fraction, image: QImage) -> None:
        if seconds == self._hovered:
            self._hover.show_picture(image)

    def _hide_hover(self) -> None:
        self._hovered = None
        self._hover.hide()

    def _want(self, seconds: Fraction) -> None:
        self._hide_hover()
        self.jump_wanted.emit(seconds)

    # Keys

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """The keys named at the class; all others go on to the window."""
        assert event is not None
        if self._grip is not None and event.key() == Qt.Key.Key_Escape:
            self._grip = None
            self._hide_hover()
            self._changed()
            self.loop_end_left.emit()
            return
        target = self._target_of(Qt.Key(event.key())) if self._length > 0 and not event.modifiers() else None
        if target is None:
            super().keyPressEvent(event)
        else:
            self._want(min(max(Fraction(0), target), self._length))

    def _target_of(self, key: Qt.Key) -> Fraction | None:
        if key == Qt.Key.Key_Up:
            return max((tag.seconds for tag in self._tags if tag.seconds < self._now), default=None)
        if key == Qt.Key.Key_Down:
            return min((tag.seconds for tag in self._tags if tag.seconds > self._now), default=None)
        targets = {
            Qt.Key.Key_PageUp: self._now - _KEY_STEP,
            Qt.Key.Key_PageDown: self._now + _KEY_STEP,
            Qt.Key.Key_Home: Fraction(0),
            Qt.Key.Key_End: self._length,
        }
        return targets.get(key)
