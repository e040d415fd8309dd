"""Which stretches of a text run from left to right even within text that runs from the right.

Quantities, ranges, ratings and designations are read as one in every script: `100 W` within Hebrew stands as it is
written. Left to the characters alone, UAX #9 puts the number and the unit in the order of the Hebrew words.

An isolate never parts what UAX #9 alone keeps in order: from a letter that runs from the left on, all runs with it up
to the next letter from the right (rule W7 for figures). So a name and its number are one isolate: CH 1, USB 2.0.
Amounts that a stroke or a sign of reckoning joins are one too, 24 V / 2 A; a comma parts them, as it parts words.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from panelart.lettering.bidi import Stretches, has_right_to_left, runs_right_to_left
from panelart.lettering.reading import read
from panelart.lettering.spans import Span
from panelart.texts.arabic_figures import is_signed, read_from_left

if TYPE_CHECKING:
    from panelart.texts.runs import Text

_OWN_DIRECTION: Final = ("R", "AL", "AN")
_ARABIC_FIGURES: Final = ("\u0660", "\u0669"), ("\u06f0", "\u06f9")
"""Figures of the scripts of Arabic; those of Persian and Urdu count as European ones in Unicode's table."""

_SENTENCE: Final = " \u00a0:.,;!?\u2026"
"""What ends a line or a sentence runs as the line does."""

_JOINS: Final = frozenset("/+=×·*@→-–−")
"""Signs between two amounts that make one statement of them."""

_PAIRED: Final = {"(": ")", "[": "]"}


def isolated_stretches(text: str, spans: Sequence[Span], language: str, *, right_to_left: bool | None) -> Stretches:
    """The stretches of a text of one or more lines that are set as isolates, none of them across a line end.

    `right_to_left` is the direction that was asked for, None where each line has its own. A line with no letter that
    runs from the right, in a text that was asked to, is one isolate up to the punctuation at its end where it holds any
    of them, so that words of Latin letters and their quantities keep together.
    """
    if not _needs_isolates(text, right_to_left=bool(right_to_left)):
        return ()
    meant = read(text, spans, language)
    found = meant.isolated()
    stretches: list[tuple[int, int]] = []
    start = 0
    for line in text.split("\n"):
        stop = start + len(line)
        here = [each for each in found if start <= each[0] and each[1] <= stop]
        if has_right_to_left(line):
            alone = [(first - start, last - start) for first, last in here]
            leftward = runs_right_to_left(line, alone) if right_to_left is None else right_to_left
            stretches += _grown(meant, start, stop, frozenset(here)) if leftward else here
        elif here and right_to_left:
            stretches.append((start + len(line) - len(line.lstrip(_SENTENCE)), start + len(line.rstrip(_SENTENCE))))
        start = stop + 1
    return _from_left(text, _joined(stretches))


def _grown(meant: Text, start: int, stop: int, isolated: frozenset[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """The isolates of a line from the right, each with what keeps in order with it."""
    text = meant.text
    first, last, holds, named = start, start, False, False
    for span in _runs(meant, start, stop, isolated):
        is_one = span in isolated
        leftward = not _kinds(text, span).isdisjoint(_OWN_DIRECTION)
        goes_on = first < last and not leftward
        if goes_on and _keeps_order(text, first, last, span, named=named, counts=holds and is_one):
            last, holds, named = span[1], holds or is_one, not is_one
            continue
        if holds:
            yield first, _closed(text, first, last)
        first, last = (span[1], span[1]) if leftward and not is_one else span
        holds, named = is_one, not is_one
    if holds:
        yield first, _closed(text, first, last)


def _runs(meant: Text, start: int, stop: int, isolated: frozenset[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """The runs of a line that are isolates, or have a letter or figure."""
    for span in meant.statements():
        strong = span in isolated or not _kinds(meant.text, span).isdisjoint(("L", "EN", *_OWN_DIRECTION))
        if strong and start <= span[0] and span[1] <= stop:
            yield span


def _kinds(text: str, span: tuple[int, int]) -> set[str]:
    return {unicodedata.bidirectional(letter) for letter in text[span[0] : span[1]]}


def _keeps_order(text: str, first: int, last: int, span: tuple[int, int], *, named: bool, counts: bool) -> bool:
    """Whether a run goes on with the stretch before it: behind a letter that begins or ends it, or joined by a sign.

    `named` says that it ends with a word. `counts` says that both are isolates; one of them has a letter at least,
    since 1 / 2 may be two channels.
    """
    if _begins_from_left(text[first:last]):
        return True
    between = text[last : span[0]]
    goes_on = named or _begins_from_left(text[slice(*span)])
    if goes_on and unicodedata.bidirectional(text[last - 1]) == "L" and not between.strip():
        return True
    measured = any(unicodedata.bidirectional(letter) == "L" for letter in text[first:last] + text[slice(*span)])
    return counts and measured and between.strip() in _JOINS


def _begins_from_left(stretch: str) -> bool:
    """Whether the first letter or figure of a stretch is a letter that runs from the left."""
    kinds = (unicodedata.bidirectional(letter) for letter in stretch)
    return next((kind for kind in kinds if kind in ("L", "EN", *_OWN_DIRECTION)), "") == "L"


def _closed(text: str, first: int, last: int) -> int:
    """The end of a stretch, behind the bracket that closes one within it."""
    opened = [letter for letter in text[first:last] if letter in _PAIRED]
    closed = sum(letter in _PAIRED.values() for letter in text[first:last])
    within = len(opened) > closed and text[last : last + 1] == _PAIRED[opened[-1]]
    return last + 1 if within else last


def _needs_isolates(text: str, *, right_to_left: bool) -> bool:
    """Whether there is a letter or figure that runs from the left, and a line that may run from the right."""
    return (right_to_left or has_right_to_left(text)) and any(
        unicodedata.bidirectional(letter) in ("L", "EN", "AN") for letter in text
    )


_SEPARATORS: Final = "\u066b\u066c"
"""Decimal and thousands signs of Arabic, which Persian has among its own figures."""


def _kinds_but_signs(stretch: str) -> set[str]:
    return {unicodedata.bidirectional(letter) for letter in stretch if letter not in _SEPARATORS}


def _from_left(text: str, stretches: Sequence[tuple[int, int]]) -> Stretches:
    found: list[tuple[int, int]] = []
    for start, stop in stretches:
        kinds = _kinds_but_signs(text[start:stop])
        if "AN" in kinds and kinds.isdisjoint(("R", "AL")):
            found += read_from_left(text, start, stop)
        elif _runs_from_left(text[start:stop]):
            found.append((start, stop))
    return found


def _joined(stretches: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Stretches that touch as one, so that they do not change places."""
    found: list[tuple[int, int]] = []
    for start, stop in stretches:
        touches = bool(found) and found[-1][1] == start
        found.append((found.pop()[0] if touches else start, stop))
    return found


def _runs_from_left(stretch: str) -> bool:
    """Whether a stretch without Arabic-Indic figures is no part of the text from the right.

    Persian figures count as European ones and run with a unit of Latin letters. Without one they are read as the words
    are, 5 to 10, but with the signs that they have on their left (CLDR, fa; from memory).
    """
    kinds = _kinds_but_signs(stretch)
    if "L" in kinds:
        return True
    persian = any(first <= letter <= last for first, last in _ARABIC_FIGURES for letter in stretch)
    return kinds.isdisjoint(_OWN_DIRECTION) and (not persian or is_signed(stretch))
