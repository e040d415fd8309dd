"""What is said of a spec as a whole: panels, refs, files, areas, sheet and face."""

from panelart.messages import Count, Degrees, Each, Mm, Number, PointMm, Quoted, SizeMm, Word, counted, message


@message
def parts() -> None:
    """parts"""


@message
def knobs() -> None:
    """knobs"""


@message
def refs() -> None:
    """refs"""


@message
def inks() -> None:
    """inks"""


@message
def processes() -> None:
    """processes"""


@message
def figures() -> None:
    """figures"""


@message
def languages() -> None:
    """languages"""


@message
def texts() -> None:
    """texts"""


@message
def the_frame() -> None:
    """The frame"""


@message
def the_board() -> None:
    """The circuit board"""


@message
def on_two_boards(ref: Word) -> None:
    """{ref} is on two circuit boards"""


@message
def one_board_each() -> None:
    """Accepted: each ref on one board"""


@message
def not_for_a_board(ref: Word, part: Quoted) -> None:
    """{ref} is not a part for a circuit board: {part} has no height above a board"""


@message
def height_or_not_on_board() -> None:
    """Accepted: a part for a circuit board, or the height that yours needs in 'heights'"""


@message
def board_both_ways() -> None:
    """The circuit board has parts for a board parallel to the panel and parts for the edge of one at right angles"""


@message
def one_way_each() -> None:
    """Accepted: one board for each"""


@message
def not_on_this_board(ref: Word) -> None:
    """{ref} is not among the parts of this circuit board"""


@message
def a_ref_of_the_board() -> None:
    """Accepted: refs of 'parts'"""


@message
def the_waiver() -> None:
    """The waiver"""


@message
def the_hanging() -> None:
    """'hanging'"""


@message
def datum_outside(datum: PointMm, size: SizeMm) -> None:
    """Datum {datum} is outside the face of {size}"""


@message
def datum_on_face() -> None:
    """Accepted: a point of the face, measured from its lower-left corner"""


@message
def datum_without_drawing() -> None:
    """The datum is 'drawing', but the face has no drawing"""


@message
def datum_or_outline() -> None:
    """Accepted: a corner, the centre or a point; or an 'outline' from a drawing"""


@message
def opening_ref_taken(ref: Quoted) -> None:
    """Ref {ref} is used by a part and by an opening of the drawing"""


@message
def other_prefix() -> None:
    """Choose another prefix for the openings, such as refs: HOLE."""


@message
def coat_none_with_thickness(thickness: Mm) -> None:
    """Coat of kind 'none' has a thickness of {thickness}"""


@message
def no_thickness_or_other_kind() -> None:
    """Accepted: no thickness, or another kind of coat"""


@message
def key_is_thickness() -> None:
    """Rename the key to 'thickness'."""


@message
def coat_without_thickness(kind: Quoted) -> None:
    """Coat of kind {kind} has no 'thickness', which decides the cut size of each hole"""


@message
def thickness_on_one_surface() -> None:
    """Accepted: thickness: coat thickness on one surface in mm"""


@message
def coat_range_reversed(minimum: Mm, maximum: Mm) -> None:
    """Minimum coat thickness {minimum} is more than the maximum {maximum}"""


@message
def minimum_not_above_maximum() -> None:
    """Accepted: a minimum that is not more than the maximum"""


@message
def this_shop_file_unreadable(why: Word) -> None:
    """Cannot read the shop file: {why}"""


@message
def a_shop_file() -> None:
    """Accepted: a shop file"""


@message
def part_of_extension(file: Quoted, name: Quoted, extension: Word) -> None:
    """{file} defines the part {name}, which is also in extension {extension}"""


@message
def part_built_in(file: Quoted, name: Quoted) -> None:
    """{file} defines the part {name}, which is also a built-in part"""


@message
def rename_part() -> None:
    """Give the part another name."""


@message
def part_in_two_files(file: Quoted, name: Quoted) -> None:
    """{file} defines the part {name}, which is also in another part file"""


@message
def knob_of_extension(file: Quoted, name: Quoted, extension: Word) -> None:
    """{file} defines the knob {name}, which is also in extension {extension}"""


@message
def knob_built_in(file: Quoted, name: Quoted) -> None:
    """{file} defines the knob {name}, which is also a built-in knob"""


@message
def rename_knob() -> None:
    """Give the knob another name."""


@message
def knob_in_two_files(file: Quoted, name: Quoted) -> None:
    """{file} defines the knob {name}, which is also in another part file"""


@message
def no_such_file() -> None:
    """no such file"""


