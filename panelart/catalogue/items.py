"""A text as words and figures, one after another, as far as they may say which part is meant.

Values that say nothing of the size (volts, amperes, ohms, ratings) are told from lengths, threads and counts by the
reader of texts, so that 10k is never ten of anything and 12 V never a diameter.
"""

from __future__ import annotations

from decimal import Decimal
from string import ascii_lowercase, digits
from typing import Final, TypeAlias

from panelart.catalogue.vocabulary import folded, known_words, pieces
from panelart.texts.parse import parse
from panelart.texts.quantities import Factor, Number, Quantity, Range, Ratio, Size
from panelart.texts.ratings import Duty, FuseRating, Protection, SupplyRating
from panelart.texts.runs import Designation, Mark, Meaning, Positions, Space, Symbol
from panelart.texts.units import UNITS

INCH: Final = 25.4
LONGEST: Final = 400
"""Characters that are read of a text; no part is named in more."""

_LENGTH: Final = UNITS["m"].dimension
_CURRENT: Final = UNITS["A"].dimension
_INCH_FRACTIONS: Final = frozenset({2, 4, 8, 16, 32, 64})
_LARGE: Final = 10
"""Millimetres from which two sides without a unit are a size; smaller ones may count rows and columns."""

_DIN: Final = {2: (192.0, 96.0), 4: (96.0, 96.0), 8: (96.0, 48.0), 16: (48.0, 48.0), 32: (48.0, 24.0)}
"""Bezels in mm that meters are called by as parts of 192 x 192: 1/8 DIN. Source: DIN 43700, IEC 61554."""

Item: TypeAlias = tuple[str, object]
"""What it is, and its value: a 'word', 'mark' or 'thread' and its text; a 'length' in mm, a 'number' as it is, 'inches'
in mm without a unit; a 'size' of two sides and whether it is sure to be one; 'positions' and how many; a 'value' that
is no size, the 'amps' of one, and the 'current' that it is of, dc or ac; the 'to' of a range."""


def items_of(text: str) -> list[Item]:
    """The words and figures of a text in their order, footprints' underscores as spaces."""
    read = parse(" ".join(map(_as_read, text.replace("_", " ")[:LONGEST].split(" "))))
    found: list[Item] = []
    for run in read.runs:
        if not isinstance(run.means, Space):
            found += _of_figure(run.means, read.written(run)) or _of_text(run.means, read.written(run))
    return _with_inches(found)


def _as_read(word: str) -> str:
    """A word as the reader of texts knows it: pg13.5 is PG13.5, and D3.0mm of board programs 3.0mm."""
    if word[:2] == "pg" and word[2:3].isdecimal():
        return f"PG{word[2:]}"
    if word[:1] in "dD" and word[-2:].casefold() == "mm" and is_number(word[1:-2]):
        return word[1:]
    return word


def _of_figure(means: Meaning, written: str) -> list[Item]:
    """What a run that is a figure is; nothing for another."""
    match means:
        case Quantity():
            return _of_quantity(means, written)
        case Number():
            return [("value", written) if means.prefix else ("number", float(means.value))]
        case Size():
            return _of_size(means)
        case Ratio():
            return _of_ratio(means)
        case Factor():
            return [("number", float(means.by))]
        case Range():
            return _of_range(means, written)
        case SupplyRating():
            return [("value", written), *_of_supply(written)]
        case FuseRating() | Duty() | Protection():
            return [("value", written)]
        case _:
            return []


def _of_supply(written: str) -> list[Item]:
    """The kind of current where it is written in letters: a 9 V DC socket is a DC socket."""
    return [("current", one) for one in ("dc", "ac") if one in folded(written)]


def _of_size(means: Size) -> list[Item]:
    """Two sides; of three, as of a body, those of its face."""
    factor = 1.0 if means.unit is None else means.unit.factor * 1000
    first, second = (float(side) * factor for side in means.sides[:2])
    return [("size", (first, second, means.unit is not None or min(first, second) >= _LARGE))]


def _of_text(means: Meaning, written: str) -> list[Item]:
    """What a run that is no figure is: words, a designation, marks, names of positions."""
    if isinstance(means, Mark | Symbol):
        return [("mark", written)]
    if isinstance(means, Designation) and means.kind == "thread":
        return [("thread", _thread(means.text))]
    if isinstance(means, Positions):
        return [("positions", len(means.names))]
    of_piece = _of_model if isinstance(means, Designation) else _of_piece
    return [item for piece in pieces(written) for item in of_piece(piece)]


