"""What the commands say: what was done, what was found, what stopped them."""

from panelart.messages import Count, Each, Listed, Mm, Quoted, SizeMm, Word, counted, message


@message
def interrupted() -> None:
    """Interrupted"""


@message
def os_error(file: Word, reason: Word) -> None:
    """error: {file}: {reason}"""


@message
def os_error_without_file(reason: Word) -> None:
    """error: {reason}"""


@message
def no_such_file() -> None:
    """No such file"""


# --- check and make


@message
def baseline_unreadable(reason: Word) -> None:
    """The baseline cannot be read: {reason}"""


@message
def accepted_baseline() -> None:
    """Accepted: a file written by 'panelart check SPEC --write-baseline FILE'"""


@message
def not_text() -> None:
    """not UTF-8 text"""


@message
def untranslated(where: Word, language: Word, text: Quoted) -> None:
    """{where}: note: no translation of {text} into {language}"""


@message
def panel_heading(name: Word, title: Word) -> None:
    """{name}: {title}"""


@counted("{count} files written to {folder}")
def files_written(count: Count, folder: Word) -> None:
    """{count} file written to {folder}"""


@message
def placement_saved(file: Word) -> None:
    """Placement saved in {file}"""


@message
def refs() -> None:
    """refs"""


@message
def out_only_with_explain() -> None:
    """Accepted with --explain only; the files of the panel are written by 'panelart make'"""


@message
def no_suggestions() -> None:
    """No suggestions: none of the edits tested fixes a finding without causing another"""


@counted("{count} suggestions; each was tested: it fixes its finding and causes no other")
def suggestions(count: Count) -> None:
    """{count} suggestion; it was tested: it fixes its finding and causes no other"""


@message
def suggestion(number: Count, rule: Word, edit: Word) -> None:
    """no. {number}, {rule}: {edit}"""


@message
def suggested_edit(where: Word, old: Word, new: Word) -> None:
    """{where}: {old} -> {new}"""


@counted("{file}: {count} differences from the component list")
def list_differs(count: Count, file: Word) -> None:
    """{file}: {count} difference from the component list"""


@counted("{file}: all {count} parts are as listed")
def list_agrees(count: Count, file: Word) -> None:
    """{file}: the one part is as listed"""


# --- bill of materials


@message
def bom_item(part: Word, title: Word) -> None:
    """{part}: {title}"""


@message
def bom_quantity(quantity: Count) -> None:
    """Quantities are for one panel; {quantity} panels are made"""


# --- draft and arrange


@message
def spec_exists(file: Quoted) -> None:
    """{file} exists"""


@message
def overwrite_hint() -> None:
    """Overwrite it with --force."""


@message
def list_unreadable(reason: Word) -> None:
    """The component list cannot be read: {reason}"""


@message
def spec_unreadable(reason: Word) -> None:
    """The spec cannot be read: {reason}"""


@message
def table_unreadable(reason: Word) -> None:
    """The table cannot be read: {reason}"""


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
def header_read_as(written: Quoted, column: Word) -> None:
    """Column {written} is read as {column}"""


@message
def headers_unused(columns: Listed) -> None:
    """Columns not used: {columns}"""


@message
def nothing_to_arrange(side: Word) -> None:
    """No part of the {side} is known; nothing to arrange"""


@message
def all_placed(file: Word) -> None:
    """{file}: every part has a position; delete an `at:` to have that part placed"""


@message
def arrangement(number: Count, size: SizeMm) -> None:
    """{number}: {size}"""


@message
def arrangements(title: Word) -> None:
    """{title}: arrangements"""


@message
def draft_title(name: Word, side: Word) -> None:
    """{name}, {side}"""


@counted("{count} parts on {size}; {findings}")
def arranged(count: Count, size: SizeMm, findings: Listed) -> None:
    """{count} part on {size}; {findings}"""


@counted("{count} parts left in the spec as questions")
def questions(count: Count) -> None:
    """{count} part left in the spec as a question"""


# --- inspect


@message
def measured_unreadable(file: Word, reason: Word) -> None:
    """{file} cannot be read: {reason}"""


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
def piece_value(piece: Word, value: Word) -> None:
    """piece {piece} {value}"""


@message
def limit_open() -> None:
    """open"""


@message
def inspected(values: Word, out: Count, missing: Count, sizes: Count) -> None:
    """{values}, {out} out of limits; {missing} of {sizes} sizes not measured"""


@counted("{count} values")
def values(count: Count) -> None:
    """{count} value"""


@message
def not_measured(sizes: Listed) -> None:
    """not measured: {sizes}"""


# --- outdated


@message
def no_state(folder: Word) -> None:
    """No file in {folder} states what it was made from"""


@counted("{state}: {count} files")
def state_files(count: Count, state: Word) -> None:
    """{state}: {count} file"""


@counted("{state} (not the current spec): {count} files")
def state_files_outdated(count: Count, state: Word) -> None:
    """{state} (not the current spec): {count} file"""


@counted("{count} files without a state")
def files_without_state(count: Count) -> None:
    """{count} file without a state"""


@message
def states_mixed() -> None:
    """The files are mixed: made from different states. Run 'panelart make' into an empty folder."""


# --- sightlines


