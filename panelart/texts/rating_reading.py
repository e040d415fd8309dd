"""Reads ratings: what letters, kinds of current and several amounts in a row make of each other."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from msgspec.structs import replace

from panelart.texts.amounts import Amounts, Read
from panelart.texts.characters import is_east_asian
from panelart.texts.figures import FRACTION, fraction
from panelart.texts.quantities import Alternatives, Amount, Number, Quantity, Range, ends
from panelart.texts.ratings import (
    AMERICAN_SERIES,
    BREAKING_CAPACITIES,
    BreakerRating,
    Duty,
    FuseRating,
    Nature,
    Protection,
    SupplyRating,
)
from panelart.texts.runs import Certain, Designation, Kind, Meaning, Text, Unsure, Word
from panelart.texts.units import UNITS, Dimension
from panelart.texts.words import BLOWS, FUSE, INPUT, OUTPUT

_VOLT: Final = UNITS["V"].dimension
_AMPERE: Final = UNITS["A"].dimension
_WATT: Final = UNITS["W"].dimension
_SECOND: Final = UNITS["s"].dimension
_PER_SECOND: Final = UNITS["Hz"].dimension

# --- fuses

_REST: Final = r"(?:[ \u00a0\u2009\u202f]?(?P<breaking>[LHE])(?=[ \u00a0\u2009\u202f]?\d|[ ,/]|$))?"
_CURRENT_KIND: Final = r"(?:[ \u00a0\u2009\u202f]?(?:AC|DC|ac|dc|[~⎓]))?"
_VOLTAGE: Final = (
    r"(?:[ \u00a0\u2009\u202f]?[/,–-]?[ \u00a0\u2009\u202f]?(?P<voltage>\d+)[ \u00a0\u2009\u202f]?V"
    + _CURRENT_KIND
    + r"(?![\w/]))?"
)
"""A fuse's voltage, with the kind of current that it is for where that is stated: 250 V, 250 VAC, 250 V~."""

_CLASSES: Final = "g(?:[GLMRSDN]|PV|Bat)|a(?:[MR]|Bat)"
"""Classes of IEC 60269: full range and back-up, for lines, motors, semiconductors, the sun, batteries."""

_FUSE: Final = re.compile(
    r"(?:(?P<count>\d{1,2})\s?[×xX]\s?)?(?P<characteristic>FF|TT|[FMT]|" + _CLASSES + r")"
    r"(?P<apart>[ \u00a0\u2009\u202f]?)"
    r"(?P<current>(?:\d{1,2} )?\d{1,2}/\d{1,2}|\d+(?:[.,]\d+)?(?:[eE]\d{1,2})?)"
    r"(?P<space>[ \u00a0\u2009\u202f]?)(?P<unit>k?A|mA|µA)(?!T)" + _REST + r"(?![^\W\d_])" + _VOLTAGE
)
_WITHOUT_UNIT: Final = re.compile(
    r"(?P<characteristic>FF|TT|[FMT]) ?(?P<current>\d+(?:[.,]\d+)?) ?(?P<breaking>[LHE]) ?(?P<voltage>\d+) ?V"
    + _CURRENT_KIND
    + r"(?![\w/])"
)
"""T6,3L250V: in a complete rating the unit of the current may be left out (common practice)."""

_BARE: Final = re.compile(r"(?<![\w.,])(?P<characteristic>FF|TT|[FMT]) ?(?P<current>\d+[.,]\d+)(?![\w.,/])")
"""T6.3 beside a holder; T6 may be a transformer."""

_TAIL: Final = re.compile(
    r"(?:[ \u00a0\u2009\u202f]?(?P<letter>FF|TT|[FMT]|" + _CLASSES + r")(?!\w)"
    r"|[ \u00a0\u2009\u202f](?P<word>[^\W\d_]+(?:-[^\W\d_]+)?)(?i: (?:blow|blo|acting)(?!\w))?)?" + _REST + _VOLTAGE
)


