"""Parts of the catalogue, by name and by words."""

from __future__ import annotations

from panelart import catalogue as built_in
from panelart.api import given
from panelart.api.given import FilePath
from panelart.catalogue.renamed import RENAMED, near_part
from panelart.catalogue.search import search_among
from panelart.diagnostics import nearest
from panelart.messages import catalogue as said
from panelart.messages import diagnostics
from panelart.model.component import Component


class UnknownPartError(LookupError):
    """There is no part of that `name`; `nearest` is the name most like it, None where none is near."""

    def __init__(self, name: str, names: tuple[str, ...]) -> None:
        self.name = name
        self._names = names
        self.nearest = RENAMED.get(name) or nearest(name[:40], names)
        hint = diagnostics.hint_line(hint=near_part(name, names, said.parts()))
        super().__init__(f"{said.unknown_part(name)}\n  {hint}")

    def __reduce__(self) -> tuple[type[UnknownPartError], tuple[str, tuple[str, ...]]]:
        return type(self), (self.name, self._names)


def part(name: str, *, catalogue: FilePath | None = None) -> Component:
    """A part by its name: its openings, what it hides in front and behind, and the source of each dimension.

    Args:
        name: A name of the catalogue, as in `part:` of a spec.
        catalogue: A part file of your own to look in instead.

    Returns:
        The component in its own frame, in mm; contours are made of lines and arcs. `openings` are at finished size;
        each figure has `value`, `unit`, `source`, `known` (its standing) and `tolerance`.

    Raises:
        UnknownPartError: There is none; the nearest name is told.
        SpecError: The part file has errors.
        OSError: The part file cannot be read.
        TypeError: The name is no text.

    Examples:
        >>> import panelart as pa
        >>> toggle = pa.part("toggle-12")
        >>> toggle
        Component('toggle-12', 'Toggle switch, 15/32-...ushing, two positions', 1 opening)
        >>> toggle.openings[0]
        Opening(body, 12.2 x 12.2 mm)
        >>> for figure in toggle.openings[0].figures[:1]:
        ...     print(figure.name, figure.value, figure.unit, figure.known.value)
        diameter 12.2 mm ...
        >>> pa.part("toggel-12")
        Traceback (most recent call last):
        ...
        panelart.api.components.UnknownPartError: Unknown part 'toggel-12'
          hint: Did you mean 'toggle-12'?
    """
    given.text(name, "name")
    if catalogue is None:
        try:
            return built_in.component(name)
        except KeyError:
            raise UnknownPartError(name, built_in.names()) from None
    own = _own(catalogue)
    if name not in own:
        raise UnknownPartError(name, tuple(own))
    return own[name]


def parts(words: str = "", *, catalogue: FilePath | None = None) -> tuple[Component, ...]:
    """The parts that the words ask for, the best first; all parts for "".

    The words are the trade's, in English, German, French, Spanish, Italian or Dutch; a slip of typing does no harm. A
    part whose size, thread or number of positions is another than the one stated is left out.

    Args:
        words: What is looked for.
        catalogue: A part file of your own to look in instead, with the same words.

    Raises:
        SpecError: The part file has errors.
        OSError: The part file cannot be read.

    Examples:
        >>> import panelart as pa
        >>> [beacon] = pa.parts("beacon", catalogue="demo/house-parts.yaml")
        >>> beacon.name, beacon.openings[0].contour.bounds.width
        ('beacon-18', 18.2)
    """
    given.text(words, "words")
    if catalogue is None:
        return tuple(map(built_in.component, built_in.matching(words) if words else built_in.names()))
    own = _own(catalogue)
    return tuple(map(own.__getitem__, search_among(words, own.values()).parts)) if words else tuple(own.values())


def _own(catalogue: FilePath) -> dict[str, Component]:
    path = given.path(catalogue, "catalogue")
    return built_in.read_file(path.read_bytes(), path.as_posix(), built_in.component)
