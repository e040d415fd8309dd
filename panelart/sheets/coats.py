"""The coat in words, as title blocks and overviews have it."""

from __future__ import annotations

from typing import Final

from panelart.messages import Message
from panelart.messages import sheets as said
from panelart.model.panel import Coat

_KINDS: Final = {
    "none": said.no_coat(),
    "powder": said.powder(),
    "wet-paint": said.wet_paint(),
    "anodise": said.anodised(),
    "zinc": said.zinc(),
    "conversion": said.conversion(),
}


def coat_in_words(coat: Coat) -> Message:
    """The kind of coat with its name, where it has one."""
    kind = _KINDS[coat.kind]
    return said.named_coat(coat=kind, name=coat.name) if coat.name and coat.kind != "none" else kind
