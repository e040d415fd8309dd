"""Titles, notes and labels on what is printed, cut, engraved or burnt: film positives, label film, jigs, test strip."""

from panelart.messages import Count, Mm, SizeMm, Word, counted, message
from panelart.messages.fine_arguments import FineMm, Metres, SquareCm, SquareMm

# --- film positives


@message
def film_title(panel: Word, number: Count, films: Count, plate: Word) -> None:
    """{panel}: film positive {number} of {films}, {plate}"""


@message
def film_note(plate: Word, colour: Word, side: Word) -> None:
    """Film positive for {plate} ({colour}), solid black, {side}, scale 1:1, mm, finished size."""


@message
def toned_film_note(plate: Word, colour: Word, side: Word) -> None:
    """Film positive for {plate} ({colour}), black, tints in continuous tone to be screened, {side}, scale 1:1, mm,
    finished size."""


@message
def film_lettering(number: Count, films: Count, plate: Word, colour: Word) -> None:
    """FILM POSITIVE {number} OF {films}: {plate} {colour}"""


@message
def emulsion_up() -> None:
    """right reading, emulsion up"""


@message
def emulsion_down() -> None:
    """right reading, emulsion down (mirrored)"""


@message
def base_area(area: SquareCm) -> None:
    """base, {area}"""


@message
def varnish_area(area: SquareCm) -> None:
    """varnish, {area}"""


@message
def register_mark(number: Count) -> None:
    """register mark {number}"""


@message
def density_field() -> None:
    """density field"""


@message
def film_scale_bar(length: Mm) -> None:
    """{length}"""


@message
def orientation_dot() -> None:
    """orientation dot"""


# --- label film


@message
def label_film_title(panel: Word) -> None:
    """{panel}: label film"""


@message
def kiss_cut_title(panel: Word) -> None:
    """{panel}: label film, kiss cut"""


@message
def kiss_cut_mirrored_title(panel: Word) -> None:
    """{panel}: label film, kiss cut, mirrored"""


@message
def label_film_note(side: Word) -> None:
    """{side} Scale 1:1, mm. Kiss cut: cut through the label film, not through the liner."""


@message
def kiss_cut_note(side: Word) -> None:
    """{side} Scale 1:1, mm. Cut through the label film, not through the liner."""


@message
def printed_on_back() -> None:
    """Printed on the back of the label film: mirrored, seen from the rear."""


@message
def printed_on_front() -> None:
    """Printed on the front of the label film: seen from the front."""


@message
def label_film_lettering() -> None:
    """LABEL FILM"""


@message
def reverse_print_lettering() -> None:
    """REVERSE PRINT, MIRRORED, SEEN FROM THE REAR"""


@message
def front_lettering() -> None:
    """SEEN FROM THE FRONT"""


@message
def adhesive_edge(area: SquareCm) -> None:
    """edge of the adhesive, {area}"""


@message
def window(name: Word) -> None:
    """window {name}"""


@message
def film_edge() -> None:
    """label film edge"""


# --- engraving and laser marking


@message
def tool_title(panel: Word, process: Word) -> None:
    """{panel}: {process}"""


@message
def engraving(depth: Mm) -> None:
    """engraving, depth {depth}"""


@message
def laser_marking() -> None:
    """laser marking"""


@message
def engraving_note(depth: Mm) -> None:
    """Cutter centre lines in cutting order, seen from the front, scale 1:1, mm. Depth {depth}."""


@message
def engraving_too_narrow(area: SquareMm) -> None:
    """{area} is too narrow for any cutter."""


@counted("Cutter {cutter}, fill {ink}: {count} paths, {cut} cut, {travel} travel ({unordered} unordered).")
def cut(cutter: Mm, ink: Word, count: Count, cut: Metres, travel: Metres, unordered: Metres) -> None:
    """Cutter {cutter}, fill {ink}: {count} path, {cut} cut, {travel} travel ({unordered} unordered)."""


@message
def laser_note() -> None:
    """Beam centre lines in order, seen from the front, scale 1:1, mm."""


@message
def laser_raster_note() -> None:
    """Laser raster, seen from the front."""


@counted("Line spacing {spacing}, beam {beam}: {count} lines, {burnt} marked, {travel} travel ({unordered} unordered).")
def beam_lines(spacing: Mm, beam: Mm, count: Count, burnt: Metres, travel: Metres, unordered: Metres) -> None:
    """Line spacing {spacing}, beam {beam}: {count} line, {burnt} marked, {travel} travel ({unordered} unordered)."""


@message
def finished_outline() -> None:
    """finished outline"""


# --- sheets for the bed


@message
def place(x: FineMm, y: FineMm) -> None:
    """x {x}, y {y}"""


@message
def registered_title(artwork: Word) -> None:
    """{artwork}, registered to one piece"""


@message
def registered_note(corner: Word, artwork: Word) -> None:
    """Printer coordinates, scale 1:1. Lower-left corner of the page at {corner}. For this piece only. {artwork}"""


