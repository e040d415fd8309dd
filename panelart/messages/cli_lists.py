"""What the commands for lists say: bill of materials, component lists, measured sizes."""

from panelart.messages import Count, Listed, Mm, Number, PointMm, Quoted, SizeMm, Word, counted, message

# --- bill of materials


@message
def bom_item(part: Word, title: Word) -> None:
    """{part}: {title}"""


@message
def bom_part() -> None:
    """part"""


@message
def bom_knob() -> None:
    """knob"""


@message
def bom_disc() -> None:
    """disc"""


@message
def bom_hardware() -> None:
    """hardware"""


@message
def bom_fastener() -> None:
    """fastener"""


@message
def bom_spanner(across: Word) -> None:
    """spanner {across}"""


@message
def bom_consumable() -> None:
    """consumable"""


@message
def bom_legend_plate() -> None:
    """legend plate"""


@message
def bom_sheet() -> None:
    """sheet"""


@message
def bom_quantity(quantity: Count) -> None:
    """Quantities are for one panel; {quantity} panels are made"""


# --- draft and arrange


@message
def spec_exists(file: Quoted) -> None:
    """{file} exists"""


@message
def page_of_one_side() -> None:
    """The list has parts for front and rear; the page shows one panel only"""


@message
def type_a_side(file: Word, first: Word, second: Word) -> None:
    """Type panelart draft {file} --side {first} --view; then the same with --side {second}."""


@message
def page_of_one_arrangement() -> None:
    """The page shows one arrangement only"""


@message
def without_alternatives() -> None:
    """Omit --alternatives."""


@message
def draft_continued(file: Word) -> None:
    """{file}: earlier draft, continued"""


@message
def overwrite_hint() -> None:
    """Overwrite it with --force."""


@message
def list_unreadable(reason: Word) -> None:
    """Cannot read the component list: {reason}"""


@message
def spec_unreadable(reason: Word) -> None:
    """Cannot read the spec: {reason}"""


@message
def part_file_unreadable(reason: Word) -> None:
    """Cannot read the part file: {reason}"""


@message
def table_unreadable(reason: Word) -> None:
    """Cannot read the table: {reason}"""


@message
def accepted_csv() -> None:
    """Accepted: a CSV file"""


@message
def table_too_large(megabytes: Count) -> None:
    """The table is too large; maximum {megabytes} MB"""


@message
def list_read(file: Word, form: Word, columns: Listed) -> None:
    """{file}: {form}; columns: {columns}"""


@message
def columns_accepted(roles: Listed) -> None:
    """Columns: {roles}"""


@message
def nothing_on_side(side: Word) -> None:
    """No part of the {side} is known; nothing to arrange"""


@message
def other_side(side: Word) -> None:
    """The parts of the list are on the {side}: --side {side}"""


@message
def blank_panel(side: Word, size: SizeMm) -> None:
    """No part of the {side} is known; a blank panel of {size} was written"""


@message
def all_placed(file: Word) -> None:
    """{file}: every part has a position; remove an `at:` to have that part placed"""


@message
def arrangement(number: Count, size: SizeMm) -> None:
    """{number}: {size}"""


@message
def alternative(number: Count, idea: Word, size: SizeMm, figures: Listed) -> None:
    """{number} ({idea}): {size}; {figures}"""


@message
def area(area: Count) -> None:
    """{area} cm²"""


@counted("{count} rows and columns")
def lines(count: Count) -> None:
    """{count} row or column"""


@counted("{count} pitches")
def pitches(count: Count) -> None:
    """{count} pitch"""


@message
def reach(distance: Mm) -> None:
    """farthest control {distance} from the middle of the lower edge"""


@message
def idea_overall() -> None:
    """best overall"""


@message
def idea_rows() -> None:
    """more rows of groups"""


@message
def idea_columns() -> None:
    """groups side by side"""


@message
def idea_mirrored() -> None:
    """like groups on both sides of the middle"""


@message
def idea_compact() -> None:
    """smaller"""


@message
def idea_generous() -> None:
    """more white"""


@message
def idea_another() -> None:
    """another arrangement"""


@message
def arrangements(title: Word) -> None:
    """{title}: arrangements"""


@counted("{count} parts on {size}; {findings}")
def arranged(count: Count, size: SizeMm, findings: Listed) -> None:
    """{count} part on {size}; {findings}"""


@message
def nudge_of_one_arrangement() -> None:
    """--nudge works on one arrangement only"""


