"""Finding the line of a part in the text of a spec."""

from __future__ import annotations

from pathlib import Path

import pytest

from panelart.diagnostics import SpecError
from panelart.source import edit
from panelart.spec.part_paths import path_of_part, paths_of_parts
from panelart.spec.read import panel_from_text

SPEC = """\
panelart: 1
panel: {title: Trial, size: [200, 80], sheet: {material: aluminium, thickness: 2}}
marking: {process: digital-print, ink: {name: black, colour: "#101010"}}
parts:
  - {ref: S1, part: toggle-12, at: [30, 40]}
  - repeat: {count: 2, step: [25, 0]}
    parts:
      - {ref: "J{n}", part: socket-4, at: [90, 40]}
  - ref: S2
    at: [60, 40]
    part: toggle-12
"""


def test_the_path_leads_to_the_part() -> None:
    assert path_of_part(SPEC, "S2") == ("parts", 2)
    assert paths_of_parts(SPEC) == {"S1": ("parts", 0), "S2": ("parts", 2)}


@pytest.mark.parametrize("ref", ["J1", "J2"])
def test_a_copy_has_no_line_of_its_own(ref: str) -> None:
    with pytest.raises(SpecError) as refused:
        path_of_part(SPEC, ref, "a.yaml")
    (problem,) = refused.value.problems
    assert (problem.says.id, dict(problem.says.arguments)) == ("spec.part-made-with-others", {"ref": ref})
    assert problem.where[1:3] == (8, 15)


def test_an_unknown_ref_is_told_with_the_nearest() -> None:
    with pytest.raises(SpecError, match="Unknown ref 'S3'") as refused:
        path_of_part(SPEC, "S3", "a.yaml")
    assert "S" in refused.value.problems[0].hint


def test_a_moved_part_stands_where_it_was_put() -> None:
    moved = edit.put(SPEC, (*path_of_part(SPEC, "S2"), "at"), [150.5, 20])
    before, after = panel_from_text(SPEC), panel_from_text(moved)
    assert {part.ref: part.at for part in after.parts} == {
        part.ref: (150.5, 20.0) if part.ref == "S2" else part.at for part in before.parts
    }


@pytest.mark.few(3)
@pytest.mark.parametrize(
    "demo", sorted((Path(__file__).parents[2] / "demo").glob("*.yaml")), ids=lambda demo: demo.stem
)
def test_paths_and_places_agree_in_the_demos(demo: Path) -> None:
    """The path at the place that the resolved part points at is the path of that part."""
    text = demo.read_text(encoding="utf-8")
    if not paths_of_parts(text):
        return  # a file of parts, or a panel of repeats alone
    panel = panel_from_text(text, folder=demo.parent)
    paths = paths_of_parts(text)
    places = {part.ref: panel.places[part.where] for part in panel.parts}
    found = {ref: edit.path_at(text, place.line, place.column) for ref, place in places.items()}
    assert {ref: path for ref, path in found.items() if path and len(path) == 3} == {
        ref: (*path, "ref") for ref, path in paths.items()
    }
