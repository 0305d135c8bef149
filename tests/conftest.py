"""What every test shares: with CI set, a skipped test fails the run."""

import os

import pytest


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if os.environ.get("CI") and reporter and reporter.stats.get("skipped") and exitstatus == pytest.ExitCode.OK:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    if os.environ.get("CI") and terminalreporter.stats.get("skipped"):
        terminalreporter.write_line("CI is set: a skipped test fails the run", red=True)
