"""What documents are made from: what is given of a panel or a set, and the results that several of them share."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from panelart import __version__
from panelart.documents.results import Need, need
from panelart.model.layout import FACE, Blank, Layout
from panelart.model.machine import Files
from panelart.model.panel import Panel, Side

if TYPE_CHECKING:
    from panelart.checks import Inspection
    from panelart.drawing.representation import Drawing
    from panelart.marking.separation import Separations
    from panelart.press.outputs import Outputs

MADE_BY: Final = f"panelart {__version__}"

# --- given

LAYOUT: Final[Need[Layout]] = Need(name="layout")
INSPECTION: Final[Need[Inspection]] = Need(name="inspection")
DATE: Final[Need[str]] = Need(name="date")
"""The date (YYYY-MM-DD) to be printed and kept in the files, '' for none."""
PANELS: Final[Need[Mapping[str, Panel]]] = Need(name="panels")
"""Given of a set instead of a layout: its panels by name."""

# --- shared


@need(LAYOUT)
def panel(layout: Layout) -> Panel:
    """The panel as it was read."""
    return layout.panel


@need(LAYOUT)
def plates(layout: Layout) -> Separations:
    """The artwork taken apart into plates."""
    from panelart.marking.separation import separations

    return separations(layout)


@need(LAYOUT, plates)
def artwork(layout: Layout, plates: Separations) -> Drawing:
    """What is printed, at 1:1, with the slug."""
    from panelart.drawing.artwork import artwork_sheet

    return artwork_sheet(layout, plates)


@need(plates)
def outputs(plates: Separations) -> Outputs:
    """What the marking process works from beside the artwork."""
    from panelart.press.outputs import outputs

    return outputs(plates)


@need(outputs)
def prints(outputs: Outputs) -> Mapping[str, Drawing]:
    """Drawings of the process that are printed, by file name."""
    return outputs.prints


@need(outputs)
def paths(outputs: Outputs) -> Mapping[str, Drawing]:
    """Drawings of the process that a tool or beam follows, by file name."""
    return outputs.paths


@need(outputs)
def dots(outputs: Outputs) -> Mapping[str, tuple[Drawing, float]]:
    """What a laser burns dot by dot, with its dots an inch."""
    return {} if outputs.raster is None else {"laser": outputs.raster}


@need(LAYOUT)
def cut_layer(layout: Layout) -> Drawing:
    """The openings and the outline at cut size, seen from the front."""
    from panelart.drawing.cutlayer import cut_layer

    return cut_layer(layout, Side.FRONT)


@need(LAYOUT)
def cut_layer_from_rear(layout: Layout) -> Drawing:
    """The same, seen from the rear."""
    from panelart.drawing.cutlayer import cut_layer

    return cut_layer(layout, Side.REAR)


@need(LAYOUT, cut_layer)
def cut_files(layout: Layout, cut_layer: Drawing) -> Mapping[str, Drawing]:
    """The cut layer layer by layer, by file name, where the shop's machine takes it so and the panel is flat."""
    return _by_layer("cutouts", layout, cut_layer) if layout.blank is None else {}


def _by_layer(name: str, layout: Layout, drawing: Drawing) -> Mapping[str, Drawing]:
    """A drawing for each layer that the machine takes and that has something on it: `cutouts.outline`."""
    machine = layout.panel.marking.printing.machine
    if machine.files is Files.ONE:
        return {}
    return {
        f"{name}.{layer.name}": drawing.only(layer.name)
        for layer in drawing.layers
        if layer.items and machine.line_of(layer.name).written
    }


@need(LAYOUT)
def blank(layout: Layout) -> Drawing:
    """The flat blank of a bent panel. Raises LookupError for a panel without one."""
    from panelart.drawing.blanklayer import blank_layer

    return blank_layer(layout, _unfolded(layout))


def _unfolded(layout: Layout) -> Blank:
    if layout.blank is None:
        raise LookupError("a panel without flanges has no blank")
    return layout.blank


@need(LAYOUT)
def blank_files(layout: Layout) -> Mapping[str, Drawing]:
    """The blank layer by layer, by file name, where the shop's machine takes it so."""
    from panelart.drawing.blanklayer import blank_layer

    return {} if layout.blank is None else _by_layer("blank", layout, blank_layer(layout, layout.blank))


@need(LAYOUT)
def masks(layout: Layout) -> Mapping[str, Drawing]:
    """The areas of each side of the face that stay bare, by file name."""
    from panelart.drawing.cutlayer import mask_layer

    bare = {mask.side for mask in layout.masks if mask.on == FACE}
    return {f"mask-{side.value}": mask_layer(layout, side) for side in (Side.FRONT, Side.REAR) if side in bare}


@need(LAYOUT)
def dials(layout: Layout) -> Mapping[str, Drawing]:
    """The scales that turn with their knob, by file name."""
    from panelart.press.dials import dial_artwork

    return dial_artwork(layout)


@need(LAYOUT)
def dial_paths(layout: Layout) -> Mapping[str, Drawing]:
    """The same as lines that a tool follows."""
    from panelart.press.dials import dial_paths

    return dial_paths(layout)


@need(LAYOUT, plates)
def look(layout: Layout, plates: Separations) -> Drawing:
    """The finished panel as it will look."""
    from panelart.sheets.picture import panel_picture

    return panel_picture(layout, plates)


@need(LAYOUT, INSPECTION, DATE, plates)
def proof(layout: Layout, inspection: Inspection, date: str, plates: Separations) -> tuple[Drawing, ...]:
    """The pages of the proof."""
    from panelart.sheets.proof import Proof, proof

    return proof(Proof(layout=layout, inspection=inspection, date=date, made_by=MADE_BY, plates=plates))


@need(LAYOUT, DATE, plates)
def build_sheet(layout: Layout, date: str, plates: Separations) -> tuple[Drawing, ...]:
    """The pages of the build sheet."""
    from panelart.sheets.build import BuildSheet, build_sheet

    return build_sheet(BuildSheet(layout=layout, date=date, made_by=MADE_BY, plates=plates))
