"""Fonts as the spec names them, each opened once so that what is wrong with it is told where it is written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.diagnostics import Where, nearest
from panelart.messages import spec_lettering as said
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.spec import language

_FONT_FILES: Final = (".ttf", ".otf")


class Faces(Struct, frozen=True, kw_only=True):
    """The fonts of one spec; `live` when they are to be embedded."""

    folder: Path
    read_file: Callable[[Path], bytes]
    problems: Problems
    live: bool = False
    _seen: dict[tuple[str, Where], str] = field(default_factory=dict)

    def face(self, written: str | language.FontInstance, where: Where) -> str:
        """The name that opens a font, from what the spec says of it; problems are added once for each place."""
        if isinstance(written, Noun):
            file = written.file
            instance = written.instance
            if file is None or instance is None:
                return language.FONTS[0]
            return self._opened(
                file, {tag.value: place.value for tag, place in instance}, written.where(language.FontInstance.file)
            )
        return written if written in language.FONTS else self._opened(written, {}, where)

    def _opened(self, name: str, instance: Mapping[str, float], where: Where) -> str:
        # Only here, as the shaping library takes longer to load than a spec to read.
        from panelart.lettering.fonts import Embedding, UnknownFontError, face_name, open_font, with_content

        full = face_name((self.folder / name).as_posix(), instance)
        if (full, where) in self._seen:
            return self._seen[full, where]
        self._seen[full, where] = full
        if not name.lower().endswith(_FONT_FILES):
            near = nearest(name, language.FONTS)
            hint = said.fonts_or_file(language.FONTS) if near is None else said.near_or_font_file(near)
            self.problems.add(where, said.unknown_font(name), hint)
            self._seen[full, where] = name
            return name
        try:
            named = with_content(full, self.read_file(self.folder / name))
        except OSError:
            self.problems.add(where, said.font_file_missing(name), said.fonts_or_file(language.FONTS))
            return full
        try:
            font = open_font(named)
        except UnknownFontError as error:
            self.problems.add(where, said.font_unreadable(str(error)), said.fonts_or_file(language.FONTS))
            return full
        self._seen[full, where] = named
        if self.live and font.embedding is Embedding.NEVER:
            self.problems.add(where, said.font_not_embeddable(name), said.other_font_or_outlines())
        return named