@message
def file_not_relative(file: Quoted) -> None:
    """File name {file} is not relative"""


@message
def relative_to_spec() -> None:
    """Accepted: a file name relative to the spec"""


@message
def part_file_unreadable(file: Quoted, why: Word) -> None:
    """Cannot read the part file {file}: {why}"""


@message
def limits_file_unreadable(file: Quoted, why: Word) -> None:
    """Cannot read the limits file {file}: {why}"""


@message
def repeat_with_one_ref(ref: Quoted) -> None:
    """The repeat gives several parts the ref {ref}"""


@message
def number_in_ref(example: Word) -> None:
    """Include the number of the copy in the ref: {example}."""


@message
def mirror_with_one_ref(ref: Quoted) -> None:
    """The mirror gives several parts the ref {ref}"""


@message
def ref_twice(ref: Quoted, first: Word) -> None:
    """Two parts have the ref {ref}; the first is at {first}"""


@message
def each_ref_once() -> None:
    """Accepted: each ref once on a panel"""


@message
def unknown_knob(name: Quoted) -> None:
    """Unknown knob {name}"""


@message
def no_ref_begins(prefix: Quoted) -> None:
    """No ref on the panel begins with {prefix}"""


@message
def ref_or_beginning() -> None:
    """Accepted: a ref, or the beginning of refs with *, such as J*"""


@message
def ref_named_twice(owner: Word, ref: Quoted) -> None:
    """{owner} names {ref} twice"""


@message
def each_once() -> None:
    """Accepted: each ref once"""


@message
def ref_unknown(owner: Word, ref: Quoted) -> None:
    """{owner} names {ref}, which is not on the panel"""


@message
def no_such_day(date: Word) -> None:
    """{date} is not a date of the calendar"""


@message
def calendar_date() -> None:
    """Accepted: a date of the calendar, YYYY-MM-DD"""


@message
def arc_with_turn() -> None:
    """Text on an arc has a 'turn'"""


@message
def middle_of_arc() -> None:
    """Remove 'turn'; 'middle' of the arc rotates the text."""


@message
def area_without_shape() -> None:
    """The area has no shape"""


@message
def area_shapes() -> None:
    """Accepted: one of rectangle, circle, polygon"""


@message
def area_with_shapes(shapes: Each) -> None:
    """The area has several shapes: {shapes}"""


@message
def corner_twice() -> None:
    """The polygon has the same corner twice in a row"""


@message
def corners_once() -> None:
    """Accepted: corners in order, each once"""


@message
def polygon_crosses_itself(place: PointMm) -> None:
    """The polygon crosses itself at {place}"""


@message
def corners_in_order() -> None:
    """Accepted: corners in order round the area"""


@message
def part_outside(ref: Word, place: PointMm) -> None:
    """{ref} is at {place}, outside the panel"""


@message
def range_of_face(left: Number, right: Number, bottom: Number, top: Number) -> None:
    """Accepted: x from {left} to {right}, y from {bottom} to {top}, from the datum"""


@message
def text_outside(text: Quoted, place: PointMm) -> None:
    """Text {text} is at {place}, outside the panel"""


@message
def keepout_outside() -> None:
    """The keep-out is outside the panel"""


@message
def mask_outside() -> None:
    """The mask is outside the panel"""


@message
def size_and_outline() -> None:
    """The panel has both 'size' and 'outline'"""


@message
def one_of_two() -> None:
    """Accepted: one of the two"""


@message
def panel_without_size() -> None:
    """The panel has no 'size'"""


@message
def size_or_outline() -> None:
    """Accepted: size: [width, height], size: {{rack: N}}, or an 'outline' from a drawing"""


@message
def corner_with_outline() -> None:
    """'corner' is given for an outline from a drawing"""


@message
def remove_corner() -> None:
    """Remove 'corner'; corners are cut as drawn."""


@message
def corner_too_large(radius: Mm, size: SizeMm, maximum: Mm) -> None:
    """Corner radius {radius} does not fit a face of {size}; maximum {maximum}"""


@message
def reduce_corner() -> None:
    """Reduce the corner radius."""


@message
def outline_without_file() -> None:
    """The outline has no file"""


@message
def dxf_or_svg() -> None:
    """Accepted: one of dxf, svg: a file name relative to the spec"""


@message
def outline_with_two_files() -> None:
    """The outline has both 'dxf' and 'svg'"""


@counted("The drawing has {count} holes, but the outline has no 'holes'")
def holes_without_use(count: Count) -> None:
    """The drawing has {count} hole, but the outline has no 'holes'"""


