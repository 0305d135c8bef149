"""H.264 as it lies in files: units behind start codes (ITU-T H.264 annex B) or behind their length (ISO/IEC 14496-15), and the
few fields of the parameter sets that are needed to join streams."""

from __future__ import annotations

from dataclasses import dataclass

START = b"\0\0\0\1"
SLICE, IDR, SEQUENCE, PICTURE, DELIMITER = 1, 5, 7, 8, 9
PROFILES = {66: "baseline", 77: "main", 100: "high"}


@dataclass(frozen=True)
class Sets:
    """Parameter sets of a stream. length_bytes: of the length before each unit, 0 where start codes stand instead."""

    units: tuple[bytes, ...]
    length_bytes: int

    @property
    def profile(self) -> str | None:
        """The profile's word for the encoder; None for one that it is not asked for."""
        found = {PROFILES.get(unit[1]) for unit in self.units if kind_of(unit) == SEQUENCE}
        return found.pop() if len(found) == 1 else None

    @property
    def free_id(self) -> int | None:
        """A number that no set here has, for sets of another stream beside them; None when all 32 are taken."""
        taken = {_id_of(unit) for unit in self.units}
        return next((number for number in range(32) if number not in taken), None)


def kind_of(unit: bytes) -> int:
    """nal_unit_type (table 7-1)."""
    return unit[0] & 31


def units_of(data: bytes, length_bytes: int) -> list[bytes]:
    """The units of a packet. Raises ValueError when the lengths do not fit."""
    if not length_bytes:
        return [unit for part in data.split(b"\0\0\1")[1:] if (unit := part.rstrip(b"\0"))]
    units, at = [], 0
    while at < len(data):
        length = int.from_bytes(data[at : at + length_bytes], "big")
        at += length_bytes
        if not length or at + length > len(data):
            raise ValueError("a unit reaches past its packet")
        units.append(data[at : at + length])
        at += length
    return units


def with_start_codes(units: list[bytes] | tuple[bytes, ...]) -> bytes:
    """The units behind start codes."""
    return b"".join(START + unit for unit in units)


def sets_of(extradata: bytes) -> Sets:
    """The parameter sets of a stream's extra data, of either form. Raises ValueError when there are none."""
    if extradata[:1] == b"\1":
        return _sets_of_box(extradata)
    units = tuple(unit for unit in units_of(extradata, 0) if kind_of(unit) in (SEQUENCE, PICTURE))
    if not units:
        raise ValueError("no parameter sets")
    return Sets(units, 0)


def _sets_of_box(box: bytes) -> Sets:
    """AVCDecoderConfigurationRecord, ISO/IEC 14496-15 5.3.3.1."""
    units, at = [], 5
    for mask in (31, 255):
        count, at = box[at] & mask, at + 1
        for _ in range(count):
            length = int.from_bytes(box[at : at + 2], "big")
            units.append(box[at + 2 : at + 2 + length])
            at += 2 + length
    if not units or any(not unit for unit in units):
        raise ValueError("no parameter sets")
    return Sets(tuple(units), (box[4] & 3) + 1)


def _id_of(unit: bytes) -> int:
    """seq_parameter_set_id or pic_parameter_set_id (7.3.2.1.1, 7.3.2.2): the first Exp-Golomb code."""
    data = unit[4:] if kind_of(unit) == SEQUENCE else unit[1:]
    bits = "".join(f"{byte:08b}" for byte in data[:8])
    zeros = bits.index("1")
    return int(bits[zeros : 2 * zeros + 1], 2) - 1
