"""What the build sheet says round its stations: heads, feet, the overview, the names of pictures."""

from panelart.messages import Complete, Count, SizeMm, TwoDecimals, Word, counted, message


@message
def title(panel: Word, page: Count, pages: Count) -> None:
    """{panel}: build sheet, page {page} of {pages}"""


@message
def note(section: Word) -> None:
    """{section}."""


@message
def build_sheet() -> None:
    """Build sheet"""


@message
def station_heading(number: Count, station: Word) -> None:
    """{number} {station}"""


@message
def continued(section: Word) -> None:
    """{section}, continued"""


@message
def batch(quantity: Count) -> None:
    """Quantity {quantity}. Piece or batch: ____________________"""


@message
def numbered_batch(quantity: Count, first: Word, last: Word) -> None:
    """Quantity {quantity}, serial numbers {first} to {last}. Piece or batch: ____________________"""


@message
def done_by() -> None:
    """Done by ______________"""


@message
def done_on() -> None:
    """date ____________"""


@message
def good_pieces() -> None:
    """good ______"""


@message
def scrapped_pieces() -> None:
    """scrap ______"""


@message
def checked_by() -> None:
    """checked by ______________"""


# --- overview


@message
def size() -> None:
    """size"""


@message
def finished_size(size: SizeMm) -> None:
    """{size}, finished"""


@message
def blank() -> None:
    """blank"""


@counted("{width} × {height} mm, {count} bends")
def blank_size(width: TwoDecimals, height: TwoDecimals, count: Count) -> None:
    """{width} × {height} mm, {count} bend"""


@message
def sheet() -> None:
    """sheet"""


@message
def coat() -> None:
    """coat"""


@message
def coat_on_all_faces(coat: Word, thickness: Word) -> None:
    """{coat}, thickness {thickness} on one surface"""


@message
def coat_on_front(coat: Word, thickness: Word) -> None:
    """{coat}, thickness {thickness} on one surface, front only"""


@message
def marking() -> None:
    """marking"""


@message
def tolerance() -> None:
    """tolerance"""


@message
def note_of_panel() -> None:
    """note"""


@message
def column_station() -> None:
    """station"""


@message
def column_files() -> None:
    """files"""


@message
def column_good() -> None:
    """good"""


@message
def column_done_by() -> None:
    """done by"""


@message
def fingerprint(fingerprint: Word) -> None:
    """Every drawing of this panel shows the fingerprint {fingerprint}."""


@message
def other_fingerprint() -> None:
    """A file or sheet with another fingerprint was made from a different version of the spec: stop and ask."""


@message
def files(files: Complete) -> None:
    """Files: {files}"""


# --- pictures


@message
def picture_blank() -> None:
    """blank, seen from the front"""


@message
def picture_face() -> None:
    """face, seen from the front"""


@message
def picture_behind() -> None:
    """panel, seen from the rear"""


@message
def picture_bent() -> None:
    """bent panel, from the front and from the rear"""


@message
def picture_look() -> None:
    """finished appearance, seen from the front"""
