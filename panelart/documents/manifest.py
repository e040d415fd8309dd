"""All documents that `make` writes, in the order in which they are written.

What README, `make --only` and `make --verbose` say of files is read from here. A document is added by one entry with
its sentences: what it is, for whom, what it is made from (`needs.py`), how each format is written (`formats.py`) and,
where not every panel has it, when, and what is said to who asks for it all the same.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from panelart.documents import formats, needs
from panelart.documents.document import Audience, Document, When, document, family
from panelart.documents.needs import INSPECTION, LAYOUT, PANELS
from panelart.documents.results import Results
from panelart.messages import Message, Quoted, Word, message
from panelart.model.machine import Files

REAR_VIEW: Final = "--rear-view"
"""The option of `make` that adds the cut layer as seen from the rear."""


# --- what they are


@message
def artwork() -> None:
    """Print at 1:1: a layer for each ink, inks as spot colours, words as outlines, trim box at the finished face"""


@message
def films() -> None:
    """Film positive for each ink, with `film-base` and `film-varnish`: black, register marks, side stated"""


@message
def label_print() -> None:
    """Print, kiss cut and adhesive of the label film"""


@message
def more_prints() -> None:
    """More prints of the marking process"""


@message
def label_cut() -> None:
    """Kiss cut of the label film alone"""


@message
def engraving() -> None:
    """Middle of the cutter in cutting order, a layer for each cutter (`engrave-0.3`), depth and travel stated"""


@message
def laser_lines() -> None:
    """Lines of the marking laser, in order"""


@message
def more_paths() -> None:
    """More paths of the marking process"""


@message
def laser_dots() -> None:
    """Dots of the marking laser"""


@message
def plates() -> None:
    """Plates, each with the area it covers and the solid ink it needs, in cm²"""


@message
def cutouts() -> None:
    """Cut layer seen from the front: cut sizes, closed contours of lines and arcs, millimetres declared; no kerf
    applied"""


@message
def cutouts_seen() -> None:
    """The same cut layer; notes in the PDF, and in the SVG where the machine profile asks for them"""


@message
def cut_layers() -> None:
    """The same cut layer, a file for each layer: `cutouts.outline.dxf`"""


@message
def cutouts_from_rear() -> None:
    """The same cut layer, seen from the rear"""


@message
def build_sheet() -> None:
    """A section for each station, with the sizes it can measure"""


@message
def inspection_list() -> None:
    """Every size with its limits, to be filled in"""


@message
def blank() -> None:
    """Flat blank with its openings and bend lines: one closed outline"""


@message
def blank_seen() -> None:
    """The same blank, to be read"""


@message
def blank_layers() -> None:
    """The same blank, a file for each layer"""


@message
def masks() -> None:
    """Areas that stay bare, for each side of the face"""


@message
def dials() -> None:
    """Scale on a knob skirt or on a disc, at 1:1 about its shaft: a layer for each ink"""


@message
def dial_lines() -> None:
    """Middle of its lines, a layer for each width; for engraved panels the cutter's way"""


@message
def panel_picture() -> None:
    """The panel as it will look, for manuals and offers too"""


@message
def proof() -> None:
    """Picture, findings, cautions, dimensions, hole table, space to sign"""


@message
def holes() -> None:
    """Openings: position, finished size, cut size"""


@message
def parts() -> None:
    """Parts: position, legend, knob, footprint on a board"""


@message
def findings() -> None:
    """All findings"""


@message
def panel_facts() -> None:
    """The spec as it was read: declared defaults filled in (null where a default follows from other keys), copies
    written out, all lengths in mm"""


@message
def set_panels() -> None:
    """Panels of the set, with the fingerprint of its files"""


@message
def set_parts() -> None:
    """Parts of all panels of the set"""


# --- when they are made


@message
def when_from_films() -> None:
    """For processes that print from film positives"""


@message
def when_engraved() -> None:
    """For engraving"""


@message
def when_burnt_in_lines() -> None:
    """For laser marking in lines"""


@message
def when_burnt_in_dots() -> None:
    """For laser marking in dots"""


@message
def when_labelled() -> None:
    """For a printed overlay"""


@message
def when_the_process_has_more() -> None:
    """If the marking process has more outputs"""


@message
def when_printed() -> None:
    """For processes that print"""


@message
def when_bent() -> None:
    """If the panel has flanges"""


@message
def when_bent_in_one() -> None:
    """If the panel has flanges, unless the machine takes a file for each layer"""


@message
def when_flat() -> None:
    """If the panel has no flanges"""


@message
def when_flat_in_one() -> None:
    """If the panel has no flanges, unless the machine takes a file for each layer"""


@message
def when_in_layers() -> None:
    """If the shop's machine takes a file for each layer"""


@message
def when_masked() -> None:
    """If areas of the face stay bare"""


@message
def when_dials_turn() -> None:
    """If a scale turns with its knob"""


