"""How far letters that are taken for each other stand apart: `python tests/benchmarks/confusability.py`.

A capital of 15 minutes of arc (3 mm at 700 mm; the least of NUREG-0700 Rev. 3, 11.4.1.5-1) is blurred by a Gaussian of
1.2 minutes, about what a fair eye makes of it (from memory), and two such pictures are laid on each other where they
agree best, moved sideways by at most a minute. What is printed is the share of the ink's energy that is not common,
100 (a - b)² / (a² + b²): 0 for one shape twice, 100 where nothing meets. Figures stand higher than letters of a word in
no face here, so all are drawn on one base line.

Faces are Debian's packages; `--fonts DIR` names a folder in which they are unpacked besides that of the system. Faces
that are not there are named and left out. The exit status is 1 with fewer than four, and where our light cut falls
short of the middle of the others in a mean or in its weakest pair. Cuts of other weight or width are printed beside it.
"""

from __future__ import annotations

import argparse
import itertools
import statistics
import sys
from collections.abc import Mapping
from pathlib import Path

import freetype
import numpy as np
from scipy.ndimage import gaussian_filter

ROOT = Path(__file__).parents[2]
BUILT = ROOT / "fonts" / "built"

CAP_ARCMIN = 15.0
BLUR_ARCMIN = 1.2
FEWEST = 4
"""Other faces that a comparison needs."""
REACH_ARCMIN = 1.0
"""How far two pictures are moved sideways to agree."""
FINE = 6
"""Dots to a minute of arc."""

PAIRS = [
    *("0O", "68", "56", "8B", "DO", "1I", "1l", "2Z", "5S", "CG"),
    *("OQ", "38", "08", "0D", "EF", "PR", "UV", "MN", "4A"),
]
"""Easily confused; two characters each."""
FIGURES = "0123456789"

OTHERS = {
    "DejaVu Sans": "dejavu/DejaVuSans.ttf",
    "Liberation Sans": "liberation/LiberationSans-Regular.ttf",
    "Noto Sans": "noto/NotoSans-Regular.ttf",
    "Open Sans": "open-sans/OpenSans-Regular.ttf",
    "Roboto": "roboto/unhinted/RobotoTTF/Roboto-Regular.ttf",
    "Inter": "inter/Inter-Regular.otf",
    "B612": "b612/B612-Regular.otf",
}
"""Kept open faces, of Debian's fonts-dejavu-core, -liberation, -noto-core, -open-sans, -roboto-unhinted, -inter, -b612;
paths below fonts/truetype or fonts/opentype."""
OURS = {
    name: f"PanelartPlain-{file}.ttf"
    for name, file in {
        "our medium": "Medium",
        "our light": "Light",
        "our bold": "Bold",
        "medium narr.": "NarrowMedium",
        "light narr.": "NarrowLight",
        "bold narr.": "NarrowBold",
    }.items()
}
HELD = "our light"
"""The cut that the bars are for, as it is drawn. Heavier ones lose to the blur, as faces do, and stand beside it."""

Picture = np.ndarray


class Face:
    """A font whose characters are drawn as an eye has them."""

    def __init__(self, path: Path) -> None:
        self._face = freetype.Face(str(path))
        self._face.set_char_size(self._face.units_per_EM * 64, 0, 72, 72)
        self._load("H", freetype.FT_LOAD_DEFAULT)
        cap = self._face.glyph.outline.get_bbox().yMax / 64
        self._face.set_char_size(round(CAP_ARCMIN * FINE * self._face.units_per_EM / cap * 64), 0, 72, 72)

    def _load(self, character: str, how: int) -> None:
        self._face.load_char(character, freetype.FT_LOAD_NO_HINTING | freetype.FT_LOAD_NO_BITMAP | how)

    def seen(self, character: str) -> Picture:
        """A blurred picture, the middle of the ink at the middle of the picture, on a common base line."""
        self._load(character, freetype.FT_LOAD_RENDER)
        glyph = self._face.glyph
        drawn = glyph.bitmap
        ink = np.array(drawn.buffer, dtype=float).reshape(drawn.rows, drawn.pitch)[:, : drawn.width] / 255
        side = round(2.2 * CAP_ARCMIN * FINE)
        page = np.zeros((side, side))
        top = round(1.6 * CAP_ARCMIN * FINE) - glyph.bitmap_top
        left = (side - drawn.width) // 2
        page[top : top + drawn.rows, left : left + drawn.width] = ink
        return gaussian_filter(page, BLUR_ARCMIN * FINE)


def apart(one: Picture, other: Picture) -> float:
    """The share of energy that two pictures do not have in common, in percent, where they agree best."""
    reach = round(REACH_ARCMIN * FINE)
    energy = float((one**2).sum() + (other**2).sum())
    shifted = (np.roll(other, by, axis=1) for by in range(-reach, reach + 1))
    return min(100 * float(((one - each) ** 2).sum()) / energy for each in shifted)


def distances(path: Path) -> Mapping[str, float]:
    """Of every pair, and of every two figures, by the two characters."""
    face = Face(path)
    pairs = [*PAIRS, *("".join(two) for two in itertools.combinations(FIGURES, 2))]
    pictures = {character: face.seen(character) for character in set("".join(pairs))}
    return {pair: apart(pictures[pair[0]], pictures[pair[1]]) for pair in pairs}


def found(folders: list[Path]) -> dict[str, Path]:
    """The other faces that are there."""
    paths = {}
    for name, file in OTHERS.items():
        for folder in folders:
            if (folder / file).is_file():
                paths[name] = folder / file
    return paths


def summary(measured: Mapping[str, float]) -> dict[str, float]:
    """Mean and least of the confused pairs, and of all figures."""
    figures = [measured["".join(two)] for two in itertools.combinations(FIGURES, 2)]
    pairs = [measured[pair] for pair in PAIRS]
    return {
        "mean of pairs": statistics.mean(pairs),
        "least of pairs": min(pairs),
        "mean of figures": statistics.mean(figures),
        "least of figures": min(figures),
    }


def main() -> None:
    """Measure and print; exit 1 where a bar is missed or too few faces are there."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--fonts", type=Path, action="append", default=[], metavar="DIR")
    folders = [
        folder / kind
        for folder in (Path("/usr/share/fonts"), *parser.parse_args().fonts)
        for kind in ("truetype", "opentype")
    ]
    others = found(folders)
    theirs = {name: distances(path) for name, path in others.items()}
    columns = {name: distances(BUILT / file) for name, file in OURS.items()} | theirs
    print(f"{'':<18}" + "".join(f"{name[:12]:>13}" for name in columns))
    for pair in PAIRS:
        print(f"{pair[0]} / {pair[1]:<14}" + "".join(f"{each[pair]:>13.1f}" for each in columns.values()))
    sums = {name: summary(each) for name, each in columns.items()}
    missed = False
    for what, own in sums[HELD].items():
        line = f"{what:<18}" + "".join(f"{each[what]:>13.1f}" for each in sums.values())
        if others:
            middle = statistics.median(sums[name][what] for name in others)
            missed |= own < middle
            line += f"   the others' middle {middle:.1f}: {'kept' if own >= middle else 'MISSED'}"
        print(line)
    absent = [name for name in OTHERS if name not in others]
    if absent:
        print(f"not found: {', '.join(absent)}")
    sys.exit(missed or len(others) < FEWEST)


if __name__ == "__main__":
    main()
