"""The spec as a whole: one panel or several, languages, variables."""

from __future__ import annotations

from typing import Any, Final

from panelart.source.nodes import Mapping
from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import AnyNode, Choice, Integer, Length, ListOf, MapOf, OneOf, Text
from panelart.spec.language import kinds
from panelart.spec.language.areas import Keepout, Mask, Waiver
from panelart.spec.language.boards import Board
from panelart.spec.language.kinds import MAX_SIZE
from panelart.spec.language.making import Making, Operator
from panelart.spec.language.marking import Marking
from panelart.spec.language.modules import MODULES, ModuleFile
from panelart.spec.language.panel import Panel
from panelart.spec.language.parts import ART, FRAMES, LINES, PART_LIST, TEXTS

VERSION: Final = 1
"""The version of the language that is read."""


class Counter(Noun):
    """Number that counts up from piece to piece."""

    first = key(Integer(minimum=0, maximum=10**15), default=1, says="Number of the first piece.")
    step = key(Integer(minimum=1, maximum=10**6), default=1, says="Increment from piece to piece.")
    digits = key(Integer(minimum=1, maximum=18), default=1, says="Minimum number of digits, filled with leading zeros.")
    check = key(
        Choice(("none", "luhn", "mod-97"), "check digits"),
        default="none",
        says="Check digits after the number: `luhn` one (ISO/IEC 7812-1), `mod-97` two (ISO/IEC 7064).",
    )
    before = key(Text(maximum=40), default="", says="Text before the number.")
    after = key(Text(maximum=40), default="", says="Text after the number.")


class CountedVariable(Noun):
    """A counter."""

    MARKED_BY = "counter"

    counter = key(NounOf(Counter), required=True, says="Number that counts up from piece to piece.")


class TabledVariable(Noun):
    """Column of the table of a run."""

    NAME = "variable"
    MARKED_BY = "example"

    example = key(
        Text(maximum=200),
        required=True,
        says=("Value that is shown outside a run; in a run, values come from the column of that name in the table."),
    )


class BoxOfPanels(Noun):
    """Two panels that close one box, back to back, with their middles in line and their lower edges level."""

    NAME = "box"

    front = key(Text(maximum=40), required=True, says="Name of the front panel.")
    rear = key(Text(maximum=40), required=True, says="Name of the opposite panel.")
    depth = key(
        Length(above=0, maximum=MAX_SIZE), required=True, says="Distance between the inside faces of the two panels."
    )
    clearance = key(
        Length(minimum=0, maximum=500), default=0.0, says="Minimum clearance between bodies behind the two panels."
    )


