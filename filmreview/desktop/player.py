"""The player: joins a film, its playback and the picture. Play, pause on the exact frame, step, jump, rate, sound.

In: intentions (methods). Out: signals with the picture to paint. It owns the `Playback`; all decoding is done by one worker.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from PyQt6.QtCore import QObject, QTimer, pyqtSignal

from filmreview.desktop.loop_gate import LoopGate, LoopWatch, Verdict
from filmreview.desktop.player_gate import OpeningGate, opening_pictures
from filmreview.desktop.player_relay import PictureRelay
from filmreview.desktop.player_source import open_playback
from filmreview.desktop.player_worker import NewestWorker
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment
from filmreview.film.playback import RATES, Playback, Shown
from filmreview.film.playback_match import shown_frame
from filmreview.film.vlc_playback import vlc_trouble

_NO_PICTURE_MS = 4000  # a source that shows nothing for so long does not play this film


@dataclass(frozen=True)
class _Stand:
    """What the worker found: the frame to stand on, and its picture."""

    frame: Frame
    picture: np.ndarray


class Player(QObject):
    """Plays one film and, whenever it does not play, stands on one exact frame of it.

    Connect `picture_shown` to `PictureCanvas.show_picture`; everything that tags or measures takes `frame`, which is None
    while the film plays and while the exact frame is being looked up (some 20 to 300 ms after a pause or jump).
    wanted_source: "vlc" or "built-in" to override the choice; None lets the player choose.
    """

    film_changed = pyqtSignal(object)  # Film | None
    picture_shown = pyqtSignal(object)  # uint8 (h, w, 3), or None: paint it; playing or paused
    frame_shown = pyqtSignal(object)  # Frame: the film stands on this exact frame and it is the picture shown
    time_changed = pyqtSignal(object)  # Fraction seconds from the film's start: exact when paused, near while playing
    playing_changed = pyqtSignal(bool)
    rate_changed = pyqtSignal(float)
    sound_changed = pyqtSignal(bool)
    ended = pyqtSignal()  # played to the end; the film stands on its last frame
    trouble = pyqtSignal(str)  # one line for the person: playback failed, film unplugged ...

    def __init__(self, parent: QObject | None = None, wanted_source: str | None = None) -> None:
        super().__init__(parent)
        self._wanted_source = wanted_source
        self._film: Film | None = None
        self._frame: Frame | None = None
        self._number = 0  # of the frame stood on, or on the way to
        self._time = Fraction(0)
        self._playing = False
        self._rate, self._sound = 1.0, True
        self._playback: Playback | None = None
        self._refused: set[str] = set()
        self._seen: Shown | None = None  # the picture painted last while playing
        self._gate: OpeningGate | None = None
        self._loop: LoopWatch | None = None
        self._asked: dict[int, Callable[[object, bool], None]] = {}
        self._worker: NewestWorker | None = None
        self._relay = PictureRelay(self)
        self._relay.picture_came.connect(self._paint_newest)
        self._relay.ended.connect(self._film_ended)
        self._relay.failed.connect(self._playback_failed)
        self._watch = QTimer(self)
        self._watch.setSingleShot(True)
        self._watch.timeout.connect(self._nothing_came)
        self._warming: threading.Thread | None = None

    @property
    def film(self) -> Film | None:
        """The film, None before one is opened."""
        return self._film

    @property
    def frame(self) -> Frame | None:
        """The exact frame on screen; None while playing or on the way to another one."""
        return self._frame

    @property
    def time(self) -> Fraction:
        """Seconds from the film's start: exact when paused, near while playing."""
        return self._time

    @property
    def playing(self) -> bool:
        """Whether the film plays."""
        return self._playing

    @property
    def rate(self) -> float:
        """How fast it plays, 1 as recorded."""
        return self._rate

    @property
    def rates(self) -> tuple[float, ...]:
        """The rates it can play at."""
        return self._playback.rates if self._playback is not None else RATES

    @property
    def sound(self) -> bool:
        """Whether it plays with sound."""
        return self._sound

    @property
    def source_name(self) -> str | None:
        """Which source plays: "vlc" or "built-in"; None before the film was first played."""
        return self._playback.name if self._playback is not None else None

    def open(self, film: Film) -> None:
        """Take this film (the player closes the one before and this one in `close`) and stand on its first frame."""
        self.close()
        self._film = film
        self._worker = NewestWorker("film-player", self)
        self._worker.done.connect(self._answer)
        self._worker.failed.connect(self._refuse)
        self.film_changed.emit(film)
        self._stand_on(0, self._warm)

    def close(self) -> None:
        """Stop, let go of film and playback, wait for the worker. Called before the window closes; may be called twice."""
        if self._film is None or self._worker is None:
            return
        self._set_playing(False)
        self._close_playback()
        self._asked.clear()
        self._film.close()  # first, so that the worker does not decode a whole group for nobody
        self._worker.close()
        self._worker.deleteLater()
        if self._warming is not None:
            self._warming.join()
        self._film = self._frame = self._worker = self._warming = None
        self._number, self._time, self._loop = 0, Fraction(0), None
        self._refused.clear()
        self.film_changed.emit(None)
        self.picture_shown.emit(None)

    def want_source(self, name: str | None) -> None:
        """Let this source play from the next play on; None lets the player choose."""
        if name == self._wanted_source:
            return
        self._wanted_source = name
        self.pause()
        self._refused.clear()
        self._close_playback()

    def set_loop(self, loop: LoopGate | None) -> None:
        """Play this part over and over from the next play on; None to play on as ever. It must be of the film that is open.

        The built-in source plays it where that works: sent back to the start it is there at once and with the right frame, at
        every rate. libvlc drops frames then at more than the recorded rate, and waits long at less; it plays a loop only where
        nothing else can, and no faster than recorded.
        """
        self._loop = LoopWatch(loop) if loop is not None else None
        wanted = "built-in" if loop is not None else self._wanted_source
        if not self._playing and self._playback is not None and self._playback.name != wanted:
            self._close_playback()

    def play(self) -> None:
        """Play from where the film stands; from the start when it stands on the last frame. With a loop: inside it, from its
        start when the film stands elsewhere."""
        if self._film is None or self._playing or not self._ready_to_play():
            return
        if self._number >= self._film.info.frames - 1:
            self._number = 0
        if self._loop is not None and not self._loop.gate.holds(self._number):
            self._number = self._loop.gate.first
        self._set_playing(True)
        film, number = self._film, self._number
        self._ask(lambda: opening_pictures(film, number), self._begin)

    def pause(self) -> None:
        """Stop on the exact frame that was last shown."""
        if not self._playing or self._film is None:
            return
        self._halt()
        self._look_up_seen()

    def toggle(self) -> None:
        """Play when paused, pause when playing."""
        if self._playing:
            self.pause()
        else:
            self.play()

    def step(self, count: int) -> None:
        """Go this many frames forward (positive) or back; pauses first. Stops at the film's ends."""
        if self._film is None:
            return
        if self._playing:
            self._halt()
            self._look_up_seen(count)
        else:
            self._stand_on(self._number + count)

    def jump(self, moment: Moment) -> None:
        """Stand on exactly this frame; pauses first. Raises FilmReviewError when the film has no frame there."""
        if self._film is not None:
            number = self._film.number_of(moment)
            self._halt()
            self._stand_on(number)

    def jump_to(self, seconds: Fraction) -> None:
        """Stand on the frame shown at this time from the film's start, held inside the film; pauses first."""
        if self._film is not None:
            held = min(max(Fraction(0), seconds), self._film.time_of(self._film.moment_of(self._film.info.frames - 1)))
            self.jump(self._film.moment_at(held))

    def set_rate(self, rate: float) -> None:
        """Play at this rate, one of `rates`."""
        self._rate = rate
        if self._playback is not None:
            self._playback.set_rate(self._rate_of(self._playback))
        self.rate_changed.emit(rate)

    def set_sound(self, on: bool) -> None:
        """Sound on or off."""
        self._sound = on
        if self._playback is not None:
            self._playback.set_sound(on)
        self.sound_changed.emit(on)

    # Playing

    def _ready_to_play(self) -> bool:
        if self._playback is not None:
            return True
        assert self._film is not None
        try:
            wanted = "built-in" if self._loop is not None else self._wanted_source
            self._playback = open_playback(self._film, self._relay, wanted, self._refused)
        except FilmReviewError as error:
            self.trouble.emit(str(error))
            return False
        self._playback.set_rate(self._rate_of(self._playback))
        self._playback.set_sound(self._sound)
        return True

    def _rate_of(self, playback: Playback) -> float:
        return min(1.0, self._rate) if self._loop is not None and playback.name == "vlc" else self._rate

    def _begin(self, pictures: object, newest: bool) -> None:
        if not newest or not self._playing or self._playback is None or self._film is None:
            return
        assert isinstance(pictures, list)
        self._gate = OpeningGate(pictures)
        if self._loop is not None and self._number == self._loop.gate.first:
            self._loop.begin_again(self._rate)
        self._watch.start(_NO_PICTURE_MS)
        self._relay.clear()
        try:
            self._playback.play(self._film.moment_of(self._number))
        except FilmReviewError as error:
            self._playback_failed(error)

    def _paint_newest(self) -> None:
        shown = self._relay.take()
        if shown is None or not self._playing:
            return
        self._watch.stop()
        if self._gate is not None and not self._gate.lets_through(shown):
            return
        self._gate = None
        verdict = self._loop.judge(shown) if self._loop is not None else Verdict.PAINT
        if verdict is Verdict.AGAIN:
            self._play_again()
        if verdict is not Verdict.PAINT:
            return
        self._seen = shown
        self._time = shown.seconds
        self.picture_shown.emit(shown.picture)
        self.time_changed.emit(shown.seconds)

    def _play_again(self) -> None:
        """From the start of the loop; what was painted last stays on screen until its first picture comes."""
        assert self._playback is not None
        assert self._loop is not None
        self._loop.begin_again(self._rate)
        self._number = self._loop.gate.first
        self._watch.start(_NO_PICTURE_MS)
        self._relay.clear()
        try:
            self._playback.play(self._loop.gate.start)
        except FilmReviewError as error:
            self._playback_failed(error)

    def _halt(self) -> None:
        """Stop the source where it is; what was painted last stays on screen."""
        if not self._playing:
            return
        self._watch.stop()
        if self._playback is not None:
            self._playback.pause()
        self._relay.clear()
        self._set_playing(False)

    def _look_up_seen(self, count: int = 0) -> None:
        """Stand on the frame painted last, or that many frames from it."""
        film, seen = self._film, self._seen
        assert film is not None
        if seen is None:
            self._stand_on(self._number + count)
            return

        def find() -> _Stand:
            frame = shown_frame(film, seen)
            if count:
                frame = film.frame(min(max(0, frame.number + count), film.info.frames - 1))
            return _Stand(frame, frame.picture())

        self._frame = None
        self._ask(find, self._take_stand)

    def _film_ended(self) -> None:
        if self._playing and self._film is not None:
            if self._loop is not None:
                self._play_again()
                return
            self._halt()
            self._stand_on(self._film.info.frames - 1)
            self.ended.emit()

    def _nothing_came(self) -> None:
        if self._playing and self._film is not None:
            self._playback_failed(FilmReviewError("playback shows no picture", where=str(self._film.path)))

    def _playback_failed(self, error: FilmReviewError) -> None:
        """Try the other source from here; when none is left, stand still and say so."""
        if self._playback is None or self._film is None:
            return
        self._refused.add(self._playback.name)
        was_playing = self._playing
        self._set_playing(False)
        self._watch.stop()
        self._close_playback()
        if was_playing and self._ready_to_play():
            self.play()
            return
        self.trouble.emit(str(error))
        self._look_up_seen()

    def _close_playback(self) -> None:
        if self._playback is not None:
            self._playback.close()
            self._playback = None
        self._relay.clear()

    def _set_playing(self, playing: bool) -> None:
        if playing == self._playing:
            return
        self._playing = playing
        if playing:
            self._frame = self._seen = None
        self.playing_changed.emit(playing)

    # Standing

    def _warm(self) -> None:
        """On the worker's thread: libvlc takes a while to start, so it starts beside, and the first play begins at once."""
        if self._wanted_source != "built-in":
            self._warming = threading.Thread(target=vlc_trouble, name="film-warming", daemon=True)
            self._warming.start()

    def _stand_on(self, number: int, first: Callable[[], None] | None = None) -> None:
        assert self._film is not None
        film = self._film
        number = min(max(0, number), film.info.frames - 1)
        self._number, self._frame = number, None

        def fetch() -> _Stand:
            if first is not None:
                first()
            frame = film.frame(number)
            return _Stand(frame, frame.picture())

        self._ask(fetch, self._take_stand)

    def _take_stand(self, found: object, newest: bool) -> None:
        if self._playing or self._film is None:
            return
        assert isinstance(found, _Stand)
        if not newest:  # on the way to another frame: something to look at meanwhile
            self.picture_shown.emit(found.picture)
            return
        self._seen = None
        self._frame, self._number = found.frame, found.frame.number
        self._time = self._film.time_of(found.frame.moment)
        self.picture_shown.emit(found.picture)
        self.time_changed.emit(self._time)
        self.frame_shown.emit(found.frame)

    # The worker

    def _ask(self, work: Callable[[], object], then: Callable[[object, bool], None]) -> None:
        assert self._worker is not None
        ticket = self._worker.ask(work)
        self._asked[ticket] = then

    def _newest(self, ticket: int) -> bool:
        """Whether this answers what was asked last; older questions are settled by it, too."""
        newest = ticket == max(self._asked)
        self._asked = {other: then for other, then in self._asked.items() if other > ticket}
        return newest

    def _answer(self, ticket: int, result: object) -> None:
        then = self._asked.get(ticket)
        if then is not None:
            then(result, self._newest(ticket))

    def _refuse(self, ticket: int, error: FilmReviewError) -> None:
        if ticket in self._asked and self._newest(ticket):
            self._set_playing(False)
            self.trouble.emit(str(error))
