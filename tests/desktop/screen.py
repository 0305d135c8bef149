"""A screen for tests that open windows."""

import atexit
import os
import shutil
import subprocess


def start_screen() -> None:
    """Without a DISPLAY start an Xvfb of our own, where there is one; elsewhere have Qt draw off the screen.

    Tests that run side by side need a screen each, since windows on one screen want one focus.
    """
    side_by_side = "PYTEST_XDIST_WORKER" in os.environ and shutil.which("Xvfb") is not None
    if os.environ.get("QT_QPA_PLATFORM") == "offscreen":
        return
    if (os.environ.get("DISPLAY") or os.environ.get("QT_QPA_PLATFORM")) and not side_by_side:
        return
    if shutil.which("Xvfb") is None:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
        return
    reading, writing = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1366x768x24", "-nolisten", "tcp", "-noreset"],
        pass_fds=(writing,),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    os.close(writing)
    atexit.register(server.terminate)
    with os.fdopen(reading) as told:
        number = told.readline().strip()
    if not number:
        raise RuntimeError("Xvfb does not start")
    os.environ["DISPLAY"] = f":{number}"
    os.environ["QT_QPA_PLATFORM"] = "xcb"
