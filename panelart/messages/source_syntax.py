"""What is said of YAML that does not parse."""

from panelart.messages import Count, Quoted, Word, message


@message
def unexpected_colon() -> None:
    """Unexpected colon"""


@message
def quote_colon() -> None:
    """Put text with a colon and a space in quotes. Start all keys of a mapping in the same column."""


@message
def colon_before_bracket() -> None:
    """Colon directly before a bracket or comma"""


@message
def space_after_colon() -> None:
    """Put a space after the colon, or put text that ends with a colon in quotes."""


@message
def unexpected_item() -> None:
    """Unexpected list item"""


@message
def list_on_next_line() -> None:
    """Start a list on the line after its key. Put text that starts with '- ' in quotes."""


@message
def unclosed_quote() -> None:
    """The quote that opens here is not closed"""


@message
def unclosed_quote_at(line: Count, column: Count) -> None:
    """The quote that opens at {line}:{column} is not closed"""


@message
def same_quote() -> None:
    """Accepted: the same quote at the end of the text"""


@message
def unclosed_list() -> None:
    """The list that opens here is not closed"""


@message
def unclosed_list_at(line: Count, column: Count) -> None:
    """The list that opens at {line}:{column} is not closed"""


@message
def close_list() -> None:
    """Accepted: , or ] after each item"""


@message
def unclosed_mapping() -> None:
    """The mapping that opens here is not closed"""


@message
def unclosed_mapping_at(line: Count, column: Count) -> None:
    """The mapping that opens at {line}:{column} is not closed"""


@message
def close_mapping() -> None:
    """Accepted: , or }} after each value"""


@message
def missing_colon() -> None:
    """Line without a colon among keys"""


@message
def key_and_value() -> None:
    """Accepted: 'key: value'"""


@message
def unknown_escape() -> None:
    """Unknown escape sequence in double quotes"""


@message
def write_backslash() -> None:
    r"""Write \\ for a backslash, or put the text in single quotes."""


@message
def escaped_character() -> None:
    r"""Accepted: \u and four hexadecimal digits of a valid character"""


@message
def unquoted_start(character: Quoted) -> None:
    """Text without quotes starts with {character}"""


@message
def missing_value() -> None:
    """Missing value, or text without quotes that starts with a character reserved by YAML"""


@message
def quote_text() -> None:
    """Put the text in quotes."""


@message
def misaligned_item() -> None:
    """Line is neither an item of the list above nor a key of the mapping around it"""


@message
def align_items() -> None:
    """Start all items of a list in the same column, each with '- '."""


@message
def misaligned_key() -> None:
    """Line does not fit the mapping above it"""


@message
def align_keys() -> None:
    """Start all keys of a mapping in the same column; write one value per key."""


@message
def text_block_start() -> None:
    """Invalid start of a text block"""


@message
def new_line_after_sign() -> None:
    """Start a new line after | or >, or put text that starts with one of them in quotes."""


@message
def colour_read_as_comment() -> None:
    """A # after a space starts a comment, which hides the rest of this line"""


@message
def quote_colour(colour: Word) -> None:
    """Put the colour in quotes: "{colour}"."""


@message
def not_yaml(problem: Word) -> None:
    """Invalid YAML: {problem}"""


@message
def see_line_above() -> None:
    """Check this line and the line above it."""
