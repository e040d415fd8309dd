"""Fonts as the spec names them, each opened once so that what is wrong with it is told where it is written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.diagnostics import Where, nearest
from panelart.lettering.cuts import FINEST, HEAVIEST, MEDIUM, WEIGHTS, WIDTHS, Cut, cut_of
from panelart.messages import Message
from panelart.messages import spec_lettering as said
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.spec import language

_GIVEN_UP: Final = {
    "plain-bold": "{weight: bold}",
    "plain-narrow": "{width: narrow}",
}
"""Names that fonts of the program had, and what to write instead."""


def _as_written(cut: Cut) -> str:
    """A cut as a spec has it."""
    width = "" if cut.width == 1.0 else f", width: {'narrow' if cut.width == WIDTHS['narrow'] else f'{cut.width:g}'}"
    return f"{{weight: {cut.weight_name}{width}}}"


def _instead_of(name: str) -> Message:
    """What to write instead of a name that is none."""
    cut = cut_of(name)
    if cut is not None or name in _GIVEN_UP:
        return said.write_as_pen(_GIVEN_UP.get(name) or _as_written(cut or MEDIUM))
    near = nearest(name, (language.PLAIN,))
    return said.fonts_or_file(language.PLAIN) if near is None else said.near_or_font_file(near)


class Faces(Struct, frozen=True, kw_only=True):
    """The fonts of one spec; `weight` is that of our own where none is written, `live` says that they are embedded."""

    folder: Path
    read_file: Callable[[Path], bytes]
    problems: Problems
    weight: str = MEDIUM.name
    live: bool = False
    _seen: dict[tuple[str, Where], str] = field(default_factory=dict)

    def face(self, written: str | language.FontInstance | language.Pen | None, where: Where) -> str:
        """The name that opens a font, from what the spec says of it; problems are added once for each place."""
        if written is None or written == language.PLAIN:
            return self._cut(None, None).font
        if isinstance(written, language.Pen):
            return self._pen(written)
        if isinstance(written, Noun):
            if written.file is None:
                return MEDIUM.font
            instance = {tag.value: place.value for tag, place in written.instance or ()}
            return self._opened(written.file, instance, written.index, written.where(language.FontInstance.file))
        return self._opened(written, {}, None, where)

    def _pen(self, written: language.Pen) -> str:
        """The cut of our own face with this weight and width, the nearest there is where one is off its axis."""
        cut = self._cut(written.weight, written.width)
        weight = min(max(cut.weight, HEAVIEST), FINEST)
        width = max(cut.width, WIDTHS["narrow"])
        if weight != cut.weight:
            self._once(written.where(language.Pen.weight), said.weight_off_axis(cut.weight_name), said.weights())
        if width != cut.width:
            self._once(
                written.where(language.Pen.width), said.width_off_axis(f"{cut.width:g}"), said.widths(WIDTHS["narrow"])
            )
        return Cut(weight, width).font

    def _cut(self, weight: str | None, width: str | None) -> Cut:
        """A cut as it is written, wherever on the axes."""
        heavy = self.weight if weight is None else weight
        wide = "normal" if width is None else width
        return Cut(
            WEIGHTS[heavy] if heavy in WEIGHTS else float(heavy.removeprefix("h/")),
            WIDTHS[wide] if wide in WIDTHS else float(wide),
        )

    def _once(self, where: Where, says: Message, accepts: Message) -> None:
        """Add a problem, once for each place."""
        if (str(says.english), where) not in self._seen:
            self._seen[str(says.english), where] = ""
            self.problems.add(where, says, accepts)

    def _opened(self, name: str, instance: Mapping[str, float], index: int | None, where: Where) -> str:
        # Only here, as the shaping library takes longer to load than a spec to read.
        from panelart.lettering.fonts import (
            FILES,
            Embedding,
            SeveralFontsError,
            UnknownFontError,
            face_name,
            open_font,
            with_content,
        )

        full = face_name((self.folder / name).as_posix(), instance, index)
        if (full, where) in self._seen:
            return self._seen[full, where]
        self._seen[full, where] = full
        if not name.lower().endswith(FILES):
            self.problems.add(where, said.unknown_font(name), _instead_of(name))
            self._seen[full, where] = name
            return name
        try:
            named = with_content(full, self.read_file(self.folder / name))
        except OSError:
            self.problems.add(where, said.font_file_missing(name), said.fonts_or_file(language.PLAIN))
            return full
        try:
            font = open_font(named)
        except UnknownFontError as error:
            several = isinstance(error, SeveralFontsError)
            hint = said.choose_of_collection() if several else said.fonts_or_file(language.PLAIN)
            self.problems.add(where, said.font_unreadable(str(error)), hint)
            return full
        self._seen[full, where] = named
        if self.live and font.embedding is Embedding.NEVER:
            self.problems.add(where, said.font_not_embeddable(name), said.other_font_or_outlines())
        return named