@message
def when_of_a_set() -> None:
    """If the spec contains several panels"""


@message
def when_asked(option: Word) -> None:
    """With `{option}`"""


# --- why a panel has none


@message
def no_flanges() -> None:
    """the panel has no flanges"""


@message
def cut_as_blank() -> None:
    """the panel has flanges: its cut file is the blank"""


@message
def in_layers() -> None:
    """the shop's machine takes a file for each layer"""


@message
def not_in_layers() -> None:
    """the shop's machine takes all layers in one file"""


@message
def no_bare_area() -> None:
    """no area of its face stays bare"""


@message
def no_turning_dial() -> None:
    """no scale of the panel turns with its knob"""


@message
def single_panel() -> None:
    """the spec contains only one panel"""


@message
def one_of_the_set(panel: Quoted) -> None:
    """only panel {panel} of the spec is selected"""


@message
def other_process(process: Quoted) -> None:
    """the marking process is {process}"""


# --- the entries


def _other_process(results: Results) -> Message:
    return other_process(process=results[LAYOUT].panel.marking.process.title)


def _not_a_set(results: Results) -> Message:
    member = results[LAYOUT].panel.member
    return one_of_the_set(panel=member) if member else single_panel()


def _bent(results: Results) -> bool:
    return results[LAYOUT].blank is not None


def _flat(results: Results) -> bool:
    return results[LAYOUT].blank is None


def _in_one(results: Results) -> bool:
    return results[LAYOUT].panel.marking.printing.machine.files is Files.ONE


def _not_one_file(results: Results) -> Message:
    if not _in_one(results):
        return in_layers()
    return cut_as_blank() if _bent(results) else no_flanges()


FROM_FILMS: Final = When(says=when_from_films(), why_not=_other_process)
ENGRAVED: Final = When(says=when_engraved(), why_not=_other_process)
BURNT_IN_LINES: Final = When(says=when_burnt_in_lines(), why_not=_other_process)
BURNT_IN_DOTS: Final = When(says=when_burnt_in_dots(), why_not=_other_process)
LABELLED: Final = When(says=when_labelled(), why_not=_other_process)
OF_THE_PROCESS: Final = When(says=when_the_process_has_more(), why_not=_other_process)
PRINTED: Final = When(says=when_printed(), why_not=_other_process, holds=lambda results: results[needs.plates].printed)
BENT: Final = When(says=when_bent(), why_not=lambda _: no_flanges(), holds=_bent)
MASKED: Final = When(says=when_masked(), why_not=lambda _: no_bare_area())
DIALS_TURN: Final = When(says=when_dials_turn(), why_not=lambda _: no_turning_dial())
OF_A_SET: Final = When(says=when_of_a_set(), why_not=_not_a_set)

FLAT: Final = When(says=when_flat(), why_not=lambda _: cut_as_blank(), holds=_flat)
FLAT_IN_ONE: Final = When(says=when_flat_in_one(), why_not=_not_one_file, holds=lambda of: _flat(of) and _in_one(of))
BENT_IN_ONE: Final = When(says=when_bent_in_one(), why_not=_not_one_file, holds=lambda of: _bent(of) and _in_one(of))
IN_LAYERS: Final = When(says=when_in_layers(), why_not=lambda _: not_in_layers(), holds=lambda of: not _in_one(of))

_SEEN: Final = {"svg": formats.as_tool_svg, "pdf": formats.as_pdf}
_DXF: Final = {"dxf": formats.as_dxf}
_OUTLINES: Final = {**_DXF, **_SEEN}
_PATHS: Final = {"dxf": formats.as_path_dxf, "svg": formats.as_tool_svg}
_PRINT: Final = {"pdf": formats.as_pdf}

