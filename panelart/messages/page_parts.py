"""What the page shows of parts, legends, findings and measurements; in the same catalogue as the page's frame."""

from panelart.messages import Count, Word, counted, message

# --- the selection


@message
def parts_selected(count: Word, refs: Word) -> None:
    """{count} parts: {refs}"""


@message
def delete() -> None:
    """Delete"""


@message
def copy() -> None:
    """Copies …"""


@message
def of_pattern() -> None:
    """Created by a pattern of the spec. To change this part, change the pattern."""


@message
def catalogue_entry() -> None:
    """Catalogue entry"""


@message
def placement_explained() -> None:
    """Legend placement"""


@message
def show_places() -> None:
    """Show possible places"""


@message
def position() -> None:
    """Position"""


@message
def rotation() -> None:
    """Rotation"""


@message
def legend() -> None:
    """Legend"""


@message
def legend_side() -> None:
    """Legend side"""


@message
def cap_height() -> None:
    """Cap height"""


@message
def none() -> None:
    """none"""


@message
def x_from_datum() -> None:
    """x from the datum"""


@message
def y_from_datum() -> None:
    """y from the datum"""


@message
def at(x: Word, y: Word) -> None:
    """{x}, {y} mm"""


@message
def style_default() -> None:
    """mm (0: style default)"""


@message
def side_auto() -> None:
    """automatic"""


@message
def side_above() -> None:
    """above"""


@message
def side_below() -> None:
    """below"""


@message
def side_left() -> None:
    """left"""


@message
def side_right() -> None:
    """right"""


# --- parts and legends on the drawing


@message
def part_label(ref: Word, title: Word, x: Word, y: Word) -> None:
    """{ref}, {title}, position {x}, {y} mm"""


@message
def part_with_legend_label(ref: Word, legend: Word, title: Word, x: Word, y: Word) -> None:
    """{ref} {legend}, {title}, position {x}, {y} mm"""


@message
def legend_label(text: Word, ref: Word) -> None:
    """legend {text} of {ref}"""


@message
def free_legend_label(text: Word) -> None:
    """legend {text}"""


# --- the card beside a part or legend


@message
def opening(role: Word, size: Word) -> None:
    """Opening, {role}: {size}"""


@message
def size_of_form(size: Word, form: Word) -> None:
    """{size}, {form}"""


@message
def diameter(diameter: Word) -> None:
    """Ø{diameter} mm"""


@message
def rectangle(width: Word, height: Word) -> None:
    """{width} × {height} mm"""


@message
def measure_before_cutting(dimensions: Word) -> None:
    """Measure the part before cutting: {dimensions}."""


@message
def legends(legends: Word) -> None:
    """Legends: {legends}"""


@message
def legend_at(text: Word, place: Word) -> None:
    """{text} ({place})"""


@message
def source(source: Word, standing: Word) -> None:
    """{source} ({standing})"""


@message
def standing_looked_up() -> None:
    """from this source"""


@message
def standing_typical() -> None:
    """typical, makers differ"""


@message
def standing_memory() -> None:
    """from memory"""


@message
def standing_given() -> None:
    """given"""


@message
def legend_of(text: Word, ref: Word) -> None:
    """“{text}” of {ref}"""


@message
def free_legend(text: Word) -> None:
    """“{text}”"""


@message
def legend_fixed(height: Word) -> None:
    """Cap height {height} mm; position set in the spec"""


@message
def legend_placed(height: Word, place: Word, proof: Word) -> None:
    """Cap height {height} mm · {place} · placement {proof}"""


@message
def heading_place() -> None:
    """Place"""


@message
def heading_cost() -> None:
    """Cost"""


@message
def heading_reason() -> None:
    """Reason"""


@message
def blocked_by(names: Word) -> None:
    """blocked by {names}"""


@message
def no_reason() -> None:
    """no cost"""


@counted("{count} more places; select {ref} to see all")
def places_more(count: Count, ref: Word) -> None:
    """{count} more place; select {ref} to see all"""


# --- findings


@counted("{count} errors")
def errors(count: Count) -> None:
    """{count} error"""


@counted("{count} warnings")
def warnings(count: Count) -> None:
    """{count} warning"""


@counted("{count} notes")
def notes(count: Count) -> None:
    """{count} note"""


@message
def waived(waived: Word) -> None:
    """{waived} waived"""


@message
def no_findings() -> None:
    """No findings"""


@message
def checked_without(names: Word) -> None:
    """Checked without {names}"""


@message
def error_number(number: Word) -> None:
    """error {number}"""


@message
def warning_number(number: Word) -> None:
    """warning {number}"""


