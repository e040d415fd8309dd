"""How the marking is made ready for its process: by the spec, the shop's figures and common practice."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from io import BytesIO
from pathlib import Path
from typing import Any, Final

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean
from panelart.geometry import Box, Contour, Point, Vector, direction, rectangle
from panelart.lettering.outline import Shape, shape_of
from panelart.messages import spec as spec_said
from panelart.messages import spec_lettering as lettering_said
from panelart.messages import spec_marking as said
from panelart.model.light import lightness
from panelart.model.panel import Coat, Ink
from panelart.model.printing import (
    CUTTERS,
    Background,
    Base,
    Engraving,
    Filling,
    Gloss,
    Gradient,
    Laser,
    Overlay,
    Photo,
    Printing,
    Solid,
    Stop,
    Thin,
)
from panelart.processes.process import BeamLines, CutterPaths, Emulsion, LabelFilm, Positives, Process
from panelart.processes.registry import processes
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.source.schema import Field, Value
from panelart.spec import language
from panelart.spec.art import fitted_in
from panelart.spec.shop import Shop, named_file, output

MAX_PIXELS: Final = 25_000_000


class PrintContext(Struct, frozen=True, kw_only=True):
    """What decides besides the spec's own words: the process, its shop, the inks, the face, and how files are read."""

    process: Process
    shop: Shop
    inks: tuple[Ink, ...]
    coat: Coat
    outline: Contour
    datum: Point
    folder: Path
    read_file: Callable[[Path], bytes]
    area: Callable[[language.Area], Contour | None]
    problems: Problems

    def figure(self, name: str) -> float:
        """A figure of the process, 0 where it has none of that name."""
        return self.process.figure(name)


def printing(fields: language.Marking, cutter: float | None, context: PrintContext) -> Printing:
    """All that the spec says of printing, cutting and burning. Slips are added to the problems."""
    process = context.process
    _only_for(fields, context)
    _plates_apart(fields, context)
    prints = process.lays_ink
    asked = output(fields.output, context.folder, context.read_file, context.problems)
    overlay = _overlay(fields.overlay, context) if process.gives(LabelFilm) else None
    return Printing(
        base=_base(fields, overlay, context) if prints else None,
        varnish=_varnish(fields) if prints else None,
        trap=_trap(fields, context) if prints else 0.0,
        ink_margin=context.process.opening_margin.value,
        thread_margin=context.figure("thread_margin"),
        mask_margin=context.figure("mask_margin"),
        edge_margin=context.process.edge_margin.value,
        backgrounds=_backgrounds(fields, context) if prints else (),
        emulsion=_emulsion(fields, context),
        pins=context.shop.pins if process.gives(Positives) else None,
        head_clearance=context.shop.head_clearance,
        engraving=_engraving(fields.engraving, cutter, context) if process.gives(CutterPaths) else None,
        laser=_laser(fields.laser, context) if process.gives(BeamLines) else None,
        overlay=overlay,
        output=asked or context.shop.output,
        plates=context.shop.plates,
        shop=context.shop.name,
        machine=context.shop.machine,
    )


def _emulsion(fields: language.Marking, context: PrintContext) -> Emulsion:
    """The side asked for, else that of the shop, else the one that the process's positives need as a rule."""
    asked = fields.emulsion or context.shop.emulsion
    usual = context.process.gives(Positives)
    return Emulsion(asked) if asked else Emulsion.UP if usual is None else usual.emulsion


def _varnish(fields: language.Marking) -> Gloss | None:
    return None if fields.varnish == "none" else Gloss(fields.varnish)


def _trap(fields: language.Marking, context: PrintContext) -> float:
    return context.figure("trap") if fields.trap is None else fields.trap


def _lays_ink(process: Process) -> bool:
    return process.lays_ink


def _giving(kind: type[Positives | CutterPaths | BeamLines | LabelFilm]) -> Callable[[Process], bool]:
    return lambda process: any(isinstance(output, kind) for output in process.outputs)


