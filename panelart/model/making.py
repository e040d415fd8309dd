"""How the panel is to be made: the cutter, the tolerance, how many, and how it hangs when it is coated."""

from __future__ import annotations

from enum import Enum

from panelart.canonical import Struct
from panelart.messages import model as said
from panelart.reprs import brief, counted


class Cutting(Enum):
    """The cutting process."""

    LASER = "laser"
    PUNCH = "punch"
    MILL = "mill"
    WATERJET = "waterjet"
    HAND = "hand"


class PunchForm(Enum):
    """What a punch leaves in one stroke."""

    ROUND = "round"
    RECTANGLE = "rectangle"
    SLOT = "slot"


class Punch(Struct, frozen=True, kw_only=True):
    """One of the shop's punches: the length and width over all of what it leaves, in mm."""

    form: PunchForm
    length: float
    width: float

    def __str__(self) -> str:
        if self.form is PunchForm.ROUND:
            return str(said.round_punch(diameter=self.length))
        form = said.slot_punch if self.form is PunchForm.SLOT else said.rectangular_punch
        return str(form(length=self.length, width=self.width))


class Making(Struct, frozen=True, kw_only=True):
    """What the shop is told besides the panel itself.

    `cutter` is the diameter of a milling cutter in mm, None where not known; `relieve` that it relieves sharp inside
    corners. `punches` are the shop's. `hang_by` are openings to hang the panel by when it is coated. `tolerance` is
    the class of ISO 2768-1: f, m, c or v, and of openings H12, H13 or H14 with it. `first_serial` is the serial number
    of the first piece, '' for pieces without one. `grain` says which way the grain runs: along or across the width, ''
    where it is one. `position_error` is how far an opening may be off its place, in mm, in any direction, besides the
    register error. `one_in` says how deviations add up: so many panels keep what one exceeds, None for the worst case.
    """

    cutting: Cutting = Cutting.LASER
    cutter: float | None = None
    relieve: bool = False
    punches: tuple[Punch, ...] = ()
    tolerance: str = "m"
    quantity: int = 1
    first_serial: str = ""
    grain: str = ""
    hang_by: tuple[str, ...] = ()
    note: str = ""
    one_in: int | None = None
    position_error: float = 0.0

    def __repr__(self) -> str:
        return brief("Making", self.cutting.value, counted(self.quantity, "piece"))


STANDARD = Making()
"""What holds where the spec says nothing: one, cut by laser, ISO 2768-m, openings H13."""


def serials(making: Making) -> tuple[str, str]:
    """The first and the last serial number: the digits at the end count up, keeping their width."""
    first = making.first_serial
    head = first.rstrip("0123456789")
    digits = first[len(head) :]
    if not digits:
        return first, first
    last = str(int(digits) + making.quantity - 1).rjust(len(digits), "0")
    return first, head + last
