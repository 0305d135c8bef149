"""Playback built in: Qt's own player, nothing to install. Its pictures come with their exact start time.

The library behind it is loaded while running and its absence is silent, so `built_in_trouble` asks first.
"""

from __future__ import annotations

import os
from fractions import Fraction

import numpy as np
from PyQt6.QtCore import QLoggingCategory, QObject, Qt, QUrl
from PyQt6.QtGui import QImage
from PyQt6.QtMultimedia import QAudioOutput, QMediaDevices, QMediaPlayer, QVideoFrame, QVideoFrameFormat, QVideoSink
from PyQt6.sip import voidptr

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.moment import Moment
from filmreview.film.playback import RATES, Listener, Shown
from filmreview.film.playback_picture import PictureMaker, frame_step

_Format = QVideoFrameFormat.PixelFormat
# Layouts whose planes can be had in memory, by FFmpeg's names.
_LAYOUTS = {
    _Format.Format_YUV420P: "yuv420p",
    _Format.Format_YUV422P: "yuv422p",
    _Format.Format_NV12: "nv12",
    _Format.Format_YUV420P10: "yuv420p10le",
    _Format.Format_P010: "p010le",
    _Format.Format_BGRA8888: "bgra",
    _Format.Format_RGBA8888: "rgba",
}

_NOT_READY = (QMediaPlayer.MediaStatus.NoMedia, QMediaPlayer.MediaStatus.LoadingMedia)


def prepare_built_in() -> None:
    """To be called before the first player is made: decode without the graphics card, whose pictures cannot be had in memory
    bit for bit, and keep the library's chatter off standard error."""
    os.environ.setdefault("QT_FFMPEG_DECODING_HW_DEVICE_TYPES", ",")
    QLoggingCategory.setFilterRules("qt.multimedia*=false")


def built_in_trouble() -> str | None:
    """Why Qt's player cannot be used on this machine, in a few words; None when it can."""
    prepare_built_in()
    player = QMediaPlayer()
    try:
        return None if player.isAvailable() else "the library behind Qt's player cannot be loaded"
    finally:
        player.deleteLater()


class QtPlayback(QObject):
    """A film played by Qt, as `Playback` says. Raises FilmReviewError when `built_in_trouble` has something to say."""

    name = "built-in"
    rates = RATES

    def __init__(self, film: Film, listener: Listener) -> None:
        super().__init__()
        trouble = built_in_trouble()
        if trouble is not None:
            raise FilmReviewError(f"the film cannot be played: {trouble}", todo="install what `filmreview doctor` names")
        self._film, self._listener = film, listener
        # Qt knows no full-range layout of its own and turns those into limited range.
        squeezed = "limited" if film.info.pixel_format.startswith("yuvj") else None
        self._maker = PictureMaker(film, turned=False, range=squeezed)
        self._half = frame_step(film) / 2
        self._handing = False
        self._closed = False
        self._error: FilmReviewError | None = None
        self._wanted: int | None = None  # milliseconds to play from as soon as the film is loaded
        self._player, self._sink = QMediaPlayer(), QVideoSink()
        self._output = QAudioOutput() if QMediaDevices.audioOutputs() else None
        self._player.setVideoSink(self._sink)
        if self._output is not None:
            self._player.setAudioOutput(self._output)
        # Over to the screen's thread, always: Qt's calls wait for its decoding threads while they hold Python's lock, so a
        # decoding thread that came into Python would be waited for forever.
        self._sink.videoFrameChanged.connect(self._picture_due, Qt.ConnectionType.QueuedConnection)  # type: ignore[call-arg]
        self._player.mediaStatusChanged.connect(self._status_changed)
        self._player.errorOccurred.connect(self._failed)
        self._player.setSource(QUrl.fromLocalFile(str(film.path.resolve())))

    def play(self, start: Moment) -> None:
        """See `Playback.play`. Raises FilmReviewError when the film could not even be loaded."""
        if self._error is not None:
            raise self._error
        # In the middle of the frame: Qt takes milliseconds, and the frame's own start may round to the one before.
        seconds = self._film.time_of(start) + self._half
        self._wanted = int(seconds * 1000)
        self._handing = True
        if self._player.mediaStatus() not in _NOT_READY:
            self._begin()

    def pause(self) -> None:
        """See `Playback.pause`."""
        self._handing = False
        self._wanted = None
        self._player.pause()

    def set_rate(self, rate: float) -> None:
        """See `Playback.set_rate`."""
        self._player.setPlaybackRate(rate)

    def set_sound(self, on: bool) -> None:
        """See `Playback.set_sound`."""
        if self._output is not None:
            self._output.setMuted(not on)

    def close(self) -> None:
        """See `Playback.close`."""
        if self._closed:
            return
        self._closed = True
        self._handing = False
        self._player.stop()
        self._player.setVideoSink(None)
        self._player.setAudioOutput(None)
        self._player.setSource(QUrl())
        for thing in (self._player, self._sink, self._output, self):
            if thing is not None:
                thing.deleteLater()

    def _begin(self) -> None:
        wanted, self._wanted = self._wanted, None
        if wanted is not None:
            self._player.setPosition(wanted)
            self._player.play()

    def _picture_due(self, frame: QVideoFrame) -> None:
        if self._handing and frame.isValid():
            seconds = Fraction(max(0, frame.startTime()), 1_000_000)
            self._listener.picture_due(Shown(self._picture(frame), seconds, self._half))

    def _picture(self, frame: QVideoFrame) -> np.ndarray:
        layout = _LAYOUTS.get(frame.pixelFormat())
        if layout is None or not frame.map(QVideoFrame.MapMode.ReadOnly):
            return self._maker.fitted(_array_of(frame.toImage()))  # already upright
        try:
            planes = []
            for plane in range(frame.planeCount()):
                bits = frame.bits(plane)
                bits.setsize(frame.mappedBytes(plane))
                planes.append((np.frombuffer(_memory(bits), np.uint8), frame.bytesPerLine(plane)))
            return self._maker.picture(layout, (frame.width(), frame.height()), planes)
        finally:
            frame.unmap()

    def _status_changed(self, status: QMediaPlayer.MediaStatus) -> None:
        if self._wanted is not None and status not in _NOT_READY:
            self._begin()
        elif status == QMediaPlayer.MediaStatus.EndOfMedia and self._handing:
            self._handing = False
            self._listener.film_ended()

    def _failed(self, _error: QMediaPlayer.Error, words: str) -> None:
        self._error = FilmReviewError(
            f"built-in playback failed: {words}", where=str(self._film.path), todo="try VLC, or step by hand"
        )
        if self._handing:
            self._handing = False
            self._listener.playback_failed(self._error)


def _array_of(image: QImage) -> np.ndarray:
    image = image.convertToFormat(QImage.Format.Format_RGB888)
    bits = image.constBits()
    bits.setsize(image.sizeInBytes())
    rows = np.frombuffer(_memory(bits), np.uint8).reshape(image.height(), image.bytesPerLine())
    return rows[:, : image.width() * 3].reshape(image.height(), image.width(), 3).copy()


def _memory(bits: voidptr) -> memoryview:
    return memoryview(bits)  # type: ignore[arg-type]  # it can be read like this, which its stub does not tell
