"""From words to exit codes."""

import subprocess
import sys

import pytest

from filmreview.commandline import run as running
from filmreview.commandline import words
from filmreview.errors import Stopped
from filmreview.rules.procedures.event import EVENT_WORDS
from tests.commandline.conftest import Say


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["sheeet"], 'filmreview: there is no command "sheeet"; `filmreview sheet` is the nearest'),
        (["zzzz"], 'filmreview: there is no command "zzzz"; `filmreview --help` lists them'),
        (["film"], "filmreview: film: the following arguments are required: FILM; see `filmreview film --help`"),
        (["film", "a.mp4", "--jsn"], "filmreview: film: unrecognized arguments: --jsn; see `filmreview film --help`"),
        (["film", ""], "filmreview: film: argument FILM: the name is empty; see `filmreview film --help`"),
        (["rule", ""], "filmreview: rule: argument FILE|DIR: the name is empty; see `filmreview rule --help`"),
        (["open", "a.filmreview", "b.filmreview"], "filmreview: one review or film at a time: filmreview open REVIEW"),
    ],
)
def test_bad_words_are_one_line_and_exit_2(say: Say, words: list[str], told: str) -> None:
    answer = say(*words)
    assert (answer.code, answer.line) == (2, told)


def test_stopped_by_hand_exits_130(say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(_: object) -> int:
        raise Stopped("stopped")

    monkeypatch.setattr("filmreview.commandline.doctor.doctor", stopped)
    assert say("doctor").code == running.STOPPED == 130


def test_a_reader_that_goes_away_is_no_error() -> None:
    program = [sys.executable, "-m", "filmreview", "doctor"]
    reader = subprocess.Popen(["true"], stdin=subprocess.PIPE)
    reader.wait()
    assert reader.stdin is not None
    done = subprocess.run(program, stdout=reader.stdin, stderr=subprocess.PIPE, text=True, check=False)
    reader.stdin.close()
    assert "Traceback" not in done.stderr


def test_the_cautions_stand_in_the_help(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        running.run(["--help"])
    assert left.value.code == 0
    told = " ".join(capsys.readouterr().out.split())
    for caution in ("study aid", "The official rule book", "medical staff", "minors"):
        assert caution in told


def test_ruling_a_case_waits_for_neither_pandas_nor_qt_nor_film() -> None:
    program = (
        "import sys; from filmreview.__main__ import main; main(['rule', 'no-such-file.toml']); print(sorted(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.replace("'", "").replace("[", "").replace("]", "").replace("\n", "").split(", "))
    assert "filmreview.rules.situation" in loaded
    assert loaded & {"pandas", "PyQt6", "av", "vlc"} == set()


def test_without_a_screen_the_desk_says_so(say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    answer = say()
    assert answer.code == 2
    assert "there is no screen (DISPLAY is not set)" in answer.line


def test_help_lists_the_events_that_the_rules_know() -> None:
    assert set(words._EVENTS) == set(EVENT_WORDS)
