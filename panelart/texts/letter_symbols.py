"""Letter symbols of quantities, with what is set as an index elsewhere: IΔn, Un, Vout, Tamb.

IEC 60027-1 and IEC 60034-1 have the letters, IEC 60947-1, IEC 61008-1, IEC 61439-1 and IEC 60079-11 the indices of
switchgear and of intrinsic safety (all from memory); those of supplies and amplifiers are common practice.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from panelart.texts.unit_reading import told
from panelart.texts.units import Dimension
from panelart.texts.words import FUNCTIONS, listed

_KNOWN: Final = frozenset(
    listed(
        """IΔn IΔ IΔt Icn Icu Ics Icw Icm Ipk Isc Iq Uoc Voc Uimp Rds Pn Idn IDn I∆n I∆ I∆t Un Ui Ue Uc Ub Ie Ith Ithe
        Iu Iz Isd Qn Tj Rth Riso Zs Ze Vdd Vee Vbe Vce Vgs Vds Vgg Vth Vs Vn InA Inc Pel Pth Pmech Pabs Ptot Leq LAeq
        LAF Lp fn f0 pN nN Ra Rz Rds Ron Vf Vr Ileak"""
    )
)
"""Symbols that are no words."""

_WORDS: Final = frozenset(listed("Un"))
"""Those of them that are words of a language where another word follows: un canal."""

_BROAD: Final = frozenset(
    "".join(pair)
    for pair in itertools.product(
        "UVIPTQRCLHNFMSWDZfnptvdhsm", listed("max min nom amb ref eff rms sat imp aux bat iso avg set")
    )
) | frozenset("".join(pair) for pair in itertools.product("UVIZRQ", ("in", "out")))
_MORE_INDICES: Final = re.compile(r"[UVIPRCTQ][A-Z]{0,2}(?:max|min|sat|nom|eff|rms|ref|th)")
_NO_SYMBOLS: Final = frozenset(listed("Pref Iimp Rin Rout Mset Dset Hset mset"))
_CHANGE: Final = re.compile(r"[Δ∆][A-Za-zφϕθϑω]{1,3}")
_SUBSCRIPT: Final = re.compile(r"[a-zα-ω][₀-₉ₐ-ₜ]{1,2}")
"""A small letter with an index: t₁."""

_INDICES: Final = frozenset(listed("x n e i o c s r th t q m b g u a k d in out max min nom 0 1 2 3"))
_OF: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "U": ("V",),
        "V": ("V", "l"),
        "I": ("A",),
        "P": ("W",),
        "S": ("W",),
        "T": ("K",),
        "R": ("Ω",),
        "Z": ("Ω",),
        "C": ("F",),
        "L": ("H", "m"),
        "H": ("m",),
        "f": ("Hz", "1/min"),
        "n": ("rpm", "1/min"),
        "p": ("Pa",),
        "t": ("s",),
        "v": ("m/s",),
        "a": ("m/s²",),
        "F": ("N",),
        "M": ("Nm",),
    }
)
"""Letters of quantities, and units of what they measure."""

_DIMENSIONS: Final = {letter: tuple(told(unit).dimension for unit in units) for letter, units in _OF.items()}
_LONGEST: Final = 4
_SMALL: Final = frozenset("afnptv")
"""Letters that are symbols without an index: t 5 s. Capitals are channels and classes as often, and stay anyhow."""

_NEVER: Final = frozenset(listed("To Pa mm Lin"))
"""Words and units that a letter and an index make, whatever follows: To 5 °C."""


def is_symbol(cluster: str) -> bool:
    """Whether letters are the symbol of a quantity wherever they stand: IΔn, Δp, cosφ, Vout, t₁."""
    return (
        cluster in _KNOWN
        or (cluster in _BROAD and cluster not in _NO_SYMBOLS)
        or _MORE_INDICES.fullmatch(cluster) is not None
        or (cluster[0] in "Δ∆" and _CHANGE.fullmatch(cluster) is not None)
        or (cluster[:-1] in FUNCTIONS and "α" <= cluster[-1] <= "ϖ")
        or _SUBSCRIPT.fullmatch(cluster) is not None
    )


def is_word_before_words(cluster: str) -> bool:
    """Whether a symbol is a word where another word follows."""
    return cluster in _WORDS


def dimensions_of(cluster: str) -> tuple[Dimension, ...]:
    """What a symbol measures whose letters are a word as well: In 16 A, Us 24 V; () where they are no symbol."""
    if len(cluster) == 1:
        return _DIMENSIONS.get(cluster, ()) if cluster in _SMALL else ()
    if len(cluster) > _LONGEST or cluster[1:] not in _INDICES or cluster in _NEVER:
        return ()
    return _DIMENSIONS.get(cluster[0], ())
