"""From the spec as written to the panel: millimetres from the lower-left corner, parts found, repeats written out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any, Final, Protocol, TypeVar

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue import Contents, KnobEntry, installed
from panelart.catalogue.renamed import near_part
from panelart.diagnostics import SpecError, Where, did_you_mean
from panelart.geometry import ORIGIN, Box, Contour, Point, Vector, circle, overlaps, polygon, rectangle, self_crossing
from panelart.messages import Message
from panelart.messages import catalogue as catalogue_said
from panelart.messages import spec as said
from panelart.messages import spec_controls as controls_said
from panelart.messages import spec_marking as marking_said
from panelart.messages import spec_modules as modules_said
from panelart.model.component import Component
from panelart.model.making import Cutting, Making, Punch, PunchForm
from panelart.model.panel import (
    Allowance,
    Art,
    CircuitBoard,
    Coat,
    FlowLine,
    FrameRequest,
    FreeText,
    HouseFile,
    Keepout,
    Knob,
    LegendRequest,
    Marking,
    Mask,
    Panel,
    Part,
    Position,
    Scale,
    Side,
    Waiver,
)
from panelart.processes.registry import processes, usual
from panelart.source.facts import Facts, facts_of
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node
from panelart.source.nouns import Noun, keys_of
from panelart.source.problems import Problems
from panelart.source.schema import Field, Value
from panelart.spec import language, mirrored
from panelart.spec.arrange import Body
from panelart.spec.art import DrawingContext, art, flow_lines
from panelart.spec.bent import FlangeContext, bending, flange_refs, flanges, hung
from panelart.spec.beside import Refs, frame_requests, free_texts, written_out
from panelart.spec.boards import boards
from panelart.spec.bodies import covered
from panelart.spec.control import Control
from panelart.spec.controls import knob, positions, scales
from panelart.spec.faces import Faces
from panelart.spec.files import why_unreadable
from panelart.spec.lettered import Letterer, hyphenate_places, marking
from panelart.spec.modules import Binder, library_of
from panelart.spec.numbering import matrix_numbers
from panelart.spec.operators import operator
from panelart.spec.outlined import Face, face_of, keepouts_of, openings_of
from panelart.spec.places import Laid, PlacingContext, Spot, places
from panelart.spec.printed import PrintContext, printing
from panelart.spec.sheets import read_sheet
from panelart.spec.shop import Shop, named_file, read_shop
from panelart.spec.standards import reserved
from panelart.spec.translations import AS_WRITTEN, translation
from panelart.spec.turning import with_discs
from panelart.spec.unroll import Draft, Drafts, unrolled
from panelart.spec.variables import variables


class Catalogue(Protocol):
    """Where parts are found; the module `panelart.catalogue` is one."""

    def component(self, name: str) -> Component:
        """The part of that name. Raises KeyError."""

    def names(self) -> tuple[str, ...]:
        """All names."""

    def knob(self, name: str) -> KnobEntry:
        """The knob of that name. Raises KeyError."""

    def knob_names(self) -> tuple[str, ...]:
        """All names of knobs."""

    def component_from(
        self, node: Node, name: str, problems: Problems, named: Callable[[str, Where], Component | None]
    ) -> Component | None:
        """A part written out in the spec, or one that `named` gives with dimensions changed.

        None when problems were added.
        """

    def read_contents(self, data: bytes, file: str, named: Callable[[str], Component]) -> Contents:
        """The parts and knobs of a file; `named` gives what its parts are like, or KeyError. Raises SpecError."""


class Environment(Struct, frozen=True, kw_only=True):
    """What a spec refers to outside itself: the folder it stands in, how files are read, and the catalogue.

    `examples` are shown for variables in place of those that the spec gives.
    `shop` is the file of a shop's figures that takes the place of the one that the spec names.
    `language` is the one to letter in.
    """

    folder: Path
    read_file: Callable[[Path], bytes]
    catalogue: Catalogue
    examples: Mapping[str, str] = field(default_factory=dict)
    shop: Path | None = None
    language: str = AS_WRITTEN


def resolve(top: language.Spec, environment: Environment, problems: Problems) -> Panel | None:
    """The panel, or None when it has no size; it is right only when no problems were added."""
    blank = _blank_face(top, environment, problems)
    shop = _shop(top, environment, problems)
    letterer = _letterer(top, environment, blank, shop, problems)
    stood = _stood(top, environment, blank, letterer)
    beside = _beside(top, environment, blank, stood, letterer)
    if blank.fields is None or blank.face is None:
        return None
    panel = _panel(top, environment, blank.fields, blank.face, shop, stood, beside, letterer)
    if blank.datum is not None:
        _check_inside(panel, blank.face, blank.datum, stood.known, problems)
    return panel


class _BlankFace(Struct, frozen=True, kw_only=True):
    """The face before anything is on it; each None where it could not be read."""

    fields: language.Panel | None
    face: Face | None
    datum: Point | None

    @property
    def origin(self) -> Point:
        """Where is measured from, the lower-left corner until the datum is known."""
        return ORIGIN if self.datum is None else self.datum

    @property
    def bounds(self) -> Box:
        """What the face covers."""
        return Box.around([ORIGIN]) if self.face is None else self.face.outline.bounds


def _blank_face(top: language.Spec, environment: Environment, problems: Problems) -> _BlankFace:
    fields = top.panel
    face = None if fields is None else face_of(fields, environment.folder, environment.read_file, problems)
    datum = None if face is None or fields is None else _datum(fields, face, problems)
    return _BlankFace(fields=fields, face=face, datum=datum)


def _letterer(
    top: language.Spec, environment: Environment, blank: _BlankFace, shop: Shop, problems: Problems
) -> Letterer:
    faces = _faces(top, environment, problems)
    words = translation(top, environment.language, problems)
    return Letterer(
        marking=words.spoken(_marking(top, faces, shop, problems)),
        problems=problems,
        faces=faces,
        datum=blank.origin,
        variables={variable.name: variable.example for variable in variables(top, environment.examples, problems)},
        translation=words,
        hyphenate=hyphenate_places(top.marking),
    )


class _Stood(Struct, frozen=True, kw_only=True):
    """The parts where they are, and what else can be named by a ref."""

    drafts: Drafts
    known: Mapping[str, Draft]
    laid: Laid
    parts: tuple[Part, ...]
    refs: Refs
    finder: _Finder


def _stood(top: language.Spec, environment: Environment, blank: _BlankFace, letterer: Letterer) -> _Stood:
    problems = letterer.problems
    finder = _Finder(environment=environment, own=_own_parts(top, environment, problems), problems=problems)
    library = library_of(top.modules or (), environment.folder, environment.read_file, problems)
    drafts = unrolled(top, Binder(library, problems, finder.named), problems)
    known, each_once = _by_ref(drafts, problems)
    complete = drafts.complete and each_once
    placing = PlacingContext(face=blank.bounds, datum=blank.origin, covers=finder.covers, problems=problems)
    beside = (one for several in drafts.beside.values() for one in several)
    laid = places(known, drafts.units, beside, placing, complete=complete)
    holes = () if blank.fields is None or blank.face is None else openings_of(blank.face, blank.fields)
    return _Stood(
        drafts=drafts,
        known=known,
        laid=laid,
        parts=(*_parts(drafts, known, laid.spots, finder, letterer), *_apart_from(known, holes, problems)),
        refs=Refs(known={**dict.fromkeys(hole.ref for hole in holes), **known}, complete=complete, problems=problems),
        finder=finder,
    )


def _parts(
    drafts: Drafts, known: Mapping[str, Draft], spots: Mapping[str, Spot], finder: _Finder, letterer: Letterer
) -> Iterator[Part]:
    for draft in drafts.drafts:
        # A second part of one ref has no place, but what else is wrong with it is told too.
        first = draft.ref is not None and known[draft.ref] is draft
        with letterer.problems.within(draft.numbers.told):
            part = _part(draft, spots.get(draft.ref or "") if first else None, finder, letterer)
        if part is not None:
            yield part


class _Beside(Struct, frozen=True, kw_only=True):
    """What is on the panel beside the parts, and what is said about it."""

    frames: tuple[FrameRequest, ...]
    texts: tuple[FreeText, ...]
    keepouts: tuple[Keepout, ...]
    masks: tuple[Mask, ...]
    boards: tuple[CircuitBoard, ...]
    waivers: tuple[Waiver, ...]
    lines: tuple[FlowLine, ...]
    art: tuple[Art, ...]
    written: tuple[tuple[str, tuple[Facts, ...]], ...]
    making: Making
    house: HouseFile | None


def _beside(
    top: language.Spec, environment: Environment, blank: _BlankFace, stood: _Stood, letterer: Letterer
) -> _Beside:
    problems, datum, drafts, laid = letterer.problems, blank.origin, stood.drafts, stood.laid
    frames = _found(frame_requests(drafts.frames(), laid, stood.refs, letterer))
    texts = _found(free_texts(drafts.texts(), laid, letterer))
    numbers = matrix_numbers(drafts.units, laid.spots, stood.finder.covers, letterer)
    drawing = DrawingContext(
        marking=letterer.marking,
        datum=datum,
        laid=laid,
        refs=stood.refs,
        folder=environment.folder,
        read_file=environment.read_file,
        problems=problems,
        letterer=letterer,
        ground=_ground(blank.fields),
    )
    drawn = _found(art(drafts.art(), drawing))
    letterer.translation.unused(problems)
    in_flanges: frozenset[str] = frozenset() if blank.fields is None else flange_refs(blank.fields)
    named = replace(stood.refs, known={**stood.refs.known, **dict.fromkeys(in_flanges)})
    return _Beside(
        frames=frames,
        texts=(*texts, *numbers),
        keepouts=_found(_keepout(item.value, datum, problems) for item in top.keepouts),
        boards=boards(top.boards, stood.parts, stood.refs.of_a_board, problems),
        masks=_found(_mask(item.value, datum, problems) for item in top.masks),
        waivers=tuple(_waiver(item.value, named) for item in top.waivers),
        lines=_found(flow_lines(drafts.lines(), drawing)),
        art=drawn,
        written=tuple((key, written_out(found, laid, stood.refs, datum)) for key, found in drafts.beside.items()),
        making=_making(top, named),
        house=_house(top, environment, problems),
    )


Found = TypeVar("Found")


def _found(things: Iterable[Found | None]) -> tuple[Found, ...]:
    """Those that could be read."""
    return tuple(thing for thing in things if thing is not None)


def _panel(
    top: language.Spec,
    environment: Environment,
    fields: language.Panel,
    face: Face,
    shop: Shop,
    stood: _Stood,
    beside: _Beside,
    letterer: Letterer,
) -> Panel:
    problems, datum, words = letterer.problems, letterer.datum, letterer.translation
    sheet, coat = read_sheet(fields, problems), _coat(fields, problems)
    context = FlangeContext(
        width=face.width, height=face.height, corner=face.corner, thickness=sheet.thickness, datum=datum,
        component=stood.finder.named, taken=frozenset(stood.refs.known), problems=problems,
    )  # fmt: skip
    edges = hung(flanges(fields, context), top.making, context)
    return Panel(
        title=fields.title or "",
        number=fields.number,
        revision=fields.revision,
        revised=_day(fields.revised, fields.where(language.Panel.revised), problems),
        outline=face.outline,
        sheet=sheet,
        coat=coat,
        datum=datum,
        marking=_made_ready(letterer.marking, top, (face.outline, datum), coat, shop, environment, problems),
        parts=stood.parts,
        where=fields.begins,
        frames=beside.frames,
        texts=beside.texts,
        keepouts=(*beside.keepouts, *keepouts_of(face, fields)),
        waivers=beside.waivers,
        lines=beside.lines,
        art=beside.art,
        variables=variables(top, environment.examples, Problems()),
        # The longest words of all languages are of none, nor are texts as written, unless the lettering says so.
        language=words.name if words.name in words.table else letterer.marking.styles["name"].look.language,
        languages=tuple(words.table),
        untranslated=words.missing,
        unsure=tuple(letterer.unsure),
        masks=beside.masks,
        boards=beside.boards,
        operator=operator(top.operator, letterer.marking.viewing_distance, problems),
        depth_behind=fields.depth_behind,
        depth_in_front=fields.depth_in_front,
        house=beside.house,
        flanges=edges,
        bending=bending(fields, edges, sheet.thickness, problems),
        making=beside.making,
        reserved=reserved(fields, face.width, face.height),
        drawn_from=face.drawn_from,
        over_drawing=fields.datum == "drawing",
        facts=Facts("", beside.written),
    )


# --- the face


def _datum(fields: language.Panel, face: Face, problems: Problems) -> Point | None:
    """Where the datum is; None when that is not on the face."""
    written = fields.datum
    width, height = face.width, face.height
    if isinstance(written, tuple):
        x, y = written
        if not (0 <= x <= width and 0 <= y <= height):
            problems.add(
                fields.where(language.Panel.datum),
                said.datum_outside((x, y), (width, height)),
                said.datum_on_face(),
            )
            return None
        return Point(x, y)
    if written == "drawing" and face.origin is None:
        problems.add(
            fields.where(language.Panel.datum),
            said.datum_without_drawing(),
            said.datum_or_outline(),
        )
        return None
    named = {
        "lower-left": Point(0.0, 0.0),
        "lower-right": Point(width, 0.0),
        "upper-left": Point(0.0, height),
        "upper-right": Point(width, height),
        "centre": Point(width / 2, height / 2),
    }
    return face.origin if face.origin is not None and written == "drawing" else named[written or "lower-left"]


def _apart_from(known: Mapping[str, Draft], holes: tuple[Part, ...], problems: Problems) -> list[Part]:
    """The openings of the drawing whose refs no part has."""
    for hole in holes:
        if hole.ref in known:
            problems.add(hole.where, said.opening_ref_taken(hole.ref), said.other_prefix())
    return [hole for hole in holes if hole.ref not in known]


def _ground(panel: language.Panel | None) -> str:
    """The colour that inks lie on."""
    coat = None if panel is None else panel.coat
    return (None if coat is None else coat.colour) or language.BARE_COLOUR


def _coat(panel: language.Panel, problems: Problems) -> Coat:
    fields = panel.coat
    if fields is None:
        return Coat(kind="none", thickness=0.0, colour=language.BARE_COLOUR)
    kind = fields.kind
    growth = fields.growth
    thickness, minimum, maximum = _thickness(fields, problems)
    if kind == "none" and thickness:
        problems.add(
            fields.where(language.Coat.thickness),
            said.coat_none_with_thickness(thickness),
            said.no_thickness_or_other_kind(),
        )
    if kind not in (None, "none", "conversion") and not fields.written(language.Coat.thickness):
        problems.add(fields.begins, said.coat_without_thickness(kind), said.thickness_on_one_surface())
    return Coat(
        kind=kind or "none",
        thickness=thickness,
        colour=fields.colour or language.BARE_COLOUR,
        name=fields.name or "",
        minimum=minimum,
        maximum=maximum,
        growth=(language.ANODIC_GROWTH if kind == "anodise" else 1.0) if growth is None else growth,
        rear=fields.faces != "front",
        allowance=Allowance(fields.allowance or Allowance.DRAWING.value),
    )


def _thickness(coat: language.Coat, problems: Problems) -> tuple[float, float | None, float | None]:
    """The usual thickness, and the minimum and maximum where a range is written."""
    written = coat.thickness
    if not isinstance(written, language.ThicknessRange):
        return written or 0.0, None, None
    minimum, maximum = written.minimum, written.maximum
    if minimum is None or maximum is None:
        return 0.0, None, None
    if minimum > maximum:
        problems.add(
            written.where(language.ThicknessRange.minimum),
            said.coat_range_reversed(minimum, maximum),
            said.minimum_not_above_maximum(),
        )
    return (minimum + maximum) / 2, minimum, maximum


def _faces(top: language.Spec, environment: Environment, problems: Problems) -> Faces:
    marked = top.marking
    lettering = None if marked is None else marked.lettering
    live = lettering is not None and lettering.text == "live"
    known = processes()
    written = None if marked is None else marked.process
    process = known[usual() if written is None or written not in known else written]
    return Faces(
        folder=environment.folder,
        read_file=environment.read_file,
        problems=problems,
        weight=process.weight,
        live=live,
    )


def _making(top: language.Spec, refs: Refs) -> Making:
    fields = top.making
    if fields is None:
        return Making()
    return Making(
        cutting=Cutting(fields.cutting or Cutting.LASER.value),
        cutter=fields.cutter,
        relieve=bool(fields.relieve_corners),
        punches=tuple(_punch(item.value) for item in fields.punches or ()),
        tolerance=fields.tolerance or "m",
        quantity=fields.quantity or 1,
        first_serial=fields.first_serial or "",
        grain=fields.grain or "",
        hang_by=refs.checked(_hung_by(fields), said.the_hanging()),
        one_in=fields.one_in,
        position_error=fields.position_error or 0.0,
        note=fields.note or "",
    )


def _hung_by(making: language.Making) -> tuple[Value[str], ...]:
    hanging = making.hanging
    return () if hanging is None else hanging.by or ()


def _punch(written: float | tuple[float, float] | language.Punch) -> Punch:
    if isinstance(written, Noun):
        length, width = written.slot or (0.0, 0.0)
        return Punch(form=PunchForm.SLOT, length=length, width=width)
    if isinstance(written, tuple):
        return Punch(form=PunchForm.RECTANGLE, length=written[0], width=written[1])
    return Punch(form=PunchForm.ROUND, length=written, width=written)


def _marking(top: language.Spec, faces: Faces, shop: Shop, problems: Problems) -> Marking:
    fields = top.marking
    if fields is None:
        # Its problem is told already; the defaults stand in for it, and what they lack is not told again.
        return marking(language.Marking.empty(top.begins), faces, shop, Problems())
    return marking(fields, faces, shop, problems)


def _shop(top: language.Spec, environment: Environment, problems: Problems) -> Shop:
    """The figures of the shop that is named, by the caller or in the spec; common practice where none is."""
    fields = top.marking
    name = None if fields is None else fields.shop
    if environment.shop is not None:
        path = environment.shop
        try:
            data: bytes | None = environment.read_file(path)
        except OSError as error:
            where = Where(path.as_posix(), 1, 1)
            problems.add(where, said.this_shop_file_unreadable(why_unreadable(error)), said.a_shop_file())
            return Shop()
    elif fields is not None and name is not None:
        path = environment.folder / name
        where = fields.where(language.Marking.shop)
        data = named_file(
            name, where, environment.folder, environment.read_file, marking_said.shop_file_unreadable, problems
        )
    else:
        return Shop()
    if data is None:
        return Shop()
    try:
        return read_shop(data, path, environment.read_file, problems)
    except SpecError as error:
        problems.extend(error)
        return Shop()


def _made_ready(
    marked: Marking,
    top: language.Spec,
    face: tuple[Contour, Point],
    coat: Coat,
    shop: Shop,
    environment: Environment,
    problems: Problems,
) -> Marking:
    """The marking with what makes it ready for its process; `face` is the outline and the datum."""
    fields = top.marking
    if fields is None:
        return marked
    outline, datum = face
    context = PrintContext(
        process=marked.process,
        shop=shop,
        inks=marked.inks,
        coat=coat,
        outline=outline,
        datum=datum,
        folder=environment.folder,
        read_file=environment.read_file,
        area=lambda area: _area(area, datum, problems),
        problems=problems,
    )
    return replace(marked, printing=printing(fields, marked.cutter, context))


# --- parts


def _own_parts(top: language.Spec, environment: Environment, problems: Problems) -> Contents | None:
    """The parts and knobs of the user's own files by name, or None when some file could not be read."""
    parts: dict[str, Component] = {}
    knobs: dict[str, KnobEntry] = {}
    complete = True

    def named(part: str) -> Component:
        return parts[part] if part in parts else environment.catalogue.component(part)

    for name in top.catalogue or ():
        found = _own_file(name, environment, named, problems)
        if found is None:
            complete = False
            continue
        new = (part for part in found.components if part not in found.stand_ins)
        _check_new(_NEW_PART, name, new, environment.catalogue.names(), parts, problems)
        _check_new(_NEW_KNOB, name, found.knobs, environment.catalogue.knob_names(), knobs, problems)
        parts |= found.components
        knobs |= found.knobs
    return Contents(components=parts, knobs=knobs) if complete else None


