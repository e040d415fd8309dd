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
