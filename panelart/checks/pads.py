"""What a process that prints with a soft tool needs: a print that its machine can take, and a smooth face."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from panelart.checks.findings import Bound, Observation
from panelart.checks.marking import own_limit
from panelart.checks.printing import colour_of, inks_of
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.diagnostics import Severity
from panelart.geometry import Box
from panelart.marking.areas import area_of
from panelart.messages import checks_limits as of_limits


def _prints(survey: Survey) -> Iterator[tuple[str, Box]]:
    """Each ink in which something is printed, with the box round all of it."""
    boxes: dict[str, list[Box]] = {ink.name: [] for ink in survey.panel.marking.inks}
    for ink in (*survey.legends, *survey.frame_lines, *survey.fields):
        boxes[colour_of(ink)].append(ink.box)
    for ground in survey.panel.marking.printing.backgrounds:
        outline = survey.panel.outline.bounds
        box = outline if ground.area is None else Box(*shapely.bounds(area_of(ground.area)).tolist())
        for name in inks_of(ground):
            boxes[name].append(box)
    yield from ((name, Box.around(found)) for name, found in boxes.items() if found)


@rule(
    Severity.WARNING,
    says="Print in {subject} is {measured} across; maximum {limit}",
    fix="Have the print divided into sections of {limit} or less, or choose another process.",
    limits=("process.print_maximum", "process.cup_maximum"),
)
def print_too_large(survey: Survey) -> Iterator[Observation]:
    """The print of one ink is larger than the machine of the process can set down in one stroke.

    The ink cup spans the shorter side of the print, the longer side lies along its stroke; each has its own limit, and
    the first that is exceeded is reported. Processes without such a machine have no limit.

    Source: the process's own figures.
    Fix: sections that are printed one by one, each from its own plate, or another process.
    Fails: a print of 320 by 40 mm where the machine prints 300 mm.
    Passes: a print of 300 by 40 mm.
    """
    limits = (
        own_limit(survey, "print_maximum", of_limits.print_length()),
        own_limit(survey, "cup_maximum", of_limits.ink_cup()),
    )
    if limits == (None, None):
        return
    for name, box in _prints(survey):
        sides = (max(box.width, box.height), min(box.width, box.height))
        for side, limit in zip(sides, limits, strict=True):
            if limit is not None and side > limit.value + ROUNDING:
                yield Observation(
                    refs=(),
                    place=box,
                    where=survey.panel.where,
                    subject=name,
                    measured=side,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )
                break


print_too_large.cases(
    """
    panel: {size: [400, 100]}
    marking: {process: pad-print}
    texts: [{text: IN, at: [20, 50]}, {text: OUT, at: [__, 50]}]
    """,
    fails="380",
    passes="200",
)


@rule(
    Severity.NOTE,
    says="Coat {subject} is textured: ink can miss its hollows",
    fix="Make a trial print on this coat, or choose a smooth coat.",
)
def print_on_texture(survey: Survey) -> Iterator[Observation]:
    """A coat with a texture is printed with a tool that only touches its high places.

    The name of the coat tells the texture (`coat: {name: graphite fine texture}`). Only for processes that press
    something soft onto the face.

    Source: tests of pad printing on moulded textures: how close the hollows are matters more than how deep they are.
    Fix: a trial print, a harder pad, a second print, or a smooth coat.
    Fails: pad printing on a coat named "graphite fine texture".
    Passes: the same on a coat named "graphite, smooth".
    """
    panel = survey.panel
    if panel.marking.process.soft_tool and panel.coat.textured and (survey.legends or survey.frame_lines):
        yield Observation(refs=(), place=panel.outline.bounds, where=panel.where, subject=panel.coat.name)


print_on_texture.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, name: graphite __}}
    marking: {process: pad-print}
    texts: [{text: IN, at: [20, 50]}]
    """,
    fails="fine texture",
    passes="smooth",
)