class _New(Struct, frozen=True):
    """What is said of a name that the built-in catalogue, an extension or another file has, and what to do."""

    of_extension: Callable[[str, str, str], Message]
    built_in: Callable[[str, str], Message]
    in_two_files: Callable[[str, str], Message]
    rename: Callable[[], Message]


_NEW_PART: Final = _New(said.part_of_extension, said.part_built_in, said.part_in_two_files, said.rename_part)
_NEW_KNOB: Final = _New(said.knob_of_extension, said.knob_built_in, said.knob_in_two_files, said.rename_knob)


def _check_new(
    new: _New, file: Value[str], found: Iterable[str], built_in: Collection[str], own: Collection[str],
    problems: Problems,
) -> None:  # fmt: skip
    """Tell what a file names as the built-in catalogue, or another file, does."""
    for name in found:
        if name in built_in or name in own:
            brought = installed.brought().files.get(name)
            if brought is not None:
                problems.add(file.where, new.of_extension(file.value, name, brought.extension), new.rename())
                continue
            taken = new.built_in if name in built_in else new.in_two_files
            problems.add(file.where, taken(file.value, name), new.rename())


def _own_file(
    name: Value[str], environment: Environment, named: Callable[[str], Component], problems: Problems
) -> Contents | None:
    if Path(name.value).is_absolute() or "\0" in name.value:
        problems.add(name.where, said.file_not_relative(name.value), said.relative_to_spec())
        return None
    path = environment.folder / name.value
    try:
        data = environment.read_file(path)
    except OSError as error:
        unreadable = said.part_file_unreadable(name.value, why_unreadable(error))
        problems.add(name.where, unreadable, said.relative_to_spec())
        return None
    try:
        return environment.catalogue.read_contents(data, path.as_posix(), named)
    except SpecError as error:
        problems.extend(error)
        return None


