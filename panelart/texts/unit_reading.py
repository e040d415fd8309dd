"""Where a unit stands in a text and which it is: in its proper form, or by its letters whatever their case."""

from __future__ import annotations

import itertools
import re
from typing import Final, TypeAlias

from panelart.texts.characters import JOINED_TO, LETTER, is_east_asian, within_script
from panelart.texts.units import EXACTLY, FOLDED, NAMES, QUOTIENT_ONLY, SPACED, UNITS, Unit, product, raised, unknown
from panelart.texts.words import AFTER_NUMBERS, PLAIN

Found: TypeAlias = tuple[int, tuple[Unit, ...]]
"""Where a unit ends, and which it may be, the more usual first."""

_PER: Final = f"(?:{'|'.join(sorted(each[2:] for each in UNITS if each.startswith('1/')))})"

_SHARE: Final = (
    "RH|[rR][hHF]|[vV]ol\\.?|mass|wt|[vwm]/[vwm]|F\\.?SO?\\.?|fs|LEL|LFL|UEG|LIE|НКПР|(?:of )?rdg\\.?|v\\. ?MW"
)
"""What a share is of: relative humidity, volume, mass, full scale, lower explosive limit, reading."""

_ATOM: Final = re.compile(
    rf"dB\([A-Z]\)|dB (?:SPL|HL)(?!\w)|dBm0(?!\w)|%\s?(?:[rR]\.?[hHF]\.|{_SHARE}(?!\w))|r\.[hHF]\.|"
    rf"°(?:[dfe]H|TH|Clark|Bx|Brix|P|Plato|Oe|Bé|[CF]td)(?!\w)|[°º˚][CFС]?(?!{LETTER})|[%‰℃℉□′″\"'’]|"
    r"(?:in\.?|[cm]m) (?:Hg|WC|w\.c\.)(?!\w)|(?:in\.?|[cm]?m) H[₂2]O(?!\w)|gal \((?:US|UK|[Ii]mp)\)|m[³3]\(n\)|"
    r"(?:cu|sq)\.? (?:ft|in)(?!\w)|g rms(?!\w)|"
    rf"[kmµμu]?V ?p-p|[kmµμu]?V (?:pp|rms|RMS)(?!\w)"
    r"|(?:[mkMh]?(?:bar|Pa)|psi)(?:\((?:a|g|d|ü|abs|rel|gauge)\)| (?:abs|rel|ü|[ag](?! ?[\d+−-]))(?!\w))"
    r"|r\. ?p\. ?m\.|л\.с\.|σ\.α\.λ\.?|(?:k?V|m?A) (?:c\.[ca]\.|c[ca](?!\w))|Nm[³3](?!\w)|k?g[cm]?m[²2](?!\w)"
    r"|мм (?:рт|вод)\. ?ст\."
    r"|(?:ft|in|oz)-(?:lbf?|oz)(?!\w)|(?:lbf?|oz)-(?:ft|in)(?!\w)"
    rf"|(?:min|s|h)-1(?!\w)|1/{_PER}(?!\w)|/(?:min|s|h)(?!\w)|{LETTER}+\.(?=/)|{LETTER}+(?:[₂2]O)?",
    re.UNICODE,
)
_EXPONENT: Final = re.compile(r"(⁻?[¹²³⁴])|\^(-?\d)|(?<=m)([23])(?!\d)|(?<=/s)(2)(?!\d)")
_WHOLE: Final = re.compile(r"[kMG]?S/s|d/da?k|o/min|(?:[lL]|kWh|kg)/100 ?km|deg/(?:s²|s|min|h)")
"""Quotients that are none of what their letters are by themselves."""

_OPERATOR: Final = re.compile(r"[ \u00a0\u2009\u202f]?[·⋅∙*] ?| ?/ ?(?=[√(\w°%□])|[ \u00a0\u2009\u202f]")
_LOWERED: Final = str.maketrans("⁻¹²³⁴", "-1234")
_MOST_READINGS: Final = 4

Factor: TypeAlias = tuple[int, str, Unit, float]
"""Where it ends, as it is printed, the unit, its exponent."""


