"""What each station of the workshop does to a panel, in the order that this panel's finish asks for.

A station that has nothing to do is absent. Sizes are those that the station can measure: cut sizes before the coat,
finished sizes after it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import Enum
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue import caution
from panelart.checks.materials import material
from panelart.cutouts.blank import bent
from panelart.cutouts.describe import Size, allowance, coat_thickness, size_of
from panelart.cutouts.hanging import hooks
from panelart.cutouts.hardware import Fitted, components, filled, fitted, from_datum
from panelart.cutouts.masks import Plugs, plugs
from panelart.cutouts.pressing import pressed_before_bending
from panelart.cutouts.punching import punch_for
from panelart.cutouts.tolerances import ANGLE, linear
from panelart.drawing.blanklayer import bend_direction
from panelart.geometry import Contour, Point, Vector, rectangular
from panelart.lettering.look import Align
from panelart.marking.separation import Separations
from panelart.messages import Message, Said
from panelart.messages import sheets as common
from panelart.messages import sheets_build as pictures
from panelart.messages import sheets_marking as marked
from panelart.messages import sheets_stations as said
from panelart.model.component import Component, Fastening
from panelart.model.layout import FACE, CutCountersink, CutOpening, Layout, PlacedMask
from panelart.model.making import Cutting, Making, serials
from panelart.model.panel import Panel, Side
from panelart.sheets.listing import Listing
from panelart.sheets.marking import marking_steps
from panelart.sheets.paper import Column


class View(Enum):
    """What the picture of a station shows."""

    BLANK = "blank"
    FACE = "face"
    BEHIND = "behind"
    BENT = "bent"
    LOOK = "look"

    @property
    def caption(self) -> Message:
        """What is written over the picture."""
        return _CAPTIONS[self]


_CAPTIONS: Final = {
    View.BLANK: pictures.picture_blank(),
    View.FACE: pictures.picture_face(),
    View.BEHIND: pictures.picture_behind(),
    View.BENT: pictures.picture_bent(),
    View.LOOK: pictures.picture_look(),
}


class Station(Struct, frozen=True, kw_only=True):
    """One station: its name, what is done there step by step, what it works from, and what it must know.

    `marked` names the features that its picture shows dark; all others are pale.
    """

    name: Said
    steps: tuple[Said, ...]
    listings: tuple[Listing, ...] = ()
    cautions: tuple[Said, ...] = ()
    views: tuple[View, ...] = ()
    marked: frozenset[str] = frozenset()
    files: tuple[str, ...] = ()


def stations(layout: Layout, plates: Separations | None = None) -> tuple[Station, ...]:
    """The stations in order. Hardware is pressed before or after the coat as the kind of coat asks.

    `plates` are those of the layout where they are parted already.
    """
    every = (
        _cut(layout),
        _deburr(layout),
        _countersink(layout),
        _hardware(layout, Fitted.BEFORE_COAT, flat=True),
        _bend(layout),
        _weld(layout),
        _hardware(layout, Fitted.BEFORE_COAT),
        _mask(layout),
        _coat(layout),
        _hardware(layout, Fitted.AFTER_COAT),
        _inspect(layout),
        _mark(layout, plates),
        _assemble(layout),
        _pack(layout),
    )
    return tuple(station for station in every if station is not None)


# --- words and figures


def _from_datum(panel: Panel) -> Message:
    """What positions after bending are measured from."""
    return said.from_datum_with_flanges() if panel.flanges else said.from_datum()


def _general_tolerance(panel: Panel) -> Message:
    return said.general_tolerance(grade=panel.making.tolerance)


BLANK_CELL: Final = "________"
"""A cell that is filled in by hand."""


def _column(heading: Said, width: float) -> Column:
    return Column(heading=heading, width=width)


def _figures(heading: Said, width: float) -> Column:
    return Column(heading=heading, width=width, align=Align.RIGHT)


def mm(value: float) -> str:
    """A position or size as it is read off a caliper."""
    return f"{value:.2f}".replace("-0.00", "0.00").replace("-", "\N{MINUS SIGN}")


def deviation(size: float, panel: Panel, own: tuple[float, float] | None = None) -> str:
    """The tolerance of a size as a drawing writes it."""
    if own is not None:
        low, high = own
        return f"+{high:g}/{low:g}" if low else f"+{high:g}/0"
    usual = linear(size, panel.making.tolerance)
    return "–" if usual is None else f"±{usual:g}"


def _widest(size: Size) -> float:
    return max(size.width, size.height)


# --- stations


_CUT_COLUMNS = (
    _column(common.column_opening(), 15),
    _column(common.column_surface(), 20),
    _figures("x", 14),
    _figures("y", 14),
    _column(said.column_cut_size(), 36),
    _column(common.column_tolerance(), 16),
    _column(said.column_first_piece(), 16),
)


def _cut(layout: Layout) -> Station:
    panel = layout.panel
    outline = layout.cut_outline if layout.blank is None else layout.blank.outline
    box = outline.bounds
    rows: list[tuple[Said, ...]] = []
    for opening, contour in _cut_features(layout):
        size, words = _cut_size(opening, contour)
        x, y = size.centre.x - box.left, size.centre.y - box.bottom
        allowed = deviation(_widest(size), panel, opening.tolerance)
        rows.append((opening.name, opening.on, mm(x), mm(y), str(words), allowed, BLANK_CELL))
    whole = tuple(
        (what, "", "", "", mm(value), deviation(value, panel), BLANK_CELL)
        for what, value in ((said.width(), box.width), (said.height(), box.height))
    )
    file = "cutouts" if layout.blank is None else "blank"
    return Station(
        name=_CUT_NAMES[panel.making.cutting],
        steps=tuple(_cut_steps(panel, f"{file}.dxf")),
        listings=(
            Listing(
                title=said.cut_sizes(),
                columns=_CUT_COLUMNS,
                rows=(*whole, *rows),
                remark=common.paragraph(sentences=(_origin(outline), _general_tolerance(panel))),
            ),
            *_punches(layout),
        ),
        cautions=tuple(_cut_cautions(layout)),
        views=(View.FACE if layout.blank is None else View.BLANK,),
        marked=frozenset(opening.name for opening, _ in _cut_features(layout)),
        files=(f"{file}.dxf", f"{file}.pdf"),
    )


def _cut_steps(panel: Panel, file: str) -> Iterator[Message]:
    sheet, making = panel.sheet, panel.making
    metal = _SHEETS[making.grain](material=sheet.material, thickness=sheet.thickness)
    yield common.paragraph(sentences=(metal, said.check_thickness()))
    drawn = (said.outline_from(file=panel.drawn_from),) if panel.drawn_from else ()
    yield common.paragraph(sentences=(said.cut_file(file=file), allowance(panel.coat), *drawn))
    yield common.paragraph(sentences=(said.no_kerf_in_file(), said.no_tabs_on_marked_face()))
    yield said.measure_first_cut()
    if making.cutting is Cutting.MILL:
        yield _corners(making)


_SHEETS = {"": said.sheet, "along": said.sheet_grain_along, "across": said.sheet_grain_across}


def _cut_cautions(layout: Layout) -> Iterator[Message]:
    if _has_lines(layout):
        yield said.layers_not_cut()
    reason = material(layout.panel.sheet.material).laser
    if layout.panel.making.cutting is Cutting.LASER and reason:
        yield said.not_by_laser(reason=reason)


def _corners(making: Making) -> Message:
    if making.cutter is None:
        return said.corners_keep_radius()
    return (said.cutter_with_relief if making.relieve else said.cutter_without_relief)(diameter=making.cutter)


def _punches(layout: Layout) -> Iterator[Listing]:
    """Which punch makes which openings in one stroke, and which are nibbled, where the shop's punches are known."""
    making = layout.panel.making
    if making.cutting is not Cutting.PUNCH or not making.punches:
        return
    made: dict[str, list[str]] = {}
    nibbled: list[str] = []
    for opening in layout.every_opening:
        punch = punch_for(opening, making.punches)
        (nibbled if punch is None else made.setdefault(str(punch), [])).append(opening.name)
    tools = [tool for tool in dict.fromkeys(map(str, making.punches)) if tool in made]
    rows: list[tuple[Said, ...]] = [(tool, str(len(made[tool])), _named(made[tool])) for tool in tools]
    if nibbled:
        rows.append((said.nibbled(), "–", _named(nibbled)))
    yield Listing(
        title=said.punches(),
        columns=(
            _column(said.column_punch(), 36),
            _figures(said.column_strokes(), 18),
            _column(said.column_openings(), 200),
        ),
        rows=tuple(rows),
        remark=said.outline_tool(),
    )


