"""What each process is given beside the artwork: the drawings by the name of their file."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import field

from panelart.canonical import Struct
from panelart.drawing.representation import Drawing
from panelart.marking.burning import burn_plan
from panelart.marking.engraving import engraving_plan
from panelart.marking.separation import Separations
from panelart.model.printing import Filling
from panelart.press.engraving import burn_picture, burning, engraving
from panelart.press.overlay_sheet import overlay_cut, overlay_print
from panelart.press.positives import positives


class Outputs(Struct, frozen=True, kw_only=True):
    """Drawings of one process by file name without its ending: those to be printed, and those for a tool's path.

    `raster` is what a laser burns dot by dot, with its dots an inch.
    """

    prints: Mapping[str, Drawing] = field(default_factory=dict)
    paths: Mapping[str, Drawing] = field(default_factory=dict)
    raster: tuple[Drawing, float] | None = None


def outputs(plates: Separations) -> Outputs:
    """What the panel's process works from, beside the artwork."""
    layout = plates.layout
    marking = layout.panel.marking
    printing = marking.printing
    if marking.process.name == "screen-print":
        return Outputs(prints=positives(plates))
    if printing.overlay is not None:
        return Outputs(
            prints={"overlay": overlay_print(plates, printing.overlay)},
            paths={"overlay-cut": overlay_cut(layout, printing.overlay)},
        )
    if printing.engraving is not None:
        plan = engraving_plan(layout, printing.engraving)
        return Outputs(paths={"engraving": engraving(layout, plan, printing.engraving)})
    if printing.laser is not None:
        if printing.laser.filling is Filling.RASTER:
            return Outputs(raster=(burn_picture(plates), 25.4 / printing.laser.spacing))
        burn = burn_plan(layout, printing.laser)
        return Outputs(paths={"laser": burning(layout, burn, printing.laser)})
    return Outputs()
