"""`panelart test-cut`: a file with every layer as a shop's machine takes it, to be loaded before the first panel."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeAlias

from panelart.cli.declaring import command, option
from panelart.cli.drawn import require_ending
from panelart.cli.options import Shop
from panelart.cli.values import file
from panelart.messages import cli_help_press as help_
from panelart.messages import machines as said

if TYPE_CHECKING:
    from collections.abc import Mapping

    from panelart.drawing.representation import Drawing
    from panelart.model.machine import Machine

DXF = (".dxf",)
OutDxf: TypeAlias = Annotated[Path, option("-o --out", help_.test_cut_out(), file(*DXF))]


@command(help_.test_cut_means())
def test_cut(
    out: OutDxf,
    shop: Shop = None,
) -> None:
    """Draw the test file of a shop's machine."""
    from panelart.model.machine import USUAL
    from panelart.press.cut_test import cut_test, figures
    from panelart.spec.shop import shop_of
    from panelart.writers import write_all

    require_ending(out, DXF)
    machine = USUAL if shop is None else shop_of(shop).machine
    made = _files(cut_test(machine), machine, out.stem)
    write_all(made, out.parent)
    for name in made:
        print(out.parent / name)
    print(said.test_zero(machine.unit.value, machine.zero.value))
    for figure in figures():
        print(figure.told(machine))


def _files(drawing: Drawing, machine: Machine, name: str) -> Mapping[str, bytes]:
    """The DXF files by name as `make` would write a panel's: one, or one for each layer."""
    from panelart.model.machine import Files
    from panelart.writers import dxf

    if machine.files is Files.ONE:
        return {f"{name}.dxf": dxf(drawing, machine)}
    return {
        f"{name}.{layer.name}.dxf": dxf(drawing.only(layer.name), machine)
        for layer in drawing.layers
        if machine.line_of(layer.name).written
    }