def _by_ref(drafts: Drafts, problems: Problems) -> tuple[dict[str, Draft], bool]:
    """The drafts by ref, and whether no copies share one, which would have refs of their own."""
    known: dict[str, Draft] = {}
    of_modules: dict[tuple[Where, str], list[Draft]] = {}
    each_once = True
    for draft in drafts.drafts:
        if draft.ref is None:
            continue
        first = known.setdefault(draft.ref, draft)
        if first is draft:
            continue
        if first.where != draft.where:
            with problems.within(draft.numbers.told):
                problems.add(draft.where, said.ref_twice(draft.ref, first.where.within), said.each_ref_once())
            continue
        each_once = False
        if _of_module(first, draft):
            of_modules.setdefault((draft.where, draft.ref), [first]).append(draft)
        else:
            _tell_of_copies(draft, draft.ref, problems)
    for (where, ref), several in of_modules.items():
        _tell_of_module(where, ref, several, problems)
    return known, each_once


def _of_module(first: Draft, other: Draft) -> bool:
    """Whether two parts share a ref because their module is placed twice, and not because of a repeat within it."""
    return other.numbers.placement is not None and (
        first.numbers.placement is not other.numbers.placement or not other.numbers.numbers
    )


def _tell_of_copies(draft: Draft, ref: str, problems: Problems) -> None:
    name = next(reversed(tuple(draft.numbers)), "n")
    mirrored_one = any(level.mirror is not None for level in draft.levels)
    one_ref = said.mirror_with_one_ref if mirrored_one else said.repeat_with_one_ref
    with problems.within(draft.numbers.told):
        problems.add(draft.where, one_ref(ref), said.number_in_ref(f"{ref}{{{name}}}"))