def fuse_by_letters(text: str, at: int) -> Read | None:
    """A fuse that begins with its characteristic, IEC 60127-1, 6.1: T1AL250V, T 3.15 A."""
    return _fuse_by_point(text, at) or _fuse_by_unit(text, at)


def _fuse_by_unit(text: str, at: int) -> Read | None:
    found = _FUSE.match(text, at)
    current = None if found is None else _current(found["current"], found["unit"])
    if found is None or current is None:
        return _fuse_without_unit(text, at)
    rating = FuseRating(
        characteristic=found["characteristic"],
        current=current,
        breaking=found["breaking"] or "",
        voltage=_volts(found["voltage"]),
        count=int(found["count"] or 1),
    )
    # T1 A may be a transformer named A; T 1 A, T1A and whatever has more pieces is not.
    either = not found["apart"] and found["space"] and found["current"].isdecimal()
    if either and not rating.breaking and rating.voltage is None:
        reference = Designation("reference", found["characteristic"] + found["current"])
        if rating.characteristic == "T":
            return found.end(), Unsure((rating, reference))
        return at + len(reference.text), reference
    return found.end(), rating


_BY_LETTER: Final = re.compile(
    r"(?P<characteristic>FF|TT|[FMT]) ?(?P<whole>\d{1,2})A(?P<rest>\d{1,2}) ?(?P<breaking>[LHE])?"
    r" ?(?:(?P<voltage>\d+) ?V" + _CURRENT_KIND + r")?(?![\w/])"
)
"""T3A15L250V: the unit of the current in the place of its point (IEC 60062)."""


def _fuse_by_point(text: str, at: int) -> Read | None:
    """A fuse with the A of its current for the point; without more it is a reference, T3A15."""
    found = _BY_LETTER.match(text, at)
    if found is None or not (found["breaking"] or found["voltage"]):
        return None
    rating = FuseRating(
        characteristic=found["characteristic"],
        current=_current(f"{found['whole']}.{found['rest']}", "A"),
        breaking=found["breaking"] or "",
        voltage=_volts(found["voltage"]),
    )
    return found.end(), rating


def _fuse_without_unit(text: str, at: int) -> Read | None:
    found = _WITHOUT_UNIT.match(text, at)
    return None if found is None else (found.end(), _rating_without_unit(found))


def _rating_without_unit(found: re.Match[str]) -> FuseRating:
    pieces = found.groupdict()
    return FuseRating(
        characteristic=pieces["characteristic"],
        current=_current(pieces["current"], "A"),
        breaking=pieces.get("breaking") or "",
        voltage=_volts(pieces.get("voltage")),
    )


def _current(written: str, unit: str) -> Quantity | None:
    """The current of a fuse: 2.5, 1e3, or a fraction as in 3/4 A; None for a fraction that is none."""
    if "/" not in written:
        return Quantity(Decimal(f"{Decimal(written.replace(',', '.')):f}"), UNITS[unit])
    part = FRACTION.match(written)
    share = None if part is None else fraction(part)
    return None if share is None else Quantity(share, UNITS[unit])


def _volts(written: str | None) -> Quantity | None:
    return None if written is None else Quantity(Decimal(written), UNITS["V"])


def _fuse_by_current(text: str, end: int, current: Quantity, before: str) -> Read | None:
    """A fuse that begins with its current: 1.6 A T, 2 A slow-blow; or that the word fuse is before."""
    found = _TAIL.match(text, end)
    characteristic = ""
    if found is not None and found["letter"]:
        characteristic = found["letter"]
    elif found is not None and found["word"]:
        characteristic = BLOWS.get(found["word"].lower(), "")
    if found is not None and characteristic:
        return found.end(), FuseRating(
            characteristic=characteristic,
            current=current,
            breaking=found["breaking"] or "",
            voltage=_volts(found["voltage"]),
        )
    if before not in FUSE:
        return None
    rest = _FUSE_REST.match(text, end)
    if rest is None:
        return end, FuseRating(current=current)
    return rest.end(), FuseRating(current=current, breaking=rest["breaking"] or "", voltage=_volts(rest["voltage"]))


