"""What the stations of the build sheet tell the workshop, except the one that marks the face."""

from panelart.messages import Complete, Count, Degrees, Mm, Number, TwoDecimals, Word, message

# --- tables that several stations have


@message
def column_first_piece() -> None:
    """first piece"""


@message
def column_hole_size() -> None:
    """hole size"""


@message
def from_datum() -> None:
    """Positions from the datum, seen from the front."""


@message
def from_datum_with_flanges() -> None:
    """Positions from the datum, seen from the front; in a flange along it, and back from the outside of its bend."""


@message
def quantities_for_one() -> None:
    """Quantities for one panel."""


@message
def general_tolerance(grade: Word, openings: Word) -> None:
    """Unless stated otherwise: openings {openings}, other sizes ISO 2768-{grade}."""


@message
def width() -> None:
    """width"""


@message
def height() -> None:
    """height"""


@message
def tolerance_of(dimension: Word, size: TwoDecimals, tolerance: Word) -> None:
    """{dimension} {size} {tolerance}"""


@message
def coat_range_included(openings: Word) -> None:
    """{openings} includes the range of the coat."""


@message
def pitch(measure: Word, size: TwoDecimals) -> None:
    """{measure} {size}"""


@message
def plus_minus(size: Word, tolerance: Word) -> None:
    """{size} {tolerance}"""


# --- cutting


@message
def cut_by_laser() -> None:
    """Cut by laser"""


@message
def punch() -> None:
    """Punch"""


@message
def mill() -> None:
    """Mill"""


@message
def cut_by_waterjet() -> None:
    """Cut by waterjet"""


@message
def cut_by_hand() -> None:
    """Cut by hand"""


@message
def sheet(material: Word, thickness: Mm) -> None:
    """Sheet: {material}, {thickness}."""


@message
def sheet_grain_along(material: Word, thickness: Mm) -> None:
    """Sheet: {material}, {thickness}, grain along the width."""


@message
def sheet_grain_across(material: Word, thickness: Mm) -> None:
    """Sheet: {material}, {thickness}, grain across the width."""


@message
def check_thickness() -> None:
    """Check the certificate, or measure the thickness: ________ mm."""


@message
def cut_file(file: Word) -> None:
    """Cut {file}: layers 'cutouts' and 'outline' only."""


@message
def outline_from(file: Word) -> None:
    """Outline from {file}."""


@message
def no_kerf_in_file() -> None:
    """The file contains no kerf compensation, lead-ins or micro-joints: add what the machine needs."""


@message
def no_tabs_on_marked_face() -> None:
    """Leave no tabs on a marked face."""


@message
def measure_first_cut() -> None:
    """Measure the first piece and fill in the table before you cut the others."""


@message
def corners_keep_radius() -> None:
    """Inside corners keep the radius of the cutter."""


@message
def cutter_with_relief(diameter: Mm) -> None:
    """Use a {diameter} cutter: sharp inside corners are relieved in the file."""


@message
def cutter_without_relief(diameter: Mm) -> None:
    """Use a {diameter} cutter: inside corners keep its radius."""


@message
def layers_not_cut() -> None:
    """Do not cut the layers 'countersinks' and 'bends'."""


@message
def not_by_laser(reason: Word) -> None:
    """Do not cut by laser: {reason}."""


@message
def cut_sizes() -> None:
    """Cut sizes"""


@message
def column_cut_size() -> None:
    """cut size"""


@message
def from_corner() -> None:
    """Positions from the lower-left corner of the cut piece."""


@message
def from_bounding_corner() -> None:
    """Positions from the lower-left corner of the bounding box of the cut piece."""


@message
def relieved(size: Word) -> None:
    """{size}, relieved"""


@message
def punches() -> None:
    """Punches"""


@message
def column_punch() -> None:
    """punch"""


@message
def column_strokes() -> None:
    """strokes"""


@message
def column_openings() -> None:
    """openings"""


@message
def nibbled() -> None:
    """nibbled"""


@message
def outline_tool() -> None:
    """Cut the outline with the usual tool. Tabs and micro-joints at the shop's discretion."""


# --- deburring and countersinking


@message
def deburr() -> None:
    """Deburr"""


@message
def break_edges() -> None:
    """Break all accessible edges on both faces, 0.1 to 0.5 mm."""


@message
def no_scratches() -> None:
    """Do not scratch the front: it stays visible."""


@message
def holes_not_deburred(refs: Complete) -> None:
    """Do not deburr or countersink the holes of {refs}: press-in hardware goes there."""


@message
def countersink() -> None:
    """Countersink"""


@message
def countersink_to_diameter() -> None:
    """Countersink each hole to the diameter given. Try the screw in the first one."""


@message
def head_below_face(thickness: Word) -> None:
    """Diameters allow for a coat thickness of {thickness}: before coating, heads end slightly below the face."""


