"""What is said of a component list: how a row was read, what could not be read, where a panel differs from it."""

from panelart.messages import Count, Each, Listed, Mm, Number, Quoted, Word, message

# --- a remark and its place


@message
def remark(file: Word, row: Count, weight: Word, message: Word) -> None:
    """{file}, row {row}: {weight}: {message}"""


@message
def remark_in_column(file: Word, row: Count, column: Quoted, weight: Word, message: Word) -> None:
    """{file}, row {row}, column {column}: {weight}: {message}"""


@message
def note() -> None:
    """note"""


@message
def question() -> None:
    """question"""


# --- headers and rows


@message
def headers_missing(row: Quoted) -> None:
    """No header row found; first row: {row}"""


@message
def headers_missing_in_empty_table() -> None:
    """No header row found; the table is empty"""


@message
def name_the_columns(headers: Listed) -> None:
    """Use two or more of these headers, one of them ref, part or description: {headers}."""


@message
def too_many_parts(maximum: Count) -> None:
    """List has more than {maximum} parts"""


@message
def divide_the_list() -> None:
    """Divide the list among several panels."""


# --- refs and quantities


@message
def range_of_two_letters(refs: Quoted, first: Quoted, last: Quoted) -> None:
    """Range {refs} runs from {first} to {last}; both ends need the same letters, for example J1-J4"""


@message
def range_backwards(refs: Quoted) -> None:
    """Range {refs} runs backwards; write the lower number first"""


@message
def range_too_long(refs: Quoted, count: Count, maximum: Count) -> None:
    """Range {refs} has {count} refs; maximum {maximum} in a row"""


@message
def too_many_refs(count: Count, maximum: Count) -> None:
    """Row has {count} refs; maximum {maximum}"""


@message
def ref_repeated(ref: Word) -> None:
    """{ref} is already in the list; the first row is used"""


@message
def ref_assigned(ref: Word) -> None:
    """No ref; {ref} assigned"""


@message
def refs_assigned(first: Word, last: Word) -> None:
    """No ref; {first} to {last} assigned"""


@message
def refs_by_quantity(ref: Word, quantity: Count, refs: Listed) -> None:
    """{ref} has quantity {quantity}; placed: {refs}"""


@message
def quantity_not_a_number(text: Quoted, count: Count) -> None:
    """Quantity {text} is not a whole number; {count} assumed"""


@message
def quantity_too_large(quantity: Count, maximum: Count, assumed: Count) -> None:
    """Quantity is {quantity}; maximum {maximum} in a row; {assumed} assumed"""


@message
def quantity_contradicts_refs(quantity: Count, refs: Listed) -> None:
    """Quantity {quantity} does not agree with the refs; placed: {refs}"""


@message
def quantities_for_several(times: Count) -> None:
    """Every quantity is {times} times the refs of its row, as for {times} sets; each ref is placed once"""


# --- parts


@message
def part_missing(refs: Listed) -> None:
    """No part for {refs}"""


@message
def not_sold_in(part: Word, asked: Listed, sold: Listed) -> None:
    """{part} is not sold in {asked}; it is sold in {sold}"""


@message
def part_unknown(words: Quoted) -> None:
    """No catalogue part matches {words}"""


@message
def part_uncertain(words: Quoted, candidates: Listed) -> None:
    """{words} does not identify one catalogue part; candidates: {candidates}"""


@message
def part_matched(words: Quoted, part: Word) -> None:
    """{words} read as {part}"""


@message
def candidate(name: Word) -> None:
    """{name}"""


@message
def candidate_agrees(name: Word, agrees: Listed) -> None:
    """{name} (agrees: {agrees})"""


@message
def candidate_but(name: Word, agrees: Listed, differs: Listed) -> None:
    """{name} (agrees: {agrees}; does not: {differs})"""


# --- other columns


