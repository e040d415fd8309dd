"""What the table and the form of what is measured before cutting say."""

from panelart.messages import Count, Listed, Word, message

# --- the table


@message
def part() -> None:
    """part"""


@message
def refs() -> None:
    """refs"""


@message
def dimension() -> None:
    """dimension"""


@message
def figure_used() -> None:
    """figure used"""


@message
def range_met() -> None:
    """range met"""


@message
def standing() -> None:
    """standing"""


@message
def measured() -> None:
    """measured"""


@message
def span(lowest: Word, highest: Word) -> None:
    """{lowest} to {highest}"""


@message
def from_memory() -> None:
    """from memory"""


@message
def typical() -> None:
    """typical value"""


@message
def see_caution() -> None:
    """of one part; see its caution"""


# --- the form


@message
def form_title() -> None:
    """Parts to measure before cutting"""


@message
def form_name(panel: Word) -> None:
    """{panel}: parts to measure"""


@message
def form_remark() -> None:
    """Measure the part in hand twice; of several, note the largest value. The opening is the finished hole: what passes
    through it plus a clearance. Leave blank what you did not measure."""


@message
def measured_by() -> None:
    """Measured by"""


@message
def measured_on() -> None:
    """Date"""


@message
def part_and_refs(part: Word, refs: Word) -> None:
    """{part}, for {refs}"""


# --- the form as a part file


@message
def file_title(panel: Word) -> None:
    """Parts to measure before cutting: {panel}"""


@message
def file_fill_in() -> None:
    """Fill in what you measured on the parts in hand, in mm or degrees; leave the rest empty. The opening is the
    finished hole: what passes through it plus a clearance."""


@message
def file_name_it(file: Word) -> None:
    """Then name the file in the spec, after other part files: catalogue: [{file}]. Each part in it replaces the
    catalogue part of the same name in every spec that names the file."""


@message
def file_part(title: Word, refs: Listed) -> None:
    """{title} ({refs})"""


@message
def file_figure(unit: Word, used: Word, standing: Word) -> None:
    """{unit}; used {used}, {standing}"""


@message
def file_figure_met(unit: Word, used: Word, lowest: Word, highest: Word, standing: Word) -> None:
    """{unit}; used {used}, met {lowest} to {highest}, {standing}"""


@message
def degrees() -> None:
    """degrees"""


@message
def file_written_out(part: Word) -> None:
    """{part} is written out in the spec: enter its figures there."""


@message
def file_no_key(dimension: Word) -> None:
    """{dimension} cannot be changed here: define the part anew."""


@message
def file_board_height(about: Word) -> None:
    """The height above the circuit board ({about}) is entered in the spec: `heights` of its board."""


@message
def nothing_to_measure() -> None:
    """All parts have cutout figures from data sheets, or your own: nothing to measure"""


@message
def kinds_to_measure(count: Count) -> None:
    """{count} kinds of part to measure"""
