"""What is said of names that are not known."""

from panelart.messages import Listed, Quoted, Word, message


@message
def did_you_mean(name: Quoted) -> None:
    """Did you mean {name}?"""


@message
def accepted_names(what: Word, names: Listed) -> None:
    """Accepted {what}: {names}"""


@message
def hint_line(hint: Word) -> None:
    """hint: {hint}"""


@message
def error_line(where: Word, message: Word) -> None:
    """{where}: error: {message}"""


@message
def accepted(names: Listed) -> None:
    """Accepted: {names}"""


@message
def did_you_mean_of(name: Quoted, names: Listed) -> None:
    """Did you mean {name}? Accepted: {names}"""
