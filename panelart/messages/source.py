"""What is said of a file that cannot be read as YAML, and of what was found in it."""

from panelart.messages import Count, Listed, Quoted, Word, counted, message


@message
def under_key(key: Word, told: Word) -> None:
    """{key}: {told}"""


@message
def too_many_errors(count: Count) -> None:
    """Reading stopped after {count} errors"""


@message
def fix_these_first() -> None:
    """Fix these errors first."""


# --- what was found


@message
def found(found: Word) -> None:
    """Found {found}"""


@message
def nothing() -> None:
    """nothing"""


@message
def empty_list() -> None:
    """an empty list"""


@message
def short_list(items: Word) -> None:
    """the list [{items}]"""


@counted("a list of {count} items")
def long_list(count: Count) -> None:
    """a list of {count} item"""


@message
def empty_mapping() -> None:
    """an empty mapping"""


@message
def short_mapping(keys: Listed) -> None:
    """a mapping with {keys}"""


@message
def long_mapping(keys: Listed) -> None:
    """a mapping with {keys}, and more"""


# --- the file


@message
def file_empty() -> None:
    """The file is empty"""


@message
def keys_and_values() -> None:
    """Accepted: a mapping of keys and values"""


@message
def file_not_a_mapping(found: Word) -> None:
    """The file contains {found}"""


@message
def key_on_each_line() -> None:
    """Accepted: a mapping, with 'key: value' on each line"""


@message
def too_many_bytes(count: Count, maximum: Count) -> None:
    """The file has {count} bytes; maximum {maximum}"""


@message
def too_many_characters(count: Count, maximum: Count) -> None:
    """The file has {count} characters; maximum {maximum}"""


@message
def shorten_file() -> None:
    """Shorten the file."""


@message
def utf_16() -> None:
    """The file is encoded as UTF-16"""


@message
def not_utf_8(byte: Word) -> None:
    """Byte {byte} is not valid UTF-8"""


@message
def save_as_utf_8() -> None:
    """Save the file with the encoding UTF-8."""


@message
def unprintable(character: Word) -> None:
    """Unprintable character {character}"""


@message
def printable_text() -> None:
    """Accepted: printable Unicode text and standard line ends"""


@message
def tab() -> None:
    """This line has a tab"""


@counted("This line has a tab, and so have {count} more lines")
def tabs(count: Count) -> None:
    """This line has a tab, and so has {count} more line"""


@message
def indent_with_spaces() -> None:
    """Use spaces; YAML does not allow tabs for indentation."""


# --- documents, keys, aliases and tags


@message
def second_document() -> None:
    """Second document in the file"""


@message
def text_after_document() -> None:
    """Text after the end of the document"""


@message
def one_document() -> None:
    """Accepted: one document per file"""


@message
def unsupported_version() -> None:
    """Unsupported YAML version"""


@message
def remove_version() -> None:
    """Remove the %YAML line."""


@message
def key_not_text(found: Word) -> None:
    """Found {found} as a key"""


@message
def text_before_colon() -> None:
    """Accepted: text before the colon"""


@message
def duplicate_key(key: Quoted, line: Count, column: Count) -> None:
    """Duplicate key {key}; the first is at {line}:{column}"""


@message
def each_key_once() -> None:
    """Accepted: each key once"""


@message
def merge_key() -> None:
    """The merge key '<<' is not supported"""


@message
def write_keys_out() -> None:
    """Write out every key, or use an alias for the whole value: 'key: *name'."""


@message
def alias_inside_anchor(alias: Quoted, anchor: Quoted) -> None:
    """Alias {alias} is inside the value of its anchor {anchor}"""


@message
def alias_after_anchor() -> None:
    """Accepted: an alias after the value of its anchor"""


@message
def alias_without_anchor(alias: Quoted, anchor: Quoted) -> None:
    """Alias {alias} has no anchor {anchor} before it"""


@message
def quote_asterisk() -> None:
    """Put text that starts with * in quotes."""


@message
def nameless_anchor() -> None:
    """Anchor or alias without a name"""


@message
def quote_anchor() -> None:
    """Put text that starts with & or * in quotes."""


@message
def unsupported_tag(tag: Quoted) -> None:
    """Tag {tag} is not supported"""


@message
def unreadable_tag() -> None:
    """Text starts with a YAML tag, which is not supported"""


@message
def remove_tag() -> None:
    """Remove the tag, or put text that starts with ! in quotes."""


@message
def too_many_values(maximum: Count) -> None:
    """Too many values, with aliases expanded; maximum {maximum}"""


@message
def fewer_values() -> None:
    """Reduce the number of values and aliases."""


@message
def nested_too_deep(maximum: Count) -> None:
    """Lists and mappings are nested too deep; maximum {maximum} levels"""


@message
def fewer_levels() -> None:
    """Reduce the nesting."""
