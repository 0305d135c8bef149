"""The player: joins a film, its playback and the picture. Play, pause on the exact frame, step, jump, rate, sound.

In: intentions (slots). Out: signals with the picture to paint. It owns the `Playback`; slow decoding is done by one worker.
"""

from __future__ import annotations

from fractions import Fraction

from PyQt6.QtCore import QObject, pyqtSignal

from filmreview.film.film import Film
from filmreview.film.moment import Moment


class Player(QObject):
    """Plays one film and, whenever it does not play, stands on one exact frame of it.

    Connect `picture_shown` to `PictureCanvas.show_picture`; everything that tags or measures takes `frame`, which is None
    while the film plays and while the exact frame is being looked up (some 20 to 300 ms after a pause or jump).
    """

    film_changed = pyqtSignal(object)  # Film | None
    picture_shown = pyqtSignal(object)  # uint8 (h, w, 3): paint it; playing or paused
    frame_shown = pyqtSignal(object)  # Frame: the film stands on this exact frame and it is the picture shown
    time_changed = pyqtSignal(object)  # Fraction seconds from the film's start: exact when paused, near while playing
    playing_changed = pyqtSignal(bool)
    rate_changed = pyqtSignal(float)
    sound_changed = pyqtSignal(bool)
    ended = pyqtSignal()  # played to the end; the film stands on its last frame
    trouble = pyqtSignal(str)  # one line for the person: playback failed, film unplugged ...

    def open(self, film: Film) -> None:
        """Take this film (the player closes the one before and this one in `close`) and stand on its first frame."""

    def close(self) -> None:
        """Stop, let go of film and playback, wait for the worker. Called before the window closes; may be called twice."""

    def play(self) -> None:
        """Play from where the film stands; from the start when it stands on the last frame."""

    def pause(self) -> None:
        """Stop on the exact frame that was last shown."""

    def toggle(self) -> None:
        """Play when paused, pause when playing."""

    def step(self, count: int) -> None:
        """Go this many frames forward (positive) or back; pauses first. Stops at the film's ends."""

    def jump(self, moment: Moment) -> None:
        """Stand on exactly this frame; pauses first."""

    def jump_to(self, seconds: Fraction) -> None:
        """Stand on the frame shown at this time from the film's start, held inside the film; pauses first."""

    def set_rate(self, rate: float) -> None:
        """Play at this rate, one of `rates`."""

    def set_sound(self, on: bool) -> None:
        """Sound on or off."""
