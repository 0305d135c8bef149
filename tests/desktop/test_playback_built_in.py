"""Qt's own player as a playback source, the ways in which it can be missing, and which source is taken."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PyQt6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from filmreview.desktop import player_source
from filmreview.desktop.player_source import open_playback, source_troubles
from filmreview.desktop.qt_playback import QtPlayback, built_in_trouble
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film, open_film
from filmreview.film.playback import Listener
from filmreview.film.vlc_playback import sound_device_found, vlc_trouble
from fixtures.films.made import film as made_film
from tests.film.playback_contract import Opener, PlaybackContract
from tests.film.playback_watching import Wait, Watcher


class TestBuiltIn(PlaybackContract):
    @pytest.fixture
    def opener(self, qapp: QApplication) -> Opener:  # noqa: ARG002 - Qt's player needs it to be there
        return _open_built_in

    @pytest.fixture
    def wait(self, qtbot: QtBot) -> Wait:
        def wait_running(until, seconds: float) -> bool:
            try:
                qtbot.waitUntil(until, timeout=round(seconds * 1000))
            except Exception:  # noqa: BLE001 - the waiter's own time-out error; what matters is whether it holds now
                return until()
            return True

        return wait_running


def _open_built_in(film: Film, listener: Listener) -> QtPlayback:
    return QtPlayback(film, listener)


def test_an_absent_backend_is_told() -> None:
    # The library that Qt loads while running is not found: Qt itself says nothing and plays nothing.
    program = (
        "from PyQt6.QtWidgets import QApplication\napp = QApplication([])\napp.setLibraryPaths([])\n"
        "from filmreview.desktop.qt_playback import built_in_trouble\nprint(built_in_trouble())"
    )
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    run = subprocess.run([sys.executable, "-c", program], env=environment, capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "the library behind Qt's player cannot be loaded"


@pytest.mark.usefixtures("qapp")
def test_no_source_is_in_trouble_here() -> None:
    assert built_in_trouble() is None
    assert source_troubles() == ({} if vlc_trouble() is None else {"vlc": vlc_trouble()})


@pytest.fixture
def troubles(monkeypatch: pytest.MonkeyPatch) -> dict[str, str]:
    """What each source complains of; the sources themselves are stand-ins."""
    told: dict[str, str] = {}

    class Stand:
        def __init__(self, name: str) -> None:
            if name in told:
                raise FilmReviewError(told[name])
            self.name = name

    monkeypatch.setattr(player_source, "VlcPlayback", lambda *_given: Stand("vlc"))
    monkeypatch.setattr(player_source, "QtPlayback", lambda *_given: Stand("built-in"))
    return told


@pytest.fixture
def film() -> Film:
    with open_film(made_film("constant.mp4")) as film:
        return film


@pytest.mark.usefixtures("troubles")
def test_vlc_is_taken_where_it_works(film: Film) -> None:
    assert open_playback(film, Watcher()).name == "vlc"


def test_the_built_in_one_is_taken_elsewhere(troubles: dict[str, str], film: Film) -> None:
    troubles["vlc"] = "libvlc is not there"
    assert open_playback(film, Watcher()).name == "built-in"


def test_a_setting_overrides(troubles: dict[str, str], film: Film) -> None:
    assert open_playback(film, Watcher(), wanted="built-in").name == "built-in"
    troubles["built-in"] = "no backend"
    assert open_playback(film, Watcher(), wanted="built-in").name == "vlc"


@pytest.mark.usefixtures("troubles")
def test_a_source_that_failed_on_the_film_is_not_taken_again(film: Film) -> None:
    assert open_playback(film, Watcher(), refused={"vlc"}).name == "built-in"


def test_with_no_source_left_it_is_said_why(troubles: dict[str, str], film: Film) -> None:
    troubles.update({"vlc": "libvlc is not there", "built-in": "no backend"})
    with pytest.raises(FilmReviewError) as caught:
        open_playback(film, Watcher())
    assert "vlc: libvlc is not there" in str(caught.value)
    assert "built-in: no backend" in str(caught.value)


def test_a_sound_server_s_socket_counts_as_a_device(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("PULSE_SERVER", raising=False)
    monkeypatch.setenv("XDG_RUNTIME_DIR", str(tmp_path))
    card = any(Path("/dev/snd").glob("pcm*p"))
    assert sound_device_found() == (card or not sys.platform.startswith("linux"))
    (tmp_path / "pulse").mkdir()
    (tmp_path / "pulse" / "native").touch()
    assert sound_device_found()
