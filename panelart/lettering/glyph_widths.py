"""Widths of our own glyphs, measured once and kept beside the built fonts: `python -m panelart.lettering.glyph_widths`.

A file begins with the hash of the font it was measured on and is passed over where the font is another one, so that a
rebuilt font is measured anew until the files are written again.
"""

from __future__ import annotations

import math
import struct
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Final

from panelart.lettering.fonts import OWN_FONTS, SYMBOL_FONTS, fonts_folder
from panelart.lettering.own_faces import FOLDER, own_face
from panelart.source.built import Row, Table

FILES: Final[Mapping[str, str]] = OWN_FONTS | SYMBOL_FONTS
NOTHING = "-"
"""Stands for a width that a glyph does not have: no gap in an I."""


@cache
def stored_widths(font_name: str) -> Mapping[int, tuple[float, float]]:
    """By glyph number, thinnest stroke and narrowest gap over the cap height; empty for fonts that are not ours."""
    if font_name not in FILES:
        return {}
    # A font that is as it was when the index was built is the one that the widths were measured on.
    kept: bytes | None = None if own_face(font_name) is None else BUILT.get(font_name)
    return _of_file(font_name) if kept is None else dict(enumerate(struct.iter_unpack("<2d", kept)))


def _of_file(font_name: str) -> Mapping[int, tuple[float, float]]:
    path = _file(font_name)
    if not path.is_file():
        return {}
    head, *lines = path.read_text(encoding="ascii").splitlines()
    if head != _hash(font_name):
        return {}
    return {int(number): (_read(stroke), _read(gap)) for number, stroke, gap in map(str.split, lines)}


def _file(font_name: str) -> Path:
    return (fonts_folder() / "built" / FILES[font_name]).with_suffix(".widths")


def _hash(font_name: str) -> str:
    import hashlib

    return hashlib.sha256((fonts_folder() / "built" / FILES[font_name]).read_bytes()).hexdigest()


def _read(text: str) -> float:
    return math.inf if text == NOTHING else float(text)


def _written(value: float) -> str:
    return NOTHING if math.isinf(value) else f"{value:.6f}"


def main() -> None:
    """Measure every glyph of our fonts and write the files."""
    from panelart.lettering.fonts import open_font
    from panelart.lettering.measures import measured_glyph

    for name in FILES:
        count = open_font(name).face.face.glyph_count
        found = [(number, measured_glyph(name, number)) for number in range(count)]
        lines = [f"{number} {_written(widths.stroke)} {_written(widths.gap)}" for number, widths in found]
        _file(name).write_text("\n".join([_hash(name), *lines]) + "\n", encoding="ascii")
        sys.stdout.write(f"{_file(name).name}: {count} glyphs\n")


def _rows() -> Iterator[Row]:
    for name in FILES:
        widths = _of_file(name)
        if list(widths) == list(range(len(widths))):
            pairs = b"".join(struct.pack("<2d", *pair) for pair in widths.values())
            yield name, f"{FOLDER}/{_file(name).name}", pairs


BUILT: Final = Table(name="widths", type=bytes, code=("lettering/glyph_widths.py",), make=_rows)


if __name__ == "__main__":
    main()