@message
def no_eye() -> None:
    """The spec does not state the eye position"""


@message
def give_height() -> None:
    """Give the eye height with --height."""


@message
def eye_behind_face() -> None:
    """The eye is not in front of the face"""


@message
def not_a_range(value: Quoted) -> None:
    """{value} is not an accepted number or range"""


@message
def accepted_range() -> None:
    """Accepted: a number, or LOW..HIGH"""


@message
def hidden_ink(share: Word, what: Word, eye: Word, by: Each) -> None:
    """{share}  {what}: from {eye}, by {by}"""


@message
def eye_anywhere() -> None:
    """every eye position in the range"""


@message
def all_visible(clear: Count, total: Count, eye: Word) -> None:
    """{clear} of {total} legends and marks are fully visible from {eye}"""


# --- drill template


@counted("{count} pages of {paper}; print at 100 %, then measure the bar")
def template_written(count: Count, paper: Word) -> None:
    """{count} page of {paper}; print at 100 %, then measure the bar"""


# --- bed and register


@message
def quantity_unknown(value: Quoted) -> None:
    """{value} is not a number of pieces"""


@message
def quantity_count(count: Count, panels: Count) -> None:
    """{count} numbers for {panels} panels"""


@message
def accepted_quantity() -> None:
    """Accepted: one whole number for all panels, or one for each, separated by commas; minimum 1"""


@message
def note_line(remark: Word) -> None:
    """note: {remark}"""


@message
def errors_on_panel(spec: Word) -> None:
    """{spec}: findings at error level; run 'panelart check {spec}'"""


@message
def printing() -> None:
    """printing"""


@counted("{count} of {total} loads were complete and are kept")
def loads_kept(count: Count, total: Count) -> None:
    """{count} of {total} loads was complete and is kept"""


@message
def rows_of_one_panel() -> None:
    """Accepted with one panel only: each row is a piece of it"""


@counted("The table has {count} rows, one for each piece")
def quantity_of_rows(count: Count) -> None:
    """The table has {count} row, one for each piece"""


@message
def widest_value(spec: Word, variable: Word, value: Quoted, place: Word) -> None:
    """{spec}: checked with the widest value of {variable}, {value} ({place})"""


@message
def nothing_printed() -> None:
    """Nothing was written: the panel has findings at error level"""


# --- test strip and shop file


@message
def processes() -> None:
    """processes"""


@message
def not_a_colour(value: Quoted) -> None:
    """{value} is not a colour"""


@message
def accepted_colour() -> None:
    """Accepted: #RRGGBB, such as #101214"""


@message
def strip_without_task() -> None:
    """Nothing to do"""


@message
def strip_tasks() -> None:
    """Give --out FILE to draw the strip, or --limits and --shop to save limits read from it."""


@message
def not_a_limit(value: Quoted) -> None:
    """{value} is not a limit"""


@message
def accepted_limits(names: Listed, maximum: Mm) -> None:
    """Accepted: {names}, each with =VALUE in mm, maximum {maximum}"""


@message
def limit_saved(process: Word, limit: Word, value: Mm, reason: Word, common: Mm) -> None:
    """{process} {limit}: {value}, {reason}; common practice {common}"""


@message
def strip_reason() -> None:
    """read from a test strip"""


# --- the catalogue, fonts, rules


@message
def no_match(words: Quoted) -> None:
    """No part, knob or symbol matches {words}"""


@message
def unknown_part(name: Quoted) -> None:
    """Unknown part {name}"""


@message
def unknown_rule(name: Quoted) -> None:
    """Unknown rule {name}"""


@message
def unknown_process(name: Quoted) -> None:
    """Unknown process {name}"""


@message
def unknown_ref(name: Quoted) -> None:
    """No part has the ref {name}"""


@message
def parts() -> None:
    """parts"""


@message
def rules() -> None:
    """rules"""


@message
def no_part_named() -> None:
    """No part is named"""


@message
def part_to_draw() -> None:
    """Name the part to draw, or give --all."""


# --- view


@message
def not_a_file(file: Word) -> None:
    """{file} is not a file"""


@message
def accepted_spec() -> None:
    """Accepted: the YAML file of a panel"""


@message
def several_panels(file: Word) -> None:
    """{file} holds several panels; the page shows specs of one panel"""


@message
def draw_with_make() -> None:
    """Draw each panel with 'panelart make'."""


@message
def cannot_listen(address: Word, reason: Word) -> None:
    """error: Cannot listen on {address}: {reason}"""


@message
def page_address(spec: Word, address: Word) -> None:
    """{spec}: {address}"""


@message
def page_address_read_only(address: Word) -> None:
    """read only: {address}"""


@message
def stop_with() -> None:
    """Stop with Ctrl-C"""


@message
def not_an_address(value: Quoted) -> None:
    """{value} is not an IP address"""


@message
def address_unspecified() -> None:
    """The page answers on one address only"""


@message
def give_one_address() -> None:
    """Give the one address that other computers use."""


@message
def address_of_network() -> None:
    """Other computers on the network could read and change the panel"""


@message
def give_lan() -> None:
    """Give --lan to allow this."""


@message
def page_on_network() -> None:
    """warning: the page is on the network, unencrypted; anyone with one of the addresses below can use it"""
