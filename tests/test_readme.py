"""What README and the key reference say is true of the program as it stands."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from panelart.catalogue import read_contents
from panelart.cli.commands import COMMANDS as ALL_COMMANDS
from panelart.diagnostics import Severity, SpecError
from panelart.pipeline import build
from panelart.processes.registry import BUILT_IN
from panelart.reports.errors import errors_text
from panelart.reports.text import text_report
from panelart.spec.language import key_reference
from panelart.spec.read import panel_from_text

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = ("quick-test-command", "test-command")


def blocks(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", README, flags=re.DOTALL)


def test_the_example_is_a_panel_without_errors() -> None:
    built = build(panel_from_text(blocks("yaml")[0], "README.md"))
    assert [f.sentence for f in built.inspection.findings if f.severity is Severity.ERROR] == []


def test_the_part_of_ones_own_is_that_of_the_demo() -> None:
    """The entry shown makes the hole that the demo's file makes, which has a little more."""
    (block,) = (text for text in blocks("yaml") if text.startswith("panelart-catalogue"))
    (shown,) = read_contents(block.encode(), "README.md").components.values()
    kept = read_contents((ROOT / "demo" / "house-parts.yaml").read_bytes(), "house-parts.yaml").components["beacon-18"]
    assert shown.openings[0].contour == kept.openings[0].contour
    assert shown.openings[0].passes == kept.openings[0].passes


def test_the_slip_shown_is_answered_as_shown() -> None:
    text = blocks("yaml")[0].replace("part: toggle-12,", "part: toggel-12,")
    with pytest.raises(SpecError) as slip:
        panel_from_text(text, "front.yaml")
    lines = text.splitlines()
    told = errors_text(slip.value.problems, source=lambda where: lines[where.line - 1])
    assert told == blocks("text")[0].strip()


def test_the_report_shown_is_the_report() -> None:
    """`panelart check` on the example with S1 moved makes it; it is pasted as printed."""
    text = blocks("yaml")[0].replace("at: [28, 32]", "at: [9.15, 32]")
    lines = text.splitlines()
    inspection = build(panel_from_text(text, "front.yaml")).inspection
    assert text_report(inspection, source=lambda where: lines[where.line - 1]) == blocks("text")[1].strip()


def test_every_command_is_in_the_table() -> None:
    told = {line.split("`")[1].split()[1] for line in README.splitlines() if line.startswith("| `panelart ")}
    assert told == set(ALL_COMMANDS)


def test_every_process_is_in_the_example_of_printing() -> None:
    """Beside the key: one that is chosen, and the others."""
    (told,) = re.findall(r"^  process: (\S+) +# (.+)$", README, flags=re.MULTILINE)
    assert sorted([told[0], *told[1].split(", ")]) == sorted(BUILT_IN)


def test_the_key_reference_is_current() -> None:
    """`panelart schema --markdown > panelart/spec/language.md` makes it."""
    kept = (ROOT / "panelart" / "spec" / "language.md").read_text(encoding="utf-8")
    assert kept == key_reference() + "\n"


@pytest.mark.parametrize("link", re.findall(r"\]\(([^)#]+)\)", README))
def test_every_link_leads_somewhere(link: str) -> None:
    assert (ROOT / link).exists()


def test_the_checks_run_the_test_command_as_readme_has_it() -> None:
    """`.ci/run` cuts the command out of README: here by the same means, awk."""
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    program = re.search(r"awk '(.*?)' README\.md", script)
    assert program is not None
    cut = subprocess.run(["awk", program[1], "README.md"], cwd=ROOT, capture_output=True, text=True, check=True)
    quick, full = (re.search(rf"<!-- {mark} -->\n```sh\n(.*?)```", README, flags=re.DOTALL) for mark in COMMANDS)
    assert quick is not None
    assert full is not None
    assert cut.stdout == full[1]
    assert full[1] == quick[1].rstrip() + " --full\n"
    assert "pytest" in quick[1]
