"""What may stand as the unit of a scale: a unit, with what says more of it, a multiplier, a form of time, a word.

A label is what people understand; only what looks like the symbol of a unit and is none is no label: vlt, l/mni.
"""

from __future__ import annotations

import unicodedata
from typing import Final

from panelart.texts.characters import script
from panelart.texts.unit_reading import told
from panelart.texts.units import UNITS
from panelart.texts.words import listed

_SAYS_MORE: Final = frozenset(
    listed("ac dc ~ \u2393 = pk peak p pp p-p rms eff abs rel g a d spl fs rdg max min avg mean x × · * / k")
)
"""Kinds of current, of values, of pressure, and signs of multiplication, behind or before a unit (common practice)."""

_OF_CURRENT: Final = ("AC", "DC", "ac", "dc", "~", "\u2393", "=")
_OF_PRESSURE: Final = ("g", "a", "d")
_ELECTRICAL: Final = frozenset(UNITS[symbol].dimension for symbol in ("V", "A"))
_PRESSURE: Final = UNITS["bar"].dimension
_TIME: Final = frozenset(listed("d dd h hh m mm s ss"))
_VOWELS: Final = frozenset("aeiouyæøœəı")
_SHORTEST: Final = 3
"""Letters of a word that is all there is; between others two will do, and below a stroke only four, as in V/turn."""


def is_label(written: str) -> bool:
    """Whether the unit of a scale is a unit or a plain label, and nothing that only looks like a unit."""
    if _is_known(written.strip()):
        return True
    pieces = written.replace("(", " ").replace(")", " ").replace("[", " ").replace("]", " ").split()
    return bool(pieces) and all(_is_piece(piece, alone=len(pieces) == 1) for piece in pieces)


def _is_piece(piece: str, *, alone: bool) -> bool:
    if piece.casefold() in _SAYS_MORE or _is_known(piece) or _is_word(piece, _SHORTEST if alone else 2):
        return True
    if ":" in piece:
        return all(part.casefold() in _TIME for part in piece.split(":"))
    if piece[:1] in "xX×÷*" and _is_number(piece[1:]):
        return True
    above, stroke, below = piece.partition("/")
    if stroke:
        return _is_beside_stroke(above) and _is_beside_stroke(below)
    return _is_number(piece) or _with_kind(piece)


def _is_beside_stroke(part: str) -> bool:
    """Whether a part may stand above or below a stroke: V/turn, 10/min."""
    return _is_known(part) or _is_word(part, _SHORTEST + 1) or _is_number(part)


def _is_known(written: str) -> bool:
    return not any(name.startswith("unit:") for name, _ in told(written).dimension)


def _is_number(written: str) -> bool:
    """Whether figures stand here: of a multiplier, or of a variable of the spec on one piece: 10, 10³, 0042."""
    return bool(written) and all(sign.isdigit() or sign in "+-−.,^" for sign in written)


def _with_kind(piece: str) -> bool:
    """A unit with its kind of current or of pressure joined to it: VDC, V~, barg."""
    for ends, dimensions in ((_OF_CURRENT, _ELECTRICAL), (_OF_PRESSURE, frozenset({_PRESSURE}))):
        for end in ends:
            unit = UNITS.get(piece.removesuffix(end)) if piece.endswith(end) else None
            if unit is not None and unit.dimension in dimensions:
                return True
    return False


def _is_word(piece: str, shortest: int) -> bool:
    """Whether a piece is a word of any language: of Latin letters with a vowel, and in no mixture of cases."""
    letters = piece.strip(".").replace("-", "").replace("'", "").replace("’", "")
    if not letters.isalpha():
        return False
    if script(letters) != "LATIN":
        return True
    plain = unicodedata.normalize("NFD", letters.casefold())
    cased = letters.islower() or letters.isupper() or letters.istitle()
    return cased and len(letters) >= shortest and not _VOWELS.isdisjoint(plain)