def _tell_of_module(where: Where, ref: str, several: list[Draft], problems: Problems) -> None:
    placed = [placement for draft in several if (placement := draft.numbers.placement) is not None]
    places = list(dict.fromkeys(str(one.chain[0].where) for one in placed))
    told = modules_said.ref_of_copies(ref, placed[0].module, places[:_MAX_PLACES])
    outer = next(iter(several[-1].levels[0].numbers), "") if several[-1].levels else ""
    example = f"A{{{outer}}}-" if outer else "A-"
    problems.add(where, told, modules_said.prefix_or_parameter(example))


_MAX_PLACES: Final = 6
"""Places told of a module whose refs clash."""


class _Finder:
    """Finds components and knobs, each name and each written-out part once."""

    def __init__(self, *, environment: Environment, own: Contents | None, problems: Problems) -> None:
        self._catalogue = environment.catalogue
        self._own = own or Contents(components={}, knobs={})
        self._complete = own is not None
        self._problems = problems
        self._written_out: dict[tuple[Where, MappingNode], Component | None] = {}
        self._covered: dict[tuple[str, float | None, str], Body] = {}

    def component(self, draft: Draft) -> Component | None:
        """What a draft is; None when it is not known, which is added to the problems."""
        written = draft.fields.part
        where = draft.fields.where(language.Member.part)
        if isinstance(written, MappingNode):
            key = where, written  # of a module, with the arguments of its place
            if key not in self._written_out:
                name = draft.ref or "part"
                made = self._catalogue.component_from(written, name, self._problems, self.named)
                self._written_out[key] = made
            return self._written_out[key]
        return None if written is None else self.named(written, where)

    def covers(self, draft: Draft, what: str) -> Body | None:
        """What a draft covers when it is not turned: in front, behind, or both; None when it is not known."""
        component = self.component(draft)
        if component is None:
            return None
        diameter = self._knob_diameter(draft.fields)
        key = (component.name, diameter, what)
        if isinstance(draft.fields.part, MappingNode):
            return Body(contours=covered(component, diameter, what))
        if key not in self._covered:
            self._covered[key] = Body(contours=covered(component, diameter, what))
        return self._covered[key]

    def _knob_diameter(self, fields: language.Placed) -> float | None:
        fitted = fields.knob
        if isinstance(fitted, language.Knob):
            return fitted.diameter
        entry = None if fitted is None else self.knob(fitted, fields.where(language.Member.knob))
        return None if entry is None else entry.diameter

    def named(self, name: str, where: Where) -> Component | None:
        """The component of a name; None when there is none, which is added to the problems."""
        if name in self._own.components:
            return self._own.components[name]
        try:
            return self._catalogue.component(name)
        except KeyError:
            if self._complete:
                hint = near_part(name, (*self._catalogue.names(), *self._own.components), said.parts())
                self._problems.add(where, catalogue_said.unknown_part(name), hint)
        return None

    def knob(self, name: str, where: Where) -> KnobEntry | None:
        """The knob of a name; None when there is none, which is added to the problems."""
        if name in self._own.knobs:
            return self._own.knobs[name]
        try:
            return self._catalogue.knob(name)
        except KeyError:
            if self._complete:
                hint = did_you_mean(name[:40], (*self._catalogue.knob_names(), *self._own.knobs), said.knobs())
                self._problems.add(where, said.unknown_knob(name), hint)
        return None


