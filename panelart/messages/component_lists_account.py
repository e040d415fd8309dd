"""What is said of where the rows of a component list ended."""

from panelart.messages import Count, Listed, Quoted, Word, counted, message


@counted("{count} rows: {ends}")
def rows(count: Count, ends: Listed) -> None:
    """{count} row: {ends}"""


@message
def rows_taken(count: Count) -> None:
    """{count} taken"""


@message
def rows_asked(count: Count) -> None:
    """{count} to be answered"""


@message
def rows_to_measure(count: Count) -> None:
    """{count} to be measured"""


@message
def rows_board(count: Count) -> None:
    """{count} of the board"""


@message
def rows_aside(count: Count) -> None:
    """{count} not on a panel"""


@message
def rows_unfitted(count: Count) -> None:
    """{count} not fitted"""


@message
def rows_repeated(count: Count) -> None:
    """{count} repeated"""


@message
def rows_refused(count: Count) -> None:
    """{count} refused"""


@message
def rows_no_part(count: Count) -> None:
    """{count} headings, totals and remarks"""


@message
def left_on_board(kinds: Listed) -> None:
    """Board parts omitted: {kinds}"""


@message
def set_aside(kinds: Listed) -> None:
    """Not on a panel: {kinds}"""


@message
def of_kind(kind: Word, count: Count) -> None:
    """{count} {kind}"""


@message
def by_words(words: Quoted) -> None:
    """named by {words}"""


@message
def says_unfitted(text: Quoted) -> None:
    """marked as not fitted: {text}"""


@message
def repeats_row(row: Count) -> None:
    """same refs as row {row}"""


@message
def no_words() -> None:
    """no words and no ref"""


@message
def quantity_below_zero(text: Quoted) -> None:
    """quantity {text}"""


@message
def answered_none() -> None:
    """rows answered: not on a panel"""


@message
def answered() -> None:
    """by the answers"""


@message
def row_left_out(row: Count, words: Quoted, kind: Word, why: Word) -> None:
    """row {row}: {words}: {kind}, {why}"""
