"""What is said of an edit that is not made in the text of a spec."""

from panelart.messages import Count, Quoted, Word, counted, message


@message
def the_spec() -> None:
    """The spec"""


@message
def value_is_alias(path: Word, alias: Word) -> None:
    """{path} is the alias *{alias}, whose value is written elsewhere"""


@message
def change_at_anchor(anchor: Word) -> None:
    """Change the value at the anchor &{anchor}, or write the value out here."""


@message
def value_is_shared(path: Word, anchor: Word) -> None:
    """{path} has the anchor &{anchor} and is used elsewhere as *{anchor}"""


@message
def write_value_out() -> None:
    """Write the value out where it must differ."""


@counted("{owner} has {count} items and no item {number}")
def no_item(owner: Word, count: Count, number: Count) -> None:
    """{owner} has {count} item and no item {number}"""


@message
def items_from_zero() -> None:
    """Item numbers start at 0."""


@message
def no_key(owner: Word, key: Quoted) -> None:
    """{owner} has no key {key}"""


@message
def keys() -> None:
    """keys"""


@message
def key_exists(owner: Word, key: Quoted) -> None:
    """{owner} already has the key {key}"""


@message
def not_a_list(owner: Word) -> None:
    """{owner} is not a list"""


@message
def path_of_list() -> None:
    """Accepted: the path of a list"""


@message
def path_of_item() -> None:
    """Accepted: the path of a list item, such as parts[3]"""


@message
def not_a_mapping(owner: Word) -> None:
    """{owner} is not a mapping"""


@message
def path_of_mapping() -> None:
    """Accepted: the path of a mapping"""


@message
def path_of_value() -> None:
    """Accepted: the path of a key or a list item"""


@message
def whole_spec_set() -> None:
    """The whole spec cannot be replaced"""


@message
def whole_spec_removed() -> None:
    """The whole spec cannot be removed"""


@message
def only_key_removed() -> None:
    """The only key of the spec cannot be removed"""


@message
def only_items_duplicated() -> None:
    """Only list items can be duplicated"""


@message
def anchor_duplicated(path: Word) -> None:
    """{path} has an anchor and cannot be duplicated"""


@message
def copy_in_editor() -> None:
    """Copy it in an editor."""


@message
def question_mark_key() -> None:
    """A key marked with ? cannot be edited in place"""


@message
def key_and_value() -> None:
    """Accepted: 'key: value'"""


@message
def edit_unreadable(why: Word) -> None:
    """The edit would make the text unreadable: {why}"""


@message
def edit_changes_neighbour() -> None:
    """The edit would change a neighbouring value"""


@message
def change_in_editor() -> None:
    """Make the change in an editor."""


@message
def not_finite(value: Word) -> None:
    """{value} is not a finite number"""


@message
def key_length(maximum: Count) -> None:
    """A key must have 1 to {maximum} characters"""


@message
def writable_values() -> None:
    """Accepted: text, numbers, true, false, lists and mappings"""
