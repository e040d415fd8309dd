"""Where a line of a text may end: at its spaces and the points marked for it, and never within what is read as one.

A quantity, a range, a rating and a designation stay on one line, and a unit with the word before it. A no-break space
keeps any two words together. A hyphenation point is a place in a word that the spec marks with a soft hyphen (U+00AD);
a hyphen is printed only where a line ends there. At a zero-width space (U+200B) a line may end without one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.lettering.reading import is_told, read
from panelart.lettering.spans import Manner, Span
from panelart.texts.glance import words_only

JOINERS: Final = "/&+-\N{EN DASH}\N{MIDDLE DOT},;:)\N{PER MILLE SIGN}%"
"""Signs that no line begins with."""

_SIGNS: Final = "+-"
"""Those of them that may be the sign of a number."""

HYPHEN: Final = "-"
"""What is printed where a word is broken; U+2010 is in few fonts."""


class Break(Struct, frozen=True):
    """A place where a line may end: the space at `at`, or the point before that character.

    `hyphen` says that a hyphen is printed there, `space` that a space is, which goes.
    """

    at: int
    hyphen: bool
    space: bool = True


def breaks(text: str, spans: Sequence[Span], language: str) -> tuple[Break, ...]:
    """Where the lines of a text without line ends may end, in order; `language` is that of its lettering."""
    found = [*(Break(at, False) for at in _spaces(text)), *_points(text, spans)]
    whole = _unbroken(text, spans, language) if found else ()
    return tuple(sorted((each for each in found if not _within(each, whole)), key=lambda each: each.at))


def point_at(span: Span) -> Break:
    """The place that a span of no characters marks: a hyphen is printed at all but openings."""
    hyphen = span.manner is not Manner.OPENING
    return Break(span.start, hyphen, space=hyphen)


def _points(text: str, spans: Sequence[Span]) -> Iterator[Break]:
    """The points that the spec marks within a text; where a line may end with a hyphen and without, it has one."""
    marked = [span for span in spans if 0 < span.start < len(text)]
    hyphens = {span.start for span in marked if span.manner is Manner.HYPHENATION}
    yield from (Break(at, True) for at in hyphens)
    openings = {span.start for span in marked if span.manner is Manner.OPENING} - hyphens
    yield from (Break(at, False, space=False) for at in openings if " " not in text[at - 1 : at + 1])


def _spaces(text: str) -> list[int]:
    """The spaces that a line may end at by the sign that follows."""
    return [at for at, letter in enumerate(text) if letter == " " and at and not _joins(text, at + 1)]


def _joins(text: str, at: int) -> bool:
    """Whether no line begins here: with a sign that joins, but for that of a number, -20 dB."""
    behind = text[at + 1 : at + 2]
    if text[at : at + 1] in tuple(_SIGNS) and (behind.isdecimal() or behind == "∞"):
        return False
    return text[at : at + 1] in JOINERS


def _within(one: Break, whole: Iterable[tuple[int, int]]) -> bool:
    point = one.hyphen or not one.space
    return any(start + point <= one.at < stop for start, stop in whole)


def _unbroken(text: str, spans: Sequence[Span], language: str) -> tuple[tuple[int, int], ...]:
    if words_only(text) and not is_told(spans):
        return ()
    return read(text, spans, language).unbroken()


def broken(text: str, spans: Sequence[Span], at: Sequence[Break]) -> tuple[str, tuple[Span, ...]]:
    """The text with lines that end at these places, and its spans where they are then."""
    for each in reversed(at):
        if each.hyphen:
            text = f"{text[: each.at]}{HYPHEN}\n{text[each.at :]}"
            spans = [_moved(span, each.at, len(HYPHEN) + 1) for span in spans]
        elif not each.space:
            text = f"{text[: each.at]}\n{text[each.at :]}"
            spans = [_moved(span, each.at, 1) for span in spans]
        else:
            text = f"{text[: each.at]}\n{text[each.at + 1 :]}"
    return text, tuple(spans)


def breaks_of(lines: str, text: str) -> tuple[Break, ...]:
    """Where a text without line ends was broken into these lines."""
    found: list[Break] = []
    at = 0
    for line in lines.split("\n")[:-1]:
        at += len(line)
        if text[at : at + 1] == " ":
            found.append(Break(at, False))
            at += 1
        elif text[:at].endswith(line):
            found.append(Break(at, False, space=False))
        else:
            at -= len(HYPHEN)
            found.append(Break(at, True))
    return tuple(found)


def letters_of(text: str) -> str:
    """The letters and signs of a text, the same however its lines were broken."""
    return "".join(text.split()).replace(HYPHEN, "")


def _moved(span: Span, at: int, by: int) -> Span:
    """A span when so many characters were put in; a hyphen behind it is no part of it."""
    start = span.start + by if span.start >= at else span.start
    return Span(start, max(start, span.stop + by if span.stop > at else span.stop), span.manner)
