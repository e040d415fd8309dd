"""The marking of a panel, and the words asked for: inks, styles and legends from what the spec says of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from panelart.diagnostics import Where, did_you_mean
from panelart.geometry import ORIGIN, Point, Vector
from panelart.model.panel import Anchor, Case, Ink, LegendRequest, Marking, Place, Placing, Style
from panelart.source.problems import Problems, shown
from panelart.source.schema import Field, Fields
from panelart.spec import language
from panelart.spec.casing import in_capitals
from panelart.spec.processes import processes
from panelart.spec.templates import filled

_AS_WRITTEN: Final = frozenset({"numeral", "note"})
"""Styles that `lettering.case` does not touch."""

_NO_INK: Final = Ink(name="", colour="#000000")
"""Stands in where an ink has problems."""

_FONT_FILES: Final = (".ttf", ".otf")


def marking(fields: Fields, folder: Path, problems: Problems) -> Marking:
    """The process, inks and styles.

    Where they have problems, something stands in for them, so that the legends can be read on and their problems be
    told with the others.
    """
    inks = _inks(fields, problems)
    lettering = fields[language.LETTERING]
    known = processes()
    process = known.get(fields[language.PROCESS] or "") or next(iter(known.values()))
    register = fields[language.REGISTER]
    return Marking(
        process=process,
        inks=tuple(inks.values()),
        styles={name: _style(name, lettering, inks, folder, problems) for name in language.STYLES},
        viewing_distance=fields[language.VIEWING_DISTANCE] or 0.0,
        register=process.register if register is None else register,
        placing=_placing(fields[language.PLACING]),
    )


def _placing(fields: Fields | None) -> Placing:
    if fields is None:
        return Placing()
    return Placing(
        **{name: fields[field] or 0 for name, field in language.PLACING_WEIGHTS.items()},
        clearance=fields[language.CLEARANCE] or 0.0,
        gap=fields[language.GAP] or 0.0,
        white=fields[language.WHITE] or 0.0,
    )


def _inks(fields: Fields, problems: Problems) -> dict[str, Ink]:
    """The inks by name, the first being the one taken where nothing is said."""
    if fields.written(language.INK) == fields.written(language.INKS):
        both = fields.written(language.INK)
        problems.add(
            fields.key_where(language.INKS) if both else fields.place,
            "marking has both 'ink' and 'inks'" if both else "marking has neither 'ink' nor 'inks'",
            "accepted: ink: {name, colour}, or inks: with a list of such",
        )
    one = fields[language.INK]
    listed = [one] if one is not None else [item.value for item in fields[language.INKS] or ()]
    inks: dict[str, Ink] = {}
    for ink in listed:
        name, colour = ink[language.INK_NAME], ink[language.INK_COLOUR]
        if name in inks:
            problems.add(
                ink.where(language.INK_NAME), f"two inks have the name {shown(name or '')}", "accepted: each once"
            )
        elif name is not None:
            inks[name] = Ink(name=name, colour=colour or _NO_INK.colour)
    return inks


def ink_named(name: str, where: Where, inks: Mapping[str, Ink], problems: Problems) -> Ink | None:
    """The ink of that name; nothing more is said when no ink could be read at all."""
    if inks and name not in inks:
        problems.add(where, f"no ink has the name {shown(name)}", did_you_mean(name, inks, "inks"))
    return inks.get(name)


def _style(name: str, lettering: Fields | None, inks: Mapping[str, Ink], folder: Path, problems: Problems) -> Style:
    styles = None if lettering is None else lettering[language.STYLES_FIELD]
    own = None if styles is None else styles[language.STYLE_FIELDS[name]]
    share = language.CAP_HEIGHT_SHARES[name]
    base = _said(lettering, language.CAP_HEIGHT) or 0.0
    cap_height = None if own is None else own[language.STYLE_CAP_HEIGHT]
    case = None if own is None else own[language.STYLE_CASE]
    if case is None:
        case = "as-written" if name in _AS_WRITTEN else _said(lettering, language.CASE)
    ink_name = None if own is None else own[language.STYLE_INK]
    ink = None
    if own is not None and ink_name is not None:
        ink = ink_named(ink_name, own.where(language.STYLE_INK), inks, problems)
    return Style(
        font=_font(lettering, own, folder, problems),
        # Rounded so that 3 x 0.7 is the 2.1 that a designer would write.
        cap_height=round(base * share, 6) if cap_height is None else cap_height,
        case=Case(case),
        ink=ink or next(iter(inks.values()), _NO_INK),
    )


def _said(fields: Fields | None, field: Field[Any]) -> Any:
    return field.default if fields is None else fields[field]


def _font(lettering: Fields | None, own: Fields | None, folder: Path, problems: Problems) -> str:
    name = None if own is None else own[language.STYLE_FONT]
    where = None if own is None else own.where(language.STYLE_FONT)
    if name is None:
        name = _said(lettering, language.FONT)
        where = None if lettering is None else lettering.where(language.FONT)
    assert isinstance(name, str)
    if name in language.FONTS or where is None:
        return name
    if not name.lower().endswith(_FONT_FILES):
        hint = did_you_mean(name, language.FONTS, "fonts")
        problems.add(where, f"no font has the name {shown(name)}", f"{hint}, or a file that ends in .ttf or .otf")
        return name
    # Only here, as the shaping library takes longer to load than a spec to read.
    from panelart.lettering.fonts import UnknownFontError, open_font

    file = (folder / name).as_posix()
    try:
        open_font(file)
    except UnknownFontError as error:
        problems.add(where, str(error), f"accepted: {', '.join(language.FONTS)}, or a font file, relative to the spec")
    return file


@dataclass(frozen=True, slots=True, kw_only=True)
class Letterer:
    """Makes legend requests with the styles and inks of one panel."""

    marking: Marking
    problems: Problems
    datum: Point = ORIGIN

    def request(
        self, written: str | Fields, where: Where, style: str, numbers: Mapping[str, int]
    ) -> LegendRequest | None:
        """The request for a text, or for a record with text, place, cap_height, ink and style."""
        if isinstance(written, str):
            return self._request(written, where, style, numbers, None)
        text = written[language.TEXT]
        if text is None:
            return None
        own_style = written[language.LEGEND_STYLE] if written.written(language.LEGEND_STYLE) else None
        return self._request(text, written.where(language.TEXT), own_style or style, numbers, written)

    def _request(
        self, text: str, where: Where, style: str, numbers: Mapping[str, int], settings: Fields | None
    ) -> LegendRequest:
        words = filled(text, numbers, where, self.problems)
        if self.marking.styles[style].case is Case.UPPER:
            words = in_capitals(words)
        if settings is None:
            return LegendRequest(text=words, style=style, where=where)
        place, offset = settings[language.PLACE], settings[language.OFFSET]
        title = settings.record is language.FRAME_TITLE_RECORD
        align = settings[language.TITLE_ALIGN if title else language.ALIGN]
        return LegendRequest(
            text=words,
            style=style,
            where=where,
            place=None if place is None else Place(place),
            cap_height=settings[language.OWN_CAP_HEIGHT],
            ink=self._ink(settings),
            align=None if align is None else Anchor(align),
            offset=None if offset is None else Vector(*offset),
            at=self._at(settings),
        )

    def _at(self, settings: Fields) -> Point | None:
        # Free texts have an `at` too, which is theirs to read.
        at = settings[language.LEGEND_AT] if settings.record is language.LEGEND_RECORD else None
        if at is None:
            return None
        for other in (language.PLACE, language.OFFSET):
            if settings.written(other):
                self.problems.add(
                    settings.key_where(other),
                    f"the legend has both 'at' and '{other.name}'",
                    "accepted: 'at' alone, or 'place' and 'offset'",
                )
        return self.datum.moved(Vector(*at))

    def _ink(self, settings: Fields) -> Ink | None:
        name = settings[language.OWN_INK]
        if name is None:
            return None
        inks = {ink.name: ink for ink in self.marking.inks}
        return ink_named(name, settings.where(language.OWN_INK), inks, self.problems)
