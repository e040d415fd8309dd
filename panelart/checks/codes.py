"""Codes for machines: modules that the process can print, and a quiet zone that is clear."""

from __future__ import annotations

from collections.abc import Iterator

import shapely
from shapely import affinity

from panelart.checks.findings import Observation
from panelart.checks.limits import BASES, Limit
from panelart.checks.marking import of_process
from panelart.checks.mends import moved_apart
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.diagnostics import Severity
from panelart.figure import Known
from panelart.geometry import Box
from panelart.lettering.codes import CodeKind, code_size, quiet_box
from panelart.messages import Said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.panel import Art
from panelart.model.variables import CodeRequest

_STANDARDS = {
    CodeKind.QR: of_limits.qr_standard(),
    CodeKind.DATA_MATRIX: of_limits.data_matrix_standard(),
    CodeKind.CODE_128: of_limits.code_128_standard(),
}


def _codes(survey: Survey) -> Iterator[tuple[str, Art, CodeRequest]]:
    """Every code by the name that findings have it by."""
    for number, art in enumerate(survey.panel.art, 1):
        if art.code is not None:
            yield f"{art.what} {number}", art, art.code


def _box_of(area: shapely.Geometry) -> Box:
    return Box(*(float(side) for side in area.bounds))


def _standing(box: Box, code: CodeRequest) -> shapely.Geometry:
    """A box about the middle of a code, at the place of the code."""
    turned = affinity.rotate(shapely.box(box.left, box.bottom, box.right, box.top), code.turn, origin=(0.0, 0.0))
    return affinity.translate(turned, code.at.x, code.at.y)


def _symbol(code: CodeRequest) -> shapely.Geometry:
    wide, high = code_size(code.kind, code.text, code.module)
    return _standing(Box(-wide / 2, -high / 2, wide / 2, high / 2), code)


def _quiet(code: CodeRequest) -> shapely.Geometry:
    return _standing(quiet_box(code.kind, code.text, code.module), code)


@rule(
    Severity.WARNING,
    says="{subject}: module width is {measured}; minimum {limit}",
    fix="Make the modules at least {limit} wide, or choose a code with fewer modules.",
    limits=("process.gap_minimum", "process.line_minimum"),
)
def code_too_fine(survey: Survey) -> Iterator[Observation]:
    """The modules of a code are finer than the lines or gaps that the marking process can hold.

    A reader tolerates dirt, but not modules that run together or break off.

    Source: the process's own figures.
    Fix: larger modules, a shorter text, or Data Matrix instead of QR.
    Fails: a QR code with modules of 0.2 mm where the process holds lines of 0.25 mm.
    Passes: the same code with modules of 0.3 mm.
    """
    limit = max((of_process(survey, name) for name in ("line_minimum", "gap_minimum")), key=lambda one: one.value)
    for name, art, code in _codes(survey):
        if code.module < limit.value - ROUNDING:
            yield Observation(
                refs=(name,),
                place=_box_of(_symbol(code)),
                where=art.where,
                subject=name,
                measured=code.module,
                limit=limit,
            )


code_too_fine.cases(
    """
    art: [{code: qr, text: OR-1, at: [60, 50], module: __}]
    """,
    fails="0.2",
    passes="0.4",
)


@rule(
    Severity.WARNING,
    says="{subject}: quiet zone to {other} is {measured}; minimum {limit}",
    fix="Move the code until the quiet zone is {limit}.",
    mends=(moved_apart,),
)
def code_not_quiet(survey: Survey) -> Iterator[Observation]:
    """Something is in the quiet zone of a code: a legend, an opening, a part, another code, or the edge.

    Readers find a code by its quiet zone. A code that can be read on the screen proves nothing: most programs tolerate
    a quiet zone that a hand-held reader does not.

    Source: ISO/IEC 18004 (QR, four modules), 16022 (Data Matrix, one), 15417 (Code 128, ten at its ends).
    Fix: move the code, or make its modules smaller.
    Fails: a QR code with modules of 0.5 mm, 1 mm from a screw hole.
    Passes: the same code 2 mm from the hole.
    """
    codes = list(_codes(survey))
    drawn = {name for name, _, _ in codes}
    edge = survey.panel.outline.bounds
    outside = shapely.box(*edge.grown(1000.0).corners[0], *edge.grown(1000.0).corners[2]).difference(
        shapely.box(edge.left, edge.bottom, edge.right, edge.top)
    )
    for name, art, code in codes:
        quiet, symbol = _quiet(code), _symbol(code)
        around: list[tuple[str, Said, shapely.Geometry]] = [("", things.panel_edge(), outside)]
        around += [(hole.owner, hole.words, hole.ground) for hole in (*survey.openings, *survey.covers)]
        around += [(ink.owner, survey.named([ink]), ink.ground) for ink in survey.legends if ink.owner not in drawn]
        around += [
            (other, other, _quiet(two) if two.left_out else _symbol(two)) for other, _, two in codes if other != name
        ]
        near = [thing for thing in around if shapely.intersects(quiet.buffer(-ROUNDING), thing[2])]
        if not near:
            continue
        owner, words, ground = min(near, key=lambda thing: float(shapely.distance(symbol, thing[2])))
        yield Observation(
            refs=(name, owner),
            place=_box_of(quiet),
            where=art.where,
            subject=name,
            other=words,
            measured=float(shapely.distance(symbol, ground)),
            limit=Limit(
                name=f"code.quiet.{code.kind.value}",
                what=of_limits.quiet_zone(),
                value=code.kind.quiet * code.module,
                unit="mm",
                source=of_limits.quiet_modules(count=code.kind.quiet, standard=_STANDARDS[code.kind]),
                basis=BASES[Known.TYPICAL],
            ),
        )


code_not_quiet.cases(
    """
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [__, 50]}]
    art: [{code: qr, text: OR-1, at: [60, 50], module: 0.5}]
    """,
    fails="68.5",
    passes="71",
)