_FOR: Final[tuple[tuple[Field[Any], Callable[[Process], bool]], ...]] = (
    (language.Marking.base, _lays_ink),
    (language.Marking.varnish, _lays_ink),
    (language.Marking.trap, _lays_ink),
    (language.Marking.backgrounds, _lays_ink),
    (language.Marking.emulsion, _giving(Positives)),
    (language.Marking.engraving, _giving(CutterPaths)),
    (language.Marking.laser, _giving(BeamLines)),
    (language.Marking.overlay, _giving(LabelFilm)),
    (language.Marking.output, _lays_ink),
)
"""Which processes take which key."""


def _only_for(fields: language.Marking, context: PrintContext) -> None:
    for field, takes in _FOR:
        if fields.written(field) and not takes(context.process):
            context.problems.add(
                fields.key_where(field),
                lettering_said.key_of_other_process(field.name, context.process.name),
                lettering_said.processes_with_key([one.name for one in processes().values() if takes(one)]),
            )


def _plates_apart(fields: language.Marking, context: PrintContext) -> None:
    """An ink may not have the name of a plate that the shop uses for something else."""
    plates = context.shop.plates
    taken = {plates.base.casefold(): "base", plates.varnish.casefold(): "varnish", plates.cut.casefold(): "cut"}
    for ink in context.inks:
        what = taken.get(ink.name.casefold())
        if what is not None:
            context.problems.add(fields.begins, said.ink_named_as_plate(ink.name, what), said.rename_ink_or_plate())


def _base(fields: language.Marking, overlay: Overlay | None, context: PrintContext) -> Base | None:
    """The base under the inks, None where the spec wants none or the ground is light enough to do without."""
    written, needed = fields.base, context.process.base
    if written is False or (written is None and lightness(_ground(overlay, context)) >= needed.face):
        return None
    own = written if isinstance(written, language.Base) else language.Base.empty(fields.begins)
    return Base(
        choke=context.figure("base_choke") if own.choke is None else own.choke,
        hold=context.figure("base_line_minimum"),
        thin=Thin(own.thin),
        under=_not_white(context) if own.under is None else _under(own.under, context),
    )


def _ground(overlay: Overlay | None, context: PrintContext) -> str:
    """The colour that the inks are laid on: that of the film, or of the face."""
    return context.coat.colour if overlay is None or not overlay.colour else overlay.colour


def _not_white(context: PrintContext) -> tuple[str, ...]:
    """The inks that have base under them where nothing is said."""
    return tuple(ink.name for ink in context.inks if lightness(ink.colour) < context.process.base.ink)


def _under(asked: tuple[Value[str], ...], context: PrintContext) -> tuple[str, ...]:
    """The inks that are to have base under them, each once; those that are not known are told."""
    known = {ink.name for ink in context.inks}
    for ink in asked:
        if ink.value not in known:
            hint = did_you_mean(ink.value, known, spec_said.inks())
            context.problems.add(ink.where, lettering_said.unknown_ink(ink.value), hint)
    return tuple(dict.fromkeys(ink.value for ink in asked if ink.value in known))


# --- backgrounds


def _backgrounds(fields: language.Marking, context: PrintContext) -> tuple[Background, ...]:
    make: dict[type[Noun], Callable[[Any, PrintContext], Background | None]] = {
        language.Background: _colour,
        language.PlacedPicture: _picture,
        language.PlacedDrawing: _drawing,
    }
    found = (make[type(item.value)](item.value, context) for item in fields.backgrounds or ())
    return tuple(background for background in found if background is not None)


def _bleed(
    fields: language.Background | language.PlacedPicture | language.PlacedDrawing, context: PrintContext
) -> float | None:
    """How far the colour runs past the edge, None where it stops short of it."""
    edge = fields.edge or ("bleed" if context.process.bleeds else "short")
    bleed = fields.bleed
    if edge == "short":
        if bleed is not None:
            if fields.written(language.PlacedPicture.edge):
                context.problems.add(
                    fields.key_where(language.PlacedPicture.bleed),
                    said.short_with_bleed(),
                    said.bleed_or_short(),
                )
            return bleed
        return None
    return context.figure("bleed") if bleed is None else bleed


