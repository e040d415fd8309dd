"""Readings of the kept lists held against the truth that the hand has set: taken, asked, lost, wrong, by row."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from panelart.canonical import Struct
from panelart.lists.account import Fate
from panelart.lists.listed import ComponentList, Item
from panelart.lists.questions import questions
from panelart.lists.read import read_list

KEPT = Path(__file__).parent / "kept"
LISTS = tuple(sorted(path for path in KEPT.iterdir() if path.suffix in {".csv", ".tsv", ".xlsx", ".xls", ".ods"}))


class Judged(Struct, frozen=True, kw_only=True):
    """One row: its list, number, what became of it, what was taken or told first, and its words.

    `end` is 'right', 'wrong', 'asked first' (the right candidate first), 'asked' (it is not first), 'absent' (asked
    about a part that the catalogue lacks), 'lost' for rows of parts; 'left' or 'useless' (asked about, or taken:
    'wrong') for the others.
    """

    file: str
    row: str
    end: str
    told: str
    words: str


@cache
def judged(path: Path) -> tuple[ComponentList, tuple[Judged, ...]]:
    """A list as read and every row of its truth, but for what is told once more."""
    truth = yaml.safe_load(path.with_name(f"{path.stem}.truth.yaml").read_text(encoding="utf-8"))["rows"]
    listed = read_list(path.read_bytes(), path.name)
    return listed, tuple(_rows(path.name, listed, truth))


def count_of_questions(listed: ComponentList) -> int:
    """How many questions a list leaves."""
    return len(questions(listed.items))


def _rows(file: str, listed: ComponentList, truth: dict[int | str, Any]) -> Iterator[Judged]:
    several = any(row.sheet for row in listed.account.rows)
    ends = {(row.sheet, row.row): row for row in listed.account.rows}
    items: dict[tuple[str, int], list[Item]] = {}
    for item in listed.items:
        items.setdefault((item.sheet, item.row), []).append(item)
    for key, told in truth.items():
        sheet, _, number = str(key).rpartition("!")
        if sheet in listed.others:
            continue
        at = (sheet if several else "", int(number))
        end = ends.get(at)
        repeated = isinstance(told, dict) and told.get("repeated")
        found = items.get(at, [])
        first = (found[0].component or next((one.name for one in found[0].candidates), "")) if found else ""
        verdict = (
            _of_part(told["panel"], found) if isinstance(told, dict) and "panel" in told and not repeated
            else _of_other(found, is_part=end is not None and end.fate in (Fate.TAKEN, Fate.ASKED))
        )  # fmt: skip
        yield Judged(file=file, row=str(key), end=verdict, told=first, words="" if end is None else end.words)


def _of_part(names: list[str], found: list[Item]) -> str:
    if not found:
        return "lost"
    if found[0].component is not None:
        return "right" if found[0].component in names else "wrong"
    if not names:
        return "absent"
    return "asked first" if found[0].candidates and found[0].candidates[0].name in names else "asked"


def _of_other(found: list[Item], *, is_part: bool) -> str:
    if not is_part:
        return "left"
    return "wrong" if found and found[0].component is not None else "useless"


def counted(rows: tuple[Judged, ...]) -> Counter[str]:
    """How many rows ended how."""
    return Counter(row.end for row in rows)