@message
def head_flush() -> None:
    """Heads finish flush with the bare face."""


@message
def no_burr_behind() -> None:
    """Leave no burr on the far side, and do not enlarge the hole."""


@message
def countersinks() -> None:
    """Countersinks"""


@message
def column_diameter() -> None:
    """diameter"""


@message
def countersinks_remark(thickness: Mm) -> None:
    """Diameters ±0.1 mm, depth from the bare face, sheet thickness {thickness}."""


# --- bending


@message
def bend() -> None:
    """Bend"""


@message
def bend_in_order() -> None:
    """Bend in the order of the table."""


@message
def bend_directions() -> None:
    """Seen from the front, down is away from you (the front stays outside) and up is towards you."""


@message
def springback() -> None:
    """Allow for springback: overbend until the angle is right."""


@message
def protect_from_die() -> None:
    """Protect the front from the die."""


@message
def outside_size(width: TwoDecimals, height: TwoDecimals) -> None:
    """Outside size of the face when bent, uncoated: {width} × {height} mm."""


@message
def die_opening(opening: Mm) -> None:
    """Die opening {opening}."""


@message
def last_bends() -> None:
    """Flanges meet at a corner. Last bends: punch no longer than the edge."""


@message
def bends() -> None:
    """Bends"""


@message
def column_step() -> None:
    """step"""


@message
def column_bend() -> None:
    """bend"""


@message
def column_bend_line() -> None:
    """bend line"""


@message
def column_direction() -> None:
    """direction"""


@message
def column_inside_radius() -> None:
    """inside radius"""


@message
def column_bend_allowance() -> None:
    """bend allowance"""


@message
def column_outside_length() -> None:
    """outside length"""


@message
def bend_angle(angle: Degrees, tolerance: Degrees) -> None:
    """{angle} ±{tolerance}"""


@message
def radius(radius: Number) -> None:
    """R{radius}"""


@message
def bends_remark() -> None:
    """Bend lines are the middle of each bend, from the lower-left corner of the blank. Lengths uncoated."""


# --- welding and pressing


@message
def weld_studs() -> None:
    """Weld studs"""


@message
def weld_square() -> None:
    """Mark out on the rear. Weld square to the sheet. Remove spatter."""


@message
def pull_test() -> None:
    """Pull-test the first piece."""


@message
def weld_studs_from_rear() -> None:
    """Weld studs, seen from the rear"""


@message
def column_stud() -> None:
    """stud"""


@message
def from_rear_corner() -> None:
    """Positions from the lower-left corner as seen from the rear."""


@message
def press_in() -> None:
    """Press in hardware"""


@message
def press_in_after_coat() -> None:
    """Press in hardware, after the coat"""


@message
def press_in_before_bending() -> None:
    """Press in hardware, before bending"""


@message
def set_rivets() -> None:
    """Set rivets"""


@message
def set_rivets_after_coat() -> None:
    """Set rivets, after the coat"""


@message
def check_undeburred() -> None:
    """Check each hole before fitting: it must not be deburred."""


@message
def press_flush() -> None:
    """Press between parallel faces until the shoulder is flush. Never hammer. Try a screw in each."""


@message
def set_until_break() -> None:
    """Set each rivet until the mandrel breaks. No rivet may turn."""


@message
def protect_from_anvil() -> None:
    """Put protective film between the finished face and the anvil."""


@message
def hardware() -> None:
    """Hardware by size"""


@message
def pressed_from_rear() -> None:
    """Press in from the rear unless the description states otherwise. Quantities for one panel."""


# --- masking and coating


@message
def clean_and_mask() -> None:
    """Clean and mask"""


@message
def degrease() -> None:
    """Degrease. Wear gloves from here on."""


@message
def place_masks() -> None:
    """Place masks within 0.5 mm and press their edges down. Plug or cap every thread listed."""


@message
def masks() -> None:
    """Masks"""


@message
def column_mask() -> None:
    """mask"""


@message
def column_size() -> None:
    """size"""


@message
def column_reason() -> None:
    """reason"""


@message
def mask_files(files: Complete) -> None:
    """Masks on the face: {files}."""


@message
def plugs() -> None:
    """Plugs and caps"""


@message
def column_thread() -> None:
    """thread"""


@message
def plugs_remark() -> None:
    """Plug nuts, cap studs. Quantities for one panel."""


@message
def powder_coat() -> None:
    """Powder-coat"""


@message
def paint() -> None:
    """Paint"""


@message
def anodise() -> None:
    """Anodise"""


@message
def zinc_plate() -> None:
    """Zinc-plate"""


@message
def conversion_coat() -> None:
    """Conversion-coat"""


@message
def coat() -> None:
    """Coat"""


@message
def colour(name: Word, colour: Word) -> None:
    """Colour: {name}, shown here as {colour}."""


@message
def colour_as_ordered(colour: Word) -> None:
    """Colour as ordered, shown here as {colour}."""