_FUSE_REST: Final = re.compile(_REST + _VOLTAGE)


def fuse_of(text: Text) -> FuseRating | None:
    """What a text says of the fuse that it is known to speak of; None if neither rating nor current is in it.

    Beside a fuse holder 1 A is a rating that lacks the rest, which alone would be a current; SLOW 2 A L 250 V has all
    pieces, 32 V 10 A is no supply, and T6.3 no transformer.
    """
    readings = [means.readings[0] if isinstance(means, Unsure) else means for means in text.meanings()]
    for number, reading in enumerate(readings):
        if isinstance(reading, FuseRating):
            return _with_rest(reading, readings[number + 1 :])
    pieces = _fuse_by_pieces(readings)
    if pieces.current is not None:
        return pieces
    bare = _BARE.search(text.text)
    return None if bare is None else _rating_without_unit(bare)


def _with_rest(rating: FuseRating, readings: Iterable[Certain]) -> FuseRating:
    """A rating with what follows it apart: a letter where that of the breaking capacity stands, 250 mV."""
    if rating.voltage is not None:
        return rating
    for reading in readings:
        letter = reading.text if isinstance(reading, Word | Designation) else ""
        if len(letter) == 1 and letter.isupper() and not rating.breaking and rating.miniature:
            rating = replace(rating, breaking=letter)
            continue
        if isinstance(reading, Quantity) and reading.dimension == _VOLT:
            return replace(rating, voltage=reading)
        break
    return rating


def _fuse_by_pieces(readings: Iterable[Certain]) -> FuseRating:
    """A fuse by what stands apart in a text, the first of each: characteristic, current, breaking capacity, voltage."""
    rating = FuseRating()
    for reading in readings:
        if isinstance(reading, Word | Designation):
            rating = _with_letters(rating, reading.text)
        for amount in _amounts_of(reading):
            if amount.dimension == _AMPERE and rating.current is None:
                rating = replace(rating, current=amount)
            elif amount.dimension == _VOLT and rating.voltage is None:
                rating = replace(rating, voltage=amount)
    return rating


def _with_letters(rating: FuseRating, word: str) -> FuseRating:
    """A rating with the characteristic that a word is, or the breaking capacity, which stands behind the current."""
    characteristic = BLOWS.get(word.casefold())
    if characteristic is not None:
        return rating if rating.characteristic else replace(rating, characteristic=characteristic)
    if word in AMERICAN_SERIES and not rating.characteristic:
        return replace(rating, series=word)
    if word in BREAKING_CAPACITIES and rating.current is not None and not rating.breaking:
        return replace(rating, breaking=word)
    return rating


def _amounts_of(means: Certain) -> tuple[Quantity, ...]:
    """Current and voltage of a run; of what has a frequency or power, which no fuse has, none."""
    if isinstance(means, SupplyRating):
        if means.frequency is not None or means.power is not None or means.phases:
            return ()
        return tuple(each for each in (means.current, means.voltage) if isinstance(each, Quantity))
    return (means,) if isinstance(means, Quantity) else ()


_BREAKER: Final = re.compile(
    r"(?<![\w.,-])(?P<characteristic>[BCDKZ]) ?(?P<current>\d{1,4}(?:[.,]\d+)?)(?: ?A)?(?![\w.,-])"
)


def breaker_of(text: Text) -> BreakerRating | None:
    """What a text says of the circuit breaker that it is known to speak of: C 16 A, C16; None if nothing."""
    found = _BREAKER.search(text.text)
    if found is not None:
        return BreakerRating(characteristic=found["characteristic"], current=_current(found["current"], "A"))
    fuse = fuse_of(text)
    return None if fuse is None else BreakerRating(current=fuse.current, voltage=fuse.voltage)