class Spec(Noun):
    """One panel or several. A length without a unit is in mm; units are written as in 0.5 in, 20 thou, 9 pt, 2U."""

    panelart = key(Integer(minimum=VERSION, maximum=VERSION), required=True, says="Version of this language: 1.")
    panel = key(NounOf(Panel), required=True, says="Face, sheet and coat of the panel.")
    marking = key(NounOf(Marking), required=True, says="Process, inks and lettering of the marking.")
    operator = key(NounOf(Operator), otherwise="not specified", says="Person who works at the panel.")
    catalogue = key(
        ListOf(of=Text(maximum=300), what="file names", maximum=50),
        default=(),
        says="Part files of your own, relative to the spec, in the form of the catalogue.",
    )
    limits = key(
        Text(maximum=300),
        otherwise="built-in limits",
        says="File, relative to the spec, with the limits and severities of your company, each with its reason.",
    )
    parts = key(PART_LIST, default=(), says="Components and their positions.")
    boards = key(
        ListOf(of=NounOf(Board), what="circuit boards", maximum=100),
        default=(),
        says="Circuit boards behind the panel, each with the parts on it; their heights are checked.",
    )
    frames = key(FRAMES, default=(), says="Lines round parts that belong together.")
    texts = key(TEXTS, default=(), says="Words and symbols in positions of their own.")
    lines = key(LINES, default=(), says="Lines that show signal flow.")
    art = key(ART, default=(), says="Rules, boxes, marks, drawings and codes in positions of their own.")
    modules = key(
        MODULES,
        default=(),
        says=(
            "What is written once and placed many times, by name; in `parts`, `{module: channel, at: [20, 0]}` places "
            "one. A file of several modules is named in place of each: `{channel: strips.yaml}`."
        ),
    )
    variables = key(
        MapOf(
            keys=Text(maximum=40, pattern="[A-Za-z][A-Za-z0-9_-]*", form="a word: serial"),
            of=OneOf((NounOf(CountedVariable), NounOf(TabledVariable))),
            what="names, each with a counter or an example",
        ),
        default=(),
        says=(
            "Values that differ from piece to piece: `{serial}` in a text is replaced by its value; `date` is the "
            "date of the run."
        ),
    )
    languages = key(
        MapOf(
            keys=kinds.LANGUAGE_TAG,
            of=MapOf(
                keys=Text(maximum=200, lines=4), of=Text(maximum=200, lines=4), what="texts, each with its translation"
            ),
            what="language tags, each with a table of texts",
        ),
        default=(),
        says=(
            "Legends in other languages: `{de: {OUTPUT: AUSGANG}}`, each text as the spec writes it. `make "
            "--language de` letters one; `check` checks the longest of all."
        ),
    )
    keepouts = key(
        ListOf(of=NounOf(Keepout), what="keep-outs", maximum=500), default=(), says="Areas that are kept free."
    )
    masks = key(
        ListOf(of=NounOf(Mask), what="masks", maximum=200),
        default=(),
        says=(
            "Areas that are masked when the panel is coated: bonding pads, gasket lands. Pads of earth studs are "
            "always masked."
        ),
    )
    making = key(
        NounOf(Making), otherwise="one panel, cut by laser, ISO 2768-m, openings H13", says="Manufacture of the panel."
    )
    waivers = key(ListOf(of=NounOf(Waiver), what="waivers", maximum=1000), default=(), says="Accepted findings.")
    panels = key(
        MapOf(
            keys=Text(maximum=40, pattern="[A-Za-z0-9][A-Za-z0-9_-]*", form="a name of letters, digits, - and _"),
            of=AnyNode(of="what a spec of one panel holds", shape=Mapping),
            what="names, each with what a spec of one panel holds",
        ),
        otherwise="one panel",
        says=(
            "Several panels in one spec, by name, each with its own `panel`, `parts` and so on. Keys beside "
            "`panels` apply to all; in `panel` and `marking`, a panel's own keys replace the shared ones. "
            "`box.yaml#rear` selects one panel."
        ),
    )
    box = key(
        NounOf(BoxOfPanels),
        otherwise="independent panels",
        says="Two of `panels` that close one box; what is behind them is checked against each other.",
    )


def json_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a spec, for editors."""
    from panelart.source import json_schema as schema_of

    schema = schema_of.json_schema(NounOf(Spec), "panelart spec, version 1", "urn:panelart:spec:1")
    # What a set shares need not be whole: each panel adds its own.
    part = {"type": "object"}
    spec = schema["$defs"]["spec"]
    shared = {**spec["properties"], Spec.panel.name: part, Spec.marking.name: part}
    schema["$defs"]["set"] = {**spec, "required": [Spec.panelart.name, Spec.panels.name], "properties": shared}
    schema["if"] = {"required": [Spec.panels.name]}
    schema["then"], schema["else"] = {"$ref": "#/$defs/set"}, {"$ref": schema.pop("$ref")}
    return schema


def module_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a module file, for editors."""
    from panelart.source import json_schema as schema_of

    return schema_of.json_schema(NounOf(ModuleFile), "panelart modules, version 1", "urn:panelart:modules:1")


def key_reference() -> str:
    """Every key of specs and module files in Markdown."""
    from panelart.source import reference

    return reference.key_reference(NounOf(Spec), NounOf(ModuleFile))
