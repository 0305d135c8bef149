"""What every test shares. With CI set, a skipped test fails the run, and so do window tests that could not be collected.

pytest-qt is loaded here and not by itself, since it ends the whole run where Qt's system libraries are missing.
"""

import importlib.util
import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

# The person's own settings, books and adoptions must not take part in the tests, and must not be written by them.
os.environ["XDG_CONFIG_HOME"] = tempfile.mkdtemp(prefix="filmreview-tests-")

DESKTOP = Path(__file__).parent / "desktop"


def _why_no_qt() -> str:
    if importlib.util.find_spec("PyQt6") is None or importlib.util.find_spec("pytestqt") is None:
        return "PyQt6 or pytest-qt is not installed"
    program = "import PyQt6.QtWidgets, PyQt6.QtMultimedia"
    tried = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    return "" if tried.returncode == 0 else (tried.stderr.strip().splitlines() or ["Qt does not load"])[-1]


WHY_NO_QT = _why_no_qt()
pytest_plugins = [] if WHY_NO_QT else ["pytestqt.plugin"]


def pytest_ignore_collect(collection_path: Path) -> bool | None:
    return True if WHY_NO_QT and collection_path == DESKTOP else None


def _window_tests_are_missing(config: pytest.Config) -> bool:
    left_out_on_purpose = any(Path(path).resolve() == DESKTOP for path in config.getoption("ignore") or ())
    return bool(WHY_NO_QT) and not left_out_on_purpose


def _failing_in_ci(config: pytest.Config) -> list[str]:
    reporter = config.pluginmanager.get_plugin("terminalreporter")
    if not os.environ.get("CI") or reporter is None:
        return []
    told = []
    if reporter.stats.get("skipped"):
        told.append("CI is set: a skipped test fails the run")
    if _window_tests_are_missing(config):
        told.append("CI is set: the window tests must run")
    return told


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    if exitstatus == pytest.ExitCode.OK and _failing_in_ci(session.config):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    if _window_tests_are_missing(config):
        terminalreporter.write_line(
            f"tests/desktop did not run: {WHY_NO_QT} (`filmreview doctor` names the packages)", yellow=True
        )
    for line in _failing_in_ci(config):
        terminalreporter.write_line(line, red=True)
