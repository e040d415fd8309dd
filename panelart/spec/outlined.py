"""The shape of the face: a rectangle of a size, or an outline from a drawing with the holes that are in it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.figure import Figure, Known
from panelart.geometry import ORIGIN, Contour, Point, Vector, corner_of, rectangle
from panelart.messages import spec as said
from panelart.model.component import Component, Opening, Role
from panelart.model.panel import Keepout, Part, Side
from panelart.source.problems import Problems
from panelart.source.schema import Field
from panelart.spec import language
from panelart.spec.files import why_unreadable
from panelart.spec.standards import standard_size

if TYPE_CHECKING:
    from panelart.outlines.dxf import Source


class Face(Struct, frozen=True, kw_only=True):
    """The finished outline in the panel's frame, and what was drawn with it.

    `corner` is the radius of the corners of a rectangle, None for every other form. `origin` is that of the drawing,
    None where there is none. `file` is its name, `error` the most in mm that a curve of it was moved to become arcs.
    """

    outline: Contour
    corner: float | None
    origin: Point | None = None
    holes: tuple[Contour, ...] = ()
    file: str = ""
    error: float = 0.0

    @property
    def width(self) -> float:
        """Over all, mm."""
        return self.outline.bounds.width

    @property
    def drawn_from(self) -> str:
        """Which drawing it is, '' for none, and how well its curves are kept."""
        return str(said.curves_as_arcs(self.file, self.error)) if self.error else self.file

    @property
    def height(self) -> float:
        """Over all, mm."""
        return self.outline.bounds.height


def face_of(panel: language.Panel, folder: Path, read_file: Callable[[Path], bytes], problems: Problems) -> Face | None:
    """The face, None where problems leave none."""
    drawn = panel.outline
    if panel.written(language.Panel.size) and panel.written(language.Panel.outline):
        problems.add(panel.key_where(language.Panel.outline), said.size_and_outline(), said.one_of_two())
    if panel.written(language.Panel.size):
        return _rectangle(panel, problems)
    if not panel.written(language.Panel.outline):
        problems.add(panel.begins, said.panel_without_size(), said.size_or_outline())
        return None
    if panel.written(language.Panel.corner):
        problems.add(panel.key_where(language.Panel.corner), said.corner_with_outline(), said.remove_corner())
    return None if drawn is None else _drawn(drawn, folder, read_file, problems)


def _rectangle(panel: language.Panel, problems: Problems) -> Face | None:
    size = panel.size
    if size is None:
        return None
    if isinstance(size, language.RackSize | language.SubrackSize):
        measured = standard_size(size)
        if measured is None:
            return None
        width, height = measured
    else:
        width, height = size
    corner = panel.corner or 0.0
    maximum = min(width, height) / 2
    if corner > maximum:
        problems.add(
            panel.where(language.Panel.corner),
            said.corner_too_large(corner, (width, height), maximum),
            said.reduce_corner(),
        )
        corner = 0.0
    return Face(outline=rectangle(width, height, Point(width / 2, height / 2), corner), corner=corner)


def _drawn(
    fields: language.Outline, folder: Path, read_file: Callable[[Path], bytes], problems: Problems
) -> Face | None:
    from panelart.outlines.reading import read_outline
    from panelart.outlines.sorted_out import Turned

    drawing = _drawing_of(fields, problems)
    name = None if drawing is None else fields[drawing]
    if drawing is None or name is None:
        return None
    data = _read(name, fields.where(drawing), folder, read_file, problems)
    if data is None:
        return None
    source = _source(data, (folder / name).as_posix(), fields, fields.where(drawing))
    laid = Turned(deg=fields.turn or 0.0, from_rear=fields.seen_from == "rear")
    outline, refused = read_outline(source, laid, svg=drawing is language.Outline.svg)
    for problem in refused:
        problems.add(problem.where, problem.says, problem.accepts)
    if outline is None:
        return None
    if outline.holes and not fields.written(language.Outline.holes):
        problems.add(fields.begins, said.holes_without_use(len(outline.holes)), said.uses_of_holes())
    return Face(
        outline=outline.outline,
        corner=corner_of(outline.outline),
        origin=outline.origin,
        holes=outline.holes,
        file=name,
        error=outline.error,
    )


def _drawing_of(fields: language.Outline, problems: Problems) -> Field[str | None] | None:
    """The key that names the drawing, None where it is not one alone."""
    files = [field for field in (language.Outline.dxf, language.Outline.svg) if fields.written(field)]
    if len(files) == 1:
        return files[0]
    found = said.outline_with_two_files() if files else said.outline_without_file()
    problems.add(fields.begins, found, said.dxf_or_svg())
    return None


def _source(data: bytes, file: str, fields: language.Outline, where: Where) -> Source:
    """The bytes of a drawing with the layers and the unit to read it by; `where` its file is named."""
    from panelart.outlines.dxf import Source

    layers = fields.layer
    return Source(
        data=data,
        file=file,
        layers=() if layers is None else (layers,) if isinstance(layers, str) else tuple(one.value for one in layers),
        unit=fields.unit or "",
        where_layer=fields.where(language.Outline.layer) if fields.written(language.Outline.layer) else fields.begins,
        where_unit=fields.where(language.Outline.unit) if fields.written(language.Outline.unit) else where,
    )


def _read(
    name: str, where: Where, folder: Path, read_file: Callable[[Path], bytes], problems: Problems
) -> bytes | None:
    if Path(name).is_absolute() or "\0" in name:
        problems.add(where, said.file_not_relative(name), said.relative_to_spec())
        return None
    try:
        return read_file(folder / name)
    except OSError as error:
        problems.add(where, said.drawing_unreadable(name, why_unreadable(error)), said.relative_to_spec())
        return None


def openings_of(face: Face, fields: language.Panel) -> tuple[Part, ...]:
    """The holes of the drawing as parts that are nothing but openings."""
    drawn = fields.outline
    if drawn is None or drawn.holes != "openings":
        return ()
    return tuple(
        Part(
            ref=f"{drawn.refs}{number}",
            component=_component(hole, face.file),
            at=hole.bounds.centre,
            where=drawn.begins,
        )
        for number, hole in enumerate(face.holes, 1)
    )


def keepouts_of(face: Face, fields: language.Panel) -> tuple[Keepout, ...]:
    """The holes of the drawing as areas where nothing may be, in front and behind."""
    drawn = fields.outline
    if drawn is None or drawn.holes != "keep-outs":
        return ()
    return tuple(
        Keepout(contour=hole, side=side, why=str(said.hole_drawn_in(face.file)), where=drawn.begins)
        for hole in face.holes
        for side in Side
    )


def _component(hole: Contour, file: str) -> Component:
    box = hole.bounds
    sizes = (("diameter", box.width),) if hole.circle else (("width", box.width), ("height", box.height))
    figures = tuple(
        Figure(name=name, value=value, sources=(str(said.drawn_in(file)),), known=Known.GIVEN) for name, value in sizes
    )
    contour = hole.moved(Vector(ORIGIN.x - box.centre.x, ORIGIN.y - box.centre.y))
    opening = Opening(role=Role.APERTURE, contour=contour, figures=figures)
    return Component(
        name="drawn-opening",
        title=str(said.opening_drawn_in(file)),
        family="drawn-opening",
        openings=(opening,),
        front=(),
        rear=(),
    )
