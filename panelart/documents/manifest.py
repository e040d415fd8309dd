"""All documents that `make` writes, in the order in which they are written.

What README, `make --only` and `make --verbose` say of files is read from here. A document is added by one entry: what
it is, for whom, what it is made from (`needs.py`), how each format is written (`formats.py`) and, where not every panel
has it, when.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from panelart.documents import formats, needs
from panelart.documents.document import ALWAYS, Audience, Document, When, document, family
from panelart.documents.needs import INSPECTION, LAYOUT, PANELS
from panelart.documents.results import Results
from panelart.messages import Message
from panelart.messages import documents as said

REAR_VIEW: Final = "--rear-view"
"""The option of `make` that adds the cut layer as seen from the rear."""


def _other_process(results: Results) -> Message:
    return said.other_process(process=results[LAYOUT].panel.marking.process.title)


def _not_a_set(results: Results) -> Message:
    member = results[LAYOUT].panel.member
    return said.one_of_the_set(panel=member) if member else said.single_panel()


FROM_FILMS: Final = When(says=said.when_from_films(), why_not=_other_process)
ENGRAVED: Final = When(says=said.when_engraved(), why_not=_other_process)
BURNT_IN_LINES: Final = When(says=said.when_burnt_in_lines(), why_not=_other_process)
BURNT_IN_DOTS: Final = When(says=said.when_burnt_in_dots(), why_not=_other_process)
LABELLED: Final = When(says=said.when_labelled(), why_not=_other_process)
OF_THE_PROCESS: Final = When(says=said.when_the_process_has_more(), why_not=_other_process)
PRINTED: Final = When(
    says=said.when_printed(), why_not=_other_process, holds=lambda results: results[needs.plates].printed
)
BENT: Final = When(
    says=said.when_bent(),
    why_not=lambda _: said.no_flanges(),
    holds=lambda results: results[LAYOUT].blank is not None,
)
MASKED: Final = When(says=said.when_masked(), why_not=lambda _: said.no_bare_area())
OF_A_SET: Final = When(says=said.when_of_a_set(), why_not=_not_a_set)

_OUTLINES: Final = {"dxf": formats.as_dxf, "svg": formats.as_svg, "pdf": formats.as_pdf}
_PATHS: Final = {"dxf": formats.as_path_dxf, "svg": formats.as_svg}
_PRINT: Final = {"pdf": formats.as_pdf}

DOCUMENTS: Final = (
    document(
        "artwork",
        needs.artwork,
        {"svg": formats.artwork_svg, "pdf": formats.artwork_pdf},
        says=said.artwork(),
        audience=(Audience.PRINTER,),
    ),
    family("film-*", needs.prints, _PRINT, says=said.films(), audience=(Audience.PRINTER,), when=FROM_FILMS),
    family("overlay", needs.prints, _PRINT, says=said.label_print(), audience=(Audience.LABEL_PRINTER,), when=LABELLED),
    family("*", needs.prints, _PRINT, says=said.more_prints(), audience=(Audience.PRINTER,), when=OF_THE_PROCESS),
    family(
        "overlay-cut", needs.paths, _PATHS, says=said.label_cut(), audience=(Audience.LABEL_PRINTER,), when=LABELLED
    ),
    family("engraving", needs.paths, _PATHS, says=said.engraving(), audience=(Audience.ENGRAVER,), when=ENGRAVED),
    family("laser", needs.paths, _PATHS, says=said.laser_lines(), audience=(Audience.ENGRAVER,), when=BURNT_IN_LINES),
    family("*", needs.paths, _PATHS, says=said.more_paths(), audience=(Audience.ENGRAVER,), when=OF_THE_PROCESS),
    family(
        "laser",
        needs.dots,
        {"png": formats.as_dots},
        says=said.laser_dots(),
        audience=(Audience.ENGRAVER,),
        when=BURNT_IN_DOTS,
    ),
    document(
        "plates",
        needs.plates,
        {"csv": formats.plates_csv},
        says=said.plates(),
        audience=(Audience.PRINTER, Audience.BUYER),
        when=PRINTED,
    ),
    document("cutouts", needs.cut_layer, _OUTLINES, says=said.cutouts(), audience=(Audience.CUTTER,)),
    document(
        "cutouts-from-rear",
        needs.cut_layer_from_rear,
        _OUTLINES,
        says=said.cutouts_from_rear(),
        audience=(Audience.CUTTER,),
        when=When(says=said.when_asked(option=REAR_VIEW), why_not=ALWAYS.why_not),
        option=REAR_VIEW,
    ),
    document(
        "build-sheet",
        needs.build_sheet,
        {"pdf": formats.pages_pdf},
        says=said.build_sheet(),
        audience=(Audience.WORKSHOP,),
    ),
    document(
        "inspection",
        LAYOUT,
        {"csv": formats.inspection_csv},
        says=said.inspection_list(),
        audience=(Audience.INSPECTOR,),
    ),
    document(
        "blank",
        needs.blank,
        _OUTLINES,
        says=said.blank(),
        audience=(Audience.CUTTER, Audience.BENDER),
        when=BENT,
    ),
    family("mask-*", needs.masks, _OUTLINES, says=said.masks(), audience=(Audience.COATER,), when=MASKED),
    document(
        "panel",
        needs.look,
        {"svg": formats.as_svg, "png": formats.as_png},
        says=said.panel_picture(),
        audience=(Audience.SIGNER, Audience.READER),
    ),
    document(
        "proof",
        needs.proof,
        {"pdf": formats.pages_pdf, "png": formats.first_page_png},
        says=said.proof(),
        audience=(Audience.SIGNER,),
    ),
    document("holes", LAYOUT, {"csv": formats.holes_csv}, says=said.holes(), audience=(Audience.PROGRAMS,)),
    document(
        "parts",
        needs.panel,
        {"csv": formats.parts_csv},
        says=said.parts(),
        audience=(Audience.PROGRAMS, Audience.BUYER),
    ),
    document(
        "findings", INSPECTION, {"json": formats.findings_json}, says=said.findings(), audience=(Audience.PROGRAMS,)
    ),
    document(
        "panel", needs.panel, {"json": formats.panel_json}, says=said.panel_facts(), audience=(Audience.PROGRAMS,)
    ),
    document(
        "panels",
        PANELS,
        {"csv": formats.set_panels_csv},
        says=said.set_panels(),
        audience=(Audience.PROGRAMS,),
        when=OF_A_SET,
    ),
    document(
        "parts",
        PANELS,
        {"csv": formats.set_parts_csv},
        says=said.set_parts(),
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
