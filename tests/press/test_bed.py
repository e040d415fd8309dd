"""Pieces on a bed: none over another, none lost, few loads; jigs that hold the finished piece."""

from __future__ import annotations

import subprocess
from io import BytesIO, StringIO
from itertools import combinations, pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pikepdf
import pytest
from ezdxf.path import make_path
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from shapely import Polygon
from shapely.geometry import Point as Dot
from shapely.geometry import box as upright

from panelart.geometry import Box, Point
from panelart.pipeline import Bed, lay_out, nested, read, write_bed
from panelart.press.bed import Kind, Nest, nest
from panelart.press.jig import Pocket, pin_places, pocket_contour
from tests.effort import examples
from tests.readers import needs_ghostscript

ROOT = Path(__file__).parents[2]
BED = Box(0, 0, 600, 400)


def boxes(packed: Nest, load) -> list:
    found = [spot.box(packed.kinds[spot.kind]) for spot in load.spots]
    return [upright(box.left, box.bottom, box.right, box.top) for box in found]


@settings(deadline=None, max_examples=examples(25))
@given(
    st.lists(
        st.tuples(st.floats(20, 260), st.floats(20, 160), st.integers(1, 12)),
        min_size=1,
        max_size=3,
    ),
    st.floats(0, 20),
    st.floats(0, 30),
    st.booleans(),
)
def test_pieces_keep_their_gap_and_none_is_lost(sizes, gap, margin, turn) -> None:
    kinds = [
        Kind(name=f"K{number}", width=round(wide, 3), height=round(high, 3), quantity=count)
        for number, (wide, high, count) in enumerate(sizes)
    ]
    packed = nest(kinds, BED, gap=gap, margin=margin, turn=turn)
    inner = upright(margin, margin, 600 - margin, 400 - margin).buffer(1e-6)
    numbers = []
    for load in packed.loads:
        pieces = boxes(packed, load)
        assert all(inner.contains(piece) for piece in pieces)
        assert all(one.distance(other) >= gap - 1e-6 for one, other in combinations(pieces, 2))
        assert all(one.intersection(other).area < 1e-6 for one, other in combinations(pieces, 2))
        assert set(load.spots) <= set(packed.jigs[load.jig])
        assert 0.0 < packed.usage(load) <= 1.0
        numbers += [number for number, _ in load.numbered]
        assert turn or not any(spot.turned for spot in load.spots)
    assert numbers == list(range(1, sum(kind.quantity for kind in kinds) + 1))
    for number, kind in enumerate(kinds):
        laid = sum(spot.kind == number for load in packed.loads for spot in load.spots)
        assert laid == kind.quantity


def maximum_on_bed(kind: Kind, width: float, height: float, gap: float, bound: int) -> int:
    """The most pieces of one kind on a bed, by a general solver: whole millimetres, either position."""
    cp_model = pytest.importorskip("ortools.sat.python.cp_model", reason="OR-tools is the oracle here")

    model = cp_model.CpModel()
    wide_bed, high_bed = int(width + gap), int(height + gap)
    sides = (int(kind.width + gap), int(kind.height + gap))
    used, across, up = [], [], []
    for number in range(bound):
        here, turned = model.new_bool_var(f"u{number}"), model.new_bool_var(f"t{number}")
        x, y = model.new_int_var(0, wide_bed, ""), model.new_int_var(0, high_bed, "")
        w, h = (model.new_int_var(min(sides), max(sides), "") for _ in "wh")
        for var, (plain, other) in ((w, sides), (h, sides[::-1])):
            model.add(var == plain).only_enforce_if(turned.negated())
            model.add(var == other).only_enforce_if(turned)
        ex, ey = model.new_int_var(0, wide_bed, ""), model.new_int_var(0, high_bed, "")
        across.append(model.new_optional_interval_var(x, w, ex, here, ""))
        up.append(model.new_optional_interval_var(y, h, ey, here, ""))
        used.append(here)
    model.add_no_overlap_2d(across, up)
    for one, other in pairwise(used):
        model.add(one >= other)
    model.maximize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = 10
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return int(solver.objective_value)


