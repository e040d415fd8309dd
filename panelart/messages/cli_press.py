"""What the commands for printing say: beds, runs, test strips, shop files."""

from panelart.messages import Count, Listed, Mm, Quoted, Word, counted, message

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
    """Printing"""


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
def strip_without_ink(process: Word) -> None:
    """The test strip of {process} has no ink: it is paths of the cutters"""


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


@message
def unknown_process(name: Quoted) -> None:
    """Unknown process {name}"""
