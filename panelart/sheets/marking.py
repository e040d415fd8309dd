"""What the station that marks the face does, by the panel's process: its files, plates or cutters, and steps."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.lettering.look import Align
from panelart.marking.areas import loops_of, square_cm
from panelart.marking.burning import burn_plan
from panelart.marking.engraving import engraving_plan
from panelart.marking.film import adhesive_area, film_outline, windows
from panelart.marking.separation import Separations, separations
from panelart.model.layout import Layout
from panelart.model.printing import Emulsion, Engraving, Filling, Laser, Overlay, Thin
from panelart.sheets.listing import Listing
from panelart.sheets.paper import Column


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkingSteps:
    """What is done, the tables that go with it, and the files it works from."""

    steps: tuple[str, ...]
    listings: tuple[Listing, ...] = ()
    files: tuple[str, ...]


def marking_steps(layout: Layout, plates: Separations | None = None) -> MarkingSteps:
    """The steps of the panel's own process; `plates` where they are parted already."""
    printing = layout.panel.marking.printing
    if printing.engraving is not None:
        return _engraved(layout, printing.engraving)
    if printing.laser is not None:
        return _burnt(layout, printing.laser)
    plates = separations(layout) if plates is None else plates
    if printing.overlay is not None:
        return _overlaid(layout, plates, printing.overlay)
    if layout.panel.marking.process.name == "screen-print":
        return _screened(plates)
    return MarkingSteps(
        steps=(
            f"Lay down {_inks(layout)} from artwork.pdf, 1:1, seen from the front.",
            *_base_words(plates),
        ),
        listings=(_plates(plates),),
        files=("artwork.pdf", "artwork.svg", "plates.csv"),
    )


def _inks(layout: Layout) -> str:
    return ", ".join(f"{ink.name} ({ink.colour})" for ink in layout.panel.marking.inks)


def _base_words(plates: Separations) -> tuple[str, ...]:
    """What the printer must know of the base, and of what they are not to do again."""
    printing = plates.layout.panel.marking.printing
    base = printing.base
    if base is None or plates.laid_base.ground.is_empty:
        return ()
    rule = "has base as wide as itself" if base.thin is Thin.FULL else "has no base"
    thin = f"; ink thinner than {2 * base.choke + base.hold:g} mm {rule}" if base.choke or base.hold else ""
    told = (
        f"Base ({printing.plates.base}) first, under {', '.join(base.under) or 'pictures'}. It is already drawn in by"
        f" {base.choke:g} mm{thin}: no choke in the printer's own program."
    )
    return (told,)


def _screened(plates: Separations) -> MarkingSteps:
    layout = plates.layout
    printing = layout.panel.marking.printing
    up = printing.emulsion is Emulsion.UP
    way = "right reading with the emulsion up, not mirrored" if up else "right reading with the emulsion down, mirrored"
    names = film_names(plates)
    trap = f" Inks that touch overlap by {printing.trap:g} mm." if printing.trap and len(names) > 1 else ""
    return MarkingSteps(
        steps=(
            f"Films at 1:1, {way}. Lay them on each other by the four register marks; the dot is at the lower mark.",
            f"Print in the order of the films: {_inks(layout)}.{trap}",
            *_base_words(plates),
        ),
        listings=(_plates(plates),),
        files=(*(f"{name}.pdf" for name in names), "artwork.pdf", "plates.csv"),
    )


def film_names(plates: Separations) -> tuple[str, ...]:
    """The names of the films that there are, in the order of printing."""
    found = ["film-base"] if loops_of(plates.laid_base.ground) else []
    found += [f"film-{plate.ink.file_slug}" for plate in plates.inks if loops_of(plates.ink_area(plate.ink.name))]
    return (*found, *(("film-varnish",) if loops_of(plates.varnish) else ()))


def _plates(plates: Separations) -> Listing:
    return Listing(
        title="Plates",
        columns=(
            Column(heading="plate", width=50),
            Column(heading="what", width=30),
            Column(heading="colour", width=30),
            Column(heading="covered, cm\N{SUPERSCRIPT TWO}", width=36, align=Align.RIGHT),
            Column(heading="solid ink, cm\N{SUPERSCRIPT TWO}", width=36, align=Align.RIGHT),
        ),
        rows=tuple(
            (plate.name, plate.what, plate.colour, f"{plate.covered:.2f}", f"{plate.solid:.2f}")
            for plate in plates.sizes
        ),
        remark="for one panel; tints count as solid ink by their share",
    )


def _engraved(layout: Layout, how: Engraving) -> MarkingSteps:
    plan = engraving_plan(layout, how)
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
        for cut in plan.cuts
    )
    columns = tuple(
        Column(heading=heading, width=30, align=Align.RIGHT if heading != "fill" else Align.LEFT)
        for heading in ("cutter", "depth", "fill", "paths", "cut, m", "travel, m", "as drawn, m")
    )
    missed = f" {100 * plan.uncut:.2f} mm² are too narrow for any cutter." if plan.uncut else ""
    return MarkingSteps(
        steps=(
            f"Cut engraving.dxf in its order, a layer for each cutter, {how.depth:g} mm deep from the face.{missed}",
            f"Fill with {_inks(layout)}; wipe the face clean.",
        ),
        listings=(Listing(title="Cutters", columns=columns, rows=rows, remark="paths are the middle of the cutter"),),
        files=("engraving.dxf", "engraving.svg", "artwork.pdf"),
    )


def _burnt(layout: Layout, how: Laser) -> MarkingSteps:
    if how.filling is Filling.RASTER:
        return MarkingSteps(
            steps=(
                f"Burn laser.png dot by dot, {25.4 / how.spacing:.0f} dots an inch; its edge is the edge of the face.",
            ),
            files=("laser.png", "artwork.pdf"),
        )
    burn = burn_plan(layout, how)
    told = (
        f"Burn laser.dxf in its order: beam {how.beam:g} mm, lines {how.spacing:g} mm apart, {len(burn.paths)} lines,"
        f" {burn.length / 1000:.2f} m; {burn.travel / 1000:.2f} m between them."
    )
    return MarkingSteps(
        steps=(told,),
        files=("laser.dxf", "laser.svg", "artwork.pdf"),
    )


def _overlaid(layout: Layout, plates: Separations, how: Overlay) -> MarkingSteps:
    box = film_outline(layout, how).bounds
    side = "on the back of the film, mirrored" if how.reverse else "on the front of the film"
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
        Column(heading="window", width=50),
        *(Column(heading=heading, width=24, align=Align.RIGHT) for heading in ("width", "height", "x", "y")),
    )
    film = (
        f"Film {box.width:.2f} x {box.height:.2f} mm, {how.film or 'clear'}; print {_inks(layout)} {side} from"
        " overlay.pdf, 1:1."
    )
    adhesive = (
        f"Adhesive on {square_cm(adhesive_area(layout, how)):.2f} cm², {how.adhesive_margin:g} mm"
        " short of edge and windows, none in the areas that are to be free."
    )
    return MarkingSteps(
        steps=(
            film,
            *_base_words(plates),
            adhesive,
            "Kiss-cut overlay-cut.dxf through the film, not through the liner: windows first, the edge last.",
            f"Stick it on degreased, {how.inset:g} mm inside the edge of the panel all round.",
        ),
        listings=(
            _plates(plates),
            Listing(
                title="Windows", columns=columns, rows=rows, remark="middles from the lower-left corner of the film"
            ),
        ),
        files=("overlay.pdf", "overlay-cut.dxf", "overlay-cut.svg", "plates.csv"),
    )
