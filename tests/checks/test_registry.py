"""Every rule is listed, named for what is wrong, and has its manual page."""

from __future__ import annotations

import ast
import importlib
import pkgutil
import re
from pathlib import Path

import pytest

import panelart.checks
from panelart.checks import registry
from panelart.checks.registry import PANEL_RULES, RULES, WAIVER_RULES, by_name
from panelart.checks.rule import Rule
from panelart.extensions import RefusedError

EVERY = pytest.mark.parametrize("rule", RULES.values(), ids=lambda rule: rule.name)


@EVERY
def test_every_rule_has_a_manual_page(rule):
    lines = rule.doc.splitlines()
    assert lines[0].endswith(".")
    for part in ("Source:", "Fix:", "Fails:", "Passes:"):
        assert sum(line.startswith(part) for line in lines) == 1, part


@EVERY
def test_every_rule_is_named_in_words(rule):
    assert re.fullmatch(r"[a-z]+(-[a-z]+)+", rule.name)


@EVERY
def test_every_rule_can_be_worded(rule):
    words = {"subject": "S", "other": "O", "measured": "1 mm", "limit": "2 mm"}
    assert rule.says.written(words)
    assert rule.fix.written(words)


@EVERY
def test_what_is_wrong_begins_with_a_name_and_what_to_do_is_a_sentence(rule):
    assert rule.says.english.startswith("{subject}") or rule.says.english[0].isupper()
    assert not rule.says.english.endswith(".")
    assert rule.fix.english == "{other}" or (rule.fix.english[0].isupper() and rule.fix.english.endswith("."))


LIMITS_IN_WORDS = re.compile(r"; (?:minimum|maximum) \{limit\}")


@EVERY
def test_a_limit_in_a_sentence_is_a_minimum_or_a_maximum(rule):
    if "{limit}" in rule.says.english:
        assert LIMITS_IN_WORDS.search(rule.says.english)


def test_no_rule_of_any_module_is_missing():
    written = set()
    for module in pkgutil.iter_modules(panelart.checks.__path__):
        if module.name == "rule":
            continue
        source = Path(importlib.import_module(f"panelart.checks.{module.name}").__file__).read_text(encoding="utf-8")
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, ast.FunctionDef) and any(
                isinstance(mark, ast.Call) and getattr(mark.func, "id", "") == "rule" for mark in node.decorator_list
            ):
                written.add(node.name.replace("_", "-"))
    assert written == set(RULES)
    assert set(RULES) == set(PANEL_RULES) | set(WAIVER_RULES)


def _named_in(tree: ast.Module) -> list[int]:
    """The lines where a rule's name is written, but for the cases of rules, or is taken apart."""
    cases = {
        id(text)
        for call in ast.walk(tree)
        if isinstance(call, ast.Call) and getattr(call.func, "attr", "") == "cases"
        for text in ast.walk(call)
    }
    lines: list[int] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and node.value in RULES and id(node) not in cases:
            lines.append(node.lineno)
        above = [getattr(node, "func", None)] if isinstance(node, ast.Call) else getattr(node, "comparators", [])
        if any(ast.unparse(one).endswith(("finding.rule", "finding.rule.startswith")) for one in above if one):
            lines.append(node.lineno)
    return lines


def test_no_rule_is_known_by_the_spelling_of_its_name():
    root = Path(panelart.__file__).parent
    found = {
        path.relative_to(root).as_posix(): lines
        for path in sorted(root.rglob("*.py"))
        if (lines := _named_in(ast.parse(path.read_text(encoding="utf-8"))))
    }
    # Waivers go by the name that the spec writes.
    assert found == {"checks/waivers.py": [found["checks/waivers.py"][0]]}


@pytest.mark.parametrize(
    "code",
    [
        'if finding.rule == "legend-too-small": pass',
        'RULES["parts-collide"]',
        "if finding.rule.startswith('legend'): pass",
        "if 'edge' in finding.rule: pass",
    ],
)
def test_the_ways_of_naming_a_rule_are_found(code):
    assert _named_in(ast.parse(code)) != []
    assert _named_in(ast.parse("opening.cases('', fails='parts-collide', passes='x')")) == []


def test_two_rules_of_one_name_are_refused():
    rule = RULES["parts-collide"]
    assert isinstance(rule, Rule)
    with pytest.raises(RefusedError, match="parts-collide"):
        by_name([rule, rule])


def test_no_module_of_rules_has_patterns_of_its_own():
    # What texts mean is asked of the room `texts`.
    folder = Path(registry.__file__).parent
    modules = {path.name: ast.parse(path.read_text("utf-8")) for path in folder.glob("*.py")}
    assert len(modules) > len(registry.FAMILIES)
    importing = {
        name
        for name, tree in modules.items()
        for node in ast.walk(tree)
        if (isinstance(node, ast.Import) and any(each.name in {"re", "regex"} for each in node.names))
        or (isinstance(node, ast.ImportFrom) and node.module in {"re", "regex"})
    }
    assert importing == set()
