"""What each station of the workshop does to a panel, in the order that this panel's finish asks for.

A station that has nothing to do is absent. Sizes are those that the station can measure: cut sizes before the coat,
finished sizes after it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from panelart.catalogue import caution
from panelart.checks.materials import material
from panelart.cutouts.blank import bent
from panelart.cutouts.describe import Size, allowance, film_in_words, size_of
from panelart.cutouts.hanging import hooks
from panelart.cutouts.hardware import Fitted, components, filled, fitted, from_datum
from panelart.cutouts.masks import plugs
from panelart.cutouts.pressing import pressed_before_bending
from panelart.cutouts.punching import punch_for
from panelart.cutouts.tolerances import ANGLE, linear
from panelart.geometry import Contour, Point, Vector, rectangular
from panelart.lettering.look import Align
from panelart.marking.separation import Separations
from panelart.model.component import Component, Fastening
from panelart.model.layout import FACE, CutCountersink, CutOpening, Layout, PlacedMask
from panelart.model.making import Cutting, Making, serials
from panelart.model.panel import Panel, Side
from panelart.sheets.listing import Listing
from panelart.sheets.marking import marking_steps
from panelart.sheets.paper import Column


class View(Enum):
    """What the picture of a station shows."""

    BLANK = "the flat piece, seen from the front"
    FACE = "the face, seen from the front"
    BEHIND = "the panel seen from behind"
    BENT = "the bent panel, from the front and from behind"
    LOOK = "as it will look, seen from the front"


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One station: its name, what is done there step by step, what it works from, and what it must know.

    `marked` names the features that its picture shows dark; all others are pale.
    """

    name: str
    steps: tuple[str, ...]
    listings: tuple[Listing, ...] = ()
    cautions: tuple[str, ...] = ()
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


def _from_datum(panel: Panel) -> str:
    """What positions after bending are measured from."""
    flange = "; in a flange along it, and back from the outside of its bend" if panel.flanges else ""
    return f"x and y from the datum, seen from the front{flange}"


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


def _named(refs: Sequence[str]) -> str:
    return ", ".join(refs)


# --- stations


_CUT_COLUMNS = (
    Column(heading="opening", width=15),
    Column(heading="on", width=20),
    Column(heading="x", width=14, align=Align.RIGHT),
    Column(heading="y", width=14, align=Align.RIGHT),
    Column(heading="cut size", width=36),
    Column(heading="tolerance", width=16),
    Column(heading="first piece", width=16),
)


def _cut(layout: Layout) -> Station:
    panel = layout.panel
    outline = layout.cut_outline if layout.blank is None else layout.blank.outline
    box = outline.bounds
    rows: list[tuple[str, ...]] = []
    for opening, contour in _cut_features(layout):
        size, told = _cut_size(opening, contour)
        x, y = size.centre.x - box.left, size.centre.y - box.bottom
        allowed = deviation(_widest(size), panel, opening.tolerance)
        rows.append((opening.name, opening.on, mm(x), mm(y), told, allowed, "________"))
    whole = tuple(
        (what, "", "", "", mm(value), deviation(value, panel), "________")
        for what, value in (("width", box.width), ("height", box.height))
    )
    file = "cutouts" if layout.blank is None else "blank"
    drawn = f" Its outline is that of {panel.drawn_from}." if panel.drawn_from else ""
    grain = f"; grain {panel.making.grain} the width" if panel.making.grain else ""
    sheet = panel.sheet
    steps = [
        f"Sheet: {sheet.material}, {sheet.thickness:g} mm{grain}. Check the certificate or measure: ________ mm.",
        f"Cut {file}.dxf: layers cutouts and outline only. {allowance(panel.coat)}.{drawn}",
        "Kerf, lead-in and micro-joints are the machine's: the file carries none. Leave no tab on a marked face.",
        "Measure the first piece and fill in the table before cutting on.",
    ]
    if panel.making.cutting is Cutting.MILL:
        steps.append(_corners(panel.making))
    cautions = ["The layers countersinks and bends are not cut."] if _has_lines(layout) else []
    if panel.making.cutting is Cutting.LASER and material(sheet.material).laser:
        cautions.append(f"Not in a laser: {material(sheet.material).laser}.")
    return Station(
        name=_CUT_WORDS[panel.making.cutting],
        steps=tuple(steps),
        listings=(
            Listing(
                title="Cut sizes",
                columns=_CUT_COLUMNS,
                rows=(*whole, *rows),
                remark=(
                    f"positions from {_origin(outline)}; ISO 2768-{panel.making.tolerance} where nothing else is said"
                ),
            ),
            *_punches(layout),
        ),
        cautions=tuple(cautions),
        views=(View.FACE if layout.blank is None else View.BLANK,),
        marked=frozenset(opening.name for opening, _ in _cut_features(layout)),
        files=(f"{file}.dxf", f"{file}.pdf"),
    )


