"""From a spec to everything, on one page.

    spec text -> Panel -> openings and envelopes -> legends -> Layout -> findings -> drawings -> files

Each step is a pure function; this is the only place that knows them all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from msgspec.structs import replace

from panelart import stages
from panelart.canonical import Struct
from panelart.checks import Inspection, inspect
from panelart.checks.baseline import Known
from panelart.checks.inspection import house_problems
from panelart.cutouts import blank, cut, cut_flanges, cut_outline, masks, stand
from panelart.diagnostics import Problem, SpecError
from panelart.geometry import Affine, Arc, Box, Contour, rectangular
from panelart.legends.choose import Accepted
from panelart.legends.place import Placement, place
from panelart.legends.wording import lettering_problems
from panelart.messages import pipeline as said
from panelart.messages.errors import said_by
from panelart.model.layout import Blank, CutOpening, Layout, PlacedEnvelope, Unplaced
from panelart.model.panel import Panel
from panelart.reprs import brief, counted
from panelart.spec.members import split
from panelart.spec.read import panel_at_hand, read_panel
from panelart.spec.translations import AS_WRITTEN

if TYPE_CHECKING:
    from panelart.documents.document import Document
    from panelart.documents.results import Results
    from panelart.drawing.representation import Layer
    from panelart.press.bed import Nest
    from panelart.press.pieces import Pieces, Row

Key = TypeVar("Key")

MANY_UNPLACED = 8
"""Where more legends than this have no place, something else is wrong, and no ways out for single ones are tried."""

MAX_WAYS_OUT = 3
"""For how many legends without room ways out are looked for; each is tried out, which takes time."""


class Built(Struct, frozen=True, kw_only=True):
    """A panel laid out and inspected; `placement` is the file that keeps where its legends stand."""

    layout: Layout
    inspection: Inspection
    placement: bytes = b""

    def __repr__(self) -> str:
        return brief("Built", repr(self.layout.panel.title), counted(len(self.inspection.findings), "finding"))


def read(path: Path, shop: Path | None = None, language: str = AS_WRITTEN) -> Panel:
    """Read and resolve a spec, lettered in a language of its. Raises SpecError with everything that is wrong with it.

    `shop` is a file of a shop's figures that takes the place of the one named in the spec.
    """
    return read_panel(path, shop=shop, language=language, further=_later_problems)


def read_at_hand(
    spec: str | Mapping[str, object],
    folder: Path,
    *,
    shop: Path | None = None,
    language: str = AS_WRITTEN,
    member: str = "",
) -> Panel:
    """The same of a YAML text or plain data; files that it names are in `folder`, `member` is the panel of a set."""
    return panel_at_hand(spec, folder, shop=shop, language=language, member=member, further=_later_problems)


def read_placement(spec: Path) -> Mapping[str, Accepted] | None:
    """The saved placement beside a spec, if there is one. Raises SpecError when the file is none."""
    from panelart.legends.accepted import read_accepted

    path = placement_path(spec)
    return read_accepted(path.read_bytes(), path.as_posix()) if path.is_file() else None


def placement_path(spec: Path) -> Path:
    """Where the placement of a spec is saved."""
    file, member = split(spec)
    return file.parent / f"{file.stem}{member and f'.{member}'}.placement.json"


def lay_out(panel: Panel, accepted: Mapping[str, Accepted] | None = None) -> Layout:
    """Cut the openings and set the legends. Raises SpecError where a legend cannot be lettered."""
    return set_legends(panel, accepted)[0]


def _with_ways_out(
    panel: Panel, envelopes: tuple[PlacedEnvelope, ...], unplaced: tuple[Unplaced, ...]
) -> tuple[Unplaced, ...]:
    """The legends without room with what would make room, for the first few whose parts are not under other parts."""
    from panelart.legends.ways_out import ways_out

    found: list[Unplaced] = []
    tried = 0
    for missing in unplaced:
        part = panel.by_ref.get(missing.ref)
        free = part is None or not any(one.ref != part.ref and one.contour.contains(part.at) for one in envelopes)
        tried += free
        found.append(replace(missing, ways_out=ways_out(panel, missing)) if free and tried <= MAX_WAYS_OUT else missing)
    return tuple(found)


def set_legends(panel: Panel, accepted: Mapping[str, Accepted] | None = None) -> tuple[Layout, Placement]:
    """The layout, and how the places of its legends were chosen. Raises SpecError as lay_out does."""
    problems = _later_problems(panel)
    if problems:
        raise SpecError(problems)
    openings, outline = _as_cut(panel)
    envelopes = stand(panel)
    in_flanges = cut_flanges(panel)
    flat = _unfolded(panel, outline, openings, in_flanges)
    given = _Placing(panel=panel, envelopes=envelopes, openings=openings, accepted=accepted)
    placed = stages.read("legends", _placed, given)
    unplaced = placed.unplaced
    # What is too tangled to be proved takes as long with every change that is tried, and would prove as little.
    if 0 < len(unplaced) <= MANY_UNPLACED and placed.proof.proven:
        unplaced = _with_ways_out(panel, envelopes, unplaced)
    layout = Layout(
        panel=panel,
        cut_outline=outline,
        openings=openings,
        envelopes=envelopes,
        legends=placed.legends,
        marks=placed.marks,
        frames=placed.frames,
        unplaced=unplaced,
        proof=placed.proof,
        masks=masks(panel),
        blank=flat,
        flange_openings=in_flanges,
        dials=placed.dials,
    )
    return layout, placed


class _Placing(Struct, frozen=True, kw_only=True):
    """All that decides where legends stand."""

    panel: Panel
    envelopes: tuple[PlacedEnvelope, ...]
    openings: tuple[CutOpening, ...]
    accepted: Mapping[str, Accepted] | None


def _placed(given: _Placing) -> Placement:
    return place(given.panel, given.envelopes, given.openings, accepted=given.accepted)


def _later_problems(panel: Panel) -> tuple[Problem, ...]:
    """What stops the work after the spec was read: words without a glyph, a house file with slips."""
    return (*panel.places.told(lettering_problems(panel)), *house_problems(panel))


def _as_cut(panel: Panel) -> tuple[tuple[CutOpening, ...], Contour]:
    """Openings and outline as they are cut. Raises SpecError where the coat leaves nothing of one, or two of it."""
    try:
        return cut(panel), cut_outline(panel)
    except ValueError as error:
        raise SpecError(
            [Problem(where=panel.places[panel.where], says=said_by(error), accepts=said.thinner_coat())]
        ) from None


def _unfolded(
    panel: Panel, outline: Contour, openings: tuple[CutOpening, ...], in_flanges: tuple[CutOpening, ...]
) -> Blank | None:
    """The blank of a bent panel. Raises SpecError where its flanges cannot lie flat side by side."""
    try:
        return blank(panel, outline, openings, in_flanges)
    except ValueError as error:
        where = panel.places[panel.flanges[0].where]
        problem = Problem(where=where, says=said_by(error), accepts=said.flanges_apart())
        raise SpecError([problem]) from None


def build(
    panel: Panel,
    accepted: Mapping[str, Accepted] | None = None,
    *,
    today: str = "",
    baseline: Known | None = None,
) -> Built:
    """Lay the panel out and inspect it.

    `accepted` is where its legends stood before. `today` (YYYY-MM-DD) ends waivers whose last day is over; '' ends
    none. Findings of a `baseline` are set apart. Raises SpecError.
    """
    from panelart.legends.accepted import accepted_file

    layout, placed = set_legends(panel, accepted)
    inspection = inspect(layout, today=today, baseline=baseline)
    return Built(layout=layout, inspection=inspection, placement=accepted_file(placed.chosen))


def write(
    built: Built,
    *,
    date: str = "",
    rear: bool = False,
    only: Sequence[str] = (),
    further: Iterable[Document] = (),
) -> dict[str, bytes]:
    """Every file of a panel by name, not yet on disk; `only` those of some names, and nothing is made for the others.

    `date` (YYYY-MM-DD) is printed on the proof and kept in the PDFs; '' leaves it out, so that the same spec gives
    the same bytes on any day. `rear` adds the cut layer as seen from behind. `only` are names of files (`cutouts.dxf`),
    of documents in every format (`proof`) or of families (`film`). `further` are documents beside those of
    this package and of extensions. Raises NoSuchDocumentError for a name that the panel has no file of, ExtensionError
    where a document or process of an extension cannot be loaded, or fails.
    """
    return write_each({"": built}, date=date, rear=rear, only=only, further=further)[""]


def panel_files(built: Built) -> Mapping[str, bytes]:
    """The files that `write` makes, each only when it is asked for; their names are known at once."""
    from panelart.documents.choosing import chosen
    from panelart.documents.installed import documents

    return chosen({"": _given(built, "")}, documents())[""]


def write_each(
    built: Mapping[Key, Built],
    *,
    date: str = "",
    rear: bool = False,
    only: Sequence[str] = (),
    further: Iterable[Document] = (),
) -> dict[Key, dict[str, bytes]]:
    """The files of several panels as `write` makes them; a name of `only` is refused where none has a file of it."""
    jobs = {key: _given(one, date) for key, one in built.items()}
    return _written(jobs, rear=rear, only=only, further=further)


def write_set(
    built: Mapping[str, Built],
    *,
    date: str = "",
    rear: bool = False,
    only: Sequence[str] = (),
    further: Iterable[Document] = (),
) -> dict[str, dict[str, bytes]]:
    """The files of every panel of a set by the panel's name, and under '' the lists of the set."""
    from panelart.documents.needs import DATE, PANELS
    from panelart.documents.results import Results

    panels = {name: one.layout.panel for name, one in built.items()}
    jobs = {name: _given(one, date) for name, one in built.items()}
    jobs[""] = Results({PANELS: panels, DATE: date})
    return _written(jobs, rear=rear, only=only, further=further)