def _named(refs: Sequence[Said]) -> str:
    """Refs in a cell of a table."""
    return ", ".join(map(str, refs))


def _origin(outline: Contour) -> Message:
    """Where positions on the piece are measured from; the corner of a box where the piece has none there."""
    corner = Point(outline.bounds.left, outline.bounds.bottom)
    if any(segment.start.distance(corner) < _CORNER for segment in outline.segments) or rectangular(outline):
        return said.from_corner()
    return said.from_bounding_corner()


_CORNER = 1e-6

_CUT_NAMES = {
    Cutting.LASER: said.cut_by_laser(),
    Cutting.PUNCH: said.punch(),
    Cutting.MILL: said.mill(),
    Cutting.WATERJET: said.cut_by_waterjet(),
    Cutting.HAND: said.cut_by_hand(),
}


def _cut_features(layout: Layout) -> Iterator[tuple[CutOpening, Contour]]:
    """Everything that is cut out, with its contour on the piece that is cut."""
    if layout.blank is not None:
        yield from ((hole.opening, hole.cut) for hole in layout.blank.holes)
        return
    yield from ((opening, opening.cut) for opening in layout.openings)


def _cut_size(opening: CutOpening, contour: Contour) -> tuple[Size, Message]:
    """The size of an opening where it is cut, and in words; one with relieved corners by its sides."""
    if opening.nominal is None:
        size = size_of(contour, opening.turn)
        return size, size.words
    size = replace(size_of(opening.nominal, opening.turn), centre=contour.bounds.centre)
    return size, said.relieved(size=size.words)