def _corners(making: Making) -> str:
    if making.cutter is None:
        return "Inside corners are left with the radius of the cutter."
    how = "sharp inside corners are relieved in the file" if making.relieve else "inside corners keep its radius"
    return f"Cutter of {making.cutter:g} mm: {how}."


def _punches(layout: Layout) -> Iterator[Listing]:
    """Which punch makes which openings in one stroke, and which are nibbled, where the shop's punches are known."""
    making = layout.panel.making
    if making.cutting is not Cutting.PUNCH or not making.punches:
        return
    made: dict[str, list[str]] = {}
    for opening in layout.every_opening:
        punch = punch_for(opening, making.punches)
        made.setdefault("nibbled" if punch is None else str(punch), []).append(opening.name)
    order = [*map(str, making.punches), "nibbled"]
    yield Listing(
        title="Punches",
        columns=(
            Column(heading="punch", width=36),
            Column(heading="strokes", width=18, align=Align.RIGHT),
            Column(heading="openings", width=200),
        ),
        rows=tuple(
            (tool, "–" if tool == "nibbled" else str(len(made[tool])), _named(made[tool]))
            for tool in dict.fromkeys(order)
            if tool in made
        ),
        remark="the outline is cut with the shop's usual tool; tabs and micro-joints are left to the shop",
    )


def _origin(outline: Contour) -> str:
    """Where positions on the piece are measured from; the corner of a box where the piece has none there."""
    corner = Point(outline.bounds.left, outline.bounds.bottom)
    if any(segment.start.distance(corner) < _CORNER for segment in outline.segments) or rectangular(outline):
        return "the lower-left corner of the piece as cut"
    return "the lower-left corner of the box round the piece as cut"


_CORNER = 1e-6

_CUT_WORDS = {
    Cutting.LASER: "Cut by laser",
    Cutting.PUNCH: "Punch",
    Cutting.MILL: "Mill",
    Cutting.WATERJET: "Cut by waterjet",
    Cutting.HAND: "Cut by hand",
}


def _cut_features(layout: Layout) -> Iterator[tuple[CutOpening, Contour]]:
    """Everything that is cut out, with its contour on the piece that is cut."""
    if layout.blank is not None:
        yield from ((hole.opening, hole.cut) for hole in layout.blank.holes)
        return
    yield from ((opening, opening.cut) for opening in layout.openings)


def _cut_size(opening: CutOpening, contour: Contour) -> tuple[Size, str]:
    """The size of an opening where it is cut, and in words; one with relieved corners by its sides."""
    if opening.nominal is None:
        size = size_of(contour, opening.turn)
        return size, str(size)
    size = replace(size_of(opening.nominal, opening.turn), centre=contour.bounds.centre)
    return size, f"{size}, relieved"


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
    steps = [
        "Break every edge that a hand can reach, both faces, 0.1 to 0.5 mm.",
        "Leave no scratch on the front: it is seen.",
    ]
    if pressed:
        steps.append(f"Do not deburr or countersink the holes of {_named(pressed)}: hardware is pressed into them.")
    return Station(
        name="Deburr",
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
            "________",
        )
        for opening, cone, at in cones
    )
    return Station(
        name="Countersink",
        steps=(
            "Sink each cone until its mouth has the width given; try the screw in the first one.",
            f"Widths allow for {film_in_words(panel.coat)} of coat: a bare head lies a little low."
            if panel.coat.build
            else "A head ends flush with the bare face.",
            "No burr on the far side: the hole must keep its width.",
        ),
        listings=(
            Listing(
                title="Countersinks",
                columns=(
                    Column(heading="hole", width=18),
                    Column(heading="on", width=22),
                    Column(heading="x", width=16, align=Align.RIGHT),
                    Column(heading="y", width=16, align=Align.RIGHT),
                    Column(heading="from the", width=18),
                    Column(heading="mouth", width=20),
                    Column(heading="angle", width=14),
                    Column(heading="depth", width=16, align=Align.RIGHT),
                    Column(heading="hole", width=22),
                    Column(heading="first piece", width=26),
                ),
                rows=rows,
                remark=f"widths ±0.1, depth from the bare face; {panel.sheet.thickness:g} mm sheet",
            ),
        ),
        views=(View.FACE if layout.blank is None else View.BLANK,),
        marked=frozenset(opening.name for opening, *_ in cones),
    )


