"""What is said of part files, and of catalogue parts that are changed where they are used."""

from panelart.messages import Count, Degrees, Each, Listed, Mm, Number, Quoted, SizeMm, Word, counted, message


@message
def of_entry(entry: Word, told: Word) -> None:
    """{entry}: {told}"""


# --- what is looked for by name


@message
def parts() -> None:
    """parts"""


@message
def columns() -> None:
    """columns"""


@message
def cautions() -> None:
    """cautions"""


@message
def keys() -> None:
    """keys"""


@message
def dimensions() -> None:
    """dimensions"""


@message
def envelopes() -> None:
    """envelopes"""


# --- files and their entries


@message
def unknown_part(name: Quoted) -> None:
    """Unknown part {name}"""


@message
def duplicate_name(name: Quoted, line: Count, column: Count) -> None:
    """Duplicate name {name}; the first is at {line}:{column}"""


@message
def each_name_once() -> None:
    """Accepted: each name once"""


@message
def too_many_entries(maximum: Count) -> None:
    """Too many entries in the file; maximum {maximum}"""


@message
def split_file() -> None:
    """Split the file."""


@counted("{count} values in this row; columns of the table: {columns}")
def row_length(count: Count, columns: Count) -> None:
    """{count} value in this row; columns of the table: {columns}"""


@message
def accepted_row(columns: Listed) -> None:
    """Accepted: [{columns}]"""


@message
def row_name(name: Quoted) -> None:
    """This row gives the invalid name {name}"""


@message
def accepted(accepted: Word) -> None:
    """Accepted: {accepted}"""


@message
def unknown_column(name: Quoted) -> None:
    """Unknown column {name}"""


@message
def unknown_caution(key: Quoted) -> None:
    """Unknown caution {key}"""


# --- formulas


@message
def formula_not_finite(formula: Quoted) -> None:
    """{formula} gives no finite number"""


@message
def formula_too_deep(maximum: Count) -> None:
    """Parentheses are nested too deep; maximum {maximum} levels"""


@message
def formula_divides_by_zero(formula: Quoted) -> None:
    """{formula} divides by zero"""


@message
def formula_unexpected(token: Quoted, formula: Quoted) -> None:
    """Unexpected {token} in {formula}"""


@message
def formula_incomplete(formula: Quoted) -> None:
    """{formula} is incomplete"""


@message
def formula_character(character: Quoted) -> None:
    """Character {character} is not accepted in a formula"""


@message
def accepted_in_formula() -> None:
    """Accepted: numbers, names, + - * / ^, parentheses, and abs, exp, ln, log10, max, min, sqrt"""


@message
def unknown_in_law(name: Quoted) -> None:
    """Unknown name {name} in the formula of the law"""


@message
def variable_of_law(name: Quoted) -> None:
    """Accepted: {name}, the value on the scale"""


@message
def unknown_function(name: Quoted) -> None:
    """Unknown function {name}"""


@message
def functions() -> None:
    """functions"""


@counted("Function {name} with {count} values")
def function_values(name: Quoted, count: Count) -> None:
    """Function {name} with {count} value"""


@counted("Accepted: {count} values")
def values_of_function(count: Count) -> None:
    """Accepted: {count} value"""


@message
def no_columns() -> None:
    """Accepted: a formula without columns, which only a family defines"""


# --- figures


@message
def write_key(key: Word) -> None:
    """Write {key}."""


@message
def write_circle(value: Word) -> None:
    """Write circle: {{diameter: {value}}}."""


@message
def write_rectangle() -> None:
    """Write the shape: rectangle: {{width: …, height: …}}."""


@message
def write_slot() -> None:
    """Write the shape: slot: {{length: …, width: …}}."""


@message
def write_hexagon(value: Word) -> None:
    """Write hexagon: {{across_flats: {value}}}."""


@message
def write_at() -> None:
    """Write at: [x, y]."""


@message
def write_projection(value: Word) -> None:
    """Write projection: {value}."""


@message
def write_depth(value: Word) -> None:
    """Write depth: {value}."""


@message
def not_covered(what: Word, size: SizeMm, opening: SizeMm) -> None:
    """The {what} does not cover the opening: {size} over {opening}"""


@message
def correct_cover() -> None:
    """Correct the one or the other; both are overall sizes"""


@message
def like_itself(part: Quoted) -> None:
    """{part} is like a part that is like it"""


@message
def like_other() -> None:
    """Name a part that is defined in full"""


@message
def measured_by(by: Word, date: Word) -> None:
    """measured by {by}, {date}"""


@message
def measured_by_name(by: Word) -> None:
    """measured by {by}"""


@message
def measured_on(date: Word) -> None:
    """measured {date}"""


@message
def own_figure() -> None:
    """designer's own figure"""


@message
def value_too_large(value: Number) -> None:
    """Value {value} is too large"""


@message
def numbers_up_to(maximum: Number) -> None:
    """Accepted: numbers up to {maximum}"""


@message
def value_outside_span(value: Number, lowest: Number, highest: Number) -> None:
    """Value {value} is outside its span, {lowest} to {highest}"""


@message
def accepted_span() -> None:
    """Accepted: [lowest, highest] value found in sources, with the value itself between them"""


@message
def deviations_reversed(lower: Number, upper: Number) -> None:
    """Lower deviation {lower} is more than upper deviation {upper}"""