def _has_lines(layout: Layout) -> bool:
    return layout.blank is not None or any(opening.countersink is not None for opening in layout.openings)


def _cones(layout: Layout) -> Iterator[tuple[CutOpening, CutCountersink, Point]]:
    """Every countersink with its middle on the flat piece, from the lower-left corner of that piece."""
    if layout.blank is not None:
        for hole in layout.blank.holes:
            if hole.countersink is not None:
                yield hole.opening, hole.countersink, hole.countersink.centre
        return
    box = layout.cut_outline.bounds
    for opening in layout.openings:
        if opening.countersink is not None:
            centre = opening.countersink.centre
            yield opening, opening.countersink, centre.moved(Vector(-box.left, -box.bottom))


def _pressed(panel: Panel) -> list[str]:
    return [
        ref
        for ref, component, _ in components(panel)
        if component.hardware is not None and component.hardware.fastening is Fastening.PRESSED
    ]


def _deburr(layout: Layout) -> Station:
    pressed = _pressed(layout.panel)
    steps = [said.break_edges(), said.no_scratches()]
    if pressed:
        steps.append(said.holes_not_deburred(refs=pressed))
    return Station(
        name=said.deburr(),
        steps=tuple(steps),
        views=(View.FACE if layout.blank is None else View.BLANK,),
        marked=frozenset(opening.name for opening, _ in _cut_features(layout) if opening.ref not in pressed),
    )


def _countersink(layout: Layout) -> Station | None:
    cones = list(_cones(layout))
    if not cones:
        return None
    panel = layout.panel
    rows = tuple(
        (
            opening.name,
            opening.on,
            mm(at.x),
            mm(at.y),
            cone.side.value,
            f"Ø{cone.cut:.2f}",
            f"{cone.angle:g}°",
            mm(cone.depth),
            str(size_of(opening.cut)),
            BLANK_CELL,
        )
        for opening, cone, at in cones
    )
    return Station(
        name=said.countersink(),
        steps=(
            said.countersink_to_diameter(),
            said.head_below_face(thickness=coat_thickness(panel.coat)) if panel.coat.build else said.head_flush(),
            said.no_burr_behind(),
        ),
        listings=(
            Listing(
                title=said.countersinks(),
                columns=(
                    _column(common.column_hole(), 18),
                    _column(common.column_surface(), 22),
                    _figures("x", 16),
                    _figures("y", 16),
                    _column(common.column_side(), 18),
                    _column(said.column_diameter(), 20),
                    _column(common.column_angle(), 14),
                    _figures(common.column_depth(), 16),
                    _column(said.column_hole_size(), 22),
                    _column(said.column_first_piece(), 26),
                ),
                rows=rows,
                remark=said.countersinks_remark(thickness=panel.sheet.thickness),
            ),
        ),
        views=(View.FACE if layout.blank is None else View.BLANK,),
        marked=frozenset(opening.name for opening, *_ in cones),
    )