@message
def legends_numbered(count: Count, first: Quoted, last: Quoted) -> None:
    """One legend for {count} parts; numbered {first} to {last}"""


@message
def side_unknown(text: Quoted) -> None:
    """Side {text} is neither front nor rear; front assumed"""


@message
def order_not_a_number(text: Quoted) -> None:
    """Order {text} is not a number; order of the rows used"""


@message
def knob_without_shaft(part: Word) -> None:
    """{part} has no shaft for a knob; knob ignored"""


@message
def knob_unknown(text: Quoted) -> None:
    """Unknown knob {text}; give a catalogue name or a diameter in mm"""


@message
def knob_unknown_near(text: Quoted, name: Word) -> None:
    """Unknown knob {text} (nearest: {name}); give a catalogue name or a diameter in mm"""


@message
def knob_height_missing(diameter: Mm, height: Mm) -> None:
    """Height of the {diameter} knob not given; {height} assumed"""


@message
def positions_of_fixed_part(part: Word) -> None:
    """{part} has no positions to label; positions ignored"""


@message
def positions_miscounted(names: Count, part: Word, positions: Listed) -> None:
    """{names} names for the positions of {part} ({positions}); positions ignored"""


@message
def scale_unreadable(text: Quoted) -> None:
    """{text} is not a scale; write for example 0-30 V, 0 to 100 % or -20..20 dB"""


@message
def scale_backwards(text: Quoted) -> None:
    """Scale {text} must end higher than it starts; scale ignored"""


@message
def scale_too_large(text: Quoted, maximum: Number) -> None:
    """Scale {text} exceeds the maximum value of {maximum}; scale ignored"""


@message
def scale_of_fixed_part(part: Word) -> None:
    """{part} is neither rotary nor a slider; scale ignored"""


# --- the panel compared with the list


@message
def difference(where: Word, kind: Word, message: Word) -> None:
    """{where}: {kind}: {message}"""


@message
def missing() -> None:
    """missing"""


@message
def extra() -> None:
    """extra"""


@message
def different_part() -> None:
    """different part"""


@message
def different_legend() -> None:
    """different legend"""


@message
def different_group() -> None:
    """different group"""


@message
def other_side() -> None:
    """other side"""


@message
def unknown_part() -> None:
    """unknown part"""


@message
def not_on_panel(ref: Word, part: Word) -> None:
    """{ref} ({part}) is not on the panel"""


@message
def not_in_list(ref: Word, part: Word) -> None:
    """{ref} ({part}) is not in the list"""


@message
def part_differs(ref: Word, part: Word, row: Count, listed: Word) -> None:
    """{ref} is {part} on the panel; row {row} of the list has {listed}"""


@message
def part_differs_by_words(ref: Word, part: Word, row: Count, listed: Word, words: Quoted) -> None:
    """{ref} is {part} on the panel; row {row} of the list has {listed} ({words})"""


@message
def legend_differs(ref: Word, legend: Quoted, row: Count, listed: Quoted) -> None:
    """{ref} has the legend {legend} on the panel; row {row} of the list has {listed}"""


@message
def part_of_list_unknown(ref: Word, part: Word, words: Quoted) -> None:
    """{ref} is {part} on the panel; {words} in the list does not identify one part"""


@message
def dashes_signs(rows: Listed) -> None:
    """Dashes taken as legends in rows {rows}"""


@message
def dashes_none(rows: Listed) -> None:
    """Dashes taken as no legend in rows {rows}"""


@message
def group_frame_without(refs: Each, group: Quoted) -> None:
    """{refs}: in group {group} in the list, but not in its frame on the panel"""


@message
def group_frame_too_wide(refs: Each, group: Quoted) -> None:
    """{refs}: in frame {group} on the panel, but not in that group in the list"""


@message
def on_other_side(ref: Word, panel: Word, row: Count, side: Word) -> None:
    """{ref} is on panel {panel}; row {row} of the list has side {side}"""
