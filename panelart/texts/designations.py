"""Names by a system: connectors, interfaces, standards, threads, terminals, references, models, versions.

Lists are of what panels name; each set says whose system it is.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import Final

from panelart.texts import letter_symbols
from panelart.texts.characters import script
from panelart.texts.lookalikes import is_usual, meant
from panelart.texts.runs import Designation, Word
from panelart.texts.words import FORMAT, MONTHS, YEARS, listed

_SHELLS: Final = {"E": (9, 15), "A": (15, 26), "B": (9, 15, 25, 44), "C": (37, 62), "D": (50, 78)}
"""D-subminiature shells with the contacts they are met with (DIN 41652, IEC 60807-2, from memory; DB9 by practice)."""

# IEC 61169, IEC 60603-7, IEC 61076-2-103, IEC 60268-12 and names of the trade.
_CONNECTORS: Final = listed(
    """BNC TNC SMA SMB SMC MCX MMCX RCA XLR XLR-3 XLR-4 XLR-5 XLR3 XLR4 XLR5 RJ11 RJ12 RJ45 RJ-11 RJ-12 RJ-45 TRS TRRS
    D-SUB DSUB D-Sub VGA PL-259 SO-239 SO239 PL259 M12A M12D"""
)

_APPLIANCE: Final = tuple(f"C{number}" for number in (5, 6, 7, 8, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24))
"""Appliance couplers of IEC 60320-1 that C of a capacitor or a channel is seldom mistaken for."""

_INTERFACES: Final = listed(
    """RS-232 RS-422 RS-485 RS-423 RS232 RS422 RS485 RS423 USB USB-A USB-B USB-C USB-A/B HDMI DVI DVI-D DVI-I MIDI
    GPIB LAN WLAN WAN CAN CANopen LIN I2C I²C SPI DMX DMX512 ADAT AES AES3 AES/EBU S/PDIF SPDIF TOSLINK SDI HD-SDI
    IRIG IRIG-B JTAG SATA eSATA PCIe DALI KNX HART EIA-232 EIA-485 TTL LVDS UART"""
)

_TERMINALS: Final = listed("L1 L2 L3 N PE PEN FE PB GND AGND DGND MP")
"""IEC 60445 and circuit diagrams (from memory)."""

BODIES: Final = frozenset(listed("IEC EN ISO DIN IEEE VDE UL BS ANSI ASME EIA TIA ETSI ITU JIS GOST"))
"""Who numbers standards."""


def _known() -> dict[str, str]:
    kinds = dict.fromkeys(_CONNECTORS, "connector") | dict.fromkeys(_APPLIANCE, "connector")
    for shell, contacts in _SHELLS.items():
        for count in contacts:
            for name in (f"D{shell}-{count}", f"D{shell}{count}"):
                kinds[name] = "connector"
    kinds |= dict.fromkeys(listed("SPST SPDT DPST DPDT SP3T DP3T SPCO DPCO"), "poles")
    return kinds | dict.fromkeys(_INTERFACES, "interface") | dict.fromkeys(_TERMINALS, "terminal")


KNOWN: Final[Mapping[str, str]] = MappingProxyType(_known())
"""Designations by their very letters, and their kind."""

_SIZES: Final = frozenset(listed("1.6 2 2.5 3 3.5 4 5 6 8 10 12 14 16 18 20 22 24 25 27 30 32 33 36 40 42 48 50 63"))
"""Metric threads of ISO 261 that panels meet (from memory); M1 is rather a motor."""

_METRIC: Final = re.compile(r"M(\d+(?:[.,]\d)?)(\s?[×xX*]\s?\d+(?:[.,]\d+)?)?(?![\w.])")
_PIPE: Final = re.compile(
    r"(?:(?:G|Rp|Rc|R|BSPP?|BSPT|NPT|NPTF)\s?(?:\d\s)?(?:\d/\d{1,2}|[½¼¾⅛])|(?:PG|Pg)\s?\d{1,2}(?:[.,]5)?|Tr\d+[×x]\d+|UN[CF]\s?(?:#?\d{1,2}|\d/\d{1,2})-\d{1,2})(?!\w)"
)
_INCH: Final = re.compile(
    r"#\d{1,2}-\d{2}(?!\w)|(?:#\d{1,2}|\d{1,2}/\d{1,2}|[½¼¾⅛]|\d)(?:\s?(?:\"|″))?(?:-\d{1,2}\s?(?:UNC|UNF|UNEF|UNS)|\s(?:NPTF?|BSPP?|BSPT|UNC|UNF))(?!\w)"
)
_LEAST_WORD: Final = 4
"""Letters and figures from which a cluster may be a word with a figure for a letter: 1N is a diode."""

_REFERENCE: Final = re.compile(r"[A-Z]{1,6}\d{1,4}[A-Za-z]?")
_VERSION: Final = re.compile(r"[vV]\d+(?:\.\d+)+[a-z]?(?!\w)")
_STANDARD: Final = re.compile(r"[A-Z]{2,5}(?:[ /-][A-Z]{2,5})?[ \u00a0]\d{3,6}(?:-\d+)*(?:[-:]\d{4})?(?!\w)")


_FORMAT: Final = re.compile(r"[^\W\d_]+(?:\.ms)?")
_PARTED: Final = ":./-"
_FEWEST_PARTS: Final = 2


def symbol_of_quantity(cluster: str) -> Designation | None:
    """A letter symbol of a quantity, whose letters no case changes: IΔn, Δp, cosφ."""
    return Designation("quantity", cluster) if letter_symbols.is_symbol(cluster) else None


# --- substances, sensors, categories, poles

_ELEMENT: Final = (
    "(?:He|Li|Be|Ne|Na|Mg|Al|Si|Cl|Ar|Ca|Ti|Cr|Mn|Fe|Co|Ni|Cu|Zn|Ga|Ge|As|Se|Br|Kr|Ag|Cd|In|Sn|Sb|Te|Xe|Cs|Ba|Pt|Au"
    "|Hg|Pb|Bi|H|B|C|N|O|F|P|S|K|I)[₀-₉]*"
)
"""Elements that gases, batteries and sensors of panels have (IUPAC)."""

_FORMULA: Final = re.compile(rf"\(?(?:{_ELEMENT}){{1,8}}")
_ALLOY: Final = re.compile(rf"{_ELEMENT}-{_ELEMENT}(?:-{_ELEMENT})?(?<=[a-z])")
_TWO_LETTERS: Final = re.compile(r"[A-Z][a-z]")
_SUBSTANCES: Final = frozenset(
    listed(
        """Pb NOx SOx CHx CxHy NOₓ SOₓ CₓHᵧ NiCd Ni-Cd NiMH Ni-MH Ni-Fe NiFe Ni-Zn NiZn Li-Ion Li-ion LiIon Li-Po LiPo
        Li-Pol LiPol Li-S Li-MnO2 Li-Mn Li-FePO4 LiFePO LiFe Pb-Ca Pb-acid Pb-Acid Pb-Gel Ag-Zn AgZn Zn-C Zn-air Zn-Air
        Al-air Na-Ion Na-ion NaS"""
    )
)
"""What formulae do not tell: gases of a kind, and the chemistries of batteries (IEC 60050-482, common practice)."""

_IONISED: Final = re.compile(rf"(?:{_ELEMENT}){{1,4}}")
_CHARGE: Final = re.compile(r"[²³⁴]?[⁺⁻]|[²³⁴]?[+](?=\s(?:[mµ]?mol|m?g|µg|ppm|mV|ISE)(?!\w))")
_CONCENTRATED: Final = re.compile(r"(?: \d+(?:[.,]\d+)?)? ?(?:(?:[mµ]?g|[mµ]?mol)/(?:l|L|dl|dL|m³|kg)|pp[mb])(?!\w)")
_BESIDE: Final = re.compile(rf"/(?:{_ELEMENT}){{1,6}}(?![^\W\d_])")
_WORDS: Final = frozenset(listed("In As Be No He At Co"))
"""Symbols of elements that are words at the beginning of a name as well: In 5 ppm."""

_SENSOR: Final = re.compile(r"(?:Pt|PT|Ni) ?(?:50|100|200|500|1000|10000)(?![\w.,])|Pt\d{2,4}[AB]?(?!\w)")
"""Resistance thermometers (IEC 60751, DIN 43760)."""

_CATEGORY: Final = re.compile(r"(?:CAT|Cat)\.? ?(?:I{1,3}|IV|[5-8](?:[eaA]|\.[12])?)(?![\w.,])")
"""Categories of measurement (IEC 61010-1) and of cables (ISO/IEC 11801)."""

_EX: Final = re.compile(
    r"Ex(?: (?:i[abc]|[de][abc]?|m[abc]?|n[ACR]|o[bc]?|p(?:[xyz]b?|xb|yb|zc|v)?|q[b]?|t[abc]|op (?:is|pr|sh)|h))+"
    r"(?: \[[^\]]{1,12}\])?(?: (?:I{1,3}[ABC]?))?(?: T[1-6](?!\w))?(?: [GDM][abc])?(?!\w)"
)
"""Marks of explosion protection, whose case tells (IEC 60079-0)."""

_CLASS: Final = re.compile(
    r"(?:DN|PN|NPS|AWG|IK) ?\d{1,4}(?:[.,/–-]\d{1,2})?(?![\w.,])"
    r"|SIL ?[1-4](?!\w)|PL ?[a-e](?!\w)"
)
_GAUGE: Final = re.compile(r"\d{1,2}(?:/0)? ?AWG(?!\w)")
"""Pipes (ISO 6708, EN 1333, ASME B36.10), wires (ASTM B258), degrees of protection against blows (IEC 62262).

