"""What a shop's machine takes: from the shop file's words to the profile by which DXF files are written."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from panelart.diagnostics import did_you_mean
from panelart.messages import machines as said
from panelart.model.machine import (
    CUT_LAYERS,
    UNLAWFUL,
    Files,
    LayerLine,
    Lettered,
    LineType,
    Machine,
    Unit,
    Zero,
    cut_layer_of,
)
from panelart.source.problems import Problems
from panelart.source.schema import Value
from panelart.spec.language import printing as language

_ALWAYS: Final = ("outline", "cutouts")
"""Layers without which a file would cut nothing, or a panel without its openings."""

_OTHERS: Final = "*"


def machine(fields: language.Machine, shop: str, problems: Problems) -> Machine:
    """The profile of a machine. Slips are added to the problems."""
    layers: dict[str, LayerLine] = {}
    for name, own in fields.layers or ():
        if not _known(name.value):
            names = [layer.name for layer in CUT_LAYERS if layer.name != _OTHERS]
            problems.add(name.where, said.unknown_layer(name.value), did_you_mean(name.value, names, said.layers()))
            continue
        layers[name.value] = _line(name.value, own, problems)
    made = Machine(
        name=fields.name or shop,
        layers=layers,
        notes=bool(fields.notes),
        text=Lettered(fields.text),
        unit=Unit(fields.unit),
        zero=Zero(fields.origin),
        files=Files(fields.files),
    )
    _check_names(made, fields.layers or (), problems)
    return made


def _known(name: str) -> bool:
    return cut_layer_of(name).name != _OTHERS or name == _OTHERS


def _line(layer: str, own: Value[language.LayerOfMachine], problems: Problems) -> LayerLine:
    fields = own.value
    name = fields.name
    if name is not None and (UNLAWFUL.search(name) or not name.strip()):
        where = fields.where(language.LayerOfMachine.name)
        problems.add(where, said.layer_name_unlawful(name), said.layer_name_lawful())
        name = None
    if fields.write is False and layer in _ALWAYS:
        where = fields.where(language.LayerOfMachine.write)
        problems.add(where, said.outline_not_written(layer), said.remove_written())
    line = None if fields.line is None else LineType(fields.line)
    return LayerLine(name=name, colour=fields.colour, line=line, written=fields.write is not False)


def _check_names(
    made: Machine, written: Iterable[tuple[Value[str], Value[language.LayerOfMachine]]], problems: Problems
) -> None:
    """Layers that get one name must be alike in all else, since they are one layer in the file."""
    wheres = {name.value: name.where for name, _ in written}
    seen: dict[str, str] = {}
    for layer in [one.name for one in CUT_LAYERS if "*" not in one.name]:
        own = made.line_of(layer)
        first = seen.setdefault((own.name or layer).casefold(), layer)
        other = made.line_of(first)
        if (own.colour, own.line) != (other.colour, other.line):
            where = wheres.get(layer) or wheres[first]
            problems.add(where, said.layers_share_a_name(own.name or layer, first, layer), said.layers_apart())


def machine_text() -> list[str]:
    """The profile of a machine as it is where no shop says otherwise, as comments to be changed."""
    lines = ["# machine:", "#   layers:"]
    for layer in CUT_LAYERS:
        if layer.name != _OTHERS and not layer.name.startswith("engrave-"):
            name = f'"{layer.name}"' if "*" in layer.name else layer.name
            lines.append(f"#     {name}: {{colour: {layer.colour}, line: {layer.line.value}}}  # {layer.says}")
    return [*lines, "#   notes: false", "#   text: strokes", "#   unit: mm", "#   origin: panel", "#   files: one"]
