"""What is said when a panel is drafted from a list and when parts are arranged; the comments of a drafted spec."""

from panelart.messages import Count, Each, Either, Listed, Mm, Quoted, SizeMm, Word, counted, message

# --- no room


@message
def face_too_small(size: SizeMm) -> None:
    """Parts do not fit on {size}"""


@message
def face_too_small_but(size: SizeMm, sizes: Either) -> None:
    """Parts do not fit on {size}; {sizes} would be large enough"""


@message
def panel_size(size: SizeMm) -> None:
    """{size}"""


@counted("Parts do not fit on any of the {count} given sizes")
def given_sizes_too_small(count: Count) -> None:
    """Parts do not fit on the given size"""


@message
def largest_face_too_small(maximum: SizeMm) -> None:
    """Parts do not fit on a panel of {maximum}, the maximum"""


@message
def no_room_for_group(group: Quoted, size: SizeMm) -> None:
    """No space for group {group} in the free area of the {size} panel"""


@message
def no_room_for_parts(refs: Each, size: SizeMm) -> None:
    """No space for {refs} in the free area of the {size} panel"""


@message
def no_room_beside(refs: Each, others: Listed) -> None:
    """No space for {refs}: {others} and the edge of the panel leave none"""


@message
def make_room() -> None:
    """Use a larger panel, fewer parts, smaller lettering or several panels."""


@message
def size_not_to_be_enlarged() -> None:
    """The size of the panel is not written as two lengths, so it cannot be changed here"""


@message
def size_of_two_lengths() -> None:
    """Write `size: [260, 110]`, or enlarge the panel in the spec."""


# --- what moving does not clear


@message
def not_by_moving() -> None:
    """moving parts does not clear it"""


@message
def parts_stay(refs: Each) -> None:
    """{refs} must not be moved: fixed, on a board or placed by the spec"""


@message
def no_room_to_move() -> None:
    """no moves found that clear it"""


# --- sizes and grids as they are asked for


@message
def size_unreadable(size: Quoted) -> None:
    """{size} is not a panel size; accepted: 260x110, 260x or x110 (one side free), 3U, 3Ux42HP, smallest"""


@message
def listed_size_unreadable(size: Quoted) -> None:
    """{size} is not a size with width and height; accepted: 260x110, 3U, 3Ux42HP"""


@message
def side_unreadable(size: Quoted, reason: Word) -> None:
    """{size} is not a panel size: {reason}"""


@message
def side_out_of_range(size: Quoted, minimum: Mm, maximum: Mm) -> None:
    """{size} is not a panel size: minimum side {minimum}, maximum {maximum}"""


@message
def grid_out_of_range(grid: Quoted, minimum: Mm, maximum: Mm) -> None:
    """{grid} is not a grid step; minimum {minimum}, maximum {maximum}; also accepted: inch (0.1 in), HP"""


# --- what was assumed


@counted("{file}: note: {count} parts on the {side} omitted; draft them with --side {side}")
def other_side_left_out(file: Word, count: Count, side: Word) -> None:
    """{file}: note: {count} part on the {side} omitted; draft it with --side {side}"""


@message
def knob_assumed(ref: Word, knob: Word) -> None:
    """No knob given for {ref}; {knob} assumed"""


@message
def panel_remark(weight: Word, remark: Word) -> None:
    """{weight}: {remark}"""


@message
def sheet_chosen(thickness: Mm, usual: Mm, refs: Each) -> None:
    """Sheet thickness {thickness} assumed; {usual} does not suit {refs}"""


@message
def sheet_variants(usual: Mm, refs: Each, variants: Either) -> None:
    """{usual} would suit {variants} instead of {refs}"""


@message
def titles_wide(names: Each, saving: Mm) -> None:
    """Titles are wider than the parts below them: {names}; shorter ones make the panel {saving} narrower"""


@message
def rack_slots_added(ref: Word, part: Word) -> None:
    """{ref} ({part}) added: the slots by which a 19-inch panel is fixed"""


@message
def sheet_suits_not_all(thickness: Mm, refs: Each) -> None:
    """No common sheet thickness suits all parts; {thickness} does not suit {refs}"""


# --- comments in the spec


@message
def drafted_from(file: Word, form: Word) -> None:
    """First panel, drafted from {file} ({form})."""


@message
def edit_the_draft() -> None:
    """Edit as needed. `panelart arrange` places every part that has no `at:`."""


@message
def frame_grows(refs: Each) -> None:
    """Add when answered: {refs}"""


@message
def open_questions() -> None:
    """Open questions:"""


@message
def which_part(file: Word, row: Count, words: Word) -> None:
    """QUESTION ({file}, row {row}): which part is '{words}'?"""


@message
def which_angles(file: Word, row: Count, ref: Word, part: Word) -> None:
    """QUESTION ({file}, row {row}): at which angles are the positions of {ref} ({part})?"""


@message
def which_angles_of(file: Word, row: Count, ref: Word, part: Word, ways: Listed) -> None:
    """QUESTION ({file}, row {row}): at which angles are the positions of {ref} ({part})? It is made with {ways}"""


@message
def which_sweep(file: Word, row: Count, ref: Word, part: Word) -> None:
    """QUESTION ({file}, row {row}): over which angle does {ref} ({part}) turn? It has a scale in the list"""


@message
def which_part_of(file: Word, row: Count, words: Word, candidates: Listed) -> None:
    """QUESTION ({file}, row {row}): which part is '{words}'? Candidates: {candidates}"""


@message
def measure_part(file: Word, row: Count, words: Word) -> None:
    """MEASURE ({file}, row {row}): '{words}' is none of the catalogue; name it in a part file of your own"""


@message
def rows_left_out() -> None:
    """No part of this panel is known. Rows of the list that are not on it:"""


@counted("and {count} more rows: panelart draft --left-out lists them")
def more_rows(count: Count) -> None:
    """and {count} more row: panelart draft --left-out lists it"""


@message
def read_from(words: Word) -> None:
    """'{words}'"""


@message
def legend_guessed() -> None:
    """legend guessed"""


@message
def seen_from_outside() -> None:
    """Each panel is seen from its own outside."""


@message
def box_of_set() -> None:
    """To compare bodies behind both, add `box: {{front: front, rear: rear, depth: }}` with the inside depth in mm."""


@message
def not_in_a_group() -> None:
    """Not in a group"""


@message
def draft_title(name: Word, side: Word) -> None:
    """{name}, {side}"""