def _of_piece(piece: str) -> list[Item]:
    """A word, a number or a thread."""
    if is_number(piece):
        return [("number", float(piece))]
    if is_thread(piece):
        return [("thread", piece)]
    return _of_mixed(piece)


def _of_model(piece: str) -> list[Item]:
    """A piece of a part number, whose number may have a letter behind it: LED-5G."""
    if piece[-1:].isalpha() and is_number(piece[:-1]):
        return [("number", float(piece[:-1])), ("word", piece[-1])]
    return _of_piece(piece)


def _of_mixed(piece: str) -> list[Item]:
    """A word; DB25 and 5polig are a word and a number, C14 is one word."""
    letters, unit = piece.rstrip(digits), piece.lstrip(digits)
    if piece not in known_words() and letters != unit:
        if letters != piece and letters in known_words():
            return [("word", letters), ("number", float(piece[len(letters) :]))]
        if unit != piece and unit in known_words():
            return [("number", float(piece[: -len(unit)])), ("word", unit)]
    return [("word", piece)]


def _of_quantity(means: Quantity, written: str) -> list[Item]:
    if means.dimension == _LENGTH:
        return [("length", round(means.base * 1000, 4))]
    if means.unit.symbol == "r":
        return [("word", piece) for piece in pieces(written)]  # 2U: units of a rack, not revolutions
    if means.dimension == _CURRENT:
        return [("value", written), ("amps", float(means.base))]
    return [("value", written)]


def _of_ratio(means: Ratio) -> list[Item]:
    first, second = means.first, means.second
    if means.sign == "/" and first < second and second in _INCH_FRACTIONS:
        return [("inch", (int(first), int(second)))]
    return [("number", float(first)), ("number", float(second))]


def _of_range(means: Range, written: str) -> list[Item]:
    low, high = means.low, means.high
    if isinstance(low, Quantity) or isinstance(high, Quantity):
        return [("value", written)]
    return [("number", float(low.value)), ("to", None), ("number", float(high.value))]


def _thread(text: str) -> str:
    """A thread by its name and nominal size: m16 of 'M16 x 1.5', pg11 of 'Pg 11', 1-4-32 of '1/4-32 UNEF'.

    The series of an inch thread says nothing that its diameter and pitch do not; a pipe thread is called by it.
    """
    name = "".join(folded(text).split())
    if name[0].isalpha():
        letters = next((at for at, character in enumerate(name) if not character.isalpha()), len(name))
        number = letters
        while number < len(name) and (name[number].isdecimal() or name[number] in ".,/"):
            number += 1
        return name[:number].replace(",", ".").replace("/", "-")
    figures = name.rstrip(ascii_lowercase)
    pipe = "" if "-" in figures else name[len(figures) :]
    return f"{pipe}{figures}".replace("/", "-")


def _with_inches(found: list[Item]) -> list[Item]:
    """The same, with inch threads as such (1/4-40); other fractions are inches without a unit."""
    made: list[Item] = []
    rest = iter(range(len(found)))
    for at in rest:
        name, value = found[at]
        if name != "inch" or not isinstance(value, tuple):
            made.append(found[at])
            continue
        first, second = value
        if found[at + 1 : at + 2] == [("word", "din")] and first == 1 and second in _DIN:
            made.append(("size", (*_DIN[second], True)))
        elif [what for what, _ in found[at + 1 : at + 3]] == ["mark", "number"] and found[at + 1][1] == "-":
            made.append(("thread", f"{first}-{second}-{plain(found[at + 2][1])}"))
            next(rest), next(rest)
        else:
            made += [("inches", first * INCH / second), ("word", str(first)), ("word", str(second))]
    return made


def plain(number: object) -> str:
    """A number as it is written without needless digits."""
    return f"{number:g}" if isinstance(number, float | int | Decimal) else str(number)


def is_number(piece: str) -> bool:
    """Whether a piece is a number."""
    return piece.replace(".", "", 1).isdecimal()


def is_thread(word: str) -> bool:
    """Whether a piece is a thread by its name: m12, pg11."""
    return any(word.startswith(name) and is_number(word[len(name) :]) for name in ("m", "pg"))


def is_inch_thread(word: str) -> bool:
    """Whether a word is an inch thread as they are kept here: 1-4-32."""
    return "-" in word and all(piece.isdecimal() for piece in word.split("-"))
