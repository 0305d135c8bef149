"""libvlc as a playback source, and the ways in which it can be missing."""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from filmreview.errors import FilmReviewError
from filmreview.film import vlc_playback
from filmreview.film.film import Film, open_film
from filmreview.film.playback import Listener
from filmreview.film.vlc_playback import VlcPlayback, vlc_trouble
from fixtures.films.made import film as made_film
from fixtures.films.made import truth
from tests.film.playback_contract import Opener, PlaybackContract
from tests.film.playback_watching import Wait, Watcher, wait_asleep

without_libvlc = pytest.mark.skipif(vlc_trouble() is not None, reason=f"playback by libvlc: {vlc_trouble()}")


def open_vlc(film: Film, listener: Listener) -> VlcPlayback:
    return VlcPlayback(film, listener, ["--aout=dummy"])


@without_libvlc
class TestVlc(PlaybackContract):
    @pytest.fixture
    def opener(self) -> Opener:
        return open_vlc

    @pytest.fixture
    def wait(self) -> Wait:
        return wait_asleep


@without_libvlc
def test_plays_the_film_s_sound_until_it_is_switched_off(tmp_path: Path) -> None:
    heard = tmp_path / "heard.wav"
    watcher = Watcher()
    with open_film(made_film("two-tracks.mp4")) as film:
        playback = VlcPlayback(film, watcher, ["--aout=afile", f"--audiofile-file={heard}"])
        playback.play(film.start)
        assert wait_asleep(lambda: watcher.ended == 1, 10)
        playback.close()
        loud = _samples(heard)
        playback = VlcPlayback(film, watcher, ["--aout=afile", f"--audiofile-file={tmp_path / 'silent.wav'}"])
        playback.set_sound(False)
        playback.play(film.start)
        assert wait_asleep(lambda: watcher.ended == 2, 10)
        playback.close()
    # The tone of the first track, as the script that made the film wrote it: the loudest line of the spectrum.
    spectrum = np.abs(np.fft.rfft(loud[:48_000] * np.hanning(48_000)))
    assert np.argmax(spectrum) == pytest.approx(truth("two-tracks.mp4")["sound"][0]["pitch"], abs=2)
    assert not (tmp_path / "silent.wav").exists() or not _samples(tmp_path / "silent.wav").any()


def _samples(path: Path) -> np.ndarray:
    """The left channel of a WAV file of 16-bit samples at 48 kHz; its header's sizes are never filled in by libvlc."""
    data = path.read_bytes()
    start = data.index(b"data") + 8
    channels = int.from_bytes(data[22:24], "little")
    bits = int.from_bytes(data[34:36], "little")
    kind = np.dtype("<f4") if bits == 32 else np.dtype("<i2")
    usable = (len(data) - start) // (kind.itemsize * channels) * kind.itemsize * channels
    return np.frombuffer(data[start : start + usable], kind).reshape(-1, channels)[:, 0].astype(float)


def _trouble_in_a_new_process(before: str = "", **variables: str) -> str:
    program = f"{before}\nfrom filmreview.film.vlc_playback import vlc_trouble\nprint(vlc_trouble())"
    environment = {**os.environ, **variables}
    run = subprocess.run([sys.executable, "-c", program], env=environment, capture_output=True, text=True, check=True)
    return run.stdout.strip()


@without_libvlc
def test_libvlc_without_its_plugins_is_told(tmp_path: Path) -> None:
    # Both the real library and the real wrapper, only the plugins cannot be found.
    hide = (
        f"import ctypes, os\nos.environ['VLC_PLUGIN_PATH'] = {str(tmp_path)!r}\nimport vlc\nvlc.Instance = lambda *given: None"
    )
    assert _trouble_in_a_new_process(hide) == "libvlc found none of its plugins"


def test_a_machine_without_libvlc_is_told() -> None:
    hide = "\n".join(
        [
            "import ctypes, ctypes.util",
            "def missing(*given, **more): raise OSError('libvlc.so.5: cannot open shared object file')",
            "ctypes.CDLL, ctypes.util.find_library = missing, lambda name: None",
        ]
    )
    assert _trouble_in_a_new_process(hide).startswith("libvlc is not there (")


def test_a_variable_that_names_a_missing_libvlc_is_told(tmp_path: Path) -> None:
    told = _trouble_in_a_new_process(PYTHON_VLC_LIB_PATH=str(tmp_path / "libvlc.so.5"))
    assert told.startswith("libvlc is not there")


@pytest.mark.parametrize("wrong", [NameError("name 'dll' is not defined"), OSError("wrong ELF class")])
def test_libvlc_that_cannot_be_loaded_is_told(monkeypatch: pytest.MonkeyPatch, wrong: Exception) -> None:
    class Wrapper:
        @staticmethod
        def Instance(_options: list[str]) -> None:  # noqa: N802 - the wrapper's own name
            raise wrong

    monkeypatch.setattr(vlc_playback, "vlc", Wrapper)
    vlc_playback._started.cache_clear()
    try:
        assert vlc_trouble() == f"libvlc cannot be loaded ({wrong})"
        with open_film(made_film("constant.mp4")) as film, pytest.raises(FilmReviewError, match="built-in playback"):
            VlcPlayback(film, Watcher())
    finally:
        vlc_playback._started.cache_clear()
