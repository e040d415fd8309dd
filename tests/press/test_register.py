"""A piece on the bed: in register or not, and what is wrong with the points, told by name."""

from __future__ import annotations

import math
import re
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace

from panelart.diagnostics import SpecError
from panelart.geometry import Affine, Box, Point, Transform, Vector
from panelart.messages import press_register as said
from panelart.model.panel import Coat
from panelart.pipeline import fit_artwork, lay_out, read
from panelart.press.advice import advised
from panelart.press.features import CORNERS, features
from panelart.press.fitting import Model, umeyama
from panelart.press.measured import Measured, read_measured
from panelart.press.register import registered
from tests.effort import is_full

ROOT = Path(__file__).parents[2]
LAYOUT = lay_out(read(ROOT / "demo" / "bench-supply.yaml"))  # 260 x 110 mm
KNOWN = features(LAYOUT)
TRUTH = Transform.turn(1.3).then(Transform.move(120.0, 45.0))


def measure(names, *, noise=0.01, seed=5, bed=TRUTH.apply, grown=0.0):
    rng = np.random.default_rng(seed)
    return tuple(
        Measured(
            feature=KNOWN[name],
            seen=bed(KNOWN[name].at.moved(KNOWN[name].grows.scaled(grown))).moved(Vector(*rng.normal(0, noise, 2))),
            line=number,
        )
        for number, name in enumerate(names, 2)
    )


def off(measured, name, by):
    return tuple(replace(one, seen=one.seen.moved(by)) if one.feature.name == name else one for one in measured)


def test_features_are_those_of_the_finished_panel() -> None:
    assert KNOWN["lower-left"].at == (0, 0)
    assert KNOWN["upper-right"].at == (260, 110)
    assert KNOWN["H4"].at == (253, 103)
    assert KNOWN["top"].at.y == 110
    assert tuple(KNOWN["M1"].at) == pytest.approx((87, 79))


def test_four_corners_put_the_piece_where_it_lies() -> None:
    done = registered(LAYOUT, measure(CORNERS))
    assert done.printable
    assert done.fit is not None
    assert done.fit.model is Model.RIGID
    assert done.fit.map.apply(Point(130, 55)) == pytest.approx(TRUTH.apply(Point(130, 55)), abs=0.02)
    assert done.aims[0].error < 0.05
    assert {length.name: round(length.measured, 1) for length in done.lengths} == {"width": 260.0, "height": 110.0}


@pytest.mark.few(1)
@pytest.mark.parametrize(("sigma", "minimum"), [(0.025, 0.999), (0.05, 0.95)])
def test_ten_thousand_pieces_by_their_corners(sigma, minimum) -> None:
    """±0.05 mm on four corners: 95 in 100 pieces hold 0.1 mm everywhere, whether 0.05 is two standard deviations
    or one; the error of a rigid map is greatest at a corner of the outline."""
    rng = np.random.default_rng(11)
    corners = [KNOWN[name].at for name in CORNERS]
    held = 0
    for _ in range(10_000):
        noise = rng.normal(0.0, sigma, (4, 2))
        pairs = [(at, TRUTH.apply(at).moved(Vector(*by))) for at, by in zip(corners, noise, strict=True)]
        map_ = umeyama(pairs, scaled=False)
        held += all(map_.apply(at).distance(TRUTH.apply(at)) <= 0.1 for at in corners)
    assert held / 10_000 >= minimum


def test_the_error_stated_at_the_worst_legend_is_held_95_times_in_100() -> None:
    """300 whole decisions, 30 in the quick run, each with the noise it is told of."""
    rng = np.random.default_rng(2)
    held = []
    for seed in rng.integers(1 << 30, size=300 if is_full() else 30):
        done = registered(LAYOUT, measure(CORNERS, noise=0.025, seed=int(seed)), noise=0.05)
        assert done.fit is not None
        aim = done.aims[0]
        held.append(done.fit.map.apply(aim.at).distance(TRUTH.apply(aim.at)) <= aim.error)
    assert np.mean(held) >= 0.92


@pytest.mark.parametrize(
    ("bed", "refusal"),
    [
        pytest.param(
            lambda at: Point(300 - at.x, at.y + 10), said.mirrored_across(), id="<lambda>-x counts the other way0"
        ),
        pytest.param(lambda at: Point(at.x, 200 - at.y), said.mirrored_upright(), id="<lambda>-y counts the other way"),
        pytest.param(lambda at: Point(at.y, at.x), said.axes_exchanged(), id="<lambda>-x and y are exchanged"),
        pytest.param(
            lambda at: TRUTH.apply(at.mirrored(130.0)),
            said.mirrored_across(),
            id="<lambda>-x counts the other way1",
        ),
    ],
)
@pytest.mark.parametrize("names", [tuple(CORNERS), ("H1", "H2", "M1", "J3")])
def test_mirrored_points_are_named(bed, refusal, names) -> None:
    done = registered(LAYOUT, measure(names, bed=bed))
    assert not done.printable
    assert "mirrored" in str(done.refusals[0])
    assert done.refusals[0] == refusal