# --- supplies

_NATURE: Final = re.compile(
    r"(?P<both>(?:AC\s?/\s?DC|DC\s?/\s?AC|≂|\u23e6|ac/dc|UC)(?!\w))"
    r"|(?P<ac>[~\u223f]|(?:AC|ac|a\.c\.)(?!\w|-\d)|交流|교류)"
    r"|(?P<dc>\u2393|=(?!\s?[\d=>])|(?:DC|dc|d\.c\.)(?!\w|-\d)|直流|직류)"
)
_GAP: Final = re.compile(r"\s*[,;/·|]?\s*(?:max\.?\s|MAX\.?\s)?")
_SPACE: Final = r"[ \u00a0\u2009\u202f]?"
_POWER_FACTOR: Final = re.compile(rf"(?:cos{_SPACE}[φϕΦ]|PF|λ){_SPACE}[=:≥>]?{_SPACE}[01](?:[.,]\d+)?(?![\w.,]\d)")
"""The power factor of a plate (IEC 60034-1 has it), which stands among the figures and decides none of them."""

_TOLERANCE: Final = re.compile(r"(?:±|\+/-)\s?\d{1,2}(?:[.,]\d+)?\s?%\s*[,;]?\s*")

_BLANKS: Final = re.compile(r"[ \u00a0\u2009\u202f]*")
_COUNTED: Final = (
    r"-?\s?(?:[Pp][Hh](?:ases?|ASES?)?\.?|[ΦφØø⌀])(?![^\W\d_])"
    r"(?:\s?\+\s?N)?(?:\s?\+\s?PE)?(?:,?\s?[2-5]\s?[Ww](?:IRE|ire)?(?!\w))?"
)
"""Phases by word or letter, then conductors and wires: 3 PH + N, 3 PH 4 W (American plates; common practice)."""

_PHASES: Final = re.compile(
    rf"(?P<phases>[123])(?:\s?/?\s?N?\s?/?\s?(?:PE)?\s?(?:~|AC(?=\s))|\s?L?/(?:N(?:/PE)?|PE)|{_COUNTED}\s?(?:~|AC(?!\w))?,?)\s*(?=\d)"
)
_CONDUCTORS: Final = re.compile(rf"(?P<phases>[123])(?:\s?/?\s?N?\s?/?\s?(?:PE)?\s?~|{_COUNTED})")
_LOWEST_HERTZ: Final = 15.0
_HIGHEST_HERTZ: Final = 800.0
"""Hertz of railways and of aircraft, between which those of all mains lie."""

_LEAST_MAINS: Final = 48.0
"""Volts from which any frequency that follows belongs to them; below, one of mains does."""


def _nature(text: str, at: int) -> tuple[int, Nature] | None:
    found = _NATURE.match(text, at)
    if found is None:
        return None
    if found.end() < len(text) and is_east_asian(found[0][0]) and is_east_asian(text[found.end()]):
        return None  # 直流電源 is a name
    nature = Nature.BOTH if found["both"] else Nature.AC if found["ac"] else Nature.DC
    return found.end(), nature


def _joined_nature(text: str, at: int) -> tuple[int, Nature] | None:
    """AC or DC with the voltage joined to it: AC100-240V."""
    joined = text[at : at + 2] in ("AC", "DC") and text[at + 2 : at + 3].isdecimal()
    return (at + 2, Nature(text[at : at + 2])) if joined else None


def kind_of_current(text: str, at: int) -> Read | None:
    """AC, DC, ~ or ⎓ on its own."""
    found = _nature(text, at)
    return None if found is None else (found[0], Kind(found[1]))


def supply_by_nature(amounts: Amounts, at: int) -> Read | None:
    """A supply that begins with the kind of current: AC 230 V."""
    found = _nature(amounts.text, at) or _joined_nature(amounts.text, at)
    blanks = _BLANKS.match(amounts.text, found[0]) if found is not None else None
    if found is None or blanks is None:
        return None
    return _supply(amounts, blanks.end(), nature=found[1])


