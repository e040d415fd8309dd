"""What rules say besides their two sentences, and the slips of house files, baselines and waivers."""

from panelart.messages import (
    Clauses,
    Count,
    Each,
    InUnit,
    Listed,
    Mm,
    Numbers,
    Quoted,
    Thing,
    Word,
    counted,
    message,
)

# --- parts and their figures


@message
def with_coat(thickness: Mm) -> None:
    """with a coat thickness of {thickness}"""


@message
def uncoated() -> None:
    """as cut"""


# --- ratings


@message
def outlet_unrated() -> None:
    """no voltage with maximum current or power at the outlet"""


@message
def faults(faults: Clauses) -> None:
    """{faults}"""


@message
def current_below_rating(current: Quoted, rated: Quoted) -> None:
    """current {current} is below the {rated} of the mains rating"""


@message
def current_above_part(current: Quoted, limit: Word, part: Thing) -> None:
    """current {current} is above the {limit} of {part}"""


@message
def voltage_below_mains(voltage: Quoted, mains: Quoted) -> None:
    """voltage {voltage} is below the mains voltage {mains}"""


@message
def current_far_above_rating(current: Quoted, times: Word, rated: Quoted, limit: Word) -> None:
    """{current} is {times} times the mains rating of {rated}; maximum {limit} times"""


@message
def drawn_above_rating(drawn: Quoted, rated: Quoted) -> None:
    """{drawn} is more than the {rated} of the mains rating"""


@message
def voltage_above_part(voltage: Quoted, limit: Word, part: Thing) -> None:
    """voltage {voltage} is above the {limit} of {part}"""


@message
def voltage_below_any_mains(voltage: Quoted, part: Thing) -> None:
    """{voltage} is not a mains voltage, but {part} is for mains"""


@message
def direct_at_mains(voltage: Quoted, part: Thing) -> None:
    """{voltage} is direct current, but {part} is for mains"""


@message
def above_extra_low(voltage: Quoted, limit: Word, part: Thing) -> None:
    """{voltage} exceeds the {limit} of extra-low voltage at {part}"""


@message
def characteristic_not_held(characteristic: Quoted, part: Thing) -> None:
    """{characteristic} is of IEC 60269; {part} is for fuses of IEC 60127"""


# --- openings


@message
def openings_listed(names: Listed) -> None:
    """{names}"""


# --- colours


@message
def red() -> None:
    """red"""


@message
def yellow() -> None:
    """yellow"""


@message
def colour_missing(colour: Word) -> None:
    """colour not given; must be {colour}"""


@message
def colour_wrong(found: Word, colour: Word) -> None:
    """colour {found} is not {colour}"""


@message
def ink_on_ground(ink: Word, ink_colour: Word, ground: Word, ground_colour: Word) -> None:
    """{ink} {ink_colour} on {ground} {ground_colour}"""


@message
def normal_vision() -> None:
    """normal colour vision"""


@message
def protanopia() -> None:
    """protanopia"""


@message
def deuteranopia() -> None:
    """deuteranopia"""


@message
def tritanopia() -> None:
    """tritanopia"""


# --- legends


@message
def cap_height() -> None:
    """cap height"""


@message
def ideograph_height() -> None:
    """height of ideographs"""


@message
def symbol_height() -> None:
    """symbol height"""


@message
def cap_height_unlike(height: Mm, usual: Mm) -> None:
    """cap height {height} instead of {usual}"""


@message
def font_unlike(font: Word, usual: Word) -> None:
    """font {font} instead of {usual}"""


@message
def ink_unlike(ink: Word, usual: Word) -> None:
    """ink {ink} instead of {usual}"""


@message
def lettering_unlike(differences: Listed) -> None:
    """{differences}"""


@counted("placed {side}; {usual} on {count} like parts")
def side_unlike(count: Count, side: Word, usual: Word) -> None:
    """placed {side}; {usual} on one like part"""


@counted("set on {count} lines; on like parts {usual}")
def lines_unlike(count: Count, usual: Count) -> None:
    """set on one line; on like parts {usual}"""


@message
def line_unlike(by: Mm) -> None:
    """baseline {by} off that of the row"""


@message
def blocked(blockers: Each) -> None:
    """blocked by {blockers}"""


