"""Values as they are typed: what stands for one in help, how its text is read, and what a shell may complete it with.

What cannot be used is refused as it is read.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar

from panelart.cli.usage import Refused, refuse
from panelart.messages import cli_usage as said

if TYPE_CHECKING:
    from panelart.geometry import Box

MAX_BED: Final = 5000.0
"""The largest side of a bed, mm: what a PDF page can be."""

Value = TypeVar("Value")
Word = TypeVar("Word", bound=StrEnum)

Names = Callable[[], Iterable[str]]


def _none() -> Iterable[str]:
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind(Generic[Value]):
    """A kind of value: its name in help, and how its text is read, which raises Refused.

    A shell completes it with `names`, or with files of the `suffixes` ("" for any) where there are some, or with
    folders.
    """

    metavar: str
    read: Callable[[str], Value]
    names: Names = _none
    suffixes: tuple[str, ...] = ()
    folders: bool = False


def text(metavar: str, names: Names = _none) -> Kind[str]:
    """Any text; `names` are those that may be meant."""
    return Kind(metavar=metavar, read=str, names=names)


def file(*suffixes: str, metavar: str = "FILE") -> Kind[Path]:
    """A file; a shell offers those with these endings, or all."""
    return Kind(metavar=metavar, read=_path, suffixes=suffixes or ("",))


def _path(text: str) -> Path:
    """A path that can be told and kept in files. Raises Refused for one whose bytes are not UTF-8."""
    if not text.isprintable() and any("\ud800" <= sign <= "\udfff" for sign in text):
        shown = text.encode("utf-8", "surrogateescape").decode("utf-8", "replace")
        raise Refused(said.path_not_utf_8(path=shown), said.rename_file())
    return Path(text)


FOLDER: Final = Kind(metavar="DIR", read=_path, folders=True)
"""A folder."""


def one_of(words: type[Word], metavar: str = "") -> Kind[Word]:
    """One of a few words; in help they stand for themselves."""

    def read(text: str) -> Word:
        from panelart.diagnostics import nearest
        from panelart.messages import diagnostics

        try:
            return words(text)
        except ValueError:
            near = nearest(text, words)
            hint = said.accepted(names=list(words)) if near is None else diagnostics.did_you_mean(name=near)
            raise Refused(said.unknown_value(value=text), hint) from None

    return Kind(metavar=metavar or "|".join(words), read=read, names=lambda: words)


def length(*, maximum: float, zero: bool = False) -> Kind[float]:
    """A length in mm up to a maximum; whether it may be 0."""

    def read(text: str) -> float:
        value = _number(text)
        # Not a number is neither above nor at 0.
        if not ((value > 0.0 or (zero and value == 0.0)) and value <= maximum):
            hint = said.accepted_length_with_zero(maximum) if zero else said.accepted_length(maximum)
            raise Refused(said.not_a_length(value=text), hint)
        return value

    return Kind(metavar="MM", read=read)


def whole_number(*, minimum: int, maximum: int, metavar: str = "N") -> Kind[int]:
    """A whole number within bounds."""

    def read(text: str) -> int:
        value = _number(text)
        if not (minimum <= value <= maximum and value == round(value)):
            hint = said.accepted_whole_number(minimum=minimum, maximum=maximum)
            raise Refused(said.not_a_whole_number(value=text), hint)
        return round(value)

    return Kind(metavar=metavar, read=read)


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return float("nan")


def _day(text: str) -> str:
    import datetime as dt

    try:
        if not text or dt.date.fromisoformat(text).isoformat() == text:
            return text
    except ValueError:
        pass
    raise Refused(said.not_a_date(value=text), said.accepted_date())


def _share(text: str) -> tuple[int, int]:
    number, mark, count = text.partition("/")
    if mark and number.isdecimal() and count.isdecimal() and 1 <= int(number) <= int(count):
        return int(number), int(count)
    raise Refused(said.not_a_share(value=text), said.accepted_share())


SHARE: Final = Kind(metavar="K/N", read=_share)
"""The K-th of N shares of a work, K from 1."""

DAY: Final = Kind(metavar="YYYY-MM-DD", read=_day)
"""A date as YYYY-MM-DD, or nothing."""


def bed_size(text: str, option: str) -> Box:
    """`600x400` as a box from 0, 0. Raises Refused."""
    from panelart.geometry import Box

    match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[x×*]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*", text, re.IGNORECASE)
    width, height = (0.0, 0.0) if match is None else (float(side) for side in match.groups())
    if not (0.0 < width <= MAX_BED and 0.0 < height <= MAX_BED):
        refuse(option, said.not_a_bed(value=text), said.accepted_bed(maximum=MAX_BED))
    return Box(0.0, 0.0, width, height)


def kind_for(type_: Any) -> Kind[Any] | None:
    """The kind that a type says by itself: one of the words of an enumeration; None for other types."""
    return one_of(type_) if isinstance(type_, type) and issubclass(type_, StrEnum) else None