_CORNERS = ({"top", "left"}, {"top", "right"}, {"bottom", "left"}, {"bottom", "right"})


def _bend(layout: Layout) -> Station | None:
    blank, panel = layout.blank, layout.panel
    if blank is None:
        return None
    lengths: dict[str, float] = {}
    for worked in bent(panel, layout.cut_outline).values():
        lengths[worked.flange.edge.value] = worked.length
        lengths[f"{worked.flange.edge.value} return"] = worked.second_length
    rows: list[tuple[Said, ...]] = []
    for bend in blank.bends:
        upright = abs(bend.start.x - bend.end.x) < 1e-6
        at = f"x {mm(bend.start.x)}" if upright else f"y {mm(bend.start.y)}"
        length = lengths[bend.name]
        rows.append(
            (
                str(bend.step),
                bend.name,
                at,
                said.bend_angle(angle=bend.angle, tolerance=ANGLE),
                bend_direction(bend),
                said.radius(radius=bend.radius),
                mm(bend.allowance),
                f"{mm(length)} {deviation(length, panel)}",
                BLANK_CELL,
            )
        )
    edges = {flange.edge.value for flange in panel.flanges}
    return Station(
        name=said.bend(),
        steps=tuple(_bend_steps(layout)),
        listings=(
            Listing(
                title=said.bends(),
                columns=(
                    _column(said.column_step(), 12),
                    _column(said.column_bend(), 26),
                    _column(said.column_bend_line(), 26),
                    _column(common.column_angle(), 22),
                    _column(said.column_direction(), 20),
                    _column(said.column_inside_radius(), 26),
                    _figures(said.column_bend_allowance(), 28),
                    _column(said.column_outside_length(), 32),
                    _column(said.column_first_piece(), 26),
                ),
                rows=tuple(rows),
                remark=said.bends_remark(),
            ),
        ),
        cautions=(said.last_bends(),) if len(panel.flanges) > 2 or edges in _CORNERS else (),
        views=(View.BLANK, View.BENT),
        files=("blank.pdf",),
    )


def _bend_steps(layout: Layout) -> Iterator[Message]:
    panel, box = layout.panel, layout.cut_outline.bounds
    yield common.paragraph(sentences=(said.bend_in_order(), said.bend_directions()))
    yield common.paragraph(sentences=(said.springback(), said.protect_from_die()))
    yield said.outside_size(width=box.width, height=box.height)
    if panel.bending is not None and panel.bending.die is not None:
        yield said.die_opening(opening=panel.bending.die)


def _weld(layout: Layout) -> Station | None:
    panel = layout.panel
    studs = [
        part
        for part in panel.parts
        if part.component.hardware is not None and part.component.hardware.fastening is Fastening.WELDED
    ]
    if not studs:
        return None
    wide = panel.size[0]
    return Station(
        name=said.weld_studs(),
        steps=(said.weld_square(), said.pull_test()),
        listings=(
            Listing(
                title=said.weld_studs_from_rear(),
                columns=(
                    _column(said.column_stud(), 20),
                    _figures("x", 34),
                    _figures("y", 20),
                    _column(common.column_description(), 80),
                ),
                rows=tuple((part.ref, mm(wide - part.at.x), mm(part.at.y), part.component.title) for part in studs),
                remark=said.from_rear_corner(),
            ),
        ),
        views=(View.BEHIND,),
        marked=frozenset(part.ref for part in studs),
    )


