"""The front door for programs: what `import panelart` gives, and what the commands stand on.

| call | gives |
| --- | --- |
| `load(source)` | a `Panel`: the spec read and resolved, in mm |
| `build(panel)` | a `Result`: the panel laid out and inspected, its picture and its files |
| `panels(source)` | the names of the panels of a set |
| `part(name)`, `parts(words)` | `Component`s of the catalogue, each figure with its source |
| `compare(old, new)` | a `Comparison`: what changed |

Lengths are in mm, angles in degrees counter-clockwise, places from the lower-left corner of the finished face seen from
the front, y up. What a spec has wrong is raised as one `SpecError` with all its problems; files that cannot be written
raise OSError. The same input gives the same bytes.
"""

from __future__ import annotations

from panelart.api.changed import Comparison, compare
from panelart.api.components import UnknownPartError, part, parts
from panelart.api.result import Findings, Result, build
from panelart.api.specs import Source, load, panels
from panelart.checks import Finding
from panelart.checks.comparison import Difference
from panelart.diagnostics import Problem, Severity, SpecError
from panelart.documents.choosing import NoSuchDocumentError
from panelart.model.component import Component
from panelart.model.layout import Layout
from panelart.model.panel import Panel

__all__ = [
    "Comparison",
    "Component",
    "Difference",
    "Finding",
    "Findings",
    "Layout",
    "NoSuchDocumentError",
    "Panel",
    "Problem",
    "Result",
    "Severity",
    "Source",
    "SpecError",
    "UnknownPartError",
    "build",
    "compare",
    "load",
    "panels",
    "part",
    "parts",
]