def _bend(layout: Layout) -> Station | None:
    blank, panel = layout.blank, layout.panel
    if blank is None:
        return None
    lengths: dict[str, float] = {}
    for worked in bent(panel, layout.cut_outline).values():
        lengths[worked.flange.edge.value] = worked.length
        lengths[f"{worked.flange.edge.value} return"] = worked.second_length
    rows = []
    for bend in blank.bends:
        upright = abs(bend.start.x - bend.end.x) < 1e-6
        at = f"x {mm(bend.start.x)}" if upright else f"y {mm(bend.start.y)}"
        length = lengths[bend.name]
        rows.append(
            (
                str(bend.step),
                bend.name,
                at,
                f"{bend.angle:g}° ±{ANGLE:g}°",
                "forward" if bend.forward else "back",
                f"R{bend.radius:g}",
                mm(bend.allowance),
                f"{mm(length)} {deviation(length, panel)}",
                "________",
            )
        )
    box = layout.cut_outline.bounds
    steps = [
        "Bend in the order of the table. Back is away from whoever looks at the front; the front stays outside.",
        "Springback is the shop's: bend on until the angle stands. Protect the front from the die.",
        f"Outside of the face when bent: {mm(box.width)} x {mm(box.height)} mm, bare.",
    ]
    if panel.bending is not None and panel.bending.die is not None:
        steps.append(f"Die opening {panel.bending.die:g} mm.")
    adjacent = len(panel.flanges) > 2 or {flange.edge.value for flange in panel.flanges} in (
        {"top", "left"}, {"top", "right"}, {"bottom", "left"}, {"bottom", "right"},
    )  # fmt: skip
    cautions = ["Flanges meet at a corner: the last bends want a punch no longer than the edge."] if adjacent else []
    return Station(
        name="Bend",
        steps=tuple(steps),
        listings=(
            Listing(
                title="Bends",
                columns=(
                    Column(heading="step", width=12),
                    Column(heading="bend", width=26),
                    Column(heading="line on the blank", width=32),
                    Column(heading="turned by", width=24),
                    Column(heading="way", width=18),
                    Column(heading="inside", width=16),
                    Column(heading="metal in it", width=20, align=Align.RIGHT),
                    Column(heading="outside length", width=30),
                    Column(heading="first piece", width=26),
                ),
                rows=tuple(rows),
                remark="lines are the middle of the bend, from the lower-left corner of the blank; lengths bare",
            ),
        ),
        cautions=tuple(cautions),
        views=(View.BLANK, View.BENT),
        files=("blank.pdf",),
    )


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
        name="Weld studs",
        steps=("Mark out from behind, weld square to the sheet, clean off spatter.", "Pull-test the first piece."),
        listings=(
            Listing(
                title="Weld studs, seen from behind",
                columns=(
                    Column(heading="stud", width=20),
                    Column(heading="x from the right", width=34, align=Align.RIGHT),
                    Column(heading="y", width=20, align=Align.RIGHT),
                    Column(heading="what", width=80),
                ),
                rows=tuple((part.ref, mm(wide - part.at.x), mm(part.at.y), part.component.title) for part in studs),
                remark="from the corner that is lower left when the panel is seen from behind",
            ),
        ),
        views=(View.BEHIND,),
        marked=frozenset(part.ref for part in studs),
    )