def _hardware(layout: Layout, when: Fitted, *, flat: bool = False) -> Station | None:
    """Pressing and riveting; `flat` is what goes in before bending because the press does not reach it afterwards."""
    early = pressed_before_bending(layout)
    found = [each for each in _pressed_or_riveted(layout.panel, when) if (each[0] in early) is flat]
    if not found:
        return None
    fastenings = {component.hardware.fastening for _, component, _ in found if component.hardware}
    pressed = Fastening.PRESSED in fastenings
    late = when is Fitted.AFTER_COAT and layout.panel.coat.kind != "none"
    steps = [said.check_undeburred(), said.press_flush()] if pressed else []
    if Fastening.RIVETED in fastenings:
        steps.append(said.set_until_break())
    if late:
        steps.append(said.protect_from_anvil())
    return Station(
        name=_hardware_name(pressed=pressed, late=late, flat=flat),
        steps=tuple(steps),
        listings=(
            Listing(
                title=said.hardware(),
                columns=(
                    _figures(common.column_quantity(), 20),
                    _column(common.column_description(), 90),
                    _column(common.column_surface(), 24),
                    _column(said.column_hole_size(), 26),
                    _column(common.column_refs(), 90),
                ),
                rows=tuple(_hardware_rows(found)),
                remark=said.pressed_from_rear(),
            ),
        ),
        cautions=(caution("pressed-in"),) if pressed else (),
        views=_where(found),
        marked=frozenset(ref for ref, _, _ in found),
    )


def _pressed_or_riveted(panel: Panel, when: Fitted) -> Iterator[tuple[str, Component, str]]:
    """What is pressed or riveted in at one stage: ref, component, and the surface that it is on."""
    for ref, component, on in components(panel):
        hardware = component.hardware
        if hardware is None or hardware.fastening not in (Fastening.PRESSED, Fastening.RIVETED):
            continue
        if fitted(component, panel.coat) is when:
            yield ref, component, on


def _hardware_rows(found: Sequence[tuple[str, Component, str]]) -> Iterator[tuple[str, ...]]:
    """How many of each kind go into each surface, the hole they want, and their refs."""
    refs: dict[tuple[str, str], list[str]] = {}
    holes: dict[str, str] = {}
    for ref, component, on in found:
        refs.setdefault((component.title, on), []).append(ref)
        if component.openings:
            holes[component.title] = str(size_of(component.openings[0].contour))
    for (title, on), named in refs.items():
        yield str(len(named)), title, on, holes.get(title, "–"), _named(named)


def _hardware_name(*, pressed: bool, late: bool, flat: bool) -> Message:
    if not pressed:
        return said.set_rivets_after_coat() if late else said.set_rivets()
    if flat:  # only what is pressed goes in before bending
        return said.press_in_before_bending()
    return said.press_in_after_coat() if late else said.press_in()


def _where(found: Sequence[tuple[str, Component, str]]) -> tuple[View, ...]:
    """The face from behind, and the bent panel where hardware goes into flanges."""
    places = {on for _, _, on in found}
    return (*((View.BEHIND,) if "face" in places else ()), *((View.BENT,) if places - {"face"} else ()))


def _mask(layout: Layout) -> Station | None:
    panel = layout.panel
    plugged = plugs(panel)
    if panel.coat.kind == "none" or not (layout.masks or plugged):
        return None
    listings = [_masks_listed(layout)] if layout.masks else []
    if plugged:
        listings.append(_plugs_listed(plugged))
    behind = plugged or any(mask.side is Side.REAR for mask in layout.masks)
    return Station(
        name=said.clean_and_mask(),
        steps=(said.degrease(), said.place_masks()),
        listings=tuple(listings),
        views=(View.BEHIND if behind else View.FACE,),
        marked=frozenset((*(mask.name for mask in layout.masks), *(ref for one in plugged for ref in one.refs))),
        files=_mask_files(layout),
    )


def _masks_listed(layout: Layout) -> Listing:
    panel = layout.panel
    files = _mask_files(layout)
    in_files = (said.mask_files(files=files),) if files else ()
    return Listing(
        title=said.masks(),
        columns=(
            _column(said.column_mask(), 18),
            _column(common.column_surface(), 22),
            _column(common.column_side(), 16),
            _figures("x", 18),
            _figures("y", 18),
            _column(said.column_size(), 40),
            _column(said.column_reason(), 110),
        ),
        rows=tuple(_mask_row(panel, mask) for mask in layout.masks),
        remark=common.paragraph(sentences=(_from_datum(panel), *in_files)),
    )


