"""Legends in capitals, with the symbols of units left as they are.

The rule. Every letter is set as its capital, except what the spec marks with `{keep ...}`, and except in a word that
is the symbol of a unit. A word is taken for
one when it is spelled exactly as such a symbol (prefix included, small and capital letters as the SI writes
them) and one of these holds:

1. a number stands before it, alone or joined to it: 12 mm, 50Hz, 3.3 kΩ, 1/2 in;
2. it has both small letters and a capital, Ω, µ or a degree sign, so that no plain word is meant: mV, kHz, dB;
3. it stands in brackets, or is made of symbols only, joined by / or ·: (bar), m/s, km/h.

So `in` of LINE IN, `bar` and `min` become capitals when they stand alone, and `CH 2 in` keeps a small `in` because
an inch could be meant: who means the word writes IN. A µ is kept everywhere, as its capital would be read as M.

Symbols: SI units and those accepted with the SI (SI Brochure, 9th edition, tables 2 to 5 and 8), with the prefixes
in use on instruments, and the decibels, volt-amperes and per cents of the trade (common practice).

Capitals depend on the language (Unicode, SpecialCasing.txt): in Turkish and Azerbaijani i keeps its dot;
in Greek the tonos goes and the dialytika stays. ß becomes SS in every language; who wants ẞ writes it, and it stays.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from typing import Final

_WITH_PREFIXES: Final[dict[str, str]] = {
    # unit: the prefixes it is met with
    "m": "k c m µ n",
    "g": "k m µ n",
    "t": "k M",
    "s": "m µ n p",
    "A": "k m µ n p f",
    "V": "M k m µ n",
    "W": "G M k m µ n p",
    "Hz": "T G M k m",
    "F": "m µ n p",
    "H": "m µ n",
    "Ω": "G M k m µ",
    "S": "k m µ n",
    "Pa": "G M k h m",
    "bar": "m",
    "N": "M k m",
    "Nm": "k m",
    "J": "M k m",
    "C": "m µ n p",
    "T": "m µ n",
    "Wb": "m",
    "K": "m",
    "L": "m",
    "l": "m c",
    "lm": "k",
    "lx": "k m",
    "cd": "m",
    "mol": "m µ",
    "rad": "m",
    "sr": "",
    "Bq": "G M k",
    "Gy": "m µ",
    "Sv": "m µ",
    "eV": "G M k m",
    "Wh": "G M k m",
    "Ah": "k m",
    "VA": "M k m",
    "var": "M k",
    "min": "",
    "h": "",
    "d": "",
    "in": "",
    "°C": "",
    "°F": "",
    "dB": "",
    "dBm": "",
    "dBu": "",
    "dBV": "",
    "dBA": "",
    "dBc": "",
    "dBi": "",
    "dBFS": "",
    "ppm": "",
    "Vpp": "m",
    "Vrms": "m",
    "Vdc": "",
    "Vac": "",
    "Bd": "k M",
    "bit": "k M G",
    "px": "",
    "pH": "",
}

_MICRO: Final = "\u00b5"
_MU: Final = "\u03bc"
_OMEGA: Final = "\u03a9"
_OHM: Final = "\u2126"


def _spellings(symbol: str) -> tuple[str, ...]:
    """A symbol with its other spellings: the Greek letters for the signs, u for micro where keyboards lack it."""
    micro = (symbol, symbol.replace(_MICRO, _MU), symbol.replace(_MICRO, "u"))
    return micro + tuple(each.replace(_OMEGA, _OHM) for each in micro)


SYMBOLS: Final = frozenset(
    spelling
    for unit, prefixes in _WITH_PREFIXES.items()
    for prefix in ("", *prefixes.split())
    for spelling in _spellings(prefix + unit)
)
"""Every symbol that is kept."""

_NUMBER: Final = re.compile("[-+\u2212\u00b1]?[0-9]+(?:[.,/][0-9]+)*")
_TOKEN: Final = re.compile(r"\s+|[^\s]+")
_POWER: Final = re.compile(r"[²³]|⁻[¹²³]")
_MARKS_BEFORE: Final = "([{\"'<"
_MARKS_AFTER: Final = ")]}\"'>.,:;!?"
_KEPT: Final = _MICRO + _MU
_SIGNS: Final = _MICRO + _MU + _OMEGA + _OHM + "°"


def capitals(text: str, stays: Sequence[bool], language: str = "") -> list[str]:
    """What each character becomes where it does not stay as it is; two letters for one at times."""
    return [letter if stay else _capital(letter, language) for letter, stay in zip(text, stays, strict=True)]


def stay_as_written(text: str, kept: Sequence[bool]) -> list[bool]:
    """Which characters neither capitals nor small capitals touch: those that are kept, and the symbols of units."""
    stays = list(kept)
    after_number = False
    for match in _TOKEN.finditer(text):
        token = match[0]
        if token.isspace():
            continue
        if _is_unit(token, after_number=after_number):
            stays[match.start() : match.end()] = [True] * len(token)
        after_number = _NUMBER.fullmatch(token.rstrip(_MARKS_AFTER)) is not None
    return stays


def _is_unit(token: str, *, after_number: bool) -> bool:
    core = token.lstrip(_MARKS_BEFORE)
    before = token[: len(token) - len(core)]
    word = core.rstrip(_MARKS_AFTER)
    after = core[len(word) :]
    number = _NUMBER.match(word)
    joined = number.end() if number is not None else 0
    unit = word[joined:]
    bracketed = before.endswith(("(", "[")) and after.startswith((")", "]"))
    return _is_symbol(unit, certain=after_number or joined > 0 or bracketed)


def _is_symbol(word: str, *, certain: bool) -> bool:
    pieces = [_POWER.sub("", piece) for piece in re.split("[/·]", word)]
    if not all(piece in SYMBOLS for piece in pieces):
        return False
    return certain or len(pieces) > 1 or _unmistakable(word)


def _unmistakable(word: str) -> bool:
    small = any(letter.islower() for letter in word)
    return small and any(letter.isupper() or letter in _SIGNS for letter in word)


_TURKIC: Final = {"tr", "az"}
_DOTTED: Final = {"i": "İ", "ı": "I"}
_TONOS: Final = "\u0301"


def _capital(letter: str, language: str) -> str:
    if letter in _KEPT:
        return letter
    primary = language.lower().split("-")[0]
    if primary in _TURKIC and letter in _DOTTED:
        return _DOTTED[letter]
    capital = letter.upper()
    if primary == "el":
        apart = unicodedata.normalize("NFD", capital).replace(_TONOS, "")
        return unicodedata.normalize("NFC", apart)
    return capital
