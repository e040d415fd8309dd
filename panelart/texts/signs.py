"""Better signs and spaces for what people type: a space in 10mA, a minus for a hyphen, a cross for an x.

A text is printed as it is written; this only says what could be written instead, and by which convention. Only numbers
and quantities are looked at: no words, names, models or codes. A text with a rating in it, as rating plates and fuse
holders have, is left as it is, since it copies what somebody has approved. What is offered means just what was written:
it is parsed again, and where its meaning is another it is not offered.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator
from enum import StrEnum
from typing import Final

from panelart.canonical import Struct
from panelart.texts.parse import parse
from panelart.texts.quantities import Alternatives, Factor, Number, Quantity, Range, Size
from panelart.texts.ratings import MINIATURE_CHARACTERISTICS, Duty, FuseRating, Nature, Protection, SupplyRating
from panelart.texts.runs import LoneUnit, Meaning, Run, Space, Text, Word
from panelart.texts.unit_reading import exact, loose
from panelart.texts.units import UNITS, Dimension
from panelart.texts.words import LABELS


class Convention(StrEnum):
    """What a change follows; sections of the sources are from memory."""

    SPACE = "space"
    """SI Brochure, 9th edition, 5.4.3, but not before the signs of plane angle; 5.4.7 for %."""

    MINUS = "minus"
    """The Unicode Standard, 6.2: U+2212 is the minus sign, U+002D may be a hyphen."""

    TIMES = "times"
    """SI Brochure, 9th edition, 5.4.6."""

    PLUS_MINUS = "plus-minus"
    """SI Brochure, 9th edition, 5.4.5."""

    DASH = "dash"
    """Common practice."""

    DIRECT_CURRENT = "direct-current"
    """IEC 60417-5031."""

    MICRO = "micro"
    """SI Brochure, 9th edition, table 7: µ, for which keyboards have u."""

    POWER = "power"
    """SI Brochure, 9th edition, 5.2: exponents are raised."""

    ONE_CODE = "one-code"
    """The Unicode Standard, 22.2: the Greek omega rather than the ohm sign; the micro sign, as keyboards have it."""


THIN: Final = "\u202f"
"""The narrow space that no line ends at."""

NO_BREAK: Final = "\u00a0"
MINUS: Final = "\u2212"
TIMES: Final = "×"
PLUS_MINUS: Final = "±"
DASH: Final = "–"
DIRECT: Final = "\u2393"

_BLANK: Final = f" {NO_BREAK}\u2009{THIN}"
_CROSSES: Final = "xX*"
_ONE_CODE: Final = {"\u2126": "\u03a9", "\u03bc": "\u00b5"}
_HALVES: Final = "½¼¾⅛⅜⅝⅞"
_ELECTRICAL: Final = frozenset(UNITS[symbol].dimension for symbol in ("V", "A", "W", "Hz"))

Edit = tuple[int, int, str, Convention]
"""From where to before where in a run, what stands there instead, why."""


class Change(Struct, frozen=True, kw_only=True):
    """A stretch of a text, `start` to before `end`, that may be better written."""

    start: int
    end: int
    written: str
    meant: str
    conventions: tuple[Convention, ...]


class Better(Struct, frozen=True, kw_only=True):
    """A text with better signs and spaces, and what was changed, in order."""

    text: str
    changes: tuple[Change, ...] = ()


def _every(_: str) -> bool:
    return True


def better(text: str, language: str = "", has: Callable[[str], bool] = _every) -> Better:
    """A text with better signs and spaces.

    `has` tells whether the font has a character: no other is offered, and in place of the thin space that it lacks the
    usual one, where none is written.
    """
    read = parse(text, language)
    if _rated(read):
        return Better(text=text)
    changes = tuple(_changes(read, language, has))
    pieces: list[str] = []
    at = 0
    for change in changes:
        pieces += [text[at : change.start], change.meant]
        at = change.end
    whole = "".join([*pieces, text[at:]])
    if _meaning(parse(whole, language)) != _meaning(read):
        return Better(text=text)
    return Better(text=whole, changes=changes)


def only_amounts(text: str, language: str = "") -> bool:
    """Whether a text has nothing but amounts, units and punctuation: no word that may be a name."""
    amounts = (Quantity, Range, Alternatives, Size, Factor, Number, LoneUnit, SupplyRating)
    return all(isinstance(means, amounts) for means in parse(text, language).meanings())


def _meaning(read: Text) -> list[Meaning]:
    return list(read.meanings())


# --- what is left as it is


def _rated(read: Text) -> bool:
    """Whether a text is a rating, or part of one: that of a fuse, of mains, a degree of protection, a duty.

    Several electrical values that are not of one dimension, as 24 V 2 A, are one too.
    """
    means = list(read.meanings())
    if any(isinstance(each, FuseRating | Protection | Duty) for each in means):
        return True
    if any(_is_fuse(one, other) for one, other in itertools.pairwise(means)):
        return True
    if any(isinstance(each, SupplyRating) and not _direct(each) for each in means):
        return True
    return len({found for each in means if (found := _electrical(each)) is not None}) > 1


def _is_fuse(first: Meaning, second: Meaning) -> bool:
    """Whether a letter and a current are a fuse whose current is none: F -1 A."""
    letter = isinstance(first, Word) and first.text in MINIATURE_CHARACTERISTICS
    return letter and isinstance(second, Quantity) and second.dimension == UNITS["A"].dimension


def _electrical(means: Meaning) -> Dimension | None:
    """The dimension of volts, amperes, watts or hertz; None for what is measured otherwise."""
    if isinstance(means, SupplyRating):
        return UNITS["V"].dimension
    if isinstance(means, Alternatives):
        means = means.values[0]
    if isinstance(means, Range):
        means = means.low
    return means.dimension if isinstance(means, Quantity) and means.dimension in _ELECTRICAL else None


def _direct(rating: SupplyRating) -> bool:
    """Whether it is a voltage of direct current and no more: 12 V =, beside a socket."""
    whole = SupplyRating(voltage=rating.voltage, nature=Nature.DC)
    return rating == whole


# --- one run


def _changes(read: Text, language: str, has: Callable[[str], bool]) -> Iterator[Change]:
    before = ""
    for run in read.runs:
        if isinstance(run.means, Space):
            continue
        written = read.written(run)
        edits = _offered(written, _edits(written, run, before), has)
        meant = _edited(written, edits)
        if meant != written and _meaning(parse(meant, language)) == _meaning(parse(written, language)):
            conventions = tuple(dict.fromkeys(edit[3] for edit in edits))
            yield Change(start=run.start, end=run.end, written=written, meant=meant, conventions=conventions)
        before = run.means.text.lower() if isinstance(run.means, Word) else ""


def _offered(written: str, edits: Iterable[Edit], has: Callable[[str], bool]) -> list[Edit]:
    """In order, those whose characters the font has."""
    spaced = (_spaced(edit, written, has) for edit in sorted(edits))
    return [edit for edit in spaced if edit is not None and all(has(character) for character in edit[2])]


def _spaced(edit: Edit, written: str, has: Callable[[str], bool]) -> Edit | None:
    """An edit with a space that the font has; a usual space that stands there already gives way to a thin one only."""
    start, end, new, why = edit
    if THIN not in new or has(THIN):
        return edit
    if start < end and not written[start:end].strip(_BLANK):
        return None
    return start, end, new.replace(THIN, NO_BREAK), why


def _edited(written: str, edits: list[Edit]) -> str:
    pieces: list[str] = []
    at = 0
    for start, end, new, _ in edits:
        pieces += [written[at:start], new]
        at = end
    return "".join([*pieces, written[at:]])


def _edits(written: str, run: Run, before: str) -> Iterator[Edit]:
    means = run.means
    if isinstance(means, Quantity | Range | Alternatives | Size | Factor | Number | SupplyRating):
        yield from _minus(written)
        yield from _plus_minus(written)
    if isinstance(means, Range) and _is_dashed(means, before):
        yield from _dash(written)
    if isinstance(means, Size | Factor) or (isinstance(means, Quantity) and means.count > 1):
        yield from _times(written)
    if isinstance(means, Quantity | Range | Alternatives | Size | SupplyRating):
        yield from _spaces(written)
    if isinstance(means, Quantity | Range | Alternatives | LoneUnit | SupplyRating):
        yield from _one_code(written)
        yield from _micro(written, counted=not isinstance(means, LoneUnit))
        yield from _powers(written)
    if isinstance(means, SupplyRating) and written.endswith("="):
        blank = written[-2] in _BLANK
        yield len(written) - 1, len(written), DIRECT if blank else f"{THIN}{DIRECT}", Convention.DIRECT_CURRENT


def _is_dashed(means: Range, before: str) -> bool:
    """Whether a dash may join the ends: none is negative, and bare numbers are counted by the word before (CH 1-4).

    Other bare numbers with a hyphen may be a model's: 74-138.
    """
    known = isinstance(means.low, Quantity) or before in LABELS
    return known and not means.symmetric and means.low.value >= 0 and means.high.value >= 0


def _figure(written: str, at: int) -> bool:
    """Whether a number begins here."""
    return written[at : at + 1].isdecimal() or (written[at : at + 1] == "." and written[at + 1 : at + 2].isdecimal())


def _minus(written: str) -> Iterator[Edit]:
    """A hyphen before a number, where no number or unit stands before it."""
    for at, sign in enumerate(written):
        before = written[at - 1 : at]
        alone = not before or (before in f"{_BLANK}.…–/,;:~÷≤≥<>≈(" and written[at - 2 : at] != "+/")
        if sign == "-" and alone and _figure(written, at + 1) and not _is_zero(written, at + 1):
            yield at, at + 1, MINUS, Convention.MINUS


def _is_zero(written: str, at: int) -> bool:
    """Whether a number that begins here is nought, which is no less with a sign before it."""
    end = at
    while written[end : end + 1].isdecimal() or (written[end : end + 1] in (".", ",") and _figure(written, end + 1)):
        end += 1
    return not any(figure in "123456789" for figure in written[at:end])


def _plus_minus(written: str) -> Iterator[Edit]:
    for sign in ("+/-", f"+/{MINUS}"):
        at = written.find(sign)
        if at >= 0:
            yield at, at + len(sign), PLUS_MINUS, Convention.PLUS_MINUS


def _dash(written: str) -> Iterator[Edit]:
    """The hyphen between two numbers of which none is negative."""
    for at, sign in enumerate(written):
        before, after = written[:at].rstrip(_BLANK), written[at + 1 :].lstrip(_BLANK)
        if sign == "-" and before and before[-1] not in "eE^/" and _figure(after, 0):
            yield at, at + 1, DASH, Convention.DASH


def _times(written: str) -> Iterator[Edit]:
    """A letter or an asterisk between numbers, or beside one."""
    for at, sign in enumerate(written):
        before, after = written[:at].rstrip(_BLANK), written[at + 1 :].lstrip(_BLANK)
        beside = _figure(after, 0) if after else True
        if sign in _CROSSES and beside and (not before or before[-1].isdecimal()):
            yield at, at + 1, TIMES, Convention.TIMES


def _spaces(written: str) -> Iterator[Edit]:
    """Between a number and its unit; not before the signs of angles, nor before the quotes of inches and feet."""
    for at in range(1, len(written)):
        if not (written[at - 1].isdecimal() or written[at - 1] in _HALVES):
            continue
        begins = at + (written[at] in _BLANK)
        if written[at] == THIN or begins >= len(written) or not _is_spaced(written, begins):
            continue
        found = exact(written, begins) or loose(written, begins, counted=True)
        if found is not None:
            yield at, begins, THIN, Convention.SPACE


def _is_spaced(written: str, at: int) -> bool:
    """Whether what may be a unit here is parted from its number by a space."""
    if written[at] in "°º˚":
        return written[at + 1 : at + 2].isalpha()
    return written[at].isalpha() or written[at] in "%‰℃℉√"


def _micro(written: str, *, counted: bool) -> Iterator[Edit]:
    """A u that stands for µ: behind a number, or before a capital; um and us alone may be words."""
    for at, sign in enumerate(written):
        before = written[:at].rstrip(_BLANK)
        begins = (before[-1:].isdecimal() or before[-1:] in tuple("./·")) if counted else at == 0
        if sign != "u" or not begins or not (counted or written[1:2].isupper()):
            continue
        found = exact(written, at)
        if found is not None and found[1].symbol.startswith("µ"):
            yield at, at + 1, "µ", Convention.MICRO


_RAISED: Final = {"2": "²", "3": "³"}


def _powers(written: str) -> Iterator[Edit]:
    """A figure behind m, or behind s below a stroke: mm2, m/s2, m^3."""
    for at, sign in enumerate(written):
        caret = written[at - 1 : at] == "^"
        begins = at - caret
        of = written[:begins].endswith("m") or written[:begins].endswith("/s")
        if sign in _RAISED and begins and of and not written[at + 1 : at + 2].isalnum():
            yield begins, at + 1, _RAISED[sign], Convention.POWER


def _one_code(written: str) -> Iterator[Edit]:
    for at, sign in enumerate(written):
        if sign in _ONE_CODE:
            yield at, at + 1, _ONE_CODE[sign], Convention.ONE_CODE