Also of functional safety: SIL of IEC 62061, PL of ISO 13849-1.
"""

_POLES: Final = re.compile(r"[1-9]P(?:\+(?:N|PE|E|T))*(?!\w)|[1-9]P[SD]T(?!\w)")
"""Poles of switches and connectors: 3P+N of breakers, 2P+T of plugs, 4PDT of relays (common practice)."""


def formula(cluster: str) -> Designation | None:
    """The formula of a substance: Cl₂, HCl, NiMH. Capitals alone are rather an abbreviation, with an s its plural."""
    if cluster in _SUBSTANCES or _ALLOY.fullmatch(cluster) is not None:
        return Designation("formula", cluster)
    if not "A" <= cluster[0] <= "Z" or len(cluster) < _FEWEST_PARTS or _FORMULA.fullmatch(cluster) is None:
        return None
    return Designation("formula", cluster) if not _LOWERED.isdisjoint(cluster) or _is_compound(cluster) else None


_LOWERED: Final = frozenset("₀₁₂₃₄₅₆₇₈₉")


def _is_compound(cluster: str) -> bool:
    """Whether symbols of elements are several, not all of one letter, and no abbreviation in the plural: HCl, ICs."""
    plural = cluster[-1] == "s" and cluster[:-1].isupper()
    several = sum(map(str.isupper, cluster)) > 1
    return several and not plural and _TWO_LETTERS.search(cluster) is not None


def substance(text: str, at: int, cluster: str) -> tuple[int, Designation] | None:
    """An element or an ion by what stands beside it: Na+ mmol/l, Mg 5 mg/l, Ag/AgCl; alone it may be a word."""
    if _IONISED.fullmatch(cluster) is None:
        return None
    end = at + len(cluster)
    charge = _CHARGE.match(text, end)
    if charge is not None:
        return charge.end(), Designation("formula", text[at : charge.end()])
    if _TWO_LETTERS.fullmatch(cluster) is None:
        return None
    concentrated = cluster not in _WORDS and _CONCENTRATED.match(text, end) is not None
    known = concentrated or _BESIDE.match(text, end) is not None
    return (end, Designation("formula", cluster)) if known else None


def sensor(text: str, at: int) -> tuple[int, Designation] | None:
    """A resistance thermometer: Pt 1000."""
    found = _SENSOR.match(text, at)
    return None if found is None else (found.end(), Designation("sensor", found[0]))


def category(text: str, at: int) -> tuple[int, Designation] | None:
    """A category of measurement or of cables: CAT III, Cat 6a."""
    found = _CATEGORY.match(text, at)
    return None if found is None else (found.end(), Designation("category", found[0]))


def numbered_class(text: str, at: int) -> tuple[int, Designation] | None:
    """A class that letters name with a number or more letters: DN 50, AWG 14, SIL 2, PL e, Ex ia IIC T4 Ga."""
    found = _CLASS.match(text, at) or _EX.match(text, at)
    return None if found is None else (found.end(), Designation("class", found[0]))


_NUMBERED: Final = re.compile(r"(\D*)(\d+(?:[.,]\d+)?)(\D*)")


def number_of(name: Designation) -> tuple[str, Decimal] | None:
    """The letters and the number of a class, a sensor or poles, by which such are ordered: AWG, 14; None for others."""
    found = _NUMBERED.fullmatch(name.text) if name.kind in ("class", "sensor", "poles") else None
    return None if found is None else ((found[1] + found[3]).strip(), Decimal(found[2].replace(",", ".")))


def gauge(text: str, at: int) -> tuple[int, Designation] | None:
    """A gauge of wires with its number first: 14 AWG."""
    found = _GAUGE.match(text, at)
    return None if found is None else (found.end(), Designation("class", found[0]))


def poles(text: str, at: int) -> tuple[int, Designation] | None:
    """The poles of a switch: 3P+N."""
    found = _POLES.match(text, at)
    return None if found is None else (found.end(), Designation("poles", found[0]))


def form(text: str, at: int) -> tuple[int, Designation] | None:
    """The form of a time or a date: hh:mm:ss, TT.MM.JJJJ.

    Times are parted by colons. What other signs part is a date only with a year, or as days and months
    of two letters, since m/s is none.
    """
    parts: list[str] = []
    end, sign = at, ""
    while True:
        found = _FORMAT.match(text, end)
        if found is None or found[0] not in FORMAT:
            return None
        parts.append(found[0])
        end = found.end()
        sign = sign or text[end : end + 1]
        if sign not in tuple(_PARTED) or text[end : end + 1] != sign or not text[end + 1 : end + 2].isalpha():
            break
        end += 1
    return (end, Designation("form", text[at:end])) if _tells(parts, sign) else None


def _tells(parts: list[str], sign: str) -> bool:
    """Whether parts of which each may be figures of a time or a date are them."""
    if len(parts) < _FEWEST_PARTS or len({part[0].lower() for part in parts}) == 1:
        return False
    if sign == ":" or not YEARS.isdisjoint((parts[0], parts[-1])):
        return True
    return not MONTHS.isdisjoint(parts) and all(len(part) == len("mm") for part in parts)


def of_mixed_case(cluster: str) -> Designation | None:
    """A name of which capitals follow small letters, which stays as its owner writes it: microSD, PoE.

    Of Latin letters; each part of a compound by itself. A usual word in such letters is a slip: oUTPUT.
    """
    if cluster in _OHMS:
        return Designation("name", cluster)
    if cluster.islower() or cluster.isupper() or cluster.istitle() or script(cluster) != "LATIN":
        return None
    parts = cluster.replace("’", "'").replace("-", "'").split("'")
    if not any(_is_mixed(part) for part in parts) or is_usual(cluster) or meant(cluster) is not None:
        return None
    return Designation("name", cluster)


_OHMS: Final = frozenset(["mohm", "Mohm", "MOhm", "mOhm", "kohm", "Kohm", "mohms", "Mohms", "kohms"])
"""Names of ohm with a prefix, whose case tells milli from mega."""


def _is_mixed(part: str) -> bool:
    return any(first.islower() and second.isupper() for first, second in itertools.pairwise(part))


def metric(text: str, at: int) -> tuple[int, Designation] | None:
    """A metric thread here, with where it ends."""
    found = _METRIC.match(text, at)
    if found is None or found[1].replace(",", ".") not in _SIZES:
        return None
    return found.end(), Designation("thread", found[0])


def pipe(text: str, at: int) -> tuple[int, Designation] | None:
    """A thread of pipes or glands that begins with letters here."""
    found = _PIPE.match(text, at)
    return None if found is None else (found.end(), Designation("thread", found[0]))


def inch(text: str, at: int) -> tuple[int, Designation] | None:
    """A thread in inches that begins with its size here."""
    found = _INCH.match(text, at)
    return None if found is None else (found.end(), Designation("thread", found[0]))


def version(text: str, at: int) -> tuple[int, Designation] | None:
    """A version: v and numbers joined by points."""
    found = _VERSION.match(text, at)
    return None if found is None else (found.end(), Designation("version", found[0]))


def standard(text: str, at: int) -> tuple[int, Designation] | None:
    """A standard by who numbers it; whoever asks has seen that a body stands here."""
    found = _STANDARD.match(text, at)
    return None if found is None else (found.end(), Designation("standard", found[0]))


def mixed(cluster: str) -> Designation | Word:
    """What letters with figures are: a reference, a model with a hyphen, else a code; 0utput is a word."""
    if len(cluster) >= _LEAST_WORD and meant(cluster) is not None:
        return Word(cluster)
    if all(part in _TERMINALS for part in cluster.split("-")):
        return Designation("terminal", cluster)
    if _REFERENCE.fullmatch(cluster):
        return Designation("reference", cluster)
    if "-" in cluster and not cluster[0].isdigit():
        return Designation("model", cluster)
    return Designation("code", cluster)
