"""The sRGB colour space as an ICC profile of our own making: IEC 61966-2-1 in the form of ICC.1:2001-04 (version 2.4).

Primaries and white are those of the standard, adapted from D65 to the D50 of profiles by the linear Bradford
transform; the curve is a table. No date and no name of a machine are in it, so that it is the same every time.
"""

from __future__ import annotations

import struct
from functools import cache
from typing import Final

_D50: Final = (0.9642, 1.0, 0.8249)
_COLUMNS: Final = (
    (0.436066, 0.222488, 0.013916),
    (0.385147, 0.716873, 0.097076),
    (0.143066, 0.060608, 0.714096),
)
"""Red, green and blue light of sRGB as X, Y, Z for D50: IEC 61966-2-1, adapted as profiles commonly state it."""

_STEPS: Final = 1024


@cache
def srgb_profile() -> bytes:
    """The profile, class `mntr`."""
    tags = [
        (b"desc", _description("sRGB, IEC 61966-2-1")),
        (b"cprt", b"text\0\0\0\0" + b"No copyright, use freely\0"),
        (b"wtpt", _xyz(_D50)),
        *((name, _xyz(column)) for name, column in zip((b"rXYZ", b"gXYZ", b"bXYZ"), _COLUMNS, strict=True)),
    ]
    curve = _curve()
    bodies: list[bytes] = []
    table: list[bytes] = []
    at = 128 + 4 + 12 * (len(tags) + 3)
    for name, body in tags:
        table.append(name + struct.pack(">II", at, len(body)))
        bodies.append(_padded(body))
        at += len(bodies[-1])
    # One curve for all three.
    table += [name + struct.pack(">II", at, len(curve)) for name in (b"rTRC", b"gTRC", b"bTRC")]
    bodies.append(_padded(curve))
    data = struct.pack(">I", len(table)) + b"".join(table) + b"".join(bodies)
    return _header(128 + len(data)) + data


def _header(size: int) -> bytes:
    """ICC.1:2001-04, 6.1: perceptual intent, D50, made on the first day of 2000."""
    return struct.pack(
        ">I4sI4s4s4s6H4s4sI4s4sQI3i4s44x",
        size,
        b"\0\0\0\0",
        0x02400000,
        b"mntr",
        b"RGB ",
        b"XYZ ",
        *(2000, 1, 1, 0, 0, 0),
        b"acsp",
        b"\0\0\0\0",
        0,
        b"\0\0\0\0",
        b"\0\0\0\0",
        0,
        0,
        *(_fixed(value) for value in _D50),
        b"\0\0\0\0",
    )


def _fixed(value: float) -> int:
    return round(value * 65536)


def _xyz(value: tuple[float, float, float]) -> bytes:
    return b"XYZ \0\0\0\0" + struct.pack(">3i", *(_fixed(part) for part in value))


def _description(text: str) -> bytes:
    words = text.encode("ascii") + b"\0"
    # Length and words in ASCII; then none in Unicode and none in the script code, whose room is always 67 bytes.
    return b"desc\0\0\0\0" + struct.pack(">I", len(words)) + words + bytes(4 + 4 + 2 + 1 + 67)


def _curve() -> bytes:
    values = (round(65535 * _light(step / (_STEPS - 1))) for step in range(_STEPS))
    return b"curv\0\0\0\0" + struct.pack(">I", _STEPS) + struct.pack(f">{_STEPS}H", *values)


def _light(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _padded(body: bytes) -> bytes:
    return body + bytes(-len(body) % 4)
