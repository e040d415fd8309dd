"""The marking of a panel, and the words asked for: inks, styles and legends from what the spec says of them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final, TypeAlias

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean
from panelart.geometry import ORIGIN, Point, Vector
from panelart.lettering.hyphenation import dictionary, divisions, languages
from panelart.lettering.look import EVERY, PLAIN_LOOK, Align, Direction, Look, Plate, Zero
from panelart.lettering.reading import with_powers
from panelart.lettering.spans import POINTS, Manner, Span
from panelart.lettering.symbols import symbol_font
from panelart.messages import Message
from panelart.messages import spec as spec_said
from panelart.messages import spec_lettering as said
from panelart.model.panel import (
    RESERVED_PLATES,
    Anchor,
    Case,
    Ink,
    LegendRequest,
    Marking,
    MarkSizes,
    Place,
    Placing,
    Style,
    UnitOrWord,
)
from panelart.model.process_colours import is_like, process_plate
from panelart.model.variables import Template
from panelart.processes.process import CutterPaths, Process
from panelart.processes.registry import processes, usual
from panelart.source.nouns import Noun, keys_of
from panelart.source.problems import Problems
from panelart.source.schema import Field, Value
from panelart.spec import language
from panelart.spec.casing import capitals, kept_as_written
from panelart.spec.faces import Faces
from panelart.spec.markup import Marked, marked
from panelart.spec.names import Argument, Names, replaced
from panelart.spec.shop import Shop
from panelart.spec.translations import Translation

_AS_WRITTEN: Final = frozenset({"numeral", "note"})
"""Styles that `lettering.case` does not touch."""

_NO_INK: Final = Ink(name="", colour="#000000")
"""Stands in where an ink has problems."""


def marking(fields: language.Marking, faces: Faces, shop: Shop, problems: Problems) -> Marking:
    """The process with the shop's figures, inks and styles.

    Where they have problems, something stands in for them, so that the legends can be read on and their problems be
    told with the others.
    """
    inks = _inks(fields, problems)
    lettering = fields.lettering
    known = processes()
    process = shop.process(known[fields.process if fields.process and fields.process in known else usual()])
    register = fields.register
    return Marking(
        process=process,
        inks=tuple(inks.values()),
        styles={name: _style(name, lettering, inks, faces, problems) for name in language.STYLES},
        viewing_distance=fields.viewing_distance,
        mark_sizes=MarkSizes(fields.mark_sizes),
        register=process.register.value if register is None else register,
        placing=_placing(fields.placing),
        live_text=_said(lettering, language.Lettering.text) == "live",
        cutter=_cutter(fields, process, problems),
    )


def _cutter(fields: language.Marking, process: Process, problems: Problems) -> float | None:
    if fields.written(language.Making.cutter) and process.gives(CutterPaths) is None:
        problems.add(
            fields.key_where(language.Making.cutter),
            said.key_of_other_process(language.Marking.cutter.name, process.name),
            said.processes_with_key([one.name for one in processes().values() if one.gives(CutterPaths)]),
        )
    return fields.cutter


def _placing(fields: language.Placing | None) -> Placing:
    if fields is None:
        return Placing()
    return Placing(
        **{key.name: key.__get__(fields, language.Placing) for key in keys_of(language.Placing)},
    )


def _inks(fields: language.Marking, problems: Problems) -> dict[str, Ink]:
    """The inks by name, the first being the one taken where nothing is said."""
    if fields.written(language.Marking.ink) == fields.written(language.Marking.inks):
        both = fields.written(language.Marking.ink)
        problems.add(
            fields.key_where(language.Marking.inks) if both else fields.begins,
            said.ink_and_inks() if both else said.no_ink(),
            said.ink_or_inks(),
        )
    one = fields.ink
    listed = [one] if one is not None else [item.value for item in fields.inks or ()]
    inks: dict[str, Ink] = {}
    for fields_of in listed:
        name = fields_of.name
        if name is None:
            continue
        ink = Ink(name=name, colour=fields_of.colour or _NO_INK.colour)
        slip = _name_slip(ink, inks)
        if slip is None:
            inks[name] = ink
        else:
            problems.add(fields_of.where(language.Ink.name), *slip)
    return inks


def _name_slip(ink: Ink, inks: Mapping[str, Ink]) -> tuple[Message, Message] | None:
    """Why an ink cannot have its name beside those before it, and what is accepted."""
    if ink.name in inks:
        return said.ink_twice(ink.name), said.each_ink_once()
    if ink.name.casefold() in RESERVED_PLATES:
        return said.ink_name_reserved(ink.name), said.reserved_names(sorted(RESERVED_PLATES))
    plate = process_plate(ink.name)
    if plate is not None and not is_like(ink.colour, plate):
        return said.ink_named_as_process_colour(ink.name, plate, ink.colour), said.rename_ink_or_colour()
    same = next((other for other in inks.values() if other.slug == ink.slug), None)
    if same is not None:
        return said.inks_on_one_layer(same.name, ink.name, f"legend-{ink.slug}"), said.distinct_names()
    return None


def ink_named(name: str, where: Where, inks: Mapping[str, Ink], problems: Problems) -> Ink | None:
    """The ink of that name; nothing more is said when no ink could be read at all."""
    if inks and name not in inks:
        problems.add(where, said.unknown_ink(name), did_you_mean(name, inks, spec_said.inks()))
    return inks.get(name)


def _style(
    name: str, lettering: language.Lettering | None, inks: Mapping[str, Ink], faces: Faces, problems: Problems
) -> Style:
    styles = None if lettering is None else lettering.styles
    own = (None if styles is None else getattr(styles, name)) or language.Style.empty(Where("", 1, 1))
    share = language.CAP_HEIGHT_SHARES[name]
    base = _said(lettering, language.Lettering.cap_height)
    usual_case = "as-written" if name in _AS_WRITTEN else _said(lettering, language.Lettering.case)
    ink = None if own.ink is None else ink_named(own.ink, own.where(language.Style.ink), inks, problems)
    return Style(
        font=_face(own, lettering, faces),
        # Rounded so that 3 x 0.7 is the 2.1 that a designer would write.
        cap_height=round(base * share, 6) if own.cap_height is None else own.cap_height,
        case=Case(usual_case if own.case is None else own.case),
        ink=ink or next(iter(inks.values()), _NO_INK),
        look=_look(own, _look(lettering, PLAIN_LOOK, faces), faces),
    )


def hyphenate_places(fields: language.Marking | None) -> dict[str, Where]:
    """Where `hyphenate` is written for each style: in the style, or for all lettering."""
    lettering = None if fields is None else fields.lettering
    if lettering is None:
        return {}
    key = language.Look.hyphenate
    found = dict.fromkeys(language.STYLES, lettering.key_where(key)) if lettering.written(key) else {}
    for name in language.STYLES:
        own = None if lettering.styles is None else getattr(lettering.styles, name)
        if own is not None and own.written(key):
            found[name] = own.key_where(key)
    return found


def _face(own: language.Style, lettering: language.Lettering | None, faces: Faces) -> str:
    """The font of a style: its own, that of all lettering, or the first of those that come with the program."""
    if own.font is not None:
        return faces.face(own.font, own.where(language.Style.font))
    if lettering is not None:
        return faces.face(lettering.font, lettering.where(language.Lettering.font))
    return faces.face(None, Where("", 1, 1))


def _said(fields: Noun | None, field: Field[Any]) -> Any:
    return field.default if fields is None else fields[field]


def _look(fields: language.Look | None, base: Look, faces: Faces) -> Look:
    """A look with what a record says of it changed."""
    if fields is None:
        return base
    changed: dict[str, Any] = {}
    if (fallback := fields.fallback) is not None:
        changed["fallback"] = tuple(faces.face(font.value, font.where) for font in fallback)
    for key, asked in _LOOK_VALUES.items():
        if (value := fields[asked]) is not None:
            changed[key] = value
    if (run := fields.direction) is not None:
        changed["direction"] = Direction(run)
    if (lines := fields.ranging) is not None:
        changed["align"] = Align(lines)
    if (nought := fields.zero) is not None:
        changed["zero"] = Zero(nought)
    if (words := fields.hyphenate) is not None:
        changed["hyphenate"] = _hyphenate(words)
    if (plate := fields.reversed) is not None:
        changed["plate"] = _plate(plate)
    return replace(base, **changed) if changed else base


_LOOK_VALUES: Final[dict[str, Field[Any]]] = {
    "tracking": language.Lettering.tracking,
    "ligatures": language.Lettering.ligatures,
    "language": language.Lettering.language,
    "line_pitch": language.Lettering.line_pitch,
}


def _hyphenate(written: bool | Sequence[Value[str]]) -> tuple[str, ...]:  # noqa: FBT001  # as the spec has it
    if isinstance(written, bool):
        return (EVERY,) if written else ()
    return tuple(each.value for each in written)


def _plate(written: bool | language.Reversed) -> Plate | None:  # noqa: FBT001  # as the spec has it
    if isinstance(written, language.Reversed):
        return Plate(radius=written.radius, padding=written.padding)
    return Plate() if written else None


_Worded: TypeAlias = (
    language.Legend
    | language.FrameTitle
    | language.FreeText
    | language.BlockText
    | language.SymbolLegend
    | language.SymbolPosition
    | language.FreeSymbol
)
"""Words or a symbol with settings of their own."""

_Texts: TypeAlias = Sequence[Value[str | language.BlockText]]
"""The texts of a block, each with its place in the spec."""

_Written: TypeAlias = str | _Worded | _Texts | language.LegendBlock
"""Whatever a legend may be written as."""


class Letterer(Struct, frozen=True, kw_only=True):
    """Makes legend requests with the styles and inks of one panel."""

    marking: Marking
    problems: Problems
    faces: Faces
    datum: Point = ORIGIN
    variables: Mapping[str, str] = field(default_factory=dict)
    translation: Translation = field(default_factory=Translation)
    unsure: list[UnitOrWord] = field(default_factory=list)
    """What may be a unit or a word, of all texts that were asked for in another case."""
    hyphenate: Mapping[str, Where] = field(default_factory=dict)
    """Where the spec says of a style that its words are to be hyphenated."""
    told: set[tuple[Where, str]] = field(default_factory=set)
    """Problems that are told once."""

    def request(
        self,
        written: _Written,
        where: Where,
        style: str,
        numbers: Mapping[str, str],
    ) -> LegendRequest | None:
        """The request for a text, for a record with a text or symbol and how it is to be set, or for a block."""
        if isinstance(written, language.LegendBlock):
            return self._block(written.texts or (), style, numbers, written)
        if isinstance(written, Sequence) and not isinstance(written, str):
            return self._block(written, style, numbers, None)
        if isinstance(written, str):
            return self._request(written, where, style, numbers, None)
        if isinstance(written, language.SymbolLegend | language.SymbolPosition | language.FreeSymbol):
            return self._symbol(written, style)
        text = written.text
        if text is None:
            return None
        own_style = written.style if written.written(language.Legend.style) else None
        return self._request(text, written.where(language.Legend.text), own_style or style, numbers, written)

    def _request(
        self,
        text: str,
        where: Where,
        style: str,
        numbers: Mapping[str, str],
        settings: language.Legend | language.FrameTitle | language.FreeText | language.BlockText | None,
    ) -> LegendRequest:
        text = self.translation.say(text, where)
        text, problems = self._filled(text, where, numbers)
        written = marked(text, {**self.variables, **numbers}, where, problems)
        base = self.marking.styles[style]
        own_case = None if settings is None else settings.case
        look = _look(settings, base.look, self.faces)
        case = base.case if own_case is None else Case(own_case)
        template = self.template(text, numbers, case, look.language)
        found = self._dictionary(look, self._hyphenate_place(settings, style, where))
        written = _divided(written, look.language, found, varies=template is not None)
        if template is not None:  # the pieces are broken where this text is
            template = replace(template, dictionary=found)
        words, spans, unsure = _spelled(written, case, look.language)
        self.unsure.extend(UnitOrWord(written=each, where=where) for each in unsure)
        if settings is None:
            return LegendRequest(text=words, style=style, where=where, spans=spans, template=template)
        place, offset = settings[language.Legend.place], settings[language.Legend.offset]
        align = settings.align if isinstance(settings, language.Legend | language.FrameTitle) else None
        font = settings.font
        return LegendRequest(
            text=words,
            style=style,
            where=where,
            place=None if place is None else Place(place),
            cap_height=settings.cap_height,
            ink=self._ink(settings),
            align=None if align is None else Anchor(align),
            offset=None if offset is None else Vector(*offset),
            at=self._at(settings),
            guide=self._guide(settings),
            spans=spans,
            font=None if font is None else self.faces.face(font, settings.where(language.Legend.font)),
            look=None if look == base.look else look,
            template=template,
        )

    def _block(
        self, texts: _Texts, style: str, numbers: Mapping[str, str], settings: language.LegendBlock | None
    ) -> LegendRequest | None:
        """The request for several texts under each other; the first has the place of all."""
        read = [self.request(text.value, text.where, style, numbers) for text in texts]
        found = [request for request in read if request is not None]
        if not found:
            return None
        first, *more = found
        if settings is None:
            return replace(first, more=tuple(more))
        place, offset = settings.place, settings.offset
        align = None if settings.align is None else Anchor(settings.align)
        return replace(
            first,
            place=None if place is None else Place(place),
            align=align,
            offset=None if offset is None else Vector(*offset),
            at=self._at(settings),
            guide=self._guide(settings),
            more=tuple(replace(one, align=align) for one in more),
        )

    def _filled(self, text: str, where: Where, names: Mapping[str, str]) -> tuple[str, Problems]:
        """The text with its arguments, and where problems are told of what is then in it.

        What is wrong with the text as it is written is told once, however many arguments it has.
        """
        filled = self.with_arguments(text, names)
        if filled == text:
            return text, self.problems
        as_written = Problems()
        marked(text, {**self.variables, **names}, where, as_written)
        self.problems.extend(as_written.error())
        return filled, Problems() if len(as_written) else self.problems

    def with_arguments(self, text: str, names: Mapping[str, str]) -> str:
        """The text with the arguments of its module in the place of their names, in the language and with their braces.

        Numbers of copies and variables are left for later.
        """
        if not isinstance(names, Names) or not names.arguments:
            return text
        return replaced(text, lambda name: None if name in names.numbers else self._argument(names.arguments.get(name)))

    def _argument(self, argument: Argument | None) -> str | None:
        """What is said for an argument, with the names filled in that hold where it is written."""
        if argument is None:
            return None
        said_so = self.translation.say(argument.written, argument.where)
        return replaced(self.with_arguments(said_so, argument.names), argument.names.numbers.get)

    def _hyphenate_place(self, settings: language.OwnLettering | None, style: str, where: Where) -> Where:
        """Where the spec says that the words of a text are to be hyphenated."""
        if settings is not None and settings.written(language.OwnLettering.hyphenate):
            return settings.key_where(language.OwnLettering.hyphenate)
        return self.hyphenate.get(style, where)

    def _dictionary(self, look: Look, where: Where) -> str:
        """The dictionary that the words of a text are hyphenated by, '' for none; `where` is who asks for that."""
        if not look.hyphenate:
            return ""
        asked = [look.language if tag == EVERY else tag for tag in look.hyphenate]
        spoken = look.language or (asked[0] if len(asked) == 1 else "")
        if not spoken:
            self._tell(where, said.hyphenation_without_language(), said.language_for_hyphenation())
            return ""
        unknown = [tag for tag in asked if not dictionary(tag)]
        for tag in unknown:
            self._tell(where, said.no_hyphenation(tag), said.hyphenated_languages(languages()))
        if unknown or _primary(spoken) not in map(_primary, asked):
            return ""
        return dictionary(spoken)

    def _tell(self, where: Where, says: Message, accepts: Message) -> None:
        """Add a problem once, however many texts have it."""
        if (where, says.english) not in self.told:
            self.told.add((where, says.english))
            self.problems.add(where, says, accepts)

    def template(
        self, text: str, numbers: Mapping[str, str], case: Case = Case.AS_WRITTEN, language: str = ""
    ) -> Template | None:
        """The text as what varies from piece to piece, None where it names no variable."""
        inner = {name.strip() for name in re.findall(r"\{([^{}]*)\}", text)}
        names = tuple(name for name in self.variables if name in inner and name not in numbers)
        if not names:
            return None
        return Template(
            written=text, names=names, numbers=tuple(sorted(numbers.items())), case=case.value, language=language
        )

    def unit(self, text: str, where: Where, numbers: Mapping[str, str]) -> str:
        """The unit of a scale without its braces; what is raised as the signs for powers. No case changes it."""
        text = self.with_arguments(text, numbers)
        written = marked(text, {**self.variables, **numbers}, where, self.problems)
        raised = [(span.start, span.stop) for span in written.spans if span.manner is Manner.SUPER]
        return with_powers(written.text, raised)

    def _at(self, settings: _Worded | language.LegendBlock) -> Point | None:
        # Free texts have an `at` too, which is theirs to read.
        has_place = language.Legend | language.SymbolLegend | language.LegendBlock
        at = settings.at if isinstance(settings, has_place) else None
        if at is None:
            return None
        for other in (language.SymbolLegend.place, language.SymbolLegend.offset):
            if settings.written(other):
                self.problems.add(settings.key_where(other), said.legend_at_and(other.name), said.at_or_place())
        return self.datum.moved(Vector(*at))

    def _guide(self, settings: _Worded | language.LegendBlock) -> float | None:
        guide = settings[language.Legend.guide]
        if guide is not None and settings[language.Legend.place] not in _GUIDED:
            self.problems.add(
                settings.key_where(language.SymbolLegend.guide),
                said.guide_without_side(),
                said.places_with_guide(_GUIDED),
            )
            return None
        return guide

    def _symbol(
        self, settings: language.SymbolLegend | language.SymbolPosition | language.FreeSymbol, style: str
    ) -> LegendRequest | None:
        symbol = settings.symbol
        if symbol is None:
            return None
        if settings.written(language.SymbolLegend.style):
            style = settings[language.SymbolLegend.style] or style
        place, align = settings[language.SymbolLegend.place], settings[language.SymbolLegend.align]
        offset = settings[language.SymbolLegend.offset]
        return LegendRequest(
            text=symbol,
            style=style,
            where=settings.where(language.SymbolLegend.symbol),
            place=None if place is None else Place(place),
            cap_height=settings.height,
            ink=self._ink(settings),
            align=None if align is None else Anchor(align),
            offset=None if offset is None else Vector(*offset),
            at=self._at(settings),
            guide=self._guide(settings),
            font=symbol_font(self.marking.styles[style].font),
        )

    def _ink(self, settings: _Worded) -> Ink | None:
        return self.named_ink(settings.ink, settings.where(language.SymbolLegend.ink))

    def named_ink(self, name: str | None, where: Where) -> Ink | None:
        """The ink of that name; None where none is named or known."""
        if name is None:
            return None
        return ink_named(name, where, {ink.name: ink for ink in self.marking.inks}, self.problems)


_GUIDED: Final = ("above", "below", "left", "right")


def spelled_for(template: Template, values: Mapping[str, str]) -> tuple[str, tuple[Span, ...]]:
    """The words of one piece and the stretches of them that are lettered otherwise.

    `values` has every variable of the template; braces in them are letters like any other.
    """
    problems = Problems()
    written = marked(template.written, {**values, **dict(template.numbers)}, Where("", 1, 1), problems)
    assert not len(problems), "the template was read without problems before"
    written = _divided(written, template.language, template.dictionary, varies=True)
    words, spans, _ = _spelled(written, Case(template.case), template.language)
    return words, spans


def _divided(written: Marked, language: str, found: str, *, varies: bool) -> Marked:
    """The text with the places where the dictionary `found` lets its words be broken.

    In one that `varies` from piece to piece, a word with what a name in braces stands for is broken nowhere, so that
    all pieces have the same places.
    """
    if not found:
        return written
    kept = [keep or (varies and filled) for keep, filled in zip(written.kept, written.filled, strict=True)]
    places = divisions(written.text, written.spans, kept, language, found)
    return replace(written, spans=tuple(sorted((*written.spans, *places))))


def _primary(tag: str) -> str:
    return tag.partition("-")[0].casefold()


def _spelled(written: Marked, case: Case, language: str) -> tuple[str, tuple[Span, ...], tuple[str, ...]]:
    """The words in the case of their style, with the spans where they are then, and what may be a unit or a word."""
    if case is Case.AS_WRITTEN:
        return written.text, written.spans, ()
    kept = kept_as_written(written.text, written.kept, language, written.spans)
    if case is Case.SMALL:
        small = [Span(start, stop, Manner.SMALL) for start, stop in _stretches([not stay for stay in kept.stays])]
        return written.text, tuple(sorted((*written.spans, *small))), kept.unsure
    letters = capitals(written.text, kept.stays, language)
    starts = [0]
    for letter in letters:
        starts.append(starts[-1] + len(letter))
    spans = (Span(starts[span.start], starts[span.stop], span.manner) for span in written.spans)
    return (
        "".join(letters),
        tuple(span for span in spans if span.stop > span.start or span.manner in POINTS),
        kept.unsure,
    )


def _stretches(wanted: Sequence[bool]) -> Iterator[tuple[int, int]]:
    """The longest runs of true, as (start, stop)."""
    start = None
    for place, want in enumerate((*wanted, False)):
        if want and start is None:
            start = place
        elif not want and start is not None:
            yield start, place
            start = None
