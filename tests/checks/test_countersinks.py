"""Countersinks and coats against sheets that are just thick enough, and just not."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart import catalogue
from panelart.checks import inspect
from panelart.cutouts import cut, cut_outline, masks, stand
from panelart.geometry import Point, circle
from panelart.model.layout import Layout
from panelart.model.panel import Allowance, Coat, Mask, Side
from tests.checks import builders as b
from tests.checks.cases import found, measured, refs
from tests.panels import HERE, panel, part


def laid_out(*parts, thickness=2.0, coat=None, **more) -> Layout:
    asked = panel(*parts, **more)
    asked = replace(asked, sheet=replace(asked.sheet, thickness=thickness), coat=coat or asked.coat)
    return Layout(
        panel=asked, cut_outline=cut_outline(asked), openings=cut(asked), envelopes=stand(asked), legends=(), marks=(),
        masks=masks(asked),
    )  # fmt: skip


def screw(thread: str, ref: str = "H1", at=(50, 50)):
    return part(ref, catalogue.component(f"screw-{thread}-countersunk"), at=at)


@pytest.mark.parametrize(
    ("thread", "thickness", "hole"),
    [
        ("m4", 2.0, [5.4]),
        ("m4", 2.44, [4.52]),
        ("m4", 2.449999, [4.500002]),
        ("m4", 2.45, []),
        ("m4", 3.0, []),
        ("m3", 1.5, []),
        ("m3", 1.2, [3.9]),
    ],
)
def test_countersink_breaks_through(thread: str, thickness: float, hole: list[float]) -> None:
    """Plane geometry: what is left of 9.4 (M4) and 6.3 (M3) at 90 degrees on the far side; ISO 15065 diameters."""
    found_ = measured("countersink-breaks-through", laid_out(screw(thread), thickness=thickness))
    assert found_ == pytest.approx(hole)


@pytest.mark.parametrize(
    ("thread", "thickness", "wall"),
    [("m3", 1.5, [0.05]), ("m3", 2.0, []), ("m3", 1.749, [0.299]), ("m3", 1.751, []), ("m4", 2.0, []), ("m4", 3.0, [])],
)
def test_countersink_knife_edge(thread: str, thickness: float, wall: list[float]) -> None:
    """Plane geometry: thickness less depth; a cone that goes right through is another finding."""
    found_ = measured("countersink-knife-edge", laid_out(screw(thread), thickness=thickness))
    assert found_ == pytest.approx(wall)


def test_one_kind_of_screw_gives_one_finding() -> None:
    two = laid_out(screw("m4"), screw("m4", "H2", (90, 50)), thickness=2.0)
    assert refs("countersink-breaks-through", two) == [("H1", "H2")]
    assert [finding.rule for finding in inspect(two).findings if finding.refs] == ["countersink-breaks-through"]


@pytest.mark.parametrize(
    ("film", "allowance", "proud"),
    # The film on a cone of 90 degrees narrows it by 2 b (sqrt 2 - 1), and the head rises by half of that.
    [(0.3, Allowance.NONE, [0.3 * (2**0.5 - 1)]), (0.3, Allowance.DRAWING, []), (0.2, Allowance.NONE, [])],
)
def test_countersunk_head_proud(film: float, allowance: Allowance, proud: list[float]) -> None:
    coat = Coat(kind="powder", thickness=film, colour="#101010", allowance=allowance)
    assert measured("countersunk-head-proud", laid_out(screw("m4"), thickness=4, coat=coat)) == pytest.approx(proud)


@pytest.mark.parametrize(("x", "met"), [(4.5, 1), (4.71, 0), (8.0, 0)])
def test_countersink_meets_the_edge(x: float, met: int) -> None:
    assert len(found("countersink-meets-opening", laid_out(screw("m4", at=(x, 50)), thickness=3))) == met


def test_countersink_meets_an_opening() -> None:
    near = laid_out(screw("m4"), part("H2", catalogue.component("screw-m4"), at=(56.5, 50)), thickness=3)
    assert refs("countersink-meets-opening", near) == [("H1", "H2")]


# --- the coat


@pytest.mark.parametrize(
    ("minimum", "maximum", "wider"), [(0.02, 0.16, [0.14]), (0.06, 0.12, []), (0.0, 0.1, []), (0.0, 0.102, [0.102])]
)
def test_opening_loose_at_thin_coat(minimum: float, maximum: float, wider: list[float]) -> None:
    coat = Coat(kind="powder", thickness=(minimum + maximum) / 2, minimum=minimum, maximum=maximum, colour="#101010")
    loose = measured("opening-loose-at-thin-coat", laid_out(screw("m3"), coat=coat))
    assert loose == pytest.approx(wider)


@pytest.mark.parametrize(
    ("film", "thickest", "allowance", "short"),
    [
        (0.12, None, Allowance.NONE, [0.02]),  # 3.2 - 0.24 = 2.96 for a screw of 3
        (0.12, None, Allowance.DRAWING, []),
        (0.08, 0.12, Allowance.DRAWING, []),  # 3.36 - 0.24 = 3.12
        (0.08, 0.2, Allowance.DRAWING, [0.02]),  # 3.36 - 0.4 = 2.96
    ],
)
def test_m3_fine_hole_under_the_thickest_film(film, thickest, allowance, short) -> None:
    """ISO 273 fine, 3.2 mm for M3."""
    coat = Coat(kind="powder", thickness=film, minimum=0.0, maximum=thickest, colour="#101010", allowance=allowance)
    fine = part("H1", catalogue.component("screw-m3-fine"), at=(50, 50))
    assert measured("opening-too-small-after-coat", laid_out(fine, coat=coat)) == pytest.approx(short)


POWDER = Coat(kind="powder", thickness=0.08, colour="#101010")


@pytest.mark.parametrize(("x", "deep"), [(50.0, 1), (62.4, 1), (62.6, 0)])
def test_bonding_pad_covered(x: float, deep: int) -> None:
    """The pad of the M4 earth stud is 16 mm wide; the other part's body has 9 mm, of which 4.5 lie towards it."""
    stud = part("E1", catalogue.component("earth-stud-m4"), at=(50, 50))
    body = b.component(opening=False)
    behind = part("S1", replace(body, rear=(b_envelope(circle(9.0)),)), at=(x, 50))
    layout = laid_out(stud, behind, coat=POWDER)
    assert len(found("bonding-pad-covered", layout)) == deep


def b_envelope(contour):
    from tests.panels import envelope

    return envelope("body", contour, 20.0)


@pytest.mark.parametrize(("side", "seen"), [(Side.FRONT, 1), (Side.REAR, 0)])
def test_legend_on_mask(side: Side, seen: int) -> None:
    mask = Mask(contour=circle(10.0, Point(20, 20)), side=side, why="gasket", where=HERE)
    layout = laid_out(masks=(mask,), coat=POWDER)
    layout = replace(
        layout, legends=(b.legend("T1", "FUSE", (18, 18, 30, 21)), b.legend("T2", "OFF", (60, 60, 70, 63)))
    )
    assert len(found("legend-on-mask", layout)) == seen
