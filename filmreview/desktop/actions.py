"""Everything the desk can do, as one table: name, words, menu, keys. Menus and the list under F1 are made from it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PyQt6.QtGui import QAction, QKeySequence
from PyQt6.QtWidgets import QMainWindow

from filmreview.desktop.procedure_clock_words import KEY_OF


@dataclass(frozen=True)
class Deed:
    """One thing to do. keys: work anywhere in the window. film_keys: work only while the picture or film strip has the focus.
    needs: "" always, "review" while a review is open, "film" while a film is on the picture."""

    name: str
    menu: str
    words: str
    keys: str = ""
    film_keys: tuple[str, ...] = ()
    needs: str = ""


KeysOf = Callable[[str], tuple[str, ...]]
"""The keys of a deed, by its name, in the portable form of Qt."""
JUMPS: Mapping[str, str] = {"second_back": "Jump b&ack, {}", "second_forward": "Jump f&orward, {}"}
"""The words of deeds that say how far they go, as the settings have it."""
MENUS = ("&Review", "&Tag", "&Film", "&Measure", "&Events", "&Go", "&Help")
DEEDS: tuple[Deed, ...] = (
    Deed("new", "&Review", "&New from a film ...", "Ctrl+N"),
    Deed("open", "&Review", "&Open ...", "Ctrl+O"),
    Deed("made_up", "&Review", "The &made-up game ..."),
    Deed("setup", "&Review", "Game &set-up ...", "Ctrl+G", needs="review"),
    Deed("add_film", "&Review", "&Add a film ...", needs="review"),
    Deed("films", "&Review", "F&ilms of the game ...", "Ctrl+Shift+F", needs="review"),
    Deed("other_review", "&Review", "Another's review &beside this one ...", "Ctrl+Shift+B", needs="review"),
    Deed("letters", "&Review", "&Letters and replies ...", "Ctrl+Shift+R", needs="review"),
    Deed("replies", "&Review", "&Read replies ...", needs="review"),
    Deed("find_film", "&Review", "&Find the film again ...", needs="review"),
    Deed("sheet", "&Review", "Make the findings s&heet ...", "Ctrl+Shift+S", needs="review"),
    Deed("lesson", "&Review", "Ma&ke a lesson ...", "Ctrl+Shift+T", needs="review"),
    Deed("settings", "&Review", "Se&ttings ...", "Ctrl+,"),
    Deed("close", "&Review", "&Close the review", needs="review"),
    Deed("quit", "&Review", "&Quit", "Ctrl+Q"),
    Deed("undo", "&Tag", "&Undo", "Ctrl+Z", needs="review"),
    Deed("redo", "&Tag", "&Redo", "Ctrl+Shift+Z", needs="review"),
    Deed("history", "&Tag", "Histor&y ...", "Ctrl+H", needs="review"),
    Deed("rule", "&Tag", "Read the r&ule ...", "Ctrl+R", needs="review"),
    Deed("tag_here", "&Tag", "&Tag without a region", "Ctrl+T", needs="film"),
    Deed("place_region", "&Tag", "Put a re&gion in the middle", "", ("Insert",), needs="film"),
    Deed("region_shape", "&Tag", "&Next shape of region", "", ("Ctrl+Ins",), needs="film"),
    Deed("point_white", "&Tag", "Point at &white", "Ctrl+Shift+W", ("Shift+Insert",), needs="film"),
    Deed("keep", "&Tag", "&Keep the tag", "Ctrl+Return", needs="review"),
    Deed("drop", "&Tag", "&Drop the card", needs="review"),
    Deed("change", "&Tag", "&Change the tag chosen", "Ctrl+Shift+Return", needs="review"),
    Deed("remove", "&Tag", "Re&move the tags chosen", "Ctrl+Delete", needs="review"),
    Deed("own_call", "&Tag", "Give your own ca&ll", "Ctrl+E", needs="review"),
    Deed("hide_rulings", "&Tag", "&Hide rulings until my own call", needs="review"),
    Deed("score", "&Tag", "&Score of your own calls ...", needs="review"),
    Deed("play", "&Film", "&Play or pause", "F6", ("Space",), needs="film"),
    Deed("back", "&Film", "One frame &back", "F7", ("Left",), needs="film"),
    Deed("forward", "&Film", "One frame &forward", "F8", ("Right",), needs="film"),
    Deed("second_back", "&Film", "Jump b&ack", "Shift+F7", ("Shift+Left",), needs="film"),
    Deed("second_forward", "&Film", "Jump f&orward", "Shift+F8", ("Shift+Right",), needs="film"),
    Deed("film_start", "&Film", "To the s&tart", "", ("Home",), needs="film"),
    Deed("film_end", "&Film", "To the &end", "", ("End",), needs="film"),
    Deed("slower", "&Film", "S&lower", "Ctrl+F7", needs="film"),
    Deed("faster", "&Film", "Fa&ster", "Ctrl+F8", needs="film"),
    Deed("sound", "&Film", "Soun&d on or off", "F9", needs="film"),
    Deed("loop_from", "&Film", "&Loop starts here", "F11", needs="film"),
    Deed("loop_to", "&Film", "Loop ends &here", "Shift+F11", needs="film"),
    Deed("loop_off", "&Film", "Loop o&ff", "Ctrl+F11", needs="film"),
    Deed("beside_here", "&Film", "This moment bes&ide", "F12", needs="film"),
    Deed("beside_tag", "&Film", "The ta&g's moment beside", "Shift+F12", needs="film"),
    Deed("beside_swap", "&Film", "Swap the two &moments", "Ctrl+Shift+F12", needs="film"),
    Deed("beside_off", "&Film", "Put the pict&ure beside away", "Ctrl+F12", needs="film"),
    Deed("nearer", "&Film", "&Nearer", "Ctrl++", ("+",), needs="film"),
    Deed("farther", "&Film", "Fa&rther", "Ctrl+-", ("-",), needs="film"),
    Deed("whole", "&Film", "&Whole picture", "Ctrl+0", ("0",), needs="film"),
    Deed("measure_length", "&Measure", "A &length", "Ctrl+Shift+L", needs="film"),
    Deed("measure_number", "&Measure", "A &number against its jersey", "Ctrl+Shift+N", needs="film"),
    Deed("measure_time", "&Measure", "&Time from this moment on", "Ctrl+Shift+E", needs="film"),
    Deed("measure_stop", "&Measure", "&Stop measuring", needs="film"),
    Deed("note_event", "&Events", "&Put an event down in words", "F4", needs="film"),
    Deed("event_whose", "&Events", "Say &whose the event is", "Shift+F4", needs="review"),
    Deed("event_here", "&Events", "Give the event the &moment on the picture", "Ctrl+M", needs="film"),
    Deed("event_remove", "&Events", "&Remove the events chosen", needs="review"),
    Deed("stoppage", "&Events", "&Begin or end a stoppage", "F5", needs="film"),
    Deed("stoppage_kind", "&Events", "Say the &kind of the stoppage", "Shift+F5", needs="review"),
    Deed("stoppage_drop", "&Events", "&Drop the stoppage begun", needs="review"),
    Deed("stoppage_right", "&Events", "The stoppage here is ri&ght", "Ctrl+F5", needs="review"),
    Deed("stoppage_remove", "&Events", "Remo&ve the stoppage here", "Ctrl+Shift+F5", needs="review"),
    Deed("next_stoppage", "&Go", "To the &next stoppage", "F3", needs="film"),
    Deed("previous_stoppage", "&Go", "To the stoppage &before", "Shift+F3", needs="film"),
    Deed("go_picture", "&Go", "To the &picture", "Ctrl+1", needs="review"),
    Deed("go_strip", "&Go", "To the film &strip", "Ctrl+2", needs="review"),
    Deed("go_card", "&Go", "To the &card", "Ctrl+3", needs="review"),
    Deed("go_ledger", "&Go", "To the &ledger", "Ctrl+4", needs="review"),
    Deed("go_wear", "&Go", "To the &wear board", "Ctrl+5", needs="review"),
    Deed("go_clock", "&Go", "To the pr&ocedure clock", "Ctrl+6", needs="review"),
    Deed("go_stoppages", "&Go", "To the s&toppages", "Ctrl+7", needs="review"),
    Deed("go_measuring", "&Go", "To &measuring", "Ctrl+9", needs="review"),
    Deed("go_beside", "&Go", "To the picture besi&de", "Ctrl+8", needs="film"),
    Deed("same_instant", "&Go", "To the same &instant on another film", "Ctrl+I", needs="film"),
    Deed("common_instant", "&Go", "This is a shared instant of two &films", "Ctrl+Shift+I", needs="film"),
    Deed("look_for", "&Go", "&Look for findings", "Ctrl+L", needs="review"),
    Deed("keys", "&Help", "&Keys", "F1"),
    Deed("about", "&Help", "&About and cautions"),
)

ELSEWHERE: tuple[tuple[str, str, str], ...] = (
    ("Picture", "drag", "draw a box or paint a patch; the inside of a region moves it, its edges and corners reshape it"),
    ("Picture", "click", "set a polygon's corner; on the first one, twice, or Enter: close it"),
    ("Picture", "drag the middle of a polygon's side", "pull a new corner out of it"),
    ("Picture", "Ctrl + drag", "draw anew inside the old region; rub out of a patch"),
    ("Picture", "Ctrl + click on a polygon's corner", "take the corner away"),
    ("Picture", "Shift + drag", "point at white"),
    ("Pointing at white", "Enter", "put a box in the middle; again: take it"),
    ("Pointing at white", "Alt + arrows", "move the box by a pixel; with Shift too, its right and lower edge"),
    ("Pointing at white", "Esc", "point no more"),
    ("Picture", "click on a tag's shape", "open the tag on the card"),
    ("Picture", "wheel", "nearer, farther"),
    ("Picture", "plus, minus, Space tapped", "nearer, farther, play or pause, whatever other keys these have"),
    ("Picture", "middle button or space + drag", "move the picture"),
    ("Picture", "double click", "whole picture"),
    ("Picture", "Alt + arrows", "move the region, or the part held, by a pixel; held down, faster"),
    ("Picture", "Alt + Shift + arrows", "move the region's right and lower edge"),
    ("Picture", "Alt + Page down, Page up", "hold another part: an edge, a corner, the brush"),
    ("Picture", "Alt + Insert, Alt + Delete", "a corner more, a corner less; with the brush held, paint and rub out"),
    ("Picture", "Alt + plus, minus", "a wider, a narrower brush"),
    ("Picture", "Backspace, Esc while a polygon is drawn", "take its last corner back, all of it"),
    ("Picture", "Ctrl + arrows", "look further left, right, up, down"),
    ("Picture", "Enter", "tag without a region"),
    ("Picture", "Delete", "take the region away"),
    ("Measuring", "click, or Enter", "place the next point; Enter with all placed goes on"),
    ("Measuring", "drag, or arrows", "move a point, by a pixel; Shift with arrows, by ten"),
    ("Measuring", "Tab, Shift + Tab", "to the next point, the one before"),
    ("Measuring", "Delete", "take the point away"),
    ("Measuring", "Esc", "stop measuring"),
    ("Picture beside", "Left, Right", "one frame back, forward; with Shift a second"),
    ("Picture beside", "drag", "move the picture"),
    ("Picture beside", "Enter", "swap the two moments"),
    ("Picture beside", "Esc", "put it away"),
    ("Film strip", "click or drag", "go there; on a tag's shape, to the tag"),
    ("Film strip", "drag the loop's start or end", "move it; Esc while it is dragged: leave it where it was"),
    ("Film strip", "wheel on the lower line", "show less or more of the film around now"),
    ("Film strip", "Up, Down", "to the tag before now, after now"),
    ("Film strip", "Page up, Page down", "ten seconds back, forward"),
    ("Card", "Tab, while a word can be completed", "complete it"),
    ("Card", "Enter", "keep the tag"),
    ("Card", "Esc", "drop what was written"),
    ("Ledger", "Enter", "go to the moment"),
    (
        "Ledger",
        "F2",
        "edit in place the official or the note stood on, else the crew mark; of several rows chosen, all",
    ),
    ("Ledger", "double click", "open the tag on the card"),
    ("Ledger", "Delete", "remove the tags chosen"),
    ("Another's review", "Space", "take theirs, or keep mine"),
    ("Another's review", "Enter", "go to the moment"),
    ("Own calls", "Enter", "in the list: go to the moment; beside it: give the call"),
    ("Own calls", "F2", "to the call on the tag chosen"),
    ("Wear board", "click or Enter", "go to the moment; again, to the next tag of the cell"),
    ("Wear board", "F2 or double click", "open the tag on the card"),
    ("Procedure clock", "Enter", "go to the event or the departure"),
    ("Procedure clock", "F2", "change the event on the line"),
    ("Procedure clock", "Delete", "remove the events chosen"),
    *(("Procedure clock open", key, f"put down at once: {what}") for what, key in KEY_OF.items()),
    ("Lesson, its questions", "Space", "ask it, or leave it out"),
    ("Lesson, its questions", "Alt + Up, Alt + Down", "ask it earlier, later"),
    ("History", "Enter", "undo back to the step chosen, or redo up to it"),
    ("Stoppages", "Enter", "go to where it starts; on its end, to its end"),
    ("Stoppages", "F2", "edit the kind or the note in place"),
    ("Stoppages", "Delete", "remove the stoppages chosen"),
)
"""What the mouse and single places do: place, key or mouse, what happens."""


def make_actions(window: QMainWindow, handlers: Mapping[str, Callable[[], object]]) -> dict[str, QAction]:
    """An action a deed, in the window's menus. handlers: one a name; a missing one is a fault of the program (KeyError)."""
    bar = window.menuBar()
    assert bar is not None, "a main window makes its own menu bar"
    menus = {title: bar.addMenu(title) for title in MENUS}
    actions = {}
    for deed in DEEDS:
        action = QAction(deed.words, window)
        if deed.keys:
            action.setShortcut(QKeySequence(deed.keys))
        action.setToolTip(plain_words(deed))
        handler = handlers[deed.name]
        action.triggered.connect(lambda _checked=False, handler=handler: handler())
        menu = menus[deed.menu]
        assert menu is not None, "a menu of the bar"
        menu.addAction(action)
        actions[deed.name] = action
    return actions


def first_keys(name: str) -> tuple[str, ...]:
    """The keys that a deed has at first."""
    deed = next(one for one in DEEDS if one.name == name)
    return (*([deed.keys] if deed.keys else []), *deed.film_keys)


def plain_words(deed: Deed) -> str:
    """The words without the mark of the menu's letter."""
    return deed.words.replace("&", "").removesuffix(" ...")