def _part(draft: Draft, spot: Spot | None, finder: _Finder, letterer: Letterer) -> Part | None:
    fields = draft.fields
    ref = draft.ref or ""
    legend = _part_legend(draft, spot, letterer)
    component = finder.component(draft)
    if component is None:
        return None
    turn = fields.turn if spot is None else spot.turn
    # As written, J{n} and not J1, so that a slip in a repeat is told once and not for every copy.
    called = fields.ref or ref or controls_said.the_part()
    control = Control(ref=called, component=component, turn=turn, numbers=draft.numbers)
    carried = _carried(fields, control, finder, letterer)
    if spot is None:
        return None
    part_scales = tuple(mirrored.scale(one, spot.carry) for one in carried.scales)
    pin = fields.pin_1
    return Part(
        ref=ref,
        component=with_discs(component, part_scales, turn),
        at=spot.at,
        where=draft.where,
        turn=turn,
        legend=legend,
        positions=carried.positions,
        scale=part_scales[0] if part_scales else None,
        outer_scale=part_scales[1] if len(part_scales) > 1 else None,
        knob=carried.knob,
        pin_1=None if pin is None else Vector(*pin),
        fixed=fields.fixed,
        facts=_facts(fields, ref, spot, letterer.datum, draft.numbers),
    )


