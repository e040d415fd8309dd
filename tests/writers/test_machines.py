"""DXF files for machines: one colour and line type a layer, what a shop's profile changes, and the test file of a shop.

Files are read tag by tag (`tests/writers/readers.py`) and by ezdxf's reader.
"""

from __future__ import annotations

import io
from itertools import combinations, pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf.colors import aci2rgb
from ezdxf.math import BoundingBox
from ezdxf.path import make_path

from panelart.diagnostics import SpecError
from panelart.documents.layers import layer_table
from panelart.model.machine import CUT_LAYERS, LineType, cut_layer_of
from panelart.pipeline import build, lay_out, panel_files, read, write
from panelart.spec.shop import shop_of
from tests.commands import run, run_within
from tests.outlines.drawings import ELL, loop
from tests.outlines.drawings import dxf as drawn_by_others
from tests.spec.samples import GOOD
from tests.spec.test_outlined import FREE, HEAD
from tests.writers.readers import dxf_drawn, dxf_tags

ROOT = Path(__file__).parents[2]
DEMOS = sorted((ROOT / "demo").glob("*.yaml"))
SPECS = [spec for spec in DEMOS if b"panelart-" not in spec.read_bytes()[:400]]


def opened(data: bytes) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(data.decode("cp1252")))


def layers(data: bytes) -> dict[str, tuple[int, str]]:
    """Colour and line type of each layer in the table of layers, tag by tag, without the two that R2000 must have."""
    tags = dxf_tags(data)
    begin = next(i for i, pair in enumerate(pairwise(tags)) if pair == ((0, "TABLE"), (2, "LAYER")))
    end = tags.index((0, "ENDTAB"), begin)
    found: list[dict[int, str]] = []
    for code, value in tags[begin:end]:
        if (code, value) == (0, "LAYER"):
            found.append({})
        elif found:
            found[-1][code] = value
    return {one[2]: (int(one[62]), one[6].upper()) for one in found if one[2] not in ("0", "Defpoints")}


def made(folder: Path, profile: str = "", spec: str = GOOD, **more: object) -> dict[str, bytes]:
    text = "panelart-shop: 1\nshop: Korvan Cutting\n"
    (folder / "shop.yaml").write_text(text + (f"machine:\n  {profile}\n" if profile else ""), "utf-8")
    if "shop:" not in spec:
        spec = spec.replace("  lettering:", "  shop: shop.yaml\n  lettering:", 1)
    (folder / "p.yaml").write_text(spec, "utf-8")
    return write(build(read(folder / "p.yaml")), **more)


# --- the table


def test_no_two_layers_look_alike() -> None:
    """Colours apart but for what is for people; of what no tool follows only lettering is continuous."""
    colours = [layer.colour for layer in CUT_LAYERS if layer.name not in ("edge", "notes")]
    assert len(set(colours)) == len(colours)
    assert 8 not in colours
    for layer in CUT_LAYERS:
        if layer.name not in ("notes", "*"):
            assert (layer.line is LineType.CONTINUOUS) == layer.followed, layer.name


def test_every_colour_is_seen_on_white_and_on_black() -> None:
    """The contrast of WCAG 2.2, computed by colorspacious; 3:1 is what it asks of graphics (1.4.11)."""
    colorspacious = pytest.importorskip("colorspacious")
    for layer in CUT_LAYERS:
        light = colorspacious.cspace_convert(np.array(aci2rgb(layer.colour)), "sRGB255", "XYZ1")[1]
        assert 1.05 / (light + 0.05) >= 3.29, layer.name
        assert (light + 0.05) / 0.05 >= 3.29, layer.name


def test_layers_that_share_a_file_are_told_apart_by_their_colour() -> None:
    """More than 10 in CAM02-UCS, where 1 is about what an eye sees side by side."""
    colorspacious = pytest.importorskip("colorspacious")
    together = (
        ("outline", "cutouts", "countersinks", "countersinks-rear", "bends", "bends-forward", "notes"),
        ("pockets", "pins", "outline", "notes"),
        ("mask", "edge"),
        ("kiss-cut", "notes"),
    )
    for names in together:
        for one, other in combinations(names, 2):
            colours = [np.array(aci2rgb(cut_layer_of(name).colour)) for name in (one, other)]
            assert colorspacious.deltaE(*colours, input_space="sRGB255") > 10, (one, other)


