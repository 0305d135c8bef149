"""Playback through libvlc: it decodes and plays the sound, its pictures come into our own memory as they are due.

Asked for planes, libvlc hands over what the decoder made, bit for bit. It tells no time with a picture and its own clock lags
behind, so the time is reckoned from where playing began and how long it lasts; `playback_match` does the rest.
"""

from __future__ import annotations

import ctypes
import os
import sys
import threading
import time
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.moment import Moment
from filmreview.film.playback import RATES, Listener, Shown
from filmreview.film.playback_picture import PictureMaker, Plane

try:
    import vlc
except (ImportError, OSError, NotImplementedError, NameError, SystemExit) as error:
    # python-vlc without libvlc: which of these, by its version; it exits when a variable of its own names a missing library.
    vlc = None
    _WHY_NOT: str = str(error)

# No hardware decoding: its pictures cannot be had in memory bit for bit. Nothing may be drawn onto the picture.
OPTIONS: tuple[str, ...] = (
    "--quiet", "--no-video-title-show", "--no-osd", "--no-spu", "--no-stats", "--no-lua", "--avcodec-hw=none",
    "--deinterlace=-1", "--deinterlace-mode=yadif",
)  # fmt: skip
_SLACK = Fraction(1, 5)
_PIXELS_OVER, _LINES_OVER = 64, 32  # libvlc wants rows and planes in memory rounded up to these
_BUFFERS = 3  # one being filled, one due, one to spare
# What libvlc calls a layout, what FFmpeg calls it, and width and height of luma over those of chroma, bytes of a sample.
_LAYOUTS: dict[bytes, tuple[str, int, int, int]] = {
    b"I420": ("yuv420p", 2, 2, 1),
    b"J420": ("yuv420p", 2, 2, 1),
    b"I422": ("yuv422p", 2, 1, 1),
    b"J422": ("yuv422p", 2, 1, 1),
    b"I444": ("yuv444p", 1, 1, 1),
    b"J444": ("yuv444p", 1, 1, 1),
    b"I0AL": ("yuv420p10le", 2, 2, 2),
    b"I2AL": ("yuv422p10le", 2, 1, 2),
}


_starting = threading.Lock()


def vlc_trouble() -> str | None:
    """Why libvlc cannot be used on this machine, in a few words; None when it can. The first call takes some 0.2 s."""
    if vlc is None:
        return f"libvlc is not there ({_WHY_NOT})"
    try:
        return None if _instance(()) is not None else "libvlc found none of its plugins"
    except (NameError, OSError) as error:
        return f"libvlc cannot be loaded ({error})"


def sound_device_found() -> bool:
    """Whether libvlc will find something to play sound on: a sound server's socket or a sound card. Only Linux machines are
    ever without one; asked of the file system, because asking a sound library takes long."""
    if not sys.platform.startswith("linux") or os.environ.get("PULSE_SERVER"):
        return True
    running = Path(os.environ.get("XDG_RUNTIME_DIR") or f"/run/user/{os.getuid()}")
    sockets = (running / "pulse" / "native", running / "pipewire-0")
    return any(socket.exists() for socket in sockets) or any(Path("/dev/snd").glob("pcm*p"))


def _instance(options: tuple[str, ...]) -> Any:
    """The one instance of libvlc with these options: it is slow to start and lives as long as the program."""
    with _starting:
        return _started(options)


@cache
def _started(options: tuple[str, ...]) -> Any:
    return vlc.Instance([*OPTIONS, *options])


