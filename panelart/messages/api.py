"""What is said of files that programs and commands hand over beside a spec."""

from panelart.messages import Word, message


@message
def baseline_unreadable(reason: Word) -> None:
    """Cannot read the baseline: {reason}"""


@message
def accepted_baseline() -> None:
    """Accepted: a file written by 'panelart check SPEC --write-baseline FILE'"""


@message
def not_text() -> None:
    """not UTF-8 text"""


@message
def accepted_placement() -> None:
    """Accepted: the bytes of `Result.placement`, or a file with them"""


@message
def save_or_ignore_placement() -> None:
    """Save `Result.placement` to this file again, or pass `ignore_placement=True`."""


@message
def null_character() -> None:
    """the path has a null character"""


@message
def empty_spec() -> None:
    """The spec is empty"""


@message
def accepted_spec() -> None:
    """Accepted: a path, a YAML text or a mapping"""
