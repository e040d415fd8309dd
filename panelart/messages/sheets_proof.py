"""What the proof says, and the windows of its close-ups."""

from panelart.messages import Complete, Count, Each, Listed, Mm, Scale, TwoDecimals, Word, message


@message
def title(panel: Word, page: Count, pages: Count) -> None:
    """{panel}: proof, sheet {page} of {pages}"""


@message
def note(panel: Word) -> None:
    """Proof of {panel}, seen from the front."""


# --- pictures


@message
def appearance() -> None:
    """Finished appearance"""


@message
def appearance_remark(scale: Scale) -> None:
    """seen from the front, {scale}"""


@message
def positions() -> None:
    """Positions from the datum"""


@message
def positions_remark(scale: Scale) -> None:
    """finished sizes in mm, {scale}"""


@message
def close_ups() -> None:
    """Close-ups"""


@message
def close_ups_remark() -> None:
    """findings too small for the picture above"""


@message
def window(number: Count, scale: Scale) -> None:
    """no. {number}, {scale}"""


@message
def window_measured(number: Count, scale: Scale, measured: Word) -> None:
    """no. {number}, {scale}, {measured}"""


# --- findings


@message
def findings() -> None:
    """Findings"""


@message
def counts(counts: Listed) -> None:
    """{counts}"""


@message
def of_each(refs: Each, finding: Word) -> None:
    """{refs}: {finding}"""


@message
def rule(rule: Word) -> None:
    """Rule {rule}."""


@message
def limit_source(source: Word) -> None:
    """Limit: {source}."""


@message
def omitted_meaning() -> None:
    """What extensions of these names check, mark or describe is missing from this run."""


@message
def waived(finding: Word) -> None:
    """Waived: {finding}"""


@message
def reason(reason: Word) -> None:
    """Reason: {reason}."""


@message
def waived_by(name: Word) -> None:
    """Waived by {name}."""


@message
def waived_until(day: Word) -> None:
    """Expires on {day}."""


@message
def house_limit(limit: Word, now: Word, was: Word) -> None:
    """House setting {limit}: {now} (default {was})"""


@message
def house_reason(reason: Word, where: Word) -> None:
    """Reason: {reason} ({where})."""


@message
def part_replaced(part: Word, file: Word) -> None:
    """Part {part}: figures of {file} replace those of the catalogue"""


@message
def refs_of_part(refs: Listed) -> None:
    """Used for {refs}."""


# --- what is measured before cutting


@message
def to_measure() -> None:
    """To measure before cutting"""


@message
def to_measure_remark() -> None:
    """Figures that are not from a data sheet. Measure the part in hand; correct the cutout before cutting."""


# --- cautions


@message
def cautions() -> None:
    """⚠ Cautions"""


@message
def caution(refs: Complete, caution: Word) -> None:
    """{refs}: {caution}"""


# --- tables


@message
def holes() -> None:
    """Holes"""


@message
def hole_positions() -> None:
    """Positions in mm from the datum."""


@message
def hole_positions_with_flanges() -> None:
    """Positions in mm from the datum; in a flange along it, and back from the outside of its bend."""


@message
def no_kerf() -> None:
    """No kerf applied."""


@message
def countersinks() -> None:
    """Countersinks"""


@message
def countersinks_remark(thickness: Mm) -> None:
    """Diameters finished and as cut, depth from the bare face, sheet thickness {thickness}."""


@message
def column_finished() -> None:
    """finished"""


@message
def column_cut() -> None:
    """cut"""


@message
def diameter(diameter: TwoDecimals) -> None:
    """Ø{diameter}"""


# --- title block


@message
def number() -> None:
    """number"""


@message
def revision() -> None:
    """revision"""


@message
def picture_scale() -> None:
    """picture scale"""


@message
def scale(scale: Scale) -> None:
    """{scale}"""


@message
def sheet() -> None:
    """sheet"""


@message
def metal_and_coat(metal: Word, coat: Word) -> None:
    """{metal}, {coat}"""


@message
def coat_and_thickness(coat: Word, thickness: Word) -> None:
    """{coat}, thickness {thickness}"""


@message
def made_by(program: Word) -> None:
    """{program}."""


@message
def needs_signature() -> None:
    """Not valid without a signature."""


@message
def scale_bar() -> None:
    """100 mm on paper: measure to check the scale of the print"""


@message
def drawn() -> None:
    """Drawn: name, date"""


@message
def checked() -> None:
    """Checked: name, date"""


@message
def released_for_cutting() -> None:
    """Released for cutting: name, date"""


@message
def released_for_marking() -> None:
    """Released for marking: name, date"""
