"""Where each value of a YAML text begins and ends, so that one can be changed and the rest left byte for byte.

The nodes of `source.yaml` say what was written and where it starts; these spans add where it ends and in which style
it stands. Both come from the same events.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from enum import Enum

import yaml
from msgspec import field

from panelart.canonical import Struct
from panelart.source.yaml import EVENTS


class Form(Enum):
    """What a span holds."""

    SCALAR = "scalar"
    LIST = "list"
    MAPPING = "mapping"
    ALIAS = "alias"


class Span(Struct, frozen=True, kw_only=True):
    """One value in the text: [start, end) in characters, without blank space and comments after it.

    `style` is the quote or block sign of a scalar, '' for a plain one. `flow` says that a list or mapping stands in
    brackets. An alias has the name it stands for in `text`. A nothing (`key:`) has start == end.
    """

    form: Form
    start: int
    end: int
    text: str = ""
    style: str = ""
    flow: bool = False
    anchor: str = ""
    items: tuple[Span, ...] = ()
    entries: tuple[tuple[Span, Span], ...] = ()

    def __iter__(self) -> Iterator[Span]:
        """This span and all inside it, keys too."""
        yield self
        for item in self.items:
            yield from item
        for key, value in self.entries:
            yield from key
            yield from value


def spans(text: str, *, events: Callable[[str], Iterator[yaml.Event]] = EVENTS) -> Span:
    """The spans of a text that `source.yaml.read` accepts, without byte order mark."""
    builder = _Builder(text)
    for event in events(text):
        builder.take(event)
    assert builder.top is not None  # it has been read before
    return builder.top


class _Open(Struct):
    event: yaml.CollectionStartEvent
    inside: list[Span] = field(default_factory=list)


class _Builder:
    def __init__(self, text: str) -> None:
        self.top: Span | None = None
        self._text = text
        self._open: list[_Open] = []

    def take(self, event: yaml.Event) -> None:
        match event:
            case yaml.ScalarEvent():
                self._put(self._scalar(event))
            case yaml.AliasEvent():
                self._put(Span(form=Form.ALIAS, start=_start(event), end=_end(event), text=str(event.anchor)))
            case yaml.CollectionStartEvent():
                self._open.append(_Open(event))
            case yaml.CollectionEndEvent():
                self._put(self._collection(self._open.pop(), event))

    def _scalar(self, event: yaml.ScalarEvent) -> Span:
        start, end, style = _start(event), _end(event), event.style or ""
        if style in ("|", ">"):
            end = start + len(self._text[start:end].rstrip())
        return Span(
            form=Form.SCALAR, start=start, end=end, text=event.value, style=style, anchor=str(event.anchor or "")
        )

    def _collection(self, done: _Open, event: yaml.CollectionEndEvent) -> Span:
        flow = bool(done.event.flow_style)
        # The end of a block is told where the next value begins; what it holds ends before comments and blank lines.
        end = _end(event) if flow else done.inside[-1].end
        anchor = str(done.event.anchor or "")
        if isinstance(done.event, yaml.MappingStartEvent):
            entries = tuple(zip(done.inside[::2], done.inside[1::2], strict=True))
            return Span(form=Form.MAPPING, start=_start(done.event), end=end, flow=flow, anchor=anchor, entries=entries)
        return Span(
            form=Form.LIST, start=_start(done.event), end=end, flow=flow, anchor=anchor, items=tuple(done.inside)
        )

    def _put(self, span: Span) -> None:
        if self._open:
            self._open[-1].inside.append(span)
        else:
            self.top = span


def _start(event: yaml.Event) -> int:
    assert event.start_mark is not None
    return event.start_mark.index


def _end(event: yaml.Event) -> int:
    assert event.end_mark is not None
    return event.end_mark.index