def _part_legend(draft: Draft, spot: Spot | None, letterer: Letterer) -> LegendRequest | None:
    """The name of a part, on the side that a mirror it stands in makes of the one asked for."""
    legend = draft.fields.legend
    if legend is None:
        return None
    request = letterer.request(legend, draft.fields.where(language.Member.legend), "name", draft.numbers)
    if request is None or spot is None:
        return request
    if request.at is not None and spot.carry.quarter:
        where = draft.fields.where(language.Member.legend)
        letterer.problems.add(where, modules_said.legend_at_turned(), modules_said.side_instead())
    return mirrored.legend(request, spot.carry)


class _Carried(Struct, frozen=True, kw_only=True):
    """What a control carries, before any mirror."""

    positions: tuple[Position, ...]
    scales: tuple[Scale, ...]
    knob: Knob | None


def _carried(fields: language.Placed, control: Control, finder: _Finder, letterer: Letterer) -> _Carried:
    """The named positions, the scales and the knob of a part."""
    named, graduated, fitted = fields.positions, fields.scale, fields.knob
    fitted_at = fitted.begins if isinstance(fitted, language.Knob) else fields.where(language.Member.knob)
    its_knob = None if fitted is None else knob(fitted, fitted_at, control, finder.knob, letterer.problems)
    return _Carried(
        positions=(
            () if named is None else positions(named, fields.key_where(language.Member.positions), control, letterer)
        ),
        scales=() if graduated is None else scales(graduated, control, letterer, its_knob),
        knob=its_knob,
    )


