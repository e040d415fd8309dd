"""Which stretches of a text run from left to right even within text that runs from the right.

Quantities, ranges, ratings and designations are read as one in every script: `100 W` within Hebrew stands as it is
written. Left to the characters alone, UAX #9 puts the number and the unit in the order of the Hebrew words.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from typing import Final

from panelart.lettering.bidi import Stretches, has_right_to_left
from panelart.lettering.reading import read
from panelart.lettering.spans import Span

_OWN_DIRECTION: Final = ("R", "AL", "AN")
_ARABIC_FIGURES: Final = ("\u0660", "\u0669"), ("\u06f0", "\u06f9")
"""Figures of the scripts of Arabic; those of Persian and Urdu count as European ones in Unicode's table."""

_SENTENCE: Final = " \u00a0:.,;!?\u2026"
"""What ends a line or a sentence runs as the line does."""


def isolated_stretches(text: str, spans: Sequence[Span], language: str, *, right_to_left: bool | None) -> Stretches:
    """The stretches of a text of one or more lines that are set as isolates, none of them across a line end.

    `right_to_left` is the direction that was asked for, None where each line has its own. A line with no letter that
    runs from the right, in a text that was asked to, is one isolate up to the punctuation at its end where it holds any
    of them, so that words of Latin letters and their quantities keep together.
    """
    if not _needs_isolates(text, right_to_left=bool(right_to_left)):
        return ()
    found = read(text, spans, language).isolated()
    stretches: list[tuple[int, int]] = []
    start = 0
    for line in text.split("\n"):
        stop = start + len(line)
        here = [each for each in found if start <= each[0] and each[1] <= stop]
        if has_right_to_left(line):
            stretches += here
        elif here and right_to_left:
            stretches.append((start + len(line) - len(line.lstrip(_SENTENCE)), start + len(line.rstrip(_SENTENCE))))
        start = stop + 1
    return _from_left(text, _joined(stretches))


def _needs_isolates(text: str, *, right_to_left: bool) -> bool:
    """Whether there is a letter or figure that runs from the left, and a line that may run from the right."""
    return (right_to_left or has_right_to_left(text)) and any(
        unicodedata.bidirectional(letter) in ("L", "EN", "AN") for letter in text
    )


def _from_left(text: str, stretches: Sequence[tuple[int, int]]) -> Stretches:
    return [(start, stop) for start, stop in stretches if _runs_from_left(text[start:stop])]


def _joined(stretches: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Stretches that touch as one, so that they do not change places."""
    found: list[tuple[int, int]] = []
    for start, stop in stretches:
        touches = bool(found) and found[-1][1] == start
        found.append((found.pop()[0] if touches else start, stop))
    return found


def _runs_from_left(stretch: str) -> bool:
    """Whether a stretch is no part of the text from the right.

    A range in Arabic figures is read as its words are, and a unit of Latin letters behind Arabic-Indic ones stands on
    their left: so UAX #9 sets it by itself. Persian figures count as European ones there, and run with the unit.
    """
    kinds = {unicodedata.bidirectional(letter) for letter in stretch}
    if "L" in kinds:
        return "AN" not in kinds
    return kinds.isdisjoint(_OWN_DIRECTION) and not any(
        first <= letter <= last for first, last in _ARABIC_FIGURES for letter in stretch
    )