@message
def accepted_deviations() -> None:
    """Accepted: [lower, upper], for example [0, 0.4] for +0.4/0"""


@message
def band_of_nothing() -> None:
    """Both deviations are 0"""


@message
def band_or_none() -> None:
    """Write the deviations allowed, for example [0, 0.4] for +0.4/0, or leave out the tolerance."""


@message
def lower_limit(name: Quoted, value: Number, lower: Number, limit: Number) -> None:
    """Lower limit of {name} is {limit}: {value} with the deviation {lower}"""


@message
def deviations_not_limits() -> None:
    """Accepted: deviations from the value, not limits, such as [0, 0.4] for +0.4/0"""


@message
def outside_own_limits(name: Quoted, value: Number, lower: Number, upper: Number) -> None:
    """{name} is {value}, outside its own limits by the deviations [{lower}, {upper}]"""


@message
def write_within_limits(value: Number, lower: Number, upper: Number) -> None:
    """Write value: {value}, tolerance: [{lower}, {upper}]."""


@message
def dimension_is(name: Quoted, value: Number) -> None:
    """{name} is {value}"""


@message
def more_than_zero() -> None:
    """Accepted: more than 0"""


@message
def zero_or_more() -> None:
    """Accepted: 0 or more"""


@message
def sheet_range(minimum: Number, maximum: Number) -> None:
    """Sheet thickness is {minimum} to {maximum} mm"""


@message
def accepted_sheet_range() -> None:
    """Accepted: minimum of 0 or more, maximum of more than 0 and not less than the minimum"""


@message
def both_limits() -> None:
    """Accepted: both minimum and maximum"""


@message
def shaft_size(diameter: Mm, length: Mm) -> None:
    """Shaft diameter is {diameter}, length {length}"""


@message
def both_more_than_zero() -> None:
    """Accepted: both more than 0"""


@message
def travel_below(maximum: Mm) -> None:
    """Accepted: 0 to less than the longer side of the shape, {maximum}"""


# --- shapes and their places


@message
def no_shape(owner: Word) -> None:
    """No shape for {owner}"""


@message
def second_shape(shape: Quoted, first: Quoted) -> None:
    """{shape} is a second shape beside {first}"""


@message
def one_shape(shapes: Listed) -> None:
    """Accepted: one of {shapes}"""


@message
def invalid_shape(shape: Word, why: Word) -> None:
    """Invalid {shape}: {why}"""


@message
def several_places(owner: Word, keys: Each) -> None:
    """Several positions for {owner}: {keys}"""


@message
def one_kind_of_place() -> None:
    """Accepted: one of at, places, corners and grid"""


@message
def grid_count(columns: Number, rows: Number) -> None:
    """Grid count is [{columns}, {rows}]"""


@message
def accepted_grid(maximum: Count) -> None:
    """Accepted: whole numbers from 1, maximum {maximum} positions in total"""


@message
def grid_outside_circle() -> None:
    """No position of the grid is inside the circle"""


@message
def enlarge_circle() -> None:
    """Increase 'within' or change 'count' and 'step'."""


@message
def countersink_not_round() -> None:
    """Countersink on an opening that is not round"""


@message
def round_opening() -> None:
    """Accepted: a round opening"""


@message
def countersink_too_small(diameter: Mm, hole: Mm) -> None:
    """Countersink diameter {diameter} is not larger than the hole diameter {hole}"""


@message
def larger_countersink() -> None:
    """Increase the countersink diameter."""


@message
def countersink_angle(angle: Degrees) -> None:
    """Countersink angle is {angle}"""


@message
def accepted_angle(minimum: Degrees, maximum: Degrees) -> None:
    """Accepted: {minimum} to {maximum}"""


# --- what a part knows


@message
def angles_out_of_order(angles: Listed) -> None:
    """Angles {angles} do not increase within one turn"""


@message
def angles_clockwise() -> None:
    """Accepted: increasing angles in degrees, clockwise from straight up, such as [-45, 0, 45]"""


@message
def way_without_angles() -> None:
    """A way of turning without angles"""


@message
def angles_or_index() -> None:
    """Accepted: `angles: [-45, 0, 45]`, or `index: 30`"""


@message
def positions_of_index(fewest: Number, most: Number, index: Degrees) -> None:
    """{fewest} to {most} positions with an index of {index}"""


@message
def at_most_positions(most: Count) -> None:
    """Accepted: whole numbers, fewest first, maximum {most}"""


@message
def torque_reversed(low: Number, high: Number) -> None:
    """A torque of {low} to {high} N m"""


@message
def low_before_high() -> None:
    """Accepted: lowest first, both more than 0"""


@message
def cut_and_fitted(by: Word, panel: Word, date: Word) -> None:
    """cut and fitted by {by}, {panel}, {date}"""


# --- what a search tells


@message
def kind_not_measured() -> None:
    """No part of this kind is in the catalogue"""


@message
def measure_and_define() -> None:
    """Measure its opening and fixing holes, or read the part drawing, and define it in a part file."""


@message
def nearest_kinds(kinds: Listed) -> None:
    """Nearest kinds of part: {kinds}"""


# --- how many parts are cut by published figures


@message
def standings(parts: Count, published: Count, typical: Count, recalled: Count) -> None:
    """Of the {parts} parts of the catalogue, {published} are cut by published figures or chosen clearances, {typical}
    by typical values too, because makers differ, and {recalled} by figures from memory too"""
