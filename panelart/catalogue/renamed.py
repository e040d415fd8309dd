"""Entries that have another name now: the old one is answered with the new one, not with what is spelt most like it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from panelart.diagnostics import did_you_mean
from panelart.messages import Message, Said
from panelart.messages import diagnostics as said

RENAMED: Final[Mapping[str, str]] = MappingProxyType(
    {
        "hdmi-edge": "hdmi",
        "rj45-edge": "rj45",
        "usb-a-edge": "usb-a",
        "usb-b-edge": "usb-b",
        "usb-c-flush": "usb-c-edge",
    }
)
"""New names by old ones."""

_LONGEST: Final = 40
"""Characters of a name that is compared with others."""


def near_part(name: str, known: Iterable[str], what: Said) -> Message:
    """A hint for a name that no part has: the one it has now, else the nearest known, else what is accepted."""
    now = RENAMED.get(name)
    return said.did_you_mean(name=now) if now is not None else did_you_mean(name[:_LONGEST], known, what)