@pytest.mark.parametrize("names", [tuple(CORNERS), ("lower-left", "H2", "M1", "J3", "H3"), ("H1", "J3", "H3")])
@pytest.mark.parametrize("swap", [(0, 1), (0, 2), (1, 2)])
def test_two_exchanged_points_are_named(names, swap) -> None:
    measured = list(measure(names))
    i, j = swap
    measured[i], measured[j] = (
        replace(measured[i], seen=measured[j].seen),
        replace(measured[j], seen=measured[i].seen),
    )
    done = registered(LAYOUT, measured)
    assert not done.printable
    assert done.refusals[0].id == "press-register.points-exchanged"
    assert f"{names[i]} and {names[j]}" in str(done.refusals[0])


def test_a_piece_laid_the_other_way_round_is_no_mistake() -> None:
    """Half a turn takes corners to corners; that is a turned piece, not exchanged points."""
    half = Transform.turn(180.4, Point(130, 55))
    done = registered(LAYOUT, measure(CORNERS, bed=half.apply))
    assert done.printable
    assert done.fit is not None
    assert abs(done.fit.map.turn_deg) == pytest.approx(179.6, abs=0.05)


@pytest.mark.parametrize("wrong", ["lower-left", "H4", "J3"])
def test_a_point_that_lies_off_is_named_and_left_out(wrong) -> None:
    measured = off(measure(("lower-left", "lower-right", "upper-left", "H4", "J3")), wrong, Vector(0.7, -0.4))
    done = registered(LAYOUT, measured)
    assert [one.measured.feature.name for one in done.outliers] == [wrong]
    assert done.outliers[0].off.length == pytest.approx(math.hypot(0.7, 0.4), abs=0.06)
    assert done.printable
    assert done.remarks[0].id == "press-register.outlier"
    assert wrong in str(done.remarks[0])


def test_two_points_that_lie_off_are_both_named() -> None:
    names = ("lower-left", "lower-right", "upper-left", "upper-right", "H1", "H4", "J3")
    measured = off(off(measure(names), "H1", Vector(0.9, 0)), "J3", Vector(0, -0.6))
    done = registered(LAYOUT, measured)
    assert {one.measured.feature.name for one in done.outliers} == {"H1", "J3"}


def test_one_wrong_point_of_two_is_refused_by_its_distance() -> None:
    measured = off(measure(("lower-left", "upper-right")), "upper-right", Vector(1.2, 0.5))
    done = registered(LAYOUT, measured)
    assert not done.printable
    assert done.refusals[0].id == "press-register.feature-off"
    assert "maximum 0.3 mm" in str(done.refusals[0])


def test_a_bent_piece_is_refused() -> None:
    """Corners off by half a millimetre in turn: no rigid map meets them, and no single point is to blame."""
    measured = list(measure(CORNERS))
    for number, by in enumerate((0.5, -0.5, 0.5, -0.5)):
        measured[number] = replace(measured[number], seen=measured[number].seen.moved(Vector(0.0, by)))
    done = registered(LAYOUT, measured)
    assert not done.printable
    assert not done.outliers


def test_a_coat_thicker_than_planned_moves_the_corners_and_not_the_print() -> None:
    """The outline 0.1 mm larger all round: the scale must stay 1, or the legends would leave their holes."""
    names = (*CORNERS, "H1", "H4", "J2.1" if "J2.1" in KNOWN else "J2")
    done = registered(LAYOUT, measure(names, grown=0.1))
    assert done.fit is not None
    assert done.fit.model is Model.RIGID
    assert done.fit.growth == pytest.approx(0.1, abs=0.02)
    assert done.printable
    assert any(remark.id == "press-register.outline-larger" for remark in done.remarks)


def test_a_printer_out_of_scale_is_found_and_told() -> None:
    stretched = Affine(1.0008, 0, 0, 1.0008, 30, 20)
    done = registered(LAYOUT, measure((*CORNERS, "H1", "H2", "M1"), bed=stretched.apply))
    assert done.fit is not None
    assert done.fit.model is Model.SIMILARITY
    assert done.fit.map.stretch[0] == pytest.approx(1.0008, abs=1e-4)
    assert any(remark.id == "press-register.scale-across" for remark in done.remarks)
    assert any("ppm" in str(remark) for remark in done.remarks)