def _hardware(layout: Layout, when: Fitted, *, flat: bool = False) -> Station | None:
    """Pressing and riveting; `flat` is what goes in before bending because the press does not reach it afterwards."""
    panel = layout.panel
    early = pressed_before_bending(layout)
    found = [
        (ref, component, on)
        for ref, component, on in components(panel)
        if component.hardware is not None
        and component.hardware.fastening in (Fastening.PRESSED, Fastening.RIVETED)
        and fitted(component, panel.coat) is when
        and (ref in early) is flat
    ]
    if not found:
        return None
    refs: dict[tuple[str, str], list[str]] = {}
    holes: dict[str, str] = {}
    for ref, component, on in found:
        refs.setdefault((component.title, on), []).append(ref)
        if component.openings:
            holes[component.title] = str(size_of(component.openings[0].contour))
    words = {
        fastening for _, component, _ in found if component.hardware for fastening in [component.hardware.fastening]
    }
    name = "Press in hardware" if Fastening.PRESSED in words else "Set rivets"
    coated = panel.coat.kind != "none"
    if when is Fitted.AFTER_COAT and coated:
        name += ", after the coat"
    if flat:
        name += ", before bending"
    steps = ["Check each hole before fitting; it is not deburred."] if Fastening.PRESSED in words else []
    if Fastening.PRESSED in words:
        steps.append("Squeeze between parallel faces until the shoulder is flush; never hammer. Try a screw in each.")
    if Fastening.RIVETED in words:
        steps.append("Set each until the mandrel breaks; none may turn.")
    if when is Fitted.AFTER_COAT and coated:
        steps.append("Protect the finished face with film under the anvil.")
    return Station(
        name=name,
        steps=tuple(steps),
        listings=(
            Listing(
                title="Hardware by size",
                columns=(
                    Column(heading="quantity", width=20, align=Align.RIGHT),
                    Column(heading="what", width=90),
                    Column(heading="on", width=24),
                    Column(heading="hole", width=26),
                    Column(heading="where", width=90),
                ),
                rows=tuple(
                    (str(len(named)), title, on, holes.get(title, "–"), _named(named))
                    for (title, on), named in refs.items()
                ),
                remark="pressed from behind unless its title says otherwise; quantities for one panel",
            ),
        ),
        cautions=(caution("pressed-in"),) if Fastening.PRESSED in words else (),
        views=_where(found),
        marked=frozenset(ref for ref, _, _ in found),
    )


def _where(found: Sequence[tuple[str, Component, str]]) -> tuple[View, ...]:
    """The face from behind, and the bent panel where hardware goes into flanges."""
    places = {on for _, _, on in found}
    return (*((View.BEHIND,) if "face" in places else ()), *((View.BENT,) if places - {"face"} else ()))


def _mask(layout: Layout) -> Station | None:
    panel = layout.panel
    plugged = plugs(panel)
    if panel.coat.kind == "none" or not (layout.masks or plugged):
        return None
    listings: list[Listing] = []
    if layout.masks:
        listings.append(
            Listing(
                title="Masks",
                columns=(
                    Column(heading="mask", width=18),
                    Column(heading="on", width=22),
                    Column(heading="side", width=16),
                    Column(heading="x", width=18, align=Align.RIGHT),
                    Column(heading="y", width=18, align=Align.RIGHT),
                    Column(heading="size", width=40),
                    Column(heading="why", width=110),
                ),
                rows=tuple(_mask_row(panel, mask) for mask in layout.masks),
                remark=f"{_from_datum(panel)}; sizes of masks on the face in {_named(_mask_files(layout))}"
                if _mask_files(layout)
                else _from_datum(panel),
            )
        )
    if plugged:
        listings.append(
            Listing(
                title="Plugs and caps",
                columns=(
                    Column(heading="quantity", width=20, align=Align.RIGHT),
                    Column(heading="thread", width=40),
                    Column(heading="where", width=150),
                ),
                rows=tuple((str(len(one.refs)), one.thread, _named(one.refs)) for one in plugged),
                remark="nuts are plugged, studs capped; quantities for one panel",
            )
        )
    behind = plugged or any(mask.side is Side.REAR for mask in layout.masks)
    return Station(
        name="Clean and mask",
        steps=(
            "Degrease; handle with gloves from here on.",
            "Lay masks within 0.5 mm, press the edges down; plug or cap every thread in the list.",
        ),
        listings=tuple(listings),
        views=(View.BEHIND if behind else View.FACE,),
        marked=frozenset((*(mask.name for mask in layout.masks), *(ref for one in plugged for ref in one.refs))),
        files=_mask_files(layout),
    )


