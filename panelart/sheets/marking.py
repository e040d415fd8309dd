"""What the station that marks the face does, by the panel's process: its files, plates or cutters, and steps."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.lettering.look import Align
from panelart.marking.areas import loops_of, square_cm
from panelart.marking.burning import burn_plan
from panelart.marking.engraving import engraving_plan
from panelart.marking.overlay import adhesive_area, overlay_outline, windows
from panelart.marking.separation import Separations, separations
from panelart.messages import Message, Said
from panelart.messages import sheets as common
from panelart.messages import sheets_marking as said
from panelart.model.layout import Layout
from panelart.model.printing import Emulsion, Engraving, Filling, Laser, Overlay, Thin
from panelart.sheets.listing import Listing
from panelart.sheets.paper import Column


class MarkingSteps(Struct, frozen=True, kw_only=True):
    """What is done, the tables that go with it, and the files it works from."""

    steps: tuple[Said, ...]
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
        steps=(said.print_artwork(inks=_inks(layout)), *_base_steps(plates)),
        listings=(_plates(plates),),
        files=("artwork.pdf", "artwork.svg", "plates.csv"),
    )


def _inks(layout: Layout) -> list[Message]:
    return [said.ink(name=ink.name, colour=ink.colour) for ink in layout.panel.marking.inks]


def _base_steps(plates: Separations) -> tuple[Message, ...]:
    """What the printer must know of the base, and of what they must not do again."""
    printing = plates.layout.panel.marking.printing
    base = printing.base
    if base is None or plates.laid_base.ground.is_empty:
        return ()
    plate = printing.plates.base
    first = said.base_under_inks(plate=plate, inks=base.under) if base.under else said.base_under_pictures(plate=plate)
    sentences = [first, said.base_choked(choke=base.choke)] if base.choke else [first]
    if base.choke or base.hold:
        thin = said.thin_ink_with_base if base.thin is Thin.FULL else said.thin_ink_without_base
        sentences.append(thin(width=2 * base.choke + base.hold))
    return (common.paragraph(sentences=(*sentences, said.no_choke_in_printer())),)


def _screened(plates: Separations) -> MarkingSteps:
    layout = plates.layout
    printing = layout.panel.marking.printing
    positives = said.film_positives_up() if printing.emulsion is Emulsion.UP else said.film_positives_down()
    names = positive_names(plates)
    order = [said.print_in_order(inks=_inks(layout))]
    if printing.trap and len(names) > 1:
        order.append(said.trap(trap=printing.trap))
    return MarkingSteps(
        steps=(
            common.paragraph(sentences=(positives, said.register_marks())),
            common.paragraph(sentences=order),
            *_base_steps(plates),
        ),
        listings=(_plates(plates),),
        files=(*(f"{name}.pdf" for name in names), "artwork.pdf", "plates.csv"),
    )


def positive_names(plates: Separations) -> tuple[str, ...]:
    """The names of the films that there are, in the order of printing."""
    found = ["film-base"] if loops_of(plates.laid_base.ground) else []
    found += [f"film-{plate.ink.file_slug}" for plate in plates.inks if loops_of(plates.ink_area(plate.ink.name))]
    return (*found, *(("film-varnish",) if loops_of(plates.varnish) else ()))


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
    cutting = [said.engrave(depth=how.depth)]
    cutting += [said.not_engraved(area=100 * plan.uncut)] if plan.uncut else []
    return MarkingSteps(
        steps=(common.paragraph(sentences=cutting), said.fill(inks=_inks(layout))),
        listings=(Listing(title=said.cutters(), columns=columns, rows=rows, remark=said.cutters_remark()),),
        files=("engraving.dxf", "engraving.svg", "artwork.pdf"),
    )


def _burnt(layout: Layout, how: Laser) -> MarkingSteps:
    if how.filling is Filling.RASTER:
        return MarkingSteps(
            steps=(said.burn_dots(resolution=round(25.4 / how.spacing)),), files=("laser.png", "artwork.pdf")
        )
    burn = burn_plan(layout, how)
    lines = said.burn_lines(beam=how.beam, spacing=how.spacing, count=len(burn.paths))
    lengths = said.burn_lengths(length=burn.length / 1000, travel=burn.travel / 1000)
    return MarkingSteps(
        steps=(common.paragraph(sentences=(lines, lengths)),),
        files=("laser.dxf", "laser.svg", "artwork.pdf"),
    )


def _overlaid(layout: Layout, plates: Separations, how: Overlay) -> MarkingSteps:
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
    if how.colour:
        film = said.coloured_film(width=box.width, height=box.height, colour=how.colour)
    else:
        film = said.clear_film(width=box.width, height=box.height)
    printed = (said.print_on_back if how.reverse else said.print_on_front)(inks=_inks(layout))
    return MarkingSteps(
        steps=(
            common.paragraph(sentences=(film, printed)),
            *_base_steps(plates),
            said.adhesive(area=square_cm(adhesive_area(layout, how)), margin=how.adhesive_margin),
            said.kiss_cut(),
            said.stick_on(inset=how.inset),
        ),
        listings=(
            _plates(plates),
            Listing(title=said.windows(), columns=columns, rows=rows, remark=said.windows_remark()),
        ),
        files=("overlay.pdf", "overlay-cut.dxf", "overlay-cut.svg", "plates.csv"),
    )
