"""What is said of the positions of parts: relative positions, repeats, mirrors and layouts."""

from panelart.messages import Count, Each, Either, Listed, Mm, Quoted, Word, counted, message


@message
def the_part() -> None:
    """the part"""


@message
def the_mirror() -> None:
    """the mirror"""


@message
def the_module() -> None:
    """the module"""


@message
def row() -> None:
    """the row"""


@message
def row_of(ref: Word) -> None:
    """the row of {ref}"""


@message
def column() -> None:
    """the column"""


@message
def column_of(ref: Word) -> None:
    """the column of {ref}"""


@message
def grid() -> None:
    """the grid"""


@message
def grid_of(ref: Word) -> None:
    """the grid of {ref}"""


@message
def ring() -> None:
    """the ring"""


@message
def ring_of(ref: Word) -> None:
    """the ring of {ref}"""


@message
def distribution() -> None:
    """the distribution"""


@message
def distribution_of(ref: Word) -> None:
    """the distribution of {ref}"""


@message
def reference_unknown(owner: Word, ref: Quoted) -> None:
    """Position of {owner} is measured from {ref}, which is not on the panel"""


@message
def no_reference() -> None:
    """The position has no reference"""


@message
def one_of_keys(keys: Listed) -> None:
    """Accepted: one of {keys}"""


@message
def several_references(keys: Each) -> None:
    """The position has several references: {keys}"""


@message
def key_beside_reference(key: Quoted, reference: Quoted) -> None:
    """{key} is given beside {reference}"""


@message
def key_instead(key: Word) -> None:
    """Accepted: {key}"""


@message
def edge_off_face(key: Word, edge: Word) -> None:
    """'{key}: {edge}' leads off the face"""


@message
def edges(edges: Either) -> None:
    """Accepted: {edges}"""


@message
def circular_positions(chain: Word) -> None:
    """Positions refer to each other in a circle: {chain}"""


@message
def measured_from(part: Word, reference: Word) -> None:
    """{part} > {reference}"""


@message
def position_from_datum() -> None:
    """Give one of these parts a position from the datum, at: [x, y]."""


@message
def same_position(first: Word, second: Word) -> None:
    """{first} and {second} have the same position"""


@message
def different_positions() -> None:
    """Accepted: two parts with different positions"""


@message
def members_do_not_fit(owner: Word, needed: Mm, first: Word, second: Word, available: Mm) -> None:
    """Not enough space for {owner}: {needed} needed between {first} and {second}, {available} available"""


@message
def move_apart(by: Mm) -> None:
    """Use fewer or smaller members, or move the two parts apart by at least {by}."""


@message
def beside_in_layout() -> None:
    """In a layout, copies may hold 'parts', 'frames' and 'lines'; texts and drawings need a `repeat` with `step`."""


@message
def too_many_parts(count: Count, here: Count, maximum: Count) -> None:
    """The spec makes {count} parts, {here} of them here; maximum {maximum}"""


@message
def fewer_copies() -> None:
    """Reduce the number of copies."""


@message
def mirror_with_both() -> None:
    """The mirror has both 'x' and 'y'"""


@message
def mirror_line() -> None:
    """Accepted: x: position of a vertical mirror line, or y: position of a horizontal one"""


@message
def mirror_with_neither() -> None:
    """The mirror has neither 'x' nor 'y'"""


@message
def name_of_outer_copy(name: Quoted) -> None:
    """The name {name} is already used by a repeat or mirror around this one"""


@message
def name_such_as(name: Word) -> None:
    """Choose another name, such as as: {name}."""


@message
def inner_layout_with_at(kind: Word, outer: Word) -> None:
    """A {kind} inside a {outer} has an 'at'"""


@message
def remove_at(outer: Word) -> None:
    """Remove 'at'; the {outer} sets its position."""


@message
def members_without_at() -> None:
    """Remove 'at'; the layout sets the positions of its members."""


@message
def copies_without_step() -> None:
    """Remove 'step'; each copy takes the next position of the layout."""


@message
def layout_without_at(kind: Word) -> None:
    """The {kind} has no 'at', which is required"""


@message
def at_needed() -> None:
    """Accepted: at: [x, y]"""


@message
def both_spacings(kind: Word, key: Quoted) -> None:
    """The {kind} has both {key} and 'gap'"""


@message
def pitch_or_gap() -> None:
    """Accepted: pitch: distance from centre to centre, or gap: clearance between members"""


@message
def diameter_or_gap() -> None:
    """Accepted: diameter: of the circle through the centres, or gap: clearance between members"""


@message
def no_spacing(kind: Word, key: Quoted) -> None:
    """The {kind} has neither {key} nor 'gap'"""


@counted("The grid has {count} members; columns: {columns}, rows: {rows}")
def grid_count(count: Count, columns: Count, rows: Count) -> None:
    """The grid has {count} member; columns: {columns}, rows: {rows}"""


@message
def members_of_grid(count: Count) -> None:
    """Accepted: {count} members, or no 'rows'"""


@message
def one_member(kind: Word) -> None:
    """The {kind} has only one member"""


@message
def two_members() -> None:
    """Accepted: two or more members; put a single part in the list of parts, with 'at'"""


@message
def numbers_on_turned_grid(grid: Word) -> None:
    """Names along the sides of {grid}, which is rotated"""


@message
def remove_numbers() -> None:
    """Remove 'numbers', or set facing: up for the ring."""


@message
def names_of_columns(names: Count, columns: Count) -> None:
    """Names of columns: {names}; columns of the grid: {columns}"""


@message
def names_of_rows(names: Count, rows: Count) -> None:
    """Names of rows: {names}; rows of the grid: {rows}"""


@message
def so_many_names(count: Count) -> None:
    """Accepted: {count} names"""


# --- places that are changed in the text


@message
def position_calculated(what: Word) -> None:
    """Position of {what} is calculated by the spec; change 'at' in the spec"""


@message
def position_missing(ref: Word) -> None:
    """{ref} has no position in the spec"""


@message
def position_of_text_missing() -> None:
    """This text has no position in the spec"""


@message
def this_text() -> None:
    """this text"""


@message
def this_item() -> None:
    """this item"""


@message
def gap_negative(what: Word, side: Word, other: Word) -> None:
    """{what} is placed {side} {other} in the spec; the gap must not be negative"""


@message
def its_neighbour() -> None:
    """its neighbour"""


@message
def measured_from_pattern(ref: Word, anchor: Word) -> None:
    """{ref} is measured from {anchor}, which is created by a pattern; move {ref} alone"""
