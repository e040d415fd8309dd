"""Figures as people write them: points and commas, groups of three, fractions, powers of ten."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from decimal import Decimal
from typing import Final, TypeAlias

from panelart.texts.words import ENGLISH_COMMAS

Figure: TypeAlias = tuple[int, tuple[Decimal, ...]]
"""Where a number ends, and which it may be: 1,000 is a thousand or one."""

_BODY: Final = re.compile(
    r"(?:\d{1,3}(?:[\u00a0\u2009\u202f'’]\d{3})+(?!\d)(?:[.,]\d+)?"
    r"|\d{1,3}(?:,\d{3})+\.\d+(?![.,]?\d)|\d{1,3}(?:\.\d{3})+,\d+(?![.,]?\d)"
    r"|\d{1,2}(?:,\d\d)+,\d{3}(?:\.\d+)?(?![.,]?\d)"
    r"|\d+(?:\.\d{3}){2,}(?![.,]?\d)|\d+(?:,\d{3}){2,}(?!,?\d)"
    r"|\d+(?:[.,]\d+(?!\d|[.,]\d))?(?:[eE][+-]?\d{1,2}(?!\w))?|\.\d+)"
)
_GROUPS: Final = re.compile(r"((?: \d{3})+)(?!\d)(?:[.,]\d+(?!\d|[.,]\d))?(?!\d)")
_VULGAR: Final = {"½": "0.5", "¼": "0.25", "¾": "0.75", "⅛": "0.125", "⅜": "0.375", "⅝": "0.625", "⅞": "0.875"} | {
    "⅓": "0.3333",
    "⅔": "0.6667",
    "⅕": "0.2",
    "⅖": "0.4",
    "⅗": "0.6",
    "⅘": "0.8",
    "⅙": "0.1667",
    "⅚": "0.8333",
}
_POWER: Final = re.compile(r"\s?[×x·]\s?10(?:(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,2})(?![⁰¹²³⁴⁵⁶⁷⁸⁹])|\^(-?\d{1,2})(?!\d))")
_TENFOLD: Final = re.compile(r"(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,2})(?![⁰¹²³⁴⁵⁶⁷⁸⁹])|\^(-?\d{1,2})(?!\d)")
_THOUSANDS: Final = re.compile(r"[1-9]\d{0,2},\d{3}")
_THREE_BEHIND: Final = re.compile(r",\d{3}\Z")
_LAST_OF_INDIA: Final = "\u0def"
"""Of the figures of India's scripts, which begin with those of Devanagari; commas part thousands among them (CLDR)."""

_BETWEEN_FIGURES: Final = re.compile(r"(?<=\d)[\u066b\u066c](?=\d)")
_BY_SIGN: Final = {"\u066b": ".", "\u066c": "\u2019"}
_ARABIC_SIGNS: Final = frozenset(_BY_SIGN)
_SEPARATORS: Final = str.maketrans("", "", "\u00a0\u2009\u202f'’ ")
_LOWERED: Final = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
_GOES_ON: Final = frozenset(" ½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚⁻⁰¹²³⁴⁵⁶⁷⁸⁹^")
_THOUSANDS_BY_POINTS: Final = frozenset(["de", "es", "it", "nl", "pt", "da", "tr", "el", "ro", "hr", "sl", "id", "vi"])
"""Languages that part thousands by points (CLDR, from memory)."""

_LONGEST: Final = 40
_HALVINGS: Final = (2, 3, 4, 8, 16, 32, 64)
FRACTION: Final = re.compile(r"(?:(\d{1,3}) )?(\d{1,3})/(\d{1,2})(?!\d|[/.,]\d)")


def with_usual_signs(text: str) -> str:
    """The text with points for Arabic decimal signs between figures and apostrophes for Arabic thousands; as long."""
    if _ARABIC_SIGNS.isdisjoint(text):
        return text
    return _BETWEEN_FIGURES.sub(lambda found: _BY_SIGN[found[0]], text)


def figure(text: str, at: int, language: str) -> Figure | None:
    """A number without sign here."""
    half = _VULGAR.get(text[at : at + 1])
    if half is not None:
        return at + 1, (Decimal(half),)
    if text[at : at + 1].isdecimal() and text[at - 2 : at - 1].isdecimal() and text[at - 1 : at] == ",":
        end = at
        while text[end : end + 1].isdecimal():
            end += 1
        return end, (Decimal(text[at:end]),)
    found = _BODY.match(text, at)
    if found is None or found.end() - at > _LONGEST:
        return None
    return _figure(text, at, found.end(), language)


