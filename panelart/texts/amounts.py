"""Reads what begins with a figure: quantities, ranges, alternatives, sizes, factors, numbers with a prefix."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Final, TypeAlias

from panelart.texts import designations
from panelart.texts.characters import LETTER_OR_FIGURE, cluster_at
from panelart.texts.figures import FRACTION, figure, fraction
from panelart.texts.quantities import Alternatives, Factor, Number, Quantity, Range, Ratio, Size
from panelart.texts.runs import Certain, Designation, Meaning, Unsure, Word
from panelart.texts.unit_reading import Found, beyond, exact, in_other_case, loose
from panelart.texts.units import ARC_SECOND, UNITS, Unit
from panelart.texts.words import AFTER_NUMBERS, COUNTED, LABELS, OF_LANGUAGE, PAIRED

Read: TypeAlias = tuple[int, Meaning]
"""Where a run ends and what it means."""

_BLANK: Final = " \u00a0\u2009\u202f"
_PLUS_MINUS: Final = re.compile(r"(?:±|\+/[-−])\s?(?=\.?\d)")
_BOUND: Final = re.compile(r"([≤≥<>≈])\s?(?=[+\-−]?\.?\d)")
_TO: Final = re.compile(
    rf"[{_BLANK}]?(?:–|—|…|\.{{2,3}}|-|÷|~)[{_BLANK}]?(?=[+\-−]?\.?\d)"
    rf"|[{_BLANK}](?:to|bis|à|a|til|do|до|tot|till|até|TO|BIS)[{_BLANK}](?=[+\-−]?\.?\d)"
)
_MORE_OR_LESS: Final = re.compile(rf"[{_BLANK}]?(?:±|\+/[-−])[{_BLANK}]?(?=\.?\d)")
_BY: Final = re.compile(rf"[×xX*](?=\.?\d)|[{_BLANK}][×xX*][{_BLANK}](?=\.?\d)")
_HEXADECIMAL: Final = re.compile(r"0[xX][0-9A-Fa-f]+(?!\w)")
_FUSE: Final = re.compile(rf"(?:FF|TT|[FTM])[{_BLANK}]?\d+(?:[.,]\d+)?[{_BLANK}]?m?A(?!T)")
_NEXT_NUMBER: Final = re.compile(r" \d")
_TIMES: Final = re.compile(rf"[×xX](?!{LETTER_OR_FIGURE})")
_STROKE: Final = re.compile(r"/(?=[+\-−]?\d)")
_CODE: Final = re.compile(rf"([RrKkMGmnpuµμ])(\d*)(?!{LETTER_OR_FIGURE}|[/²³·])")
_SPACED_CODE: Final = re.compile(rf" ([KkMGnpuµμ])(?!{LETTER_OR_FIGURE}|[/²³·-])")
_ORDINAL: Final = re.compile(r"\d+(?:st|nd|rd|th|ST|ND|RD|TH|er|e|º|ª|\.)(?!\w)")
_VERSION: Final = re.compile(r"\d+(?:\.\d+){2,}(?![\w.])")
_KINDS: Final = frozenset(
    ["VAC", "VDC", "Vac", "Vdc", "VAC/DC", "kVDC", "kVAC", "mVAC", "mVDC", "AT", "mAT", "AAC", "ADC"]
)
"""Units of voltage and current with the kind of current or of fuse joined to them."""

_LINES: Final = frozenset(map(Decimal, (240, 288, 480, 576, 720, 1080, 1440, 2160, 4320)))
"""Lines of video formats, which p behind them says are progressive (SMPTE, common practice)."""

_MOST_WHOLE: Final = 100
"""From here no figure of IEC 60062 stands before a letter with another behind it."""

_PREFIX: Final = {"K": "k", "k": "k", "M": "M", "G": "G", "m": "m", "n": "n", "p": "p", "u": "µ", "µ": "µ", "μ": "µ"}
_MOST_VALUES: Final = 12
"""Values joined by strokes or crosses."""

_BUS: Final = "bus"
"""A rail of a supply: its number is seldom followed by a letter V."""

_FEWEST_VOLTS: Final = 10
"""From here a number before a V is rather a voltage than the number of a channel or a relay (common practice)."""

_OF_LANGUAGE: Final = frozenset(word[0] for word in OF_LANGUAGE)
"""Letters that they begin with."""

_PHASES: Final = re.compile(r"P[Hh](?!\w)")
_COUNT: Final = re.compile(r"(?<![\d.,])[123][ -]?\Z")

_LENGTH: Final = UNITS["m"].dimension
_SIXTIES: Final = {"d": ("h",), "h": ("min",), "min": ("s",), "°": ("′",), "ft": ("in",)}
"""Units with the smaller one that may follow: 1 min 30 s."""

_MINUTES: Final = re.compile(
    rf"[{_BLANK}]?(\d{{1,2}}(?:[.,]\d+)?)[{_BLANK}]?[′'’](?:[{_BLANK}]?(\d{{1,2}}(?:[.,]\d+)?)[{_BLANK}]?[″\"”])?"
)
_SECONDS: Final = re.compile(rf"[{_BLANK}]?(\d{{1,2}}(?:[.,]\d+)?)[{_BLANK}]?″")

_COUNTING: Final = LABELS | COUNTED
_UNLIKELY: Final = frozenset(["MS", "MA", "MV"])
"""Exact symbols that rather have a wrong case: megasiemens for milliseconds."""


def phase_word(text: str, at: int) -> bool:
    """Whether PH here is phases, which a number before it counts: 3 PH, 3PH."""
    return _PHASES.match(text, at) is not None and _COUNT.search(text[max(0, at - 3) : at]) is not None


class Amounts:
    """Reads amounts of one text. `units` are stretches that the writer says are units."""

    def __init__(self, text: str, language: str, units: Mapping[int, int]) -> None:
        self.text = text
        self.language = language
        self.units = units

    def read(self, at: int, before: str) -> Read | None:
        """What begins with a figure or its sign here; `before` is the word before it."""
        text = self.text
        plus_minus = _PLUS_MINUS.match(text, at) if text[at] in "±+" else None
        if plus_minus is not None:
            return self._symmetric(plus_minus.end())
        bound = ""
        begins = at
        if text[at] in "≤≥<>≈":
            found = _BOUND.match(text, at)
            if found is None:
                return None
            bound, begins = found[1], found.end()
        number = self.signed(begins)
        if number is None:
            return None
        end, values = number
        reads = [self._valued(begins, end, value, bound, before) for value in values]
        meanings = tuple(means for _, means in reads if not isinstance(means, Unsure))
        return reads[0] if len(reads) == 1 or len(meanings) < 2 else (reads[0][0], Unsure(meanings))

    def signed(self, at: int) -> tuple[int, tuple[Decimal, ...]] | None:
        """A number with or without a sign before it."""
        sign = self.text[at : at + 1]
        if sign not in ("+", "-", "−"):
            return figure(self.text, at, self.language)
        if self.text[at - 1 : at] not in ("", *"  ([/,:…\n.–;~=+-") and at > 0:
            return None
        number = figure(self.text, at + 1, self.language) if self.text[at + 1 : at + 2] not in "+-−" else None
        if number is None or sign == "+":
            return number
        return number[0], tuple(-value for value in number[1])

    def amount(self, at: int) -> tuple[int, Quantity | Range | Alternatives] | None:
        """An amount with a unit here."""
        if not self.text[at : at + 1].isdecimal() and self.text[at : at + 1] not in ("±", ".", "+", "-", "−"):
            return None
        read = self.read(at, "")
        if read is None or not isinstance(read[1], Quantity | Range | Alternatives):
            return None
        return read[0], read[1]

    def numbers_ranged(self, written: str) -> Certain | None:
        """A pair of figures as a range; None if the first is more."""
        first, second = Decimal(written[0]), Decimal(written[2])
        return Range(Number(first), Number(second)) if first < second else None

    # --- with a unit

    def unit_after(self, at: int) -> Found | None:
        """The unit behind a number that ends here, with or without a space between."""
        begins = at + 1 if self.text[at : at + 1] in tuple(_BLANK) else at
        if begins >= len(self.text):
            return None
        if begins in self.units:
            end, unit = beyond(self.text, begins, self.units[begins])
            return end, (unit,)
        if self.text[begins] == "P" and phase_word(self.text, begins):
            return None
        if self.text[begins] in "FTM" and _FUSE.match(self.text, begins) is not None:
            return None
        joined = self._joined(begins) or self._of_language(begins)
        if joined is not None:
            return joined
        found = exact(self.text, begins)
        if found is not None and not in_other_case(self.text, found[0]):
            return self._exact(begins, *found)
        return loose(self.text, begins, counted=True)

    def _exact(self, begins: int, end: int, unit: Unit) -> Found | None:
        written = self.text[begins:end]
        if written in OF_LANGUAGE:
            return None
        if written in _UNLIKELY:
            guess = loose(self.text, begins, counted=True)
            if guess is not None:
                return guess
        return end, (unit,)

    def _of_language(self, at: int) -> Found | None:
        """What is a unit in the language of the text only: 5 год."""
        cluster = cluster_at(self.text, at) if self.text[at] in _OF_LANGUAGE else None
        languages, symbol = OF_LANGUAGE.get(cluster[0], ("", "")) if cluster is not None else ("", "")
        if cluster is None or not self.language:
            return None
        spoken = self.language.lower().split("-")[0] in languages.split()
        return (cluster.end(), (UNITS[symbol],)) if spoken else None

    def _joined(self, at: int) -> Found | None:
        """V of 230VAC, A of 2AT: what follows is read as what it is."""
        cluster = cluster_at(self.text, at) if self.text[at] in "VAkm" else None
        if cluster is None or cluster[0] not in _KINDS:
            return None
        symbol = cluster[0][:2] if cluster[0][0] in "km" else cluster[0][0]
        return at + len(symbol), (UNITS[symbol],)

    def _valued(self, at: int, end: int, value: Decimal, bound: str, before: str) -> Read:
        follows = self.text[end : end + 1]
        if not follows:
            return end, _number_or_code(self.text[at:end], value)
        for step in _STEPS.get(follows, ()):
            read = step(self, at, end, value)
            if read is not None:
                return read
        found = self.unit_after(end)
        if found is None:
            return self._bare(at, end, value)
        return self._measured(end, value, found, bound, before)

    def _measured(self, end: int, value: Decimal, found: Found, bound: str, before: str) -> Read:
        stop, units = found
        either = self._is_either(end, stop)
        if either and (self._counts(end, stop, before, value) or (value == 0 and len(before) == 1)):
            return end, Number(value)
        quantities = tuple(Quantity(value, unit, 1, bound) for unit in units)
        if len(quantities) > 1:
            return stop, Unsure(quantities)
        measured = self._is_voltage(before, self.text[end:stop].strip(), value)
        if either and before in _COUNTING and value in _DIGITS and not measured:
            return stop, Unsure((quantities[0], Number(value)))
        return self._further(stop, quantities[0])

    def _is_either(self, end: int, stop: int) -> bool:
        """Whether what is read as the unit of a number that ends here may be something else.

        Only a letter or a word that stands apart may, and none that the writer says is a unit.
        """
        if self.text[end] not in _BLANK or end + 1 in self.units:
            return False
        written = self.text[end:stop].strip()
        return _is_letter(written) or written in AFTER_NUMBERS

    def _counts(self, end: int, stop: int, before: str, value: Decimal) -> bool:
        """Whether a number counts and what stands behind it is a word: CH 1 A, 2 in 1 out.

        A small letter behind what is counted may be a unit all the same: STEP 3 s.
        """
        written = self.text[end:stop].strip()
        if before in LABELS:
            if self._is_voltage(before, written, value):
                return False
            return len(written) > 1 or not written.islower()
        if written != "in":
            return False
        return _NEXT_NUMBER.match(self.text, stop) is not None or not PAIRED.isdisjoint(self._line(end))

    def _line(self, at: int) -> list[str]:
        """The words of the line."""
        stops = self.text.find("\n", at)
        return self.text[self.text.rfind("\n", 0, at) + 1 : stops if stops >= 0 else None].lower().split()

    def _is_voltage(self, before: str, written: str, value: Decimal) -> bool:
        """Whether a V behind a number measures, though a name is before it: BUS 48 V, RELAY 24 V; CH 1 V is a name."""
        return written == "V" and (before == _BUS or value >= _FEWEST_VOLTS)

    def _further(self, end: int, quantity: Quantity) -> Read:
        """A second value that makes one of both: a range, or the smaller unit of sixties."""
        if end >= len(self.text):
            return end, quantity
        to = _TO.match(self.text, end)
        if to is not None:
            other = self._quantity(to.end())
            if other is not None and other[1].alike(quantity) and to[0] != " -":
                return other[0], Range(quantity, other[1])
        if self.text[end] == "/":
            other = self._quantity(end + 1) if self.text[end + 1 : end + 2].isdecimal() else None
            return (
                (end, quantity)
                if other is None or not other[1].alike(quantity)
                else (
                    other[0],
                    Alternatives((quantity, other[1])),
                )
            )
        return self._smaller(end, quantity)

    def _smaller(self, end: int, quantity: Quantity) -> Read:
        """The smaller unit of sixties behind a quantity."""
        symbol = quantity.unit.symbol
        if symbol == "′":
            return self._primed(end, quantity)
        smaller = _SIXTIES.get(symbol)
        if smaller is None:
            return end, quantity
        if symbol == "°":
            return self._arc(end, quantity)
        begins = end + 1 if self.text[end] in _BLANK else end
        rest = self._quantity(begins) if self.text[begins : begins + 1].isdecimal() else None
        if rest is None or rest[1].unit.symbol not in smaller:
            return end, quantity
        per = round(quantity.unit.factor / rest[1].unit.factor)
        return self._further(rest[0], Quantity(quantity.value * per + rest[1].value, rest[1].unit))

    def _arc(self, end: int, degrees: Quantity) -> Read:
        """Minutes and seconds of arc behind degrees, by the signs of both."""
        found = _MINUTES.match(self.text, end)
        if found is None:
            return end, degrees
        minutes = degrees.value * 60 + Decimal(found[1].replace(",", "."))
        if found[2] is None:
            return self._further(found.end(), Quantity(minutes, UNITS["′"]))
        return found.end(), Quantity(minutes * 60 + Decimal(found[2].replace(",", ".")), ARC_SECOND)

    def _primed(self, end: int, minutes: Quantity) -> Read:
        """A double prime behind a prime: feet and inches, or minutes and seconds of arc."""
        found = _SECONDS.match(self.text, end)
        if found is None:
            return end, minutes
        more = Decimal(found[1].replace(",", "."))
        length = Quantity(minutes.value * 12 + more, UNITS["in"])
        return found.end(), Unsure((length, Quantity(minutes.value * 60 + more, ARC_SECOND)))

    def _quantity(self, at: int) -> tuple[int, Quantity] | None:
        number = self.signed(at)
        found = self.unit_after(number[0]) if number is not None else None
        if number is None or found is None or len(found[1]) > 1:
            return None
        return found[0], Quantity(number[1][-1], found[1][0])

    # --- without a unit

    def _bare(self, at: int, end: int, value: Decimal) -> Read:
        text = self.text
        code = _SPACED_CODE.match(text, end)
        if code is not None:
            return code.end(), self._prefixed(value, code[1])
        if text[end : end + 1].isalpha() or text[end : end + 1] in ("º", "ª"):
            ordinal = _ORDINAL.match(text, at)
            if ordinal is not None:
                return ordinal.end(), Word(ordinal[0])
            cluster = cluster_at(text, at) if text[at].isdecimal() else None
            if cluster is not None and cluster.end() > end:
                return cluster.end(), designations.mixed(cluster[0])
        return end, _number_or_code(text[at:end], value)

    def _prefixed(self, value: Decimal, letter: str) -> Meaning:
        number = Number(value, _PREFIX[letter])
        if letter == "K":
            return Unsure((number, Quantity(value, UNITS["K"])))
        return Unsure((Quantity(value, UNITS["m"]), number)) if letter == "m" else number

    def coded(self, _: int, end: int, value: Decimal) -> Read | None:
        """10k, 4k7, 0R1: a prefix in the place of the decimal point (IEC 60062)."""
        found = _CODE.match(self.text, end)
        if found is None or (found[2] and value != value.to_integral_value()):
            return None
        letter = found[1]
        if letter == "p" and (value in _LINES or (found[2] and value >= _MOST_WHOLE)):
            return None  # 1080p60 is a format of video
        if not found[2]:
            return (
                (found.end(), Quantity(value, UNITS["Ω"]))
                if letter in "Rr"
                else (
                    found.end(),
                    self._prefixed(value, letter),
                )
            )
        whole = value + Decimal(f"0.{found[2]}")
        return found.end(), Quantity(whole, UNITS["Ω"]) if letter in "Rr" else Number(whole, _PREFIX[letter])

    def dotted(self, at: int, end: int, _: Decimal) -> Read | None:
        """1.2.3, which is no number."""
        found = _VERSION.match(self.text, at) if self.text[at].isdecimal() else None
        if found is None or found.end() <= end:
            return None
        return found.end(), Designation("code" if found[0].count(".") == 3 else "version", found[0])

    # --- several values

    def _symmetric(self, at: int) -> Read | None:
        number = figure(self.text, at, self.language)
        if number is None:
            return None
        end, values = number
        found = self.unit_after(end)
        if found is None or len(found[1]) > 1:
            return end, Range(Number(-values[-1]), Number(values[-1]), symmetric=True)
        unit = found[1][0]
        return found[0], Range(Quantity(-values[-1], unit), Quantity(values[-1], unit), symmetric=True)

    def about(self, _: int, end: int, value: Decimal) -> Read | None:
        """23 ± 2 °C."""
        found = _MORE_OR_LESS.match(self.text, end)
        other = self._quantity(found.end()) if found is not None else None
        if other is None:
            return None
        stop, by = other
        return stop, Range(Quantity(value - by.value, by.unit), Quantity(value + by.value, by.unit))

    def ranged(self, _: int, end: int, value: Decimal) -> Read | None:
        """0...10, 1 to 10 V."""
        to = _TO.match(self.text, end)
        if to is None or (to[0][0] in _BLANK and to[0][-1] in "-~"):
            return None
        number = self.signed(to.end())
        if number is None:
            return None
        stop, values = number
        found = self.unit_after(stop)
        if found is None:
            return (stop, Range(Number(value), Number(values[-1]))) if value < values[-1] else None
        if len(found[1]) > 1:
            return found[0], Unsure(
                tuple(Range(Quantity(value, unit), Quantity(values[-1], unit)) for unit in found[1])
            )
        unit = found[1][0]
        return found[0], Range(Quantity(value, unit), Quantity(values[-1], unit))

    def stroked(self, at: int, end: int, value: Decimal) -> Read | None:
        """1/4 W, 115/230 V, 3/4: a fraction, alternatives, a ratio."""
        return self._share(at) or self._listed(end, value)

    def _share(self, at: int) -> Read | None:
        """A fraction with a unit."""
        part = FRACTION.match(self.text, at)
        share = fraction(part) if part is not None else None
        found = self.unit_after(part.end()) if part is not None and share is not None else None
        if share is None or found is None or len(found[1]) > 1:
            return None
        return found[0], Quantity(share, found[1][0])

    def _listed(self, end: int, value: Decimal) -> Read | None:
        values = [value]
        while (stroke := _STROKE.match(self.text, end)) is not None and len(values) < _MOST_VALUES:
            number = self.signed(stroke.end())
            if number is None:
                return None
            end = number[0]
            values.append(number[1][-1])
        found = self.unit_after(end) if len(values) > 1 else None
        if found is not None and len(found[1]) == 1:
            return found[0], Alternatives(tuple(Quantity(each, found[1][0]) for each in values))
        return (end, Ratio(values[0], values[1], "/")) if len(values) == 2 else None

    def mixed_fraction(self, at: int, _end: int, _value: Decimal) -> Read | None:
        """1 1/2 in."""
        part = FRACTION.match(self.text, at)
        return self._share(at) if part is not None and part[1] else None

    def crossed(self, at: int, end: int, value: Decimal) -> Read | None:
        """2 x 5 A, 30 x 20 mm, 10x."""
        code = _HEXADECIMAL.match(self.text, at) if value == 0 else None
        if code is not None:
            return code.end(), Designation("code", code[0])
        sides = [value]
        stop = end
        while (by := _BY.match(self.text, stop)) is not None and len(sides) < _MOST_VALUES:
            number = figure(self.text, by.end(), self.language)
            if number is None:
                return None
            stop = number[0]
            sides.append(number[1][-1])
        if len(sides) == 1:
            times = _TIMES.match(self.text, end)
            return None if times is None else (times.end(), Factor("×", value))
        return self._by(stop, sides)

    def _by(self, stop: int, sides: list[Decimal]) -> Read | None:
        """Sides of a size, or counts of a quantity."""
        found = self.unit_after(stop)
        if found is None:
            return stop, Size(tuple(sides))
        if len(found[1]) > 1:
            return None
        unit = found[1][0]
        if unit.dimension == _LENGTH:
            return found[0], Size(tuple(sides), unit)
        count = int(math.prod(sides[:-1]))
        return (found[0], Quantity(sides[-1], unit, count)) if count == math.prod(sides[:-1]) else None


def _is_letter(written: str) -> bool:
    return len(written) == 1 and written.isascii()


def _number_or_code(written: str, value: Decimal) -> Number | Designation:
    """A number; with zeros in front a serial number or the like, whose zeros count."""
    if len(written) > 1 and written[0] == "0" and written.isdecimal():
        return Designation("code", written)
    return Number(value)


_STEPS: Final = {
    "/": (Amounts.stroked,),
    " ": (Amounts.mixed_fraction, Amounts.crossed, Amounts.about, Amounts.ranged),
    "×": (Amounts.crossed,),
    "*": (Amounts.crossed,),
    "x": (Amounts.crossed,),
    "X": (Amounts.crossed,),
    ".": (Amounts.dotted, Amounts.ranged),
    "±": (Amounts.about,),
    "+": (Amounts.about,),
    **dict.fromkeys("-–—…÷~\u00a0\u2009\u202f", (Amounts.ranged,)),
    **dict.fromkeys("RrKkMGmnpuµμ", (Amounts.coded,)),
}
"""What may make more of a number, by the character behind it."""

_DIGITS: Final = frozenset(Decimal(digit) for digit in range(1, 10))
