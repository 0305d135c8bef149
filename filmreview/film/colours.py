"""Which matrix and range turn the stored Y'CbCr of a film into R'G'B': told by the film, guessed, or set by the reviewer.

Codes and names after ITU-T H.273. A film that tells nothing is taken for BT.709 from 720 lines on and BT.601 below (common
practice; SMPTE ST 274 and 296 for high definition, BT.601 for standard definition), and for limited range.
"""

from __future__ import annotations

from dataclasses import dataclass

import av
from av.video.reformatter import ColorRange, Colorspace

from filmreview.errors import unknown

MATRICES: tuple[str, ...] = ("bt601", "bt709", "bt2020", "smpte240m", "fcc")
RANGES: tuple[str, ...] = ("limited", "full")
HIGH_DEFINITION_LINES = 720

_MATRIX_OF_CODE = {1: "bt709", 4: "fcc", 5: "bt601", 6: "bt601", 7: "smpte240m", 9: "bt2020", 10: "bt2020"}
_RANGE_OF_CODE = {1: "limited", 2: "full"}
_HIGH_DYNAMIC = {16: "PQ", 18: "HLG"}  # transfer characteristics of ITU-R BT.2100

SCALER_MATRIX = {
    "bt601": Colorspace.ITU601,
    "bt709": Colorspace.ITU709,
    "bt2020": Colorspace.BT2020,
    "smpte240m": Colorspace.SMPTE240M,
    "fcc": Colorspace.FCC,
    "rgb": Colorspace.DEFAULT,
}
SCALER_RANGE = {"limited": ColorRange.MPEG, "full": ColorRange.JPEG}


@dataclass(frozen=True)
class ColourSettings:
    """What the reviewer says of the colours, over what the film says. matrix: one of MATRICES, range: one of RANGES; None
    leaves it to the film. Raises FilmReviewError for another word."""

    matrix: str | None = None
    range: str | None = None

    def __post_init__(self) -> None:
        if self.matrix is not None and self.matrix not in MATRICES:
            raise unknown("colour matrix", self.matrix, MATRICES)
        if self.range is not None and self.range not in RANGES:
            raise unknown("colour range", self.range, RANGES)


@dataclass(frozen=True)
class FilmColours:
    """How the colours of a film are read. matrix: one of MATRICES, or "rgb" for a film stored as R'G'B'. assumed: True for
    what neither the film nor the reviewer says. high_dynamic: "PQ" or "HLG" when the film says so."""

    matrix: str
    range: str
    matrix_assumed: bool
    range_assumed: bool
    high_dynamic: str | None = None


def settle_colours(frame: av.VideoFrame, settings: ColourSettings) -> FilmColours:
    """Settle matrix and range from the first decoded frame and the reviewer's settings."""
    high_dynamic = _HIGH_DYNAMIC.get(frame.color_trc)
    if frame.format.is_rgb:
        return FilmColours("rgb", "full", False, False, high_dynamic)
    matrix = settings.matrix or _MATRIX_OF_CODE.get(frame.colorspace)
    full_by_format = "full" if frame.format.name.startswith("yuvj") else None
    told_range = settings.range or full_by_format or _RANGE_OF_CODE.get(frame.color_range)
    guess = "bt709" if min(frame.height, frame.width) >= HIGH_DEFINITION_LINES else "bt601"
    return FilmColours(matrix or guess, told_range or "limited", matrix is None, told_range is None, high_dynamic)
