"""What is said of openings, their sizes and the coat."""

from panelart.messages import Count, Degrees, Each, Mm, Number, PointMm, TwoDecimals, Word, counted, message

# --- sizes


@message
def round_size(diameter: TwoDecimals) -> None:
    """Ø{diameter}"""


@message
def one_flat_size(diameter: TwoDecimals, across: TwoDecimals) -> None:
    """Ø{diameter} × {across} one flat"""


@message
def two_flats_size(diameter: TwoDecimals, across: TwoDecimals) -> None:
    """Ø{diameter} × {across} two flats"""


@message
def keyed_size(diameter: TwoDecimals, across: TwoDecimals) -> None:
    """Ø{diameter} × {across} over the key"""


@message
def rectangle_size(width: TwoDecimals, height: TwoDecimals) -> None:
    """{width} × {height}"""


@message
def rounded_rectangle_size(width: TwoDecimals, height: TwoDecimals, radius: TwoDecimals) -> None:
    """{width} × {height} R{radius}"""


@message
def trapezoid_size(width: TwoDecimals, narrow: TwoDecimals, height: TwoDecimals) -> None:
    """{width} / {narrow} × {height} trapezoid"""


@message
def rounded_trapezoid_size(width: TwoDecimals, narrow: TwoDecimals, height: TwoDecimals, radius: TwoDecimals) -> None:
    """{width} / {narrow} × {height} R{radius} trapezoid"""


@message
def slot_size(width: TwoDecimals, height: TwoDecimals) -> None:
    """{width} × {height} slot"""


@message
def profile_size(width: TwoDecimals, height: TwoDecimals) -> None:
    """{width} × {height} profile"""


@message
def turned_size(size: Word, turn: Degrees) -> None:
    """{size}, turned {turn}"""


# --- coat


@message
def coat_thickness(thickness: Mm) -> None:
    """{thickness}"""


@message
def coat_thickness_range(minimum: Number, maximum: Mm) -> None:
    """{minimum} to {maximum}"""


@message
def no_allowance() -> None:
    """Cut sizes equal the finished sizes: the coat adds nothing."""


@message
def coat_allowed_for(thickness: Word) -> None:
    """Cut sizes allow for a coat thickness of {thickness} on every surface."""


@message
def growth_allowed_for(thickness: Word, build: Mm) -> None:
    """Cut sizes allow for a coat thickness of {thickness} on every surface, {build} of it above the metal."""


@message
def shop_allows(thickness: Word) -> None:
    """Finished sizes: the shop allows for the coat thickness of {thickness}."""


@message
def shop_allows_for_growth(thickness: Word, build: Mm) -> None:
    """Finished sizes: the shop allows for the coat thickness of {thickness}, {build} of it above the metal."""


@message
def coat_not_allowed_for(thickness: Word) -> None:
    """Sizes as specified, without coat allowance: openings finish smaller by twice the coat of {thickness}."""


@message
def growth_not_allowed_for(thickness: Word, build: Mm) -> None:
    """Sizes as specified: openings finish smaller by twice {build}, the part of {thickness} coat above the metal."""


@message
def bare_area(ref: Word, part: Word) -> None:
    """bare metal for {ref}, {part}"""


# --- errors


@message
def no_single_contour(thickness: Mm) -> None:
    """A coat thickness of {thickness} leaves no single contour of this shape"""


@message
def blank_crosses_itself(place: PointMm) -> None:
    """The outline of the blank crosses itself near {place}"""


# --- how far things may be off each other


@message
def register_error() -> None:
    """register error"""


@message
def ink_register_error() -> None:
    """register error between inks"""


@message
def position_error() -> None:
    """position error of the hole"""


@message
def hole_tolerance() -> None:
    """tolerance of the hole"""


@message
def part_tolerance() -> None:
    """tolerance of the part"""


@message
def coat_range() -> None:
    """range of coat thickness"""


@message
def play() -> None:
    """play of the part in its hole"""


@message
def share(what: Word, by: Mm) -> None:
    """{what} {by}"""


@message
def worst_case(parts: Each) -> None:
    """{parts}, worst case"""


@counted("{parts}, root of the sum of squares, exceeded by one panel in {count}")
def statistical(parts: Each, count: Count) -> None:
    """{parts}, root of the sum of squares"""