def _factor(text: str, at: int) -> Factor | None:
    """A unit with its exponent or root here."""
    root = text.startswith("√", at)
    found = within_script(_ATOM, text, at + root)
    if found is None:
        return None
    written, end = found[0], found.end()
    unit = UNITS.get(written) or UNITS.get(_without_blanks(written))
    if unit is None and written[-1] == ".":
        unit, end = UNITS.get(written[:-1]), end - 1
    if unit is None:
        return None
    if root:
        return end, f"√{unit.symbol}", unit, 0.5
    power = _EXPONENT.match(text, end)
    if power is None:
        return end, unit.symbol, unit, 1.0
    exponent = int((power[1] or power[2] or power[3] or power[4]).translate(_LOWERED))
    return power.end(), unit.symbol + raised(exponent), unit, float(exponent)


def _without_blanks(written: str) -> str:
    """A unit as the table has it, whatever blank stands in it; a share without any: %RH."""
    return "".join(written.split()) if written[0] == "%" else written.replace("\u202f", " ")


def ends_well(text: str, end: int) -> bool:
    """Whether nothing that would make another word of it follows."""
    return end >= len(text) or is_east_asian(text[end]) or JOINED_TO.match(text, end) is None


def exact(text: str, at: int) -> tuple[int, Unit] | None:
    """A unit in its proper form here, of as many factors as there are; None if more letters follow."""
    samples = _samples(text, at)
    if samples is not None:
        return samples
    first = _factor(text, at)
    if first is None:
        return None
    end, _, unit, exponent = first
    if end == len(text) and exponent == 1.0:
        return None if text[at:end] in QUOTIENT_ONLY else (end, unit)
    return _whole(text, at, first)


def _samples(text: str, at: int) -> tuple[int, Unit] | None:
    """MS/s, which else would be a quotient of siemens, d/dk, which would be one of days."""
    found = _WHOLE.match(text, at)
    return None if found is None or not ends_well(text, found.end()) else (found.end(), UNITS[found[0]])


def _whole(text: str, at: int, first: Factor) -> tuple[int, Unit] | None:
    end, symbol, unit, exponent = first
    factors = [(unit, exponent)]
    last, below = text[at:end], False
    while end < len(text):
        more = _further(text, end, last)
        if more is None or _scales(factors, more):
            break
        stop, sign, added, brought = more
        below = sign == "/" or (below and sign == "·")
        factors += [(each, -power if below else power) for each, power in brought]
        symbol += sign + added
        last, end = text[stop - len(added) : stop], stop
    if not ends_well(text, end):
        return None
    if len(factors) > 1 or exponent != 1.0:
        return end, product(symbol, factors)
    return None if text[at:end] in QUOTIENT_ONLY else (end, unit)


def _scales(above: list[tuple[Unit, float]], more: tuple[int, str, str, list[tuple[Unit, float]]]) -> bool:
    """Whether a stroke parts two scales of one dimension, as in bar/psi: no quotient, as mV/V is."""
    _, sign, _, below = more
    if sign != "/" or len(below) > 1 or len(above) > 1:
        return False
    (unit, exponent), (other, power) = above[0], below[0]
    alike = exponent == power and unit.dimension == other.dimension != ()
    return alike and unit.parts[0].symbol != other.parts[0].symbol


def _further(text: str, at: int, last: str) -> tuple[int, str, str, list[tuple[Unit, float]]] | None:
    """What is multiplied or divided by next: where it ends, the sign, how it is printed, its factors."""
    operator = _OPERATOR.match(text, at)
    if operator is None:
        return None
    sign = operator[0].strip()
    begins = operator.end()
    if sign == "/" and text.startswith("(", begins):
        return _bracketed(text, begins)
    factor = _factor(text, begins)
    if factor is None:
        return None
    end, symbol, unit, exponent = factor
    if not sign and (f"{last} {text[begins:end]}" not in SPACED or not ends_well(text, end)):
        return None
    return end, "/" if sign == "/" else "·", symbol, [(unit, exponent)]


def _bracketed(text: str, at: int) -> tuple[int, str, str, list[tuple[Unit, float]]] | None:
    """A divisor of several units, in brackets."""
    close = text.find(")", at)
    pieces = re.split(r"[·⋅*\s]+", text[at + 1 : close].strip()) if close > 0 else []
    read = [_factor(piece, 0) for piece in pieces]
    if not read or any(each is None for each in read):
        return None
    whole = [each for each in read if each is not None]
    symbol = "·".join(each[1] for each in whole)
    return close + 1, "/", f"({symbol})", [(unit, power) for _, _, unit, power in whole]


