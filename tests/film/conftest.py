"""The made films, their truth, and the reader of the burnt numbers, for every test of the film room."""

import sys
from pathlib import Path

FILMS = Path(__file__).resolve().parents[2] / "fixtures" / "films"
sys.path.insert(0, str(FILMS))
