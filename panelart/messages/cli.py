"""What the commands for one panel say: what was done, what was found, what stopped them."""

from panelart.messages import Count, Each, Listed, Number, Quoted, Thing, Word, counted, message


@message
def os_error(file: Word, reason: Word) -> None:
    """error: {file}: {reason}"""


@message
def os_error_without_file(reason: Word) -> None:
    """error: {reason}"""


# --- check and make


@message
def untranslated(where: Word, language: Word, text: Quoted) -> None:
    """{where}: note: no translation of {text} into {language}"""


@message
def no_spec_there(place: Word) -> None:
    """No spec in {place}"""


@message
def no_spec_among_files() -> None:
    """No spec among the files"""


@message
def passed_over(file: Word) -> None:
    """{file}: note: not a spec (parts, modules or settings); skipped"""


@message
def what_a_spec_begins_with() -> None:
    """Accepted: YAML files with a line 'panelart: 1'"""


@message
def of_one_spec() -> None:
    """Accepted with one spec only"""


@message
def written_to_one_folder(one: Word, other: Word, folder: Word) -> None:
    """{one} and {other} would both be written to {folder}"""


@message
def give_one_at_a_time() -> None:
    """Accepted: specs with names of their own; or one after the other, each with --out"""


@message
def ended_by_system(file: Word) -> None:
    """error: {file}: the operating system ended the process; probable cause: not enough memory"""


@message
def failed_inside(file: Word, error: Word) -> None:
    """error: {file}: internal error: {error}"""


@message
def working() -> None:
    """Specs"""


@counted("{count} specs: {results}")
def specs_done(count: Count, results: Listed) -> None:
    """{count} spec: {results}"""


@counted("{count} without errors")
def specs_clean(count: Count) -> None:
    """{count} without errors"""


@counted("{count} with errors")
def specs_with_errors(count: Count) -> None:
    """{count} with errors"""


@counted("{count} not read")
def specs_unread(count: Count) -> None:
    """{count} not read"""


@counted("{count} not written")
def specs_unwritten(count: Count) -> None:
    """{count} not written"""


@counted("{count} unchanged since the last run (--all includes them)")
def specs_unchanged(count: Count) -> None:
    """{count} unchanged since the last run (--all includes it)"""


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


@message
def set_of_one_state() -> None:
    """Each panel of the set is of one state"""


@message
def panel_without_files(panel: Quoted) -> None:
    """No file of the current state of panel {panel}"""


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
def out_of_range(value: Quoted) -> None:
    """{value} is not an accepted number"""


@message
def accepted_numbers(minimum: Number, maximum: Number) -> None:
    """Accepted: {minimum} to {maximum}."""


@message
def eyes_too_far_apart(value: Quoted) -> None:
    """{value} is not an accepted distance between the eyes"""


@message
def accepted_apart() -> None:
    """Accepted: 0 to 100 mm; 0 is one eye."""


@message
def not_a_range(value: Quoted) -> None:
    """{value} is not an accepted number or range"""


@message
def accepted_range() -> None:
    """Accepted: a number, or LOW..HIGH"""


@message
def hidden_ink(share: Word, what: Thing, eye: Word, by: Each) -> None:
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


# --- the catalogue, fonts, rules


@message
def form_exists(file: Word) -> None:
    """{file} exists, and may have been filled in"""


@message
def form_elsewhere() -> None:
    """Write the form to another file."""


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
def unknown_ref(name: Quoted) -> None:
    """No part has the ref {name}"""


@message
def parts() -> None:
    """parts"""


@message
def rules() -> None:
    """rules"""


@message
def listed_by(command: Word) -> None:
    """'{command}' lists all of them."""


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
    """{file} contains several panels; the page shows one panel only"""


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
    """Ctrl-C stops it"""


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


# --- files read back


@message
def disagrees(file: Word, says: Word) -> None:
    """{file}: {says}"""


@counted(
    "{count} differences between files and panel: a defect of this program. Nothing was written. Report it with the "
    "spec."
)
def our_defect(count: Count) -> None:
    """{count} difference between a file and the panel: a defect of this program. Nothing was written. Report it with
    the spec."""


@message
def read_back(files: Count, seconds: Number) -> None:
    """{files} files read back in {seconds} s: all agree with the panel"""
