"""The report of what differs between two panels."""

from panelart.messages import Count, Word, counted, message


@message
def panel() -> None:
    """Panel"""


@message
def parts() -> None:
    """Parts"""


@message
def openings() -> None:
    """Openings"""


@message
def legends() -> None:
    """Legends"""


@message
def frames() -> None:
    """Frames"""


@message
def findings() -> None:
    """Findings"""


@message
def heading(name: Word, count: Count) -> None:
    """{name} ({count})"""


@message
def no_differences() -> None:
    """No differences"""


@counted("{count} differences")
def differences(count: Count) -> None:
    """{count} difference"""


@message
def named(name: Word, change: Word) -> None:
    """{name}: {change}"""


@message
def moved(x: Word, y: Word, distance: Word) -> None:
    """moved by ({x}, {y}), {distance} mm"""


@message
def thing_moved(thing: Word, x: Word, y: Word, distance: Word) -> None:
    """{thing} moved by ({x}, {y}), {distance} mm"""


@message
def finding_new(finding: Word) -> None:
    """new: {finding}"""


@message
def finding_gone(finding: Word) -> None:
    """gone: {finding}"""


@message
def not_specified() -> None:
    """not specified"""


@message
def added(what: Word) -> None:
    """added: {what}"""


@message
def removed(what: Word) -> None:
    """removed: {what}"""


@message
def changed(what: Word, old: Word, new: Word) -> None:
    """{what}: {old} -> {new}"""