def _colour(fields: language.Background, context: PrintContext) -> Background | None:
    ink = _ink(fields, language.PlacedDrawing.ink, context)
    written = fields.area
    area = None if written is None else context.area(written)
    if ink is None or (area is None and fields.written(language.Background.area)):
        return None
    bleed = _bleed(fields, context)
    colour = _solid(fields, ink, context) if fields.to is None else _run(fields, fields.to, ink, area, bleed, context)
    if colour is None:
        return None
    shape = None if area is None else shape_of(area.ccw())
    return Background(colour=colour, area=shape, bleed=bleed, where=fields.begins)


def _solid(fields: language.Background, ink: str, context: PrintContext) -> Solid:
    """One ink in one tint, of which no way to run can be said."""
    for field in (language.Background.run, language.Background.round):
        if fields.written(field):
            without = said.run_without_gradient(field.name)
            context.problems.add(fields.key_where(field), without, said.only_with_to(field.name))
    return Solid(ink=ink, tint=fields.tint / 100.0)


def _run(
    fields: language.Background,
    to: language.FarEnd,
    ink: str,
    area: Contour | None,
    bleed: float | None,
    context: PrintContext,
) -> Gradient | None:
    """An ink that runs to another tint or ink over its area, or over the face with its bleed."""
    last = _ink(to, language.FarEnd.ink, context) if to.written(language.FarEnd.ink) else ink
    if last is None:
        return None
    box = context.outline.bounds.grown(bleed or 0.0) if area is None else area.bounds
    stops = (
        Stop(at=0.0, ink=ink, tint=fields.tint / 100.0),
        Stop(at=1.0, ink=last, tint=to.tint / 100.0),
    )
    return _gradient(stops, box, fields)


def _gradient(stops: tuple[Stop, ...], box: Box, fields: language.Background) -> Gradient:
    """A gradient over the whole of a box: from side to side as it runs, or from its middle to its corners."""
    centre = box.centre
    if fields.round:
        corner = Point(box.right, box.top)
        return Gradient(stops=stops, start=centre, end=centre.moved(Vector(centre.distance(corner), 0.0)), round=True)
    way = direction(fields.run)
    half = (abs(way.x) * box.width + abs(way.y) * box.height) / 2
    return Gradient(stops=stops, start=centre.moved(way.scaled(-half)), end=centre.moved(way.scaled(half)))


def _ink(fields: Noun, field: Field[str | None], context: PrintContext) -> str | None:
    name = fields[field]
    known = {ink.name for ink in context.inks}
    if name is not None and name not in known:
        hint = did_you_mean(name, known, spec_said.inks())
        context.problems.add(fields.where(field), lettering_said.unknown_ink(name), hint)
        return None
    return name


def _box(fields: language.PlacedPicture | language.PlacedDrawing, context: PrintContext) -> Box | None:
    written = fields.box
    if written is None:
        return None
    x, y, width, height = written
    corner = context.datum.moved(Vector(x, y))
    box = Box(corner.x, corner.y, corner.x + width, corner.y + height)
    if not box.overlaps(context.outline.bounds):
        context.problems.add(fields.where(language.PlacedPicture.box), said.box_outside(), said.box_on_panel())
        return None
    return box


def _drawing(fields: language.PlacedDrawing, context: PrintContext) -> Background | None:
    box, ink, name = _box(fields, context), _ink(fields, language.PlacedDrawing.ink, context), fields.drawing
    if name is None:
        return None
    where = fields.where(language.PlacedDrawing.drawing)
    data = named_file(name, where, context.folder, context.read_file, spec_said.drawing_unreadable, context.problems)
    if data is None:
        return None
    from panelart.spec.svg_art import read_svg  # and with it a reader of XML

    shape, slips = read_svg(data, (context.folder / name).as_posix())
    for slip in slips:
        context.problems.add(slip.where, slip.says, slip.accepts)
    if not shape or box is None or ink is None:
        return None
    return Background(
        colour=Solid(ink=ink, tint=fields.tint / 100.0),
        area=fitted_in(shape, box),
        bleed=_bleed(fields, context),
        where=fields.begins,
    )


