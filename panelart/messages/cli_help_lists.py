"""The help of commands for component lists and the catalogue: draft, arrange, parts, fonts."""

from panelart.messages import message


@message
def draft() -> None:
    """Write a first spec from a component list."""


@message
def draft_means() -> None:
    """The parts are placed and checked. What is not known stays in the spec as a question."""


@message
def draft_exit() -> None:
    """Exit code 1 if no part is known or there are findings at error level, 2 if the list cannot be read or the parts
    do not fit."""


@message
def component_list() -> None:
    """Component list (CSV, TSV, XLSX, XLS or ODS)."""


@message
def panel_size() -> None:
    """Panel size: 260x110, 260x or x110 with one side free, 3U, smallest."""


@message
def stock_sizes() -> None:
    """Panel sizes to choose from, such as 160x100,200x120; the smallest that fits is used."""


@message
def spec_file() -> None:
    """Output file, .yaml (default: the name of the list)."""


@message
def title() -> None:
    """Panel title."""


@message
def side() -> None:
    """Draft this side only (default: both as one spec with `panels:`, if the list has parts of both)."""


@message
def hand() -> None:
    """Keep the standards' spacing of controls for this hand."""


@message
def column() -> None:
    """What a column is, by its letter, number or heading: legend=F; may be repeated. Kept in the answers file."""


@message
def answers() -> None:
    """Answers to the questions of lists (YAML, or the workbook of --spreadsheet); may be repeated. Places of an earlier
    draft are kept."""


@message
def spreadsheet() -> None:
    """Write the questions as a workbook too (.xlsx), to be filled in there."""


@message
def view_questions() -> None:
    """Answer the questions in the browser, beside the panel. Answers are saved at once; a later run continues with
    them."""


@message
def left_out() -> None:
    """List the rows that are not on the panel, each with its reason."""


@message
def alternatives_written() -> None:
    """Number of arrangements to write, with a picture of all of them."""


@message
def force() -> None:
    """Overwrite an existing spec."""


@message
def arrange() -> None:
    """Place the parts that have no position (`at:`)."""


@message
def arrange_means() -> None:
    """The positions are written into the spec; nothing else in it changes. A part goes where its row and its like are.
    With --nudge, parts that have a position move too, to clear findings."""


@message
def arrange_exit() -> None:
    """Exit code 1 if the panel then has findings at error level, 2 if the parts do not fit."""


@message
def nudge() -> None:
    """Also move placed parts by the smallest moves that clear the findings of the panel together; `fixed: true` and
    parts on a board stay, rows and copies move as one."""


@message
def enlarge() -> None:
    """Enlarge the panel if the parts do not fit."""


@message
def alternatives_drawn() -> None:
    """Number of arrangements to draw side by side."""


@message
def dry_run() -> None:
    """Print the changes without making them."""


@message
def parts() -> None:
    """List, search, describe or draw catalogue parts."""


@message
def name_or_words() -> None:
    """Name of a part or knob, or words to search for."""


@message
def part_drawing() -> None:
    """Draw the named part, with --all the whole catalogue (.svg, .pdf or .png), or with --measure write a form (.pdf
    to fill in by hand, .yaml to fill in as a part file)."""


@message
def part_file() -> None:
    """Part file of your own to use instead of the catalogue."""


@message
def measure() -> None:
    """List the dimensions to measure before cutting: cutout figures of the spec's parts that are not from a data
    sheet."""


@message
def whole_catalogue() -> None:
    """With --out: draw the whole catalogue with knobs and symbols (.pdf or .svg)."""


@message
def symbols() -> None:
    """List symbols only; with the name of one, describe it and list its minimum heights."""


@message
def knobs() -> None:
    """List knobs only."""


@message
def fonts() -> None:
    """Measure fonts: heights, strokes, minimum cap heights."""


@message
def fonts_means() -> None:
    """Measured on the outlines; minimum cap heights for each marking process and for the viewing distance."""


@message
def font_names() -> None:
    """Fonts by name, or font files (default: all fonts of panelart)."""
