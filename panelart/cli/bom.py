"""`panelart bom`: the bill of materials of a panel."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

from panelart.cli.declaring import command, option
from panelart.cli.drawn import require_ending
from panelart.cli.options import Spec
from panelart.cli.values import file
from panelart.messages import Said, cli_help, cli_usage
from panelart.messages import cli_help_panel as help_
from panelart.messages import cli_lists as said

_KINDS: Final = {
    "part": said.bom_part,
    "knob": said.bom_knob,
    "disc": said.bom_disc,
    "hardware": said.bom_hardware,
    "fastener": said.bom_fastener,
    "legend plate": said.bom_legend_plate,
    "consumable": said.bom_consumable,
    "sheet": said.bom_sheet,
}

if TYPE_CHECKING:
    from panelart.sheets.purchasing import Bought

ENDINGS = (".csv", ".xlsx")


@command(help_.bom_means(), extensions=True)
def bom(
    spec: Spec,
    out: Annotated[
        Path | None, option("-o --out", cli_help.output_file(cli_usage.either(ENDINGS)), file(*ENDINGS))
    ] = None,
) -> None:
    """Print or write the bill of materials."""
    from panelart.pipeline import read
    from panelart.sheets.purchasing import bought, mass_of, purchasing_csv, purchasing_xlsx
    from panelart.writers import write_all

    if out is not None:
        require_ending(out, ENDINGS)
    panel = read(spec)
    if out is None:
        for one in bought(panel):
            print(_row(one))
        mass = mass_of(panel)
        if mass is not None:
            print(mass)
        if panel.making.quantity > 1:
            print(said.bom_quantity(panel.making.quantity))
        return
    write_all({out.name: (purchasing_csv if out.suffix.lower() == ".csv" else purchasing_xlsx)(panel)}, out.parent)
    print(out)


def _row(one: Bought) -> str:
    item: Said = said.bom_item(one.part, one.title) if one.part else one.title
    refs = f"({' '.join(one.refs)})" if one.refs else ""
    cells = (f"{one.quantity:>4}", f"{_KINDS[one.kind]()!s:<12}", str(item), refs, *_how(one), str(one.note))
    return "  ".join(cell for cell in cells if cell)


def _how(one: Bought) -> tuple[str, ...]:
    """How a fastener is supplied and tightened."""
    fastener = one.fastener
    if fastener is None:
        return ()
    told = (
        fastener.supply,
        said.bom_spanner(fastener.across) if fastener.across else "",
        fastener.torque,
        fastener.side,
    )
    return (", ".join(str(each) for each in told if str(each)),)