@pytest.mark.parametrize(("name", "colour"), [
    ("outline", 1), ("engrave-0.3", 163), ("engrave-0.3-white", 163), ("engrave-0.35", 153), ("engrave-3", 13),
    ("line-0.40-white", 114), ("area-black", 84), ("house-thing", 32),
])  # fmt: skip
def test_a_layer_has_its_own_colour_or_that_of_its_family(name: str, colour: int) -> None:
    assert cut_layer_of(name).colour == colour


def test_the_table_in_readme_is_current() -> None:
    """`python -m panelart.documents.layers --write README.md` makes it."""
    text = (ROOT / "README.md").read_text("utf-8")
    assert f"<!-- layers -->\n{layer_table()}\n<!-- /layers -->" in text


# --- every file


@pytest.mark.few(3)
@pytest.mark.parametrize("spec", SPECS, ids=lambda spec: spec.stem)
def test_a_layer_is_the_same_in_every_file_of_every_demo(spec: Path) -> None:
    kinds = {"continuous": "CONTINUOUS", "dashed": "DASHED", "dash-dot": "DASHDOT", "dotted": "DOT"}
    made = panel_files(build(read(spec)))
    files = {name: made[name] for name in made if name.endswith(".dxf")}
    assert files
    for name, data in files.items():
        for layer, (colour, line) in layers(data).items():
            known = cut_layer_of(layer)
            assert known.name != "*", (name, layer)
            assert (colour, line) == (known.colour, kinds[known.line.value]), (name, layer)
        assert "notes" not in layers(data)
        assert opened(data).audit().errors == []


def test_bends_are_dashed_in_mm_for_another_reader() -> None:
    document = opened(panel_files(build(read(ROOT / "demo" / "relay-tray.yaml")))["blank.dxf"])
    assert document.layers.get("bends").dxf.linetype == "DASHED"
    pattern = [tag.value for tag in document.linetypes.get("DASHED").pattern_tags.tags if tag.code == 49]
    assert pattern == [4.0, -1.5]


def test_the_cut_file_of_a_bent_panel_is_the_blank_with_one_closed_outline() -> None:
    files = write(build(read(ROOT / "demo" / "relay-tray.yaml")), rear=True)
    assert not [name for name in files if name.startswith("cutouts")]
    drawn = dxf_drawn(files["blank.dxf"])
    outer = [one for one in drawn if one.layer == "outline"]
    assert len(outer) == 1
    assert outer[0].state["closed"]
    ground = shapely.Polygon(outer[0].loops[0])
    assert all(ground.buffer(1e-6).covers(shapely.LineString(one.loops[0])) for one in drawn), "all within the outline"


def test_a_panel_of_a_drawing_whose_datum_is_the_drawings_lies_over_it(tmp_path: Path) -> None:
    """The cut file read by ezdxf, against the corners as drawn: no coat, so the metal is cut where it is drawn."""
    corners = [(x - 35.5, y + 1012.25) for x, y in ELL]
    (tmp_path / "front.dxf").write_bytes(drawn_by_others(lambda space: loop(space, corners)))
    text = HEAD.replace("kind: powder, thickness: 0.08", "kind: none").replace("  sheet", "  datum: drawing\n  sheet")
    text += FREE.replace("[30, 30]", "[-5, 1040]")
    files = made(tmp_path, spec=text)
    (edge,) = opened(files["cutouts.dxf"]).modelspace().query('*[layer=="outline"]')
    cut = shapely.Polygon([(point.x, point.y) for point in make_path(edge).flattening(1e-3)])
    assert shapely.hausdorff_distance(cut.exterior, shapely.Polygon(corners).exterior) < 1e-5
    (hole,) = opened(files["cutouts.dxf"]).modelspace().query('*[layer=="cutouts"]')
    centre = BoundingBox(make_path(hole).flattening(1e-3)).center
    assert (centre.x, centre.y) == pytest.approx((-5, 1040), abs=0.3)  # S1 at its place in the drawing; its hole is a D


