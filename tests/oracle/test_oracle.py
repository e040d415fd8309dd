"""Every file of every demonstration panel and of the small specs is what it was: digests against committed manifests.

`pytest tests/oracle -k relay` holds one. What is promised is told in `digests.py`; pages and plates are rendered where
objects have changed, and for a few specs in every run. `ORACLE=rendered pytest tests/oracle` renders all.
"""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path

import pytest

from tests.oracle.making import made, specs
from tests.oracle.manifest import (
    EXPECTED,
    differences,
    missing_renderer,
    path_of,
    read_manifest,
    rendered_differences,
)

pytestmark = pytest.mark.full

SPECS = {spec.stem: spec for spec in specs()}
RENDERED = (
    "relay-tray",
    "screen-print-films",
    "overlay-reverse",
    "print-base-trap",
    "languages-right-to-left",
    "profile",
)
"""Specs whose pages and plates are rendered in every run."""

files_of = cache(made)


@pytest.mark.parametrize("spec", SPECS.values(), ids=SPECS)
def test_files_are_what_they_were(spec: Path) -> None:
    told = differences(read_manifest(spec), files_of(spec))
    if told:
        pytest.fail(
            f"{spec}: {len(told)} of its files differ from {path_of(spec).relative_to(EXPECTED.parent)}:\n  "
            + "\n  ".join(told)
            + f"\nWhat differs: python -m tests.oracle.differ HEAD {spec.stem}"
            + f"\nWhere it is meant, with the reason in the commit: python -m tests.oracle.update {spec.stem}",
            pytrace=False,
        )


@pytest.mark.parametrize("name", SPECS if os.environ.get("ORACLE") == "rendered" else RENDERED)
def test_pages_and_plates_look_as_they_did(name: str) -> None:
    spec = SPECS[name]
    held = read_manifest(spec)
    why = missing_renderer(held)
    if why:
        pytest.skip(why)
    pdfs = {file: data for file, data in files_of(spec).items() if file.endswith(".pdf")}
    changed = {file: kinds for file, data in pdfs.items() if (kinds := rendered_differences(held, file, data))}
    assert changed == {}


def test_no_manifest_is_left_of_a_spec_that_is_gone() -> None:
    assert {path.stem for path in EXPECTED.glob("*.txt")} == set(SPECS)
    assert len(SPECS) == len(specs()), "two specs of one name would share a manifest"
