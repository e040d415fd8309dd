"""What all processes that print say alike: their inks, the base under them, and film positives."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from panelart.messages import Complete, Message, Mm, Word, message
from panelart.messages import sheets as common
from panelart.processes.process import BaseLaid, Emulsion, InkUsed, Work


@message
def ink(name: Word, colour: Word) -> None:
    """{name} ({colour})"""


@message
def base_under_inks(plate: Word, inks: Complete) -> None:
    """Print the base ({plate}) first, under {inks}."""


@message
def base_under_pictures(plate: Word) -> None:
    """Print the base ({plate}) first, under the pictures."""


@message
def base_choked(choke: Mm) -> None:
    """The file already has a choke of {choke}."""


@message
def thin_ink_with_base(width: Mm) -> None:
    """Under ink narrower than {width} the base is as wide as the ink."""


@message
def thin_ink_without_base(width: Mm) -> None:
    """Ink narrower than {width} has no base."""


@message
def no_choke_in_printer() -> None:
    """Set no choke in the printer's software."""


@message
def film_positives_up() -> None:
    """Film positives at 1:1, right reading with the emulsion up, not mirrored."""


@message
def film_positives_down() -> None:
    """Film positives at 1:1, right reading with the emulsion down, mirrored."""


@message
def register_marks() -> None:
    """Register the film positives by the four marks: the dot is at the lower mark."""


@message
def trap(trap: Mm) -> None:
    """Inks that touch overlap by {trap}."""


@message
def one_for_all() -> None:
    """one for all panels"""


def positives(emulsion: Emulsion) -> Message:
    """How the film positives lie when they read right."""
    return film_positives_up() if emulsion is Emulsion.UP else film_positives_down()


def named(inks: Iterable[InkUsed]) -> list[Message]:
    """Inks with their colours, for a sentence."""
    return [ink(name=used.name, colour=used.colour) for used in inks]


def base_first(base: BaseLaid) -> list[Message]:
    """What the printer must know of the base, in sentences."""
    under = base.under
    told = [base_under_inks(plate=base.plate, inks=under) if under else base_under_pictures(plate=base.plate)]
    if base.choke:
        told.append(base_choked(choke=base.choke))
    if base.thin:
        told.append((thin_ink_with_base if base.full else thin_ink_without_base)(width=base.thin))
    return told


def base_steps(work: Work) -> Iterator[Message]:
    """What the printer must know of the base, and of what they must not do again."""
    if work.laid_base is not None:
        yield common.paragraph(sentences=(*base_first(work.laid_base), no_choke_in_printer()))