def _given(built: Built, date: str) -> Results:
    from panelart.documents.needs import DATE, INSPECTION, LAYOUT
    from panelart.documents.results import Results

    return Results({LAYOUT: built.layout, INSPECTION: built.inspection, DATE: date})


def _written(
    jobs: Mapping[Key, Results], *, rear: bool, only: Sequence[str], further: Iterable[Document]
) -> dict[Key, dict[str, bytes]]:
    from panelart.documents.choosing import chosen
    from panelart.documents.installed import documents
    from panelart.documents.manifest import REAR_VIEW, with_further

    files = chosen(jobs, with_further(further, documents()), only=only, options=(REAR_VIEW,) if rear else ())
    return {key: dict(made) for key, made in files.items()}


def fit_artwork(layout: Layout, by: Affine, bed: Box | None = None) -> dict[str, bytes]:
    """The artwork corrected to one piece on the bed, by name. Raises ValueError when the piece reaches off it."""
    from io import BytesIO

    from panelart.drawing.artwork import artwork
    from panelart.press.corrected import corrected
    from panelart.writers.sheet_pdf import sheets_pdf
    from panelart.writers.sheet_svg import sheet_svg

    drawings = {"artwork": artwork(layout)}
    sheet = corrected(drawings["artwork"], by, bed)
    file = BytesIO()
    sheets_pdf(file, drawings, [sheet], title=sheet.title)
    return {"artwork-fitted.pdf": file.getvalue(), "artwork-fitted.svg": sheet_svg(sheet, drawings)}


