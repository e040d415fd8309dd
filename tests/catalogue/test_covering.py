"""A bezel or flange that is smaller than its opening, on either side of just covering it."""

from __future__ import annotations

import pytest

from panelart import catalogue
from panelart.catalogue import read_contents
from panelart.catalogue.covering import uncovered
from panelart.diagnostics import SpecError

PART = """\
panelart-catalogue: 1
parts:
  lamp:
    title: Lamp
    openings: [{role: body, OPENING}]
    front:
      - {what: lens, circle: {diameter: 16}, projection: 12}
      - {what: WHAT, circle: {diameter: 22}, projection: 3}
"""


@pytest.mark.parametrize(
    ("opening", "what", "told"),
    [
        ("circle: {diameter: 22}", "bezel", False),
        ("circle: {diameter: 22.01}", "bezel", True),
        ("circle: {diameter: 22.01}", "front flange", True),
        ("circle: {diameter: 22.01}", "nut", False),  # which nobody expects to hide the hole
        ("rectangle: {width: 15, height: 15}", "bezel", False),
        ("rectangle: {width: 16, height: 16}", "bezel", True),  # its corners are 22.6 apart
    ],
)
def test_a_bezel_that_does_not_cover_its_opening(opening: str, what: str, *, told: bool) -> None:
    data = PART.replace("OPENING", opening).replace("WHAT", what).encode()
    if not told:
        assert list(read_contents(data, "house.yaml").components) == ["lamp"]
        return
    with pytest.raises(SpecError) as raised:
        read_contents(data, "house.yaml")
    (problem,) = raised.value.problems
    assert str(problem.where) == "house.yaml:8:9"
    assert problem.message.startswith(f"The {what} does not cover the opening")


def test_a_dimension_changed_in_a_spec_is_held_against_it_too() -> None:
    from panelart.catalogue import component_from
    from panelart.source.problems import Problems
    from panelart.source.yaml import read

    problems = Problems()
    node = read("{part: pilot-22, opening: {diameter: 60}}", "front.yaml")
    assert component_from(node, "H1", problems) is None
    assert "does not cover the opening" in problems.error().problems[0].message


@pytest.mark.few(40)
@pytest.mark.parametrize("name", catalogue.names())
def test_every_bezel_of_the_catalogue_covers_its_opening(name: str) -> None:
    assert uncovered(catalogue.component(name)) is None
