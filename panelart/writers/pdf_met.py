"""What the pages of a PDF share: layers, plates, runs of colour and pictures, in the order in which they were met."""

from __future__ import annotations

from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.drawing.representation import Layer, Paint, Ramp, Raster, Step
from panelart.messages import writers as said

_NO_PLATES: Final = ("All", "None")
"""Separations with a meaning of their own: on every plate, on no plate (ISO 32000-1, 8.6.6.4)."""


class Met(Struct, kw_only=True):
    """Each thing by its resource name: a letter for its kind, and the number of its first meeting."""

    layers: dict[str, Step | None] = field(default_factory=dict)
    plates: dict[str, str] = field(default_factory=dict)
    ramps: list[Ramp] = field(default_factory=list)
    pictures: list[Raster] = field(default_factory=list)

    def layer(self, layer: Layer) -> str:
        """The resource name of the layer's group. Raises ValueError when the layer had another step before."""
        step = self.layers.setdefault(layer.name, layer.step)
        if step is not layer.step:
            raise ValueError(f"layer {layer.name!r} stands for two processing steps: {step} and {layer.step}")
        return f"L{list(self.layers).index(layer.name)}"

    def plate(self, paint: Paint) -> str:
        """The resource name of the paint's colour space. Raises ValueError for a second colour of one plate."""
        name, colour = paint.plate or "", paint.colour.lower()
        if not name or name in _NO_PLATES:
            raise ValueError(said.plate_name(name=name))
        if self.plates.setdefault(name, colour) != colour:
            raise ValueError(said.plate_with_two_colours(plate=name, one=self.plates[name], other=colour))
        return f"P{list(self.plates).index(name)}"

    def ramp(self, ramp: Ramp) -> str:
        """The resource name of a run of colour; its inks are plates."""
        for _, paint in ramp.stops:
            if paint.plate is not None:
                self.plate(paint)
        if ramp not in self.ramps:
            self.ramps.append(ramp)
        return f"S{self.ramps.index(ramp)}"

    def picture(self, picture: Raster) -> str:
        """The resource name of a picture; the ink of one is a plate."""
        if picture.ink is not None and picture.ink.plate is not None:
            self.plate(picture.ink)
        if picture not in self.pictures:
            self.pictures.append(picture)
        return f"I{self.pictures.index(picture)}"
