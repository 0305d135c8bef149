"""How reviews and films are opened: the dialogs that ask, the jobs that read, and what the desk is given in the end."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

from PyQt6.QtCore import QObject
from PyQt6.QtWidgets import QFileDialog, QWidget

from filmreview.aside import free_path
from filmreview.desktop.actions import KeysOf, first_keys
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Jobs
from filmreview.desktop.kit_colours_picking import KitPicking, picking_in, picking_on
from filmreview.desktop.settings import Settings
from filmreview.desktop.setup_dialog import SetupDialog
from filmreview.desktop.setup_presenter import SetupForm, form_of, game_of
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.progress import Progress
from filmreview.review import store as stores
from filmreview.review.changes import Change, EditGame, Together
from filmreview.review.films import add_film, found_film, move_film
from filmreview.review.model import Game
from filmreview.review.store import Store
from filmreview.rules.library import adoption_names

ENDING = ".filmreview"
FILMS = "Films (*.mp4 *.mov *.mkv *.avi *.ts *.mts *.m4v *.webm *.mpg *.mpeg);;All files (*)"
REVIEWS = f"Reviews (*{ENDING});;All files (*)"


class Opening(QObject):
    """Opens things for one window. opened: told with the path of the review when it is open. keys_of: the keys in force; the
    window, which has them, gives it."""

    def __init__(self, desk: Desk, jobs: Jobs, settings: Settings, window: QWidget, opened: Callable[[Path], None]) -> None:
        super().__init__(window)
        self._desk, self._jobs, self._settings, self._window = desk, jobs, settings, window
        self._opened = opened
        self.keys_of: KeysOf = first_keys
        self._wanted: Path | None = None  # what was chosen last, while it is being opened

    def open_any(self, path: Path) -> None:
        """Open a review, or begin one from a film."""
        if path.suffix == ENDING:
            self.open_review(path)
        else:
            self.new_from_film(path)

    def ask_review(self) -> None:
        """Ask for a review and open it."""
        path, _kind = QFileDialog.getOpenFileName(self._window, "Open a review", self._folder(), REVIEWS)
        if path:
            self.open_review(Path(path))

    def ask_film(self) -> None:
        """Ask for a film and begin a review from it."""
        path = self._asked_film("New review: choose the film")
        if path:
            self.new_from_film(path)

    def open_review(self, path: Path) -> None:
        """Open a review and its first film; of several chosen in a hurry, the last one."""
        path, who = path.absolute(), self._settings.who()
        already, self._wanted = self._wanted == path, path
        if not already:
            self._jobs.drop("open")
            self._jobs.in_turn(
                lambda _progress: stores.open(path, who), self._take_opened, lambda error: self._not_opened(path, error)
            )

    def new_from_film(self, path: Path) -> None:
        """Read the film, ask for the game, make the review."""
        self._wanted = path
        self._desk.message(f"reading {path.name} ...")
        self._jobs.start(lambda progress: self._desk.films.open(path, progress), self._ask_game, only="open")

    def change_setup(self) -> None:
        """Ask for the game's set-up again."""
        review = self._desk.review
        if review is None:
            return
        picking = picking_in(self._desk, self._desk.film_id, self.keys_of)
        dialog = SetupDialog(form_of(review.game), adoption_names(), None, self._window, picking)
        dialog.accepted.connect(lambda: self._change_game(dialog))
        dialog.open()

    def ask_another_film(self) -> None:
        """Ask for one more film of the same game."""
        review, path = self._desk.review, self._asked_film("Add a film of the same game")
        if review is not None and path:
            self._with_film(path, lambda film: add_film(film, review.path))

    def ask_lost_film(self) -> None:
        """Ask where the review's film is now; it is known again by its size and digest."""
        review = self._desk.review
        if review is None or not review.films:
            return
        film_id = self._desk.film_id or review.films[0].id
        path = self._asked_film(f"Where is {review.film(film_id).name} now?")
        if path:
            self._with_film(path, lambda film: move_film(review, film_id, film))

    def show_film(self, film_id: str) -> None:
        """Put a film of the review on the picture."""
        review = self._desk.review
        if review is None:
            return
        # What is on the picture must never be of another film than tags go to, while the other one is read or if it is lost.
        self._desk.take_film(film_id, None)

        def work(progress: Progress) -> Film:
            return self._desk.films.open(found_film(review, film_id), progress)

        def lost(error: FilmReviewError) -> None:
            self._desk.message(f"{error}: Review, Find the film again; everything else can be read and tagged")

        self._jobs.start(work, lambda film: self._desk.take_film(film_id, film), lost, only="film")

    def follow_review(self, _index: int = 0) -> None:
        """Undo may have taken the film out of the review, or redo brought it back: the picture follows."""
        review = self._desk.review
        if review is None:
            return
        known = [film.id for film in review.films]
        if self._desk.film_id is not None and self._desk.film_id not in known:
            self._jobs.drop("film")
            self._desk.take_film(None, None)
        if self._desk.film_id is None and known:
            self.show_film(known[0])

    def close_review(self) -> None:
        """Close what is open."""
        self._jobs.drop("film")
        self._desk.take_film(None, None)
        self._desk.take_store(None)
        self._desk.message("the review is closed; everything is kept")

    def _ask_game(self, film: Film) -> None:
        chosen = self._settings.chosen()
        form = SetupForm(date.today().isoformat(), chosen.level, chosen.book, observer=chosen.who)
        picking = picking_on(self._desk, film.path, self.keys_of)
        dialog = SetupDialog(form, adoption_names(), free_path(film.path.with_suffix(ENDING)), self._window, picking)
        dialog.accepted.connect(lambda: self._make(film, dialog))
        dialog.rejected.connect(lambda: self._not_begun(film))
        self._desk.message(f"{film.path.name} is read; say which game it is")
        dialog.open()

    def _not_begun(self, film: Film) -> None:
        film.close()
        self._desk.message(f"no review of {film.path.name} was begun")

    def _make(self, film: Film, dialog: SetupDialog) -> None:
        path = Path(dialog.path.text().strip()).expanduser()

        def refused(error: FilmReviewError) -> None:
            self._desk.message(str(error))
            dialog.open()  # what was typed is still there

        def then(made: tuple[Store, str]) -> None:
            if game.observer:
                self._settings.set_who(game.observer)
            self._take_store(*made, film)

        try:
            game = game_of(dialog.form())
        except FilmReviewError as error:
            refused(error)
            return
        who = game.observer or self._settings.who()
        self._jobs.in_turn(lambda _progress: _made(path, game, who, film, dialog.picking), then, refused)

    def _change_game(self, dialog: SetupDialog) -> None:
        def refused(error: FilmReviewError) -> None:
            self._desk.message(str(error))
            dialog.open()  # what was typed is still there

        review = self._desk.review
        try:
            game = game_of(dialog.form())
            hidden = review is not None and review.game.rulings_hidden  # not asked for in the dialog
            edit = EditGame(replace(game, rulings_hidden=hidden))
            whites = dialog.picking.references() if dialog.picking is not None else ()
            self._desk.change(Together((edit, *whites)) if whites else edit, lambda _ids: None, refused)
        except FilmReviewError as error:
            refused(error)

    def _take_opened(self, store: Store) -> None:
        if self._wanted in (store.path, None):
            self._wanted = None
            self._take_store(store)
        else:  # another one was chosen meanwhile
            self._jobs.in_turn(lambda _progress: store.close())

    def _not_opened(self, path: Path, error: FilmReviewError) -> None:
        if self._wanted == path:
            self._wanted = None
        self._jobs.failed(error)

    def _take_store(self, store: Store, film_id: str | None = None, film: Film | None = None) -> None:
        self._jobs.drop("film")
        self._desk.take_film(None, None)
        self._desk.take_store(store)
        self._settings.add_recent(store.path)
        self._desk.message(f"{store.path.name} is open; every tag is kept at once")
        if film is not None:
            self._desk.take_film(film_id, film)
        elif store.review.films:
            self.show_film(store.review.films[0].id)
        self._opened(store.path)

    def _with_film(self, path: Path, change: Callable[[Film], Change]) -> None:
        def refused(film: Film, error: FilmReviewError) -> None:
            film.close()
            self._desk.message(str(error))

        def then(film: Film) -> None:
            try:
                asked = change(film)
            except FilmReviewError as error:
                refused(film, error)
            else:
                self._desk.change(asked, lambda ids: self._desk.take_film(ids[0], film), lambda error: refused(film, error))

        self._jobs.start(lambda progress: self._desk.films.open(path, progress), then, only="film")

    def _asked_film(self, title: str) -> Path | None:
        path, _kind = QFileDialog.getOpenFileName(self._window, title, self._folder(), FILMS)
        return Path(path) if path else None

    def _folder(self) -> str:
        recent = self._settings.recent()
        return str(recent[0].parent) if recent else str(Path.home())


def _made(path: Path, game: Game, who: str, film: Film, picking: KitPicking | None) -> tuple[Store, str]:
    """A new review with its first film, and that film's id; with the whites pointed at while the kit was picked."""
    store = stores.create(path, game, who)
    try:
        film_id = store.apply(add_film(film, store.path))[0]
        for white in picking.references(film_id) if picking is not None else ():
            store.apply(white)
        return store, film_id
    except BaseException:
        store.close()
        raise
