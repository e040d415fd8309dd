"""A shop's own figures: a file that goes before common practice in every panel that names it.

panelart-shop: 1
shop: Haldon Marking, bed 2
limits:
  digital-print:
    line_minimum: {value: 0.18, why: test strip of 12 March on powder}
plates: {base: White 1, varnish: Gloss}
emulsion: down
output: {profile: bed-2.icc, condition: bed 2 on white base}
machine: {layers: {outline: {name: CONTOUR, colour: 5}}, unit: mm, origin: corner}
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, Final

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean
from panelart.figure import Figure, Known
from panelart.messages import Message, source
from panelart.messages import spec as spec_said
from panelart.messages import spec_marking as said
from panelart.model.machine import USUAL, Machine
from panelart.model.printing import Output, Pins, Plates
from panelart.model.process_colours import PROCESS_PLATES
from panelart.processes.process import LIMITS, Process
from panelart.processes.registry import processes
from panelart.source import yaml
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nouns import NounOf
from panelart.source.problems import Problems
from panelart.spec import language
from panelart.spec.files import why_unreadable
from panelart.spec.machines import machine, machine_text

MAX_PROFILE: Final = 8_000_000
"""Bytes of a profile; those of presses have 0.5 to 3 million."""


class Own(Struct, frozen=True, kw_only=True):
    """One figure of a shop with its reason and its place."""

    value: float
    why: str
    where: Where


class Shop(Struct, frozen=True, kw_only=True):
    """What a shop file says; `limits` by process and name, `emulsion` '' where it says nothing."""

    name: str = ""
    limits: Mapping[str, Mapping[str, Own]] = field(default_factory=dict)
    plates: Plates = field(default_factory=Plates)
    emulsion: str = ""
    pins: Pins | None = None
    head_clearance: float | None = None
    output: Output | None = None
    machine: Machine = USUAL

    def process(self, common: Process) -> Process:
        """A process with the shop's figures in the place of the common ones."""
        own = self.limits.get(common.name, {})
        standard: dict[str, Any] = {name: _given(getattr(common, name), own[name]) for name in LIMITS if name in own}
        special = {name: _given(figure, own[name]) for name, figure in common.own.items() if name in own}
        return replace(common, **standard, own={**common.own, **special}) if own else common


def _given(common: Figure, own: Own) -> Figure:
    told = said.figure_of_shop(own.why, own.where.short, common.value, common.source)
    return replace(common, value=own.value, sources=(str(told),), known=Known.GIVEN)


def read_shop(data: bytes | str, path: Path, read_file: Callable[[Path], bytes], problems: Problems) -> Shop:
    """What a shop file says; `read_file` reads the profile that it names.

    Raises SpecError when it is no YAML mapping; every other error is added to the problems.
    """
    fields = NounOf(language.ShopFile).parse(yaml.read(data, path.as_posix()), problems)
    if fields is None:
        return Shop()
    plates = fields.plates
    return Shop(
        name=fields.shop or "",
        limits=_limits(fields, problems),
        plates=Plates() if plates is None else _plates(plates, problems),
        emulsion=fields.emulsion or "",
        pins=_pins(fields.pins),
        head_clearance=fields.head_clearance,
        output=output(fields.output, path.parent, read_file, problems),
        machine=USUAL if fields.machine is None else machine(fields.machine, fields.shop or "", problems),
    )


def _pins(fields: language.Pins | None) -> Pins | None:
    if fields is None or fields.diameter is None or fields.apart is None:
        return None
    return Pins(diameter=fields.diameter, apart=fields.apart)


def shop_of(path: Path) -> Shop:
    """The shop file at a path. Raises SpecError with all that is wrong in it."""
    problems = Problems()
    try:
        data = path.read_bytes()
    except OSError as error:
        where = Where(path.as_posix(), 1, 1)
        problems.add(where, spec_said.this_shop_file_unreadable(why_unreadable(error)), spec_said.a_shop_file())
        problems.raise_any()
        raise
    shop = read_shop(data, path, Path.read_bytes, problems)
    problems.raise_any()
    return shop


def _plates(fields: language.Plates, problems: Problems) -> Plates:
    names = {
        "base": fields.base or "",
        "varnish": fields.varnish or "",
        "cut": fields.cut or "",
    }
    if len({name.casefold() for name in names.values()}) < len(names):
        problems.add(fields.begins, said.plates_with_one_name(), said.name_for_each_plate())
    for field_of in (language.Plates.base, language.Plates.varnish, language.Plates.cut):
        if (fields[field_of] or "").casefold() in ("all", "none", "adhesive", *PROCESS_PLATES):
            reserved = said.plate_name_reserved(fields[field_of] or "")
            problems.add(fields.where(field_of), reserved, spec_said.choose_name())
    return Plates(**names)