@message
def coat_all_faces() -> None:
    """Coat all faces and the walls of openings."""


@message
def coat_front() -> None:
    """Coat the front, the edges and the walls of openings."""


@message
def coat_thickness(thickness: Word) -> None:
    """Coat thickness on one surface: {thickness}."""


@message
def measure_coat() -> None:
    """Measure on the front in the middle and near two corners: ________ ________ ________ mm."""


@message
def cure() -> None:
    """Cure as the powder's data sheet states. Curing time starts when the metal reaches the temperature."""


@message
def remove_masks() -> None:
    """Remove masks and plugs as soon as the coat allows. Bare areas must be clean metal."""


@message
def anodising_insulates() -> None:
    """Anodising insulates: mask bonding areas, or make them bare afterwards."""


@message
def hang_as_specified(openings: Complete) -> None:
    """Hang by the openings provided for it: {openings}."""


@message
def hang_by_flange_edge() -> None:
    """Hang by a hook over the edge of a flange, on the inside, where its mark is hidden."""


@message
def no_hidden_opening() -> None:
    """No hidden opening is available for hanging: agree with the coater where hooks may touch."""


@message
def hang_by_flange_holes(openings: Complete) -> None:
    """Hang by the flange holes {openings}: hook marks are hidden there."""


@message
def hang_by_covered_openings(openings: Complete) -> None:
    """Hang by openings whose rim a part covers: {openings}."""


# --- inspection


@message
def inspect() -> None:
    """Inspect"""


@message
def measure_pieces() -> None:
    """Measure the first piece and each piece in the inspection plan. Enter the values here or in inspection.csv."""


@message
def try_parts() -> None:
    """Try the part, or a gauge of its size, in every opening with an entry under 'must admit'."""


@message
def finished_sizes() -> None:
    """Finished sizes"""


@message
def column_feature() -> None:
    """feature"""


@message
def column_finished_size() -> None:
    """finished size"""


@message
def column_must_admit() -> None:
    """must admit"""


@message
def column_measured() -> None:
    """measured"""


@message
def screw() -> None:
    """a screw"""


@message
def countersink_diameter(diameter: TwoDecimals) -> None:
    """Ø{diameter} countersink"""


@message
def angle(angle: Degrees) -> None:
    """{angle}"""


@message
def flange_named(edge: Word) -> None:
    """{edge} flange"""


@message
def bend_named(edge: Word) -> None:
    """{edge} bend"""


@message
def return_named(edge: Word) -> None:
    """{edge} return"""


@message
def return_bend_named(edge: Word) -> None:
    """{edge} return bend"""


# --- assembly and packing


@message
def assemble() -> None:
    """Assemble"""


@message
def clear_threads() -> None:
    """Remove plugs, caps and masks. Blow out the threads."""


@message
def fit_parts() -> None:
    """Fit each part from its own side with its own washers and nuts, the gasket against the face."""


@message
def tighten() -> None:
    """Tighten to the torque in the part's data sheet. Hold the part, turn the nut."""


@message
def board_stands(board: Word, refs: Complete, distance: Mm) -> None:
    """Circuit board {board} ({refs}): {distance} from its surface to the rear of the panel."""


@message
def part_on_spacers(board: Word, ref: Word, height: Mm) -> None:
    """On circuit board {board}, {ref} is on spacers {height} high."""


@message
def knobs_last(knobs: Complete) -> None:
    """Fit knobs last: {knobs}. Set the pointer to the low end of the scale."""


@message
def dials_to_marks(refs: Complete) -> None:
    """Scales that turn, {refs}: turn the control to the end where the scale begins, set the first value to the index
    mark on the panel, and fasten the knob or disc."""


@message
def knob_of(ref: Word, knob: Word) -> None:
    """{ref} ({knob})"""


@message
def on_surface(ref: Word, surface: Word) -> None:
    """{ref} ({surface})"""


@message
def tighten_to_table() -> None:
    """Tighten to the torque in the table; where it has none, to that in the part's data sheet. Hold the part, turn the
    nut."""


@message
def fasteners() -> None:
    """Fasteners"""


@message
def column_supply() -> None:
    """supply"""


@message
def column_spanner() -> None:
    """spanner"""


@message
def column_torque() -> None:
    """torque"""


@message
def column_tightened() -> None:
    """tightened from"""


@message
def parts() -> None:
    """Parts"""


@message
def pack() -> None:
    """Pack"""


@message
def count_good(quantity: Count) -> None:
    """Count: {quantity} good."""


@message
def serial_numbers(first: Word, last: Word) -> None:
    """Serial numbers {first} to {last}."""


@message
def wrap_each() -> None:
    """Protect the front with film or tissue. Wrap each piece by itself, never face to face."""


@message
def enclose_sheet() -> None:
    """Fill in this sheet and put it with the pieces."""