@message
def uses_of_holes() -> None:
    """Accepted: holes: openings, keep-outs or ignored"""


@message
def drawing_unreadable(file: Quoted, why: Word) -> None:
    """Cannot read the drawing {file}: {why}"""


@message
def hole_drawn_in(file: Word) -> None:
    """Hole drawn in {file}"""


@message
def opening_drawn_in(file: Word) -> None:
    """Opening drawn in {file}"""


@message
def drawn_in(file: Word) -> None:
    """Drawn in {file}"""


@message
def curves_as_arcs(file: Word, error: Mm) -> None:
    """{file}, curves as arcs within {error}"""


@message
def rails_of_rack() -> None:
    """Rails of the rack (IEC 60297-3-100)"""


@message
def rails_of_subrack() -> None:
    """Rails of the subrack (IEC 60297-3-101)"""


@message
def sheet_without_thickness() -> None:
    """The sheet has no 'thickness'"""


@message
def thickness_or_gauge() -> None:
    """Accepted: thickness, a length; or gauge"""


@message
def thickness_and_gauge() -> None:
    """The sheet has both 'thickness' and 'gauge'"""


@message
def gauge_of_material_unknown(material: Quoted) -> None:
    """No gauge table is known for the material {material}"""


@message
def materials_with_gauge() -> None:
    """Accepted: gauge of steel, galvanised steel, stainless steel or aluminium; or thickness in mm"""


@message
def unknown_gauge(gauge: Count) -> None:
    """Unknown gauge {gauge}"""


@message
def eye_behind_face(height: Mm, lean: Degrees) -> None:
    """The eye is behind the face: eye height {height}, lean {lean}"""


@message
def eye_in_front() -> None:
    """Accepted: a position of the eye in front of the face"""


@message
def range_reversed(first: Number, second: Number) -> None:
    """Range [{first}, {second}] is reversed"""


@message
def smaller_first() -> None:
    """Accepted: the smaller number first"""


@message
def box_of_one_panel() -> None:
    """'box' is given, but the spec has one panel"""


@message
def box_with_panels() -> None:
    """Accepted: 'box' beside 'panels', with the names of two panels"""


@message
def key_not_shared(key: Quoted) -> None:
    """{key} is beside 'panels'"""


@message
def key_of_each_panel(key: Quoted) -> None:
    """Accepted: {key} inside each panel"""


@message
def key_of_set(key: Quoted) -> None:
    """{key} is inside a panel"""


@message
def key_beside_panels(key: Quoted) -> None:
    """Accepted: {key} beside 'panels'"""


@message
def no_panels() -> None:
    """'panels' has no panel"""


@message
def unknown_panel(name: Quoted) -> None:
    """Unknown panel {name}"""


@message
def one_panel_twice(name: Quoted) -> None:
    """{name} is both front and rear"""


@message
def two_panels() -> None:
    """Accepted: two different panels"""


@message
def clearance_too_large(clearance: Mm, depth: Mm) -> None:
    """Clearance {clearance} is not less than the depth {depth}"""


@message
def less_than(limit: Mm) -> None:
    """Accepted: less than {limit}"""


@message
def spec_unreadable(why: Word) -> None:
    """Cannot read the spec: {why}"""


@message
def a_yaml_file() -> None:
    """Accepted: a YAML file"""


@message
def panel_not_chosen() -> None:
    """The spec has several panels, and none is selected"""


@message
def only_one_panel(name: Quoted) -> None:
    """The spec has one panel, but panel {name} is selected"""


@message
def part_made_with_others(ref: Word) -> None:
    """{ref} is made here together with other parts and has no entry of its own"""


@message
def change_for_all() -> None:
    """Change this entry for all of them, or write the part as an entry of its own."""


@message
def unknown_ref(ref: Quoted) -> None:
    """Unknown ref {ref}"""


@message
def text_not_on_panel(language: Word, text: Quoted) -> None:
    """Language {language} translates {text}, which is not on the panel"""


@message
def texts_as_written() -> None:
    """Accepted: texts of legends, as written"""


@message
def not_a_language(name: Quoted) -> None:
    """{name} is not a language"""


@message
def language_tag() -> None:
    """Accepted: a language tag, such as de, tr, ar"""


@message
def unknown_language(name: Quoted) -> None:
    """Unknown language {name}"""


@message
def variable_name_reserved(name: Quoted) -> None:
    """{name} has another meaning in braces and cannot name a variable"""


@message
def choose_name() -> None:
    """Choose another name."""
