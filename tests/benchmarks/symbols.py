"""How far the symbols stand apart as an eye has them: `python tests/benchmarks/symbols.py`.

A symbol of 15 minutes of arc (3 mm at 700 mm) is blurred by a Gaussian of 1.2 minutes, about what a fair eye makes of
it (from memory), as `confusability.py` does with letters, and two such pictures are laid on each other where they agree
best, moved by at most a minute sideways. What is printed is the share of the ink's energy that is not common, 0 for one
shape twice and 100 where nothing meets: the closest pairs of each font. Letters that are taken for each other stand at
3.9 (8 and B) to 14 (0 and O).
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

import freetype
import numpy as np
from scipy.ndimage import gaussian_filter

from panelart.lettering.face.truetype import UNITS
from panelart.lettering.own_faces import SYMBOLS as FONTS
from panelart.lettering.symbols import SYMBOLS, glyph_name

BUILT = Path(__file__).parents[2] / "fonts" / "built"

HEIGHT_ARCMIN = 15.0
BLUR_ARCMIN = 1.2
REACH_ARCMIN = 1.0
FINE = 4
"""Dots to a minute of arc."""
WIDEST = 3.4
"""Width of the picture over the height of the square."""
TALLEST = 1.9
"""Height of the picture, likewise."""


def pictures(font: str, symbols: Sequence[str] = SYMBOLS, fine: int = FINE) -> np.ndarray:
    """A blurred picture of each symbol, the middle of its ink at the middle of the picture, on one base line.

    Of shape (symbols, rows, columns); ink is 1.
    """
    face = freetype.Face(str(BUILT / FONTS[font]))
    square = HEIGHT_ARCMIN * fine
    units = 10.0 * UNITS
    face.set_char_size(round(square * face.units_per_EM / units * 64), 0, 72, 72)
    rows, columns = round(TALLEST * square), round(WIDEST * square)
    seen = np.zeros((len(symbols), rows, columns))
    for page, symbol in zip(seen, symbols, strict=True):
        face.load_glyph(
            face.get_name_index(glyph_name(symbol).encode()),
            freetype.FT_LOAD_NO_HINTING | freetype.FT_LOAD_NO_BITMAP | freetype.FT_LOAD_RENDER,
        )
        drawn = face.glyph.bitmap
        ink = np.array(drawn.buffer, dtype=float).reshape(drawn.rows, drawn.pitch)[:, : drawn.width] / 255
        top = round(1.45 * square) - face.glyph.bitmap_top
        left = (columns - drawn.width) // 2
        page[top : top + drawn.rows, left : left + drawn.width] = ink
    return np.stack([gaussian_filter(page, BLUR_ARCMIN * fine) for page in seen])


def apart(seen: np.ndarray, fine: int = FINE) -> np.ndarray:
    """For every two pictures the share of their energy that they do not have in common, in percent."""
    flat = seen.reshape(len(seen), -1)
    energy = (flat**2).sum(axis=1)
    both = energy[:, None] + energy[None, :]
    reach = round(REACH_ARCMIN * fine)
    common = np.full(both.shape, -np.inf)
    for by in range(-reach, reach + 1):
        common = np.maximum(common, flat @ np.roll(seen, by, axis=2).reshape(flat.shape).T)
    return 100.0 * (1.0 - 2.0 * common / both)


def closest(font: str, count: int, fine: int = FINE) -> list[tuple[float, str, str]]:
    """The closest pairs of a font: how far apart, and the two symbols."""
    found = apart(pictures(font, fine=fine), fine)
    one, other = np.triu_indices(len(SYMBOLS), k=1)
    order = np.argsort(found[one, other], kind="stable")[:count]
    return [(float(found[one[i], other[i]]), SYMBOLS[one[i]], SYMBOLS[other[i]]) for i in order]


def main() -> None:
    """Print the closest pairs of each font."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=10, metavar="N", help="closest pairs that are printed")
    count = parser.parse_args().count
    for font in FONTS:
        print(f"{font}, {len(SYMBOLS)} symbols")
        for distance, one, other in closest(font, count):
            print(f"{distance:8.1f}  {one} / {other}")


if __name__ == "__main__":
    main()
