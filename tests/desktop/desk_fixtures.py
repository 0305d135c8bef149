"""What the desk's tests share: the films, a game as typed into the set-up, work that is done at once."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from filmreview.desktop.setup_presenter import SetupForm, TeamForm
from filmreview.errors import FilmReviewError
from filmreview.progress import silent

FILMS = Path(__file__).parents[2] / "fixtures" / "films"
FORM = SetupForm(
    "2023-12-05",
    "varsity",
    "nfhs",
    "",
    "R. Valdrune",
    TeamForm("Thrunnockby", {"jersey": "white"}, "3, 10, 14"),
    TeamForm("Ovvermire", {"jersey": "green"}, "0, 00, 14, 22"),
    (("referee", "J. Mosswell"),),
)


class AtOnce:
    """Does work when it is started, on the same thread; `hold` keeps what comes back until `let_go`."""

    def __init__(self) -> None:
        self.hold = False
        self._held: list[tuple[str | None, Callable[[], None]]] = []

    def start(
        self,
        work: Callable[[Any], Any],
        then: Callable[[Any], None] = lambda _answer: None,
        failed: Callable[[FilmReviewError], None] | None = None,
        only: str | None = None,
    ) -> None:
        def run() -> None:
            try:
                answer = work(silent)
            except FilmReviewError as error:
                if failed is None:
                    raise
                failed(error)
            else:
                then(answer)

        if not self.hold:
            run()
            return
        self.forget(only or "")
        self._held.append((only, run))

    def in_turn(
        self,
        work: Callable[[Any], Any],
        then: Callable[[Any], None] = lambda _answer: None,
        failed: Callable[[FilmReviewError], None] | None = None,
    ) -> None:
        """What is done to the review's file is never held."""
        AtOnce().start(work, then, failed)

    def forget(self, *names: str) -> None:
        self._held = [(only, run) for only, run in self._held if only not in names]

    def let_go(self) -> None:
        held, self._held = self._held, []
        for _only, run in held:
            run()
