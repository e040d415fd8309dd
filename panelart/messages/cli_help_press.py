"""The help of commands for printing: register, bed, test strip, shop file."""

from panelart.messages import message

# --- register


@message
def register() -> None:
    """Register the artwork to points measured on the piece."""


@message
def register_means() -> None:
    """Reports whether the piece can be printed in register. Exit code 1 if it cannot; no artwork is written then."""


@message
def register_corners() -> None:
    """Features: lower-left, lower-right, upper-right, upper-left (the sharp corner), left, right, top, bottom."""


@message
def register_features() -> None:
    """Also openings by their names in holes.csv, and own marks with panel_x and panel_y."""


@message
def measured_points() -> None:
    """Measured points: CSV with feature, x, y in mm on the printer (omit to list the features to measure)."""


@message
def corrected_artwork() -> None:
    """Output folder for the corrected artwork."""


@message
def model() -> None:
    """Transformation: rigid (shift, rotation), similarity (and scale), affine; auto: the simplest that fits."""


@message
def uncertainty() -> None:
    """Measurement uncertainty, 95 %."""


@message
def tolerance() -> None:
    """Maximum register error (default: `marking.register`)."""


@message
def bed_of_page() -> None:
    """Bed size in mm, such as 600x400; the page then is the bed, its lower left corner at 0, 0."""


# --- bed


@message
def bed() -> None:
    """Nest panels on a printer bed: artwork, jigs, list."""


@message
def bed_exit() -> None:
    """Exit code 1 if a panel has findings at error level; runs of pieces with variables are not printed then."""


@message
def quantity() -> None:
    """Pieces: one number for all panels, or one for each (default 1)."""


@message
def rows() -> None:
    """CSV with one row for each piece; its columns are the variables of the spec."""


@message
def gap() -> None:
    """Distance between pieces."""


@message
def margin() -> None:
    """Margin inside the bed."""


@message
def turn() -> None:
    """Allow pieces to be turned by 90° (not for a coat with grain)."""


@message
def pocket_clearance() -> None:
    """Clearance around the piece in the pockets of the jig."""


@message
def pin_diameter() -> None:
    """Diameter of the jig's pins; 0 for none."""


@message
def cutter_diameter() -> None:
    """Diameter of the cutter that mills the jig; it sets the corner reliefs."""


# --- test strip, shop file


@message
def test_strip() -> None:
    """Draw a test strip for a marking process."""


@message
def test_strip_means() -> None:
    """That of engraving is the paths of the cutters (also DXF). With --limits, the limits read from the strip are saved
    in a shop file; its other contents are kept."""


@message
def ink_name() -> None:
    """Name of the ink's plate."""


@message
def ink_colour() -> None:
    """Colour of the ink on screen."""


@message
def strip_limits() -> None:
    """Limits read from the strip, in mm: line_minimum=0.18,gap_minimum=0.22,cap_height_minimum=1.5"""


@message
def strip_shop() -> None:
    """Shop file in which the limits are saved."""


@message
def strip_reason() -> None:
    """Reason saved with the limits (default: read from a test strip)."""


@message
def test_cut() -> None:
    """Draw a test file (DXF) for a shop's machine."""


@message
def test_cut_means() -> None:
    """It has one figure of known size on each layer, in the shop's names, colours, line types, unit and origin, and
    prints what to expect of each. Load it on the machine before the first panel."""


@message
def test_cut_out() -> None:
    """Output file (.dxf)."""


@message
def shop_file() -> None:
    """Print a shop file for a marking process."""


@message
def shop_file_means() -> None:
    """It contains the limits of common practice and the machine profile. Edit it, then name it in the spec as
    `marking.shop`."""


@message
def process_or_all() -> None:
    """Marking process (default: all)."""
