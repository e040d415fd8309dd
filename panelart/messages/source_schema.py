"""What is said of values that are not what a key accepts, and what each kind accepts."""

from panelart.messages import Complete, Count, Each, Either, InUnit, Listed, Number, Quoted, Word, counted, message

# --- what is accepted


@message
def accepted(accepts: Word) -> None:
    """Accepted: {accepts}"""


@message
def accepted_key(key: Word, accepts: Word) -> None:
    """Accepted: {key}: {accepts}"""


@message
def accepted_list(names: Listed) -> None:
    """Accepted: [{names}]"""


@message
def or_else(first: Word, last: Word) -> None:
    """{first}; or {last}"""


@message
def text() -> None:
    """text"""


@message
def text_on_one_line() -> None:
    """text on one line"""


@counted("text on up to {count} lines")
def text_on_lines(count: Count) -> None:
    """text on up to {count} line"""


@message
def a_number() -> None:
    """a number"""


@message
def a_length() -> None:
    """a length in mm or with a unit (0.5 in, 20 thou, 9 pt, 2U, 14HP)"""


@message
def an_angle() -> None:
    """an angle in degrees"""


@message
def within(what: Word, limits: Listed) -> None:
    """{what}, {limits}"""


@message
def value_range(minimum: Number, maximum: InUnit) -> None:
    """{minimum} to {maximum}"""


@message
def minimum(limit: InUnit) -> None:
    """minimum {limit}"""


@message
def maximum(limit: InUnit) -> None:
    """maximum {limit}"""


@message
def more_than(limit: InUnit) -> None:
    """more than {limit}"""


@message
def less_than(limit: InUnit) -> None:
    """less than {limit}"""


@message
def exact_number(number: Count) -> None:
    """{number}"""


@message
def whole_number(minimum: Count, maximum: Count) -> None:
    """a whole number from {minimum} to {maximum}"""


@message
def true_or_false() -> None:
    """true or false"""


@message
def words(words: Either) -> None:
    """{words}"""


@message
def many_words(number: Count, what: Word) -> None:
    """one of {number} {what}"""


@message
def a_colour() -> None:
    """a colour "#RRGGBB" in quotes, red, green and blue in hexadecimal digits"""


@message
def numbers_in_order(names: Listed, accepts: Word) -> None:
    """[{names}], {accepts}"""


@message
def a_list(what: Word) -> None:
    """a list of {what}"""


@message
def a_mapping(what: Word) -> None:
    """a mapping of {what}"""


@message
def a_mapping_with(keys: Listed) -> None:
    """a mapping with {keys}"""


@message
def a_mapping_with_required(keys: Listed, required: Each) -> None:
    """a mapping with {keys}; required: {required}"""


# --- texts and numbers


@message
def no_value() -> None:
    """No value"""


@message
def no_value_before_comment() -> None:
    """No value: in YAML, # after a space starts a comment"""


@message
def quote_brace(accepts: Word) -> None:
    """Accepted: {accepts}. Put text that starts with a brace in quotes."""


@message
def blank_text() -> None:
    """Found text without visible characters"""


@message
def text_with_tab(text: Quoted) -> None:
    """Found {text}, which has a tab"""


@counted("Found {text}, which has {count} lines")
def text_of_lines(text: Quoted, count: Count) -> None:
    """Found {text}, which has {count} line"""


@message
def text_too_long(count: Count, maximum: Count) -> None:
    """Found text of {count} characters; maximum {maximum}"""


@message
def shorten_text() -> None:
    """Shorten the text."""


@message
def decimal_point(number: Word) -> None:
    """Write {number} with a decimal point."""


@message
def number_in_quotes(found: Word) -> None:
    """Found {found} in quotes, which is text"""


@message
def remove_quotes(accepts: Word) -> None:
    """Accepted: {accepts}. Remove the quotes."""


# --- lists and mappings


@message
def numbers_missing(found: Word, names: Listed) -> None:
    """Found {found} in place of [{names}]"""


@counted("Found {found}, which has {count} values; accepted number of values: {needed}")
def wrong_number_of_values(found: Word, count: Count, needed: Count) -> None:
    """Found {found}, which has {count} value; accepted number of values: {needed}"""


@message
def not_a_list(found: Word) -> None:
    """Found {found} in place of a list"""


@message
def not_a_mapping(found: Word) -> None:
    """Found {found} in place of a mapping"""


@counted("Accepted: {accepts}, minimum {count} items")
def list_minimum(accepts: Word, count: Count) -> None:
    """Accepted: {accepts}, minimum {count} item"""


@counted("Accepted: {accepts}, maximum {count} items")
def list_maximum(accepts: Word, count: Count) -> None:
    """Accepted: {accepts}, maximum {count} item"""


@counted("Accepted: {accepts}, {minimum} to {count} items")
def list_range(accepts: Word, minimum: Count, count: Count) -> None:
    """Accepted: {accepts}, {minimum} to {count} item"""


@counted("Accepted: {accepts}, with {count} items")
def list_exact(accepts: Word, count: Count) -> None:
    """Accepted: {accepts}, with {count} item"""


@message
def unknown_key(key: Quoted, noun: Word) -> None:
    """Unknown key {key} in {noun}"""


@message
def keys_of(noun: Word, names: Complete) -> None:
    """Keys of {noun}: {names}"""


@message
def quote_comma(hint: Word) -> None:
    """{hint} Inside braces, put text with a comma in quotes."""


@message
def write_inside(value: Word) -> None:
    """Write {value}."""


@message
def quote_comma_or(names: Listed, noun: Word) -> None:
    """Accepted keys of {noun}: {names}. Inside braces, put text with a comma in quotes."""


@message
def required_key(key: Quoted, noun: Word) -> None:
    """Required key {key} is missing in {noun}"""
