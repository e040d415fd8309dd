"""What is said of positions, knobs and scales."""

from panelart.messages import Count, Degrees, Listed, Mm, Number, Quoted, Word, message


@message
def the_part() -> None:
    """The part"""


@message
def positions() -> None:
    """positions"""


@message
def no_positions(ref: Word, part: Word) -> None:
    """{ref} has 'positions', but the part {part} has none"""


@message
def remove_positions() -> None:
    """Remove 'positions', or use another part."""


@message
def list_without_turning(ref: Word, part: Word) -> None:
    """{ref} has a list of positions, but the part {part} does not turn"""


@message
def directions_with_text(directions: Listed) -> None:
    """Accepted: {directions}, each with a text"""


@message
def unknown_position(part: Word, position: Quoted) -> None:
    """The part {part} has no position {position}"""


@message
def angle_twice(angle: Degrees, first: Word) -> None:
    """Two positions at {angle}; the first is at {first}"""


@message
def each_angle_once() -> None:
    """Accepted: each angle once"""


@message
def knob_without_shaft(ref: Word, part: Word) -> None:
    """{ref} has a knob, but the part {part} has no shaft"""


@message
def remove_knob() -> None:
    """Remove 'knob', or use a part with a shaft."""


@message
def bore_mismatch(knob: Word, bore: Mm, part: Word, shaft: Mm) -> None:
    """Knob {knob} has a bore of {bore}; the shaft of {part} is {shaft}"""


@message
def knob_for_shaft(diameter: Number, height: Number) -> None:
    """Accepted: a knob for this shaft, or dimensions, such as {{diameter: {diameter}, height: {height}}}"""


@message
def bore_range_mismatch(knob: Word, minimum: Number, maximum: Mm, part: Word, shaft: Mm) -> None:
    """Knob {knob} has a bore of {minimum} to {maximum}; the shaft of {part} is {shaft}"""


@message
def knob_too_small(diameter: Mm, shaft: Mm) -> None:
    """Knob diameter {diameter} is not larger than the shaft diameter {shaft}"""


@message
def more_than(limit: Mm) -> None:
    """Accepted: more than {limit}"""


@message
def scale_of_nothing(low: Number, high: Number) -> None:
    """The scale runs from {low} to {high}"""


@message
def other_than_from() -> None:
    """Accepted: 'to' more or less than 'from'"""


@message
def to_above_from() -> None:
    """Accepted: 'to' more than 'from'"""


@message
def scale_without_shaft(ref: Word, part: Word) -> None:
    """{ref} has a scale, but the part {part} has no shaft"""


@message
def remove_scale() -> None:
    """Remove 'scale', use a part with a shaft, or give the 'length' of a straight scale."""


@message
def straight_scale_on_shaft(ref: Word, key: Quoted, part: Word) -> None:
    """{ref} has a scale with {key}, but the part {part} turns"""


@message
def keys_of_dial() -> None:
    """Accepted: sweep, start and direction"""


@message
def logarithmic_marks(key: Quoted) -> None:
    """A logarithmic scale sets its own marks, but {key} is given"""


@message
def remove_marks(key: Quoted) -> None:
    """Remove {key}; 'numerals' selects the marks with numerals."""


@message
def logarithmic_start(low: Number) -> None:
    """The logarithmic scale starts at {low}"""


@message
def logarithmic_end(high: Number) -> None:
    """The logarithmic scale ends at {high}"""


@message
def more_than_zero() -> None:
    """Accepted: more than 0"""


@message
def marks_and_step(key: Quoted) -> None:
    """The scale has both 'marks' and {key}"""


@message
def marks_or_steps() -> None:
    """Accepted: marks one by one, or steps of 'major'; 'intermediate' and 'minor' with either"""


@message
def no_marks() -> None:
    """The scale has no marks"""


@message
def ways_to_mark() -> None:
    """Accepted: major (step of the long marks), marks (their values), or law: logarithmic"""


