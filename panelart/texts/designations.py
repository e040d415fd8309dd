"""Names by a system: connectors, interfaces, standards, threads, terminals, references, models, versions.

Lists are of what panels name; each set says whose system it is.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from panelart.texts.characters import script
from panelart.texts.lookalikes import is_usual, meant
from panelart.texts.runs import Designation, Word
from panelart.texts.words import FORMAT, FUNCTIONS, MONTHS, YEARS, listed

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


_QUANTITIES: Final = frozenset(
    listed("""IΔn IΔ IΔt Icn Icu Ics Icw Icm Ipk Isc Iq Uoc Voc Uimp Rds Pn fmax fmin nmax nmin tmax tmin pmax pmin""")
)
"""Letter symbols of quantities with what is set as an index elsewhere (IEC 61008-1, IEC 60947-2, IEC 60027-1)."""

_INDEXED: Final = re.compile(r"[UVIPRCTQ][A-Z]{0,2}(?:max|min|sat|nom|eff|rms|ref|th)")
_CHANGE: Final = re.compile(r"[Δ∆][A-Za-zφϕθϑω]{1,3}")
_FORMAT: Final = re.compile(r"[^\W\d_]+(?:\.ms)?")
_PARTED: Final = ":./-"
_FEWEST_PARTS: Final = 2


def symbol_of_quantity(cluster: str) -> Designation | None:
    """A letter symbol of a quantity, whose letters no case changes: IΔn, Δp, cosφ."""
    known = (
        cluster in _QUANTITIES
        or _INDEXED.fullmatch(cluster) is not None
        or (cluster[0] in "Δ∆" and _CHANGE.fullmatch(cluster) is not None)
        or (cluster[:-1] in FUNCTIONS and "α" <= cluster[-1] <= "ϖ")
    )
    return Designation("quantity", cluster) if known else None


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
    if cluster.islower() or cluster.isupper() or cluster.istitle() or script(cluster) != "LATIN":
        return None
    parts = cluster.replace("’", "'").replace("-", "'").split("'")
    if not any(_is_mixed(part) for part in parts) or is_usual(cluster) or meant(cluster) is not None:
        return None
    return Designation("name", cluster)


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
