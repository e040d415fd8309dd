"""Reads a text into runs. It is read once, from left to right; what has been read is never read anew.

At each place the first character tells what may stand there, and the readers of that are asked in turn. A reader gives
where its run ends and what it means, or None. Context is three things: the word before on the line, whether the place
is in brackets, and whether it is all that stands on its line.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from typing import Final, TypeAlias

from msgspec.structs import replace

from panelart.texts import designations, letter_symbols
from panelart.texts.amounts import Amounts, Read, phase_word
from panelart.texts.characters import FIRST_RIGHT_TO_LEFT, SPACE, cluster_at, is_right_to_left, is_symbol
from panelart.texts.figures import with_usual_signs
from panelart.texts.quantities import Alternatives, Factor, Number, Quantity, Range, Ratio
from panelart.texts.rating_reading import (
    dimension_of,
    duty_by_factor,
    duty_by_type,
    fuse_by_letters,
    kind_of_current,
    protection,
    rated,
    supply_by_nature,
    supply_by_phases,
)
from panelart.texts.ratings import Duty, Nature, SupplyRating
from panelart.texts.runs import (
    Certain,
    Clock,
    Date,
    Designation,
    LoneUnit,
    Mark,
    Meaning,
    Positions,
    Run,
    Space,
    Symbol,
    Text,
    Unsure,
    Word,
)
from panelart.texts.unit_reading import beyond, exact, in_other_case, loose, told
from panelart.texts.units import QUOTIENT_ONLY, UNITS, Dimension, Unit
from panelart.texts.words import (
    AFTER_NUMBERS_ONLY,
    DUTY,
    EITHER,
    FORMAT,
    FUNCTIONS,
    LABELS,
    MEASURED,
    PLAIN,
    UNIT_WORDS,
    WITHIN,
)

Span: TypeAlias = tuple[int, int]

_SPACE: Final = Space()
_MARK: Final = Mark()
_SIGNED: Final = "+-−±≤≥<>≈."
_RELATION: Final = re.compile(r"[ \u00a0\u2009\u202f]?(?:[=:≤≥<>≈][ \u00a0\u2009\u202f]?)?(?=[+\-−±.\d])")
_EQUALS: Final = re.compile(r"[ \u00a0\u2009\u202f]?[=≤≥≈](?![=>])(?:[ \u00a0\u2009\u202f]?[+\-−±]?\.?(\d))?")
_LEADS: Final = re.compile(rf" (?:{'|'.join(sorted(WITHIN))}) (?=\S)")
_APERTURE: Final = re.compile(r"f/\d{1,2}(?:[.,]\d)?(?![\w.,/])")
_CHANGE: Final = re.compile(r"[A-Z]?\u2206[^\W\d_]{0,3}(?!\w)")
_NEXT_WORD: Final = re.compile(r" ([^\W\d_]{2,})")
_VULGAR: Final = "½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚"

_CLOCK: Final = re.compile(
    r"(?P<date>\d{4}-\d\d-\d\d|\d{1,2}\.\d{1,2}\.\d{4}|(?:0[1-9]|1[0-2])/(?:19|20)\d\d)(?![\w.:/-])"
    r"|(?P<time>(?:[01]\d|2[0-4]):[0-5]\d(?::[0-5]\d(?:[:;]\d\d)?)?|\d{1,2}:0\d)(?![\w:])"
    r"|(?P<first>\d+(?:[.,]\d+)?):(?P<second>\d+(?:[.,]\d+)?)(?![\w:])"
)
_RATIO: Final = re.compile(r"(\d+) : (\d+(?:\.\d+)?)(?![\w.,:]|[ \u00a0]?[^\W\d_°%])")
_POSITIONS: Final = re.compile(r"(?:\d|I{1,3}|IV|V)(?:[-–](?:\d|I{1,3}|IV|V)){2,11}(?![\w.,-])")
_TWO_POSITIONS: Final = re.compile(r"(?:0[-–]1|1[-–]0)(?![\w.,-]|\s?[%°Ω]|\s[a-zA-Z])")
_REFERENCE: Final = re.compile(r"-[A-Z]{1,3}\d{1,3}(?!\w)")
_RESISTANCE: Final = re.compile(r"R(\d{2,3})(?!\w)")
_KIND_BEHIND: Final = re.compile(r"\s?(?:[~\u2393]|(?:AC|DC)(?!\w)|[ad]\.c\.)")
_ZERO_FOR_LETTER: Final = re.compile(r"0(?:ff|fF|FF|[nN])(?![\w·/]|[²³-])")
_ARROWS: Final = re.compile(r"[-=]>|<[-=]")
_CAPITALS: Final = re.compile(r"[A-Z](?:/[A-Z])+(?![\w/])")
_SURE_CAPITALS: Final = frozenset(["V/A", "A/V", "V/V", "A/A", "W/A", "A/W", "V/K", "W/K", "W/V"])
_TIMES: Final = re.compile(r"([xX×÷])\s?(\d+(?:[.,]\d+)?)(?![\w.,/])")
_PH: Final = re.compile(r"pH\s?(\d{1,2}(?:[.,]\d+)?)(?!\w)")
_DIAMETER: Final = re.compile(r"[Øø](?=\s?\d)")
_TERMINALS: Final = frozenset(["L", "N", "PE", "L1", "L2", "L3", "PEN", "FE", "GND"])
_MOST_IN_A_ROW: Final = 20
"""Words of a line of units or terminals; more are no such line, and are not looked through again and again."""

_SLASHED: Final = ("S/PDIF", "AES/EBU")

_LETTERS: Final[Mapping[str, tuple[str, ...]]] = {
    "A": ("word", "unit"),
    "V": ("unit", "word"),
    "W": ("unit", "word"),
    "m": ("unit", "word"),
    "s": ("unit", "word"),
    "h": ("unit", "word"),
    "l": ("unit", "word"),
    "g": ("unit", "word"),
    "t": ("unit", "word"),
    "K": ("word", "unit"),
    "S": ("word", "unit"),
    "T": ("word", "unit"),
    "J": ("word", "unit"),
    "F": ("word", "unit"),
    "H": ("word", "unit"),
    **dict.fromkeys("мсчглт", ("unit", "word")),
}
"""Letters that are units or names when they stand alone, the more usual first; what is not here is a name."""

_SMALL: Final = frozenset("mshgltмсчглт")
"""Small letters that a name of a part seldom ends with, but for its unit: Süre s."""

_IN_A_ROW: Final = UNITS.keys() - QUOTIENT_ONLY
"""Units that may stand in a row of units by themselves."""

_DIMENSIONS: Final = {symbol: told(symbol).dimension for symbol in set(MEASURED.values())}
"""The dimensions of the units that `MEASURED` names."""

_JACK: Final = re.compile(r"(?=[^\W\d_]*Ω)(?:[mkMµμ]?[VAΩ]|k?Hz|[nµμ]?F|°C)+(?![\w-])")
_JACK_PIECE: Final = re.compile(r"[mkMµμ]?[VAΩ]|k?Hz|[nµμ]?F|°C")
"""What a jack of a multimeter measures, unit beside unit: VΩmA."""

_KINDS: Final = {"cc": Nature.DC, "dc": Nature.DC, "ca": Nature.AC, "ac": Nature.AC}
"""Kinds of current by the letters that are joined to a unit."""


class _Reader:
    """Reads one text."""

    def __init__(self, text: str, language: str, units: Mapping[int, int]) -> None:
        self.text = text
        self.language = language
        self.units = units
        self.before = ""
        self.line: tuple[int, int, list[str]] = (0, 0, [])
        self.amounts = Amounts(text, language, units)

    def runs(self, offset: int) -> Iterable[Run]:
        """The runs of the text, moved by an offset."""
        text, at = self.text, 0
        while at < len(text):
            end, means = self._at(at)
            yield Run(offset + at, offset + end, means)
            if type(means) is Word:
                self.before = means.text.lower()
            elif type(means) is not Space and type(means) is not Mark:
                is_symbol_of_quantity = isinstance(means, Designation) and means.kind == "quantity"
                self.before = text[at:end] if is_symbol_of_quantity else ""
            at = end

    def _at(self, at: int) -> tuple[int, Meaning]:
        text, first = self.text, self.text[at]
        if first.isspace():
            found = SPACE.match(text, at)
            return (found.end() if found else at + 1), _SPACE
        read: Read | None = None
        if at in self.units:
            read = self._told(at)
        elif first.isdecimal() or first in _SIGNED or first in _VULGAR:
            read = self._figures(at, first)
        elif first.isalpha():
            return self._letters(at, first)
        return read or self._sign(at, first)

    def _told(self, at: int) -> Read:
        """What the writer says is a unit."""
        end, unit = beyond(self.text, at, self.units[at])
        return end, LoneUnit(unit)

    # --- what begins with a figure or its sign

    def _figures(self, at: int, first: str) -> Read | None:
        text = self.text
        if first.isdecimal():
            read = self._named_by_figures(at)
            if read is not None:
                return read
        elif first in _VULGAR:
            thread = designations.inch(text, at)
            if thread is not None:
                return thread
        elif first == "-":
            reference = _REFERENCE.match(text, at)
            if reference is not None and not text[at - 1 : at].strip():
                return reference.end(), Designation("reference", reference[0])
        read = self.amounts.read(at, self.before)
        if read is not None:
            return _of_kind(rated(self.amounts, read, self.before))
        cluster = cluster_at(text, at) if first.isdecimal() else None
        return None if cluster is None else (cluster.end(), Designation("code", cluster[0]))

    def _misspelt(self, at: int) -> Read | None:
        """Off and On with a zero for their letter: 0ff, 0N; with a blank 0 N is no force."""
        found = _ZERO_FOR_LETTER.match(self.text, at)
        return None if found is None else (found.end(), Word(found[0]))

    def _named_by_figures(self, at: int) -> Read | None:
        """Dates, positions, threads, phases: what figures make that are no amount."""
        text, end = self.text, at + 1
        while text[end : end + 1].isdecimal():
            end += 1
        follows = text[end : end + 1]
        if not follows:
            return None
        if follows in ":.-–/":
            read = self._clock(at) or self._positions(at) or self._reciprocal(at)
            if read is not None:
                return read
        if follows in '/-"″ A':
            read = designations.inch(text, at) or designations.gauge(text, at)
            if read is not None:
                return read
        return self._counted(at, end, follows) if follows in " ~/NnfF×xX-PpΦφØø⌀" else None

    def _counted(self, at: int, end: int, follows: str) -> Read | None:
        """What a figure counts: poles, the phases of a supply, or fuses of one rating; a zero may be a letter."""
        poles = designations.poles(self.text, at) if follows == "P" else self._misspelt(at)
        if poles is not None:
            return poles
        supply = supply_by_phases(self.amounts, at)
        if supply is not None:
            return supply
        if follows in "Pp" and phase_word(self.text, end):
            return end, Number(Decimal(self.text[at:end]))
        return fuse_by_letters(self.text, at) or self._spaced_ratio(at)

    def _spaced_ratio(self, at: int) -> Read | None:
        """1 : 10."""
        found = _RATIO.match(self.text, at) if self.before not in LABELS else None
        return None if found is None else (found.end(), Ratio(Decimal(found[1]), Decimal(found[2]), ":"))

    def _reciprocal(self, at: int) -> Read | None:
        """1/min."""
        found = exact(self.text, at) if self.text.startswith("1/", at) else None
        return None if found is None else (found[0], LoneUnit(found[1]))

    def _clock(self, at: int) -> Read | None:
        found = _CLOCK.match(self.text, at)
        if found is None:
            return None
        if found["date"]:
            return found.end(), Date(found[0])
        if found["time"]:
            return found.end(), Clock(found[0])
        first, second = (Decimal(found[name].replace(",", ".")) for name in ("first", "second"))
        return found.end(), Ratio(first, second, ":")

    def _positions(self, at: int) -> Read | None:
        found = _POSITIONS.match(self.text, at)
        if found is not None:
            return found.end(), Positions(tuple(re.split("[-–]", found[0])))
        pair = _TWO_POSITIONS.match(self.text, at)
        if pair is None:
            return None
        positions = Positions((pair[0][0], pair[0][2]))
        span = self.amounts.numbers_ranged(pair[0])
        return pair.end(), positions if span is None else Unsure((positions, span))

    # --- what begins with a letter

    def _letters(self, at: int, first: str) -> tuple[int, Meaning]:
        for reader in _BY_LETTER.get(first, ()):
            read = reader(self, at)
            if read is not None:
                return read
        found = cluster_at(self.text, at)
        end = found.end() if found is not None else at + 1
        cluster = self.text[at:end]
        if first >= FIRST_RIGHT_TO_LEFT and is_right_to_left(first):
            end = _prefixed(self.text, at, end)
            cluster = self.text[at:end]
        if cluster.split("-", 1)[0] in FORMAT:
            read = designations.form(self.text, at)
            if read is not None:
                return read
        if cluster in designations.KNOWN and not self._in_product(at, end):
            return end, Designation(designations.KNOWN[cluster], cluster)
        if cluster in designations.BODIES:
            standard = designations.standard(self.text, at)
            if standard is not None:
                return standard
        return self._unit_or_word(at, end, cluster)

    def _in_product(self, at: int, end: int) -> bool:
        """Whether a single letter is no terminal: the N of N m, of S/N, of N S E W."""
        if end - at > 1:
            return False
        line = self._line(at)
        if len(line) > 1 and (len(line) > _MOST_IN_A_ROW or not _TERMINALS.issuperset(line)):
            return True
        unit = exact(self.text, at)
        return unit is not None and unit[0] > end

    def _unit_or_word(self, at: int, end: int, cluster: str) -> tuple[int, Meaning]:
        substance = designations.substance(self.text, at, cluster) if "A" <= cluster[0] <= "Z" else None
        if substance is not None:
            return substance
        read = self._capitals(at) or self._unit(at, end, cluster)
        if read is not None:
            return read
        if "Ω" in cluster and _JACK.match(self.text, at) is not None:
            piece = _JACK_PIECE.match(self.text, at)
            return (end, Word(cluster)) if piece is None else (piece.end(), LoneUnit(UNITS[piece[0]]))
        if any(character.isdecimal() for character in cluster) and cluster.isascii():
            return end, designations.mixed(cluster)
        return end, self._name(at, cluster) or Word(cluster)

    def _name(self, at: int, cluster: str) -> Designation | None:
        """Letters that stay as they are: symbols of quantities, names of mixed case."""
        if len(cluster) == 1:
            angle = "α" <= cluster <= "ϖ" and (self.before in FUNCTIONS or self._names_angle(at, cluster))
            return Designation("quantity", cluster) if angle else None
        end = at + len(cluster)
        return (
            self._symbol_of_quantity(cluster, end)
            or designations.formula(cluster)
            or designations.of_mixed_case(cluster)
        )

    def _symbol_of_quantity(self, cluster: str, end: int) -> Designation | None:
        """A letter symbol; one that is a word as well before a value of what it measures only: In 16 A."""
        known = designations.symbol_of_quantity(cluster)
        if known is not None:
            follows = _NEXT_WORD.match(self.text, end) if letter_symbols.is_word_before_words(cluster) else None
            return known if follows is None or letter_symbols.is_symbol(follows[1]) else None
        dimensions = letter_symbols.dimensions_of(cluster)
        value = self._value_behind(end) if dimensions else None
        return Designation("quantity", cluster) if value is not None and value in dimensions else None

    def _value_behind(self, end: int) -> Dimension | None:
        """The dimension of the amount that follows, with or without a sign of relation between."""
        gap = _RELATION.match(self.text, end)
        read = self.amounts.amount(gap.end()) if gap is not None else None
        return None if read is None else dimension_of(read[1])

    def _names_angle(self, at: int, letter: str) -> bool:
        """Whether a Greek letter is the symbol of what the word before names; two are words of Greek."""
        return letter not in "οη" and self.before in MEASURED and self.text[at - 1 : at] == " "

    def _capitals(self, at: int) -> Read | None:
        """Capitals with a stroke between: names, but for the few quotients of units that are met."""
        found = _CAPITALS.match(self.text, at)
        if found is None or found[0] in _SURE_CAPITALS:
            return None
        if found[0] == "M/S" and self._alone(at, found.end()):
            unit = exact("m/s", 0)
            return found.end(), Unsure((LoneUnit(unit[1]), Word(found[0]))) if unit else Word(found[0])
        return at + 1, Word(self.text[at])

    def _unit(self, at: int, end: int, cluster: str) -> Read | None:
        text = self.text
        found = exact(text, at)
        if found is not None and found[0] >= end and not in_other_case(text, found[0]):
            stop, unit = found
            return self._lone(at, stop, unit, cluster)
        guess = loose(text, at, counted=False)
        if len(cluster) == 1 and (guess is None or guess[0] == end):
            return self._letter(at, end, cluster)
        if guess is None or guess[0] < end:
            return None
        return self._guessed(at, guess[0], guess[1])

    def _lone(self, at: int, end: int, unit: Unit, cluster: str) -> Read:
        """A unit in its proper form, which may be a word none the less."""
        written = self.text[at:end]
        if written == "in" and self.before and self._leads_to_unit(end):
            return end, Word(written)
        if self._bracketed(at, end) or len(written) > len(cluster):
            return end, LoneUnit(unit)
        if self._measured(unit):
            # Time min: the shortest, or in minutes.
            return end, Unsure((LoneUnit(unit), Word(written))) if written == "min" else LoneUnit(unit)
        if len(written) == 1 and (written.isascii() or written in _SMALL):
            return self._letter(at, end, written)
        return self._symbol_or_word(at, end, unit)

    def _leads_to_unit(self, end: int) -> bool:
        """Whether the unit that ends the line follows: the in of Length in mm."""
        found = exact(self.text, end + 1) if self.text[end : end + 1] == " " else None
        return found is not None and self._ends_line(found[0])

    def _symbol_or_word(self, at: int, end: int, unit: Unit) -> Read:
        """A symbol of several letters that may be a word: in, MS; of small Cyrillic letters it is one."""
        written = self.text[at:end]
        if written in EITHER:
            return end, self._either(at, end, unit)
        if written in AFTER_NUMBERS_ONLY:
            return end, LoneUnit(unit) if self._within(at, end) else Word(written)
        if written.isupper() and written.lower() in PLAIN:
            return end, Word(written)
        if written.isupper() and written.isascii() and len(loosely := self._readings(at)) > 1:
            return end, Unsure((*(LoneUnit(each) for each in loosely), Word(written)))
        if written in ("Vac", "Acc"):
            # A vacuum or an accessory, where something of it follows.
            return end, Unsure((LoneUnit(unit), Word(written))) if self._ends_line(end) else Word(written)
        return end, LoneUnit(unit)

    def _either(self, at: int, end: int, unit: Unit) -> Meaning:
        """A symbol that is a word of small letters as well: min, bar."""
        word = Word(self.text[at:end])
        if self._among_units(at) or self._within(at, end) or self._of_language(end, word.text):
            return LoneUnit(unit)
        return word if self.before or not self._alone(at, end) else Unsure((LoneUnit(unit), word))

    def _of_language(self, end: int, written: str) -> bool:
        """Whether a word for a unit in the language of the text ends what names it: Gecikme sn."""
        words = UNIT_WORDS.get(self.language.lower().split("-")[0], {})
        return bool(self.before) and self._ends_line(end) and any(written in each.split() for each in words.values())

    def _readings(self, at: int) -> tuple[Unit, ...]:
        found = loose(self.text, at, counted=True)
        return () if found is None else found[1]

    def _letter(self, at: int, end: int, letter: str) -> Read:
        """A single letter."""
        if self._is_defined(end, letter):
            return end, Designation("quantity", letter)
        kind = _KIND_BEHIND.match(self.text, end) if letter in "AV" else None
        if kind is not None:
            return end, LoneUnit(UNITS[letter])
        if self._among_units(at) or self._is_named(at, end, letter):
            return end, LoneUnit(UNITS[letter]) if letter in UNITS else Word(letter)
        if self._may_be_unit(at, end, letter):
            return end, Unsure((LoneUnit(UNITS[letter]), Word(letter)))
        if self._alone(at, end):
            return end, _lone_letter(letter)
        return end, self._name(at, letter) or self._terminal_or_word(at, letter)

    def _is_defined(self, end: int, letter: str) -> bool:
        """Whether a letter is the symbol of what follows: n = 1450; a small one even without a value, or a sign."""
        found = _EQUALS.match(self.text, end)
        if found is None:
            return letter.islower() and self._is_of_value(end, letter)
        return letter.islower() or found[1] is not None

    def _is_of_value(self, end: int, letter: str) -> bool:
        """Whether a small letter is the symbol of the value or the unit that follows: t 5 s, Drehzahl n in min⁻¹."""
        leads = _LEADS.match(self.text, end)
        unit = exact(self.text, leads.end()) if leads is not None else None
        if unit is not None and self._ends_line(unit[0]):
            return True
        dimensions = letter_symbols.dimensions_of(letter)
        return bool(dimensions) and self._value_behind(end) in dimensions

    def _may_be_unit(self, at: int, end: int, letter: str) -> bool:
        """Whether a letter behind a word that counts nothing may be its unit."""
        if len(self.before) < 2 or self.before in LABELS or self.text[at - 1 : at] != " ":
            return False
        return letter in "VW" or (letter in _SMALL and self._ends_line(end))

    def _is_named(self, at: int, end: int, letter: str) -> bool:
        """Whether a letter ends the line as the unit of what it names: Rate in s, Current in A."""
        named = letter.islower() or (letter in UNITS and self._names(at, UNITS[letter]))
        return named and self._within(at, end)

    def _names(self, at: int, unit: Unit) -> bool:
        """Whether the line says before `in` what a unit measures: Current in A."""
        line = self._line(at)
        symbol = MEASURED.get(line[-3].lower()) if len(line) > 2 else None
        return symbol is not None and _DIMENSIONS[symbol] == unit.dimension

    def _line(self, at: int) -> list[str]:
        """The words of the line, strokes left out."""
        if not self.line[0] <= at < self.line[1]:
            begins = self.text.rfind("\n", 0, at) + 1
            stops = self.text.find("\n", at)
            stops = len(self.text) if stops < 0 else stops
            self.line = (begins, stops, self.text[begins:stops].replace("/", " ").split())
        return self.line[2]

    def _within(self, at: int, end: int) -> bool:
        """Whether what ends the line here is the unit of what it names: Rate in s."""
        line = self._line(at)
        return (
            2 < len(line) <= _MOST_IN_A_ROW
            and (line[-2] if len(line[-2]) == 1 else line[-2].lower()) in WITHIN
            and line[-1] == self.text[at:end]
            and line[-3][-1:].isalpha()
            and self._ends_line(end)
        )

    def _among_units(self, at: int) -> bool:
        """Whether the line is a row of units, of which one is no letter: mV V kV."""
        line = self._line(at)
        return (
            1 < len(line) <= _MOST_IN_A_ROW
            and line[1:-1] != ["in"]
            and set(line) <= _IN_A_ROW
            and any(len(each) > 1 or not each.isascii() for each in line)
        )

    def _terminal_or_word(self, at: int, letter: str) -> Certain:
        if letter == "L" and len(self._line(at)) <= _MOST_IN_A_ROW and _TERMINALS.issuperset(self._line(at)):
            return Designation("terminal", letter)
        return Word(letter)

    def _guessed(self, at: int, end: int, units: tuple[Unit, ...]) -> Read:
        """A unit whose letters have another case than its own."""
        written = self.text[at:end]
        readings: list[Certain] = [LoneUnit(unit) for unit in units]
        sure = len(units) == 1 and len(written) > 2 and written != "PPM"
        if sure or (len(units) == 1 and (self._bracketed(at, end) or self._measured(units[0]))):
            return end, readings[0]
        if "/" not in written:
            readings.append(Word(written))
        return end, Unsure(tuple(readings))

    def _measured(self, unit: Unit) -> bool:
        """Whether the word before names what the unit measures, or a letter symbol stands there: ΔP bar."""
        if self.before and designations.symbol_of_quantity(self.before) is not None:
            return True
        symbol = MEASURED.get(self.before)
        return symbol is not None and _DIMENSIONS[symbol] == unit.dimension

    def _bracketed(self, at: int, end: int) -> bool:
        return self.text[at - 1 : at] in ("(", "[") and self.text[end : end + 1] in (")", "]") and at > 0

    def _alone(self, at: int, end: int) -> bool:
        """Whether nothing else stands on the line."""
        return not self.text[self.text.rfind("\n", 0, at) + 1 : at].strip() and self._ends_line(end)

    def _ends_line(self, end: int) -> bool:
        stops = self.text.find("\n", end)
        return not self.text[end : stops if stops >= 0 else len(self.text)].strip()

    # --- signs

    def _sign(self, at: int, first: str) -> tuple[int, Meaning]:
        text = self.text
        if first in "~\u2393\u223f":
            return self._sign_of_current(at, first)
        arrow = _ARROWS.match(text, at) if first in "-=<" else None
        if arrow is not None:
            return arrow.end(), Symbol(arrow[0])
        if first in "×÷":
            return times(self, at) or (at + 1, Symbol(first))
        if first == "#":
            return designations.inch(text, at) or (at + 1, _MARK)
        changed = change(self, at) if first == "\u2206" else None
        if changed is not None:
            return changed
        return self._unit_by_sign(at, first)

    def _sign_of_current(self, at: int, first: str) -> tuple[int, Meaning]:
        """A supply or kind of current; the sine is a waveform too, and no current by itself."""
        supply = supply_by_nature(self.amounts, at)
        if supply is None and first == "\u223f":
            return at + 1, Symbol(first)
        return supply or kind_of_current(self.text, at) or (at + 1, _MARK)

    def _unit_by_sign(self, at: int, first: str) -> tuple[int, Meaning]:
        """A unit that begins with a sign: °C, % RH, and /min where it stands by itself."""
        alone = first == "/" and self.text[at - 1 : at] == " "
        unit = exact(self.text, at) if alone or first in "°º˚%‰℃℉√□" else None
        return (at + 1, self._symbol_or_mark(at, first)) if unit is None else (unit[0], LoneUnit(unit[1]))

    def _symbol_or_mark(self, at: int, character: str) -> Certain:
        """A sign; plus and minus are punctuation within or at the end of something."""
        beside = self.text[at - 1 : at] + self.text[at + 1 : at + 2] if at else ""
        if character in "+-−" and beside.strip():
            return _MARK
        if is_symbol(character) or character in "-−":
            return Symbol(character)
        return _MARK


def _prefixed(text: str, at: int, end: int) -> int:
    """Where a word from the right ends before what is none: ב-250 V is a preposition and a voltage, ב-USB too."""
    for place in range(at + 1, end):
        sign = text[place]
        if sign.isdecimal() or (sign == "-" and not is_right_to_left(text[place + 1])):
            return place
    return end


def _of_kind(read: Read) -> Read:
    """A supply where the unit of a voltage says the kind of current: 24 Vcc."""
    end, means = read
    voltage = means.voltage if isinstance(means, SupplyRating) else means
    first = voltage.values[0] if isinstance(voltage, Alternatives) else voltage
    last = first.high if isinstance(first, Range) else first
    symbol = last.unit.symbol if isinstance(last, Quantity) else ""
    nature = _KINDS.get(symbol[-2:]) if symbol[-3:-2] == "V" else None
    if nature is None or not isinstance(voltage, Quantity | Range | Alternatives):
        return read
    if isinstance(means, SupplyRating):
        return (end, replace(means, nature=nature)) if means.nature is None else read
    return end, SupplyRating(voltage=voltage, nature=nature)


def _lone_letter(letter: str) -> Meaning:
    """What a letter is that is all there is on its line."""
    if letter == "L":
        return Unsure((Designation("terminal", "L"), Word("L"), LoneUnit(UNITS["L"])))
    if letter == "M":
        return Unsure((Word("M"), LoneUnit(UNITS["m"])))
    order = _LETTERS.get(letter)
    if order is None:
        return Word(letter)
    readings: dict[str, Certain] = {"word": Word(letter), "unit": LoneUnit(UNITS[letter])}
    return Unsure(tuple(readings[kind] for kind in order))


# --- readers by the first letter


def change(reader: _Reader, at: int) -> Read | None:
    """A letter symbol with the sign of increment, which is no letter, where others write a delta: I∆n, ∆p."""
    found = _CHANGE.match(reader.text, at)
    known = designations.symbol_of_quantity(found[0]) if found is not None else None
    return None if found is None or known is None else (found.end(), known)


def times(reader: _Reader, at: int) -> Read | None:
    """Multiplied or divided by: x10; X10 may be a reference."""
    found = _TIMES.match(reader.text, at)
    if found is None:
        return None
    sign = "÷" if found[1] == "÷" else "×"
    factor = Factor(sign, Decimal(found[2].replace(",", ".")))
    if found[1] != "X" or not found[2].isdecimal():
        return found.end(), factor
    reference = Designation("reference", found[0])
    return found.end(), Unsure((factor, reference)) if len(found[2]) > 1 else reference


def _fuse(reader: _Reader, at: int) -> Read | None:
    return fuse_by_letters(reader.text, at)


def _protection(reader: _Reader, at: int) -> Read | None:
    return protection(reader.text, at)


def _positions(reader: _Reader, at: int) -> Read | None:
    found = _POSITIONS.match(reader.text, at)
    return None if found is None else (found.end(), Positions(tuple(re.split("[-–]", found[0]))))


def _duty(reader: _Reader, at: int) -> Read | None:
    read = duty_by_type(reader.amounts, at)
    if read is None or not isinstance(read[1], Duty):
        return None
    complete = read[1].time is not None or read[1].factor is not None
    return read if complete or reader.before in DUTY else None


def _factor(reader: _Reader, at: int) -> Read | None:
    return duty_by_factor(reader.amounts, at)


def _phases(reader: _Reader, at: int) -> Read | None:
    """PH behind a number that counts is phases, before a number a word; else it may be pH in capitals."""
    text = reader.text
    counted = phase_word(text, at)
    before_number = text[at : at + 3] in ("PH ", "Ph ") and text[at + 3 : at + 4].isdecimal()
    return (at + 2, Word(text[at : at + 2])) if counted or before_number else None


def _acidity(reader: _Reader, at: int) -> Read | None:
    found = _PH.match(reader.text, at)
    if found is None:
        return None
    return found.end(), Quantity(Decimal(found[1].replace(",", ".")), UNITS["pH"])


def _current(reader: _Reader, at: int) -> Read | None:
    return supply_by_nature(reader.amounts, at) or kind_of_current(reader.text, at)


def _dotted(reader: _Reader, at: int) -> Read | None:
    """a.c. and d.c., whose letters are names without the points."""
    return _current(reader, at) if reader.text.startswith(".c.", at + 1) else None


def _volts(reader: _Reader, at: int) -> Read | None:
    """VDC on its own is the unit with the kind of current; VAC may be a vacuum."""
    written = reader.text[at : at + 3]
    if written not in ("VDC", "VAC") or not reader._alone(at, at + 3):  # noqa: SLF001  # readers are of one piece
        return None
    unit = LoneUnit(UNITS["V"])
    return (at + 1, unit) if written == "VDC" else (at + 3, Unsure((unit, Word(written))))


def _metric(reader: _Reader, at: int) -> Read | None:
    return designations.metric(reader.text, at)


def _pipe(reader: _Reader, at: int) -> Read | None:
    return designations.pipe(reader.text, at)


def _sensor(reader: _Reader, at: int) -> Read | None:
    return designations.sensor(reader.text, at)


def _category(reader: _Reader, at: int) -> Read | None:
    return designations.category(reader.text, at)


def _supplied(reader: _Reader, at: int) -> Read | None:
    """UC before a voltage, which is an abbreviation elsewhere."""
    return supply_by_nature(reader.amounts, at)


def _aperture(reader: _Reader, at: int) -> Read | None:
    """f/2.8."""
    found = _APERTURE.match(reader.text, at)
    return None if found is None else (found.end(), Designation("quantity", found[0]))


def _class(reader: _Reader, at: int) -> Read | None:
    return designations.numbered_class(reader.text, at)


def _version(reader: _Reader, at: int) -> Read | None:
    return designations.version(reader.text, at)


def _resistance(reader: _Reader, at: int) -> Read | None:
    found = _RESISTANCE.match(reader.text, at)
    if found is None:
        return None
    ohms = Quantity(Decimal(f"0.{found[1]}"), UNITS["Ω"])
    return found.end(), Unsure((ohms, Designation("reference", found[0])))


def _diameter(reader: _Reader, at: int) -> Read | None:
    found = _DIAMETER.match(reader.text, at)
    return None if found is None else (found.end(), Symbol(found[0]))


def _slashed(reader: _Reader, at: int) -> Read | None:
    for name in _SLASHED:
        if reader.text.startswith(name, at):
            return at + len(name), Designation("interface", name)
    return None


_BY_LETTER: Final[Mapping[str, tuple[Callable[[_Reader, int], Read | None], ...]]] = {
    "A": (_current, _slashed, _class),
    "B": (_pipe,),
    "C": (_category,),
    "D": (_current, _class),
    "E": (_factor, _class),
    "F": (_fuse,),
    "G": (_pipe,),
    "I": (_protection, _positions, change, _class),
    "M": (_fuse, _metric),
    "N": (_sensor, _class, _pipe),
    "P": (_phases, _sensor, _class, _pipe),
    "R": (_resistance, _pipe),
    "S": (_duty, _slashed, _class),
    "T": (_fuse, _pipe),
    "U": (_supplied, _pipe),
    "V": (_version, _volts),
    "X": (times,),
    "a": (_fuse, _dotted),
    "d": (_dotted,),
    "f": (_aperture,),
    "g": (_fuse,),
    "p": (_acidity,),
    "v": (_version,),
    "x": (times,),
    "Ø": (_diameter,),
    "ø": (_diameter,),
    **dict.fromkeys("交直교직", (_current,)),
}


def parse(text: str, language: str = "", *, units: Iterable[Span] = (), words: Iterable[Span] = ()) -> Text:
    """The runs of a text.

    `language` decides whether a comma parts thousands. `units` and `words` are stretches, start to before end, that the
    writer says are units or words; each is a run of its own, or ends the quantity that it is the unit of.
    """
    marked = dict(units)
    runs: list[Run] = []
    at = 0
    read = with_usual_signs(text)
    for start, end in sorted(words):
        runs += _segment(read, at, start, language, marked)
        runs.append(Run(start, end, Word(text[start:end], told=True)))
        at = end
    runs += _segment(read, at, len(text), language, marked)
    return Text(text, tuple(runs))


def _segment(text: str, start: int, end: int, language: str, units: Mapping[int, int]) -> Iterable[Run]:
    if start >= end:
        return ()
    if start == 0 and end == len(text):
        return _Reader(text, language, units).runs(0)
    inside = {first - start: last - start for first, last in units.items() if start <= first and last <= end}
    return _Reader(text[start:end], language, inside).runs(start)
