"""Files read back: those of demos agree, and each kind of damage is found.

The oracle is the damage itself, done to the bytes without the program's writers: a hole moved by 0.02 mm, a letter left
out, a figure changed, another state, a file cut short. That the readers read right is held against pdfium, lxml with
svgpathtools and ezdxf in the last test: areas of what each draws.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from unittest import mock

import ezdxf
import pikepdf
import pytest
import svgpathtools
from lxml import etree

from panelart.pipeline import Built, build, panel_files, read
from panelart.readback import Disagreement, read_back
from panelart.readback.dxf_tags import dxf_loops
from panelart.readback.pdf_paths import pdf_loops
from panelart.readback.svg_paths import svg_loops
from tests.commands import run_within

ROOT = Path(__file__).parents[2]
DEMOS = [
    demo
    for demo in sorted((ROOT / "demo").glob("*.yaml"))
    if "panelart-catalogue" not in demo.read_text(encoding="utf-8")
]
VALVE, TRAY = ROOT / "demo" / "valve-stand.yaml", ROOT / "demo" / "relay-tray.yaml"


@cache
def built(demo: Path) -> Built:
    return build(read(demo))


@cache
def file(demo: Path, name: str) -> bytes:
    return panel_files(built(demo))[name]


def found(demo: Path, name: str, data: bytes) -> tuple[Disagreement, ...]:
    return read_back(built(demo).layout, built(demo).inspection, {name: data})


@pytest.mark.few(1)
@pytest.mark.parametrize("demo", DEMOS, ids=lambda demo: demo.stem)
def test_files_of_demos_agree(demo: Path) -> None:
    files = panel_files(built(demo))
    assert read_back(built(demo).layout, built(demo).inspection, files) == ()


def moved_in_dxf(data: bytes) -> bytes:
    """The first circle 0.02 mm to the right."""
    lines = data.decode("cp1252").split("\n")
    at = next(place for place, line in enumerate(lines) if line.strip() == "CIRCLE")
    x = next(place for place in range(at, len(lines)) if lines[place].strip() == "10") + 1
    lines[x] = f"{float(lines[x]) + 0.02:.6f}"
    return "\n".join(lines).encode("cp1252")


def larger_in_svg(data: bytes) -> bytes:
    return re.sub(rb' r="4.1"', b' r="4.12"', data, count=1)


def one_opening_less_in_svg(data: bytes) -> bytes:
    return re.sub(rb'<circle [^>]*id="DS1"[^>]*/>', b"", data)


def one_more_in_svg(data: bytes) -> bytes:
    return data.replace(b'<circle aria-label="opening DS1', b'<circle cx="90" cy="60" r="3"/><circle aria-label="opening DS1', 1)  # fmt: skip  # noqa: E501


def figure_changed(data: bytes) -> bytes:
    return data.replace(b",8.2,8.2,", b",8.3,8.2,", 1)


def row_less(data: bytes) -> bytes:
    return b"\n".join(data.split(b"\n")[:-2]) + b"\n"


def other_revision(data: bytes) -> bytes:
    return data.replace(b'data-revision="A"', b'data-revision="B"')


def cut_short(data: bytes) -> bytes:
    return data[: len(data) // 3]


@pytest.mark.parametrize(
    ("demo", "name", "damage"),
    [
        (VALVE, "cutouts.dxf", moved_in_dxf),
        (TRAY, "blank.dxf", moved_in_dxf),
        (VALVE, "cutouts.svg", larger_in_svg),
        (VALVE, "cutouts.svg", one_opening_less_in_svg),
        (VALVE, "cutouts.svg", one_more_in_svg),
        (VALVE, "cutouts.svg", other_revision),
        (VALVE, "holes.csv", figure_changed),
        (VALVE, "holes.csv", row_less),
        (VALVE, "parts.csv", row_less),
        (VALVE, "cutouts.pdf", cut_short),
        (VALVE, "cutouts.dxf", cut_short),
        (VALVE, "cutouts.svg", cut_short),
        (VALVE, "panel.png", cut_short),
        (VALVE, "findings.json", cut_short),
        (VALVE, "build-sheet.pdf", cut_short),
    ],
)
def test_damage_is_found(demo: Path, name: str, damage: Callable[[bytes], bytes]) -> None:
    whole = file(demo, name)
    hurt = damage(whole)
    assert hurt != whole
    assert found(demo, name, whole) == ()
    assert found(demo, name, hurt) != ()


def test_a_word_that_is_not_painted_is_found() -> None:
    """The largest filled path of the plate is taken out of the artwork by pikepdf."""
    with pikepdf.open(io.BytesIO(file(TRAY, "artwork.pdf"))) as document:
        page = document.pages[0]
        kept, path, best = [], [], (0, 0, 0)
        for one in pikepdf.parse_content_stream(page):
            name = str(one.operator)
            path = [*path, len(kept)] if name in ("m", "l", "c", "h") else path
            kept.append(one)
            if name == "f":
                best = max(best, (len(path), path[0], len(kept) - 1))
            path = path if name in ("m", "l", "c", "h") else []
        _, first, last = best
        page.Contents = document.make_stream(pikepdf.unparse_content_stream(kept[:first] + kept[last + 1 :]))
        out = io.BytesIO()
        document.save(out)
    assert any(str(one.says).startswith("Plate white covers") for one in found(TRAY, "artwork.pdf", out.getvalue()))


def test_the_command_writes_nothing_where_one_disagrees(tmp_path: Path) -> None:
    done = run_within("make", VALVE, "-o", "out", "--only", "cutouts,holes", "--read-back", cwd=tmp_path)
    assert done.returncode == 0
    assert "4 files read back" in done.stdout
    with mock.patch.dict("panelart.readback.held._READERS", {"svg": lambda _: []}):
        done = run_within("make", VALVE, "-o", "other", "--only", "cutouts,holes", "--read-back", cwd=tmp_path)
    assert done.returncode == 3
    assert "cutouts.svg: " in done.stderr
    assert "a defect of this program" in done.stderr
    assert not (tmp_path / "other").exists()


def test_readers_agree_with_other_readers() -> None:
    """Areas of all closed loops of the cut file: by ezdxf's entities, by svgpathtools, and by ours from all formats."""
    entities = ezdxf.read(io.StringIO(file(VALVE, "cutouts.dxf").decode("cp1252"))).modelspace()
    circles = [math.pi * one.dxf.radius**2 for one in entities if one.dxftype() == "CIRCLE"]
    root = etree.fromstring(file(VALVE, "cutouts.svg"))
    radii = [float(one.get("r")) for one in root.iter("{*}circle")]
    paths = [svgpathtools.parse_path(one.get("d")) for one in root.iter("{*}path")]
    closed = [abs(path.area()) for path in paths if path.isclosed()]
    wanted = sorted([math.pi * radius**2 for radius in radii] + closed)
    assert sorted(circles) == pytest.approx(sorted(math.pi * radius**2 for radius in radii))
    for loops in (
        dxf_loops(file(VALVE, "cutouts.dxf")),
        svg_loops(file(VALVE, "cutouts.svg")),
        pdf_loops(file(VALVE, "cutouts.pdf")),
    ):
        ours = sorted(loop.area for loop in loops if loop.closed and loop.layer != "notes")
        assert ours == pytest.approx(wanted, rel=5e-4)
