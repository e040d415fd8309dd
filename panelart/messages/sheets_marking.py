"""What the station that marks the face is told."""

from panelart.messages import Complete, Count, Mm, TwoDecimals, Word, counted, message


@message
def ink(name: Word, colour: Word) -> None:
    """{name} ({colour})"""


@message
def register_error(limit: Mm) -> None:
    """Register error: maximum {limit} from the openings. Check at two corners that are far apart."""


@message
def read_legends() -> None:
    """Compare every legend with the picture. No letter may be broken or filled in."""


# --- printing


@message
def print_artwork(inks: Complete) -> None:
    """Print {inks} from artwork.pdf at 1:1, seen from the front."""


@message
def base_under_inks(plate: Word, inks: Complete) -> None:
    """Print the base ({plate}) first, under {inks}."""


@message
def base_under_pictures(plate: Word) -> None:
    """Print the base ({plate}) first, under the pictures."""


@message
def base_choked(choke: Mm) -> None:
    """The file already has a choke of {choke}."""


@message
def thin_ink_with_base(width: Mm) -> None:
    """Under ink narrower than {width} the base is as wide as the ink."""


@message
def thin_ink_without_base(width: Mm) -> None:
    """Ink narrower than {width} has no base."""


@message
def no_choke_in_printer() -> None:
    """Set no choke in the printer's software."""


@message
def film_positives_up() -> None:
    """Film positives at 1:1, right reading with the emulsion up, not mirrored."""


@message
def film_positives_down() -> None:
    """Film positives at 1:1, right reading with the emulsion down, mirrored."""


@message
def register_marks() -> None:
    """Register the film positives by the four marks: the dot is at the lower mark."""


@message
def print_in_order(inks: Complete) -> None:
    """Print in the order of the film positives: {inks}."""


@message
def trap(trap: Mm) -> None:
    """Inks that touch overlap by {trap}."""


@message
def plates() -> None:
    """Plates"""


@message
def column_plate() -> None:
    """plate"""


@message
def column_kind() -> None:
    """kind"""


@message
def column_colour() -> None:
    """colour"""


@message
def column_covered() -> None:
    """covered, cm²"""


@message
def column_solid() -> None:
    """solid ink, cm²"""


@message
def plates_remark() -> None:
    """For one panel. Tints count as their share of solid ink."""


# --- engraving


@message
def engrave(depth: Mm) -> None:
    """Engrave engraving.dxf in its order, one layer for each cutter, {depth} deep from the face."""


@message
def not_engraved(area: TwoDecimals) -> None:
    """Not engraved, because too narrow for every cutter: {area} mm²."""


@message
def fill(inks: Complete) -> None:
    """Fill with {inks}. Wipe the face clean."""


@message
def cutters() -> None:
    """Cutters"""


@message
def column_cutter() -> None:
    """cutter"""


@message
def column_fill() -> None:
    """fill"""


@message
def column_paths() -> None:
    """paths"""


@message
def column_cut_length() -> None:
    """cut, m"""


@message
def column_travel() -> None:
    """travel, m"""


@message
def column_travel_as_drawn() -> None:
    """travel as drawn, m"""


@message
def cutters_remark() -> None:
    """Paths are the centre line of the cutter."""


# --- laser


@message
def burn_dots(resolution: Count) -> None:
    """Mark laser.png dot by dot at {resolution} dots per inch. The edge of the image is the edge of the face."""


@counted("Mark laser.dxf in its order: beam {beam}, line spacing {spacing}, {count} lines.")
def burn_lines(beam: Mm, spacing: Mm, count: Count) -> None:
    """Mark laser.dxf in its order: beam {beam}, line spacing {spacing}, {count} line."""


@message
def burn_lengths(length: TwoDecimals, travel: TwoDecimals) -> None:
    """Lines {length} m, travel between them {travel} m."""


# --- overlay


@message
def clear_film(width: TwoDecimals, height: TwoDecimals) -> None:
    """Label film {width} × {height} mm, clear."""


@message
def coloured_film(width: TwoDecimals, height: TwoDecimals, colour: Word) -> None:
    """Label film {width} × {height} mm, {colour}."""


@message
def print_on_back(inks: Complete) -> None:
    """Print {inks} on the back, mirrored, from overlay.pdf at 1:1."""


@message
def print_on_front(inks: Complete) -> None:
    """Print {inks} on the front from overlay.pdf at 1:1."""


@message
def adhesive(area: TwoDecimals, margin: Mm) -> None:
    """Apply adhesive on {area} cm², {margin} clear of the edge and the windows, none in areas that stay free."""


@message
def kiss_cut() -> None:
    """Kiss-cut overlay-cut.dxf through the label film, not through the liner: windows first, the edge last."""


@message
def stick_on(inset: Mm) -> None:
    """Degrease the panel. Stick the label film on, {inset} inside the panel edge all round."""


@message
def windows() -> None:
    """Windows"""


@message
def column_window() -> None:
    """window"""


@message
def windows_remark() -> None:
    """Centres from the lower-left corner of the label film."""
