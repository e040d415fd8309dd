"""Reference designators as lists write them: S1, J1-J4, 'S1,S3 S5'."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from panelart.messages import component_lists as said

MAX_REFS: Final = 500
"""The most refs of one line."""

_DASH: Final = re.compile(r"(?<=\d)\s*(?:[-–—]|\.{2,3}|\b(?:to|bis)\b)\s*(?=[A-Za-z_]*\d)")
_APART: Final = re.compile(r"(?:[\s,;&+/]|\band\b|\bund\b)+")
_RANGE: Final = re.compile(r"([A-Za-z_]+)(\d+)-([A-Za-z_]*)(\d+)")
_REF: Final = re.compile(r"[A-Za-z]{1,6}[_.-]?\d{1,4}[A-Za-z]?")
_SIGN: Final = re.compile(r"(?<![A-Za-z0-9])-(?=[A-Za-z]{1,6}\d)")
_NUMBERED: Final = re.compile(r"(.*?)(\d+)")


def expand(text: str) -> list[str]:
    """The refs that a cell names, in its order. Raises ValueError with what is wrong with it."""
    refs: list[str] = []
    for piece in filter(None, _APART.split(_DASH.sub("-", _unsigned(text)))):
        found = _RANGE.fullmatch(piece)
        if found is None:
            if any(map(str.isalnum, piece)):
                refs.append(piece)
            continue
        lead, first, again, last = found.groups()
        if again and again != lead:
            raise ValueError(said.range_of_two_letters(refs=piece, first=lead, last=again))
        low, high = int(first), int(last)
        if high < low:
            raise ValueError(said.range_backwards(refs=piece))
        if high - low >= MAX_REFS:
            raise ValueError(said.range_too_long(refs=piece, count=high - low + 1, maximum=MAX_REFS))
        width = len(first) if first.startswith("0") else 0
        refs += [f"{lead}{number:0{width}d}" for number in range(low, high + 1)]
    if len(refs) > MAX_REFS:
        raise ValueError(said.too_many_refs(count=len(refs), maximum=MAX_REFS))
    return refs


def _unsigned(text: str) -> str:
    """Refs without the sign of IEC 81346 before each: -S1, -P1...-P4."""
    bare = text.strip()
    return _SIGN.sub("", bare) if _SIGN.match(bare) else bare


def compact(refs: Sequence[str]) -> list[str]:
    """Refs as they are told: those of three or more numbers in a row as a range, J1-J4."""
    runs: list[list[str]] = []
    for ref in refs:
        if runs and _follows(runs[-1][-1], ref):
            runs[-1].append(ref)
        else:
            runs.append([ref])
    return [one for run in runs for one in ([f"{run[0]}-{run[-1]}"] if len(run) > 2 else run)]


def _follows(first: str, then: str) -> bool:
    """Whether a ref has the number after that of another."""
    one, two = _NUMBERED.fullmatch(first), _NUMBERED.fullmatch(then)
    return one is not None and two is not None and one[1] == two[1] and int(two[2]) == int(one[2]) + 1


def are_refs(text: str) -> bool:
    """Whether a cell holds nothing but refs: letters, a number and perhaps a letter behind it, one or several."""
    pieces = [piece for piece in _APART.split(_DASH.sub("-", _unsigned(text))) if piece]
    return bool(pieces) and all(_RANGE.fullmatch(piece) or _REF.fullmatch(piece) for piece in pieces)


def continued(ref: str, count: int, taken: set[str]) -> list[str]:
    """A ref and the next ones of its kind that are free: 'H' or 'H1' four times is H1 to H4."""
    found = _NUMBERED.fullmatch(ref)
    lead, number = (ref, 0) if found is None else (found[1], int(found[2]))
    refs = [] if found is None else [ref]
    while len(refs) < count:
        number += 1
        if f"{lead}{number}" not in taken:
            refs.append(f"{lead}{number}")
    return refs
