"""Values as they are typed: each parser takes the text after an option, and refuses what it cannot use."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Callable
from enum import StrEnum
from typing import TYPE_CHECKING, Final, TypeVar

from panelart.cli.usage import Refused, refuse
from panelart.diagnostics import nearest
from panelart.messages import cli_usage as said
from panelart.messages import diagnostics

if TYPE_CHECKING:
    from panelart.geometry import Box

MAX_BED: Final = 5000.0
"""The largest side of a bed, mm: what a PDF page can be."""

Word = TypeVar("Word", bound=StrEnum)


def one_of(words: type[Word]) -> Callable[[str], Word]:
    """A parser of one of a few words."""

    def parse(text: str) -> Word:
        try:
            return words(text)
        except ValueError:
            near = nearest(text, words)
            hint = said.accepted(names=list(words)) if near is None else diagnostics.did_you_mean(name=near)
            raise Refused(said.unknown_value(value=text), hint) from None

    return parse


def length(*, maximum: float, zero: bool = False) -> Callable[[str], float]:
    """A parser of a length in mm up to a maximum; whether it may be 0."""

    def parse(text: str) -> float:
        value = _number(text)
        if not (math.isfinite(value) and (value > 0.0 or (zero and value == 0.0)) and value <= maximum):
            hint = said.accepted_length_with_zero(maximum) if zero else said.accepted_length(maximum)
            raise Refused(said.not_a_length(value=str(text)), hint)
        return value

    return parse


def whole_number(*, minimum: int, maximum: int) -> Callable[[str], int]:
    """A parser of a whole number within bounds."""

    def parse(text: str) -> int:
        value = _number(text)
        if not (minimum <= value <= maximum and value == round(value)):
            hint = said.accepted_whole_number(minimum=minimum, maximum=maximum)
            raise Refused(said.not_a_whole_number(value=str(text)), hint)
        return round(value)

    return parse


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return math.nan


def day(text: str) -> str:
    """A date as YYYY-MM-DD, or nothing."""
    try:
        if not text or dt.date.fromisoformat(text).isoformat() == text:
            return text
    except ValueError:
        pass
    raise Refused(said.not_a_date(value=text), said.accepted_date())


def bed_size(text: str, option: str) -> Box:
    """`600x400` as a box from 0, 0. Raises Refused."""
    from panelart.geometry import Box

    match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[x×*]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*", text, re.IGNORECASE)
    width, height = (0.0, 0.0) if match is None else (float(side) for side in match.groups())
    if not (0.0 < width <= MAX_BED and 0.0 < height <= MAX_BED):
        refuse(option, said.not_a_bed(value=text), said.accepted_bed(maximum=MAX_BED))
    return Box(0.0, 0.0, width, height)
