"""The order of letters where writing runs both ways: the Unicode bidirectional algorithm for one line.

Unicode Standard Annex #9 (revision 51), rules P2 to L2. Of the explicit formatting there are isolates that run from the
left (LRI ... PDI, rules X5a and X6a), given as stretches of the line: no unseen character is put into it, and what it
is printed from stays what was written. They neither nest nor overlap. Embeddings and overrides are left out: on a panel
the direction of a legend is said in its spec, not by unseen characters within the text. `has_controls` finds those.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from typing import Final, TypeAlias

_BRACKETS: Final = {"(": ")", "[": "]", "{": "}", "⟨": "⟩", "「": "」", "『": "』", "【": "】", "〈": "〉", "《": "》"}
"""The pairs of rule N0 that come up in legends (Bidi_Paired_Bracket has more)."""

_CONTROLS: Final = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})
_NEUTRAL: Final = frozenset({"B", "S", "WS", "ON"})

_FIRST_RIGHT_TO_LEFT: Final = "\u0590"
"""No character before the Hebrew block runs from right to left (UnicodeData.txt)."""

_ISOLATED: Final = "\N{OBJECT REPLACEMENT CHARACTER}"
"""What an isolate is to the text around it: a neutral sign, as LRI and PDI are after rule X5a."""

Stretches: TypeAlias = Sequence[tuple[int, int]]
"""Start to before end, in order, each at least one character long."""


def has_controls(text: str) -> bool:
    """Whether there are unseen characters in the text that steer its direction."""
    return any(unicodedata.bidirectional(letter) in _CONTROLS for letter in text)


def has_right_to_left(text: str) -> bool:
    """Whether any letter of the text runs from right to left."""
    return max(text, default="") >= _FIRST_RIGHT_TO_LEFT and any(
        unicodedata.bidirectional(letter) in ("R", "AL") for letter in text
    )


def runs_right_to_left(text: str, isolated: Stretches = ()) -> bool:
    """Whether the first letter with a direction of its own runs from right to left; isolates are skipped (P2, P3)."""
    for letter in _outside(text, isolated):
        kind = unicodedata.bidirectional(letter)
        if kind in ("L", "R", "AL"):
            return kind != "L"
    return False


def levels(line: str, *, right_to_left: bool, isolated: Stretches = ()) -> list[int]:
    """The embedding level of every character: odd ones run from right to left.

    `isolated` are stretches that run from the left whatever stands about them. Each is an isolating run sequence of its
    own (BD13), at the next even level; the rest of the line is another, in which each counts as one neutral sign.
    """
    base = int(right_to_left)
    found = _sequence_levels(_outside(line, isolated), base)
    for start, stop in isolated:
        found[start : start + 1] = _sequence_levels(line[start:stop], 2)
    _level_ends(line, found, base)
    return found


def edges(line: str, *, right_to_left: bool, isolated: Stretches) -> dict[int, int]:
    """The levels of the unseen characters at the ends of isolates, by the place of the character that follows."""
    if not isolated:
        return {}
    found = _sequence_levels(_outside(line, isolated), int(right_to_left))
    known: dict[int, int] = {}
    taken = 0
    for start, stop in isolated:
        known[start] = known[stop] = found[start - taken]
        taken += stop - start - 1
    return known


def _outside(line: str, isolated: Stretches) -> str:
    """The line with one sign for each isolate."""
    for start, stop in reversed(isolated):
        line = f"{line[:start]}{_ISOLATED}{line[stop:]}"
    return line


def _sequence_levels(text: str, level: int) -> list[int]:
    """The levels within one isolating run sequence, at whose ends the text runs as its level says (X10)."""
    kinds = [unicodedata.bidirectional(letter) or "L" for letter in text]
    kinds = ["ON" if kind in _CONTROLS or kind == "BN" else kind for kind in kinds]
    outer = "R" if level % 2 else "L"
    _resolve_weak(kinds, outer)
    _resolve_brackets(text, kinds, outer)
    _resolve_neutral(kinds, outer)
    if level % 2:  # I2
        return [level + (kind in ("L", "AN", "EN")) for kind in kinds]
    return [level + {"R": 1, "AN": 2, "EN": 2}.get(kind, 0) for kind in kinds]  # I1


def _resolve_weak(kinds: list[str], outer: str) -> None:
    """W1 to W7: marks, numbers and what stands between numbers."""
    _marks_follow(kinds, outer)
    _numbers_after_arabic(kinds, outer)
    kinds[:] = ["R" if kind == "AL" else kind for kind in kinds]  # W3
    _signs_between_numbers(kinds)
    _signs_beside_numbers(kinds)
    kinds[:] = ["ON" if kind in ("ES", "ET", "CS") else kind for kind in kinds]  # W6
    _numbers_after_latin(kinds, outer)


def _marks_follow(kinds: list[str], outer: str) -> None:
    """W1: a mark runs like the letter that bears it."""
    last = outer
    for index, kind in enumerate(kinds):
        kinds[index] = last if kind == "NSM" else kind
        last = kinds[index]


def _numbers_after_arabic(kinds: list[str], outer: str) -> None:
    """W2: numbers after Arabic letters are Arabic numbers."""
    strong = outer
    for index, kind in enumerate(kinds):
        if kind in ("L", "R", "AL"):
            strong = kind
        elif kind == "EN" and strong == "AL":
            kinds[index] = "AN"


def _signs_between_numbers(kinds: list[str]) -> None:
    """W4: a single sign or separator between two numbers of one kind belongs to them."""
    for index in range(1, len(kinds) - 1):
        before, after = kinds[index - 1], kinds[index + 1]
        if before == after and (
            (kinds[index] == "ES" and before == "EN") or (kinds[index] == "CS" and before in ("EN", "AN"))
        ):
            kinds[index] = before


def _signs_beside_numbers(kinds: list[str]) -> None:
    """W5: signs before or after a number, such as of currency or per cent, belong to it."""
    start = 0
    for kind, members in groupby(list(kinds)):
        stop = start + len(list(members))
        if kind == "ET" and "EN" in (kinds[start - 1] if start else "", kinds[stop] if stop < len(kinds) else ""):
            kinds[start:stop] = ["EN"] * (stop - start)
        start = stop


def _numbers_after_latin(kinds: list[str], outer: str) -> None:
    """W7: numbers after letters that run from the left run with them."""
    strong = outer
    for index, kind in enumerate(kinds):
        if kind in ("L", "R"):
            strong = kind
        elif kind == "EN" and strong == "L":
            kinds[index] = "L"


def _side(kind: str) -> str:
    return "R" if kind in ("EN", "AN") else kind


def _resolve_brackets(line: str, kinds: list[str], outer: str) -> None:
    """N0: a pair of brackets runs like what it holds."""
    for opening, closing in _pairs(line, kinds):
        inside = {_side(kind) for kind in kinds[opening + 1 : closing]} & {"L", "R"}
        if outer in inside:
            kinds[opening] = kinds[closing] = outer
        elif inside:
            before = next((_side(kind) for kind in reversed(kinds[:opening]) if _side(kind) in ("L", "R")), outer)
            kinds[opening] = kinds[closing] = before if before in inside else outer


def _pairs(line: str, kinds: Sequence[str]) -> list[tuple[int, int]]:
    waiting: list[tuple[str, int]] = []
    found: list[tuple[int, int]] = []
    for index, letter in enumerate(line):
        if kinds[index] != "ON":
            continue
        if letter in _BRACKETS:
            waiting.append((_BRACKETS[letter], index))
        for depth in range(len(waiting) - 1, -1, -1):
            if waiting[depth][0] == letter:
                found.append((waiting[depth][1], index))
                del waiting[depth:]
                break
    return sorted(found)


def _resolve_neutral(kinds: list[str], outer: str) -> None:
    """N1 and N2: what has no direction runs like its neighbours when they agree, else like the line."""
    start = 0
    for neutral, members in groupby(list(kinds), key=lambda kind: kind in _NEUTRAL):
        stop = start + len(list(members))
        if neutral:
            before = _side(kinds[start - 1]) if start else outer
            after = _side(kinds[stop]) if stop < len(kinds) else outer
            kinds[start:stop] = [before if before == after else outer] * (stop - start)
        start = stop


def _level_ends(line: str, found: list[int], base: int) -> None:
    """L1: white at the end of the line, and tabs with the white before them, run like the line."""
    trailing = True
    for index in range(len(line) - 1, -1, -1):
        kind = unicodedata.bidirectional(line[index])
        if kind in ("B", "S"):
            trailing = True
        elif kind not in ("WS", "BN"):
            trailing = False
        if trailing:
            found[index] = base


def order_of_runs(starts: Sequence[int], found: Sequence[int], at_edges: Mapping[int, int]) -> list[int]:
    """The order from left to right of the runs that start at these characters.

    The unseen edges of isolates part what would else be one run of its level; no run goes on across one. `found` are
    the levels of the characters.
    """
    entries: list[tuple[int, int | None]] = []
    for number, start in enumerate(starts):
        if start in at_edges:
            entries.append((at_edges[start], None))
        entries.append((found[start], number))
    ordered = (entries[place][1] for place in visual_order(level for level, _ in entries))
    return [number for number in ordered if number is not None]


def visual_order(run_levels: Iterable[int]) -> list[int]:
    """The order from left to right of runs that have these levels (rule L2)."""
    known = list(run_levels)
    order = list(range(len(known)))
    odd = [level for level in known if level % 2]
    if not odd:
        return order
    for level in range(max(known), min(odd) - 1, -1):
        start = 0
        while start < len(order):
            if known[order[start]] < level:
                start += 1
                continue
            stop = start
            while stop < len(order) and known[order[stop]] >= level:
                stop += 1
            order[start:stop] = reversed(order[start:stop])
            start = stop
    return order
