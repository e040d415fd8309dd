"""Where colour may lie on the face: up to its edge or past it, and off openings, threads and bare pads."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from panelart.marking.areas import NOTHING, contour_area, grown, united
from panelart.marking.overlay import overlay_outline, windows
from panelart.model.layout import Layout
from panelart.model.panel import Part, Side


def kept_off(layout: Layout) -> shapely.Geometry:
    """Openings, threads and bare pads with the margins round them that ink keeps."""
    printing = layout.panel.marking.printing
    if printing.overlay is not None:
        return united(
            grown(contour_area(window.contour), printing.ink_margin) for window in windows(layout, printing.overlay)
        )
    grounds = [*_round_openings(layout), *_at_the_front(layout)]
    return united(grounds) if grounds else NOTHING


def _round_openings(layout: Layout) -> Iterator[shapely.Geometry]:
    """Each opening with the margin of ink round it, a thread with its own."""
    printing = layout.panel.marking.printing
    threaded = {part.ref for part in layout.panel.parts if _has_thread(part)}
    for opening in layout.openings:
        margin = printing.thread_margin if opening.ref in threaded else printing.ink_margin
        yield grown(contour_area(opening.finished), margin)


def _has_thread(part: Part) -> bool:
    hardware = part.component.hardware
    return hardware is not None and bool(hardware.thread)


def _at_the_front(layout: Layout) -> Iterator[shapely.Geometry]:
    """Bare pads with their margin, then what the spec keeps clear."""
    for mask in layout.masks:
        if mask.side is Side.FRONT:
            yield grown(contour_area(mask.contour), layout.panel.marking.printing.mask_margin)
    for keepout in layout.panel.keepouts:
        if keepout.side is Side.FRONT:
            yield contour_area(keepout.contour)


def printable(layout: Layout, bleed: float | None) -> shapely.Geometry:
    """Where a ground of colour lies: `bleed` mm past the edge, or short of it by the process's distance (None).

    A label film is cut after it is printed, so colour that bleeds runs into its windows too.
    """
    printing = layout.panel.marking.printing
    face = face_area(layout)
    if bleed is None:
        return shapely.difference(grown(face, -printing.edge_margin), kept_off(layout))
    wide = grown(face, bleed)
    return wide if printing.overlay is not None else shapely.difference(wide, kept_off(layout))


def face_area(layout: Layout) -> shapely.Geometry:
    """The face, or the film that is stuck on it."""
    overlay = layout.panel.marking.printing.overlay
    return contour_area(layout.panel.outline if overlay is None else overlay_outline(layout, overlay))
