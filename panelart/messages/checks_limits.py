"""What the limits that no table has are called, and where they come from."""

from panelart.messages import Count, InUnit, Mm, Number, Word, message
from panelart.messages.fine_arguments import Place

# --- what is limited


@message
def keepout_reach() -> None:
    """overlap with a keep-out"""


@message
def rail_reach() -> None:
    """overlap with the rails"""


@message
def box_depth() -> None:
    """combined depth of two bodies in the box"""


@message
def body_depth() -> None:
    """depth of a body behind the panel"""


@message
def front_height() -> None:
    """height in front of the panel"""


@message
def cable_bend() -> None:
    """bend radius of the cable"""


@message
def return_length() -> None:
    """length of a return bent inwards"""


@message
def press_tool_clearance() -> None:
    """clearance for the tool of a press"""


@message
def bend_radius() -> None:
    """inside bend radius"""


@message
def quiet_zone() -> None:
    """quiet zone of a code"""


@message
def countersunk_hole() -> None:
    """diameter of the hole under a countersunk head"""


@message
def sheet_thickness_range() -> None:
    """sheet thickness"""


@message
def hardware_edge_distance() -> None:
    """distance from the centre of hardware to an edge"""


@message
def cap_height() -> None:
    """cap height"""


@message
def reading_ideographs() -> None:
    """height of ideographs for reading"""


@message
def reading_cap_height() -> None:
    """cap height for reading"""


@message
def line_width() -> None:
    """line width"""


@message
def gap_width() -> None:
    """gap width"""


@message
def edge_distance() -> None:
    """distance to the edge"""


@message
def opening_distance() -> None:
    """distance to an opening"""


@message
def print_length() -> None:
    """length of a print"""


@message
def ink_cup() -> None:
    """diameter of the ink cup"""


@message
def ink_count() -> None:
    """number of inks"""


@message
def base_line_width() -> None:
    """line width of base"""


@message
def based_line_width() -> None:
    """line width with base under it"""


@message
def ink_register() -> None:
    """register error between inks"""


@message
def bare_pad_distance() -> None:
    """distance to an uncoated area"""


@message
def overlay_web_width() -> None:
    """width of label film between windows"""


@message
def cutter_diameter() -> None:
    """diameter of the cutter"""


@message
def cutter_radius() -> None:
    """radius of the cutter"""


# --- sizes that a limit is a multiple of


@message
def sheet_thickness() -> None:
    """sheet thickness"""


@message
def die_opening() -> None:
    """die opening"""


@message
def mark_width() -> None:
    """mark width"""


@message
def times_size(factor: Number, size: Word, length: Mm, source: Word) -> None:
    """{factor} × {size} ({length}): {source}"""


@message
def times_sheet_and_radius(factor: Number, thickness: Mm, radius: Mm, source: Word) -> None:
    """{factor} × sheet thickness ({thickness}) + inside radius ({radius}): {source}"""


@message
def angle_seen(angle: InUnit, distance: Mm, source: Word) -> None:
    """{angle} at a viewing distance of {distance}: {source}"""


# --- where a limit comes from


@message
def figure_of(title: Word, source: Word) -> None:
    """{title}: {source}"""


@message
def beyond_memory(figure: Word, play: Mm) -> None:
    """opening against {figure}, from memory, maximum {play} out"""


@message
def twice_spread(spread: Mm, source: Word) -> None:
    """ink spread of {spread} at each edge of a gap; {source}"""


@message
def figure_without_source(title: Word) -> None:
    """{title}: figure without a source"""


@message
def both_sources(one: Word, other: Word) -> None:
    """{one}; {other}"""


@message
def keepout_at(where: Place) -> None:
    """keep-out at {where}"""


@message
def depth_in_front_in(file: Word) -> None:
    """`depth_in_front` in {file}"""


@message
def depth_behind_in(file: Word) -> None:
    """`depth_behind` in {file}"""


@message
def box_depth_in(file: Word) -> None:
    """depth of the box in {file}"""


@message
def flange_length() -> None:
    """length of the flange; common practice (from memory)"""


@message
def press_tool_radius() -> None:
    """radius of the tool of a press (from memory)"""


@message
def hole_as_cut(thickness: Mm) -> None:
    """diameter of the hole as cut, in sheet of {thickness}"""


@message
def quiet_modules(count: Count, standard: Word) -> None:
    """{count} modules: {standard}"""


@message
def qr_standard() -> None:
    """ISO/IEC 18004, as quoted by makers of readers"""


@message
def data_matrix_standard() -> None:
    """ISO/IEC 16022, as quoted by makers of readers"""


@message
def code_128_standard() -> None:
    """ISO/IEC 15417 (from memory)"""


@message
def thickness_by_practice() -> None:
    """sheet thickness; common practice (from memory)"""


@message
def rail_standards() -> None:
    """EIA-310 and IEC 60297-3-101, quoted from public sources"""


@message
def engraving_cutter() -> None:
    """width of the cutter in the spec; a cutter does not enter a narrower stroke"""


@message
def milling_cutter() -> None:
    """`making: cutter` in the spec"""


@message
def half_milling_cutter(cutter: Mm) -> None:
    """half of `making: cutter` ({cutter}) in the spec"""


@message
def twice_choke(choke: Mm, line: Mm) -> None:
    """twice the choke ({choke}) + minimum line of base ({line})"""


@message
def twice_choke_by(choke: Mm, line: Mm, source: Word) -> None:
    """twice the choke ({choke}) + minimum line of base ({line}): {source}"""


@message
def house_limit(why: Word, where: Word, default: InUnit, source: Word) -> None:
    """{why} ({where}); default {default}: {source}"""


@message
def positions_of_part() -> None:
    """number of positions of the part"""


@message
def rotation_of_part() -> None:
    """rotation of the part"""


@message
def window_of_dial() -> None:
    """window that shows a numeral with its neighbours"""


@message
def numerals_in_sight() -> None:
    """MIL-STD-1472E, 5.2.3: numbered marks at both sides of the reading"""


@message
def radius_of_grip() -> None:
    """radius of the grip and 0.5 mm"""


@message
def radius_of_shaft() -> None:
    """radius of the shaft"""


@message
def start_of_window() -> None:
    """distance of the window from the shaft"""


@message
def length_of_window() -> None:
    """length of the window"""


@message
def gap_of_marks() -> None:
    """gap between two marks of the scale"""


@message
def sizes_in_spec() -> None:
    """sizes in the spec"""


@message
def travel_of_part() -> None:
    """travel of the part"""


@message
def pitch_of_part() -> None:
    """minimum pitch of parts of this size"""


@message
def clearance_of_ink() -> None:
    """clearance of marking"""
