"""The files of a panel: what they are, for whom, when they are made, and what is said of those that are not."""

from panelart.messages import Clauses, Complete, Quoted, Word, message

# --- for whom


@message
def printing() -> None:
    """Printing"""


@message
def marking() -> None:
    """Engraving, laser marking"""


@message
def label_film() -> None:
    """Label film"""


@message
def cutting() -> None:
    """Cutting"""


@message
def bending() -> None:
    """Bending"""


@message
def coating() -> None:
    """Coating"""


@message
def workshop() -> None:
    """Workshop"""


@message
def inspection() -> None:
    """Inspection"""


@message
def approval() -> None:
    """Approval"""


@message
def reading() -> None:
    """Documentation"""


@message
def purchasing() -> None:
    """Purchasing"""


@message
def other_programs() -> None:
    """Other programs"""


# --- when they are made


@message
def always() -> None:
    """Always"""


# --- why a panel has none


@message
def nothing_to_show() -> None:
    """the panel has nothing to show in it"""


# --- what is asked for


@message
def unknown_document(name: Quoted) -> None:
    """Unknown file {name}"""


@message
def not_made(name: Word, reason: Word) -> None:
    """There is no {name}: {reason}"""


@message
def other_files(name: Word, names: Complete) -> None:
    """There is no {name}; there is {names}"""


@message
def sayings(sayings: Clauses) -> None:
    """{sayings}"""


@message
def accepted(names: Complete) -> None:
    """Accepted: {names} (each in all its formats), or file names such as cutouts.dxf"""


@message
def did_you_mean(name: Quoted, accepted: Word) -> None:
    """Did you mean {name}? {accepted}"""


# --- the table of them


@message
def column_files() -> None:
    """file"""


@message
def column_audience() -> None:
    """for"""


@message
def column_contents() -> None:
    """contents"""


@message
def column_when() -> None:
    """made"""


@message
def audiences(titles: Complete) -> None:
    """{titles}"""