DOCUMENTS: Final = (
    document(
        "artwork",
        needs.artwork,
        {"svg": formats.artwork_svg, "pdf": formats.artwork_pdf},
        says=artwork(),
        audience=(Audience.PRINTER,),
    ),
    family("film-*", needs.prints, _PRINT, says=films(), audience=(Audience.PRINTER,), when=FROM_FILMS),
    family("overlay", needs.prints, _PRINT, says=label_print(), audience=(Audience.LABEL_PRINTER,), when=LABELLED),
    family("*", needs.prints, _PRINT, says=more_prints(), audience=(Audience.PRINTER,), when=OF_THE_PROCESS),
    family("overlay-cut", needs.paths, _PATHS, says=label_cut(), audience=(Audience.LABEL_PRINTER,), when=LABELLED),
    family("engraving", needs.paths, _PATHS, says=engraving(), audience=(Audience.ENGRAVER,), when=ENGRAVED),
    family("laser", needs.paths, _PATHS, says=laser_lines(), audience=(Audience.ENGRAVER,), when=BURNT_IN_LINES),
    family("*", needs.paths, _PATHS, says=more_paths(), audience=(Audience.ENGRAVER,), when=OF_THE_PROCESS),
    family(
        "laser",
        needs.dots,
        {"png": formats.as_dots},
        says=laser_dots(),
        audience=(Audience.ENGRAVER,),
        when=BURNT_IN_DOTS,
    ),
    document(
        "plates",
        needs.plates,
        {"csv": formats.plates_csv},
        says=plates(),
        audience=(Audience.PRINTER, Audience.BUYER),
        when=PRINTED,
    ),
    document("cutouts", needs.cut_layer, _DXF, says=cutouts(), audience=(Audience.CUTTER,), when=FLAT_IN_ONE),
    document("cutouts", needs.cut_layer, _SEEN, says=cutouts_seen(), audience=(Audience.CUTTER,), when=FLAT),
    family("cutouts.*", needs.cut_files, _DXF, says=cut_layers(), audience=(Audience.CUTTER,), when=IN_LAYERS),
    document(
        "cutouts-from-rear",
        needs.cut_layer_from_rear,
        _OUTLINES,
        says=cutouts_from_rear(),
        audience=(Audience.CUTTER,),
        when=When(says=when_asked(option=REAR_VIEW), why_not=lambda _: cut_as_blank(), holds=_flat),
        option=REAR_VIEW,
    ),
    document(
        "build-sheet",
        needs.build_sheet,
        {"pdf": formats.pages_pdf},
        says=build_sheet(),
        audience=(Audience.WORKSHOP,),
    ),
    document(
        "inspection",
        LAYOUT,
        {"csv": formats.inspection_csv},
        says=inspection_list(),
        audience=(Audience.INSPECTOR,),
    ),
    document(
        "blank",
        needs.blank,
        _DXF,
        says=blank(),
        audience=(Audience.CUTTER, Audience.BENDER),
        when=BENT_IN_ONE,
    ),
    document(
        "blank",
        needs.blank,
        _SEEN,
        says=blank_seen(),
        audience=(Audience.BENDER, Audience.CUTTER),
        when=BENT,
    ),
    family("blank.*", needs.blank_files, _DXF, says=blank_layers(), audience=(Audience.CUTTER,), when=IN_LAYERS),
    family("mask-*", needs.masks, _OUTLINES, says=masks(), audience=(Audience.COATER,), when=MASKED),
    family(
        "dial-*",
        needs.dials,
        {"svg": formats.as_svg, "pdf": formats.as_pdf},
        says=dials(),
        audience=(Audience.ENGRAVER, Audience.PRINTER),
        when=DIALS_TURN,
    ),
    family(
        "dial-*",
        needs.dial_paths,
        {"dxf": formats.as_path_dxf},
        says=dial_lines(),
        audience=(Audience.ENGRAVER,),
        when=DIALS_TURN,
    ),
    document(
        "panel",
        needs.look,
        {"svg": formats.as_svg, "png": formats.as_png},
        says=panel_picture(),
        audience=(Audience.SIGNER, Audience.READER),
    ),
    document(
        "proof",
        needs.proof,
        {"pdf": formats.pages_pdf, "png": formats.first_page_png},
        says=proof(),
        audience=(Audience.SIGNER,),
    ),
    document("holes", LAYOUT, {"csv": formats.holes_csv}, says=holes(), audience=(Audience.PROGRAMS,)),
    document(
        "parts",
        needs.panel,
        {"csv": formats.parts_csv},
        says=parts(),
        audience=(Audience.PROGRAMS, Audience.BUYER),
    ),
    document("findings", INSPECTION, {"json": formats.findings_json}, says=findings(), audience=(Audience.PROGRAMS,)),
    document("panel", needs.panel, {"json": formats.panel_json}, says=panel_facts(), audience=(Audience.PROGRAMS,)),
    document(
        "panels",
        PANELS,
        {"csv": formats.set_panels_csv},
        says=set_panels(),
        audience=(Audience.PROGRAMS,),
        when=OF_A_SET,
    ),
    document(
        "parts",
        PANELS,
        {"csv": formats.set_parts_csv},
        says=set_parts(),
        audience=(Audience.PROGRAMS, Audience.BUYER),
        when=OF_A_SET,
    ),
)
"""The documents of a panel, then those of a set of panels."""


class ClashError(ValueError):
    """Two documents would write one file, which it names."""

    def __init__(self, file: str) -> None:
        super().__init__(file)
        self.file = file


def with_further(further: Iterable[Document], documents: tuple[Document, ...] = DOCUMENTS) -> tuple[Document, ...]:
    """All documents, then further ones of other packages. Raises ClashError where two would write one file."""
    documents = (*documents, *further)
    taken: dict[tuple[str, bool], Document] = {}
    for one in documents:
        for file in () if one.open else one.file_names:
            # Names that differ in capitals alone are one file on many disks.
            if taken.setdefault((file.casefold(), PANELS in one.of.bases), one) is not one:
                raise ClashError(file)
    return documents
