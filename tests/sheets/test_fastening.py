"""Fasteners of a panel counted, and what its parts weigh; the sums are worked by hand from the entries."""

from __future__ import annotations

from panelart.catalogue import component
from panelart.model.component import Component
from panelart.sheets.fastening import counted, mass_told


def fitted(*names: str) -> list[tuple[str, Component]]:
    return [(f"X{number}", component(name)) for number, name in enumerate(names, start=1)]


def told(*names: str) -> list[tuple[int, str, tuple[str, ...]]]:
    return [(one.quantity, str(one.named), one.refs) for one in counted(fitted(*names))]


def test_nuts_of_one_thread_are_counted_together() -> None:
    """Two potentiometers with one nut each, two fans with four screws and four nuts each."""
    assert (2, "nut M10 x 0.75", ("X1", "X2")) in told("pot-m10", "pot-m10")
    assert told("fan-80", "fan-80") == [(8, "screw M4", ("X1", "X2")), (8, "nut M4", ("X1", "X2"))]


def test_washers_of_two_sizes_are_not_one() -> None:
    washers = [each for each in told("pot-m10", "pot-m7") if each[1].startswith("washer")]
    assert washers == [(1, "washer for M10 x 0.75", ("X1",)), (1, "washer for M7 x 0.75", ("X2",))]


def test_what_goes_on_no_thread_is_counted_by_part() -> None:
    assert told("meter-48x48", "meter-96x96") == [(2, "clamp", ("X1",)), (2, "clamp", ("X2",))]


def test_a_screw_of_unknown_thread_is_told_by_its_hole() -> None:
    """The flange holes of shell size 18 are 3.05 in the entry."""
    assert told("ms5015-18") == [(4, "screw for a hole of 3.05 mm", ("X1",))]


def test_supply_spanner_torque_and_side_are_told() -> None:
    (ring,) = counted(fitted("pushbutton-16"))
    assert (str(ring.supply), str(ring.torque), str(ring.side)) == (
        "supplied with the part",
        "0.29 to 0.49 N m",
        "rear",
    )
    screw, nut = counted(fitted("iec-c14"))
    assert (str(screw.supply), str(screw.side), str(nut.side)) == ("bought separately", "front", "rear")
    assert nut.across == "5.5"  # ISO 4032: 5.5 across the flats of M3


def test_mass_is_told_as_far_as_it_is_known() -> None:
    one = component("pushbutton-16").mass
    assert one is not None
    assert one.value == 13.0
    assert str(mass_told(fitted("pushbutton-16", "pushbutton-16"))) == "Mass of all parts: 26 g."
    partly = "Mass of the parts whose mass is known: 13 g; not known: bnc, iec-c14."
    assert str(mass_told(fitted("pushbutton-16", "bnc", "iec-c14", "bnc"))) == partly
    assert mass_told(fitted("bnc")) is None
    assert str(mass_told(fitted(*["pushbutton-16"] * 100))) == "Mass of all parts: 1.3 kg."
