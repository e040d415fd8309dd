"""What the pages of a PDF share: layers, plates, states, runs of colour, pictures, each written once.

Met while pages are painted and written at the end, so that pages can be written as they come: they name one dictionary
of resources, which a file may promise before it is known.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drawing.representation import Layer, Paint, Ramp, Raster, Step
from panelart.messages import writers as said
from panelart.writers.pdf_colours import Colours
from panelart.writers.pdf_objects import Entries, Name, ObjectFile, Ref, Value

_NO_PLATES: Final = ("All", "None")
"""Separations with a meaning of their own: on every plate, on no plate (ISO 32000-1, 8.6.6.4)."""

State = tuple[tuple[str, float], ...]
"""The entries of a graphics state: overprint as true or false, opacity 0 to 1."""


class Book(Struct, kw_only=True):
    """Each thing by its resource name: a letter for its kind, and the number of its first meeting.

    `plain` says whether anything was painted in device colours.
    """

    layers: dict[str, tuple[Step | None, bool]] = field(default_factory=dict)
    plates: dict[str, str] = field(default_factory=dict)
    states: dict[State, int] = field(default_factory=dict)
    ramps: dict[Ramp, int] = field(default_factory=dict)
    pictures: dict[Raster, int] = field(default_factory=dict)
    plain: bool = False

    def layer(self, layer: Layer) -> str:
        """The resource name of the layer's group.

        Raises ValueError when the layer had another step before, or was printed and is not.
        """
        step, printed = self.layers.setdefault(layer.name, (layer.step, layer.printed))
        if step is not layer.step:
            raise ValueError(f"layer {layer.name!r} stands for two processing steps: {step} and {layer.step}")
        if printed is not layer.printed:
            raise ValueError(f"layer {layer.name!r} is printed and is not")
        return f"L{list(self.layers).index(layer.name)}"

    def plate(self, paint: Paint) -> str:
        """The resource name of the paint's colour space. Raises ValueError for a second colour of one plate."""
        name, colour = paint.plate or "", paint.colour.lower()
        if not name or name in _NO_PLATES:
            raise ValueError(said.plate_name(name=name))
        if self.plates.setdefault(name, colour) != colour:
            raise ValueError(said.plate_with_two_colours(plate=name, one=self.plates[name], other=colour))
        return f"P{list(self.plates).index(name)}"

    def state(self, state: State) -> str:
        """The resource name of a graphics state."""
        return f"E{self.states.setdefault(state, len(self.states))}"

    def ramp(self, ramp: Ramp) -> str:
        """The resource name of a run of colour; its inks are plates."""
        for _, paint in ramp.stops:
            if paint.plate is not None:
                self.plate(paint)
        return f"S{self.ramps.setdefault(ramp, len(self.ramps))}"

    def picture(self, picture: Raster) -> str:
        """The resource name of a picture; the ink of one is a plate."""
        if picture.ink is not None and picture.ink.plate is not None:
            self.plate(picture.ink)
        return f"I{self.pictures.setdefault(picture, len(self.pictures))}"

    @property
    def alpha(self) -> bool:
        """Whether anything is painted that is not opaque."""
        return any(value < 1.0 for state in self.states for key, value in state if key in ("ca", "CA"))

    @property
    def met(self) -> tuple[object, ...]:
        """Everything that was met so far, in its order: what is painted next is named by it."""
        return (*self.layers.items(), *self.plates.items(), *self.states, *self.ramps, *self.pictures, self.plain)

    def copy(self) -> Book:
        """The same things, to which others can be added apart."""
        return replace(
            self,
            layers=dict(self.layers),
            plates=dict(self.plates),
            states=dict(self.states),
            ramps=dict(self.ramps),
            pictures=dict(self.pictures),
        )

    def put_groups(self, file: ObjectFile) -> list[Ref]:
        """The layers as optional content groups."""
        return [file.put(_group(layer, *what)) for layer, what in self.layers.items()]

    def shown_only(self, groups: list[Ref]) -> list[Ref]:
        """Of the groups of all layers those that are not printed."""
        return [group for group, (_, printed) in zip(groups, self.layers.values(), strict=True) if not printed]

    def put_resources(
        self, file: ObjectFile, ref: Ref, groups: list[Ref], more: Mapping[str, Entries], *, managed: bool = False
    ) -> None:
        """Write everything by the names that pages use; `more` are forms and fonts, by kind of resource and name.

        `managed` says that colours of the screen are sRGB by a profile.
        """
        colours = Colours.put(file, self.plates, managed=managed)
        pictures = _named("I", [colours.picture(file, picture) for picture in self.pictures])
        kinds: dict[str, Entries] = {
            "Properties": _named("L", groups),
            "ColorSpace": _named("P", list(colours.spaces.values())),
            "ExtGState": {f"E{number}": dict(state) for state, number in self.states.items()},
            "Shading": _named("S", [colours.shading(file, ramp) for ramp in self.ramps]),
            **more,
            "XObject": {**more.get("XObject", {}), **pictures},
        }
        file.put({kind: named for kind, named in kinds.items() if named}, ref)


def _named(letter: str, refs: list[Ref]) -> Entries:
    return {f"{letter}{index}": ref for index, ref in enumerate(refs)}


def _group(layer: str, step: Step | None, printed: bool) -> Entries:  # noqa: FBT001  # as the book keeps it
    group: dict[str, Value] = {"Type": Name("OCG"), "Name": layer}
    if step is not None:
        what, kind = step.value
        told: dict[str, Value] = {"GTS_ProcStepsGroup": Name(what)}
        if kind is not None:
            told["GTS_ProcStepsType"] = Name(kind)
        group["GTS_Metadata"] = told
    if not printed:
        group["Usage"] = {"Print": {"PrintState": Name("OFF")}, "View": {"ViewState": Name("ON")}}
    return group