def _mask_files(layout: Layout) -> tuple[str, ...]:
    sides = sorted({mask.side.value for mask in layout.masks if mask.on == FACE})
    return tuple(f"mask-{side}.dxf" for side in sides)


def _mask_row(panel: Panel, mask: PlacedMask) -> tuple[str, ...]:
    size = size_of(mask.contour)
    at = from_datum(panel, mask.on, size.centre)
    return (mask.name, mask.on, mask.side.value, mm(at.x), mm(at.y), str(size), mask.why)


_COATS = {
    "powder": "Powder-coat",
    "wet-paint": "Paint",
    "anodise": "Anodise",
    "zinc": "Plate with zinc",
    "conversion": "Conversion-coat",
}


def _coat(layout: Layout) -> Station | None:
    panel = layout.panel
    coat = panel.coat
    if coat.kind == "none":
        return None
    faces = "all faces and the walls of openings" if coat.rear else "the front, edges and the walls of openings"
    steps = [
        f"{coat.name or 'Colour as ordered'}, shown here as {coat.colour}, on {faces}.",
        (
            f"Film on one surface: {film_in_words(coat)}. Measure on the front at the middle and near two corners:"
            " ________ ________ ________ mm."
        ),
        _hanging(layout),
    ]
    if coat.kind == "powder":
        steps.append("Cure by the powder's own sheet; time counts from when the metal has the temperature.")
    if layout.masks or plugs(panel):
        steps.append("Take masks and plugs off as soon as the coat allows; bare areas must be clean metal.")
    return Station(
        name=_COATS.get(coat.kind, "Coat"),
        steps=tuple(steps),
        views=(View.BENT if layout.blank is not None else View.FACE,),
        marked=frozenset(hooks(layout).names),
        cautions=("An anodic film insulates: bonding areas are masked, or made bare afterwards.",)
        if coat.kind == "anodise" and layout.masks
        else (),
    )


def _hanging(layout: Layout) -> str:
    """Where the panel may hang: as the spec asks, else by what ends up behind or under something."""
    found = hooks(layout)
    if found.asked:
        return f"Hang by {_named(found.names)}, which are there for it."
    if not found.names and layout.blank is not None:
        return "Hang by a hook over the edge of a flange, on the inside: it is not seen."
    if not found.names:
        return "No opening is covered at its rim: agree with the coater where hooks may touch."
    if layout.blank is not None:
        return f"Hang by the holes of the flanges, {_named(found.names[:4])}: they are not seen."
    return f"Hang by openings whose rim a part covers: {_named(found.names[:6])}."


_INSPECT_COLUMNS = (
    Column(heading="feature", width=26),
    Column(heading="on", width=20),
    Column(heading="x", width=15, align=Align.RIGHT),
    Column(heading="y", width=15, align=Align.RIGHT),
    Column(heading="finished size", width=44),
    Column(heading="tolerance", width=18),
    Column(heading="must pass", width=28),
    Column(heading="measured", width=20),
)


def _length_row(name: str, length: float, panel: Panel) -> tuple[str, ...]:
    return (name, "", "", "", mm(length), deviation(length, panel), "", "________")


