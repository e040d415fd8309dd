"""What the station that marks the face does: what its process says of it, with the tables and files of its outputs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, assert_never

import shapely

from panelart.canonical import Struct
from panelart.lettering.look import Align
from panelart.marking.areas import grown, loops_of, square_cm
from panelart.marking.burning import burn_plan
from panelart.marking.engraving import engraving_plan
from panelart.marking.overlay import adhesive_area, overlay_outline, windows
from panelart.marking.separation import Separations, separations
from panelart.messages import Said
from panelart.messages import sheets as common
from panelart.messages import sheets_marking as said
from panelart.model.layout import Layout
from panelart.model.printing import Background, Base, Filling, Gradient, Photo, Thin
from panelart.processes.process import (
    BaseLaid,
    BeamLines,
    Burning,
    CutterPaths,
    Cutting,
    FilmLaid,
    LabelFilm,
    Output,
    PlateLaid,
    Positives,
    PrintFile,
    Work,
)
from panelart.sheets.listing import Listing
from panelart.sheets.orders import order_facts
from panelart.sheets.paper import Column

PLATES_LIST: Final = "plates.csv"


class MarkingSteps(Struct, frozen=True, kw_only=True):
    """What is done and minded, the tables that go with it, and the files it works from."""

    steps: tuple[Said, ...]
    cautions: tuple[Said, ...] = ()
    listings: tuple[Listing, ...] = ()
    files: tuple[str, ...]


def marking_steps(layout: Layout, plates: Separations | None = None) -> MarkingSteps:
    """The steps of the panel's own process; `plates` where they are parted already."""
    process = layout.panel.marking.process
    if plates is None and process.lays_ink:
        plates = separations(layout)
    work = work_of(layout, plates)
    listings: list[Listing] = []
    files: list[str] = []
    for output in process.outputs:
        tables, names = _given(output, layout, plates, work)
        listings += tables
        files += names
    return MarkingSteps(
        steps=tuple(process.steps(work)),
        cautions=tuple(process.cautions(work)),
        listings=tuple(listings),
        files=tuple(dict.fromkeys(files)),
    )


# --- what a process is told


def work_of(layout: Layout, plates: Separations | None) -> Work:
    """What is known of a panel once it is laid out; `plates` are those of a process that prints."""
    panel = layout.panel
    printing = panel.marking.printing
    positives = panel.marking.process.gives(Positives)
    return Work(
        **order_facts(panel),
        laid_base=None if plates is None else _base(plates, printing.base),
        plates=() if plates is None or positives is None else tuple(_plates_laid(plates, positives)),
        trap=printing.trap,
        emulsion=printing.emulsion,
        tinted=any(map(_is_tinted, printing.backgrounds)),
        textured=panel.coat.textured,
        bent=bool(panel.flanges),
        cutting=_cutting(layout),
        burning=_burning(layout),
        film=_film(layout),
    )


def _is_tinted(background: Background) -> bool:
    colour = background.colour
    return isinstance(colour, Gradient | Photo) or colour.tint < 1.0


def _base(plates: Separations, base: Base | None) -> BaseLaid | None:
    if base is None or plates.laid_base.ground.is_empty:
        return None
    return BaseLaid(
        plate=plates.layout.panel.marking.printing.plates.base,
        under=base.under,
        choke=base.choke,
        thin=2 * base.choke + base.hold if base.choke or base.hold else 0.0,
        full=base.thin is Thin.FULL,
    )


def _plates_laid(plates: Separations, kind: Positives) -> Iterator[PlateLaid]:
    """The plates with something on them in the order of printing, each with the name of its positive."""
    marking = plates.layout.panel.marking
    names, wide = marking.printing.plates, marking.process.figure("solid_maximum")
    grounds: list[tuple[str, str, shapely.Geometry]] = [(names.base, "base", plates.laid_base.ground)]
    grounds += [(plate.ink.name, plate.ink.file_slug, plates.ink_area(plate.ink.name)) for plate in plates.inks]
    grounds.append((names.varnish, "varnish", plates.varnish))
    for name, slug, ground in grounds:
        if loops_of(ground):
            left, bottom, right, top = ground.bounds
            yield PlateLaid(
                name=name,
                file=f"{kind.file}-{slug}.pdf",
                width=right - left,
                height=top - bottom,
                solid=bool(wide) and not grown(ground, -wide / 2).is_empty,
            )


def _cutting(layout: Layout) -> Cutting | None:
    how = layout.panel.marking.printing.engraving
    return None if how is None else Cutting(depth=how.depth, uncut=100 * engraving_plan(layout, how).uncut)