def supply_by_phases(amounts: Amounts, at: int) -> Read | None:
    """A supply that begins with its conductors (IEC 61293): 3~ 400 V, 3/N/PE ~ 400/230 V."""
    found = _PHASES.match(amounts.text, at)
    if found is None:
        return None
    return _supply(amounts, found.end(), nature=Nature.AC, phases=int(found["phases"]))


def _supply(amounts: Amounts, at: int, nature: Nature, phases: int = 0) -> Read | None:
    """The rest of a supply from its voltage on."""
    read = amounts.amount(at)
    if read is None or dimension_of(read[1]) != _VOLT:
        return None
    return _supply_by_voltage(amounts, read[0], read[1], nature, phases) or (
        read[0],
        SupplyRating(voltage=read[1], nature=nature, phases=phases),
    )


def dimension_of(amount: Amount) -> Dimension | None:
    """The dimension of an amount; None for a range of bare numbers."""
    if isinstance(amount, Quantity):
        return amount.unit.dimension
    first = _first(amount)
    return None if isinstance(first, Number) else first.unit.dimension


def _first(amount: Range | Alternatives) -> Quantity | Number:
    return amount.values[0] if isinstance(amount, Alternatives) else amount.low


def _supply_from(amounts: Amounts, at: int) -> Read | None:
    """A supply that begins here, with its voltage, its kind of current or its phases."""
    read = amounts.amount(at)
    if read is None:
        return supply_by_nature(amounts, at) or supply_by_phases(amounts, at)
    if dimension_of(read[1]) != _VOLT:
        return None
    return _supply_by_voltage(amounts, read[0], read[1]) or (read[0], SupplyRating(voltage=read[1]))


def _supply_by_frequency(amounts: Amounts, end: int, frequency: Amount) -> Read | None:
    """A supply that begins with the frequency of a mains: 400 Hz 115 V 3~; None where no supply follows."""
    low, high = ends(frequency)
    gap = _GAP.match(amounts.text, end)
    if gap is None or gap.end() >= len(amounts.text) or not _LOWEST_HERTZ <= low <= high <= _HIGHEST_HERTZ:
        return None
    rest = _supply_from(amounts, gap.end())
    if rest is None or not isinstance(rest[1], SupplyRating) or rest[1].voltage is None:
        return None
    alternates = rest[1].nature is not None or ends(rest[1].voltage)[1] >= _LEAST_MAINS
    return (rest[0], replace(rest[1], frequency=frequency)) if alternates and rest[1].frequency is None else None


def _supply_by_voltage(
    amounts: Amounts, end: int, voltage: Amount, nature: Nature | None = None, phases: int = 0
) -> Read | None:
    """A supply from the end of its voltage on; None if nothing of one follows."""
    pieces: dict[str, Amount] = {}
    told = nature
    while end < len(amounts.text):
        gap = _GAP.match(amounts.text, end)
        begins = gap.end() if gap is not None else end
        kind = _kind(amounts.text, begins, told, phases)
        if kind is not None:
            end, told, phases = kind
            continue
        factor = _POWER_FACTOR.match(amounts.text, begins)
        if factor is not None and (pieces or told is not None):
            end = factor.end()
            continue
        begins = _behind_tolerance(amounts.text, begins)
        piece = _piece(amounts, begins, voltage, known=told is not None, apart="/" in amounts.text[end:begins])
        if piece is None or piece[1] in pieces:
            break
        end, pieces[piece[1]] = piece[0], piece[2]
    if not pieces and told is nature:
        return None
    return end, SupplyRating(
        voltage=voltage,
        nature=told,
        phases=phases,
        frequency=pieces.get("frequency"),
        current=pieces.get("current"),
        power=pieces.get("power"),
    )


def _behind_tolerance(text: str, at: int) -> int:
    """Where the plate goes on behind a tolerance of the voltage: 230 V~ ±10 % 50 Hz."""
    found = _TOLERANCE.match(text, at)
    return at if found is None else found.end()


