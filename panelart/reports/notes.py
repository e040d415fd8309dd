"""Notes as one table: a row for each rule, with how many there are, of which parts, and what it is about."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from panelart.checks import Finding, Inspection
from panelart.messages import Message, Said
from panelart.messages import reports as said
from panelart.reports.layout import columns, folded

_INDENT: Final = "  "
_REFS: Final = 20
"""Columns for refs beside a sentence."""

_SENTENCE: Final = 40
"""Columns that a sentence needs; where there are fewer it is written below its row."""

_SHORTEST_REFS: Final = 8


def notes_table(inspection: Inspection, notes: Sequence[Finding], width: int) -> list[str]:
    """The table of some findings of an inspection, kept to a width, with a heading row."""
    groups: dict[str, list[Finding]] = {}
    for finding in notes:
        groups.setdefault(finding.rule, []).append(finding)
    left: list[tuple[Said, Said]] = [(said.rule_column(), said.count_column())]
    left += [(rule, str(len(group))) for rule, group in groups.items()]
    narrow = columns(left, right=frozenset({1}))
    taken = len(_INDENT) + max(map(len, narrow)) + 2
    beside = width - taken - _REFS - 2 >= _SENTENCE
    room = _REFS if beside else max(width - taken, _SHORTEST_REFS)
    refs = [str(said.refs_column()), *(_refs(group, room) for group in groups.values())]
    rows = columns([(front, back) for front, back in zip(narrow, refs, strict=True)])
    sentences: list[Said] = [_sentence(inspection, group) for group in groups.values()]
    if not beside:
        below = [folded(sentence, width, "    ", "    ") for sentence in sentences]
        return [f"{_INDENT}{rows[0]}", *_under(rows[1:], below)]
    column = max(map(len, rows)) + len(_INDENT) + 2
    heads = [f"{_INDENT}{row}".ljust(column) for row in rows]
    table = [f"{heads[0]}{said.note_column()}"]
    for head, sentence in zip(heads[1:], sentences, strict=True):
        table += folded(sentence, width, head, " " * column)
    return table


def _under(rows: Iterable[str], below: Iterable[list[str]]) -> Iterable[str]:
    for row, lines in zip(rows, below, strict=True):
        yield f"{_INDENT}{row}"
        yield from lines


def _sentence(inspection: Inspection, group: Sequence[Finding]) -> Said:
    """What one finding says; for several of a rule what the rule is about."""
    return group[0].says if len(group) == 1 else Message(inspection.rule(group[0]).about)


def _refs(group: Sequence[Finding], room: int) -> str:
    """As many refs as there is room for, and how many more."""
    refs = tuple(dict.fromkeys(ref for finding in group for ref in finding.refs))
    for count in range(len(refs), -1, -1):
        more = len(refs) - count
        named: tuple[Said, ...] = (*refs[:count], said.more_refs(more)) if more else refs[:count]
        text = ", ".join(map(str, named))
        if len(text) <= room or not count:
            return text
    return ""