def _picture(fields: language.PlacedPicture, context: PrintContext) -> Background | None:
    box, name = _box(fields, context), fields.picture
    ink = _ink(fields, language.PlacedPicture.ink, context) if fields.written(language.PlacedPicture.ink) else None
    if not fields.written(language.PlacedPicture.ink) and not context.process.press_colours:
        without = said.picture_without_ink(context.process.title)
        context.problems.add(fields.begins, without, said.name_of_ink())
    if name is None:
        return None
    where = fields.where(language.PlacedPicture.picture)
    data = named_file(name, where, context.folder, context.read_file, said.picture_unreadable, context.problems)
    photo = None if data is None else _photo(data, name, ink, where, context.problems)
    if photo is None or box is None:
        return None
    frame: Shape = shape_of(rectangle(box.width, box.height, box.centre))
    return Background(colour=photo, area=frame, bleed=_bleed(fields, context), where=fields.begins)


def _photo(data: bytes, name: str, ink: str | None, where: Where, problems: Problems) -> Photo | None:
    """A PNG as pixels. What else it may be, or how it is broken, is told in one line."""
    from PIL import Image

    hint = said.png_picture(MAX_PIXELS // 1_000_000)
    try:
        with Image.open(BytesIO(data), formats=("PNG",)) as picture:
            width, height = picture.size
            if width * height > MAX_PIXELS:
                problems.add(where, said.picture_too_large(name, width, height), hint)
                return None
            pixels = picture.convert("RGBA").tobytes()
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        problems.add(where, said.picture_not_png(name), hint)
        return None
    return Photo(file=name, width=width, height=height, pixels=pixels, ink=ink)


# --- cutters, beams, label films


def _engraving(fields: language.Engraving | None, cutter: float | None, context: PrintContext) -> Engraving:
    fields = fields or language.Engraving.empty(Where("", 1, 1))
    asked = fields.cutters
    if asked is not None and cutter is not None:
        context.problems.add(
            fields.key_where(language.Engraving.cutters),
            said.cutter_and_cutters(),
            spec_said.one_of_two(),
        )
    usual = CUTTERS if cutter is None else (cutter,)
    cutters = usual if asked is None else tuple(sorted({item.value for item in asked}))
    depth = fields.depth
    return Engraving(
        cutters=cutters,
        depth=context.figure("depth") if depth is None else depth,
        filling=Filling(fields.fill),
        overlap=fields.overlap / 100.0,
        angle=fields.angle,
    )


def _laser(fields: language.Laser | None, context: PrintContext) -> Laser:
    fields = fields or language.Laser.empty(Where("", 1, 1))
    spacing, beam = fields.spacing, fields.beam
    return Laser(
        spacing=context.figure("spacing") if spacing is None else spacing,
        beam=context.figure("beam") if beam is None else beam,
        filling=Filling(fields.fill),
        angle=fields.angle,
    )


_OVERLAY_FIGURES: Final[Mapping[str, tuple[Field[float | None], str]]] = {
    "inset": (language.Overlay.inset, "overlay_inset"),
    "corner": (language.Overlay.corner, "overlay_corner"),
    "nut_margin": (language.Overlay.nut_margin, "nut_margin"),
    "window_margin": (language.Overlay.window_margin, "window_margin"),
    "adhesive_margin": (language.Overlay.adhesive_margin, "adhesive_margin"),
}


def _overlay(fields: language.Overlay | None, context: PrintContext) -> Overlay:
    fields = fields or language.Overlay.empty(Where("", 1, 1))
    figures: dict[str, float] = {}
    for name, (field, common) in _OVERLAY_FIGURES.items():
        value = fields[field]
        figures[name] = context.figure(common) if value is None else value
    minimum = min(context.outline.bounds.width, context.outline.bounds.height)
    if 2 * figures["inset"] >= minimum or not math.isfinite(minimum):
        context.problems.add(
            fields.where(language.Overlay.inset),
            said.inset_leaves_no_film(figures["inset"], minimum),
            spec_said.less_than(minimum / 2),
        )
        figures["inset"] = 0.0
    areas = (context.area(item.value) for item in fields.adhesive_free or ())
    colour = fields.colour
    return Overlay(
        **figures,
        free=tuple(area for area in areas if area is not None),
        colour="" if colour == "clear" else colour,
        reverse=fields.reverse,
    )
