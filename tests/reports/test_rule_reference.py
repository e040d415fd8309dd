"""The page of all rules is that of the rules there are."""

from __future__ import annotations

import re
from pathlib import Path

from panelart.checks import RULES
from panelart.checks.limits import standard
from panelart.reports.rule_reference import rule_reference

PAGE = Path(__file__).parents[2] / "panelart" / "checks" / "RULES.md"


def test_the_page_is_current():
    """`panelart rules --markdown > panelart/checks/RULES.md` makes it."""
    assert PAGE.read_text(encoding="utf-8") == rule_reference()


def test_every_rule_and_every_limit_is_on_it():
    text = rule_reference()
    assert re.findall(r"^## ([a-z-]+)$", text, flags=re.MULTILINE) == list(RULES)
    for name in standard():
        assert f"| {name} |" in text
