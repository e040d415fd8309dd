"""What disagrees when files are read back: defects of the program, told with what was found and what should be."""

from panelart.messages import Count, MeasuredMm, Mm, Quoted, SizeMm, Word, message
from panelart.messages.fine_arguments import SquareCm


@message
def outline() -> None:
    """outline"""


@message
def countersink_of(name: Word) -> None:
    """countersink of {name}"""


@message
def unreadable(reason: Word) -> None:
    """Not readable: {reason}"""


@message
def state_differs(found: Word, wanted: Word) -> None:
    """Made from {found}; the panel is {wanted}"""


@message
def no_contours() -> None:
    """No closed contours"""


@message
def contour_missing(name: Word) -> None:
    """{name}: no contour of its place and size"""


@message
def contour_unknown(x: Mm, y: Mm, size: SizeMm) -> None:
    """Contour of {size} at {x}, {y} from the corner of the outline: nothing of the panel is there"""


@message
def plate_area(plate: Word, found: SquareCm, wanted: SquareCm) -> None:
    """Plate {plate} covers {found}; the separation has {wanted}"""


@message
def count_differs(found: Count, wanted: Count) -> None:
    """Lists {found}; the panel has {wanted}"""


@message
def row_unknown(name: Quoted) -> None:
    """Row {name} is nothing of the panel"""


@message
def figure_differs(name: Word, column: Word, found: MeasuredMm, wanted: MeasuredMm) -> None:
    """{name}: {column} is {found}; the panel has {wanted}"""


@message
def page_size(page: Count, size: SizeMm) -> None:
    """Page {page} is {size}, no sheet of ISO 216 from A4 to A1"""


@message
def picture_size(width: Count, height: Count) -> None:
    """Picture of {width} × {height} pixels has other proportions than the panel"""