class Bed(Struct, frozen=True, kw_only=True):
    """The bed of a job and how pieces lie on it, in mm; `clearance`, `pin` and `cutter` are the jig's."""

    page: Box
    gap: float
    margin: float
    turn: bool
    clearance: float
    pin: float
    cutter: float


def nested(layouts: Sequence[Layout], names: Sequence[str], quantities: Sequence[int], bed: Bed) -> Nest:
    """Where every piece lies, at finished size. Raises ValueError when one does not fit the bed."""
    from panelart.press.bed import Kind, nest

    kinds = [
        Kind(name=name, width=round(size[0], 6), height=round(size[1], 6), quantity=quantity)
        for name, quantity, size in zip(names, quantities, (each.panel.size for each in layouts), strict=True)
    ]
    return nest(kinds, bed.page, gap=bed.gap, margin=bed.margin, turn=bed.turn)


def write_bed(
    layouts: Sequence[Layout], nest: Nest, bed: Bed, *, date: str = ""
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Artwork for loads (alike ones once), a jig for each arrangement, the list of pieces; remarks on inks."""
    from io import BytesIO

    from panelart.drawing.artwork import artwork
    from panelart.press.bed_sheet import alike_loads, bed_csv, load_sheet, one_colour_a_plate
    from panelart.writers.sheet_pdf import sheets_pdf

    art, remarks = one_colour_a_plate([artwork(layout) for layout in layouts])
    drawings = {str(number): drawing for number, drawing in enumerate(art)}
    files = bed_jigs(layouts, nest, bed, date)
    for loads in alike_loads(nest):
        sheet = load_sheet(nest, loads, art, bed.gap)
        file = BytesIO()
        sheets_pdf(file, drawings, [sheet], title=sheet.title, date=date or None)
        files[loads.file_name(len(nest.loads))] = file.getvalue()
    files["bed.csv"] = bed_csv(nest)
    return files, remarks


class Varying(Struct, frozen=True, kw_only=True):
    """One panel of a run: laid out for its widest values, with a row of values for every piece."""

    built: Built
    rows: Sequence[Row]
    pieces: Pieces


def varying(spec: Path, panel: Panel, rows: Sequence[Row], *, today: str = "") -> Varying:
    """Lay a panel out for the widest of its values and hold every piece against that.

    Raises SpecError with the rows that do not fit.
    """
    from panelart.press.pieces import Pieces, widest

    wide = read_panel(spec, examples=widest(panel, rows)) if panel.variables else panel
    built = build(wide, read_placement(spec), today=today)
    pieces = Pieces(built.layout)
    problems = pieces.problems(rows)
    if problems:
        raise SpecError(problems)
    return Varying(built=built, rows=rows, pieces=pieces)


def run_loads(
    run: Sequence[Varying], nest: Nest, bed: Bed, *, date: str = "", skip: Callable[[str], bool] = lambda _: False
) -> Iterator[tuple[str, bytes, int]]:
    """The artwork of each load as it is made: its name, its bytes, its number of pieces.

    A load for which `skip` is true is passed over, with no bytes. Nothing is kept from load to load.
    """
    from io import BytesIO

    from panelart.press.bed_sheet import AlikeLoads, load_sheet, one_colour_a_plate
    from panelart.writers.sheet_pdf import Forms, sheets_pdf

    art, _ = one_colour_a_plate([each.pieces.fixed for each in run])
    drawings = {str(number): drawing for number, drawing in enumerate(art)}
    met = [0] * len(run)
    forms: Forms = {}
    for number, load in enumerate(nest.loads, 1):
        alone = AlikeLoads(first=number, last=number, load=load)
        name = alone.file_name(len(nest.loads))
        turn: dict[int, int] = {}
        for piece, spot in load.numbered:
            turn[piece] = met[spot.kind]
            met[spot.kind] += 1
        if skip(name):
            yield name, b"", len(load.spots)
            continue

        def own(piece: int, kind: int, turn: Mapping[int, int] = turn) -> tuple[Layer, ...]:
            return run[kind].pieces.own(run[kind].rows[turn[piece]].values)

        sheet = load_sheet(nest, alone, art, bed.gap, own)
        file = BytesIO()
        sheets_pdf(file, drawings, [sheet], title=sheet.title, date=date or None, forms=forms)
        yield name, file.getvalue(), len(load.spots)


def bed_jigs(layouts: Sequence[Layout], nest: Nest, bed: Bed, date: str) -> dict[str, bytes]:
    """The plates that hold the pieces of a nest; pockets leave room for the thickest coat."""
    from panelart.press.heights import heights_told
    from panelart.press.jig import Pocket, jig
    from panelart.writers import dxf, pdf, svg

    pockets = tuple(
        Pocket(
            corner=_corner(layout.panel.outline),
            odd=None if rectangular(layout.panel.outline) else layout.panel.outline,
            clearance=bed.clearance + layout.panel.coat.build_maximum - layout.panel.coat.build,
            cutter=bed.cutter,
            pin=bed.pin,
        )
        for layout in layouts
    )
    machine = layouts[0].panel.marking.printing.machine
    told = tuple(heights_told(layouts))
    files: dict[str, bytes] = {}
    for number in range(len(nest.jigs)):
        plate = jig(nest, number, pockets, bed.gap, told)
        name = f"jig-{number + 1}"
        files |= {f"{name}.dxf": dxf(plate, machine), f"{name}.svg": svg(plate)}
        files[f"{name}.pdf"] = pdf([plate], date=date or None)
    return files


def _corner(outline: Contour) -> float:
    """The radius of a panel's corners, 0 where they are sharp."""
    return min((segment.radius for segment in outline.segments if isinstance(segment, Arc)), default=0.0)
