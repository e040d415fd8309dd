"""What the server of the page says: names of changes and views, and why a change or a request is refused."""

from panelart.messages import Count, Each, Mm, Number, Quoted, Word, message

# --- views and stages of work


@message
def view_finished() -> None:
    """Finished panel"""


@message
def view_cutouts_front() -> None:
    """Cutouts, seen from the front"""


@message
def view_cutouts_rear() -> None:
    """Cutouts, seen from the rear"""


@message
def view_plate(ink: Word) -> None:
    """Plate: {ink}"""


@message
def view_masks_front() -> None:
    """Masks, front"""


@message
def view_masks_rear() -> None:
    """Masks, rear"""


@message
def view_blank() -> None:
    """Flat blank"""


@message
def step_waiting() -> None:
    """waiting"""


@message
def step_reading() -> None:
    """reading"""


@message
def step_placing() -> None:
    """placing legends"""


@message
def step_checking() -> None:
    """checking"""


@message
def step_drawing() -> None:
    """drawing"""


@message
def step_drafting() -> None:
    """drafting the panel"""


@message
def reason_with_cost(reason: Word, cost: Number) -> None:
    """{reason} {cost}"""


# --- names of changes


@message
def change_move(refs: Each) -> None:
    """move {refs}"""


@message
def change_move_text(text: Quoted) -> None:
    """move {text}"""


@message
def change_rotate(ref: Word) -> None:
    """rotate {ref}"""


@message
def change_legend(ref: Word) -> None:
    """edit the legend of {ref}"""


@message
def change_add(ref: Word) -> None:
    """add {ref}"""


@message
def change_delete(refs: Each) -> None:
    """delete {refs}"""


@message
def change_copy(ref: Word) -> None:
    """copy {ref}"""


@message
def change_arrange() -> None:
    """arrange the panel"""


# --- changes that are refused


@message
def nothing_to_undo() -> None:
    """Nothing to undo or redo"""


@message
def page_outdated() -> None:
    """Page showed an older state of the spec and is reloaded; repeat the change"""


@message
def file_conflict() -> None:
    """File was changed in the same lines; nothing was written"""


@message
def spec_edited_otherwise() -> None:
    """The answer is saved. The panel was not drafted with it: the spec was changed in the same lines."""


@message
def file_busy(file: Word) -> None:
    """{file} is being written by another program; nothing was changed"""


@message
def file_not_writable(file: Word, reason: Word) -> None:
    """{file} cannot be written: {reason}; the file and its folder must be writable"""


@message
def read_only() -> None:
    """the file is read-only"""


@message
def legend_missing(ref: Word) -> None:
    """{ref} has no legend"""


@message
def legend_not_editable(ref: Word) -> None:
    """Legend of {ref} is written in a form that cannot be edited here; edit the spec"""


@message
def position_to_copy_calculated(ref: Word) -> None:
    """Position of {ref} is calculated by the spec; repeat {ref} in the spec"""


@message
def no_moves() -> None:
    """No moves found that clear a finding"""


@message
def moves_found(refs: Each, moved: Mm, left: Count) -> None:
    """Move {refs} by {moved} in all; errors and warnings left: {left}."""


@message
def no_verified_edit() -> None:
    """No verified edit found for this finding"""


# --- the spec


@message
def spec_unreadable(reason: Word) -> None:
    """Spec cannot be read: {reason}"""


@message
def file_missing() -> None:
    """no such file"""


@message
def spec_not_utf_8() -> None:
    """Spec is not UTF-8 text"""


@message
def accepted_spec() -> None:
    """Accepted: a YAML file in UTF-8"""


@message
def internal_error(kind: Word, error: Word) -> None:
    """Internal error while laying out the panel: {kind}: {error}"""


@message
def undo_the_change() -> None:
    """Undo the last change."""


# --- requests that are refused


@message
def not_found() -> None:
    """Not found"""


@message
def request_invalid(field: Quoted) -> None:
    """Invalid request: {field}"""


@message
def request_not_json() -> None:
    """Request is not JSON"""


@message
def eye_incomplete() -> None:
    """Eye position needs height, aside, distance and lean"""


@message
def eye_behind_face() -> None:
    """Eye must be in front of the face"""


@message
def change_unknown(name: Quoted) -> None:
    """Unknown change {name}"""


@message
def text_unknown(number: Count) -> None:
    """Spec has no text {number}"""


@message
def finding_unknown(number: Count) -> None:
    """There is no finding {number}"""


@message
def ref_unknown(ref: Quoted) -> None:
    """Unknown ref {ref}"""


@message
def part_unknown(name: Quoted) -> None:
    """Catalogue has no part {name}"""


@message
def cap_height_out_of_range(height: Mm, maximum: Mm) -> None:
    """Cap height is {height}; minimum 0 mm (style default), maximum {maximum}"""


@message
def copies_out_of_range(copies: Number, maximum: Count) -> None:
    """Number of copies is {copies}; it must be a whole number, minimum 1, maximum {maximum}"""


@message
def not_a_number(field: Quoted) -> None:
    """{field} is not a number"""


@message
def not_two_numbers(field: Quoted) -> None:
    """{field} is not two numbers"""


@message
def text_too_long(field: Quoted, maximum: Count) -> None:
    """{field} is not a text of up to {maximum} characters"""


# --- who may use the page


@message
def host_unknown() -> None:
    """Server does not answer to this host name"""


@message
def token_missing() -> None:
    """Address has no valid token; open the address that `panelart view` printed"""


@message
def origins_repeated() -> None:
    """Request has more than one origin"""


@message
def origin_unknown() -> None:
    """Requests from other sites are refused"""


@message
def origin_missing() -> None:
    """Changes are accepted from the page only"""


@message
def address_read_only() -> None:
    """This address is read-only"""


@message
def request_too_large(maximum: Count) -> None:
    """Request is too large; maximum {maximum} bytes"""


@message
def request_incomplete() -> None:
    """Request is incomplete"""


@message
def request_too_slow(seconds: Number) -> None:
    """Request took longer than {seconds} s"""


@message
def no_free_port(first: Count, last: Count) -> None:
    """No free port from {first} to {last}"""
