"""What each process is given beside the artwork: the drawings by the name of their file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import assert_never

from msgspec import field

from panelart.canonical import Struct
from panelart.drawing.representation import Drawing
from panelart.marking.burning import burn_plan
from panelart.marking.engraving import engraving_plan
from panelart.marking.separation import Separations
from panelart.model.layout import Layout
from panelart.model.printing import Engraving, Filling, Laser, Overlay
from panelart.press.engraving import burn_picture, burning, engraving
from panelart.press.overlay_sheet import overlay_cut, overlay_print
from panelart.press.positives import positives
from panelart.processes.process import BeamLines, CutterPaths, LabelFilm, Output, Positives, PrintFile


class Outputs(Struct, frozen=True, kw_only=True):
    """Drawings of one process by file name without its ending: those to be printed, and those for a tool's path.

    `raster` is what a laser burns dot by dot, with its dots an inch.
    """

    prints: Mapping[str, Drawing] = field(default_factory=dict)
    paths: Mapping[str, Drawing] = field(default_factory=dict)
    raster: tuple[Drawing, float] | None = None


def outputs(plates: Separations) -> Outputs:
    """What the panel's process works from, beside the artwork."""
    prints: dict[str, Drawing] = {}
    paths: dict[str, Drawing] = {}
    raster: tuple[Drawing, float] | None = None
    for output in plates.layout.panel.marking.process.outputs:
        made = _made(output, plates)
        prints |= made.prints
        paths |= made.paths
        raster = made.raster or raster
    return Outputs(prints=prints, paths=paths, raster=raster)


def _made(output: Output, plates: Separations) -> Outputs:
    """One kind of output; nothing where the panel has no settings for it."""
    printing = plates.layout.panel.marking.printing
    match output:
        case PrintFile():
            return Outputs()
        case Positives():
            return Outputs(prints=positives(plates, output))
        case CutterPaths():
            return Outputs() if printing.engraving is None else _cut(output, plates.layout, printing.engraving)
        case BeamLines():
            return Outputs() if printing.laser is None else _burnt(output, plates, printing.laser)
        case LabelFilm():
            return Outputs() if printing.overlay is None else _film(output, plates, printing.overlay)
        case other:
            assert_never(other)


def _cut(output: CutterPaths, layout: Layout, how: Engraving) -> Outputs:
    return Outputs(paths={output.file: engraving(layout, engraving_plan(layout, how), how)})


def _burnt(output: BeamLines, plates: Separations, how: Laser) -> Outputs:
    if how.filling is Filling.RASTER:
        return Outputs(raster=(burn_picture(plates), 25.4 / how.spacing))
    return Outputs(paths={output.file: burning(plates.layout, burn_plan(plates.layout, how), how)})


def _film(output: LabelFilm, plates: Separations, how: Overlay) -> Outputs:
    return Outputs(
        prints={output.file: overlay_print(plates, how)},
        paths={f"{output.file}-cut": overlay_cut(plates.layout, how)},
    )
