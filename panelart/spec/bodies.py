"""What a part covers about its own centre, before it stands anywhere: what gaps of layouts are measured between."""

from __future__ import annotations

from panelart.geometry import ORIGIN, Contour, circle
from panelart.model.component import Component


def covered(component: Component, knob: float | None, what: str) -> tuple[Contour, ...]:
    """The contours of a part that is not turned; `knob` is the diameter of the knob on it, if there is one.

    In front these are its envelopes, openings, countersinks and the knob; `what` is front, rear or both.
    """
    front = [envelope.contour for envelope in component.front]
    front += [opening.contour for opening in component.openings]
    rear = [envelope.contour for envelope in component.rear]
    for opening in component.openings:
        if opening.countersink is not None:
            cone = circle(opening.countersink.diameter, opening.contour.bounds.centre)
            (rear if opening.countersink.from_rear else front).append(cone)
    if knob is not None:
        front.append(circle(knob, ORIGIN))
    return tuple({"front": front, "rear": rear, "both": [*front, *rear]}[what])