@pytest.mark.parametrize(("wide", "high", "gap"), [(260, 110, 15), (190, 150, 10), (300, 170, 5), (250, 180, 10)])
def test_a_bed_holds_as_many_as_a_general_solver_puts_there(wide, high, gap) -> None:
    kind = Kind(name="K", width=wide, height=high, quantity=50)
    packed = nest([kind], BED, gap=gap, margin=15)
    ours = len(packed.loads[0].spots)
    bound = int((570 + gap) * (370 + gap) // ((wide + gap) * (high + gap)))
    assert ours == maximum_on_bed(kind, 570, 370, gap, bound)


def test_a_long_job_takes_one_jig() -> None:
    packed = nest([Kind(name="K", width=260, height=110, quantity=1000)], BED, gap=15, margin=15)
    assert len(packed.jigs) == 1
    assert len(packed.loads) == 167
    assert len(packed.loads[-1].spots) == 4


@pytest.mark.parametrize(("wide", "high", "quantity"), [(571, 20, 1), (20, 371, 1), (100, 100, 0), (10, 10, 100_001)])
def test_what_cannot_be_laid_is_refused(wide, high, quantity) -> None:
    with pytest.raises(ValueError, match=r"inside the margin|pieces"):
        nest([Kind(name="K", width=wide, height=high, quantity=quantity)], BED, gap=5, margin=15, turn=False)


@pytest.mark.few(6)
@pytest.mark.parametrize("corner", [0.0, 1.0, 3.0, 12.0])
@pytest.mark.parametrize("cutter", [0.0, 3.0, 6.0])
@pytest.mark.parametrize("notch", [0.0, 5.0])
def test_the_piece_goes_in_with_its_clearance(corner, cutter, notch) -> None:
    from panelart.geometry import rectangle, vertices

    kind = Kind(name="K", width=120, height=60, quantity=1)
    contour = pocket_contour(kind, Pocket(corner=corner, clearance=0.15, cutter=cutter), notch)
    pocket = Polygon(vertices(contour, 0.0005))
    assert pocket.is_valid
    piece = Polygon(vertices(rectangle(120, 60, Point(60, 30), corner), 0.0005))
    assert pocket.contains(piece)
    assert piece.exterior.distance(pocket.exterior) == pytest.approx(0.15, abs=0.001)
    if notch:
        assert pocket.bounds[2] == pytest.approx(120.15 + 5, abs=0.001)
        assert pocket.bounds[3] == pytest.approx(60.15 + 5, abs=0.001)
    # A tool of the stated diameter reaches all of it: opened by it, nothing but slivers in sharp corners is lost.
    if cutter:
        opened = pocket.buffer(-cutter / 2 + 0.001, quad_segs=64).buffer(cutter / 2 - 0.001, quad_segs=64)
        assert opened.buffer(0.01).contains(piece)


def test_pins_touch_the_finished_edge() -> None:
    kind = Kind(name="K", width=120, height=60, quantity=1)
    piece = upright(0, 0, 120, 60)
    pins = pin_places(kind, Pocket(corner=3, clearance=0.15, pin=4.0))
    assert [round(piece.distance(Dot(pin)), 9) for pin in pins] == [2.0, 2.0, 2.0]


def job():
    layouts = [lay_out(read(ROOT / "demo" / f"{name}.yaml")) for name in ("bench-supply", "relay-tray")]
    bed = Bed(page=BED, gap=15, margin=15, turn=True, clearance=0.15, pin=4, cutter=3)
    packed = nested(layouts, ["bench-supply", "relay-tray"], [5, 2], bed)
    return layouts, packed, bed, write_bed(layouts, packed, bed)


def test_the_files_are_what_other_readers_see() -> None:
    pikepdf, pdfium = pytest.importorskip("pikepdf"), pytest.importorskip("pypdfium2")
    layouts, packed, bed, (files, remarks) = job()
    assert (files, remarks) == write_bed(layouts, packed, bed)
    assert "Plate white is" in remarks[0]
    assert len(files["bed.csv"].decode().splitlines()) == 8
    for number, load in enumerate(packed.loads, 1):
        data = files[f"bed-{number}.pdf"]
        with pikepdf.open(BytesIO(data)) as pdf:
            assert not pdf.check_pdf_syntax()
            forms = [name for name in pdf.pages[0].Resources.XObject if str(name).startswith("/F")]
            assert len(forms) == len({spot.kind for spot in load.spots})
            painted = [str(o[0]) for o, op in pikepdf.parse_content_stream(pdf.pages[0]) if str(op) == "Do"]
            used = [name for name in painted if name.startswith("/F")]
            assert len(used) == len(load.spots)
        page = pdfium.PdfDocument(data)[0]
        ink = np.array(page.render(scale=1.0).to_pil().convert("L")) < 250
        assert ink.any()
        # Every hole of every piece is where its piece lies: a dot of cut line right of each first opening's middle.
        high = page.get_height()
        for spot in load.spots:
            opening = layouts[spot.kind].openings[0].finished.bounds
            rim = spot.map(packed.kinds[spot.kind]).apply(Point(opening.right, opening.centre.y))
            x, y = rim.x / 25.4 * 72, high - rim.y / 25.4 * 72
            assert ink[int(y) - 1 : int(y) + 3, int(x) - 1 : int(x) + 3].any()


def test_the_jig_is_a_cut_file_with_pockets_of_the_finished_size() -> None:
    layouts, packed, _, (files, _) = job()
    document = ezdxf.read(StringIO(files["jig-1.dxf"].decode()))
    assert not document.audit().errors
    space = document.modelspace()
    pockets = [
        Polygon([(v.x, v.y) for v in make_path(p).flattening(0.001)]) for p in space.query("*[layer=='pockets']")
    ]
    spots = packed.jigs[0]
    assert len(pockets) == len(spots)
    for spot in spots:
        box = spot.box(packed.kinds[spot.kind])
        piece = upright(box.left, box.bottom, box.right, box.top).buffer(-0.01)
        (mine,) = [pocket for pocket in pockets if pocket.contains(piece.buffer(-3))]
        # The film may be thicker than planned: that room is left beside the clearance.
        coat = layouts[spot.kind].panel.coat
        edge = Dot(box.left + box.width / 4, box.bottom)
        assert mine.exterior.distance(edge) == pytest.approx(0.15 + coat.build_maximum - coat.build, abs=1e-6)
    for one, other in combinations(pockets, 2):
        assert one.distance(other) >= 3.0 - 1e-6
    assert len(space.query("CIRCLE[layer=='pins']")) == 3 * len(spots)
    assert len(space.query("*[layer=='outline']")) == 1


@needs_ghostscript
def test_notes_of_a_bed_are_on_no_plate_of_the_press(tmp_path: Path) -> None:
    """Ghostscript's separations of a load: what is drawn beside the pieces is on the plate of the cutting lines."""
    *_, (files, _) = job()
    (tmp_path / "bed.pdf").write_bytes(files["bed-1.pdf"])
    run = ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep", "-r60", "-sOutputFile=p.tif", "bed.pdf"]
    subprocess.run(run, cwd=tmp_path, check=True, capture_output=True)
    covered = {
        path.stem.partition("(")[2].rstrip(")"): int((np.asarray(Image.open(path).convert("L")) < 250).sum())
        for path in tmp_path.glob("p*(*).tif")
    }
    assert {name: covered[name] for name in ("Cyan", "Magenta", "Yellow", "Black")} == dict.fromkeys(
        ("Cyan", "Magenta", "Yellow", "Black"), 0
    )
    assert covered["cut"] > 0
    with pikepdf.open(BytesIO(files["bed-1.pdf"])) as file:
        shown = file.Root.OCProperties
        (off,) = [group for group in shown.OCGs if str(group.Name) == "notes"]
        assert str(off.Usage.Print.PrintState) == "/OFF"
        (event,) = shown.D.AS
        assert (str(event.Event), [str(group.Name) for group in event.OCGs]) == ("/Print", ["notes"])
