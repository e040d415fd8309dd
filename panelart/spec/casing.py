"""Legends in capitals and small capitals: words take them, and nothing else does.

What a text means is asked of `panelart.texts`: units, quantities, ranges, ratings and designations stay as they are
written, in every language, and so does what the spec marks with `{keep ...}` or `{unit ...}`. What may be a unit or a
word (`MS`, `ma`, `M`) stays too, and is given back, so that the writer can be told once how to say which it is.

Capitals are those of the word's language (Unicode, SpecialCasing.txt; CLDR, el-Upper, from memory):

- In Turkish and Azerbaijani i keeps its dot, and the letter without a dot has none as a capital either.
- Greek capitals have no tonos; the dialytika stays, and is set where the tonos alone parted two vowels: ρολόι, ΡΟΛΟΪ.
  The word ή keeps its tonos. It is the letters that are Greek, whatever the language of the panel.
- Micro is no mu: µ and μ become the capital mu within a word of Greek letters only. A Greek letter that is a word by
  itself in a text of other letters is the symbol of a quantity (cos φ) and stays.
- ß becomes SS in every language; who wants ẞ writes it, and it stays.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.lettering.reading import read
from panelart.lettering.spans import Manner, Span
from panelart.texts.quantities import Number, Quantity
from panelart.texts.runs import LoneUnit, Run, Text, Unsure


class Kept(Struct, frozen=True):
    """Which characters no case changes, and the stretches that may be a unit or a word as far as the text tells."""

    stays: tuple[bool, ...]
    unsure: tuple[str, ...] = ()


def kept_as_written(text: str, marked: Sequence[bool], language: str = "", spans: Sequence[Span] = ()) -> Kept:
    """What capitals and small capitals leave as it is: what is marked, and all that is no word.

    Of `spans` those count that say of a stretch that it is a unit, a word or a power.
    """
    meant = read(text, spans, language)
    stays = list(marked)
    told = ((span.start, span.stop) for span in spans if span.manner is Manner.UNIT)
    for start, end in (*meant.kept(), *told):
        stays[start:end] = [True] * (end - start)
    unsure = (run for run in meant.unsure() if not all(marked[run.start : run.end]))
    return Kept(
        tuple(stays), tuple(dict.fromkeys(meant.written(run) for run in unsure if _differs(meant, run, language)))
    )


def _differs(text: Text, run: Run, language: str) -> bool:
    """Whether a unit it may be is printed otherwise than another, or than the word in capitals."""
    assert isinstance(run.means, Unsure)
    written = text.written(run)
    raised = "".join(capitals(written, (False,) * len(written), language))
    if isinstance(run.means.readings[0], Quantity):
        # 1 in, 3 g: a number that measures, or one that counts and a word.
        return written != raised and any(
            reading == Number(run.means.readings[0].value) for reading in run.means.readings
        )
    units = [reading.unit.symbol for reading in run.means.readings if isinstance(reading, LoneUnit)]
    printed = {symbol if symbol.casefold() == written.casefold() else written for symbol in units}
    if len(units) < len(run.means.readings):
        printed.add(raised)
    return bool(units) and len(printed) > 1


def capitals(text: str, stays: Sequence[bool], language: str = "") -> list[str]:
    """What each character becomes where it does not stay as it is; two letters for one at times, and none."""
    primary = language.lower().split("-")[0]
    found = [letter if stay else _capital(letter, primary) for letter, stay in zip(text, stays, strict=True)]
    alone = primary != "el" and sum(map(_is_greek, text)) == 1
    for start, end in _words(text) if any(map(_is_greek, text)) else ():
        for place, letter in enumerate(_greek_capitals(text[start:end], alone=alone), start):
            if letter is not None and not stays[place]:
                found[place] = letter
    return found


_DOTTED: Final = {"i": "İ", "ı": "I"}
_TURKIC: Final = frozenset(["tr", "az"])


def _capital(letter: str, language: str) -> str:
    if language in _TURKIC and letter in _DOTTED:
        return _DOTTED[letter]
    return letter if letter == _MICRO else letter.upper()


_MICRO: Final = "\u00b5"
_MU: Final = "\u03bc"
_ACUTE: Final = "\u0301"
_DIALYTIKA: Final = "\u0308"
_OR: Final = frozenset(["ή", "Ή"])


def _is_greek(letter: str) -> bool:
    return "\u0370" <= letter <= "\u03ff" or "\u1f00" <= letter <= "\u1fff"


def _words(text: str) -> Iterator[tuple[int, int]]:
    """Stretches of letters with the marks on them."""
    start = None
    for place, letter in enumerate((*text, " ")):
        within = letter.isalpha() or (start is not None and bool(unicodedata.combining(letter)))
        if within and start is None:
            start = place
        elif not within and start is not None:
            yield start, place
            start = None


def _greek_capitals(word: str, *, alone: bool) -> Iterator[str | None]:
    """What the letters of a word become, None for those that are not Greek; `alone` where no others are in the text."""
    letters = [letter for letter in word if letter.isalpha()]
    if len(letters) == 1 and (alone or letters[0] == _MU):
        yield from word
    elif unicodedata.normalize("NFC", word) in _OR:
        yield "Ή"
        yield from ("",) * (len(word) - 1)
    else:
        is_word = any(letter.islower() and _is_greek(letter) and letter != _MU for letter in letters)
        before = ""
        for letter in word:
            yield _greek_capital(letter, before, is_word=is_word)
            before = before + letter if unicodedata.combining(letter) else letter


def _greek_capital(letter: str, before: str, *, is_word: bool) -> str | None:
    """What a letter behind another becomes, None where it is not Greek; only in a word is there a mu."""
    if letter in (_MICRO, _MU):
        return "Μ" if is_word else letter
    if _is_greek(letter):
        return _bare(letter, parted=_is_parted(before))
    return "" if is_word and unicodedata.combining(letter) and letter != _DIALYTIKA else None


def _is_parted(before: str) -> bool:
    """Whether the letter before has a tonos and no dialytika, so that a vowel behind it is one by itself."""
    marks = unicodedata.normalize("NFD", before)
    return _ACUTE in marks and _DIALYTIKA not in marks


def _bare(letter: str, *, parted: bool) -> str:
    """The capital of a Greek letter, of its marks only the dialytika."""
    apart = unicodedata.normalize("NFD", letter.upper())
    capital = "".join(mark for mark in apart if mark == _DIALYTIKA or not unicodedata.combining(mark))
    if parted and letter in ("ι", "υ"):
        capital += _DIALYTIKA
    return unicodedata.normalize("NFC", capital)
