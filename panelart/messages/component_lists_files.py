"""What is said of the file of a component list: its encoding and form, and why a file is no table."""

from panelart.messages import Count, Listed, Quoted, Word, message

# --- how it was read


@message
def text_form(encoding: Word, delimiter: Word) -> None:
    """{encoding}, {delimiter}"""


@message
def sheet_form(format: Word, sheet: Quoted) -> None:  # noqa: A002
    """{format}, sheet {sheet}"""


@message
def commas() -> None:
    """commas"""


@message
def semicolons() -> None:
    """semicolons"""


@message
def tabs() -> None:
    """tabs"""


@message
def bars() -> None:
    """bars"""


@message
def with_byte_order_mark(encoding: Word) -> None:
    """{encoding} with byte order mark"""


@message
def without_byte_order_mark(encoding: Word) -> None:
    """{encoding} without byte order mark"""


# --- why it was not


@message
def file_too_large(size: Count, maximum: Count) -> None:
    """File has {size} bytes; maximum {maximum}"""


@message
def unpacked_too_large(maximum: Count) -> None:
    """Unpacked table is too large; maximum {maximum} bytes"""


@message
def save_the_list_alone() -> None:
    """Save only the sheet with the component list."""


@message
def encoding_invalid(encoding: Word) -> None:
    """File is marked as {encoding} but is not valid {encoding}"""


@message
def save_as_utf_8() -> None:
    """Save the file as UTF-8."""


@message
def not_a_table() -> None:
    """File is neither text nor a table"""


@message
def archive_without_table() -> None:
    """Compressed file does not contain a table"""


@message
def accepted_formats(formats: Listed) -> None:
    """Accepted: {formats}"""


@message
def text_table_invalid(reason: Word) -> None:
    """Table cannot be read: {reason}"""


@message
def close_the_quotes() -> None:
    """Close every quotation mark."""


@message
def too_many_rows(maximum: Count) -> None:
    """Table has more than {maximum} rows"""


@message
def row_too_long(columns: Count, characters: Count) -> None:
    """Row is too long; maximum {columns} columns and {characters} characters in a cell"""


@message
def keep_components_only() -> None:
    """Save a table that holds the component list only."""


@message
def file_damaged() -> None:
    """File is damaged, or its compression is not supported"""


@message
def workbook_unreadable() -> None:
    """Workbook cannot be read"""


@message
def workbook_empty() -> None:
    """Workbook is empty"""


@message
def document_type_declared() -> None:
    """Table declares a document type"""


@message
def save_again() -> None:
    """Save the file again, or as .csv."""


@message
def add_a_header_row() -> None:
    """Add a sheet with a header row."""