@message
def note_number(number: Word) -> None:
    """note {number}"""


@message
def measured_minimum(measured: Word, limit: Word, source: Word) -> None:
    """measured {measured}; minimum {limit} ({source})"""


@message
def measured_maximum(measured: Word, limit: Word, source: Word) -> None:
    """measured {measured}; maximum {limit} ({source})"""


@message
def about_rule() -> None:
    """About this rule"""


@message
def fix(fix: Word) -> None:
    """Fix: {fix}"""


@message
def suggest_edit() -> None:
    """Suggest an edit"""


@message
def searching_edit() -> None:
    """Searching for an edit that fixes this finding …"""


@message
def no_edit() -> None:
    """No verified edit found for this finding"""


@message
def nudge_parts() -> None:
    """Clear findings by moving parts"""


@message
def searching_moves() -> None:
    """Searching for the smallest moves that clear the findings together …"""


@message
def no_moves() -> None:
    """No moves found that clear a finding"""


@message
def apply() -> None:
    """Apply"""


# --- measuring


@message
def select_two_features() -> None:
    """Select two features"""


@message
def measured_from(feature: Word) -> None:
    """From {feature} …"""


@message
def distance(start: Word, end: Word, distance: Word, x: Word, y: Word) -> None:
    """{start} → {end}: {distance} mm (x {x}, y {y})"""


@message
def corner_lower_left() -> None:
    """lower-left corner"""


@message
def corner_lower_right() -> None:
    """lower-right corner"""


@message
def corner_upper_left() -> None:
    """upper-left corner"""


@message
def corner_upper_right() -> None:
    """upper-right corner"""


@message
def datum() -> None:
    """datum"""


@message
def centre_of(ref: Word) -> None:
    """centre of {ref}"""


@message
def left_of(ref: Word) -> None:
    """left of {ref}"""


@message
def right_of(ref: Word) -> None:
    """right of {ref}"""


@message
def bottom_of(ref: Word) -> None:
    """bottom of {ref}"""


@message
def top_of(ref: Word) -> None:
    """top of {ref}"""


@message
def edge_left() -> None:
    """left edge"""


@message
def edge_right() -> None:
    """right edge"""


@message
def edge_bottom() -> None:
    """bottom edge"""


@message
def edge_top() -> None:
    """top edge"""


@message
def point() -> None:
    """point"""


# --- questions about a component list


@counted("{count} questions about {file}, {left} open")
def questions_left(count: Count, left: Word, file: Word) -> None:
    """{count} question about {file}, {left} open"""


@message
def questions_none(file: Word) -> None:
    """No questions about {file}"""


@message
def questions_done(file: Word) -> None:
    """All questions are answered. Answers are saved in {file}."""


@message
def questions_conflict() -> None:
    """Show both changes"""


@message
def question_open() -> None:
    """open"""


@message
def question_of(refs: Word) -> None:
    """Part for {refs}"""


@counted("rows {rows}")
def question_rows(count: Count, rows: Word) -> None:
    """row {rows}"""


@message
def question_numbers(numbers: Word) -> None:
    """order numbers {numbers}"""


@message
def question_scale(paper: Word, real: Word) -> None:
    """Part from the front and its hole, {paper}:{real}"""


@message
def question_answered(refs: Word, answer: Word, left: Word, file: Word) -> None:
    """{refs}: {answer}. Saved in {file}. Open questions: {left}"""


@message
def question_reopened(refs: Word) -> None:
    """{refs}: answer taken back"""


@message
def answer_none_of_these() -> None:
    """None of these: measure"""


@message
def answer_none_of_these_means() -> None:
    """Measure the part and name it in a part file of your own."""


@message
def answer_measure() -> None:
    """none of these, to be measured"""


@message
def answer_not_on_panel() -> None:
    """Not on the panel"""


@message
def answer_other() -> None:
    """Another part of the catalogue"""


@message
def answer_take_back() -> None:
    """Take the answer back"""


@message
def answer_not_saved() -> None:
    """Answer not saved"""


@message
def shortcut_question() -> None:
    """Go to the open question"""


@message
def shortcut_answer() -> None:
    """Answer the open question by the number of a candidate"""


@message
def shortcut_not_on_panel() -> None:
    """Answer the open question: not on the panel"""


@message
def arrange_again() -> None:
    """Arrange the panel again"""


@message
def arrange_again_means() -> None:
    """Parts get new positions and the panel a new size. Undo brings the old ones back."""


@counted("{count} errors with the parts in their old positions")
def arrange_for_errors(count: Count) -> None:
    """{count} error with the parts in their old positions"""
