"""From the set-up to picking kit colours and back: the film is opened beside, the dialog shown, what was picked handed over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from PyQt6.QtWidgets import QWidget

from filmreview.desktop.actions import KeysOf, first_keys
from filmreview.desktop.desk_presenter import Desk, Start
from filmreview.desktop.kit_colours_dialog import KitColoursDialog
from filmreview.desktop.kit_colours_presenter import KitColours, Part
from filmreview.desktop.known_films import KEPT_BESIDE
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact
from filmreview.film.film import Film
from filmreview.progress import Progress
from filmreview.review.changes import SetReference
from filmreview.review.films import found_film
from filmreview.review.model import PlacedReference

JOB = "film for the kit"


class KitPicking:
    """Asks for kit colours on one film. open_film: opens it once more, for the dialog alone. whites: those of the review on
    this film. film_id: its id, "" while the review is not made. keys_of: those that the person has set. new_whites: those
    pointed at while picking."""

    def __init__(
        self,
        start: Start,
        forget: Callable[..., None],
        open_film: Callable[[Progress], Film],
        whites: tuple[PlacedReference, ...] = (),
        film_id: str = "",
        keys_of: KeysOf = first_keys,
    ) -> None:
        self._start, self._forget, self._open_film = start, forget, open_film
        self._whites, self._film_id, self._keys_of = whites, film_id, keys_of
        self.new_whites: tuple[PlacedReference, ...] = ()

    def ask(
        self,
        part: Part,
        names: Mapping[str, str],
        parent: QWidget,
        then: Callable[[Mapping[Part, Fact]], None],
        failed: Callable[[str], None],
    ) -> None:
        """Show the dialog, regions going to this part at first. then: gets what was picked. failed: told why there is none."""

        def show(film: Film) -> None:
            kit = KitColours(film, self._start, self._forget, (*self.new_whites, *self._whites))
            kit.choose(part)
            dialog = KitColoursDialog(kit, film, names, parent, self._keys_of)
            dialog.accepted.connect(lambda: self._take(dialog, then))
            dialog.open()

        def refused(error: FilmReviewError) -> None:
            failed(str(error))

        self._start(self._open_film, show, refused, JOB)

    def references(self, film_id: str = "") -> tuple[SetReference, ...]:
        """The changes that keep the whites pointed at while picking. film_id: of the film, where it was not known before."""
        return tuple(SetReference(self._film_id or film_id, one.moment, one.region, one.colour) for one in self.new_whites)

    def _take(self, dialog: KitColoursDialog, then: Callable[[Mapping[Part, Fact]], None]) -> None:
        new = dialog.kit.new_whites
        kept = tuple(one for one in self.new_whites if all(one.moment != other.moment for other in new))
        self.new_whites = (*kept, *new)
        then(dialog.facts())


def picking_in(desk: Desk, film_id: str | None, keys_of: KeysOf = first_keys) -> KitPicking | None:
    """For the film of the review that is open; None when it has none. film_id: None for the first one."""
    review = desk.review
    if review is None or not review.films:
        return None
    film = review.film(film_id or review.films[0].id)
    whites = tuple(one for one in review.references if one.film == film.id)
    return KitPicking(
        desk.start,
        desk.forget,
        lambda progress: desk.films.open(found_film(review, film.id), progress, KEPT_BESIDE),
        whites,
        film.id,
        keys_of,
    )


def picking_on(desk: Desk, path: Path, keys_of: KeysOf = first_keys) -> KitPicking:
    """For the film of a review that is not made yet."""

    def open_film(progress: Progress) -> Film:
        return desk.films.open(path, progress, KEPT_BESIDE)

    return KitPicking(desk.start, desk.forget, open_film, keys_of=keys_of)