def test_an_uncoated_piece_is_asked_about() -> None:
    thick = replace(LAYOUT.panel, coat=replace(LAYOUT.panel.coat, thickness=0.3))
    assert isinstance(thick.coat, Coat)
    from panelart.cutouts import cut_outline

    layout = replace(LAYOUT, panel=thick, cut_outline=cut_outline(thick))
    done = registered(layout, measure(CORNERS, grown=-0.3))
    assert any(remark.id == "press-register.bare-size" for remark in done.remarks)


@pytest.mark.parametrize(("factor", "unit"), [(1 / 25.4, "inches"), (0.1, "centimetres"), (72 / 25.4, "points")])
@pytest.mark.parametrize("model", [None, Model.RIGID, Model.SIMILARITY, Model.AFFINE])
def test_another_unit_is_named(factor, unit, model) -> None:
    done = registered(LAYOUT, measure(CORNERS, bed=lambda at: Point(at.x * factor, at.y * factor)), model=model)
    assert tuple(map(str, done.refusals)) == (str(said.unit_mistaken(unit=unit)),)


@pytest.mark.parametrize("model", list(Model))
def test_no_model_takes_a_mirror_image(model) -> None:
    done = registered(LAYOUT, measure(CORNERS, bed=lambda at: Point(-at.x, at.y)), model=model)
    assert "mirrored" in str(done.refusals[0])


def test_points_of_another_panel_are_refused() -> None:
    done = registered(LAYOUT, measure(CORNERS, bed=lambda at: Point(at.x * 1.5, at.y * 0.7)))
    assert not done.printable


def test_too_tight_a_register_is_refused_with_the_way_out() -> None:
    done = registered(LAYOUT, measure(("lower-left", "DS1"), noise=0.0), tolerance=0.05)
    assert not done.printable
    assert "further apart" in " ".join(map(str, done.refusals))


def test_advice_gives_what_it_says() -> None:
    """2,000 pieces measured at the advised features: the worst legend's error holds 95 times in 100."""
    rng = np.random.default_rng(9)
    from panelart.press.register import aim_points

    aims = aim_points(LAYOUT)
    for advice in advised(LAYOUT, KNOWN, noise=0.05):
        places = [feature.at for feature in advice.features]
        at = max(aims, key=lambda aim: aim.distance(Point(*np.mean(places, axis=0))))
        errors = []
        for _ in range(2000):
            pairs = [(place, place.moved(Vector(*rng.normal(0, 0.025, 2)))) for place in places]
            errors.append(umeyama(pairs, scaled=False).apply(at).distance(at))
        # A circle round an ellipse of error holds 95 to 98.6 in 100 (1.96 to 2.45 standard deviations).
        assert np.mean(np.array(errors) <= advice.error) >= 0.945
        assert np.mean(np.array(errors) <= 0.75 * advice.error) < 0.95


def test_more_and_wider_features_are_better() -> None:
    errors = [advice.error for advice in advised(LAYOUT, KNOWN, noise=0.05)]
    assert errors == sorted(errors, reverse=True)
    assert len(errors) == 5


HEAD = "feature,x,y\n"


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        pytest.param("", 1, "Missing columns: feature, x and y", id="-1-columns are not named"),
        pytest.param("a,b\n1,2\n", 1, "Missing columns: feature, x and y", id="a,b\n1,2\n-1-columns are not named"),
        (HEAD + "lower-left,1\n", 2, "y is ''"),
        (HEAD + "lower-left,one,2\n", 2, "x is 'one'"),
        pytest.param(HEAD + "lower-left,nan,2\n", 2, "x is 'nan'; maximum", id=f"{HEAD}lower-left,nan,2\n-2-x is nan"),
        pytest.param(
            HEAD + "lower-left,1e9,2\n", 2, "maximum 20000 mm", id=f"{HEAD}lower-left,1e9,2\n-2-at most 20000 mm"
        ),
        pytest.param(
            HEAD + "\nlower-lift,1,2\n",
            3,
            "Did you mean 'lower-left'",
            id=f"{HEAD}\nlower-lift,1,2\n-3-Did you mean 'lower-left'",
        ),
        pytest.param(HEAD + ",1,2\n", 2, "has no feature", id=f"{HEAD},1,2\n-2-without a feature"),
        pytest.param(
            HEAD + "H1,1,2\nH1,3,4\n", 3, "already in line 2", id=f"{HEAD}H1,1,2\nH1,3,4\n-3-in line 2 already"
        ),
        ("feature,x,y,panel_x,panel_y\ndot,1,2,3,\n", 2, "panel_y is ''"),
    ],
)
def test_a_file_that_cannot_be_used_names_its_line(text, line, says) -> None:
    with pytest.raises(SpecError) as raised:
        read_measured(text.encode(), "points.csv", KNOWN, Point(0, 0))
    assert any(problem.where.line == line and says in str(problem) for problem in raised.value.problems)


