"""The help of commands for one panel: check, make, view, compare, outdated, sightlines, bill of materials, papers."""

from panelart.messages import message

# --- check


@message
def check() -> None:
    """Check a panel and report the findings."""


@message
def baseline() -> None:
    """Baseline file; findings listed in it are counted separately and do not fail the check."""


@message
def write_baseline() -> None:
    """Write all present findings to a baseline file and exit."""


@message
def date_of_waivers() -> None:
    """Date for the expiry of waivers (default: today)."""


@message
def explain() -> None:
    """Print every place considered for the legends of this part, with its cost, instead of the findings."""


@message
def explain_out() -> None:
    """With --explain: draw the places (.svg, .pdf or .png)."""


@message
def suggest() -> None:
    """Suggest edits of the spec that fix a finding (each is tested)."""


@message
def components() -> None:
    """Also compare the panel with a component list; exit code 1 if it differs."""


@message
def components_side() -> None:
    """With --components: compare with the parts listed for this side (default: the side with more matching refs)."""


@message
def components_answers() -> None:
    """With --components: answers to the questions of the list, as written by `draft`; may be repeated."""


# --- make


@message
def make() -> None:
    """Write all files of a panel: artwork, cut layer, documents."""


@message
def make_all_or_none() -> None:
    """Writes all files or none. A spec with several panels gives a folder for each, and lists for the set."""


@message
def read_back() -> None:
    """Read every file back before it is written, with other readers, and compare it with the panel; about as long again
    as making the files. Nothing is written if one differs."""


@message
def rear_view() -> None:
    """Also write the cut layer in rear view."""


@message
def only() -> None:
    """Write only these files, by name: cutouts.dxf, proof (in all its formats), mask (of both sides)."""


@message
def save_placement() -> None:
    """Save the places of the legends in SPEC's .placement.json; later runs keep to them where possible."""


@message
def language() -> None:
    """Language of the legends, from the spec's `languages`; all: every language in a folder of its own."""


# --- view


@message
def view() -> None:
    """Show and edit a panel in the browser."""


@message
def view_runs() -> None:
    """The page follows the file and explains findings. It gives access to this spec only. Stop with Ctrl-C."""


@message
def port() -> None:
    """Port (default: the first free one from 8747)."""


@message
def bind() -> None:
    """Address to listen on."""


@message
def lan() -> None:
    """With --bind: allow access from other computers on the network, unencrypted."""


@message
def open_page() -> None:
    """Open the page in the browser."""


# --- compare


@message
def compare() -> None:
    """Compare two specs: geometry, legends, findings."""


@message
def exit_1_for_differences() -> None:
    """Exit code 1 if they differ."""


@message
def old_spec() -> None:
    """Spec of the old state."""


@message
def new_spec() -> None:
    """Spec of the new state."""


@message
def overlay() -> None:
    """Output file with both panels drawn over each other (.svg, .pdf or .png)."""


# --- outdated


@message
def outdated() -> None:
    """List files that were not made from one state of one spec."""


@message
def outdated_means() -> None:
    """Each file carries the fingerprint of its spec; in a set each panel has its own. Exit code 1 if files of a panel
    differ, 2 if no file carries one."""


@message
def made_folder() -> None:
    """Folder with the files written by panelart."""


@message
def current_spec() -> None:
    """Also compare with the current state of this spec."""


# --- sightlines


@message
def sightlines() -> None:
    """Report legends hidden from the operator's eye."""


@message
def sightlines_means() -> None:
    """Knobs, levers, bezels and plugs hide them. The eye position is that of the options or of `operator.eye`."""


@message
def eye_height() -> None:
    """Eye height above the centre of the panel, in mm; a range for seated to standing."""


@message
def eye_aside() -> None:
    """Eye position to the right of the centre of the panel, in mm."""


@message
def eye_distance() -> None:
    """Horizontal distance from the eye to the centre of the panel, in mm."""


@message
def eyes_apart() -> None:
    """Distance between the two eyes, in mm; 0 for one eye (default 63)."""


@message
def lean() -> None:
    """Backward lean of the panel, in degrees."""


# --- legibility


@message
def legibility() -> None:
    """Report legends that a reader is likely to misread."""


@message
def legibility_means() -> None:
    """For the eyesight and light of the options or of `operator.sight`. Without an eye position: straight in front."""


@message
def acuity() -> None:
    """Decimal visual acuity of the reader, 0.05 to 3; 1 is 20/20 (default 0.7)."""


@message
def age() -> None:
    """Age of the reader in years (default 60)."""


@message
def illuminance() -> None:
    """Illuminance on the panel in lux (default 500)."""


@message
def legibility_sheet() -> None:
    """Output file of the panel as seen, with the words likely to be misread (.svg, .pdf or .png)."""


# --- bill of materials, drill template, inspection


@message
def bom() -> None:
    """Print or write the bill of materials."""


@message
def bom_means() -> None:
    """Parts, knobs, hardware, fasteners, legend plates and sheet, with quantities and refs."""


@message
def drill_template() -> None:
    """Write a drill template at 1:1 on office paper."""


@message
def drill_template_means() -> None:
    """Openings at cut size with centre crosses, on tiles with alignment marks."""


@message
def template_file() -> None:
    """Output file, .pdf (default: the name of the spec)."""


@message
def paper() -> None:
    """Paper size."""


@message
def drilled_side() -> None:
    """Side that the panel is drilled from."""


@message
def inspect() -> None:
    """Evaluate measured sizes against their limits."""


@message
def inspect_means() -> None:
    """Reports values out of limits; Cp and Cpk for several pieces. Exit code 1 if a value is out of limits."""


@message
def measured_sizes() -> None:
    """Measured sizes: inspection.csv with the column measured_mm filled in."""


@message
def prove() -> None:
    """Part file of your own in which the parts that the inspection proves are marked: every hole measured, in its
    limits, and the part fitted. Needs --by and --fitted."""


@message
def proved_by() -> None:
    """With --prove: who cut and fitted the parts."""


@message
def fitted() -> None:
    """With --prove: the parts that were fitted and fit: refs with commas between them, or all."""


@message
def date_of_proof() -> None:
    """With --prove: the day (default today)."""


# --- rules, schema


@message
def schema() -> None:
    """Print the JSON Schema of the spec, for editors."""


@message
def schema_markdown() -> None:
    """Print the reference of all keys in Markdown instead."""


@message
def schema_modules() -> None:
    """Print the JSON Schema of module files instead."""


@message
def rules() -> None:
    """List the rules, or print the page of one rule."""


@message
def rule() -> None:
    """Rule whose page is printed."""


@message
def rules_markdown() -> None:
    """Print the pages of all rules and all limits in Markdown."""
