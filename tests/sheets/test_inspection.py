"""Measured values against limits on either side, and capability against numpy."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import numpy as np
import pytest

from panelart.pipeline import lay_out
from panelart.sheets.inspection import (
    Characteristic,
    Measured,
    MeasuredError,
    characteristics,
    inspection_csv,
    judged,
    read_measured,
    specs_of,
)
from panelart.spec.read import panel_from_text
from tests.commands import run_within
from tests.sheets.test_build import FLANGES, POWDER, SPEC


@pytest.fixture(scope="module")
def layout():
    return lay_out(panel_from_text(SPEC.format(coat=POWDER, more=FLANGES, cutting="laser"), "tray.yaml"))


def test_every_size_has_its_limits(layout) -> None:
    """ISO 2768-m: 220 is +-0.5, 185 is +-0.5; ISO 286-2: 3.4 H13 is +0.18/0, and the coat takes 0.08 to 0.12 off the
    two walls where 0.16 is the usual: 3.4 - 0.04 to 3.58 + 0.04; the film its range."""
    known = {one.key: (one.nominal, one.minimum, one.maximum) for one in characteristics(layout)}
    assert known["panel", "width"] == (220, 219.5, 220.5)
    assert known["H1", "diameter"] == (3.4, 3.36, 3.62)
    assert known["H1", "x"] == (185, 184.5, 185.5)
    assert known["H1", "countersink"] == (6.3, 6.1, 6.5)
    assert known["N1", "x"] == (120, 119.7, 120.3)
    assert ("N1", "diameter") not in known  # the nut sits in it
    assert known["F1", "along"] == (40, 39.7, 40.3)
    assert known["F1", "back"] == (11, 10.8, 11.2)
    assert known["top flange", "length"] == (20, 19.8, 20.2)
    assert known["coat", "thickness"] == (0.08, 0.06, 0.1)


def test_the_list_is_read_back_when_it_is_filled_in(layout) -> None:
    rows = list(csv.DictReader(io.StringIO(inspection_csv(layout).decode())))
    assert read_measured(inspection_csv(layout)) == ()
    for row in rows:
        row["measured_mm"] = row["nominal_mm"]
    text = io.StringIO()
    writer = csv.DictWriter(text, rows[0].keys())
    writer.writeheader()
    writer.writerows(rows)
    verdicts = judged(characteristics(layout), read_measured(text.getvalue().encode()))
    assert len(verdicts) == len(rows)
    assert not any(verdict.out for verdict in verdicts)


SIZE = Characteristic(
    feature="S1", measure="diameter", nominal=12.2, minimum=12.0, maximum=12.4, method="caliper", by="a trade pattern"
)


def values(*measured: float) -> list[Measured]:
    return [
        Measured(feature="S1", measure="diameter", piece=str(piece), value=value, line=piece + 1)
        for piece, value in enumerate(measured, start=1)
    ]


@pytest.mark.parametrize(("value", "out"), [(11.999, 1), (12.0, 0), (12.2, 0), (12.4, 0), (12.401, 1)])
def test_a_value_on_the_limit_holds(value: float, out: int) -> None:
    (verdict,) = judged([SIZE], values(value))
    assert len(verdict.out) == out
    assert verdict.cp is None


def test_capability_is_that_of_the_sample() -> None:
    """Against numpy: standard deviation with n - 1; Cp = (most - least) / 6 s, Cpk by the nearer limit."""
    sample = [12.21, 12.25, 12.19, 12.24, 12.27, 12.22]
    (verdict,) = judged([SIZE], values(*sample))
    spread = np.std(sample, ddof=1)
    assert verdict.mean == pytest.approx(np.mean(sample))
    assert verdict.cp == pytest.approx(0.4 / (6 * spread))
    assert verdict.cpk == pytest.approx((12.4 - np.mean(sample)) / (3 * spread))


def test_pieces_all_alike_have_no_capability() -> None:
    (verdict,) = judged([SIZE], values(12.2, 12.2))
    assert verdict.cpk is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("feature,measure\nS1,x\n", "no column 'measured_mm'"),
        ("feature,measure,measured_mm\nS1,diameter,12.2\nS1,diameter,wide\n", "Line 3: found 'wide'"),
        ("feature,measure,measured_mm\nS1,diameter,nan\n", "Line 2: found 'nan'"),
        ("feature,measure,measured_mm\nS1,diameter,12,2\n", "Line 2 has more cells than line 1 has columns; .* 12.34"),
        (
            'feature,measure,measured_mm\nS1,diameter,"12,2"\n',
            "Line 2: '12,2' has a decimal comma; write '12.2'",
        ),
    ],
)
def test_a_file_that_cannot_be_used_says_where(text: str, said: str) -> None:
    with pytest.raises(MeasuredError, match=said):
        read_measured(text.encode())


@pytest.mark.parametrize(("parting", "number"), [(",", "12.2"), (";", "12.2"), (";", "12,2"), ("\t", "12,2")])
def test_cells_are_parted_by_commas_semicolons_or_tabs(parting: str, number: str) -> None:
    """Spreadsheets that write a decimal comma part cells with semicolons; RFC 4180 has commas, TSV tabs."""
    rows = (("feature", "measure", "piece", "measured_mm", "spec"), ("S1", "diameter", "2", number, "abc"))
    data = ("\ufeff" + "".join(f"{parting.join(row)}\r\n" for row in rows)).encode()
    (one,) = read_measured(data)
    assert (one.feature, one.measure, one.piece, one.value) == ("S1", "diameter", "2", 12.2)
    assert specs_of(data) == ("abc",)


def test_a_value_with_two_commas_is_none() -> None:
    with pytest.raises(MeasuredError, match="1,234,5"):
        read_measured(b"feature;measure;measured_mm\nS1;diameter;1,234,5\n")


def test_empty_cells_beyond_the_columns_are_no_slip() -> None:
    (one,) = read_measured(b"feature,measure,measured_mm\nS1,diameter,12.2,,\n")
    assert (one.feature, one.measure, one.value) == ("S1", "diameter", 12.2)


def test_a_value_of_nothing_is_refused() -> None:
    with pytest.raises(MeasuredError, match="no 'depth' of 'S1'"):
        judged([SIZE], [Measured(feature="S1", measure="depth", piece="1", value=1.0, line=2)])


def test_two_values_of_one_piece_are_refused() -> None:
    with pytest.raises(MeasuredError, match="second value"):
        judged([SIZE], [*values(12.2), *values(12.3)])


def inspected(tmp_path: Path, rows: str, spec: str = SPEC.format(coat=POWDER, more=FLANGES, cutting="laser")):
    (tmp_path / "tray.yaml").write_text(spec, encoding="utf-8")
    (tmp_path / "measured.csv").write_text(rows, encoding="utf-8")
    words = ["inspect", str(tmp_path / "tray.yaml"), "--measured", str(tmp_path / "measured.csv")]
    return run_within(*words, cwd=Path.cwd())


def test_five_pieces_have_their_capability_and_what_is_missing_is_named(tmp_path: Path) -> None:
    """Values 219.8 219.9 220 220.1 220.2: s = 0.158, Cp = 1 / (6 s) = 1.05; 220.6 is out of 219.5 to 220.5."""
    widths = [219.8, 219.9, 220.0, 220.1, 220.2]
    rows = "".join(f"panel,width,{piece},{value}\n" for piece, value in enumerate(widths, start=1))
    head = "feature,measure,piece,measured_mm\n"
    result = inspected(tmp_path, head + rows)
    assert result.returncode == 0
    assert f"5 pieces, Cp {1 / (6 * np.std(widths, ddof=1)):.2f}" in result.stdout
    assert "not measured: panel height, S1 x," in result.stdout
    out = inspected(tmp_path, head + rows.replace("220.2", "220.6"))
    assert out.returncode == 1
    assert "OUT panel width" in out.stdout
    assert "piece 5 220.6" in out.stdout


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("feature,size\n", "no column 'measure'"),
        ("feature;size;measured_mm\n", "with commas, semicolons or tabs between"),
        ("", "no column 'feature'"),
        ("feature,measure,measured_mm\nS1,diameter,0.48 in\n", "found '0.48 in'; accepted: millimetres"),
        ("feature,measure,measured_mm\nXX,diameter,3\n", "no 'diameter' of 'XX'"),
    ],
)
def test_a_table_that_cannot_be_used_is_refused(tmp_path: Path, rows: str, told: str) -> None:
    result = inspected(tmp_path, rows)
    assert result.returncode == 2
    assert told in result.stderr


def test_values_for_another_state_of_the_spec_are_told(tmp_path: Path) -> None:
    result = inspected(tmp_path, "feature,measure,measured_mm,spec\npanel,width,220,0123456789\n")
    assert "warning: measured for spec 0123456789" in result.stdout


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_may_end_as_any_system_ends_them(end: str) -> None:
    data = end.join(["feature;measure;measured_mm", "S1;diameter;12,25", ""]).encode()
    (found,) = read_measured(data)
    assert (found.feature, found.value) == ("S1", 12.25)