def test_bytes_that_are_no_text_are_refused() -> None:
    with pytest.raises(SpecError, match="UTF-8"):
        read_measured(b"\xff\xfe\x00", "points.csv", KNOWN, Point(0, 0))


def test_spreadsheets_write_semicolons_and_commas() -> None:
    text = "\ufeffFeature;X;Y;panel_x;panel_y\nLower left corner;1,5;2,25;;\ndot;3;4;10,5;0\ntop edge;5;6;;\n"
    one, two, three = read_measured(text.encode(), "p.csv", KNOWN, Point(100, 0))
    assert (one.feature.name, one.seen) == ("lower-left", (1.5, 2.25))
    assert (two.feature.at, two.seen) == ((110.5, 0), (3, 4))
    assert three.feature.across == (0, 1)


def test_the_corrected_artwork_is_where_the_piece_is() -> None:
    """Read by poppler's and pikepdf's eyes: the outline of the piece on the page, in the printer's millimetres."""
    pikepdf = pytest.importorskip("pikepdf")
    from io import BytesIO

    by = Affine.of(TRUTH)
    files = fit_artwork(LAYOUT, by, Box(0, 0, 600, 400))
    assert files == fit_artwork(LAYOUT, by, Box(0, 0, 600, 400))
    with pikepdf.open(BytesIO(files["artwork-fitted.pdf"])) as pdf:
        page = pdf.pages[0]
        assert [float(side) / 72 * 25.4 for side in page.MediaBox] == pytest.approx([0, 0, 600, 400], abs=1e-4)
        groups = [str(group.Name) for group in pdf.Root.OCProperties.OCGs]
        assert groups == ["base", "legend-white", "legend-amber", "cutouts", "outline"]
        matrices = [
            [float(value) for value in operands]
            for operands, operator in pikepdf.parse_content_stream(page)
            if str(operator) == "cm"
        ]
        page_matrix, piece = (np.array(m).reshape(3, 2) for m in matrices)
        whole = np.vstack([piece[:2] @ page_matrix[:2], piece[2] @ page_matrix[:2] + page_matrix[2]]) / 72 * 25.4
        for corner in CORNERS:
            at = np.array(KNOWN[corner].at)
            assert at @ whole[:2] + whole[2] == pytest.approx(TRUTH.apply(Point(*at)), abs=1e-4)


def test_the_corrected_artwork_looks_alike_in_both_files() -> None:
    pdfium, resvg = pytest.importorskip("pypdfium2"), pytest.importorskip("resvg_py")
    from io import BytesIO

    from PIL import Image

    files = fit_artwork(LAYOUT, Affine.of(TRUTH), Box(0, 0, 508, 254))
    page = pdfium.PdfDocument(files["artwork-fitted.pdf"])[0]
    one = np.array(page.render(scale=100 / 72).to_pil().convert("L"), dtype=float)
    svg = files["artwork-fitted.svg"].decode()
    drawn = Image.open(BytesIO(bytes(resvg.svg_to_bytes(svg_string=svg, dpi=100, background="white"))))
    other = np.array(drawn.convert("L"), dtype=float)
    assert one.shape == other.shape == (1000, 2000)
    assert (one < 200).sum() > 3000
    # Hairlines are widened by pdfium; where one has ink the other has it within a pixel.
    near = np.zeros_like(one, dtype=bool)
    for dx in (-1, 0, 1):
        for dy in (-1, 0, 1):
            near |= np.roll(np.roll(other, dx, 0), dy, 1) < 250
    assert not ((one < 200) & ~near).any()


def test_a_piece_off_the_bed_is_refused() -> None:
    with pytest.raises(ValueError, match="is not inside the bed of 300 × 300 mm"):
        fit_artwork(LAYOUT, Affine(e=100.0), Box(0, 0, 300, 300))


def test_two_processes_would_write_the_same_name_once() -> None:
    svg = fit_artwork(LAYOUT, Affine.of(TRUTH))["artwork-fitted.svg"].decode()
    ids = re.findall(r' id="([^"]+)"', svg)
    assert len(ids) == len(set(ids))
