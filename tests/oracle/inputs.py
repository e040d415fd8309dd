"""Makes the binary files that the small specs name: a picture, a font of boxes, an outline, a printer's profile.

    python -m tests.oracle.inputs

They are committed; made anew only when one has to change.
"""

from __future__ import annotations

import io
import struct
from pathlib import Path

import ezdxf
from PIL import Image

from tests.lettering.builders import boxes

SPECS = Path(__file__).resolve().parent / "specs"
LETTERS = "אבגדהוזחטיכלמנסעפצקרשת"


def picture() -> bytes:
    """A picture of 24 x 16 dots that runs from dark to light, with a corner that shows through."""
    dots = Image.new("RGBA", (24, 16))
    for x in range(24):
        for y in range(16):
            dots.putpixel((x, y), (x * 10, y * 15, 255 - x * 10, 0 if x + y < 6 else 255))
    file = io.BytesIO()
    dots.save(file, "PNG")
    return file.getvalue()


def font() -> bytes:
    """Boxes of different heights and depths for the letters of a script that runs from right to left."""
    return boxes({letter: (60, -40 * (n % 3), 540, 500 + 40 * (n % 6)) for n, letter in enumerate(LETTERS)})


def outline() -> bytes:
    """A rectangle with an arched top, a window and a round hole in it, away from the origin of the drawing."""
    document = ezdxf.new("R2000")
    document.header["$INSUNITS"] = 4
    space = document.modelspace()
    on = {"layer": "outline"}
    for start, end in (((0, 60), (0, 0)), ((0, 0), (160, 0)), ((160, 0), (160, 60))):
        space.add_line(start, end, dxfattribs=on)
    space.add_arc((80, 0), 100, 36.86989764584401, 143.13010235415598, dxfattribs=on)
    space.add_lwpolyline([(60, 50), (100, 50), (100, 70), (60, 70)], close=True, dxfattribs=on)
    space.add_circle((20, 50), 4, dxfattribs=on)
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode()


def profile() -> bytes:
    """The least that a CMYK profile of a printer can be: a table of two steps an ink, each taking light away."""
    table = bytearray()
    for number in range(16):
        cyan, magenta, yellow, black = (number >> shift & 1 for shift in (3, 2, 1, 0))
        light = max(0, 100 - 35 * cyan - 45 * magenta - 10 * yellow - 80 * black)
        table += bytes(
            (
                light * 255 // 100,
                128 - 40 * cyan + 70 * magenta - 5 * yellow,
                128 - 45 * cyan - 5 * magenta + 90 * yellow,
            )
        )
    straight = bytes(range(256))
    identity = struct.pack(">9i", 65536, 0, 0, 0, 65536, 0, 0, 0, 65536)
    look_up = b"mft1" + bytes(4) + bytes((4, 3, 2, 0)) + identity + straight * 4 + bytes(table) + straight * 3
    words = b"bed 2\0"
    tags = {
        b"desc": b"desc" + bytes(4) + struct.pack(">I", len(words)) + words + bytes(78),
        b"cprt": b"text" + bytes(4) + b"none\0",
        b"wtpt": b"XYZ " + bytes(4) + struct.pack(">3i", 63190, 65536, 54061),
        b"A2B0": look_up,
    }
    body, places = bytearray(), bytearray()
    for name, data in tags.items():
        places += struct.pack(">4sII", name, 132 + 12 * len(tags) + len(body), len(data))
        body += data + bytes(-len(data) % 4)
    head = struct.pack(
        ">4x4sI4s4s4s6H4s", b"\0\0\0\0", 0x02400000, b"prtr", b"CMYK", b"Lab ", 2025, 1, 1, 0, 0, 0, b"acsp"
    )
    head += bytes(28) + struct.pack(">3i", 63190, 65536, 54061)
    whole = head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + places + body
    return struct.pack(">I", len(whole)) + whole[4:]


if __name__ == "__main__":
    for name, data in {
        "dots.png": picture(),
        "boxes.ttf": font(),
        "arch.dxf": outline(),
        "bed-2.icc": profile(),
    }.items():
        (SPECS / name).write_bytes(data)
        print(name, len(data))
