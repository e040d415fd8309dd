"""Modules: what is written once, with parameters, and placed many times."""

from __future__ import annotations

from collections.abc import Mapping as Table
from typing import Any, Final

from panelart.source.nodes import Mapping, Node
from panelart.source.nouns import N, Noun, NounOf, key
from panelart.source.problems import Problems
from panelart.source.schema import Choice, Integer, Kind, Length, MapOf, Number, OneOf, Text
from panelart.spec.language import kinds
from panelart.spec.language.parts import BESIDE_KEYS, PART_LIST

MODULE_VERSION: Final = 1
"""The version of module files that is read."""

PARAMETER_KINDS: Final[Table[str, Kind[Any]]] = {
    "text": Text(maximum=200, lines=4),
    "number": Number(),
    "length": Length(minimum=-kinds.MAX_SIZE, maximum=kinds.MAX_SIZE),
    "angle": kinds.TURN,
    "part": Text(maximum=80, form="the name of a part in the catalogue"),
}
"""What a parameter may hold, by the word for it."""

_TYPE: Final = Choice(tuple(PARAMETER_KINDS), "types")


class Parameter(Noun):
    """What differs from one place of a module to the next."""

    type = key(
        _TYPE,
        default="text",
        says="What it holds: a text (words of a legend, a ref, the name of an ink, a knob or a file), a number, a "
        "length, an angle, or the name of a part of the catalogue.",
    )
    default = key(
        kinds.RAW,
        otherwise="none; `with` must have a value",
        says="Value where `with` has none; may name parameters above it in braces.",
    )


class NounLater(NounOf[N], frozen=True):
    """A noun that is read when its parameters are known; until then it is handed on as it is written."""

    @property
    def takes_names(self) -> bool:
        """As every kind."""
        return True

    def parse(self, node: Node, problems: Problems) -> Any:
        """The node itself. None when it is no mapping, which is added to the problems."""
        if isinstance(node, Mapping):
            return node
        self.record.refuse(node, problems)
        return None


class Module(Noun):
    """Parts, frames, texts, lines and drawings about an origin of their own, written once and placed many times.

    `"{name}"` in a value stands for the parameter of that name: in texts and refs, as a figure, as the name of a part.
    Positions are measured from the origin of the module, or from its parts.
    """

    parameters = key(
        MapOf(
            keys=kinds.MODULE_NAME,
            of=OneOf((_TYPE, NounOf(Parameter))),
            what="names, each with a type, or a type and a default",
        ),
        default=(),
        says="What differs from place to place: `{name: text, knob: {type: length, default: 13}}`.",
    )
    parts = key(PART_LIST, default=(), says="Components, repeats, mirrors, layouts, and other modules.")
    frames, texts, lines, art = BESIDE_KEYS


MODULES: Final[MapOf[str, Any]] = MapOf(
    keys=kinds.MODULE_NAME,
    of=OneOf((Text(maximum=300, form="the file that has it, relative to this one"), NounLater(Module))),
    what="names, each with a module, or with the file that has it",
)


class ModuleFile(Noun):
    """Modules in a file of their own, for several specs."""

    version = key(
        Integer(minimum=MODULE_VERSION, maximum=MODULE_VERSION),
        required=True,
        name="panelart-modules",
        says="Version of this form: 1.",
    )
    modules = key(MODULES, required=True, says="Modules by name.")
