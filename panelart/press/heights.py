"""What stands off the face while it is printed on a bed: what is under the head, what holds the face up, what waits.

Flanges are bent back, so that they lift the face off the bed and never come near the head. Hardware that is pressed,
riveted or welded is in the panel when it is printed; everything else is fitted afterwards.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from panelart.canonical import Struct
from panelart.cutouts.envelopes import CABLE
from panelart.cutouts.hardware import components
from panelart.messages import Message
from panelart.messages import press_pieces as said
from panelart.model.component import EnvelopeRole, Fastening
from panelart.model.layout import Layout
from panelart.model.panel import Side

BEFORE: Final = frozenset((Fastening.PRESSED, Fastening.RIVETED, Fastening.WELDED))
"""Hardware of these kinds is in the panel before its face is marked, as the stations of the build sheet have it."""

TOUCHING: Final = 1e-6
"""Heights that differ by less than this are equal, mm."""


class Heights(Struct, frozen=True, kw_only=True):
    """Heights of one panel on the bed, mm.

    `face` is how far its face is above what the panel stands on, and `flanges` whether flanges hold it up. `before`
    and `after` are the heights off the face of what is fitted before and after printing, by ref, without plugs;
    `clearance` is that of the head over the face, None where the shop file does not say.
    """

    face: float
    flanges: bool
    before: Mapping[str, float]
    after: Mapping[str, float]
    clearance: float | None

    @property
    def hits(self) -> dict[str, float]:
        """What is fitted before printing and stands higher than the head clears; off the face where that is unknown."""
        least = 0.0 if self.clearance is None else self.clearance
        return {ref: height for ref, height in self.before.items() if height > least + TOUCHING}

    @property
    def waits(self) -> dict[str, float]:
        """What is fitted after printing since the head would hit it; all of it where the clearance is unknown."""
        least = 0.0 if self.clearance is None else self.clearance
        return {ref: height for ref, height in self.after.items() if height > least + TOUCHING}


def heights(layout: Layout) -> Heights:
    """The heights of a panel as it is printed."""
    panel = layout.panel
    early = {
        ref
        for ref, component, _ in components(panel)
        if component.hardware is not None and component.hardware.fastening in BEFORE
    }
    front = _off_the_face(layout)
    behind = [one.height for one in layout.envelopes if one.side is Side.REAR and one.ref in early]
    below = panel.sheet.thickness + max(behind, default=0.0)
    deep = max((flange.length for flange in panel.flanges), default=0.0)
    return Heights(
        face=max(deep, below),
        flanges=deep >= below,
        before={ref: height for ref, height in front.items() if ref in early},
        after={ref: height for ref, height in front.items() if ref not in early},
        clearance=panel.marking.printing.head_clearance,
    )


def _off_the_face(layout: Layout) -> dict[str, float]:
    """How high each part stands in front, without what is plugged into it."""
    front: dict[str, float] = {}
    for one in layout.envelopes:
        if one.side is Side.FRONT and one.role is not EnvelopeRole.PLUG and one.what != CABLE:
            front[one.ref] = max(front.get(one.ref, 0.0), one.height)
    return front


def heights_told(layouts: Iterable[Layout]) -> Iterator[Message]:
    """What the printer must know of the heights, panel by panel."""
    for layout in layouts:
        found, name = heights(layout), layout.panel.number or layout.panel.title
        yield (said.face_on_flanges if found.flanges else said.face_on_bed)(name=name, height=found.face)
        if found.clearance is None:
            if found.hits:
                yield said.fitted_before(name=name, parts=_grouped(found.hits))
            yield said.head_clearance_unknown(name=name)
        elif found.hits:
            yield said.hits_head(name=name, clearance=found.clearance, parts=_grouped(found.hits))
        else:
            yield said.clears_head(name=name, clearance=found.clearance)
        if found.waits:
            yield said.fitted_after(name=name, parts=_grouped(found.waits))


def _grouped(heights_by_ref: Mapping[str, float]) -> list[Message]:
    """Refs with their height, those of one height together, the highest first."""
    together: dict[float, list[str]] = {}
    for ref, height in heights_by_ref.items():
        together.setdefault(round(height, 2), []).append(ref)
    return [said.part_height(refs=refs, height=height) for height, refs in sorted(together.items(), reverse=True)]
