"""Pad printing: a silicone pad lifts the ink out of an etched plate, the cliché, and sets it down on the face.

One cliché an ink, and one for the base: the ink is so thin (a few thousandths of a millimetre) that hardly any covers
a dark coat by itself. What the pad lifts is set down the same way round, so that the cliché reads right; its film
positive lies with the emulsion against the cliché and so reads right with the emulsion down, as films for offset plates
do (a bookbinder's glossary of films has both).

Ink spreads under the pad. No source gives a figure to take off the artwork by, so none is taken off: the spread is told
to the printer, and gaps are checked against it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from panelart.messages import Complete, Message, Mm, Number, Percent, SizeMm, Word, message
from panelart.messages import sheets as common
from panelart.processes import inks
from panelart.processes.process import (
    CONSUMABLE,
    COUNT,
    Emulsion,
    Order,
    PlateLaid,
    Positives,
    Process,
    Purchase,
    Work,
    looked_up,
    recalled,
    typical,
)

# --- steps


@message
def not_compensated(spread: Mm) -> None:
    """The film positives are not compensated: ink spreads by about {spread} at each edge."""


@message
def make_cliches(plates: Complete, depth: Mm) -> None:
    """Make one cliché from each film positive, emulsion against the cliché, etched {depth} deep: {plates}."""


@message
def line_screen(lines: Number) -> None:
    """Expose every cliché again through a line screen of {lines} lines per cm."""


@message
def mix_ink(inks: Complete, hardener: Percent, thinner: Percent) -> None:
    """Mix {inks} each with {hardener} hardener and {thinner} thinner by weight, or as its data sheet says."""


@message
def mix_white(plate: Word) -> None:
    """The ink of the base ({plate}) is opaque white."""


@message
def use_within(hours: Number) -> None:
    """Discard mixed ink after {hours} hours."""


@message
def jig() -> None:
    """Degrease the face. Clamp the panel in a jig that supports it up to its edges, until the last plate is printed."""


@message
def choose_pad(share: Percent, size: SizeMm) -> None:
    """Choose pads larger than the print by {share} or more. The largest print is {size}."""


@message
def print_in_register(plates: Complete) -> None:
    """Print in register in this order: {plates}. Let each print become tack-free before the next."""


@message
def print_twice(inks: Complete) -> None:
    """Print {inks} twice: one print of a light ink does not cover a dark coat."""


@message
def inspect_prints() -> None:
    """Inspect every print for pinholes, gaps filled with ink and plates out of register."""


@message
def cure(days: Number) -> None:
    """Cure for {days} days at 20 °C, or as the data sheet of the ink says, before the print is wiped or packed."""


def _steps(work: Work) -> Iterator[Message]:
    process, plates = work.process, [plate.name for plate in work.plates]
    spread = not_compensated(spread=process.figure("spread"))
    yield common.paragraph(sentences=(inks.positives(work.emulsion), inks.register_marks(), spread))
    etching = make_cliches(plates=plates, depth=process.figure("etch_depth"))
    yield common.paragraph(sentences=(etching, line_screen(lines=process.figure("line_screen"))))
    mixed = [
        mix_ink(
            inks=inks.named(work.inks),
            hardener=process.figure("hardener_share"),
            thinner=process.figure("thinner_share"),
        )
    ]
    if work.laid_base is not None:
        mixed.append(mix_white(plate=work.laid_base.plate))
    yield common.paragraph(sentences=(*mixed, use_within(hours=process.figure("pot_life"))))
    yield common.paragraph(sentences=(jig(), *_pads(work)))
    yield common.paragraph(sentences=tuple(_printing(work, plates)))
    yield inspect_prints()
    yield cure(days=process.figure("cure_time"))


def _pads(work: Work) -> Iterator[Message]:
    if work.plates:
        size = (_up(max(plate.width for plate in work.plates)), _up(max(plate.height for plate in work.plates)))
        yield choose_pad(share=work.process.figure("pad_oversize"), size=size)


def _up(length: float) -> float:
    """A length in whole millimetres that are not too few."""
    return float(math.ceil(length - 1e-6))


def _printing(work: Work, plates: list[str]) -> Iterator[Message]:
    if work.laid_base is not None:
        yield from inks.base_first(work.laid_base)
    yield print_in_register(plates=plates)
    light = [ink.name for ink in work.inks if ink.light]
    if work.base and light:
        yield print_twice(inks=light)
    if work.trap and len(plates) > 1:
        yield inks.trap(trap=work.trap)


# --- cautions


@message
def solvents() -> None:
    """Inks, thinners and hardeners are flammable and harmful. Read their safety data sheets."""


@message
def isocyanates() -> None:
    """Hardeners can contain isocyanates, which can cause asthma."""


@message
def extraction() -> None:
    """Work under extraction with gloves and goggles. Keep ignition sources away."""


@message
def bent_panel() -> None:
    """The panel is bent: support its face from behind. Do not print on the curve of a bend: the print stretches."""


@message
def textured_coat() -> None:
    """The coat is textured: hollows can stay bare. Make a trial print. Use a harder pad, or print twice."""


@message
def large_solids(plates: Complete, length: Mm) -> None:
    """Solid areas wider than about {length} print unevenly: {plates}. Make a trial print."""


@message
def larger_than_machine(plates: Complete, cup: Mm, length: Mm) -> None:
    """Too large for one stroke of usual machines (ink cup {cup}, length {length}): {plates}. Print it in sections."""


@message
def tints() -> None:
    """Tints and gradients need a halftone screen in the cliché. Agree it with the printer."""


def _cautions(work: Work) -> Iterator[Message]:
    process = work.process
    yield common.paragraph(sentences=(solvents(), isocyanates(), extraction()))
    if work.bent:
        yield bent_panel()
    if work.textured:
        yield textured_coat()
    solid = [plate.name for plate in work.plates if plate.solid]
    if solid:
        yield large_solids(plates=solid, length=process.figure("solid_maximum"))
    cup, length = process.figure("cup_maximum"), process.figure("print_maximum")
    large = [plate.name for plate in work.plates if _too_large(plate, cup, length)]
    if large:
        yield larger_than_machine(plates=large, cup=cup, length=length)
    if work.tinted:
        yield tints()


def _too_large(plate: PlateLaid, cup: float, length: float) -> bool:
    """The ink cup spans the shorter side of a print; the longer one lies along its stroke."""
    return min(plate.width, plate.height) > cup or max(plate.width, plate.height) > length


# --- purchases


@message
def cliche(plate: Word) -> None:
    """Cliché, {plate}"""


@message
def pad(share: Percent) -> None:
    """Printing pad, silicone, {share} or more larger than its print"""


@message
def pad_ink(ink: Word, colour: Word) -> None:
    """Pad printing ink, {ink} ({colour})"""


@message
def white_ink(plate: Word) -> None:
    """Pad printing ink, opaque white ({plate})"""


@message
def varnish(plate: Word) -> None:
    """Pad printing varnish ({plate})"""


@message
def hardener() -> None:
    """Hardener for the pad printing inks"""


@message
def thinner() -> None:
    """Thinner for the pad printing inks"""


@message
def from_ink_maker() -> None:
    """from the maker of the inks"""


def _purchases(order: Order) -> Iterator[Purchase]:
    """A cliché and a pad for each plate, base and varnish too, and what the inks are mixed with."""
    plates = [name for name in (order.base, *(ink.name for ink in order.inks), order.varnish) if name]
    shared = inks.one_for_all()
    for plate in plates:
        yield Purchase(title=cliche(plate=plate), note=shared, for_all=True)
    share = order.process.figure("pad_oversize")
    yield Purchase(title=pad(share=share), kind=CONSUMABLE, quantity=len(plates), note=shared, for_all=True)
    bought = [white_ink(plate=order.base)] if order.base else []
    bought += [pad_ink(ink=ink.name, colour=ink.colour) for ink in order.inks]
    bought += [varnish(plate=order.varnish)] if order.varnish else []
    for title in bought:
        yield Purchase(title=title, kind=CONSUMABLE, for_all=True)
    for title in (hardener(), thinner()):
        yield Purchase(title=title, kind=CONSUMABLE, note=from_ink_maker(), for_all=True)


PROCESS: Final = Process(
    name="pad-print",
    title="Pad printing",
    cap_height_minimum=typical(
        2.0,
        "a decorator's preflight page asks for 8 pt text in screen and pad printing, which is 2.0 of capitals; a "
        "catalogue of decorated goods for bold capitals of 4 pt",
    ),
    line_minimum=typical(
        0.2,
        "a decorator's preflight page asks for 1 pt (0.35) in screen and pad printing, a page on mugs for 0.2; an ink "
        "maker calls pads far finer than screens",
    ),
    gap_minimum=typical(
        0.4,
        "a page on mugs asks for 0.4 bare where 0.2 is printed, a decorator's preflight page for twice the line where "
        "artwork is reversed",
    ),
    edge_margin=recalled(2.0, "trade habit, a pad that rolls off an edge thins the ink"),
    opening_margin=recalled(0.8, "trade habit, a pad sags into openings"),
    register=recalled(0.3, "trade habit for print to part in a plain jig"),
    own={
        "inks_maximum": typical(
            6.0, "a machine maker's guide, most standard machines print 1 to 6 colours; others by habit 4", unit=COUNT
        ),
        "base_choke": recalled(0.15, "trade habit, somewhat less than the register of ink to ink"),
        "base_line_minimum": recalled(0.2, "trade habit, the narrowest line of white that covers"),
        "trap": typical(0.2, "as the register of ink to ink"),
        "ink_register": typical(
            0.2,
            "a moulder's page on several colours: 0.1 shows in fine work, 0.2 to 0.3 may do in coarser work",
        ),
        "thread_margin": recalled(1.0, "trade habit, ink in a thread makes it bind"),
        "mask_margin": recalled(0.5, "trade habit, ink beside a bare pad must not creep onto it"),
        "spread": recalled(0.05, "trade habit, ink pressed out at each edge by pad and pressure"),
        "etch_depth": looked_up(
            0.025,
            "a pad printing supplier's page on clichés: 0.025 is optimal, 0.015 for very fine lettering, 0.03 for very "
            "large prints; an ink maker prints 0.02 to 0.025",
        ),
        "ink_film": looked_up(
            0.007,
            "an ink maker's page on pad printing: about 0.007; a supplier's page 0.005 to 0.008, a trade paper 0.005",
        ),
        "line_screen": looked_up(
            120.0,
            "a trade paper on clichés: 120 lines/cm for most prints, 100 for large text, 80 on very rough faces",
            unit="lines/cm",
        ),
        "print_maximum": looked_up(
            300.0, "an ink maker's page on pad printing: the largest prints made efficiently are about 300 across"
        ),
        "cup_maximum": looked_up(
            130.0, "a machine maker's page on the limits of pad printing: ink cups mostly end at 130 to 160 across"
        ),
        "pad_oversize": typical(20.0, "two pad suppliers' pages: at least 20, another 30", unit="percent"),
        "solid_maximum": recalled(
            10.0, "trade habit, the doctor blade dips into wider areas; sources say large areas, without a figure"
        ),
        "hardener_share": typical(
            25.0, "a trade paper's tests: a two-component ink with hardener 4:1, as used in cars", unit="percent"
        ),
        "thinner_share": typical(
            15.0, "a machine maker's release: most ink makers recommend 15 to 20 by weight", unit="percent"
        ),
        "pot_life": typical(6.0, "a supplier's guide for two-component inks: 6 to 8 h at 20 to 25 °C", unit="h"),
        "cure_time": typical(
            6.0,
            "a supplier's guide for two-component inks of 0.005 to 0.012: tack-free in 30 min, 6 days at 20 °C or "
            "30 min at 140 °C",
            unit="d",
        ),
    },
    soft_tool=True,
    outputs=(Positives(emulsion=Emulsion.DOWN),),
    steps=_steps,
    cautions=_cautions,
    purchases=_purchases,
)
