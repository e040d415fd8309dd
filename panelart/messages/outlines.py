"""What is said of a drawing that cannot be used as an outline. Points are in mm from the origin of the drawing."""

from panelart.messages import Count, Listed, MeasuredMm, Mm, PointMm, Quoted, SizeMm, Word, message

# --- the file


@message
def file_too_large(size: Count, maximum: Count) -> None:
    """Drawing has {size} bytes; maximum {maximum}"""


@message
def remove_the_rest() -> None:
    """Remove layers and elements that are not part of the outline."""


@message
def file_is_dwg() -> None:
    """Drawing is a DWG file"""


@message
def file_is_binary_dxf() -> None:
    """Drawing is a binary DXF file"""


@message
def file_not_dxf(reason: Word) -> None:
    """Drawing is not a valid DXF file: {reason}"""


@message
def save_as_text_dxf() -> None:
    """Save the drawing as a text (ASCII) DXF file."""


@message
def file_not_xml(reason: Word) -> None:
    """Drawing is not valid XML: {reason}"""


@message
def file_not_svg() -> None:
    """File is not an SVG drawing"""


@message
def save_as_svg() -> None:
    """Save the drawing as SVG."""


@message
def layers() -> None:
    """layers"""


@message
def layer_empty(layer: Quoted, layers: Listed) -> None:
    """Nothing on layer {layer}; layers of the drawing: {layers}"""


@message
def group_unknown(layer: Quoted) -> None:
    """Drawing has no group with id {layer}"""


@message
def accepted_groups(ids: Listed) -> None:
    """Accepted group ids: {ids}"""


@message
def no_group_ids() -> None:
    """Give the group of the outline an id, or remove 'layer'."""


@message
def too_many_curves(maximum: Count) -> None:
    """Drawing has more than {maximum} lines and arcs"""


@message
def name_the_layer() -> None:
    """Set 'layer' to the layer of the outline."""


# --- its unit


@message
def unit_unknown(reason: Word) -> None:
    """Unit of the drawing is unknown: {reason}"""


@message
def unit_contradicted(declared: Word, found: Word) -> None:
    """'unit' is {declared}, but {found}"""


@message
def declare_the_unit(units: Listed) -> None:
    """Accepted for 'unit': {units}"""


@message
def correct_the_unit() -> None:
    """Remove 'unit', or correct the unit in the drawing."""


@message
def insunits_unset() -> None:
    """$INSUNITS is not set"""


@message
def insunits_unsupported(code: Count) -> None:
    """$INSUNITS is {code}, which is not supported"""


@message
def insunits_found(code: Count, unit: Word) -> None:
    """$INSUNITS is {code} ({unit})"""


@message
def svg_size_missing() -> None:
    """width and height are not set"""


@message
def svg_size_without_unit(width: Quoted, height: Quoted) -> None:
    """width is {width} and height is {height}"""


@message
def svg_viewbox_missing() -> None:
    """viewBox is not set"""


@message
def svg_size_not_positive() -> None:
    """width, height and viewBox are not all greater than 0"""


@message
def svg_scale_uneven(across: Mm, upright: Mm) -> None:
    """one unit of viewBox is {across} wide but {upright} high"""


@message
def svg_scale_found(unit: Mm) -> None:
    """width and viewBox make one unit {unit}"""


# --- its contours


@message
def nothing_drawn() -> None:
    """Drawing has no lines or arcs"""


@message
def accepted_outline() -> None:
    """Accepted: a closed outline of lines and arcs"""


@message
def contour_without_area(at: PointMm) -> None:
    """Contour at {at} encloses no area"""


@message
def line_drawn_twice(start: PointMm, end: PointMm) -> None:
    """Line drawn twice between {start} and {end}"""


@message
def delete_the_duplicate() -> None:
    """Remove the duplicate."""


@message
def contour_open(at: PointMm, gap: MeasuredMm, near: PointMm) -> None:
    """Contour is open at {at}: {gap} to the nearest end at {near}"""


@message
def contour_open_alone(at: PointMm) -> None:
    """Contour is open at {at}"""


@message
def close_the_contour(joined: Mm) -> None:
    """Close the contour. Ends up to {joined} apart are joined; points are in mm from the origin of the drawing."""


@message
def lines_meet(count: Count, at: PointMm) -> None:
    """{count} lines end at {at}; only two may meet"""


@message
def separate_the_contours() -> None:
    """Draw contours that touch neither themselves nor each other."""


@message
def contour_too_long(count: Count, maximum: Count) -> None:
    """Contour has {count} lines and arcs; maximum {maximum}"""


@message
def draw_curves_as_curves() -> None:
    """Draw curves as arcs or splines, not as short lines."""


@message
def contour_crosses_itself(at: PointMm) -> None:
    """Contour crosses or touches itself at {at}"""


@message
def outline_size(size: SizeMm, minimum: Mm, maximum: Mm) -> None:
    """Outline is {size}; minimum side {minimum}, maximum {maximum}"""


@message
def check_the_unit() -> None:
    """Check the unit of the drawing."""


@message
def second_outline(at: PointMm) -> None:
    """Second outline beside the first, centre at {at}"""


@message
def one_outline_a_layer() -> None:
    """Put each outline on its own layer and set 'layer'."""


@message
def hole_meets_outline(at: PointMm) -> None:
    """Hole crosses or touches the outline, centre at {at}"""


@message
def keep_holes_inside() -> None:
    """Move the hole inside the outline."""


@message
def holes_overlap(at: PointMm) -> None:
    """Two holes overlap or lie inside each other, centre at {at}"""


@message
def separate_the_holes() -> None:
    """Separate the holes. Material inside a hole would fall out."""
