"""What stays bare under a coat, and what is plugged."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart import catalogue
from panelart.cutouts.hardware import Fitted, fitted
from panelart.cutouts.masks import masks, plugs
from panelart.geometry import Point, circle
from panelart.model.panel import Coat, Mask, Side
from tests.panels import HERE, panel, part

POWDER = Coat(kind="powder", thickness=0.08, colour="#2A2E33")


@pytest.mark.parametrize(
    ("name", "kind", "when"),
    [
        ("press-nut-m3", "powder", Fitted.BEFORE_COAT),  # common practice: press, plug, coat
        ("press-nut-m3", "anodise", Fitted.AFTER_COAT),  # a fastener maker's list: after anodising
        ("press-stud-m4", "zinc", Fitted.AFTER_COAT),
        ("weld-stud-m4", "anodise", Fitted.BEFORE_COAT),  # welding burns any coat
        ("rivet-nut-m4", "powder", Fitted.AFTER_COAT),
        ("screw-m4", "powder", Fitted.ASSEMBLY),
        ("earth-stud-m4", "powder", Fitted.ASSEMBLY),
    ],
)
def test_hardware_goes_in_when_the_finish_lets_it(name: str, kind: str, when: Fitted) -> None:
    assert fitted(catalogue.component(name), replace(POWDER, kind=kind)) is when


def _earthed(coat: Coat, *asked: Mask):
    e1 = part("E1", catalogue.component("earth-stud-m4"), at=(30, 40))
    return replace(panel(e1, masks=asked), coat=coat)


def test_an_earth_stud_keeps_its_pad_bare_behind() -> None:
    (pad,) = masks(_earthed(POWDER))
    assert (pad.name, pad.side) == ("E1", Side.REAR)
    assert pad.contour.circle == (Point(30, 40), 8.0)


def test_areas_asked_for_come_first_and_are_numbered() -> None:
    land = Mask(contour=circle(20.0, Point(80, 40)), side=Side.FRONT, why="gasket land", where=HERE)
    assert [(mask.name, mask.why) for mask in masks(_earthed(POWDER, land))][:1] == [("M1", "gasket land")]


@pytest.mark.parametrize("coat", [replace(POWDER, rear=False), Coat(kind="none", thickness=0.0, colour="#C0C0C0")])
def test_a_rear_that_gets_no_coat_needs_no_mask(coat: Coat) -> None:
    assert masks(_earthed(coat)) == ()


def test_plugs_by_thread() -> None:
    nuts = [part(f"N{n}", catalogue.component("press-nut-m3"), at=(20 * n, 40)) for n in (1, 2)]
    stud = part("B1", catalogue.component("weld-stud-m4"), at=(90, 40))
    screw = part("H1", catalogue.component("screw-m4"), at=(120, 40))
    asked = replace(panel(*nuts, stud, screw), coat=POWDER)
    assert [(one.thread, one.refs) for one in plugs(asked)] == [("M3", ("N1", "N2")), ("M4", ("B1",))]
    assert [one.thread for one in plugs(replace(asked, coat=replace(POWDER, kind="anodise")))] == ["M4"]
