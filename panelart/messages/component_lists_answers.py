"""What is said in a file of answers to the questions of a component list, and of one that cannot be read."""

from panelart.messages import Count, Listed, Quoted, Word, counted, message


@message
def answers_to(file: Word) -> None:
    """Questions on {file}. Answer here, then run panelart draft with --answers and this file."""


@message
def kept_from(file: Word) -> None:
    """Columns of {file}, for lists with the same headings: run panelart draft with --answers and this file."""


@message
def how_to_answer() -> None:
    """Write after part: a number below, the name of any part, none for what is not on the panel, or "?" while open."""


@message
def room_kept() -> None:
    """Positions kept for parts with open questions, by spec"""


@message
def question_of(number: Count, refs: Listed, rows: Listed) -> None:
    """{number}: {refs} (rows {rows})"""


@message
def numbered(number: Count, part: Word, title: Word) -> None:
    """{number}  {part}: {title}"""


@message
def none_of_these(number: Count) -> None:
    """{number}  None of these: measure the part and name it in a part file of your own."""


@message
def left_out_row(row: Count, words: Quoted, why: Word) -> None:
    """row {row}: {words}: {why}"""


@message
def unknown_part(name: Quoted) -> None:
    """Unknown part {name}"""


@message
def parts_or_none() -> None:
    """names of parts, none, measure, ?"""


@message
def unknown_number(number: Quoted) -> None:
    """Unknown candidate {number}"""


@message
def numbers_accepted(last: Count) -> None:
    """Accepted: 1 to {last}, the name of a part, none, ?"""


@message
def no_answer_book() -> None:
    """No questions in this workbook"""


@message
def answer_books() -> None:
    """Accepted: a workbook written by panelart draft --spreadsheet, saved as XLSX, ODS or XLS."""


@message
def answered_twice(number: Word) -> None:
    """Question {number} has different answers"""


@message
def answer_once() -> None:
    """Mark one row of a question."""


@message
def absent_because(title: Word, why: Word, instead: Word) -> None:
    """Not in the catalogue: {title}. {why} {instead}"""


@message
def not_in_catalogue() -> None:
    """No part of the catalogue agrees with these words"""


@message
def columns_shown(rows: Listed) -> None:
    """Columns, with rows {rows}:"""


@message
def column_unused() -> None:
    """not used"""


@message
def columns_remembered(columns: Listed, file: Word) -> None:
    """Columns kept for these headings in {file}: {columns}"""


@message
def columns_kept(file: Word) -> None:
    """{file}: columns kept for lists with these headings"""


@message
def columns_without_headings() -> None:
    """Columns not kept: the list has no headings"""


@message
def answers_kept(file: Word) -> None:
    """{file} has answers and is kept; add --answers {file} to use it"""


@counted("{file}: {count} questions with pictures and hole sizes")
def questions_left(file: Word, count: Count) -> None:
    """{file}: {count} question with pictures and hole sizes"""


@message
def column_unreadable(text: Quoted) -> None:
    """{text} names no column; write for example legend=F, legend=6 or legend=Text"""


@message
def column_not_found(role: Word, column: Quoted) -> None:
    """No column {column} for {role}"""


@message
def columns_of_list(heads: Listed) -> None:
    """Columns of the list: {heads}; or their letters or numbers."""


@message
def sheets_left_out(sheets: Listed) -> None:
    """Sheets not read: {sheets}"""


@counted("{file}: {count} questions to answer")
def answer_in(file: Word, count: Count) -> None:
    """{file}: {count} question to answer"""
