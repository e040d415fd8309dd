"""`panelart list`: what is bought for a panel; and `check --list`: the panel held against a component list."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from panelart.cli.app import Spec, app

if TYPE_CHECKING:
    from panelart.model.panel import Panel


@app.command(name="list")
def list_(
    spec: Spec,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FILE", help="Write it: .csv or .xlsx, by the name's ending.")
    ] = None,
) -> None:
    """Print what is bought for a panel: parts, knobs, hardware, legend plates and the sheet, with quantities."""
    from panelart.pipeline import read
    from panelart.sheets.purchasing import bought, purchasing_csv, purchasing_xlsx
    from panelart.writers import write_all

    panel = read(spec)
    if out is None:
        for one in bought(panel):
            name = f"{one.part}: {one.title}" if one.part else one.title
            refs = f"  ({' '.join(one.refs)})" if one.refs else ""
            note = f"; {one.note}" if one.note else ""
            print(f"{one.quantity:>4}  {one.kind:<12}  {name}{refs}{note}")
        if panel.making.quantity > 1:
            print(f"for one panel; {panel.making.quantity} are made")
        return
    match out.suffix.lower():
        case ".csv":
            data = purchasing_csv(panel)
        case ".xlsx":
            data = purchasing_xlsx(panel)
        case _:
            raise typer.BadParameter(f"'{out.name}' does not end in .csv or .xlsx", param_hint="--out")
    write_all({out.name: data}, out.parent)
    print(out)


def hold_against(panel: Panel, parts: Path, side: str) -> bool:
    """Print how a panel differs from a list; whether it does."""
    from panelart.catalogue import names
    from panelart.cli.draft import read_bytes
    from panelart.lists.compare import differences
    from panelart.lists.matching import Matcher
    from panelart.lists.read import read_list

    built_in = frozenset(names())
    own = {part.component.name: part.component for part in panel.parts if part.component.name not in built_in}
    listed = read_list(read_bytes(parts), parts.as_posix(), Matcher(own))
    found = differences(panel, listed, side)
    for one in found:
        print(one)
    on = len(panel.parts)
    print(f"{parts.name}: {len(found)} differences" if found else f"{parts.name}: all {on} parts are as listed")
    return bool(found)
