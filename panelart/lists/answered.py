"""One answer as it was given, in whatever file, and what it decides."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean
from panelart.messages import component_lists_answers as said
from panelart.source.problems import Problems

OPEN: Final = "?"
NOT_ON_PANEL: Final = "none"
MEASURE: Final = "measure"
"""What an answer may say besides a part: not answered yet; no part of the panel; none of the catalogue, to be measured.
"""

_LONGEST: Final = 4
"""Figures of the longest number of a candidate."""


class Given(Struct, frozen=True, kw_only=True):
    """An answer to rows of these words and order numbers: a name, or a number among the candidates, and its place."""

    words: tuple[str, ...]
    numbers: tuple[str, ...]
    candidates: tuple[str, ...]
    answer: str
    where: Where


def decided(given: Given, names: Sequence[str], problems: Problems) -> str | None:
    """The name of the part that an answer says, ``NOT_ON_PANEL`` or ``MEASURE``; None for one that is open or wrong.

    The number after the last candidate is that of none of them, which is then measured.
    """
    part = given.answer.strip()
    if part in ("", OPEN):
        return None
    if part.isascii() and part.isdecimal() and part not in names:
        return _numbered(given, part, problems)
    if part not in (NOT_ON_PANEL, MEASURE) and part not in names:
        problems.add(given.where, said.unknown_part(part), did_you_mean(part, names, said.parts_or_none()))
        return None
    return part


def _numbered(given: Given, part: str, problems: Problems) -> str | None:
    """The candidate of a number."""
    choices = (*given.candidates, MEASURE)
    if len(part) > _LONGEST or not 1 <= int(part) <= len(choices):
        problems.add(given.where, said.unknown_number(part), said.numbers_accepted(len(choices)))
        return None
    return choices[int(part) - 1]