@message
def too_many_marks(step: Number, marks: Number, maximum: Count) -> None:
    """Step {step} makes {marks} marks on the scale; maximum {maximum}"""


@message
def larger_step() -> None:
    """Increase the step."""


@message
def cursor_on_slide(part: Word, name: Word) -> None:
    """{part}: 'cursor' beside {name}, whose cap moves along the scale"""


@message
def cursor_without_window(part: Word, name: Word) -> None:
    """{part}: 'cursor' beside {name}, which has no window or slot"""


@message
def remove_cursor() -> None:
    """Remove 'cursor', or use a window or slot."""


@message
def step_over_range(step: Number, range_: Number) -> None:
    """Step {step} is larger than the range of {range_}"""


@message
def step_up_to(range_: Number) -> None:
    """Accepted: maximum {range_}"""


@message
def step_such_as(step: Number) -> None:
    """Accepted: a step that divides it a whole number of times, such as {step}"""


@message
def step_of_major(step: Number, major: Number) -> None:
    """Step {step} does not divide the major step {major}"""


@message
def value_twice(key: Quoted, value: Number) -> None:
    """{key} has the value {value} twice"""


@message
def each_value_once() -> None:
    """Accepted: each value once"""


@message
def value_off_scale(key: Quoted, value: Number) -> None:
    """Value {value} of {key} is outside the scale"""


@message
def values_on_scale(low: Number, high: Number) -> None:
    """Accepted: {low} to {high}"""


@message
def table_incomplete() -> None:
    """The table does not run from one end of the scale to the other"""


@message
def complete_table(low: Number, high: Number) -> None:
    """Accepted: [{low}, 0], ..., [{high}, 1], with increasing values and shares"""


@message
def complete_falling_table(begin: Number, end: Number) -> None:
    """Accepted: [{begin}, 0], ..., [{end}, 1], with decreasing values and increasing shares"""


@message
def zone_reversed(low: Number, high: Number) -> None:
    """The zone runs from {low} to {high}"""


# --- angles of positions and of scales


@message
def angles_unknown(part: Word, name: Word) -> None:
    """{part}: the angles of the positions of {name} are not known"""


@message
def state_angles() -> None:
    """Look up its data sheet; write `{{texts: [...], angles: [...]}}`, clockwise from straight up, or `index:`"""


@message
def positions_not_made(count: Count, name: Word, counts: Word) -> None:
    """{count} named positions, but {name} is made with {counts}"""


@message
def angles_typical(part: Word, name: Word, way: Word) -> None:
    """{part}: the angles of {name} differ from maker to maker; typical: {way}"""


@message
def angles_held(part: Word, name: Word) -> None:
    """{part}: {name} cannot be turned in its hole, and the angle of its first position is not known"""


@message
def state_measured() -> None:
    """Look up the data sheet and write the angles: `{{texts: [...], angles: [...]}}`, or `index:`"""


@message
def angles_differ(part: Word, name: Word, count: Count, ways: Listed) -> None:
    """{part}: {name} with {count} positions is made in several ways: {ways}"""


@message
def state_one_of_them(way: Word) -> None:
    """Look up the data sheet and write the one that it has beside the texts: `{{texts: [...], {way}}}`"""


@message
def angles_and(key: Word) -> None:
    """Both `angles` and `{key}` are given"""


@message
def angles_or_index() -> None:
    """Accepted: `angles`, or `index` with or without `first`"""


@message
def angles_miscounted(angles: Count, texts: Count) -> None:
    """{angles} angles for {texts} positions"""


@message
def one_angle_each() -> None:
    """Accepted: one angle for each position"""


@message
def first_without_index() -> None:
    """`first` is given without `index`"""


@message
def positions_overrun(count: Count, index: Degrees) -> None:
    """{count} positions {index} apart do not fit into one turn"""


@message
def index_up_to(maximum: Degrees) -> None:
    """Accepted: maximum {maximum}"""


@message
def directions_of_turning(part: Word, name: Word) -> None:
    """{part}: {name} is turned; its positions are not given by direction"""


