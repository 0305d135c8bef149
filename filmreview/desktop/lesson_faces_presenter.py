"""The faces of a lesson while they are looked at: stretches, answers, and the blur list with its boxes. No Qt."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.film.moment import Moment
from filmreview.lessons.blur_regions import box_at, with_room
from filmreview.lessons.clip import Clip
from filmreview.lessons.face_proposal import propose_faces
from filmreview.lessons.lesson_blurs import LOST, Face, followed_face, list_change, put_right
from filmreview.lessons.lesson_faces import BLURRED, answer_faces
from filmreview.lessons.lesson_faces import Stretch as FilmStretch
from filmreview.lessons.pictures import frames_of
from filmreview.lessons.preview import preview
from filmreview.progress import Progress
from filmreview.review.changes import Change, Together
from filmreview.review.films import found_film
from filmreview.review.lesson_changes import AddBlur, EditBlur, RemoveBlur
from filmreview.review.model import Blur, BlurAt

PICTURES = ("lesson faces picture", "lesson faces small")
WORK = "lesson faces work"
"""The names of its jobs."""


@dataclass(frozen=True)
class FaceFrame:
    """One frame of a stretch. picture: uint8 (h, w, 3), with the listed blurs where `blurred`. boxes: of the blurs there, by
    their ids. time: in the film."""

    picture: np.ndarray
    moment: Moment
    time: str
    boxes: tuple[tuple[str, Box], ...]


class FacesPresenter:
    """The faces of one lesson. stretches: what the lesson shows now."""

    def __init__(self, desk: Desk, stretches: Callable[[], tuple[FilmStretch, ...]]) -> None:
        self.events = Events("stretches", "frame", "pictures", "work")
        self._desk, self._stretches = desk, stretches
        self.frame: FaceFrame | None = None
        self.fault = ""
        self.working = ""
        self._pictures: dict[tuple[str, BlurAt], np.ndarray] = {}

    def review_changed(self) -> None:
        """The review or the lesson changed: answers and blurs may be others now."""
        self.events.tell("stretches")

    def stretches(self) -> tuple[FilmStretch, ...]:
        """Every stretch with its answer and its blurs, as they are now."""
        return self._stretches()

    def answer(self, place: int, choice: str) -> None:
        """Keep the answer for the faces of a stretch; what stands in the way is told by `fault`."""
        review, stretch = self._desk.review, self.stretches()[place]
        if review is not None:
            change = answer_faces(review, (stretch,), choice)
            if change is not None:
                self._change(change)

    def answer_all(self, choice: str) -> None:
        """Keep the same answer for every stretch; "blurred" only for those that have blurs."""
        review = self._desk.review
        wanted = [one for one in self.stretches() if choice != BLURRED or one.blurs]
        change = answer_faces(review, wanted, choice) if review is not None else None
        if change is not None:
            self._change(change)

    def want_frame(self, place: int, share: float, blurred: bool) -> None:
        """Make the frame at a share (0 to 1) of a stretch; "frame" is told when it is there."""
        review, stretches = self._desk.review, self.stretches()
        if review is None or not 0 <= place < len(stretches):
            return
        stretch = stretches[place]

        def work(progress: Progress) -> FaceFrame:
            with self._desk.films.open(found_film(review, stretch.film.id), progress, kept_bytes=1) as film:
                return _frame(film, stretch, share, blurred)

        self._desk.start(work, self._take, self._failed, PICTURES[0])

    def picture_of(self, blur: Blur) -> np.ndarray | None:
        """The small picture of a blur's first box, uint8 (h, w, 3); None while it is not made."""
        return self._pictures.get((blur.id, blur.regions[0]))

    def want_pictures(self, place: int) -> None:
        """Make the small pictures of a stretch that are missing; "pictures" is told when they are there."""
        review, stretch = self._desk.review, self.stretches()[place]
        missing = [one for one in stretch.blurs if self.picture_of(one) is None]
        if review is None or not missing:
            return

        def work(progress: Progress) -> dict[tuple[str, BlurAt], np.ndarray]:
            with self._opened(stretch, progress) as film:
                return {(one.id, one.regions[0]): _small(film, one.regions[0]) for one in missing}

        self._desk.start(work, self._take_pictures, self._failed, PICTURES[1])

    def add(self, place: int, box: Box) -> None:
        """A face in this box on the frame shown: followed to both ends of the stretch, then put on the list."""
        frame, stretch = self.frame, self.stretches()[place]
        if frame is None:
            return
        start = BlurAt(frame.moment, box)

        def work(progress: Progress) -> Face:
            with self._opened(stretch, progress) as film:
                return followed_face(film, stretch, start, progress)

        def then(face: Face) -> None:
            self._list_changed(face.add, stretch, "face put on the list", told=LOST if face.lost else "")

        self._start("following the face", work, then)

    def correct(self, place: int, blur_id: str, box: Box) -> None:
        """The face of a blur is in this box on the frame shown; from there it is followed anew."""
        frame, review, stretch = self.frame, self._desk.review, self.stretches()[place]
        if frame is None or review is None:
            return
        blur = review.blur(blur_id)

        def work(progress: Progress) -> Blur:
            with self._opened(stretch, progress) as film:
                return put_right(film, stretch, blur, BlurAt(frame.moment, box), progress)

        words = "blur put right"
        self._start("following the face anew", work, lambda made: self._list_changed(EditBlur(made), stretch, words, blur_id))

    def remove(self, place: int, blur_id: str) -> None:
        """Take a blur off the list."""
        self._list_changed(RemoveBlur(blur_id), self.stretches()[place], "blur taken off the list", blur_id)

    def propose(self, place: int) -> None:
        """Put on the list what the face finder proposes for a stretch; a person looks at it before anything is written."""
        stretch = self.stretches()[place]

        def work(progress: Progress) -> tuple[AddBlur, ...]:
            with self._opened(stretch, progress) as film:
                return propose_faces(film, stretch.span, stretch.film.id, progress)

        def then(found: tuple[AddBlur, ...]) -> None:
            told = f"{len(found) or 'no'} face{'' if len(found) == 1 else 's'} found: look at every frame, add what was missed"
            if found:
                self._list_changed(Together(found, "faces"), stretch, f"{len(found)} faces proposed", told=told)
            else:
                self._told(told)

        self._start("looking for faces", work, then)

    def _opened(self, stretch: FilmStretch, progress: Progress) -> Film:
        review = self._desk.review
        assert review is not None, "a stretch is of an open review"
        return self._desk.films.open(found_film(review, stretch.film.id), progress, kept_bytes=1)

    def _list_changed(self, change: Change, stretch: FilmStretch, words: str, blur_id: str = "", told: str = "") -> None:
        review = self._desk.review
        if review is not None:
            blur = review.blur(blur_id) if blur_id else None
            self._change(list_change(review, stretch, change, words, blur), told)

    def _change(self, change: Change, told: str = "") -> None:
        self._desk.change(change, lambda _ids: self._told(told), self._failed)

    def _start(self, words: str, work: Callable[[Progress], object], then: Callable[..., None]) -> None:
        self.working = words
        self.events.tell("work")

        def done(made: object) -> None:
            self.working = ""
            then(made)
            self.events.tell("work")

        self._desk.start(work, done, self._failed, WORK)

    def _take(self, frame: FaceFrame) -> None:
        self.frame, self.fault = frame, ""
        self.events.tell("frame")

    def _take_pictures(self, made: dict[tuple[str, BlurAt], np.ndarray]) -> None:
        self._pictures |= made
        self.events.tell("pictures")

    def _failed(self, error: FilmReviewError) -> None:
        self._told(str(error))

    def _told(self, words: str) -> None:
        self.working, self.fault = "", words
        self.events.tell("work")


def _small(film: Film, at: BlurAt) -> np.ndarray:
    """What is in a box, with a little around it."""
    picture = film.frame_at(at.moment).picture()
    box = with_room(at.box, picture.shape[1], picture.shape[0])
    return picture[box.y : box.bottom, box.x : box.right].copy()


def _frame(film: Film, stretch: FilmStretch, share: float, blurred: bool) -> FaceFrame:
    first, stop = frames_of(stretch.span, film)
    number = min(stop - 1, first + int(share * (stop - first)))
    moment = film.moment_of(number)
    boxes = tuple((one.id, box) for one in stretch.blurs if (box := box_at(one, moment)) is not None)
    if blurred:
        clip = Clip(Path(film.path), stretch.span, blurs=stretch.blurs)
        picture = preview(clip, film, number - first, "question")
    else:
        picture = film.frame(number).picture()
    return FaceFrame(picture, moment, stretch.film.time_text(moment), boxes)
