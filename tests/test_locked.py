"""Every library that the program or its tests need, however far down, is in the list of locked versions."""

from __future__ import annotations

import re
import tomllib
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

from panelart.extras import EXTRAS

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LINES = (ROOT / ".ci" / "locked.txt").read_text(encoding="utf-8").splitlines()
PINS = {canonicalize_name(name): pin for line in LINES for name, _, pin in (line.partition("=="),) if pin}


def needed(name: str, extras: frozenset[str], met: set[tuple[str, frozenset[str]]]) -> None:
    """Everything that a distribution brings here with its extras, into `met`."""
    if (name, extras) in met:
        return
    met.add((name, extras))
    try:
        if version(name) != PINS.get(name, version("panelart")):
            return  # another version may need other things
        wanted = [Requirement(line) for line in requires(name) or ()]
    except PackageNotFoundError:
        return  # an extra that is not installed here
    for one in wanted:
        if one.marker is None or any(one.marker.evaluate({"extra": extra}) for extra in extras | {""}):
            needed(canonicalize_name(one.name), frozenset(one.extras), met)


def test_all_that_is_needed_is_locked() -> None:
    met: set[tuple[str, frozenset[str]]] = set()
    needed("panelart", frozenset({"dev", "test", "all", "cluster"}), met)
    assert {name for name, _ in met} - PINS.keys() == {"panelart"}


def test_extras_bring_what_the_program_asks_for() -> None:
    """`panelart.extras` names by import what pyproject.toml names by distribution; `all` is all but the cluster."""
    extras = PROJECT["optional-dependencies"]
    assert set(extras) - {"all", "test", "dev"} == set(EXTRAS)
    for name, libraries in EXTRAS.items():
        assert sorted(Requirement(line).name for line in extras[name]) == sorted(libraries)
    (everything,) = map(Requirement, extras["all"])
    assert everything.extras == set(EXTRAS) - {"cluster"}


def test_lowest_versions_are_stated_and_not_above_the_locked_ones() -> None:
    stated = [*PROJECT["dependencies"], *(line for name in EXTRAS for line in PROJECT["optional-dependencies"][name])]
    for one in map(Requirement, stated):
        (bound,) = one.specifier
        assert bound.operator == ">="
        assert Version(bound.version) <= Version(PINS[canonicalize_name(one.name)])


def test_the_list_has_versions_only() -> None:
    assert [line for line in LINES if not re.fullmatch(r"#.*|[A-Za-z0-9._-]+==[A-Za-z0-9.]+", line)] == []
