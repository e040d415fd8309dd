"""A JSON Schema (2020-12) written from the tables, so that editors complete and check what is typed.

JSON Schema sees values after an editor's YAML reader has given them types. A text place therefore takes
numbers and truth values too: the legend 010 is text here and a number there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Final, assert_never

from panelart.source.nodes import Mapping, Scalar
from panelart.source.reference import records
from panelart.source.schema import (
    Angle,
    AnyNode,
    Choice,
    Colour,
    Field,
    Flag,
    Integer,
    Kind,
    Later,
    Length,
    ListOf,
    MapOf,
    Number,
    OneOf,
    Record,
    ScalarKind,
    Text,
    TupleOf,
)

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"

Json = dict[str, Any]

_NAME_IN_BRACES: Final = r"\{[A-Za-z][A-Za-z0-9_-]*\}"

_LENGTH_TEXT: Final = r"^\s*[-+]?[\d.].*$"


def json_schema(top: Kind[Any], title: str, identity: str) -> Json:
    """The schema of a file whose top is `top`; each record stands once, under `$defs`.

    Raises ValueError when two different records have one name.
    """
    records(top)
    definitions = _Definitions()
    whole = _kind(top, definitions)
    return {
        "$schema": DIALECT,
        "$id": identity,
        "title": title,
        **whole,
        "$defs": {name: definitions[name] for name in sorted(definitions)},
    }


class _Definitions(dict[str, Json]):
    """The records written so far, by the name in their references; those whose values may be names in braces apart."""

    def __init__(self) -> None:
        super().__init__()
        self.names = False

    @contextmanager
    def taking(self, *, names: bool) -> Iterator[None]:
        """While this lasts, values may be names in braces."""
        above, self.names = self.names, names
        try:
            yield
        finally:
            self.names = above

    def slug(self, record: Record) -> str:
        """The name of a record in references."""
        return _slug(record.name) + ("-in-module" if self.names else "")


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


def _kind(kind: Kind[Any], definitions: _Definitions) -> Json:
    if isinstance(kind, ScalarKind):
        return _or_name(_scalar(kind)) if definitions.names else _scalar(kind)
    match kind:
        case TupleOf():
            return _tuple(kind, definitions)
        case ListOf():
            return {"type": "array", "items": _kind(kind.of, definitions), **_count(kind)}
        case MapOf():
            return {"type": "object", **_keys(kind), "additionalProperties": _kind(kind.of, definitions)}
        case AnyNode():
            return {"type": _SHAPES.get(kind.shape, "array"), "description": kind.of}
        case Later():
            return _kind(kind.kind(), definitions)
        case OneOf():
            return {"anyOf": [_kind(of, definitions) for of in kind.kinds]}
        case Kind(record=Record() as record):
            with definitions.taking(names=definitions.names or kind.takes_names):
                return _reference(record, definitions)
        case _:
            raise TypeError(f"no JSON Schema for {type(kind).__name__}")


def _tuple(kind: TupleOf, definitions: _Definitions) -> Json:
    items = [{"title": name, **_kind(of, definitions)} for name, of in kind.of]
    return {"type": "array", "prefixItems": items, "minItems": len(items), "maxItems": len(items)}


_SHAPES: Final[dict[type[object], str | list[str]]] = {Mapping: "object", Scalar: ["string", "number", "boolean"]}


def _keys(kind: MapOf[Any, Any]) -> Json:
    """The keys of a mapping, where they are a choice."""
    return {"propertyNames": {"enum": list(kind.keys.words)}} if isinstance(kind.keys, Choice) else {}


def _or_name(schema: Json) -> Json:
    """A value, or a name in braces in its place."""
    if "string" in schema.get("type", ()) and "pattern" not in schema and "enum" not in schema:
        return schema
    return {"anyOf": [*schema.get("anyOf", [schema]), {"type": "string", "pattern": _NAME_IN_BRACES}]}


def _scalar(kind: ScalarKind) -> Json:
    match kind:
        case Text():
            return _text(kind)
        case Number():
            return {"type": "number", **_bounds(kind)}
        case Integer():
            return {"type": "integer", "minimum": kind.minimum, "maximum": kind.maximum}
        case Length() | Angle():
            # The bounds of a text with a unit are checked by the reader; a schema cannot convert.
            return {"anyOf": [{"type": "number", **_bounds(kind)}, {"type": "string", "pattern": _LENGTH_TEXT}]}
        case Flag():
            return {"type": "boolean"}
        case Choice():
            return {"type": "string", "enum": list(kind.words)}
        case Colour():
            return {"type": "string", "pattern": "^#[0-9A-Fa-f]{6}$"}
        case _:
            assert_never(kind)


def _count(kind: ListOf[Any]) -> Json:
    """How many items a list has at least and at most, as far as it is bounded."""
    minimum = {"minItems": kind.minimum} if kind.minimum else {}
    maximum = {} if kind.maximum is None else {"maxItems": kind.maximum}
    return {**minimum, **maximum}


def _text(kind: Text) -> Json:
    if kind.pattern:
        # The text must fit the pattern in whatever form the editor's reader hands it on.
        return {"anyOf": [{"type": "string", "pattern": f"^(?:{kind.pattern})$"}, {"type": ["number", "boolean"]}]}
    return {"type": ["string", "number", "boolean"], "maxLength": kind.maximum}


def _bounds(kind: Number | Length | Angle) -> Json:
    bounds = {
        "minimum": kind.minimum,
        "exclusiveMinimum": kind.above,
        "maximum": kind.maximum,
        "exclusiveMaximum": kind.below,
    }
    return {name: bound for name, bound in bounds.items() if bound is not None}


def _reference(record: Record, definitions: _Definitions) -> Json:
    slug = definitions.slug(record)
    if slug not in definitions:
        definitions[slug] = {}  # stands for itself while its own fields, which may name it, are written
        required = [field.name for field in record.fields if field.required]
        definitions[slug] = {
            "type": "object",
            **({"description": record.doc} if record.doc else {}),
            "properties": {field.name: _field(field, definitions) for field in record.fields},
            **({"required": required} if required else {}),
            "additionalProperties": False,
        }
    return {"$ref": f"#/$defs/{slug}"}


def _field(field: Field[Any], definitions: _Definitions) -> Json:
    described = {"description": str(field.doc)}
    default = {} if field.default is None else {"default": _plain(field.default)}
    return {**_kind(field.kind, definitions), **described, **default}


def _plain(value: object) -> object:
    return list(value) if isinstance(value, tuple) else value