def _burning(layout: Layout) -> Burning | None:
    how = layout.panel.marking.printing.laser
    if how is None:
        return None
    if how.filling is Filling.RASTER:
        return Burning(spacing=how.spacing, beam=how.beam, raster=True)
    burn = burn_plan(layout, how)
    return Burning(
        spacing=how.spacing,
        beam=how.beam,
        raster=False,
        count=len(burn.paths),
        length=burn.length / 1000,
        travel=burn.travel / 1000,
    )


def _film(layout: Layout) -> FilmLaid | None:
    how = layout.panel.marking.printing.overlay
    if how is None:
        return None
    box = overlay_outline(layout, how).bounds
    return FilmLaid(
        width=box.width,
        height=box.height,
        colour=how.colour,
        reverse=how.reverse,
        adhesive=square_cm(adhesive_area(layout, how)),
        adhesive_margin=how.adhesive_margin,
        inset=how.inset,
    )


# --- tables and files of each kind of output


def _given(
    output: Output, layout: Layout, plates: Separations | None, work: Work
) -> tuple[tuple[Listing, ...], tuple[str, ...]]:
    """The tables that go with an output, and the files that are worked from."""
    art = "artwork.pdf"
    listed = () if plates is None else (_plates(plates),)
    match output:
        case PrintFile():
            return listed, (art, "artwork.svg", PLATES_LIST)
        case Positives():
            return listed, (*(plate.file for plate in work.plates), art, PLATES_LIST)
        case CutterPaths(file=file):
            return _cutters(layout), (f"{file}.dxf", f"{file}.svg", art)
        case BeamLines(file=file):
            raster = work.burning is not None and work.burning.raster
            return (), (f"{file}.png", art) if raster else (f"{file}.dxf", f"{file}.svg", art)
        case LabelFilm(file=file):
            return (*listed, *_windows(layout)), (f"{file}.pdf", f"{file}-cut.dxf", f"{file}-cut.svg", PLATES_LIST)
        case other:
            assert_never(other)


def _plates(plates: Separations) -> Listing:
    return Listing(
        title=said.plates(),
        columns=(
            Column(heading=said.column_plate(), width=50),
            Column(heading=said.column_kind(), width=30),
            Column(heading=said.column_colour(), width=30),
            Column(heading=said.column_covered(), width=36, align=Align.RIGHT),
            Column(heading=said.column_solid(), width=36, align=Align.RIGHT),
        ),
        rows=tuple(
            (plate.name, plate.what, plate.colour, f"{plate.covered:.2f}", f"{plate.solid:.2f}")
            for plate in plates.sizes
        ),
        remark=said.plates_remark(),
    )


def _cutters(layout: Layout) -> tuple[Listing, ...]:
    how = layout.panel.marking.printing.engraving
    if how is None:
        return ()
    rows = tuple(
        (
            f"{cut.cutter:g}",
            f"{how.depth:g}",
            cut.ink.name,
            str(len(cut.paths)),
            f"{cut.length / 1000:.2f}",
            f"{cut.travel / 1000:.2f}",
            f"{cut.unordered / 1000:.2f}",
        )
        for cut in engraving_plan(layout, how).cuts
    )
    fill = said.column_fill()
    columns = tuple(
        Column(heading=heading, width=34, align=Align.LEFT if heading is fill else Align.RIGHT)
        for heading in (
            said.column_cutter(),
            common.column_depth(),
            fill,
            said.column_paths(),
            said.column_cut_length(),
            said.column_travel(),
            said.column_travel_as_drawn(),
        )
    )
    return (Listing(title=said.cutters(), columns=columns, rows=rows, remark=said.cutters_remark()),)


def _windows(layout: Layout) -> tuple[Listing, ...]:
    how = layout.panel.marking.printing.overlay
    if how is None:
        return ()
    box = overlay_outline(layout, how).bounds
    rows = tuple(
        (
            window.name,
            f"{window.contour.bounds.width:.2f}",
            f"{window.contour.bounds.height:.2f}",
            f"{window.contour.bounds.centre.x - box.left:.2f}",
            f"{window.contour.bounds.centre.y - box.bottom:.2f}",
        )
        for window in windows(layout, how)
    )
    columns = (
        Column(heading=said.column_window(), width=50),
        *(
            Column(heading=heading, width=24, align=Align.RIGHT)
            for heading in (common.column_width(), common.column_height(), "x", "y")
        ),
    )
    return (Listing(title=said.windows(), columns=columns, rows=rows, remark=said.windows_remark()),)
