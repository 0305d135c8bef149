"""What a presenter tells its views: that something changed, and what. No Qt here, so presenters run without a screen."""

from __future__ import annotations

from collections.abc import Callable

Listener = Callable[[], None]


class Events:
    """Named events and who listens. Listeners are called in the order they came, on the caller's thread."""

    def __init__(self, *names: str) -> None:
        self._listeners: dict[str, list[Listener]] = {name: [] for name in names}

    def on(self, name: str, listener: Listener) -> None:
        """Call the listener whenever this event is told. An unknown name is a fault of the program (KeyError)."""
        self._listeners[name].append(listener)

    def tell(self, *names: str) -> None:
        """Tell these events."""
        for name in names:
            for listener in tuple(self._listeners[name]):
                listener()