def _kind(text: str, at: int, told: Nature | None, phases: int) -> tuple[int, Nature, int] | None:
    """A kind of current or conductors behind a voltage: where they end, both as they are known then."""
    kind = _nature(text, at)
    # Phases say that the current alternates; what is written of it then repeats that, or contradicts it.
    if kind is not None and (told is None or phases or kind[1] is told):
        return kind[0], kind[1], phases
    conductors = _CONDUCTORS.match(text, at) if not phases else None
    return None if conductors is None else (conductors.end(), told or Nature.AC, int(conductors["phases"]))


def _piece(amounts: Amounts, at: int, voltage: Amount, *, known: bool, apart: bool) -> tuple[int, str, Amount] | None:
    """An amount behind a voltage: where it ends, what it is in the rating; a stroke may part two things."""
    read = amounts.amount(at)
    role = _role(read[1], voltage, known=known) if read is not None else None
    if read is None or role is None or (apart and not known and role != "frequency"):
        return None
    return read[0], role, read[1]


def _role(amount: Amount, voltage: Amount, *, known: bool) -> str | None:
    """What an amount behind a voltage is in a rating."""
    from_dimension = dimension_of(amount)
    if from_dimension == _AMPERE:
        return "current"
    if from_dimension == _WATT:
        return "power"
    first = amount if isinstance(amount, Quantity) else _first(amount)
    if not isinstance(first, Quantity) or not _in_hertz(first):
        return None
    # Behind what is known to alternate 50 kHz is a frequency too, if an odd one; else the band of an instrument.
    return "frequency" if known or (first.unit.symbol == "Hz" and _alternates(voltage, first)) else None


def _alternates(voltage: Amount, hertz: Quantity) -> bool:
    """Whether hertz behind a voltage are its frequency: behind that of a mains any, behind a lower one those of mains.

    Of a range the upper end tells, of several voltages the first.
    """
    if isinstance(voltage, Range):
        deciding = voltage.high
    else:
        deciding = voltage.values[0] if isinstance(voltage, Alternatives) else voltage
    return deciding.base >= _LEAST_MAINS or 15 <= hertz.base <= 1000


def _in_hertz(amount: Quantity) -> bool:
    """Whether an amount is in hertz, with any prefix."""
    return len(amount.unit.parts) == 1 and amount.unit.parts[0].symbol == "Hz"


# --- degrees of protection and duty

_PROTECTION: Final = re.compile(r"IP ?([\dX])([\dX])(K)?([A-Z]{0,4})(?!\w)")
_TYPE: Final = re.compile(r"S(10|[1-9])(?!\w)(?:\s?[-,]?\s?(?=\d))?")
_FACTOR_WORD: Final = re.compile(r"ED\s?(?=\d)")
_ED: Final = re.compile(r"\s?ED(?!\w)")
_ON: Final = re.compile(r"\s?(?:on|ON|On|ein|EIN|Ein)(?!\w)\s?[/,;–-]?\s?(?=\d)")
_OFF: Final = re.compile(r"\s?(?:off|OFF|Off|aus|AUS|Aus)(?!\w)")


def protection(text: str, at: int) -> Read | None:
    """A degree of protection, IEC 60529: IP65."""
    found = _PROTECTION.match(text, at)
    if found is None:
        return None
    return found.end(), Protection(found[1], found[2], (found[3] or "") + found[4])


def duty_by_type(amounts: Amounts, at: int) -> Read | None:
    """A duty type, IEC 60034-1: S3 25 %, S2 60 min."""
    found = _TYPE.match(amounts.text, at)
    if found is None:
        return None
    kind = f"S{found[1]}"
    read = amounts.amount(found.end())
    if read is None or not isinstance(read[1], Quantity):
        return at + len(kind), Duty(type=kind)
    if read[1].unit.symbol == "%":
        return read[0], Duty(type=kind, factor=read[1])
    return (
        (read[0], Duty(type=kind, time=read[1])) if read[1].dimension == _SECOND else (at + len(kind), Duty(type=kind))
    )