class _Memory:
    """Where libvlc writes pictures of one layout: a few buffers of three planes each, one after the other.

    layout: FFmpeg's name. pitches, lines: bytes of a row and rows of each plane in memory.
    """

    def __init__(self, fourcc: bytes, width: int, height: int) -> None:
        self.layout, across, down, sample = _LAYOUTS[fourcc]
        pitch, lines = _up(width, _PIXELS_OVER) * sample, _up(height, _LINES_OVER)
        self.pitches = (pitch, pitch // across, pitch // across)
        self.lines = (lines, lines // down, lines // down)
        sizes = [pitch * lines for pitch, lines in zip(self.pitches, self.lines, strict=True)]
        self._buffers = [[np.zeros(size, np.uint8) for size in sizes] for _ in range(_BUFFERS)]
        self._next = 0

    def lend(self) -> tuple[int, list[int]]:
        """The number of the next buffer and the addresses of its planes."""
        self._next = (self._next + 1) % _BUFFERS
        return self._next, [plane.ctypes.data for plane in self._buffers[self._next]]

    def planes(self, number: int) -> list[Plane]:
        """The planes of a buffer with the bytes of their rows."""
        return list(zip(self._buffers[number], self.pitches, strict=True))


def _up(value: int, step: int) -> int:
    return -(-value // step) * step


class _Reckoning:
    """Where the film is by the clock on the wall: it began there when its first picture came, and runs at its rate."""

    def __init__(self) -> None:
        self._from = Fraction(0)
        self._since: float | None = None
        self._rate = 1.0

    def begin(self, seconds: Fraction) -> None:
        """The next picture is the one at this time."""
        self._from, self._since = seconds, None

    def set_rate(self, rate: float) -> None:
        """From now on it runs at this rate."""
        self._from = self.seconds()
        self._since = None if self._since is None else time.monotonic()
        self._rate = rate

    def picture_came(self) -> Fraction:
        """Where the picture is that comes right now."""
        if self._since is None:
            self._since = time.monotonic()
        return self.seconds()

    def seconds(self) -> Fraction:
        """Where the film is right now."""
        passed = 0.0 if self._since is None else (time.monotonic() - self._since) * self._rate
        return self._from + Fraction(round(passed * 1000), 1000)


class VlcPlayback:
    """A film played by libvlc, as `Playback` says. Raises FilmReviewError when `vlc_trouble` has something to say.

    options: given to libvlc besides OPTIONS, such as "--aout=dummy" for a machine without a sound device.
    """

    name = "vlc"
    rates = RATES

    def __init__(self, film: Film, listener: Listener, options: Sequence[str] = ()) -> None:
        trouble = vlc_trouble()
        if trouble is not None:
            raise FilmReviewError(f"the film cannot be played: {trouble}", todo="install VLC, or choose built-in playback")
        self._film, self._listener = film, listener
        self._maker = PictureMaker(film, turned=True)
        # libvlc counts from the earliest stream's start, which may be sound before the first picture.
        self._late = film.info.start - min(film.info.start, film.info.file_start or Fraction(0))
        self._lock = threading.Lock()  # held while a picture is handed over, so that `pause` can wait for it
        self._handing = False
        self._sound = True
        self._rate = 1.0
        self._reckoning = _Reckoning()
        self._memory: _Memory | None = None
        self._instance = _instance(tuple(options))
        self._player = self._instance.media_player_new()
        self._callbacks = self._take_pictures()
        self._listen()

    def play(self, start: Moment) -> None:
        """See `Playback.play`."""
        self._start(self._film.time_of(start))

    def pause(self) -> None:
        """See `Playback.pause`."""
        with self._lock:
            self._handing = False
        if self._player.get_state() == vlc.State.Playing:
            self._player.set_pause(1)
        else:
            self._player.stop()  # still opening: it would not listen, and play on unseen

    def set_rate(self, rate: float) -> None:
        """See `Playback.set_rate`."""
        with self._lock:
            self._rate = rate
            self._reckoning.set_rate(rate)
        self._player.set_rate(rate)

    def set_sound(self, on: bool) -> None:
        """See `Playback.set_sound`. The film is begun anew where it is, with its sound or without."""
        if on == self._sound:
            return
        self._sound = on
        handing = self._handing
        self._halt()
        if handing:
            self._start(self._reckoning.seconds())

    def close(self) -> None:
        """See `Playback.close`."""
        if self._player is None:
            return
        self._halt()
        self._player.release()
        self._player = None

    def _halt(self) -> None:
        with self._lock:
            self._handing = False
        self._player.stop()

    def _start(self, seconds: Fraction) -> None:
        milliseconds = max(0, round((seconds + self._late) * 1000))
        with self._lock:
            self._reckoning.begin(seconds)
            self._handing = True
        if self._player.get_state() in (vlc.State.Playing, vlc.State.Paused):
            self._player.set_time(milliseconds)
            self._player.set_pause(0)
            return
        media = self._instance.media_new_path(str(self._film.path))
        media.add_option(f":start-time={milliseconds / 1000:.3f}")
        if not self._sound:
            media.add_option(":no-audio")
        self._player.set_media(media)
        media.release()
        self._player.set_rate(self._rate)
        if self._player.play() != 0:
            raise FilmReviewError("libvlc does not play this film", where=str(self._film.path), todo="choose built-in playback")

    def _take_pictures(self) -> tuple[Any, ...]:
        """Give libvlc our memory; the functions returned must be kept as long as the player lives."""
        # python-vlc declares the layout as text that cannot be written to; this one can.
        numbers = ctypes.POINTER(ctypes.c_uint)
        format_type = ctypes.CFUNCTYPE(
            ctypes.c_uint, ctypes.POINTER(ctypes.c_void_p), ctypes.POINTER(ctypes.c_char), numbers, numbers, numbers, numbers
        )
        callbacks = (
            format_type(self._settle_layout),
            vlc.CallbackDecorators.VideoCleanupCb(lambda _: None),
            vlc.CallbackDecorators.VideoLockCb(self._lend_memory),
            vlc.CallbackDecorators.VideoDisplayCb(self._picture_due),
        )
        self._player.video_set_callbacks(callbacks[2], None, callbacks[3], None)
        self._player.video_set_format_callbacks(callbacks[0], callbacks[1])
        return callbacks

    def _settle_layout(self, _: Any, fourcc: Any, width: Any, height: Any, pitches: Any, lines: Any) -> int:
        if fourcc[:4] not in _LAYOUTS:
            for place, letter in enumerate(b"I420"):
                fourcc[place] = letter
        # libvlc tells a size with the decoder's padding in it and would stretch the picture over that.
        width[0], height[0] = self._maker.stored_size
        memory = self._memory = _Memory(fourcc[:4], width[0], height[0])
        for plane in range(3):
            pitches[plane], lines[plane] = memory.pitches[plane], memory.lines[plane]
        return 1

    def _lend_memory(self, _: Any, planes: Any) -> int:
        assert self._memory is not None
        number, addresses = self._memory.lend()
        into = ctypes.cast(planes, ctypes.POINTER(ctypes.c_void_p))
        for plane, address in enumerate(addresses):
            into[plane] = address
        return number

    def _picture_due(self, _: Any, number: int | None) -> None:
        # Nothing of the player may be called here: it would wait for this very thread.
        memory = self._memory
        with self._lock:
            if not self._handing or memory is None:
                return
            picture = self._maker.picture(memory.layout, self._maker.stored_size, memory.planes(number or 0))
            self._listener.picture_due(Shown(picture, self._reckoning.picture_came(), _SLACK))

    def _listen(self) -> None:
        events = self._player.event_manager()
        events.event_attach(vlc.EventType.MediaPlayerEndReached, self._ended)
        events.event_attach(vlc.EventType.MediaPlayerEncounteredError, self._failed)

    def _ended(self, _: Any) -> None:
        if self._handing:
            self._listener.film_ended()

    def _failed(self, _: Any) -> None:
        with self._lock:
            told, self._handing = not self._handing, False
        if told:
            return
        self._listener.playback_failed(
            FilmReviewError("libvlc cannot play this film", where=str(self._film.path), todo="choose built-in playback")
        )
