"""Repeats written out: parts as the spec lists them go in, one draft for every single part comes out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from panelart.diagnostics import Where
from panelart.geometry import Vector
from panelart.source.problems import Problems
from panelart.source.schema import Fields, Value
from panelart.spec import language
from panelart.spec.templates import filled

MOST_PARTS: Final = 5000
"""The most parts on one panel, repeats written out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """One repeat that a draft stands in: which, which copy of it, and how far that copy is moved."""

    where: Where
    copy: int
    moved: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A part as written, with the numbers its braces stand for and the repeats it stands in, outermost first.

    `ref` is None when it could not be read.
    """

    fields: Fields
    ref: str | None
    numbers: Mapping[str, int]
    levels: tuple[Level, ...]

    @property
    def where(self) -> Where:
        """Where its ref stands, which is where messages about the part point."""
        return self.fields.where(language.REF)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drafts:
    """All drafts in the order written.

    `complete` is false when some part or its ref could not be read, so that a ref that is not among them may still
    be right.
    """

    drafts: tuple[Draft, ...]
    complete: bool


def unrolled(items: Iterable[Value[Fields]], problems: Problems) -> Drafts:
    """Write out the repeats of a part list, unless they make more than MOST_PARTS parts."""
    listed = [item.value for item in items]
    counts = [_count(item) for item in listed]
    if sum(counts) > MOST_PARTS:
        largest = listed[counts.index(max(counts))]
        where = largest.key_where(language.COPIES)
        problems.add(
            where,
            f"the parts list makes {sum(counts)} parts, of which {max(counts)} here",
            f"accepted: at most {MOST_PARTS} parts on a panel",
        )
        return Drafts(drafts=(), complete=False)
    drafts = tuple(draft for item in listed for draft in _drafts(item, {}, (), problems))
    complete = all(draft.ref is not None for draft in drafts) and all(map(_is_whole, listed))
    return Drafts(drafts=drafts, complete=complete)


def _is_repeat(fields: Fields) -> bool:
    return fields.record is language.REPEAT_RECORD


def _copies(fields: Fields) -> tuple[Fields, int, tuple[float, ...]] | None:
    """The repeat, its count and its step, when they could be read."""
    repeat = fields[language.COPIES]
    if repeat is None:
        return None
    count, step = repeat[language.COUNT], repeat[language.STEP]
    return None if count is None or step is None else (repeat, count, step)


def _inner(fields: Fields) -> list[Fields]:
    return [item.value for item in fields[language.REPEATED] or ()]


def _count(fields: Fields) -> int:
    if not _is_repeat(fields):
        return 1
    copies = _copies(fields)
    return 0 if copies is None else copies[1] * sum(_count(item) for item in _inner(fields))


def _is_whole(fields: Fields) -> bool:
    if not _is_repeat(fields):
        return True
    return _copies(fields) is not None and bool(_inner(fields)) and all(map(_is_whole, _inner(fields)))


def _drafts(
    fields: Fields, numbers: Mapping[str, int], levels: tuple[Level, ...], problems: Problems
) -> Iterator[Draft]:
    if not _is_repeat(fields):
        written = fields[language.REF]
        where = fields.where(language.REF)
        ref = None if written is None else filled(written, numbers, where, problems)
        yield Draft(fields=fields, ref=ref, numbers=numbers, levels=levels)
        return
    copies = _copies(fields)
    if copies is None or _count(fields) == 0:
        return
    repeat, count, (dx, dy) = copies
    name = repeat[language.AS] or "n"
    if name in numbers:
        problems.add(
            repeat.where(language.AS),
            f"a repeat inside another one has the name '{name}' too",
            f"give this one a name of its own, such as as: {'m' if name != 'm' else 'k'}",
        )
    first = repeat[language.START] or 0
    for copy in range(count):
        level = Level(where=fields.place, copy=copy, moved=Vector(copy * dx, copy * dy))
        inside = {**numbers, name: first + copy}
        for item in _inner(fields):
            yield from _drafts(item, inside, (*levels, level), problems)
