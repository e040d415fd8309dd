"""What is said of pieces that differ (a table of values, texts and codes that do not fit) and of the loads of a bed."""

from panelart.messages import Complete, Count, Listed, MeasuredMm, Mm, Percent, Quoted, SizeMm, Word, counted, message

# --- the values


@message
def table_unreadable(reason: Word) -> None:
    """File is not a table in UTF-8: {reason}"""


@message
def column_repeated(name: Quoted) -> None:
    """Duplicate column {name}"""


@message
def column_missing(name: Quoted) -> None:
    """Table has no column {name}"""


@message
def rows_missing() -> None:
    """Table has no rows below the header"""


@message
def value_empty(name: Quoted) -> None:
    """{name} is empty"""


@message
def row_empty(row: Count) -> None:
    """Row {row} has only empty cells"""


@message
def fill_or_delete_row() -> None:
    """Fill in the row, or delete it."""


@message
def number_empty(row: Count, column: Quoted) -> None:
    """Row {row} has no value in column {column}, and numbers of the table are not made up"""


@message
def number_to_write(value: Quoted) -> None:
    """Write {value}, which the counter gives this piece, or remove the column to have all pieces counted."""


@message
def value_unusable(name: Quoted, maximum: Count) -> None:
    """{name} has line breaks, unprintable characters or more than {maximum} characters"""


@message
def value_without_glyph(ref: Word, character: Quoted) -> None:
    """{ref}: no font that the spec names has {character}"""


@message
def other_characters() -> None:
    """Write the value with other characters, or name a font that has them in the spec."""


@message
def number_repeated(name: Quoted, value: Quoted, line: Count) -> None:
    """{name} is {value}, as already in line {line}"""


@message
def variable_without_value(name: Quoted) -> None:
    """Variable {name} has no value"""


@message
def give_the_date() -> None:
    """Give --date YYYY-MM-DD."""


@message
def give_the_date_or_column() -> None:
    """Give --date YYYY-MM-DD, or add the column to the table."""


@message
def give_the_data(name: Quoted) -> None:
    """Give --rows FILE with a column {name}."""


@message
def piece_of(file: Word, piece: Count) -> None:
    """{file}, piece {piece}"""


# --- heights on the bed


@message
def face_on_bed(name: Word, height: Mm) -> None:
    """{name}: face {height} above the bed"""


@message
def face_on_flanges(name: Word, height: Mm) -> None:
    """{name}: face {height} above the bed, on its flanges"""


@message
def fitted_before(name: Word, parts: Complete) -> None:
    """{name}: in front of the face when it is printed: {parts}"""


@message
def hits_head(name: Word, clearance: Mm, parts: Complete) -> None:
    """{name}: higher than the head clearance ({clearance}): {parts}. Fit them after printing, or raise the head."""


@message
def clears_head(name: Word, clearance: Mm) -> None:
    """{name}: nothing that is fitted before printing is higher than the head clearance ({clearance})"""


@message
def head_clearance_unknown(name: Word) -> None:
    """{name}: no head clearance in the shop file (`head_clearance`): measure it before the first load"""


@message
def fitted_after(name: Word, parts: Complete) -> None:
    """{name}: fit after printing: {parts}"""


@message
def part_height(refs: Complete, height: Mm) -> None:
    """{refs} {height}"""


# --- whether it fits


@message
def variables_on_background() -> None:
    """Pieces with variable text cannot be printed on a background"""


@message
def remove_backgrounds() -> None:
    """Remove the backgrounds or the variables."""


@message
def variables_in_field() -> None:
    """Variable text cannot be knocked out of a field"""


@message
def remove_fields() -> None:
    """Remove the field or the variables, or print the text in another ink."""


@message
def legend_unset(ref: Word, reason: Word) -> None:
    """Legend of {ref} cannot be set: {reason}"""


@message
def text_on_arc() -> None:
    """text on an arc cannot vary from piece to piece"""


@message
def legend_too_wide(text: Quoted, ref: Word, excess: MeasuredMm) -> None:
    """{text} of {ref} is {excess} wider than the space of its legend"""


@message
def legend_too_high(text: Quoted, ref: Word) -> None:
    """{text} of {ref} is higher than the space of its legend"""


@message
def shorten_the_value() -> None:
    """Shorten the value, or allow more space for the legend."""


@message
def code_unreadable(ref: Word, reason: Word) -> None:
    """{ref} cannot be drawn: {reason}"""


@message
def code_too_large(ref: Word, size: SizeMm, maximum: SizeMm) -> None:
    """{ref} is {size}; maximum {maximum}"""


@message
def shorten_the_code() -> None:
    """Use a text that is no longer than the example."""


# --- the bed


@message
def quantity_out_of_range(pieces: Count, maximum: Count) -> None:
    """Job has {pieces} pieces; minimum 1, maximum {maximum}"""


@message
def piece_too_large(name: Word, size: SizeMm, maximum: SizeMm) -> None:
    """{name} is {size}; maximum {maximum} inside the margin of the bed"""


@message
def clearance_closes_notch(name: Word, clearance: Mm) -> None:
    """A jig clearance of {clearance} closes a notch of {name}"""


@message
def piece_off_bed(low: Word, high: Word, bed: SizeMm) -> None:
    """Piece from {low} to {high} is not inside the bed of {bed}"""


@message
def load(number: Count) -> None:
    """Load {number}"""


@message
def load_range(first: Count, last: Count) -> None:
    """Loads {first} to {last}"""


@message
def pocket_note(number: Count, panel: Word) -> None:
    """pocket {number}: {panel}"""


@message
def piece(number: Count) -> None:
    """piece {number}"""


@message
def piece_range(first: Count, last: Count) -> None:
    """pieces {first} to {last}"""


@message
def pieces_of(quantity: Count, name: Word) -> None:
    """{quantity} × {name}"""


@message
def load_line(loads: Word, pieces: Word, kinds: Listed, jig: Count, usage: Percent) -> None:
    """{loads}: {pieces}, {kinds}; jig {jig}, {usage} of the bed"""


@message
def load_lines(loads: Word, pieces: Word, kinds: Listed, jig: Count, usage: Percent) -> None:
    """{loads}: {pieces}, {kinds} each; jig {jig}, {usage} of the bed"""


@counted("{count} pieces")
def pieces(count: Count) -> None:
    """{count} piece"""


@counted("{count} loads")
def loads(count: Count) -> None:
    """{count} load"""


@counted("{count} jigs")
def jigs(count: Count) -> None:
    """{count} jig"""


@message
def bed_total(pieces: Word, loads: Word, jigs: Word) -> None:
    """{pieces} in {loads}, {jigs}"""


@message
def plate_in_another_colour(plate: Word, colour: Word, panel: Word, shown: Word) -> None:
    """Plate {plate} is {colour} on {panel}; shown as {shown}"""
