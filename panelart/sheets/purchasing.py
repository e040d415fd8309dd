"""The bill of materials of a panel: parts, knobs, fasteners, sheet, and what marks it.

One row for each thing, with how many go on one panel and how many on all that are made. Nuts and screws that come with
a part have rows of their own, marked as supplied, so that whoever fits the part can count them.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from typing import Final

from panelart.canonical import Struct
from panelart.cutouts.describe import size_of
from panelart.cutouts.hardware import components
from panelart.messages import Message, Said
from panelart.messages import sheets_lists as said
from panelart.model.component import Component, Role
from panelart.model.panel import Carrier, Panel, Part
from panelart.sheets.fastening import Counted, counted, mass_told
from panelart.sheets.orders import order_of
from panelart.sheets.workbook import put_text, workbook_bytes
from panelart.texts.cells import guarded_row

COLUMNS: Final = (
    "kind", "part", "title", "quantity", "total", "refs", "standard", "note",
    "supply", "spanner_mm", "torque_minimum_nm", "torque_maximum_nm", "side", "mass_g",
    "panel", "revision", "spec",
)  # fmt: skip


class Bought(Struct, frozen=True, kw_only=True):
    """One thing that is bought: `quantity` goes on one panel, or is enough for all of them (`for_all`).

    `fastener` is what it is counted from where it is one, `mass` that of one piece in g, None where it is not known.
    """

    kind: str
    part: str
    title: str
    quantity: int
    refs: tuple[str, ...] = ()
    standard: str = ""
    note: Said = ""
    for_all: bool = False
    fastener: Counted | None = None
    mass: float | None = None


def bought(panel: Panel) -> tuple[Bought, ...]:
    """Everything, in the order: parts, knobs, fasteners, what marks the face, sheet; each kind as it is first met."""
    fitted = _fitted(panel)
    return (
        *_parts(fitted),
        *_knobs(panel.parts),
        *_discs(panel.parts),
        *_fasteners(fitted),
        *_screws(fitted),
        *_for_marking(panel),
        _sheet(panel),
    )


def mass_of(panel: Panel) -> Message | None:
    """What the parts of one panel weigh, as far as it is known; None where it is known of none."""
    return mass_told(_fitted(panel))


def _fitted(panel: Panel) -> list[tuple[str, Component]]:
    return [(ref, component) for ref, component, _ in components(panel)]


def _parts(fitted: Iterable[tuple[str, Component]]) -> list[Bought]:
    refs: dict[str, list[str]] = {}
    components: dict[str, Component] = {}
    for ref, component in fitted:
        refs.setdefault(component.name, []).append(ref)
        components.setdefault(component.name, component)
    return [
        Bought(
            kind="hardware" if _is_hardware(component) else "part",
            part=name,
            title=component.title,
            quantity=len(refs[name]),
            refs=tuple(refs[name]),
            standard=component.standard,
            mass=None if component.mass is None else component.mass.value,
        )
        for name, component in components.items()
    ]


def _is_hardware(component: Component) -> bool:
    return component.hardware is not None or component.family.startswith("screw")


def _knobs(parts: Iterable[Part]) -> list[Bought]:
    refs: dict[tuple[str, float, float], list[str]] = {}
    for part in parts:
        if part.knob is not None:
            refs.setdefault((part.knob.name, part.knob.diameter, part.knob.height), []).append(part.ref)
    return [
        Bought(
            kind="knob",
            part=name,
            title=str(said.knob(diameter=diameter, height=height)),
            quantity=len(of),
            refs=tuple(of),
        )
        for (name, diameter, height), of in refs.items()
    ]


def _discs(parts: Iterable[Part]) -> list[Bought]:
    """The discs that scales are on, each with a scale of its own."""
    return [
        Bought(
            kind="disc",
            part="",
            title=str(said.disc(diameter=part.scale.turning.diameter)),
            quantity=1,
            refs=(part.ref,),
        )
        for part in parts
        if part.scale is not None and part.scale.turning is not None and part.scale.turning.carrier is Carrier.DISC
    ]


def _fasteners(fitted: Iterable[tuple[str, Component]]) -> list[Bought]:
    """Nuts, washers and screws that the parts name."""
    return [
        Bought(kind="fastener", part="", title=str(one.named), quantity=one.quantity, refs=one.refs, fastener=one)
        for one in counted(fitted)
    ]


def _screws(fitted: Iterable[tuple[str, Component]]) -> list[Bought]:
    """Screws or rivets for the fixing holes of parts that name no fasteners, by the size of the hole."""
    holes: dict[tuple[float, float], list[str]] = {}
    for ref, component in fitted:
        if _is_hardware(component) or component.fasteners:
            continue
        for opening in component.openings:
            if opening.role is Role.FIXING:
                size = size_of(opening.contour, 0.0)
                holes.setdefault((round(size.width, 6), round(size.height, 6)), []).append(ref)
    return [
        Bought(
            kind="hardware",
            part="",
            title=str(
                said.screw_for_round(diameter=width) if width == height else said.screw_for_slot(size=(width, height))
            ),
            quantity=len(refs),
            refs=tuple(dict.fromkeys(refs)),
            note=said.ask_maker(),
        )
        for (width, height), refs in holes.items()
    ]


def _for_marking(panel: Panel) -> list[Bought]:
    """What carries or makes the legends, and what is used up by it, where its process has something to buy."""
    return [
        Bought(
            kind=one.kind,
            part="",
            title=str(one.title),
            quantity=one.quantity,
            note=one.note,
            for_all=one.for_all,
        )
        for one in panel.marking.process.purchases(order_of(panel))
    ]


def _sheet(panel: Panel) -> Bought:
    sheet = panel.sheet
    title = str(said.sheet(material=sheet.material, thickness=sheet.thickness, size=panel.size))
    note = said.flanges_extra() if panel.flanges else ""
    return Bought(kind="sheet", part="", title=title, quantity=1, note=note)


def _rows(panel: Panel) -> list[tuple[str | int, ...]]:
    state = (panel.number or panel.title, panel.revision, panel.fingerprint)
    made = panel.making.quantity
    return [
        (
            one.kind,
            one.part,
            one.title,
            one.quantity,
            one.quantity * (1 if one.for_all else made),
            " ".join(one.refs),
            one.standard,
            str(one.note),
            *_tightened(one.fastener),
            "" if one.mass is None else f"{one.mass:g}",
            *state,
        )
        for one in bought(panel)
    ]


def _tightened(one: Counted | None) -> tuple[str, str, str, str, str]:
    if one is None:
        return "", "", "", "", ""
    torque = one.fastener.torque
    low, high = ("", "") if torque is None else (f"{figure.value:g}" for figure in torque)
    return str(one.supply), one.across, low, high, str(one.side)


def purchasing_csv(panel: Panel) -> bytes:
    """The bill as comma-separated values, UTF-8, lines ended by LF."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(map(guarded_row, _rows(panel)))
    return text.getvalue().encode("utf-8")


def purchasing_xlsx(panel: Panel) -> bytes:
    """The bill as a workbook; texts stay texts, whatever they begin with, and the bytes are the same every time."""
    import openpyxl

    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = str(said.bill_of_materials())
    for number, row in enumerate((COLUMNS, *_rows(panel)), start=1):
        for column, value in enumerate(row, start=1):
            put_text(sheet, number, column, value)
    for letter, width in zip("ABCDEFGHIJKLMN", (13, 20, 52, 9, 9, 34, 24, 34, 22, 12, 18, 18, 7, 8), strict=True):
        sheet.column_dimensions[letter].width = width
    sheet.freeze_panes = "A2"
    return workbook_bytes(book)
