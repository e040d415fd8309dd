"""The cuts of our own face: one pen, an axis of weight and one of width, and the names of what is cut from them.

A cut is called by its weight and its width: `medium`, `bold-narrow`, `h/8`, `h/9.5-0.85`. Those of `NAMED` are built
and come with the program; any other is drawn from the same strokes when it is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Final

from panelart.canonical import Struct

WEIGHTS: Final = {"light": 10.0, "medium": 7.5, "bold": 6.0}
"""Cap heights to a stroke of the named weights: the pen of ISO 3098-0 type B; the middle of 1/8 to 1/7, which
DOD-HDBK-791(AM), 6-5.3.2.3, gives for light on dark; its 1/6 for dark on light."""

WIDTHS: Final = {"normal": 1.0, "narrow": 0.76}
"""Shares of the width as drawn that the named widths have. Our choice."""

FINEST, HEAVIEST = 14.0, 6.0
"""Ends of the axis of weight, in strokes to the cap height: ISO 3098-0 type A, and what the handbook gives as most."""

DECIMALS: Final = 2
"""Decimals to which weight and width are told apart: a hundredth of a stroke is not seen at any size."""

FACE, SIGNS = "plain", "symbols"
"""What the names of our fonts of letters and of symbols begin with."""

_NAME: Final = re.compile(r"(light|medium|bold|h/(?P<strokes>\d+(?:\.\d+)?))(?:-(?P<width>narrow|0\.\d+))?")


class Cut(Struct, frozen=True):
    """One weight and width: `weight` is the cap height in strokes, `width` a share of the width as drawn."""

    weight: float
    width: float = 1.0

    @property
    def name(self) -> str:
        """`medium`, `bold-narrow`, `h/8`, `h/9.5-0.85`: one name for one cut."""
        weight = self.weight_name
        if self.width == WIDTHS["normal"]:
            return weight
        return f"{weight}-narrow" if self.width == WIDTHS["narrow"] else f"{weight}-{self.width:g}"

    @property
    def weight_name(self) -> str:
        """The word for the weight, else what it is: `h/8`."""
        named = {value: name for name, value in WEIGHTS.items()}
        return named.get(self.weight, f"h/{self.weight:g}")

    @property
    def font(self) -> str:
        """The name of its font of letters."""
        return f"{FACE}-{self.name}"

    @property
    def title(self) -> str:
        """What it is called in a font: ``Narrow Bold``; other than named ones by their figures, ``W0.9 H8.5``."""
        width = "" if self.width == 1.0 else "Narrow " if self.width == WIDTHS["narrow"] else f"W{self.width:g} "
        return width + (self.weight_name.capitalize() if self.weight in WEIGHTS.values() else f"H{self.weight:g}")

    @property
    def symbols(self) -> str:
        """The name of the font of symbols with this pen; symbols have one width."""
        return f"{SIGNS}-{self.weight_name}"


NAMED: Final = tuple(Cut(weight, width) for width in WIDTHS.values() for weight in WEIGHTS.values())
"""The cuts that are built."""

LIGHT, MEDIUM, BOLD = (Cut(weight) for weight in WEIGHTS.values())


@cache
def cut_named(name: str) -> Cut | None:
    """The cut of a name as `Cut.name` writes it; None for any other."""
    found = _NAME.fullmatch(name)
    if found is None:
        return None
    weight = float(found["strokes"]) if found["strokes"] else WEIGHTS[found[1]]
    width = found["width"]
    share = WIDTHS["narrow" if width == "narrow" else "normal"] if width in (None, "narrow") else float(width)
    cut = Cut(weight, share)
    inside = HEAVIEST <= weight <= FINEST and WIDTHS["narrow"] <= share <= WIDTHS["normal"]
    return cut if inside and cut.name == name else None


@cache
def cut_of(font: str) -> Cut | None:
    """The cut of one of our fonts, of letters or of symbols, by the font's name; None for other people's fonts."""
    face, _, name = font.partition("-")
    return cut_named(name) if face in (FACE, SIGNS) else None


def is_symbols(font: str) -> bool:
    """Whether a font is one of symbols of ours."""
    return font.startswith(f"{SIGNS}-") and cut_of(font) is not None


def ps_name(font: str) -> str:
    """The PostScript name of one of our fonts: ``PanelartPlain-NarrowBold``."""
    cut = cut_of(font)
    assert cut is not None, "it is asked for of our own only"
    return f"Panelart{'Symbols' if is_symbols(font) else 'Plain'}-{cut.title}".replace(" ", "").replace(".", "_")


def narrowed(font: str) -> str | None:
    """The narrow cut of one of our fonts of letters that is wider; None where there is none."""
    cut = None if is_symbols(font) else cut_of(font)
    return None if cut is None or cut.width == WIDTHS["narrow"] else Cut(cut.weight, WIDTHS["narrow"]).font


def nearest_weight(strokes: float) -> str:
    """The named weight whose pen is nearest to one of so many strokes to the cap height."""
    return min(WEIGHTS, key=lambda name: abs(1 / WEIGHTS[name] - 1 / strokes))


def built() -> Iterator[Cut]:
    """The cuts whose pens the built fonts of symbols have."""
    return (cut for cut in NAMED if cut.width == WIDTHS["normal"])
