"""What the sheet and the workbook of the questions about a component list say."""

from panelart.messages import Count, Listed, Quoted, Word, message


@message
def title() -> None:
    """Questions about the component list"""


@message
def how_to(file: Word) -> None:
    """In {file}, write after part: the number of a part below, the name of any part, or none for what is not on the
    panel."""


@message
def how_to_print() -> None:
    """Print at 100 %. Compare the part in hand with holes drawn 1:1. Measure it before cutting."""


@message
def goes_on(number: Count) -> None:
    """{number}, continued"""


@message
def in_rows(rows: Listed) -> None:
    """rows {rows}"""


@message
def words(words: Quoted) -> None:
    """{words}"""


@message
def order_numbers(numbers: Listed) -> None:
    """Order numbers: {numbers}"""


@message
def part_seen(paper: Count, real: Count) -> None:
    """Part from the front, {paper}:{real}"""


@message
def its_hole(paper: Count, real: Count) -> None:
    """Hole, finished size, {paper}:{real}"""


@message
def agrees(words: Listed) -> None:
    """For: {words}"""


@message
def differs(words: Listed) -> None:
    """Against: {words}"""


@message
def unsaid(words: Listed) -> None:
    """Not in the list: {words}"""


@message
def no_opening() -> None:
    """No hole of its own"""


@message
def none_of_these() -> None:
    """None of these: measure the part and name it in a part file of your own."""


@message
def not_on_panel() -> None:
    """Not on the panel: write none."""


@message
def foot(made_by: Word, file: Word) -> None:
    """{made_by} · {file}"""


# --- the workbook


@message
def fill_in() -> None:
    """Write x in the answer column of the right part, or the name of another part. Then run panelart draft with
    --answers and this file."""


@message
def none_row() -> None:
    """Not on the panel"""


@message
def sheet_of_questions() -> None:
    """Questions"""


@message
def sheet_of_rows() -> None:
    """Rows asked about"""


@message
def head_refs() -> None:
    """refs"""


@message
def head_rows() -> None:
    """words of the rows"""


@message
def head_title() -> None:
    """title"""


@message
def head_hole() -> None:
    """hole"""


@message
def head_for() -> None:
    """for"""


@message
def head_against() -> None:
    """against"""


@message
def head_picture() -> None:
    """picture"""