def duty_by_factor(amounts: Amounts, at: int) -> Read | None:
    """ED 25 %."""
    found = _FACTOR_WORD.match(amounts.text, at)
    read = amounts.amount(found.end()) if found is not None else None
    if read is None or not isinstance(read[1], Quantity) or read[1].unit.symbol != "%":
        return None
    return read[0], Duty(factor=read[1])


def between_on_and_off(amounts: Amounts, end: int, first: Quantity) -> Read | None:
    """5 min ON / 10 min OFF, from the end of the first time on."""
    on = _ON.match(amounts.text, end)
    read = amounts.amount(on.end()) if on is not None else None
    off = _OFF.match(amounts.text, read[0]) if read is not None else None
    if read is None or off is None or not isinstance(read[1], Quantity) or read[1].dimension != _SECOND:
        return None
    return off.end(), Duty(on=first, off=read[1])


def rated(amounts: Amounts, read: Read, before: str) -> Read:
    """A rating, where what was read is its first piece and more of it follows; else what was read."""
    end, means = read
    if not isinstance(means, Quantity | Range | Alternatives):
        return read
    of = dimension_of(means)
    if of == _VOLT:
        return _supply_by_voltage(amounts, end, means) or read
    if of == _PER_SECOND:
        return _supply_by_frequency(amounts, end, means) or read
    return (_rated_by_quantity(amounts, end, means, before) if isinstance(means, Quantity) else None) or read


def _rated_by_quantity(amounts: Amounts, end: int, means: Quantity, before: str) -> Read | None:
    """A rating that begins with one current, time or share."""
    of = means.unit.dimension
    if of == _AMPERE:
        return _fuse_by_current(amounts.text, end, means, before)
    if of == _SECOND:
        return between_on_and_off(amounts, end, means)
    duty = _ED.match(amounts.text, end) if means.unit.symbol == "%" else None
    return None if duty is None else (duty.end(), Duty(factor=means))


def supply_of(text: Text) -> SupplyRating | None:
    """What a text says of the supply that it is known to speak of; None if no voltage is in it.

    What something else parts from the rating belongs to it: the 2 A of 230 V ~ 50 Hz, Class I, 2 A.
    """
    meanings = list(text.meanings())
    for number, means in enumerate(meanings):
        if isinstance(means, SupplyRating):
            return _completed(means, meanings[number + 1 :])
    for number, means in enumerate(meanings):
        if isinstance(means, Quantity | Range | Alternatives) and dimension_of(means) == _VOLT:
            return _completed(SupplyRating(voltage=means), meanings[number + 1 :])
    return None


def stated_supplies(text: Text) -> tuple[tuple[SupplyRating, bool], ...]:
    """The supply ratings that a text states as such, and of each whether the text says that it is of an output.

    The word before tells, as far as the next one: Input 230 V ~ 50 Hz 1 A, Output 24 V DC 2 A.
    """
    found: list[tuple[SupplyRating, bool]] = []
    gives = False
    for means in text.meanings():
        if isinstance(means, SupplyRating):
            found.append((means, gives))
        elif isinstance(means, Word) and means.text.casefold() in OUTPUT | INPUT:
            gives = means.text.casefold() in OUTPUT
    return tuple(found)


def _completed(rating: SupplyRating, further: list[Meaning]) -> SupplyRating:
    """A rating with the frequency, current and power that follow it, as far as it has none; another rating ends it."""
    for means in further:
        if isinstance(means, SupplyRating):
            break
        if not isinstance(means, Quantity | Range | Alternatives) or rating.voltage is None:
            continue
        role = _role(means, rating.voltage, known=True)
        if role is not None and getattr(rating, role) is None:
            rating = replace(rating, **{role: means})
    return rating
