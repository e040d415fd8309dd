"""No function of the program has more ways through it than a reader can follow, as radon counts them."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

if TYPE_CHECKING:
    from radon.visitors import Class, Function

visitors = pytest.importorskip("radon.visitors")

ROOT: Final = Path(__file__).parent.parent
LARGEST: Final = 12

NESTED = """
class Panel:
    def checked(self, parts):
        def fits(part):
            return part.width < 9 and part.height < 9
        return [part for part in parts if fits(part)]
"""


def complexities(source: str) -> Iterator[tuple[str, int]]:
    """Every function of a module with its number: methods by their class, what is defined within one by that one."""
    seen = visitors.ComplexityVisitor.from_ast(ast.parse(source))
    yield from _functions(seen.functions, "")
    yield from _methods(seen.classes, "")


def _methods(classes: Iterable[Class], within: str) -> Iterator[tuple[str, int]]:
    for each in classes:
        name = f"{within}{each.name}."
        yield from _functions(each.methods, name)
        yield from _methods(each.inner_classes, name)


def _functions(functions: Iterable[Function], within: str) -> Iterator[tuple[str, int]]:
    for each in functions:
        yield f"{within}{each.name}", each.complexity
        yield from _functions(each.closures, f"{within}{each.name}.")


def test_no_function_is_above_the_limit() -> None:
    above = {
        f"{path.relative_to(ROOT).as_posix()}:{function}": number
        for path in sorted((ROOT / "panelart").rglob("*.py"))
        for function, number in complexities(path.read_text(encoding="utf-8"))
        if number > LARGEST
    }
    assert above == {}, "divide it into steps with names of their own"


def test_methods_and_what_is_defined_within_them_are_counted() -> None:
    assert list(complexities(NESTED)) == [("Panel.checked", 3), ("Panel.checked.fits", 2)]