@message
def texts_with_angles() -> None:
    """Accepted: a list of texts, or `{{texts: [...], angles: [...]}}` with angles clockwise from straight up"""


@message
def sweep_unknown(part: Word, name: Word) -> None:
    """{part}: the angle over which {name} turns is not known"""


@message
def state_sweep() -> None:
    """Measure the part, or look it up in its data sheet, and write `sweep:` in degrees"""


@message
def turns_often(part: Word, name: Word, angle: Degrees, turns: Number) -> None:
    """{part}: {name} turns {angle} ({turns} turns); a scale on the panel shows one turn"""


@message
def turns_all_round(part: Word, name: Word, angle: Degrees) -> None:
    """{part}: {name} turns {angle}; a scale on the panel shows less than one turn"""


@message
def count_turns() -> None:
    """Remove 'scale' and use a turns-counting dial, or write `sweep:` in degrees."""


@message
def travel_unknown(part: Word, name: Word) -> None:
    """{part}: the travel of {name} is not known"""


@message
def state_length() -> None:
    """Measure the part, or look it up in its data sheet, and write `length:` in mm"""


# --- laws of scales


@message
def law_of_nothing() -> None:
    """The law has neither 'formula' nor 'taper', or both"""


@message
def formula_or_taper() -> None:
    """Accepted: {{formula: 20*log10(v)}}, or {{taper: 15}}"""


@message
def law_below_zero(law: Word, low: Number) -> None:
    """Law {law} on a scale from {low}"""


@message
def from_zero_up() -> None:
    """Accepted: minimum 0"""


@message
def law_exceeded(law: Word, low: Number, high: Number) -> None:
    """Law {law} on a scale from {low} to {high}"""


@message
def law_up_to(high: Number, source: Word) -> None:
    """Accepted: maximum {high} ({source})"""


@message
def law_between(low: Number, high: Number, source: Word) -> None:
    """Accepted: {low} to {high} ({source})"""


@message
def multiplier_odd(multiplier: Number) -> None:
    """Multiplier {multiplier} is not a power of ten"""


@message
def powers_of_ten() -> None:
    """Accepted: 0.000001 to 1000000000 in powers of ten, such as 1000 or 0.001"""


@message
def law_and_table() -> None:
    """The scale has both a law and a table"""


@message
def law_or_table() -> None:
    """Accepted: 'law', or 'table' with a linear law"""


@message
def formula_flat(formula: Quoted, value: Number) -> None:
    """{formula} does not change at v = {value}"""


@message
def formula_turns(formula: Quoted, value: Number) -> None:
    """{formula} changes direction at v = {value}"""


@message
def one_way(low: Number, high: Number) -> None:
    """Accepted: a formula that only increases, or only decreases, from {low} to {high}"""


@message
def rest_at_value(low: Number) -> None:
    """'rest' is given, but the travel begins at the value {low}"""


@message
def laws_with_rest() -> None:
    """Accepted: 'rest' with the laws decibel, vu, fader, fader-power, iec-60268-10-i, and iec-60268-18 above -70"""


# --- two scales on one arc, ranges of positions


@message
def first_shares_arc() -> None:
    """The first scale has a shared arc"""


@message
def second_of_two() -> None:
    """Accepted: 'arc: shared' in the second of two scales"""


@message
def shared_arc_and(key: Quoted) -> None:
    """The scale has a shared arc and {key}"""


@message
def remove_from_shared(key: Quoted) -> None:
    """Remove {key}; the arc is that of the first scale."""


@message
def arc_not_shared(ref: Word) -> None:
    """The first scale of {ref} has no arc to share"""


@message
def dial_without_bands() -> None:
    """Accepted: a dial without zones and wedge"""


@message
def ranges_overrun(positions: Count, count: Count) -> None:
    """The ranges have {positions} positions; the control has {count}"""


@message
def up_to_all(count: Count) -> None:
    """Accepted: maximum {count} positions in all ranges together"""