def _figure(text: str, at: int, end: int, language: str) -> Figure:
    written = text[at:end]
    if text[end : end + 1] in _GOES_ON:
        more = _with_vulgar(text, end, written) or _tenfold(text, end, written)
        if more is not None:
            return more
        end = _grouped(text, at, end)
        written = text[at:end]
    values = tuple(dict.fromkeys(Decimal(each) for each in _plain(written, language)))
    power = _POWER.match(text, end)
    if power is None:
        return end, values
    exponent = int((power[1] or power[2]).translate(_LOWERED))
    return power.end(), tuple(Decimal(f"{value.scaleb(exponent):f}") for value in values)


def _with_vulgar(text: str, end: int, written: str) -> Figure | None:
    """1½ or 1 ½."""
    at = end + (text[end] == " ")
    half = _VULGAR.get(text[at : at + 1])
    if half is None or not written.isdecimal() or (at > end and not int(written)):
        return None  # 0 ¼ ½ are the figures of a gauge
    return at + 1, (Decimal(written) + Decimal(half),)


def _tenfold(text: str, end: int, written: str) -> Figure | None:
    """10⁶ or 10^6."""
    found = _TENFOLD.match(text, end) if written == "10" else None
    if found is None:
        return None
    exponent = int((found[1] or found[2]).translate(_LOWERED))
    return found.end(), (Decimal(f"{Decimal(1).scaleb(exponent):f}"),)


def _grouped(text: str, at: int, end: int) -> int:
    """Where a number ends whose groups of three are parted by plain spaces; numbers in a row are not one.

    A group of 000 tells, or a first group of fewer than three figures with a unit or a decimal part behind.
    """
    found = _GROUPS.match(text, end) if end - at <= 3 else None
    if found is None or not text[at:end].isdecimal() or text[at] == "0":
        return end
    if "000" in found[1]:
        return found.end()
    behind = text[found.end() : found.end() + 2].lstrip()
    decimal = found.end() > end + len(found[1])
    return found.end() if end - at < 3 and (decimal or behind[:1].isalpha() or behind[:1] in "°%Ω") and behind else end


def _plain(written: str, language: str) -> tuple[str, ...]:
    """What Python reads; two where a comma parts thousands or decimals."""
    written = written.translate(_SEPARATORS)
    if written.isdecimal():
        return (written,)
    if "." in written and "," in written:
        last = max(written.rfind("."), written.rfind(","))
        return (f"{written[:last].replace('.', '').replace(',', '')}.{written[last + 1 :]}",)
    if written.count(".") > 1 or written.count(",") > 1:
        return (written.replace(".", "").replace(",", ""),)
    if "\u0966" <= written[0] <= _LAST_OF_INDIA and _THREE_BEHIND.search(written) is not None:
        return (written.replace(",", ""),)
    if _THOUSANDS.fullmatch(written) is None:
        return (written.replace(",", "."),)
    thousands, decimals = written.replace(",", ""), written.replace(",", ".")
    if not language:
        return thousands, decimals
    return (thousands,) if language.lower().split("-")[0] in ENGLISH_COMMAS else (decimals,)


_POINTED: Final = re.compile(r"(?<![\d.,])\d+(?:\.\d+)+(?![\d,])")
_GROUPED: Final = re.compile(r"[1-9]\d{0,2}(?:\.\d{3})+")
_FULL: Final = ".000"


def points_part_thousands(texts: Sequence[str], language: str) -> bool:
    """Whether the points of texts that belong together part thousands: 1.000 Hz among others in German.

    Where the language does so, every figure with a point is so grouped, and one ends in three noughts, which nobody
    writes behind a decimal point on a switch (common practice).
    """
    whole = language.lower()
    if whole.split("-")[0] not in _THOUSANDS_BY_POINTS or whole in _WITH_APOSTROPHES:
        return False
    pointed = [figures for text in texts for figures in _POINTED.findall(text)]
    grouped = all(_GROUPED.fullmatch(figures) is not None for figures in pointed)
    return grouped and any(figures.endswith(_FULL) for figures in pointed)


def without_points(text: str) -> str:
    """A text whose figures have no points."""
    return _POINTED.sub(lambda found: found[0].replace(".", ""), text)


_WITH_APOSTROPHES: Final = ("de-ch", "de-li", "it-ch")
"""Languages of countries that part thousands by apostrophes (CLDR, from memory)."""


def fraction(found: re.Match[str]) -> Decimal | None:
    """The value of a fraction of inches and the like, 1/4 or 1 1/2; None for what is rather a list, 4/8 or 50/60."""
    above, below = int(found[2]), int(found[3])
    if below not in _HALVINGS or above >= below or math.gcd(above, below) != 1 or above == 0:
        return None
    return int(found[1] or 0) + Decimal(above) / Decimal(below)