def _facts(part: language.Placed, ref: str, spot: Spot, datum: Point, numbers: Mapping[str, str]) -> Facts:
    """What the spec says of a part, with what a copy or a layout makes of its name, place and turn."""
    at = (round(spot.at.x - datum.x, 6) + 0.0, round(spot.at.y - datum.y, 6) + 0.0)
    own = facts_of(part).with_words(numbers).with_value("ref", ref).with_value("turn", spot.turn)
    return own.with_value(language.Part.at.name, at, language.Part.at.kind.unit).called(ref)


# --- what stands beside the parts


def _waiver(fields: language.Waiver, refs: Refs) -> Waiver:
    on = fields.on
    named = (Value(on, fields.where(language.Waiver.on)),) if isinstance(on, str) else on or ()
    return Waiver(
        rule=fields.rule or "",
        refs=refs.checked(named, said.the_waiver()),
        why=fields.why or "",
        where=fields.begins,
        until=_day(fields.until, fields.where(language.Waiver.until), refs.problems),
        by=fields.by or "",
    )


def _day(written: str | None, where: Where, problems: Problems) -> str:
    """A day of the calendar as YYYY-MM-DD, '' for none."""
    if written is None:
        return ""
    try:
        dt.date.fromisoformat(written)
    except ValueError:
        problems.add(where, said.no_such_day(written), said.calendar_date())
        return ""
    return written