def _plugs_listed(plugged: Sequence[Plugs]) -> Listing:
    return Listing(
        title=said.plugs(),
        columns=(
            _figures(common.column_quantity(), 20),
            _column(said.column_thread(), 40),
            _column(common.column_refs(), 150),
        ),
        rows=tuple((str(len(one.refs)), one.thread, _named(one.refs)) for one in plugged),
        remark=said.plugs_remark(),
    )


def _mask_files(layout: Layout) -> tuple[str, ...]:
    sides = sorted({mask.side.value for mask in layout.masks if mask.on == FACE})
    return tuple(f"mask-{side}.dxf" for side in sides)


def _mask_row(panel: Panel, mask: PlacedMask) -> tuple[str, ...]:
    size = size_of(mask.contour)
    at = from_datum(panel, mask.on, size.centre)
    return (mask.name, mask.on, mask.side.value, mm(at.x), mm(at.y), str(size), mask.why)


_COATS = {
    "powder": said.powder_coat(),
    "wet-paint": said.paint(),
    "anodise": said.anodise(),
    "zinc": said.zinc_plate(),
    "conversion": said.conversion_coat(),
}


def _coat(layout: Layout) -> Station | None:
    panel = layout.panel
    coat = panel.coat
    if coat.kind == "none":
        return None
    named = said.colour(name=coat.name, colour=coat.colour) if coat.name else said.colour_as_ordered(colour=coat.colour)
    surfaces = said.coat_all_faces() if coat.rear else said.coat_front()
    steps = [
        common.paragraph(sentences=(named, surfaces)),
        common.paragraph(sentences=(said.coat_thickness(thickness=coat_thickness(coat)), said.measure_coat())),
        _hanging(layout),
    ]
    if coat.kind == "powder":
        steps.append(said.cure())
    if layout.masks or plugs(panel):
        steps.append(said.remove_masks())
    return Station(
        name=_COATS.get(coat.kind, said.coat()),
        steps=tuple(steps),
        views=(View.BENT if layout.blank is not None else View.FACE,),
        marked=frozenset(hooks(layout).names),
        cautions=(said.anodising_insulates(),) if coat.kind == "anodise" and layout.masks else (),
    )


def _hanging(layout: Layout) -> Message:
    """Where the panel may hang: as the spec asks, else by what ends up behind or under something."""
    found = hooks(layout)
    if found.asked:
        return said.hang_as_specified(openings=found.names)
    if not found.names and layout.blank is not None:
        return said.hang_by_flange_edge()
    if not found.names:
        return said.no_hidden_opening()
    if layout.blank is not None:
        return said.hang_by_flange_holes(openings=found.names[:4])
    return said.hang_by_covered_openings(openings=found.names[:6])


_INSPECT_COLUMNS = (
    _column(said.column_feature(), 26),
    _column(common.column_surface(), 20),
    _figures("x", 15),
    _figures("y", 15),
    _column(said.column_finished_size(), 44),
    _column(common.column_tolerance(), 18),
    _column(said.column_must_admit(), 28),
    _column(said.column_measured(), 20),
)


def _length_row(name: Said, length: float, panel: Panel) -> tuple[Said, ...]:
    return (name, "", "", "", mm(length), deviation(length, panel), "", BLANK_CELL)


def _angle_row(name: Said, angle: float) -> tuple[Said, ...]:
    return (name, "", "", "", said.angle(angle=angle), f"±{ANGLE:g}°", "", BLANK_CELL)