@message
def nudging(built: Count, maximum: Count, findings: Count) -> None:
    """State {built} of {maximum} (maximum) built, {findings} findings left to clear"""


@message
def moved_by(x: Number, y: Number) -> None:
    """[{x}, {y}] mm"""


@counted("{ref} and {count} more: {start} -> {end}, by {by}")
def several_moved(ref: Word, count: Count, start: PointMm, end: PointMm, by: Word) -> None:
    """{ref} and 1 more: {start} -> {end}, by {by}"""


@message
def one_moved(ref: Word, start: PointMm, end: PointMm, by: Word) -> None:
    """{ref}: {start} -> {end}, by {by}"""


@message
def clears(numbers: Listed) -> None:
    """fixes no. {numbers}"""


@message
def still_found(rule: Word, finding: Word, why: Word) -> None:
    """not cleared: {rule}: {finding} ({why})"""


@message
def nothing_moved() -> None:
    """No part was moved"""


@message
def moved_least(moved: Mm) -> None:
    """Moved by {moved} in all; no smaller moves clear the findings"""


@message
def moved_in_all(moved: Mm, minimum: Mm) -> None:
    """Moved by {moved} in all; the minimum for openings, hardware and controls alone is {minimum}"""


@message
def of_panel(name: Word, told: Word) -> None:
    """{name}: {told}"""


@counted("{count} questions about parts")
def questions(count: Count) -> None:
    """{count} question about parts"""


@message
def no_such_file() -> None:
    """No such file"""


# --- inspect


@message
def measured_unreadable(file: Word, reason: Word) -> None:
    """Cannot read {file}: {reason}"""


@message
def measured_unusable(file: Word, reason: Word) -> None:
    """{file}: {reason}"""


@message
def measured_for_others(others: Listed, current: Word) -> None:
    """warning: measured for spec {others}; compared with spec {current}"""


@counted("{count} pieces")
def pieces(count: Count) -> None:
    """{count} piece"""


@message
def size_mean(mean: Word, low: Word, high: Word) -> None:
    """{mean} ({low} to {high})"""


@message
def capability(value: Word) -> None:
    """Cp {value}"""


@message
def capability_of_mean(value: Word) -> None:
    """Cpk {value}"""


@message
def size_within(feature: Word, measure: Word, facts: Listed) -> None:
    """ok   {feature} {measure}: {facts}"""


@message
def size_out(feature: Word, measure: Word, facts: Listed, pieces: Listed) -> None:
    """OUT  {feature} {measure}: {facts}: {pieces}"""


@message
def size_mean_by(mean: Word, low: Word, high: Word, by: Word) -> None:
    """{mean} ({low} to {high}, {by})"""


@message
def piece_too_small(piece: Word, value: Word, lacking: Word) -> None:
    """piece {piece} {value} is {lacking} too small"""


@message
def piece_too_large(piece: Word, value: Word, over: Word) -> None:
    """piece {piece} {value} is {over} too large"""


@message
def limit_open() -> None:
    """open"""


@message
def unknown_ref(ref: Quoted) -> None:
    """The panel has no part {ref}"""


@message
def refs_of_panel() -> None:
    """parts of the panel"""


@message
def nothing_proved_out() -> None:
    """No part is marked as proved: a measured value is out of its limits"""


@message
def nothing_proved_other_state() -> None:
    """No part is marked as proved: values were measured for another state of the spec"""


@message
def nothing_proved() -> None:
    """No part is marked as proved"""


@message
def part_proved(part: Word, ref: Word) -> None:
    """proved: {part} ({ref})"""


@message
def part_not_proved(part: Word, ref: Word, why: Word) -> None:
    """not proved: {part} ({ref}): {why}"""


@message
def row_of_family() -> None:
    """it is a row of a family in this file; use another file"""


@message
def part_file_not_text() -> None:
    """The part file is not UTF-8 text"""


@counted("{count} parts are marked as proved in {file}; name it under catalogue: in the spec")
def proved_written(count: Count, file: Word) -> None:
    """{count} part is marked as proved in {file}; name it under catalogue: in the spec"""


@message
def inspected(values: Word, out: Count, missing: Count, sizes: Count) -> None:
    """{values}, {out} out of limits; {missing} of {sizes} sizes not measured"""


@counted("{count} values")
def values(count: Count) -> None:
    """{count} value"""


@message
def not_measured(sizes: Listed) -> None:
    """not measured: {sizes}"""
