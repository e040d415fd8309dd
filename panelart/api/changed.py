"""What changed between two panels."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import overload

from panelart.api import given
from panelart.api.result import Result, build
from panelart.checks.comparison import Difference
from panelart.checks.comparison import compare as compared
from panelart.drawing.representation import Drawing
from panelart.model.layout import Layout
from panelart.model.panel import Panel
from panelart.reports.comparison import comparison_json, comparison_text
from panelart.reprs import brief, counted


class Comparison(Sequence[Difference]):
    """The differences between two panels. In a notebook it shows the two laid over each other: red was, blue is."""

    def __init__(self, differences: Iterable[Difference], old: Layout, new: Layout) -> None:
        self._differences = tuple(differences)
        self.old = old
        self.new = new

    def text(self) -> str:
        """The differences as lines of text, grouped, the last without a line end."""
        return comparison_text(self._differences)

    def json(self) -> str:
        """The differences as JSON text; lengths in mm, places from the lower-left corner."""
        return comparison_json(self._differences)

    @property
    def overlay(self) -> Drawing:
        """Both panels laid over each other, 1:1: red was, blue is, grey stayed. Drawn when asked for."""
        from panelart.sheets.overlay import overlay

        return overlay(self.old, self.new)

    @overload
    def __getitem__(self, index: int) -> Difference: ...

    @overload
    def __getitem__(self, index: slice) -> tuple[Difference, ...]: ...

    def __getitem__(self, index: int | slice) -> Difference | tuple[Difference, ...]:
        return self._differences[index]

    def __len__(self) -> int:
        return len(self._differences)

    def __iter__(self) -> Iterator[Difference]:
        return iter(self._differences)

    def __str__(self) -> str:
        return self.text()

    def _repr_svg_(self) -> str:
        """Both panels laid over each other, for notebooks."""
        from panelart.writers import svg

        return svg(self.overlay).decode("utf-8")

    def __repr__(self) -> str:
        panels = self.old.panel, self.new.panel
        titles = [" ".join(filter(None, (panel.title, panel.revision))) for panel in panels]
        return brief("Comparison", *map(repr, titles), counted(len(self), "difference"))


def compare(old: Panel | Result, new: Panel | Result) -> Comparison:
    """What changed from one panel to another: facts of the specs, openings, legends, frames, findings.

    Args:
        old: What was: a panel, which is built without a saved placement, or what `build` gave.
        new: What is.

    Raises:
        SpecError: One of them cannot be laid out.
        TypeError: One of them is neither.

    Examples:
        >>> import pathlib, panelart as pa
        >>> text = pathlib.Path("demo/house-panel.yaml").read_text(encoding="utf-8")
        >>> old = pa.load(text, folder="demo")
        >>> new = pa.load(text.replace("revision: A", "revision: B"), folder="demo")
        >>> for difference in pa.compare(old, new):
        ...     print(difference.about.value, difference.what, difference.old, difference.new)
        panel panel: revision A B
    """
    # Both are looked at before one is built: building takes seconds.
    both = [one if isinstance(one, Result) else given.panel(one) for one in (old, new)]
    before, after = (one if isinstance(one, Result) else build(one, ignore_placement=True) for one in both)
    differences = compared((before.layout, before.inspection), (after.layout, after.inspection))
    return Comparison(differences, before.layout, after.layout)