def _house(top: language.Spec, environment: Environment, problems: Problems) -> HouseFile | None:
    name = top.limits
    if name is None:
        return None
    where = top.where(language.Spec.limits)
    if Path(name).is_absolute() or "\0" in name:
        problems.add(where, said.file_not_relative(name), said.relative_to_spec())
        return None
    path = environment.folder / name
    try:
        return HouseFile(file=path.as_posix(), data=environment.read_file(path))
    except OSError as error:
        problems.add(where, said.limits_file_unreadable(name, why_unreadable(error)), said.relative_to_spec())
        return None


def _keepout(fields: language.Keepout, datum: Point, problems: Problems) -> Keepout | None:
    area = fields.area
    contour = None if area is None else _area(area, datum, problems)
    if contour is None:
        return None
    return Keepout(
        contour=contour,
        side=Side(fields.side),
        why=fields.why or "",
        where=fields.begins,
    )


def _mask(fields: language.Mask, datum: Point, problems: Problems) -> Mask | None:
    area = fields.area
    contour = None if area is None else _area(area, datum, problems)
    if contour is None:
        return None
    return Mask(contour=contour, side=Side(fields.side), why=fields.why or "", where=fields.begins)


_AREAS: Final[tuple[Field[Any], ...]] = tuple(keys_of(language.Area))


def _area(fields: language.Area, datum: Point, problems: Problems) -> Contour | None:
    written = [field for field in _AREAS if fields.written(field)]
    if len(written) != 1:
        shapes = [field.name for field in written]
        found = said.area_with_shapes(shapes) if shapes else said.area_without_shape()
        problems.add(fields.begins, found, said.area_shapes())
        return None
    shift = Vector(datum.x, datum.y)
    if (box := fields.rectangle) is not None:
        x, y, width, height = box
        return rectangle(width, height, Point(x + width / 2, y + height / 2)).moved(shift)
    if (disc := fields.circle) is not None:
        x, y, diameter = disc
        return circle(diameter, Point(x, y)).moved(shift)
    contour = None if fields.polygon is None else _polygon(fields, fields.polygon, problems)
    return None if contour is None else contour.moved(shift)


def _polygon(
    fields: language.Area, corners: tuple[Value[tuple[float, ...]], ...], problems: Problems
) -> Contour | None:
    """The polygon of an area, counter-clockwise, None where its corners make none."""
    if len(corners) < 3:  # a corner that could not be read is told already
        return None
    where = fields.where(language.Area.polygon)
    try:
        contour = polygon([Point(*corner.value) for corner in corners])
        crossing = self_crossing(contour)
    except ValueError:  # as two corners that follow each other are one
        problems.add(where, said.corner_twice(), said.corners_once())
        return None
    if crossing is not None:
        problems.add(where, said.polygon_crosses_itself((crossing.x, crossing.y)), said.corners_in_order())
        return None
    return contour.ccw()


def _number(fields: Noun, field: Field[float]) -> float:
    value = fields[field]
    return 0.0 if value is None else value


# --- what must lie on the face


def _check_inside(panel: Panel, face: Face, datum: Point, drafts: Mapping[str, Draft], problems: Problems) -> None:
    accepted = said.range_of_face(
        left=round(-datum.x, 3), right=round(face.width - datum.x, 3),
        bottom=round(-datum.y, 3), top=round(face.height - datum.y, 3),
    )  # fmt: skip

    def place(at: Point) -> tuple[float, float]:
        return at.x - datum.x, at.y - datum.y

    for part in panel.parts:
        if part.ref in drafts and not face.outline.contains(part.at):
            draft = drafts[part.ref]
            with problems.within(draft.numbers.told):
                where = draft.fields.where(language.Part.at)
                problems.add(where, said.part_outside(part.ref, place(part.at)), accepted)
    for text in panel.texts:
        if not face.outline.contains(text.at):
            problems.add(text.request.where, said.text_outside(text.request.text, place(text.at)), accepted)
    for keepout in panel.keepouts:
        if not overlaps(keepout.contour, face.outline):
            problems.add(keepout.where, said.keepout_outside(), accepted)
    for mask in panel.masks:
        if not overlaps(mask.contour, face.outline):
            problems.add(mask.where, said.mask_outside(), accepted)
