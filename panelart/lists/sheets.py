"""Sheets of one file joined to one list: front and rear, electrical and process."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from panelart.lists.account import Account
from panelart.lists.listed import ComponentList, Item
from panelart.lists.refs import continued


def joined(sheets: Sequence[ComponentList], names: Sequence[str]) -> ComponentList:
    """The sheet with most parts that have refs, and those that have others; `names` are those of all sheets."""
    best = max(sheets, key=lambda one: (_referenced(one), _taken(one), len(one.items), -sheets.index(one)))
    chosen = [one for one in sheets if one is best or _adds_to(best, one)]
    others = tuple(name for name in names if name not in {one.sheet for one in chosen})
    return replace(best if len(chosen) == 1 else _together(chosen), others=others)


def _referenced(listed: ComponentList) -> int:
    """How many parts of a sheet have refs of their own."""
    return sum(item.referenced for item in listed.items)


def _taken(listed: ComponentList) -> int:
    """How many parts of a sheet are known: what is asked about may be none."""
    return sum(item.component is not None for item in listed.items)


def _adds_to(best: ComponentList, other: ComponentList) -> bool:
    """Whether a sheet has parts with refs that the best one has not."""
    own = [item.ref for item in other.items if item.referenced]
    return bool(own) and {item.ref for item in best.items if item.referenced}.isdisjoint(own)


def _together(sheets: Sequence[ComponentList]) -> ComponentList:
    """Sheets as one list; rows are told by their sheet."""
    rows = [replace(row, sheet=one.sheet) for one in sheets for row in one.account.rows]
    remarks = [replace(remark, file=f"{remark.file}, {one.sheet}") for one in sheets for remark in one.remarks]
    return replace(sheets[0], items=tuple(_items(sheets)), remarks=tuple(remarks), account=Account(rows=tuple(rows)))


def _items(sheets: Sequence[ComponentList]) -> Iterator[Item]:
    """All items; a ref that was made up steps aside for those that stand there and for those made up before."""
    taken = {item.ref for one in sheets for item in one.items if item.referenced}
    for one in sheets:
        for item in one.items:
            again = not item.referenced and item.ref in taken
            ref = continued(item.ref, 2, taken)[-1] if again else item.ref
            taken.add(ref)
            yield replace(item, ref=ref, sheet=one.sheet)
