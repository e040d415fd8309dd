"""panelart: from a list of panel components to checked cutouts, placed legends and the files to make them.

    import panelart as pa

    panel = pa.load("front.yaml")           # a path, a YAML text or a dict
    result = pa.build(panel)                # laid out and checked; in a notebook, the picture
    for finding in result.findings.errors:
        print(finding.rule, finding.refs, finding.place)
    result.write("out")

Nothing is imported before it is used; what the names mean is told in `panelart.api`.
"""

from __future__ import annotations

TYPE_CHECKING = False  # type checkers take it for true, as that of typing, which would take longer than all the rest
if TYPE_CHECKING:
    from panelart.api import (
        Comparison,
        Component,
        Difference,
        Finding,
        Findings,
        Layout,
        NoSuchDocumentError,
        Panel,
        Problem,
        Result,
        Severity,
        SpecError,
        UnknownPartError,
        build,
        compare,
        load,
        panels,
        part,
        parts,
    )

__version__ = "0.1.0"

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
    "SpecError",
    "UnknownPartError",
    "build",
    "compare",
    "load",
    "panels",
    "part",
    "parts",
]


if not TYPE_CHECKING:  # type checkers take the names from above, and so find those that are misspelt

    def __getattr__(name: str) -> object:
        if name not in __all__:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}", name=name)
        from panelart import api

        found = getattr(api, name)
        globals()[name] = found
        return found


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
