"""What is said of one element of a drawing that cannot be taken: an entity of DXF, an element of SVG, path data."""

from panelart.messages import Count, Listed, Number, Quoted, Word, message


@message
def accepted_elements(elements: Listed) -> None:
    """Accepted: {elements}. To exclude other elements, set 'layer'."""


@message
def element_unsupported(element: Word) -> None:
    """Unsupported element: {element}"""


@message
def element_no_curve(element: Word, reason: Word) -> None:
    """{element} is not a valid curve: {reason}"""


@message
def element_bad_numbers(element: Word) -> None:
    """{element} has invalid coordinates"""


@message
def coordinates_out_of_range(element: Word) -> None:
    """{element} has coordinates out of range"""


@message
def drawing() -> None:
    """Drawing"""


@message
def block_reference(name: Quoted) -> None:
    """Drawing contains block {name}"""


@message
def explode_the_block() -> None:
    """Explode the block into lines and arcs."""


@message
def entity_has_thickness(entity: Word) -> None:
    """{entity} has a thickness; the drawing must be flat"""


@message
def entity_off_plane(entity: Word, height: Number) -> None:
    """{entity} is at z = {height}; the drawing must be flat"""


@message
def entity_in_other_plane(entity: Word) -> None:
    """{entity} lies in another plane; the drawing must be flat"""


@message
def flatten_the_drawing() -> None:
    """Flatten the drawing to z = 0."""


@message
def polyline_bulge_invalid(bulge: Number) -> None:
    """Polyline has an invalid bulge: {bulge}"""


@message
def polyline_not_flat() -> None:
    """POLYLINE is a mesh or a 3D polyline; the drawing must be flat"""


@message
def polyline_smoothed() -> None:
    """POLYLINE is smoothed"""


@message
def convert_the_polyline() -> None:
    """Convert the polyline to arcs or a spline."""


@message
def spline_by_fit_points() -> None:
    """SPLINE has fit points only, which programs interpolate differently"""


@message
def export_control_points() -> None:
    """Export the spline with control points."""


@message
def spline_too_long(count: Count, maximum: Count) -> None:
    """SPLINE has {count} control points; maximum {maximum}"""


@message
def simplify_the_spline() -> None:
    """Divide the spline or reduce its control points."""


@message
def nested_svg() -> None:
    """Drawing contains a nested <svg> with a scale of its own"""


@message
def points_invalid(element: Word) -> None:
    """{element} has no valid list of points"""


@message
def attribute_not_a_number(element: Word, name: Word, value: Quoted) -> None:
    """{element} has {name} = {value}, which is not a plain number"""


@message
def rect_without_size() -> None:
    """<rect> has no positive width and height, or a negative radius"""


@message
def radius_missing(element: Word) -> None:
    """{element} has no positive radius"""


@message
def arc_without_size() -> None:
    """Elliptical arc has no valid radii"""


@message
def svg_entities() -> None:
    """Drawing declares XML entities"""


@message
def svg_script(attribute: Quoted) -> None:
    """Drawing contains a script in attribute {attribute}"""


@message
def svg_reference(attribute: Quoted) -> None:
    """Drawing contains a reference in attribute {attribute}"""


@message
def transform_unknown(transform: Quoted) -> None:
    """Unsupported transform: {transform}"""


@message
def transform_wrong_values(transform: Quoted, values: Count) -> None:
    """Wrong number of values in transform {transform}: {values}"""


@message
def path_character(text: Quoted) -> None:
    """Invalid character in path data: {text}"""


@message
def path_incomplete() -> None:
    """Incomplete path data"""


@message
def path_stray_number() -> None:
    """Number without a command in path data"""


@message
def path_arc_flag(text: Quoted) -> None:
    """Arc flag in path data is {text}; it must be 0 or 1"""


@message
def path_number_out_of_range(text: Quoted) -> None:
    """Number out of range in path data: {text}"""
