"""A real browser without a screen: Debian's Chromium, spoken to over its DevTools pipe, so that no driver is needed.

Messages are JSON ended by a NUL, on file descriptors 3 (in) and 4 (out) of the browser (`--remote-debugging-pipe`).
"""

import json
import os
import select
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

PROGRAM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
_TELLING = ("Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Page.javascriptDialogOpening", "Log.entryAdded")
WAIT = 40.0  # seconds for an answer, or for something to become true


class Browser:
    """One page of one browser. messages: what pages wrote to the console, what the browser refused, and errors."""

    def __init__(self, to_browser: int, from_browser: int) -> None:
        self._to, self._from = to_browser, from_browser
        self._number, self._held = 0, b""
        self.messages: list[str] = []
        self._session: str | None = None
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for part in ("Page", "Runtime", "Log", "DOM"):
            self.call(f"{part}.enable")

    def call(self, method: str, **parameters: object) -> Any:
        """One command and its result."""
        self._number += 1
        message = {"id": self._number, "method": method, "params": parameters}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while (answer := self._read()).get("id") != self._number:
            self._note(answer)
        if "error" in answer:
            raise AssertionError(f"{method}: {answer['error']['message']}")
        return answer["result"]

    def _read(self) -> dict[str, Any]:
        while b"\0" not in self._held:
            ready, _, _ = select.select([self._from], [], [], WAIT)
            piece = os.read(self._from, 1 << 20) if ready else b""
            if not piece:
                raise AssertionError("the browser does not answer")
            self._held += piece
        message, _, self._held = self._held.partition(b"\0")
        found: dict[str, Any] = json.loads(message)
        return found

    def _note(self, event: dict[str, Any]) -> None:
        if event.get("method") in _TELLING:
            self.messages.append(json.dumps(event["params"])[:300])

    def ask(self, script: str) -> Any:
        """The value of an expression in the page; a promise is waited for."""
        answer = self.call(
            "Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True, userGesture=True
        )  # fmt: skip
        if "exceptionDetails" in answer:
            raise AssertionError(answer["exceptionDetails"])
        return answer["result"].get("value")

    def wait_for(self, script: str) -> None:
        """Wait until an expression is true."""
        end = time.monotonic() + WAIT
        while not self.ask(script):
            assert time.monotonic() < end, f"never true: {script}"
            time.sleep(0.05)

    def open(self, address: str) -> None:
        """Go to an address and wait until it is loaded."""
        self.call("Page.navigate", url=address)
        self.wait_for(f"document.readyState === 'complete' && location.href.startsWith({json.dumps(address[:20])})")

    def choose_file(self, selector: str, path: Path) -> None:
        """Choose a file in a field, as a person would."""
        root = self.call("DOM.getDocument")["root"]["nodeId"]
        node = self.call("DOM.querySelector", nodeId=root, selector=selector)["nodeId"]
        self.call("DOM.setFileInputFiles", nodeId=node, files=[str(path)])


@contextmanager
def browser(folder: Path) -> Iterator[Browser]:
    """A browser with a profile of its own in a folder; it is ended at the end."""
    assert PROGRAM, "a browser is here"
    in_read, in_write = os.pipe()
    out_read, out_write = os.pipe()
    words = [
        PROGRAM, "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run",
        "--mute-audio", "--autoplay-policy=no-user-gesture-required", "--remote-debugging-pipe",
        f"--user-data-dir={folder}/profile",
    ]  # fmt: skip
    # A shell puts the pipe's ends where the browser looks for them; bash takes descriptors of any number.
    line = f'exec "$@" 3<&{in_read} 4>&{out_write}'
    process = subprocess.Popen(
        ["bash", "-c", line, "bash", *words], pass_fds=(in_read, out_write),
        stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    os.close(in_read)
    os.close(out_write)
    try:
        yield Browser(in_write, out_read)
    finally:
        process.terminate()
        process.wait(20)
        os.close(in_write)
        os.close(out_read)
