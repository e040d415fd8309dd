"""The files of a panel: what they are, for whom, when they are made, and what is said of those that are not."""

from panelart.messages import Clauses, Complete, Quoted, Word, message

# --- for whom


@message
def printing() -> None:
    """Printing"""


@message
def marking() -> None:
    """Engraving, laser marking"""


@message
def label_film() -> None:
    """Label film"""


@message
def cutting() -> None:
    """Cutting"""


@message
def bending() -> None:
    """Bending"""


@message
def coating() -> None:
    """Coating"""


@message
def workshop() -> None:
    """Workshop"""


@message
def inspection() -> None:
    """Inspection"""


@message
def approval() -> None:
    """Approval"""


@message
def reading() -> None:
    """Documentation"""


@message
def purchasing() -> None:
    """Purchasing"""


@message
def other_programs() -> None:
    """Other programs"""


# --- what they are


@message
def artwork() -> None:
    """Print at 1:1: a layer for each ink, inks as spot colours, words as outlines, trim box at the finished face"""


@message
def films() -> None:
    """Film positive for each ink, with `film-base` and `film-varnish`: solid black, register marks, side stated"""


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
    """Flat blank with its bend lines"""


@message
def masks() -> None:
    """Areas that stay bare, for each side of the face"""


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
    """Parts: position, legend, knob"""


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
def always() -> None:
    """Always"""


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
def when_masked() -> None:
    """If areas of the face stay bare"""


@message
def when_of_a_set() -> None:
    """If the spec contains several panels"""


@message
def when_asked(option: Word) -> None:
    """With `{option}`"""


# --- why a panel has none


@message
def nothing_to_show() -> None:
    """the panel has nothing to show in it"""


@message
def no_flanges() -> None:
    """the panel has no flanges"""


@message
def no_bare_area() -> None:
    """no area of its face stays bare"""


@message
def single_panel() -> None:
    """the spec contains only one panel"""


@message
def one_of_the_set(panel: Quoted) -> None:
    """only panel {panel} of the spec is selected"""


@message
def other_process(process: Quoted) -> None:
    """the marking process is {process}"""


# --- what is asked for


@message
def unknown_document(name: Quoted) -> None:
    """Unknown file {name}"""


@message
def empty_name() -> None:
    """A file name is empty"""


@message
def not_made(name: Word, reason: Word) -> None:
    """There is no {name}: {reason}"""


@message
def other_files(name: Word, names: Complete) -> None:
    """There is no {name}; there is {names}"""


@message
def sayings(sayings: Clauses) -> None:
    """{sayings}"""


@message
def accepted(names: Complete) -> None:
    """Accepted: {names} (each in all its formats), or file names such as cutouts.dxf"""


@message
def did_you_mean(name: Quoted, accepted: Word) -> None:
    """Did you mean {name}? {accepted}"""


# --- the table of them


@message
def column_files() -> None:
    """file"""


@message
def column_audience() -> None:
    """for"""


@message
def column_contents() -> None:
    """contents"""


@message
def column_when() -> None:
    """made"""


@message
def audiences(titles: Complete) -> None:
    """{titles}"""
