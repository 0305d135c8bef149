"""Which playback source plays the film: libvlc where it works, Qt's own player elsewhere; a setting overrides."""

from __future__ import annotations

from collections.abc import Collection

from filmreview.desktop.qt_playback import QtPlayback, built_in_trouble
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.playback import SOURCES, Listener, Playback
from filmreview.film.vlc_playback import VlcPlayback, sound_device_found, vlc_trouble

# Without a sound device libvlc would look for one at every bit of sound, and complain each time.
_WITHOUT_DEVICE = ("--aout=dummy",)


def source_troubles() -> dict[str, str]:
    """What keeps each source from working on this machine, in a few words; a source that works is left out."""
    found = {"vlc": vlc_trouble(), "built-in": built_in_trouble()}
    return {name: trouble for name, trouble in found.items() if trouble is not None}


def open_playback(film: Film, listener: Listener, wanted: str | None = None, refused: Collection[str] = ()) -> Playback:
    """The source that plays this film.

    wanted: one of SOURCES, taken whenever it works. refused: sources that failed on this film. Raises FilmReviewError when
    none is left, with what is in each one's way.
    """
    order = sorted(SOURCES, key=lambda name: name != wanted)  # stable: the wanted one first, then as they stand
    reasons = []
    for name in order:
        if name in refused:
            continue
        try:
            return _open(name, film, listener)
        except FilmReviewError as error:
            reasons.append(f"{name}: {error.what}")
    raise FilmReviewError(
        "the film cannot be played here, only stepped through" + "".join(f" ({reason})" for reason in reasons),
        where=str(film.path),
        todo="`filmreview doctor` names what to install",
    )


def _open(name: str, film: Film, listener: Listener) -> Playback:
    if name == "built-in":
        return QtPlayback(film, listener)
    return VlcPlayback(film, listener, () if sound_device_found() else _WITHOUT_DEVICE)
