"""Walks through a window: what a screen reader could not name, where Tab goes, what is cut off."""

from collections.abc import Iterator

from PyQt6.QtCore import QPoint, QRect, Qt
from PyQt6.QtTest import QTest
from PyQt6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QAbstractSlider,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialogButtonBox,
    QGroupBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QMenu,
    QMenuBar,
    QProgressBar,
    QScrollArea,
    QSplitter,
    QSplitterHandle,
    QStackedWidget,
    QTabBar,
    QTabWidget,
    QTextEdit,
    QWidget,
)

from filmreview.desktop.roomy import Roomy

_INSIDE = ("qt_", "ScrollLeft", "ScrollRight")
_HOLD = (QSplitter, QSplitterHandle, QStackedWidget, QScrollArea, QGroupBox, QDialogButtonBox, QMenu, QMenuBar, QTabBar)
"""Widgets of Qt that hold others, or say what they hold: a screen reader reads those."""
_HAVE_TEXT = (QAbstractButton, QLabel)


def nameless(top: QWidget) -> list[str]:
    """The widgets of a window that a screen reader could not name: controls, and widgets of ours that paint themselves. Those
    that Qt puts inside its own, and those that only hold others, are left out."""
    return [_told(one) for one in (top, *top.findChildren(QWidget)) if _needs_name(one) and not _named(one)]


def _needs_name(widget: QWidget) -> bool:
    if widget.objectName().startswith(_INSIDE) or _inside_of_qt(widget) or isinstance(widget, _HOLD):
        return False
    ours = type(widget).__module__.startswith("filmreview.")
    paints = ours and not widget.findChildren(QWidget) and not isinstance(widget, QLabel)
    return paints or widget.focusPolicy() != Qt.FocusPolicy.NoFocus or isinstance(widget, QProgressBar)


def _named(widget: QWidget) -> bool:
    if widget.accessibleName() or (widget.isWindow() and widget.windowTitle()):
        return True
    buddies = [label for label in widget.window().findChildren(QLabel) if label.buddy() is widget]
    return bool(buddies) or (isinstance(widget, _HAVE_TEXT) and bool(widget.text()))


def _inside_of_qt(widget: QWidget) -> bool:
    """Whether Qt made it as a part of one of its own widgets, which has the name."""
    above = widget.parent()
    while isinstance(above, QWidget):
        if isinstance(above, QComboBox | QAbstractSpinBox | QTabBar | QHeaderView) or above.inherits("QCalendarWidget"):
            return True
        if isinstance(above, QAbstractScrollArea) and not isinstance(above, QScrollArea | QTextEdit):
            own = widget is above.viewport() or isinstance(widget, QHeaderView | QAbstractSlider | QAbstractButton)
            if own and not type(widget).__module__.startswith("filmreview."):
                return True
        above = above.parent()
    return isinstance(widget.parent(), QTabWidget | QLineEdit) or isinstance(widget, QAbstractSlider)


def _told(widget: QWidget) -> str:
    parent = widget.parent()
    return f"{type(widget).__name__} in {type(parent).__name__ if parent is not None else 'nothing'}"


def reachable(top: QWidget) -> list[QWidget]:
    """What Tab should come to: seen, enabled, and taking the focus by Tab."""
    return [one for one in top.findChildren(QWidget) if one.window() is top.window() and _takes_tab(one)]


def _takes_tab(widget: QWidget) -> bool:
    tab = widget.focusPolicy() & Qt.FocusPolicy.TabFocus == Qt.FocusPolicy.TabFocus
    return bool(tab) and widget.isEnabled() and widget.isVisible() and widget.focusProxy() is None


def tabbed(most: int = 300) -> Iterator[QWidget]:
    """Press Tab from where the focus is until it comes round again; each widget on the way."""
    first = QApplication.focusWidget()
    assert first is not None, "no widget has the focus"
    seen: list[QWidget] = []
    now = first
    while now not in seen and len(seen) < most:
        seen.append(now)
        yield now
        QTest.keyClick(now, Qt.Key.Key_Tab)
        focus = QApplication.focusWidget()
        now = first if focus is None else focus  # an empty list is false


def cut_off(top: QWidget) -> list[str]:
    """Labels and buttons whose words have less room than they need, and widgets that reach out of what holds them, where that
    does not scroll."""
    found = []
    for one in top.findChildren(QWidget):
        if not one.isVisible() or one.window() is not top.window():
            continue
        if isinstance(one, QLabel) and one.text() and _too_small(one):
            found.append(f"{_told(one)}: {one.text()[:60]}")
        if isinstance(one, QAbstractButton) and one.text() and one.width() < one.minimumSizeHint().width() - 1:
            found.append(f"{_told(one)}: {one.text()[:60]}")
        if _reaches_out(one):
            found.append(f"{_told(one)} reaches out")
        if isinstance(one, QScrollArea) and _wider_than_pane(one):
            found.append(f"{_told(one)}: its inside is wider, and no bar goes there")
    return found


def _wider_than_pane(area: QScrollArea) -> bool:
    inside, pane = area.widget(), area.viewport()
    never = area.horizontalScrollBarPolicy() == Qt.ScrollBarPolicy.ScrollBarAlwaysOff
    return never and inside is not None and pane is not None and inside.width() > pane.width()


def _too_small(label: QLabel) -> bool:
    if label.wordWrap():
        return label.height() < label.heightForWidth(label.width()) - 1
    return label.width() < label.minimumSizeHint().width() - 1


def _reaches_out(widget: QWidget) -> bool:
    holder = widget.parentWidget()
    if holder is None or widget.isWindow() or isinstance(holder, QAbstractScrollArea | QTabBar | QHeaderView | QComboBox):
        return False
    grand = holder.parentWidget()
    if isinstance(grand, QAbstractScrollArea):
        return False  # the inside of what scrolls
    return not QRect(QPoint(0, 0), holder.size()).adjusted(-1, -1, 1, 1).contains(widget.geometry())


def scrolls(top: QWidget) -> bool:
    """Whether a page of the window has less room than it asks for."""
    return any(
        page.verticalScrollBar().isVisible() or page.horizontalScrollBar().isVisible() for page in top.findChildren(Roomy)
    )


def backward(came: list[QWidget]) -> list[str]:
    """Where a way round by Tab goes up or to the left, besides the one leap from its end to its beginning; for people."""
    leaps = [(one, other) for one, other in zip(came, [*came[1:], *came[:1]], strict=True) if not _reads_on(one, other)]
    return [f"{_said(one)} -> {_said(other)}" for one, other in leaps] if len(leaps) > 1 else []


def _reads_on(one: QWidget, other: QWidget) -> bool:
    """Whether the second lies after the first as one reads: lower, or further right in the same row or in the next column."""
    first, second = _place(one), _place(other)
    if second.left() >= first.right():
        return True
    return second.top() >= first.bottom() or (second.top() > first.top() and second.left() >= first.left())


def _place(widget: QWidget) -> QRect:
    return QRect(widget.mapTo(widget.window(), QPoint(0, 0)), widget.size())


def _said(widget: QWidget) -> str:
    return widget.accessibleName() or (widget.text() if isinstance(widget, QAbstractButton) else type(widget).__name__)
