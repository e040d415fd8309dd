"""What the page shows: buttons, tooltips, labels for screen readers, status lines. They come to it as one catalogue.

All arguments are words to the page; a sentence with a count has two forms.
"""

from panelart.messages import Count, Word, counted, message

# --- header and footer


@message
def skip_to_findings() -> None:
    """Skip to findings"""


@message
def changes() -> None:
    """Changes"""


@message
def undo() -> None:
    """Undo"""


@message
def undo_tooltip() -> None:
    """Undo (Ctrl+Z)"""


@message
def undo_change(change: Word) -> None:
    """Undo: {change} (Ctrl+Z)"""


@message
def undo_empty() -> None:
    """Nothing to undo"""


@message
def redo() -> None:
    """Redo"""


@message
def redo_tooltip() -> None:
    """Redo (Ctrl+Shift+Z)"""


@message
def redo_change(change: Word) -> None:
    """Redo: {change} (Ctrl+Shift+Z)"""


@message
def redo_empty() -> None:
    """Nothing to redo"""


@message
def add_part() -> None:
    """Add part"""


@message
def add_part_tooltip() -> None:
    """Add a part (A)"""


@message
def view() -> None:
    """View"""


@message
def view_eye() -> None:
    """View of the operator"""


@message
def view_build_sheet() -> None:
    """Build sheet"""


@message
def files() -> None:
    """Files"""


@message
def print_page() -> None:
    """Print"""


@message
def theme() -> None:
    """Light or dark theme"""


@message
def revision(revision: Word) -> None:
    """rev. {revision}"""


@message
def panel() -> None:
    """Panel"""


@message
def drawing() -> None:
    """Drawing"""


@message
def pages() -> None:
    """Pages"""


@message
def page_previous() -> None:
    """Previous page"""


@message
def page_next() -> None:
    """Next page"""


@message
def page_of(page: Word, pages: Word) -> None:
    """{page} of {pages}"""


@message
def details() -> None:
    """Details"""


@message
def selection() -> None:
    """Selection"""


@message
def findings() -> None:
    """Findings"""


@message
def pointer_position() -> None:
    """Pointer position"""


@message
def pointer_at(x: Word, y: Word) -> None:
    """x {x}  y {y} mm"""


@message
def measurement() -> None:
    """Measurement"""


@message
def measure() -> None:
    """Measure"""


@message
def measure_tooltip() -> None:
    """Measure between two features (M)"""


@message
def grid() -> None:
    """Grid"""


@message
def grid_off() -> None:
    """off"""


@message
def layers() -> None:
    """Layers"""


@message
def zoom() -> None:
    """Zoom"""


@message
def zoom_out() -> None:
    """Zoom out"""


@message
def zoom_out_tooltip() -> None:
    """Zoom out (-)"""


@message
def zoom_in() -> None:
    """Zoom in"""


@message
def zoom_in_tooltip() -> None:
    """Zoom in (+)"""


@message
def fit() -> None:
    """Fit"""


@message
def fit_tooltip() -> None:
    """Show the whole panel (0)"""


@message
def actual_size() -> None:
    """Actual size on this screen"""


@message
def shortcuts() -> None:
    """Keyboard shortcuts"""


@message
def shortcuts_tooltip() -> None:
    """Keyboard shortcuts (?)"""


@message
def close() -> None:
    """Close"""


# --- the operator's eye


@message
def eye() -> None:
    """Eye position of the operator"""


@message
def eye_sketch() -> None:
    """Side view of panel and eye"""


@message
def eye_distance() -> None:
    """Distance"""


@message
def eye_height() -> None:
    """Height"""


@message
def eye_aside() -> None:
    """Sideways"""


@message
def eye_lean() -> None:
    """Panel tilt"""


# --- status lines and notices


@message
def server_silent() -> None:
    """Server is not responding; reconnecting …"""


@message
def server_error(status: Word) -> None:
    """Server error {status}"""


@message
def working(step: Word) -> None:
    """{step} …"""


@message
def stop() -> None:
    """Stop"""


@message
def drawing_outdated() -> None:
    """The file is newer than the drawing. Save the file again to redraw."""


@message
def saved() -> None:
    """Saved. Show the change"""


@message
def last_change() -> None:
    """Last change of the file"""


@message
def placement(proof: Word) -> None:
    """Legend placement: {proof}"""


@message
def error_with_hint(error: Word, hint: Word) -> None:
    """{error}. {hint}"""


@counted("{count} more errors")
def errors_more(count: Count) -> None:
    """{count} more error"""


@message
def made_by_pattern(ref: Word, line: Word) -> None:
    """{ref} is created by a pattern in line {line} of the spec. To move {ref}, change the pattern."""


@message
def not_changed() -> None:
    """Not changed"""


@message
def nothing_written() -> None:
    """Conflict: nothing was written"""


@message
def change_here() -> None:
    """Change on this page"""


@message
def change_in_file() -> None:
    """Change in the file"""


@message
def spec_line(line: Word) -> None:
    """Spec, line {line}"""


@message
def line(line: Word) -> None:
    """Line {line}"""


# --- dialogs


@message
def places_of(ref: Word) -> None:
    """Possible places for the legends of {ref}"""


@message
def search_example() -> None:
    """mains inlet, toggle 12 mm, Kippschalter …"""


@message
def search() -> None:
    """Search the catalogue"""


@message
def near_sizes() -> None:
    """No part has the size, thread, number or current stated. Nearest:"""


@message
def nothing_found() -> None:
    """No part matches"""


@message
def add_from_catalogue() -> None:
    """Add a part from the catalogue"""


@message
def copies_of(ref: Word) -> None:
    """Copies of {ref}"""


@message
def copies() -> None:
    """Number of copies"""


@message
def copies_step_right() -> None:
    """Step to the right, mm"""


@message
def copies_step_up() -> None:
    """Step upwards, mm"""


@message
def copies_create() -> None:
    """Create copies"""


@message
def files_of_make() -> None:
    """Files, as `panelart make` writes them"""


@message
def calibration_bar() -> None:
    """Calibration bar, 100 mm"""


@message
def calibration_length() -> None:
    """Length of the bar"""


@message
def calibrate() -> None:
    """Hold a ruler to the screen and set the bar to 100 mm."""


@message
def calibrated() -> None:
    """The bar is 100 mm long"""


# --- keyboard shortcuts


@message
def key_arrows() -> None:
    """Arrow keys"""


@message
def key_alt_drag() -> None:
    """Alt while dragging"""


@message
def shortcut_next() -> None:
    """Go to the next part"""


@message
def shortcut_select() -> None:
    """Select the part; with Shift, add it to the selection"""


@message
def shortcut_cancel() -> None:
    """Cancel; clear the selection"""


@message
def shortcut_move() -> None:
    """Move by one grid step; with Shift by ten steps, with Alt by 0.1 mm"""


@message
def shortcut_rotate() -> None:
    """Rotate by 90°; with Shift in the other direction"""


@message
def shortcut_delete() -> None:
    """Delete"""


@message
def shortcut_add() -> None:
    """Add a part"""


@message
def shortcut_undo() -> None:
    """Undo; with Shift, redo"""


@message
def shortcut_measure() -> None:
    """Measure"""


@message
def shortcut_zoom() -> None:
    """Zoom in, zoom out (also with the mouse wheel)"""


@message
def shortcut_fit() -> None:
    """Show the whole panel"""


@message
def shortcut_free() -> None:
    """Move off the grid"""
