"""Kept lists, answered by their truth, as first panels: without errors, as listed, and the same once more by the bill.

What a list holds is read from its truth, which was set by hand before any reader saw it.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from panelart import catalogue
from panelart.lists.compare import differences, set_differences
from panelart.lists.matching import Matcher
from panelart.lists.read import read_list
from panelart.pipeline import read
from panelart.sheets.lists import parts_csv
from panelart.sheets.purchasing import purchasing_csv
from panelart.spec.read import panel_names
from tests.lists.answered import drafted
from tests.lists.judged import LISTS
from tests.lists.test_kept import LOST

DEMOS = sorted(path for path in (Path(__file__).parents[2] / "demo").rglob("*.yaml") if "house" not in path.name)


def needs(path: Path) -> None:
    for suffix, reader in ((".xls", "xlrd"), (".xlsx", "openpyxl"), (".ods", "odf")):
        if path.suffix == suffix:
            pytest.importorskip(reader, reason="the extra spreadsheet is not installed")


OTHERWISE = {
    **LOST,
    "173-dosierstation-tuer": "the glands stand on the sheet of the mounting plate, which is told and not read",
    "176-cuadro-riego": "the glands stand on the sheet of the mounting plate, which is told and not read",
}
"""Lists whose panel has not all that truth has, and why."""


@pytest.mark.few(3)
@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_an_answered_list_is_a_panel_without_errors_that_is_as_listed(
    path: Path, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    needs(path)
    if path.stem in OTHERWISE:
        request.applymarker(pytest.mark.xfail(strict=True, reason=OTHERWISE[path.stem]))
    made = drafted(path, tmp_path)
    suits = [part.component.thickness for one in made.built.values() for part in one.layout.panel.parts]
    ranges = [each for each in suits if each is not None]
    # Parts that no one sheet suits are told, and nothing that a draft may choose would mend it.
    no_sheet = bool(ranges) and max(low for low, _ in ranges) > min(high for _, high in ranges)
    assert set(made.errors) <= ({"sheet-too-thick", "sheet-too-thin"} if no_sheet else set())
    assert not any(built.layout.unplaced for built in made.built.values())
    panels = {side: built.layout.panel for side, built in made.built.items()}
    found = (
        set_differences(panels, made.of.listed) if len(panels) > 1 else differences(*panels.values(), made.of.listed)
    )
    assert found == ()
    for side, panel in panels.items():
        for listed in (purchasing_csv(panel), parts_csv(panel)):
            assert differences(panel, read_list(listed, f"{side}.csv")) == ()
    assert made.of.wrong == 0
    assert sum(len(panel.parts) for panel in panels.values()) == count_of_parts(path)


def count_of_parts(path: Path) -> int:
    """How many parts of the catalogue truth has on the panels of a list."""
    rows = yaml.safe_load(path.with_name(f"{path.stem}.truth.yaml").read_text(encoding="utf-8"))["rows"].values()
    parts = [told for told in rows if isinstance(told, dict) and told.get("panel") and not told.get("repeated")]
    return sum(int(told["count"]) for told in parts)


@pytest.mark.few(4)
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_demo_is_as_its_own_bill_and_its_own_list_of_parts_have_it(path: Path) -> None:
    panels = {name: read(path.with_name(f"{path.name}#{name}") if name else path) for name in panel_names(path) or [""]}
    own = {part.component.name: part.component for panel in panels.values() for part in panel.parts}
    matcher = Matcher({name: part for name, part in own.items() if name not in catalogue.names()})
    for panel in panels.values():
        for listed in (purchasing_csv(panel), parts_csv(panel)):
            assert differences(panel, read_list(listed, "parts.csv", matcher)) == ()