# --- a shop's profile


def test_names_colours_and_lines_of_a_shop(tmp_path: Path) -> None:
    profile = "layers: {outline: {name: CONTOUR, colour: 5}, cutouts: {name: CONTOUR, colour: 5}}"
    files = made(tmp_path, profile)
    assert layers(files["cutouts.dxf"]) == {"CONTOUR": (5, "CONTINUOUS")}
    plain = made(tmp_path)
    assert [one.loops for one in dxf_drawn(files["cutouts.dxf"])] == [
        one.loops for one in dxf_drawn(plain["cutouts.dxf"])
    ]


def test_notes_as_strokes_as_text_and_not_at_all(tmp_path: Path) -> None:
    assert "notes" not in layers(made(tmp_path)["cutouts.dxf"])
    strokes = made(tmp_path, "notes: true")
    assert layers(strokes["cutouts.dxf"])["notes"] == (8, "CONTINUOUS")
    assert b"FROM THE FRONT" in strokes["cutouts.svg"]
    assert {e.dxftype() for e in opened(strokes["cutouts.dxf"]).modelspace() if e.dxf.layer == "notes"} == {
        "LWPOLYLINE"
    }
    written = opened(made(tmp_path, "notes: true\n  text: text")["cutouts.dxf"]).modelspace()
    (text,) = written.query('*[layer=="notes"]')
    assert (text.dxftype(), text.dxf.height) == ("TEXT", 3.0)
    assert "FROM THE FRONT" in text.dxf.text


def test_inches(tmp_path: Path) -> None:
    files = made(tmp_path, "unit: in")
    plain = made(tmp_path)
    document = opened(files["cutouts.dxf"])
    assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == (1, 0)
    for inch, mm in zip(dxf_drawn(files["cutouts.dxf"]), dxf_drawn(plain["cutouts.dxf"]), strict=True):
        assert np.array(inch.loops[0]) * 25.4 == pytest.approx(np.array(mm.loops[0]), abs=3e-5)


@pytest.mark.parametrize(("origin", "place"), [
    ("panel", (0.08, 0.08)), ("corner", (0, 0)), ("middle", (-129.92, -54.92)), ("datum", (-39.92, -9.92)),
])  # fmt: skip
def test_origins(tmp_path: Path, origin: str, place: tuple[float, float]) -> None:
    """The panel of 260 x 110 is cut 0.08 smaller all round; its datum is put elsewhere."""
    spec = GOOD.replace("  corner: 3\n", "  corner: 3\n  datum: [40, 10]\n", 1)
    spec = spec[: spec.index("parts:")] + "parts: [{ref: S1, part: toggle-12, at: [30, 30]}]\n"
    data = made(tmp_path, f"origin: {origin}", spec)["cutouts.dxf"]
    (edge,) = opened(data).modelspace().query('*[layer=="outline"]')
    low = BoundingBox(make_path(edge).flattening(1e-3)).extmin
    assert (low.x, low.y) == pytest.approx(place, abs=1e-6)


def test_a_file_for_each_layer(tmp_path: Path) -> None:
    files = made(tmp_path, "files: layers")
    names = sorted(name for name in files if name.startswith("cutouts") and name.endswith(".dxf"))
    assert names == ["cutouts.cutouts.dxf", "cutouts.outline.dxf"]
    together = dxf_drawn(made(tmp_path)["cutouts.dxf"])
    for name in names:
        layer = name.split(".")[1]
        assert [one.loops for one in dxf_drawn(files[name])] == [one.loops for one in together if one.layer == layer]
    assert set(made(tmp_path, "files: layers", only=["cutouts"])) == {*names, "cutouts.svg", "cutouts.pdf"}


