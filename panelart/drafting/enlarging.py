"""A panel made larger by the least: sizes to try, and the text with one of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.diagnostics import Problem, SpecError
from panelart.messages import drafting as said
from panelart.source import edit, yaml
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Scalar
from panelart.source.nodes import Sequence as SequenceNode
from panelart.source.written import Written
from panelart.spec import language
from panelart.spec.moves import further
from panelart.units import length

STEP: Final = 5.0
"""By how much a side is made longer, mm."""

_PANEL: Final = language.Spec.panel.name
_SIZE: Final = language.Panel.size.name

Size = tuple[float, float]


def written_size(text: str, file: str) -> Size:
    """The width and height of the panel, mm. Raises SpecError where the spec does not state them as two lengths."""
    sides = _sides(text, file)
    if len(sides) == 2:  # width and height
        return length(sides[0].text), length(sides[1].text)
    top = yaml.read(text, file)
    where = (top.get(_PANEL) or top).where
    raise SpecError([Problem(where=where, says=said.size_not_to_be_enlarged(), accepts=said.size_of_two_lengths())])


def _sides(text: str, file: str) -> list[Scalar]:
    """The two sides as they are written; none where the size is said otherwise."""
    panel = yaml.read(text, file).get(_PANEL)
    size = panel.get(_SIZE) if isinstance(panel, MappingNode) else None
    return [side for side in size.items if isinstance(side, Scalar)] if isinstance(size, SequenceNode) else []


def enlarged(size: Size) -> Iterator[Size]:
    """Sizes that are wider or higher, those of least area first, up to twice as wide or as high."""
    width, height = size
    wider = [(width + STEP * step, height) for step in range(1, int(width / STEP) + 1)]
    higher = [(width, height + STEP * step) for step in range(1, int(height / STEP) + 1)]
    yield from sorted([*wider, *higher], key=lambda sides: (sides[0] * sides[1], sides))


def with_size(text: str, file: str, size: Size) -> str:
    """The text with the panel's size written anew, each side in its own unit."""
    now = written_size(text, file)
    sides = _sides(text, file)
    values: dict[edit.Path, Written] = {
        (_PANEL, _SIZE, axis): further(sides[axis].text, size[axis] - now[axis])
        for axis in (0, 1)
        if size[axis] != now[axis]
    }
    return edit.put_all(text, values, file)