_STROKE: Final = re.compile(rf"/(?=({LETTER}{{2,}}))")


def in_other_case(text: str, end: int) -> bool:
    """Whether a unit that ends here goes on behind a stroke with one of another case: V/DIV."""
    found = _STROKE.match(text, end)
    return found is not None and found[1] not in UNITS and found[1].lower() in FOLDED and ends_well(text, found.end(1))


_CLUSTER: Final = re.compile(rf"{LETTER}+(?:/{LETTER}+)?")


def beyond(text: str, at: int, end: int) -> tuple[int, Unit]:
    """What the writer says is a unit, with what a blank parts from it where both are one: in before Hg."""
    found = exact(text, at) if text[end : end + 1].isspace() else None
    return found if found is not None and text[at : found[0]] in UNITS and found[0] > end else (end, told(text[at:end]))


def loose(text: str, at: int, *, counted: bool) -> Found | None:
    """A unit by its letters, whatever their case; `counted` after a number, where fewer words are meant."""
    found = within_script(_CLUSTER, text, at)
    if found is None or not ends_well(text, found.end()):
        return None
    written = found[0]
    if written in QUOTIENT_ONLY and written in EXACTLY:
        return None
    if counted and written.lower() in NAMES:
        return found.end(), (UNITS[NAMES[written.lower()]],)
    units = _quotients(written.split("/"), AFTER_NUMBERS if counted else PLAIN, named=counted)
    return (found.end(), units) if units else None


def _quotients(parts: list[str], words: frozenset[str], *, named: bool) -> tuple[Unit, ...]:
    """What a unit or a quotient of two may be, by names too where it is `named`; nothing if all are rather words."""
    readings = [_by_name(part) if named and len(parts) > 1 else _by_letters(part) for part in parts]
    if not all(readings) or all(part.lower() in words and part not in UNITS for part in parts):
        return ()
    if len(readings) == 1:
        return readings[0]
    units = tuple(
        product(f"{above.symbol}/{below.symbol}", [(above, 1.0), (below, -1.0)])
        for above, below in itertools.product(*readings)
    )
    return units if len(units) <= _MOST_READINGS else ()


_RATHER_MEGA: Final = frozenset(["Hz", "W", "Pa", "J", "Ω", "bit", "B", "N"])
"""Units whose mega is more usual on panels than their milli (common practice)."""


def told(written: str) -> Unit:
    """The unit that a writer says a stretch is: as it is written, else by its letters, else one that nobody knows."""
    found = exact(written, 0)
    if found is not None and found[0] == len(written):
        return found[1]
    guess = _by_name(written) or _quotients(written.split("/"), frozenset(), named=True)
    return guess[0] if guess else unknown(written)


def _by_name(written: str) -> tuple[Unit, ...]:
    """Units with this name or these letters: ohm, degC."""
    name = NAMES.get(written.lower())
    return (UNITS[name],) if name is not None else _by_letters(written)


def _by_letters(written: str) -> tuple[Unit, ...]:
    """Units with these letters. Who writes all in small letters has written no mega, but for hertz and pascal."""
    if written in UNITS and not written.isupper():
        return (UNITS[written],)
    if written.startswith("K") and not written.isupper() and f"k{written[1:]}" in UNITS:
        return (UNITS[f"k{written[1:]}"],)
    found = FOLDED.get(written.lower(), ())
    if len(found) < 2:
        return found or ((UNITS[written],) if written in UNITS else ())
    return tuple(sorted(filter(_may_be_small, found) if written.islower() else found, key=_rank))


def _may_be_small(unit: Unit) -> bool:
    """Whether who writes a unit in small letters alone may mean it: any without mega, megahertz, megapascal."""
    return unit.parts[0].prefix != "M" or unit.parts[0].symbol in ("Hz", "Pa")


def _rank(unit: Unit) -> bool:
    mega, symbol = unit.parts[0].prefix == "M", unit.parts[0].symbol
    return mega != (symbol in _RATHER_MEGA)
