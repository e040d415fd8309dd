"""How many ways there are through each function of the program, as radon counts them, and the exceptions that are left.

A function has at most LARGEST. Those above it when the limit was set stand in `complexity.txt` with their numbers,
which only shrink. After one was made simpler, take it off with

    python -m tests.complexity

which lowers the numbers, drops what is done, and adds nothing.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from radon.visitors import Class, Function

ROOT: Final = Path(__file__).parent.parent
FILE: Final = Path(__file__).with_name("complexity.txt")
LARGEST: Final = 12


def listed() -> dict[str, int]:
    """The exceptions, by file and function."""
    lines = FILE.read_text(encoding="utf-8").splitlines()
    rows = (line.rpartition(": ") for line in lines if line and not line.startswith("#"))
    return {function: int(number) for function, _, number in rows}


def found() -> dict[str, int]:
    """Every function above the limit; of two of one name in a file the larger number."""
    numbers: dict[str, int] = {}
    for path in sorted((ROOT / "panelart").rglob("*.py")):
        for function, number in complexities(path.read_text(encoding="utf-8")):
            name = f"{path.relative_to(ROOT).as_posix()}:{function}"
            if number > LARGEST:
                numbers[name] = max(number, numbers.get(name, 0))
    return numbers


def complexities(source: str) -> Iterator[tuple[str, int]]:
    """Every function of a module with its number: methods by their class, what is defined within one by that one."""
    from radon.visitors import ComplexityVisitor

    seen = ComplexityVisitor.from_ast(ast.parse(source))
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


def smaller(before: Mapping[str, int], now: Mapping[str, int]) -> dict[str, int]:
    """The exceptions without what is done; nothing is added and no number grows."""
    return {function: min(number, now[function]) for function, number in before.items() if function in now}


def write(exceptions: Mapping[str, int]) -> None:
    """Write the file."""
    lines = [
        f"# More than {LARGEST} ways through: it only shrinks, by `python -m tests.complexity`.",
        *(f"{function}: {number}" for function, number in sorted(exceptions.items())),
    ]
    FILE.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write(smaller(listed(), found()))
