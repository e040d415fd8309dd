"""What the picture sheets of the catalogue and the sheets of single parts say."""

from panelart.messages import Complete, Count, Degrees, Mm, Scale, Word, counted, message


@message
def title() -> None:
    """Parts catalogue"""


@message
def note() -> None:
    """Every part of the catalogue with its openings, what hides the face, and its main dimensions."""


@message
def sections(first: Word, last: Word) -> None:
    """{first} – {last}"""


@message
def page(page: Count, pages: Count) -> None:
    """{page} / {pages}"""


@counted("{count} parts")
def parts(count: Count) -> None:
    """{count} part"""


@message
def knobs() -> None:
    """Knobs"""


@counted("{count} knobs, seen from the front and from the side")
def knobs_remark(count: Count) -> None:
    """{count} knob, seen from the front and from the side"""


@message
def round_knobs() -> None:
    """Round"""


@message
def skirted_knobs() -> None:
    """With a skirt"""


@message
def bar_knobs() -> None:
    """Bar"""


@message
def symbols() -> None:
    """Symbols"""


@counted("{count} symbols, drawn {height} high; the number is that of the published symbol")
def symbols_remark(count: Count, height: Mm) -> None:
    """{count} symbol, drawn {height} high; the number is that of the published symbol"""


@message
def number_from_memory(number: Word) -> None:
    """{number} (from memory)"""


@message
def finished_sizes() -> None:
    """Finished sizes after coating, in mm."""


@message
def measure_before_cutting() -> None:
    """Measure the part in hand before cutting where the mark is not full."""


# --- captions


@message
def opening_size(size: Word) -> None:
    """opening {size}"""


@message
def openings_size(count: Count, size: Word) -> None:
    """opening {count} × {size}"""


@message
def with_range(opening: Word, span: Word) -> None:
    """{opening} ({span})"""


@message
def round_in_short(diameter: Word) -> None:
    """Ø{diameter}"""


@message
def round_across(diameter: Word, across: Word) -> None:
    """Ø{diameter} × {across}"""


@message
def sides_in_short(width: Word, height: Word) -> None:
    """{width} × {height}"""


@message
def range_found(ranges: Complete) -> None:
    """range {ranges}"""


@message
def span(minimum: Word, maximum: Word) -> None:
    """{minimum} to {maximum}"""


@message
def diameter_range(minimum: Word, maximum: Word) -> None:
    """Ø{minimum} to {maximum}"""


@message
def width_range(minimum: Word, maximum: Word) -> None:
    """width {minimum} to {maximum}"""


@message
def height_range(minimum: Word, maximum: Word) -> None:
    """height {minimum} to {maximum}"""


@message
def length_range(minimum: Word, maximum: Word) -> None:
    """length {minimum} to {maximum}"""


@message
def across_flats_range(minimum: Word, maximum: Word) -> None:
    """across flats {minimum} to {maximum}"""


@message
def across_flat_range(minimum: Word, maximum: Word) -> None:
    """across the flat {minimum} to {maximum}"""


@message
def over_key_range(minimum: Word, maximum: Word) -> None:
    """over the key {minimum} to {maximum}"""


@message
def other_opening(role: Word, size: Word) -> None:
    """{role} {size}"""


@message
def other_openings(count: Count, role: Word, size: Word) -> None:
    """{count} × {role} {size}"""


@message
def countersink(diameter: Word, angle: Degrees) -> None:
    """countersink Ø{diameter}, {angle}"""


@message
def front_body(feature: Word, size: Word, height: Word) -> None:
    """{feature} {size}, {height} high"""


@message
def front_reach(feature: Word, height: Word) -> None:
    """{feature} to {height}"""


@message
def facts(facts: Complete) -> None:
    """{facts}"""


@message
def turns_by(angle: Degrees) -> None:
    """turns {angle}"""


@message
def endless() -> None:
    """turns without stops"""


@message
def behind(depth: Word) -> None:
    """behind {depth}"""


@message
def sheet_range(minimum: Word, maximum: Word) -> None:
    """sheet {minimum} to {maximum}"""


@message
def sheet_maximum(maximum: Word) -> None:
    """sheet to {maximum}"""


@message
def shaft(diameter: Word) -> None:
    """shaft Ø{diameter}"""


@message
def pointer(form: Word) -> None:
    """pointer: {form}"""


# --- the key to lines and marks


@message
def key_opening() -> None:
    """opening"""


@message
def key_front() -> None:
    """in front"""


@message
def key_travel() -> None:
    """moves, or is plugged in"""


@message
def key_behind() -> None:
    """behind"""


@message
def proved() -> None:
    """proved on a panel"""


@message
def looked_up() -> None:
    """from the cited source"""


@message
def typical() -> None:
    """typical, makers differ"""


@message
def from_memory() -> None:
    """from memory"""


@message
def given() -> None:
    """given"""


# --- the sheet of one part


@message
def part_title(part: Word) -> None:
    """{part}: part sheet"""


@message
def part_note(part: Word) -> None:
    """{part}, from the front and from the side, with every dimension and its source."""


@message
def sheet_thickness(minimum: Word, maximum: Word) -> None:
    """sheet {minimum} to {maximum} mm"""


@message
def measure_part() -> None:
    """Measure the part in hand before cutting: not all sizes of its cutout are from a data sheet."""


@message
def front_view(scale: Scale) -> None:
    """from the front, {scale}"""


@message
def side_view() -> None:
    """from the side: front at the left, rear at the right"""


@message
def from_stop_to_stop() -> None:
    """from stop to stop"""


@message
def value_changes() -> None:
    """value changes"""


@counted("{count} positions")
def positions_of_way(count: Count) -> None:
    """{count} position"""


@message
def positions_up_to(fewest: Word, most: Word) -> None:
    """{fewest} to {most} positions"""


@message
def dials_heading() -> None:
    """Angles, clockwise from straight up"""


@message
def opening_group(role: Word) -> None:
    """Opening, {role}"""


@message
def front_group(feature: Word) -> None:
    """In front, {feature}"""


@message
def rear_group(feature: Word) -> None:
    """Behind, {feature}"""


@message
def sources() -> None:
    """Sources"""


@message
def value_in_degrees(value: Word) -> None:
    """{value}°"""


@message
def value_in_unit(value: Word, unit: Word) -> None:
    """{value} {unit}"""


@message
def notes() -> None:
    """Notes and cautions"""
