"""Why figures make no shape. Said behind 'This makes no rectangle:', so they begin small."""

from panelart.messages import Count, Degrees, Mm, Number, PointMm, Word, message


@message
def not_positive(name: Word, value: Number) -> None:
    """{name} is {value}; it must be more than 0"""


@message
def chamfers_too_large(chamfer: Mm, width: Mm, height: Mm) -> None:
    """chamfers of {chamfer} do not fit a rectangle of {width} × {height}"""


@message
def flat_misses_circle(across: Mm, diameter: Mm) -> None:
    """a flat {across} from the far side does not cut a circle of {diameter}"""


@message
def flats_miss_circle(across: Mm, diameter: Mm) -> None:
    """flats {across} apart do not cut a circle of {diameter}"""


@message
def key_wider_than_circle(width: Mm, diameter: Mm) -> None:
    """a key {width} wide is wider than a circle of {diameter}"""


@message
def key_within_circle(over_key: Mm, diameter: Mm) -> None:
    """a key measured {over_key} over all does not extend beyond a circle of {diameter}"""


@message
def side_angle_too_large(angle: Degrees) -> None:
    """sides that slope by {angle} make no trapezoid; accepted: 0° to below 90°"""


@message
def sides_meet(angle: Degrees, height: Mm) -> None:
    """sides that slope by {angle} meet before a height of {height}"""


@message
def too_few_points(count: Count) -> None:
    """a polygon has a minimum of 3 points, not {count}"""


@message
def negative_radius(radius: Mm) -> None:
    """a corner radius must not be negative: {radius}"""


@message
def same_points() -> None:
    """two neighbouring points of a polygon are the same"""


@message
def radii_too_large(taken: Mm, length: Mm) -> None:
    """corner radii take {taken} of a side that is {length} long"""


@message
def arc_not_finite() -> None:
    """an arc must have a finite centre, radius, start and sweep"""


@message
def arc_without_radius(radius: Mm) -> None:
    """an arc of radius {radius} does not exist"""


@message
def arc_sweep(sweep: Degrees) -> None:
    """an arc sweeps up to 360°, not {sweep}"""


@message
def empty_contour() -> None:
    """a contour must have a segment"""


@message
def empty_path() -> None:
    """a path must have a segment"""


@message
def contour_side_without_length() -> None:
    """a side of the contour has no length"""


@message
def path_side_without_length() -> None:
    """a side of the path has no length"""


@message
def contour_broken(end: PointMm, start: PointMm) -> None:
    """the contour is not connected: a side ends at {end}, the next starts at {start}"""


@message
def path_broken(end: PointMm, start: PointMm) -> None:
    """the path is not connected: a side ends at {end}, the next starts at {start}"""


@message
def no_arcs(tolerance: Mm) -> None:
    """the curve cannot be replaced by arcs within {tolerance}"""