@message
def blocked_with_ways_out(blockers: Each, ways: Clauses) -> None:
    """blocked by {blockers}; possible: {ways}"""


@message
def nowhere_free() -> None:
    """every place is taken"""


@message
def nowhere_free_with_ways_out(ways: Clauses) -> None:
    """every place is taken; possible: {ways}"""


@message
def taken_for(character: Quoted, taken: Quoted) -> None:
    """{character} taken for {taken}"""


@message
def hidden_by(body: Word, eye: Word) -> None:
    """{body} for {eye}"""


@message
def unit_spelling(meant: Word, written: Word) -> None:
    """{meant}, not {written}"""


@message
def unit_spellings(spellings: Clauses) -> None:
    """{spellings}"""


@message
def sign_change(written: Word, meant: Word) -> None:
    """{meant} for {written}"""


@message
def sign_changes(changes: Listed) -> None:
    """{changes}"""


@counted("{count} texts")
def texts_counted(count: Count) -> None:
    """One text"""


@message
def texts_unsure(texts: Listed) -> None:
    """{texts}"""


@message
def abbreviations_listed(words: Listed) -> None:
    """{words}"""


@message
def read_as(written: Quoted, meant: Quoted) -> None:
    """{written} for {meant}"""


@message
def scripts_mixed(written: Quoted, scripts: Each, letters: Listed) -> None:
    """{written} has letters of {scripts}: {letters}"""


@message
def but_for_unit(part: Thing, first: Quoted, second: Quoted) -> None:
    """{part}, but for the letters of a unit: {first} and {second}"""


# --- positions and scales


@message
def below(more: Quoted, less: Quoted) -> None:
    """{more} is below {less}"""


@message
def left_of(more: Quoted, less: Quoted) -> None:
    """{more} is to the left of {less}"""


@message
def anticlockwise_of(more: Quoted, less: Quoted) -> None:
    """{more} is anticlockwise of {less}"""


@message
def between(first: Quoted, second: Quoted) -> None:
    """{first} and {second}"""


@message
def unit_named(unit: Quoted) -> None:
    """{unit}"""


@message
def positions_listed(positions: Listed) -> None:
    """{positions}"""


@message
def wide() -> None:
    """wide"""


@message
def high() -> None:
    """high"""


@message
def part_called(part: Word) -> None:
    """{part}"""


@message
def read_upside_down(numbers: Listed) -> None:
    """{numbers}"""


@message
def numerals_cut(numbers: Listed) -> None:
    """{numbers}"""


@message
def numeral_named(numeral: Quoted) -> None:
    """{numeral}"""


@message
def numerals_left_out(numbers: Listed) -> None:
    """{numbers}"""


@message
def steps(steps: Numbers) -> None:
    """{steps}"""


# --- waivers


@message
def waived_rule(rule: Quoted) -> None:
    """{rule}"""


@message
def waiver_of(rule: Word, refs: Listed) -> None:
    """{rule} on {refs}"""


@message
def no_finding_matches() -> None:
    """no finding matches"""


@message
def finding_names_more(refs: Each) -> None:
    """the finding names {refs}, and the waiver must name all of them"""


@message
def rules() -> None:
    """rules"""


# --- house file


@message
def limits() -> None:
    """limits"""


@message
def limit_unknown(name: Quoted) -> None:
    """Unknown limit {name}"""


@message
def rule_unknown(name: Quoted) -> None:
    """Unknown rule {name}"""


@message
def limit_value(value: InUnit) -> None:
    """{value}"""


@message
def default_abbreviations() -> None:
    """default list"""


@message
def house_abbreviations(words: Listed) -> None:
    """default list and {words}"""


# --- baseline


@message
def baseline_invalid() -> None:
    """Not a panelart baseline"""


@message
def baseline_accepted() -> None:
    """Write a baseline with `panelart check SPEC --write-baseline FILE`."""


@message
def detents_of_ways(marks: Count, most: Count, steps: Listed) -> None:
    """{marks} detents are marked; the part has {most} or fewer, in steps of {steps}"""


@message
def detents_of_turn(marks: Count, detents: Count) -> None:
    """{marks} marks; the part has {detents} detents in one turn"""


@message
def angles_of_part(angles: Listed, ways: Listed) -> None:
    """{angles}; it is made with {ways}"""