def _limits(fields: language.ShopFile, problems: Problems) -> dict[str, dict[str, Own]]:
    node = fields.limits
    if not isinstance(node, MappingNode):
        return {}
    known = processes()
    found: dict[str, dict[str, Own]] = {}
    for entry in node.entries:
        name = entry.key.text
        if name not in known:
            hint = did_you_mean(name, known, spec_said.processes())
            problems.add(entry.key.where, said.unknown_process(name), hint)
        elif not isinstance(entry.value, MappingNode):
            problems.add(entry.value.where, source.found(entry.value.found), said.figures_by_name())
        else:
            found[name] = _figures(entry.value, known[name], problems)
    return found


def _figures(node: MappingNode, process: Process, problems: Problems) -> dict[str, Own]:
    names = (*LIMITS, *process.own)
    found: dict[str, Own] = {}
    for entry in node.entries:
        name = entry.key.text
        if name not in names:
            hint = did_you_mean(name, names, spec_said.figures())
            problems.add(entry.key.where, said.unknown_figure(process.name, name), hint)
            continue
        with problems.under(name):
            parsed = NounOf(language.AFigure).parse(entry.value, problems)
        if parsed is not None and parsed.value is not None and parsed.why is not None:
            value, why = parsed.value or 0.0, parsed.why or ""
            found[name] = Own(value=value, why=why, where=entry.key.where)
    return found


def output(
    fields: language.Output | None, folder: Path, read_file: Callable[[Path], bytes], problems: Problems
) -> Output | None:
    """The printing condition with its profile; None where there is none or it has a problem."""
    if fields is None:
        return None
    name, condition = fields.profile, fields.condition
    if name is None or condition is None:
        return None
    where = fields.where(language.Output.profile)
    data = named_file(name, where, folder, read_file, said.profile_unreadable, problems)
    if data is None:
        return None
    fault = _fault_of_profile(name, data)
    if fault is not None:
        problems.add(where, fault, said.printer_profile())
        return None
    return Output(condition=condition, profile=data)


def _fault_of_profile(name: str, data: bytes) -> Message | None:
    """What is wrong with a profile, None for nothing: header of ISO 15076-1 (ICC.1), 7.2."""
    if len(data) > MAX_PROFILE:
        return said.profile_too_large(name, len(data), MAX_PROFILE)
    if len(data) < 132 or data[36:40] != b"acsp":
        return said.not_a_profile(name)
    if data[12:16] != b"prtr":
        return said.profile_of_class(name, data[12:16].decode("ascii", "replace").strip())
    if data[16:20] != b"CMYK":
        return said.profile_for_colours(name, data[16:20].decode("ascii", "replace").strip())
    return None


def named_file(
    name: str,
    where: Where,
    folder: Path,
    read_file: Callable[[Path], bytes],
    unreadable: Callable[[str, object], Message],
    problems: Problems,
) -> bytes | None:
    """The bytes of a file that is named relative to another; None when there is a problem, which is added.

    `unreadable` says that a file of this name cannot be read, and why.
    """
    hint = said.relative_to_file()
    if Path(name).is_absolute() or "\0" in name:
        problems.add(where, spec_said.file_not_relative(name), hint)
        return None
    try:
        return read_file(folder / name)
    except OSError as error:
        problems.add(where, unreadable(name, why_unreadable(error)), hint)
        return None


def shop_text(shown_ones: Sequence[Process]) -> str:
    """A shop file with the figures of common practice, each with its source beside it, to be changed by the shop.

    Only figures that the shop changes need stay: what a file does not name is as it was.
    """
    lines = [
        f"# {said.figures_of_one_shop()}",
        "panelart-shop: 1",
        f"shop: {said.name_of_shop()}",
        "limits:",
    ]
    for process in shown_ones:
        lines.append(f"  {process.name}:")
        figures = [getattr(process, name) for name in LIMITS]
        for figure in (*figures, *process.own.values()):
            why = said.as_published() if figure.known is Known.LOOKED_UP else said.common_practice()
            lines.append(f"    {figure.name}: {{value: {figure.value:g}, why: {why}}}  # {figure.source}")
    lines += [
        "# plates: {base: base, varnish: varnish, cut: cut}",
        "# emulsion: up",
        "# pins: {diameter: 6, apart: 280}",
        "# head_clearance: 2",
        *machine_text(),
        "",
    ]
    return "\n".join(lines)