def _inspect(layout: Layout) -> Station:
    panel = layout.panel
    wide, high = panel.size
    rows: list[tuple[str, ...]] = [
        _length_row("width", wide, panel),
        _length_row("height", high, panel),
    ]
    hardware = {
        ref: component.hardware
        for ref, component, _ in components(panel)
        if component.hardware is not None and filled(component)
    }
    for opening in layout.every_opening:
        size = size_of(opening.finished, opening.turn)
        at = from_datum(panel, opening.on, size.centre)
        if opening.ref in hardware:
            told = hardware[opening.ref].thread
            rows.append((opening.name, opening.on, mm(at.x), mm(at.y), told, "", "a screw" if told else "", "________"))
            continue
        passing = "" if opening.passes is None else str(size_of(opening.passes, opening.turn))
        allowed = deviation(_widest(size), panel, opening.tolerance)
        rows.append((opening.name, opening.on, mm(at.x), mm(at.y), str(size), allowed, passing, "________"))
        if (cone := opening.countersink) is not None:
            mouth = f"Ø{cone.finished:.2f} countersink"
            rows.append((opening.name, opening.on, "", "", mouth, deviation(cone.finished, panel), "", "________"))
    for flange in panel.flanges:
        rows.append(_length_row(f"{flange.edge.value} flange", flange.length, panel))
        rows.append((f"{flange.edge.value} bend", "", "", "", f"{flange.angle:g}°", f"±{ANGLE:g}°", "", "________"))
        if (second := flange.second) is not None:
            rows.append(_length_row(f"{flange.edge.value} return", second.length, panel))
            angle = f"{second.angle:g}°"
            rows.append((f"{flange.edge.value} return bend", "", "", "", angle, f"±{ANGLE:g}°", "", "________"))
    return Station(
        name="Inspect",
        steps=(
            "Measure the first piece and each that the plan names; enter the values or use inspection.csv.",
            "Try a part, or a gauge of its size, in every opening that something must pass.",
        ),
        listings=(
            Listing(
                title="Finished sizes",
                columns=_INSPECT_COLUMNS,
                rows=tuple(rows),
                remark=f"{_from_datum(panel)}; ISO 2768-{panel.making.tolerance} where nothing else is said",
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
    told = marking_steps(layout, plates)
    return Station(
        name=marking.process.title,
        steps=(
            *told.steps,
            f"Register: within {marking.register:g} mm of the openings. Check at two corners that lie far apart.",
            "Read every legend against the picture; no letter may be broken or filled.",
        ),
        listings=told.listings,
        views=(View.LOOK,),
        files=told.files,
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
    refs: dict[str, list[str]] = {}
    notes: dict[str, Component] = {}
    for ref, component, on in parts:
        refs.setdefault(component.title, []).append(ref if on == "face" else f"{ref} ({on})")
        notes[component.title] = component
    knobs = [
        f"{part.ref} ({part.knob.name})" if part.knob.name else part.ref
        for part in panel.parts
        if part.knob is not None
    ]
    cautions = tuple(
        dict.fromkeys(caution(key) for _, component, _ in parts for key in component.cautions if key != "pressed-in")
    )
    steps = ["Remove plugs, caps and masks; blow the threads out."] if plugs(panel) or layout.masks else []
    steps += [
        "Fit each part from its own side with its own washers and nuts, the gasket against the face.",
        "Tightening torque is that of the part's own sheet; hold the part, turn the nut.",
    ]
    if knobs:
        steps.append(f"Knobs last: {_named(knobs)}, pointer on the low end of the scale.")
    return Station(
        name="Assemble",
        steps=tuple(steps),
        listings=(
            Listing(
                title="Parts",
                columns=(
                    Column(heading="quantity", width=20, align=Align.RIGHT),
                    Column(heading="what", width=110),
                    Column(heading="where", width=140),
                ),
                rows=tuple((str(len(named)), title, _named(named)) for title, named in refs.items()),
                remark="quantities for one panel",
            ),
        ),
        cautions=cautions,
        views=(View.LOOK,),
    )


def _pack(layout: Layout) -> Station:
    making = layout.panel.making
    first, last = serials(making)
    numbered = "" if not first else f" Serial numbers {first} to {last}."
    return Station(
        name="Pack",
        steps=(
            f"Count: {making.quantity} good.{numbered}",
            "Film or tissue on the front, each piece by itself, none face to face.",
            "Put this sheet, filled in, with the pieces.",
        ),
    )
