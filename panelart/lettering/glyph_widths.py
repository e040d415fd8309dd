"""Widths of our own glyphs, measured once and kept beside the built fonts: `python -m panelart.lettering.store_widths`.

A file begins with the hash of the font it was measured on and is passed over where the font is another one, so that a
rebuilt font is measured anew until the files are written again.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Iterable, Iterator, Mapping
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


def store_widths(font_name: str, widths: Iterable[tuple[int, float, float]]) -> Path:
    """Keep glyph number, thinnest stroke and narrowest gap over the cap height of one of our fonts; the file."""
    lines = [f"{number} {_written(stroke)} {_written(gap)}" for number, stroke, gap in widths]
    path = _file(font_name)
    path.write_text("\n".join([_hash(font_name), *lines]) + "\n", encoding="ascii")
    return path


def _file(font_name: str) -> Path:
    return (fonts_folder() / "built" / FILES[font_name]).with_suffix(".widths")


def _hash(font_name: str) -> str:
    import hashlib

    return hashlib.sha256((fonts_folder() / "built" / FILES[font_name]).read_bytes()).hexdigest()


def _read(text: str) -> float:
    return math.inf if text == NOTHING else float(text)


def _written(value: float) -> str:
    return NOTHING if math.isinf(value) else f"{value:.6f}"


def _rows() -> Iterator[Row]:
    for name in FILES:
        widths = _of_file(name)
        if list(widths) == list(range(len(widths))):
            pairs = b"".join(struct.pack("<2d", *pair) for pair in widths.values())
            yield name, f"{FOLDER}/{_file(name).name}", pairs


BUILT: Final = Table(name="widths", type=bytes, code=("lettering/glyph_widths.py",), make=_rows)