@message
def load_title(load: Count, loads: Count, pieces: Word) -> None:
    """Bed load {load} of {loads}, {pieces}"""


@message
def loads_title(first: Count, last: Count, loads: Count, pieces: Word) -> None:
    """Bed loads {first} to {last} of {loads}, {pieces}"""


@message
def load_note(bed: SizeMm, jig: Count) -> None:
    """Bed {bed}, scale 1:1, origin lower left, seen from the front. Jig {jig}."""


@message
def load_print_note() -> None:
    """Do not print notes, outlines and cutouts."""


@message
def pocket_top(pocket: Count) -> None:
    """pocket {pocket}: top of the panel"""


@message
def bed_origin() -> None:
    """origin of the bed"""


# --- jigs


@message
def jig_title(jig: Count, bed: SizeMm) -> None:
    """Jig {jig} for a bed of {bed}"""


@message
def jig_note() -> None:
    """Seen from above, scale 1:1, mm, origin lower left."""


@message
def jig_work_note() -> None:
    """Cut the pockets through. Drill the pin holes into the plate below; each pin touches the edge of the piece."""


@message
def jig_arrow_note() -> None:
    """Arrows point to the top of the panel."""


@message
def pocket(pocket: Count, name: Word, clearance: Mm) -> None:
    """pocket {pocket}, {name}: finished size plus {clearance} all round"""


@message
def corner_relief(pocket: Count) -> None:
    """corner relief of pocket {pocket}, drill first"""


@message
def pin_hole(pocket: Count) -> None:
    """pin hole of pocket {pocket}"""


@message
def jig_plate() -> None:
    """jig plate, size of the bed"""


@message
def film_pin(number: Count, diameter: Mm) -> None:
    """hole {number} for a pin of {diameter}"""


# --- test strip


@message
def strip_title(process: Word, ink: Word) -> None:
    """Test strip, {process}, {ink}"""


@message
def strip_note(process: Word, ink: Word) -> None:
    """{process}, ink {ink}, scale 1:1, mm. The limit is the finest complete sample in each row."""


@message
def strip_lettering(process: Word) -> None:
    """Test strip: {process}"""


@message
def strip_instruction() -> None:
    """limit: finest complete sample"""


@message
def strip_edge() -> None:
    """edge of the strip"""


@message
def sample_line(width: Mm) -> None:
    """line of {width}"""


@message
def reversed_out() -> None:
    """reversed out"""


@message
def sample_reversed_out(sample: Word) -> None:
    """{sample}, reversed out"""


@message
def scale_bar(length: Mm) -> None:
    """{length} between tick centres"""


@message
def beam_strip_title(process: Word) -> None:
    """Test strip: {process}"""


@message
def beam_strip_note(process: Word, beam: Mm, spacing: Mm) -> None:
    """{process} test strip, 1:1, mm. Lines for a beam of {beam}; gaps and lettering filled at a line spacing of
    {spacing}. Mark it once on the coat of the panels."""


@message
def beam_strip_lettering(process: Word) -> None:
    """Test strip: {process}"""


@message
def beam_strip_spacing() -> None:
    """line spacing"""


@message
def beam_strip_gap() -> None:
    """gap minimum"""


@message
def beam_strip_height() -> None:
    """cap height minimum"""


@message
def beam_strip_line() -> None:
    """beam width"""


@message
def cutter_strip_title(process: Word) -> None:
    """Test strip, {process}: paths of the cutters"""


@message
def cutter_strip_note(process: Word, depth: Mm) -> None:
    """{process}, {depth} deep, scale 1:1, mm; one layer for each cutter. Measure the width of the single pass. The
    limits are the thinnest complete wall and the lowest complete capitals."""


@message
def cutter_strip_lettering(process: Word) -> None:
    """Test strip, {process}: mm"""


@message
def cutter_strip_cutter() -> None:
    """cutter, pass"""


@message
def cutter_strip_wall() -> None:
    """wall between two passes"""


@message
def cutter_strip_height() -> None:
    """height of capitals"""


# --- dials that turn


@message
def dial_title(panel: Word, ref: Word) -> None:
    """{panel}: dial of {ref}"""


@message
def dial_of(ref: Word) -> None:
    """dial of {ref}"""


@message
def dial_disc(diameter: Mm) -> None:
    """disc, diameter {diameter}"""


@message
def dial_skirt(diameter: Mm) -> None:
    """knob skirt, diameter {diameter}"""


@message
def dial_note(bore: Mm) -> None:
    """Disc seen from the front, 1:1, mm, turned to where the scale begins. Bore {bore} is the diameter of the shaft:
    add the clearance."""


@message
def dial_note_skirt(grip: Mm) -> None:
    """Knob seen from the front, 1:1, mm, turned to where the scale begins. The scale is outside the grip, diameter
    {grip}. For flat skirts only."""


@message
def dial_index() -> None:
    """index mark on the panel"""
