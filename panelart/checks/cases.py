"""A rule's case made a whole spec: what it does not say is added, so that a case shows only what matters."""

from __future__ import annotations

import json
from typing import Final

from panelart.source.nodes import Entry, Mapping, Node, Scalar, Sequence
from panelart.source.yaml import read

_REST: Final = """\
panelart: 1
panel:
  title: Trial
  size: [160, 100]
  sheet: {material: aluminium 5754, thickness: 2}
  coat: {kind: none, colour: "#FFFFFF"}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3.5}
  viewing_distance: 500
"""
"""A plain panel without parts, in order as far as any rule sees it."""

_INSTEAD: Final = {"inks": "ink", "gauge": "thickness", "outline": "size"}
"""What a case writes in the place of another key of the plain panel."""


def whole_spec(text: str) -> str:
    """The spec of a case: the plain panel, and in its place, key by key, what the case says.

    Raises SpecError where the text is not YAML.
    """
    return "".join(f"{key}: {value}\n" for key, value in _written(_joined(read(_REST, "plain"), read(text, "case"))))


def _written(top: Mapping) -> list[tuple[str, str]]:
    return [(entry.key.text, _flow(entry.value)) for entry in top.entries]


def _joined(plain: Mapping, own: Mapping) -> Mapping:
    replaced = {_INSTEAD.get(entry.key.text) for entry in own.entries}
    entries: dict[str, Entry] = {entry.key.text: entry for entry in plain.entries if entry.key.text not in replaced}
    for entry in own.entries:
        under, value = entries.get(entry.key.text), entry.value
        if under is not None and isinstance(under.value, Mapping) and isinstance(value, Mapping):
            value = _joined(under.value, value)
        entries[entry.key.text] = Entry(key=entry.key, value=value)
    return Mapping(entries=tuple(entries.values()), where=plain.where)


def _flow(node: Node) -> str:
    match node:
        case Scalar(text=text, quoted=quoted):
            return json.dumps(text, ensure_ascii=False) if quoted else text
        case Sequence(items=items):
            return f"[{', '.join(map(_flow, items))}]"
        case Mapping(entries=entries):
            return f"{{{', '.join(f'{_flow(entry.key)}: {_flow(entry.value)}' for entry in entries)}}}"