@pytest.mark.parametrize(("profile", "message"), [
    ("layers: {outlne: {colour: 3}}", "Unknown layer 'outlne'"),
    ("layers: {outline: {colour: 256}}", "Found '256'"),
    ("layers: {outline: {line: wavy}}", "Found 'wavy'"),
    ("layers: {outline: {name: a/b}}", "'a/b' cannot be the name of a DXF layer"),
    ("layers: {outline: {write: false}}", "Layer outline must be written"),
    ("layers: {outline: {name: CUT}, cutouts: {name: cut}}", "both get the name 'cut'"),
    ("layers: {outline: {name: cutouts}}", "both get the name 'cutouts'"),
    ("unit: cm", "Found 'cm'"),
    ("origin: left", "Found 'left'"),
])  # fmt: skip
def test_slips_of_a_profile_are_told_with_their_place(tmp_path: Path, profile: str, message: str) -> None:
    with pytest.raises(SpecError) as caught:
        made(tmp_path, profile)
    problems = [str(problem) for problem in caught.value.problems]
    assert any(message in problem and "shop.yaml:4:" in problem for problem in problems), problems


# --- the test file


def test_the_test_file_has_what_it_prints(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text(
        "panelart-shop: 1\nshop: Korvan Cutting\nmachine:\n  layers: {outline: {name: CONTOUR, colour: 5}, "
        "bends: {name: B, line: dotted}, mask: {write: false}}\n  unit: in\n",
        "utf-8",
    )
    done = run_within("test-cut", "--shop", "shop.yaml", "-o", "test.dxf", cwd=tmp_path)
    assert done.returncode == 0
    data = (tmp_path / "test.dxf").read_bytes()
    there = layers(data)
    assert there["CONTOUR"] == (5, "CONTINUOUS")
    assert there["B"] == (94, "DOT")
    assert "mask" not in there
    assert "mask: not written" in done.stdout
    for name, (colour, _) in there.items():
        assert f"layer {name}, colour {colour}, " in done.stdout
    drawn = {one.layer: one for one in dxf_drawn(data)}
    assert set(drawn) == set(there)
    edge = shapely.Polygon(drawn["CONTOUR"].loops[0])
    assert edge.bounds == pytest.approx((0, 0, 160 / 25.4, 100 / 25.4), abs=1e-6)
    assert edge.area * 25.4**2 == pytest.approx(160 * 100 - 20 * 20 / 2, rel=1e-6)
    assert not edge.covers(shapely.Point(159 / 25.4, 99 / 25.4)), "the corner is off at the upper right"
    for name, one in drawn.items():
        if name not in ("CONTOUR", "cutouts"):
            assert shapely.LineString(one.loops[0]).length * 25.4 == pytest.approx(20, abs=1e-4)
            assert edge.covers(shapely.LineString(one.loops[0]))
    lines = [shapely.LineString(one.loops[0]) for one in drawn.values()]
    assert all(one.distance(other) > 0.05 for one, other in combinations(lines, 2)), "no two figures touch"


def test_the_test_file_of_a_faulty_shop_is_refused(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text("panelart-shop: 1\nshop: K\nmachine: {unit: ell}\n", "utf-8")
    done = run("test-cut", "--shop", "shop.yaml", "-o", "test.dxf", cwd=tmp_path)
    assert (done.returncode, (tmp_path / "test.dxf").exists()) == (2, False)
    assert "shop.yaml:3:17" in done.stderr


def test_the_printed_shop_file_has_a_profile_that_changes_nothing(tmp_path: Path) -> None:
    text = run_within("shop-file", "engraving", cwd=tmp_path).stdout
    live = "\n".join(line[2:] if line.startswith(("# machine", "#   ")) else line for line in text.splitlines())
    (tmp_path / "shop.yaml").write_text(live, "utf-8")
    machine = shop_of(tmp_path / "shop.yaml").machine
    for layer in CUT_LAYERS:
        own = machine.line_of(layer.name)
        assert (own.colour, own.line) == (layer.colour, layer.line)


def test_layouts_are_read_without_a_shop(tmp_path: Path) -> None:
    (tmp_path / "p.yaml").write_text(GOOD, "utf-8")
    assert lay_out(read(tmp_path / "p.yaml")).panel.marking.printing.machine.name == ""