def _inspected(layout: Layout) -> Iterator[tuple[Said, ...]]:
    panel = layout.panel
    wide, high = panel.size
    yield _length_row(said.width(), wide, panel)
    yield _length_row(said.height(), high, panel)
    hardware = {
        ref: component.hardware
        for ref, component, _ in components(panel)
        if component.hardware is not None and filled(component)
    }
    for opening in layout.every_opening:
        size = size_of(opening.finished, opening.turn)
        at = from_datum(panel, opening.on, size.centre)
        where = (opening.name, opening.on, mm(at.x), mm(at.y))
        if opening.ref in hardware:
            thread = hardware[opening.ref].thread
            yield (*where, thread, "", said.screw() if thread else "", BLANK_CELL)
            continue
        passing = "" if opening.passes is None else str(size_of(opening.passes, opening.turn))
        yield (*where, str(size), deviation(_widest(size), panel, opening.tolerance), passing, BLANK_CELL)
        if (cone := opening.countersink) is not None:
            diameter = said.countersink_diameter(diameter=cone.finished)
            yield (opening.name, opening.on, "", "", diameter, deviation(cone.finished, panel), "", BLANK_CELL)
    for flange in panel.flanges:
        edge = flange.edge.value
        yield _length_row(said.flange_named(edge=edge), flange.length, panel)
        yield _angle_row(said.bend_named(edge=edge), flange.angle)
        if (second := flange.second) is not None:
            yield _length_row(said.return_named(edge=edge), second.length, panel)
            yield _angle_row(said.return_bend_named(edge=edge), second.angle)


def _inspect(layout: Layout) -> Station:
    panel = layout.panel
    return Station(
        name=said.inspect(),
        steps=(said.measure_pieces(), said.try_parts()),
        listings=(
            Listing(
                title=said.finished_sizes(),
                columns=_INSPECT_COLUMNS,
                rows=tuple(_inspected(layout)),
                remark=common.paragraph(sentences=(_from_datum(panel), _general_tolerance(panel))),
            ),
        ),
        views=(View.FACE,),
        marked=frozenset(opening.name for opening in layout.openings),
        files=("inspection.csv",),
    )


def _mark(layout: Layout, plates: Separations | None) -> Station | None:
    if not (layout.legends or layout.marks or layout.panel.marking.printing.backgrounds):
        return None
    marking = layout.panel.marking
    work = marking_steps(layout, plates)
    return Station(
        name=marking.process.title,
        steps=(*work.steps, marked.register_error(limit=marking.register), marked.read_legends()),
        listings=work.listings,
        views=(View.LOOK,),
        files=work.files,
    )


def _assemble(layout: Layout) -> Station | None:
    panel = layout.panel
    parts = [
        (ref, component, on)
        for ref, component, on in components(panel)
        if component.hardware is None or fitted(component, panel.coat) is Fitted.ASSEMBLY
    ]
    if not parts:
        return None
    knobs = list(_knobs(panel))
    cautions = tuple(
        dict.fromkeys(caution(key) for _, component, _ in parts for key in component.cautions if key != "pressed-in")
    )
    steps = [said.clear_threads()] if plugs(panel) or layout.masks else []
    steps += [said.fit_parts(), said.tighten()]
    if knobs:
        steps.append(said.knobs_last(knobs=knobs))
    return Station(
        name=said.assemble(),
        steps=tuple(steps),
        listings=(
            Listing(
                title=said.parts(),
                columns=(
                    _figures(common.column_quantity(), 20),
                    _column(common.column_description(), 110),
                    _column(common.column_refs(), 140),
                ),
                rows=tuple(_assembly_rows(parts)),
                remark=said.quantities_for_one(),
            ),
        ),
        cautions=cautions,
        views=(View.LOOK,),
    )


def _knobs(panel: Panel) -> Iterator[Said]:
    """The parts that take a knob, each with the knob that is named."""
    for part in panel.parts:
        if part.knob is not None:
            yield said.knob_of(ref=part.ref, knob=part.knob.name) if part.knob.name else part.ref


def _assembly_rows(parts: Sequence[tuple[str, Component, str]]) -> Iterator[tuple[str, ...]]:
    """How many of each part are fitted, and where: refs, with the surface where that is not the face."""
    refs: dict[str, list[Said]] = {}
    for ref, component, on in parts:
        refs.setdefault(component.title, []).append(ref if on == FACE else said.on_surface(ref=ref, surface=on))
    for title, named in refs.items():
        yield str(len(named)), title, _named(named)


def _pack(layout: Layout) -> Station:
    making = layout.panel.making
    first, last = serials(making)
    count = [said.count_good(quantity=making.quantity)]
    count += [said.serial_numbers(first=first, last=last)] if first else []
    return Station(
        name=said.pack(),
        steps=(common.paragraph(sentences=count), said.wrap_each(), said.enclose_sheet()),
    )
