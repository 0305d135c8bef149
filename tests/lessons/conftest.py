"""The made films and their truth for the tests of lessons; no film stays open. The tests of the face detector are left out
where the extra `faces` is not installed, as it is no part of the test extra."""

import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from filmreview.lessons.face_model import faces_trouble

FILMS = Path(__file__).resolve().parents[2] / "fixtures" / "films"
sys.path.insert(0, str(FILMS))
collect_ignore = [] if faces_trouble() is None else ["test_faces_in_footage.py"]


@pytest.fixture(autouse=True)
def no_worker_outlives_its_film() -> Iterator[None]:
    yield
    left = [thread for thread in threading.enumerate() if thread.name == "film-frames"]
    for thread in left:
        thread.join(5)
    assert not [thread for thread in left if thread.is_alive()], "a film was left open"
