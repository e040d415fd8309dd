"""Fonts: one opened face, its glyphs as curves in font units, and the true height of its capitals.

Fonts come from the package's own `fonts/` or from a file that the spec names; never from the system. A face is
known by its name: that of a cut of our own (`plain-medium`, `plain-h/8-0.9`; `cuts.py`), the path of a TrueType or
OpenType file, or such a path with what is wanted of it behind it: the font of a collection, and the places on the axes
of a variable font, `house.ttc index=2 wght=600 wdth=80`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import Enum
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Final

from panelart.canonical import Struct
from panelart.geometry import Box, Line, Point
from panelart.lettering import own_faces
from panelart.lettering.cuts import FACE, Cut, cut_of, is_symbols, ps_name
from panelart.lettering.face.edges import UNITS_PER_EM
from panelart.lettering.font_file import count_of_faces, fault_of
from panelart.lettering.outline import Cubic, Curve, Loop, Shape, bounds
from panelart.lettering.own_faces import Face, own_face
from panelart.lettering.symbols import SYMBOLS, glyph_name
from panelart.messages import Message
from panelart.messages import lettering as said

if TYPE_CHECKING:
    import uharfbuzz as hb  # loaded for fonts that are not ours, for lines that are not plain, and for files

    from panelart.lettering.face.drawn import DrawnSource

OWN_FONTS: Final = own_faces.PLAIN
"""The cuts of our own face that are built, by name, and the file of each."""

_BUILT: Final = frozenset(OWN_FONTS | own_faces.SYMBOLS)

_HASHED: Final = 24_000_000
"""So much of a file as is read of any that a spec names tells its content."""

_CONTENT: Final = re.compile(r" @[0-9a-f]{12}$")
"""The end of a name that goes with one content of a font file, so that all that is kept by a font's name is kept by
what is in it."""

MEASURED: Final = "HΗНԱႠᎠאاकকਕકକகకಕകකกກཀကកሀ国國あアㄅ가01"
"""The letters that a font's height is measured on: the first of them that it has.

H and its Greek, Cyrillic, Armenian, Georgian and Cherokee twins are capitals. A font without capitals is brought to
size by a letter of its own script that stands for its height: alef of Hebrew and of Arabic, ka of the scripts of India,
Thailand, Laos, Tibet, Burma and Cambodia, ha of Ethiopia, the ideograph for country, a of hiragana and katakana, b of
bopomofo, hangul ga; and one without any of these by its figures. That letter then gets the cap height that was asked
for. Ideographs are as high as the box that they are drawn in, which country fills.
"""

_BOXED: Final = frozenset("国國あアㄅ가")
"""Letters of scripts that are drawn in a box, all of one size."""

_BOX_TOP, _BOX_BOTTOM = "icft", "icfb"
"""The edges of the box of ideographs (OpenType 1.9.1, baseline tags)."""

_PLAUSIBLE: Final = (0.05, 3.0)
"""The height of a capital over the em, far beyond what faces have (0.4 to 1.1 in 453 files of Debian's)."""

FILES: Final = (".ttf", ".otf", ".ttc", ".otc")
"""How the files of fonts are called, single ones and collections."""

_INSTANCE: Final = re.compile(
    r"(?P<file>.+?\.(?:ttf|otf|ttc|otc))(?: index=(?P<index>[0-9]+))?(?P<axes>(?: [A-Za-z0-9]{4}=-?[0-9.]+)*)",
    re.IGNORECASE,
)

SYMBOL_FONTS: Final = own_faces.SYMBOLS
"""Fonts of symbols, whose glyphs are asked for by name; a spec asks for the symbol and not for the font."""


class MissingGlyphError(Exception):
    """None of the fonts named has a glyph for a character; there is no substitute.

    With a `word`, other fonts have the character and lack another one of the word, which is set in one font.
    """

    def __init__(self, character: str, *fonts: str, word: str = "") -> None:
        self.character = character
        self.fonts = fonts
        names = tuple(dict.fromkeys(map(file_of, fonts)))
        missing = said.missing_glyph if len(names) == 1 else said.glyph_missing_everywhere
        named = tuple(said.font_name(name=name) for name in names)
        code = f"U+{ord(character):04X}"
        self.says: Message = missing(fonts=named, character=character, code=code)
        if word:
            self.says = said.word_in_no_font(word=word, fonts=named, character=character, code=code)
        super().__init__(self.says)


class UnknownFontError(Exception):
    """No font of that name, the file is not a font, or it has no such axis."""


class SeveralFontsError(UnknownFontError):
    """The file is a collection, and nothing says which of its fonts is meant."""


class Embedding(Enum):
    """What the maker of a font lets its users do with it in files: the bits of OS/2 fsType."""

    FREE = "free"
    VIEW = "view"
    NEVER = "never"

    @property
    def words(self) -> Message:
        """The same for people."""
        words = {
            Embedding.FREE: said.may_be_embedded,
            Embedding.VIEW: said.may_be_embedded_to_view,
            Embedding.NEVER: said.must_not_be_embedded,
        }
        return words[self]()


class Glyph(Struct, frozen=True):
    """One shaped glyph: its number in the font, where its origin stands, in font units, and its advance.

    `cluster` is the place in the text of the first character that it stands for.
    """

    number: int
    x: float
    y: float
    advance: float = 0.0
    cluster: int = 0


class Axis(Struct, frozen=True):
    """An axis of a variable font and where it may stand."""

    tag: str
    minimum: float
    default: float
    maximum: float


@dataclass(frozen=True, slots=True, eq=False)
class Font:
    """An opened face. `cap_units` is the height of the drawn H in font units, measured on its outline.

    A face of `symbols` has glyphs that are asked for by name, and sets no characters; its `cap_units` are the height of
    their square. `own` is what is kept of a font of our own; with it the shaper is not loaded before it is needed.
    """

    name: str
    cap_units: float
    source: bytes | DrawnSource = field(repr=False)
    instance: tuple[tuple[str, float], ...] = ()
    index: int = 0
    symbols: bool = False
    own: Face | None = field(default=None, repr=False)
    _shaper: list[hb.Font] = field(default_factory=list, repr=False)
    _drawn: dict[int, Shape] = field(default_factory=dict, repr=False)
    _boxes: dict[int, Box | None] = field(default_factory=dict, repr=False)

    @staticmethod
    def from_bytes(
        name: str, data: bytes, instance: Mapping[str, float] | None = None, index: int | None = None
    ) -> Font:
        """Open a TrueType or CFF font: one of a collection by its index, a variable one at an instance.

        An instance is a place for each tag of an axis.

        Raises UnknownFontError when it is none, is damaged or cut off, or has no letter to measure; for a collection
        without an index; and for an axis that it does not have or a place off its axis.
        """
        import uharfbuzz as hb

        file = file_of(name)
        if (fault := fault_of(data, file, index or 0)) is not None:
            raise UnknownFontError(fault)
        _require_index(file, data, index)
        face = hb.Face(data, index or 0)
        if face.upem <= 0 or face.glyph_count == 0:
            raise UnknownFontError(said.not_a_font(font=file))
        font = hb.Font(face)
        if instance:
            _require_axes(name, face, instance)
            font.set_variations(dict(instance))
        height = _height(font, file)
        return Font(name, height, data, tuple(sorted((instance or {}).items())), index or 0, _shaper=[font])

    @property
    def data(self) -> bytes:
        """The font file; that of a cut which is drawn as it is asked for is written now."""
        return self.source if isinstance(self.source, bytes) else self.source.whole

    @property
    def units_per_em(self) -> int:
        """How many font units its size is divided into."""
        return UNITS_PER_EM if self.own is not None else int(self.face.face.upem)

    @property
    def ps_name(self) -> str:
        """The PostScript name, '' for a font that has none."""
        return ps_name(self.name) if self.own is not None else self.face.face.get_name(6) or ""

    @property
    def face(self) -> hb.Font:
        """The font as the shaper has it, loaded when it is first asked for."""
        if not self._shaper:
            import uharfbuzz as hb

            self._shaper.append(hb.Font(hb.Face(self.data, self.index)))
        return self._shaper[0]

    def has(self, character: str) -> bool:
        """Whether the font has a glyph for a character."""
        return self.number(character) is not None

    def number(self, character: str) -> int | None:
        """The glyph that stands for a character by itself."""
        if self.own is not None:
            return self.own.numbers.get(character)
        number: int | None = self.face.get_nominal_glyph(ord(character))
        return number

    @staticmethod
    def of_symbols(name: str, data: bytes) -> Font:
        """Open one of our fonts of symbols."""
        import uharfbuzz as hb

        font = hb.Font(hb.Face(data))
        height = float(font.get_metric_position(hb.OTMetricsTag.CAP_HEIGHT))
        return Font(name, height, data, symbols=True, _shaper=[font])

    def symbol(self, name: str) -> int:
        """The glyph of a symbol. Raises ValueError when there is none of that name."""
        number: int | None = None
        if self.symbols and name in SYMBOLS:
            glyph = glyph_name(name)
            number = self.face.get_glyph_from_name(glyph) if self.own is None else self.own.names.get(glyph)
        if not number:
            raise ValueError(said.no_symbol(name=name))
        return number

    def advance(self, number: int) -> int:
        """How far it is from a glyph to whatever follows it, in font units, unless the two are kerned."""
        return int(self.face.get_glyph_h_advance(number)) if self.own is None else self.own.advance(number)

    def shape(self, line: str) -> tuple[tuple[Glyph, ...], float]:
        """One line of text of one direction as glyphs with kerning, and its advance, in font units.

        Raises MissingGlyphError naming the first character that the font lacks.
        """
        for character in line:
            if not self.has(character):
                raise MissingGlyphError(character, self.name)
        return self.shaped(line)

    def shaped(
        self,
        text: str,
        *,
        right_to_left: bool | None = None,
        script: str = "",
        language: str = "",
        features: Mapping[str, int] | None = None,
    ) -> tuple[tuple[Glyph, ...], float]:
        """A run of one direction and script as glyphs from left to right, and its advance, in font units.

        `script` is an ISO 15924 tag, `language` a BCP 47 tag; '' leaves either to be guessed from the text.
        """
        plain = not right_to_left and _UNKNOWN_TO_OURS.issuperset(features or ())
        if plain and self.own is not None and self.own.sets(text):
            return _in_a_row(self.own.set(text))
        import uharfbuzz as hb

        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        if right_to_left is not None:
            buffer.direction = "rtl" if right_to_left else "ltr"
        if script:
            buffer.script = script
        # The language that is guessed is the machine's own, which would make files differ from place to place.
        buffer.language = language or "und"
        hb.shape(self.face, buffer, {"kern": True, "liga": False, "clig": False, **(features or {})})
        glyphs: list[Glyph] = []
        x = 0.0
        for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
            across, up, on = position.x_offset, position.y_offset, position.x_advance
            glyphs.append(Glyph(info.codepoint, x + across, float(up), float(on), info.cluster))
            x += on
        return tuple(glyphs), x

    def outline(self, number: int) -> Shape:
        """A glyph's loops in font units, drawn once and kept."""
        if number not in self._drawn:
            if self.own is None:
                self._drawn[number] = _draw(self.face, number)
            else:
                pen = Pen()
                self.own.draw(number, pen)
                self._drawn[number] = tuple(pen.loops)
        return self._drawn[number]

    def box(self, number: int) -> Box | None:
        """The bounds of a glyph's ink in font units, None where it has none."""
        if self.own is not None and number not in self._boxes:
            self._boxes[number] = self.own.box(number)
        if number not in self._boxes:
            shape = self.outline(number)
            self._boxes[number] = bounds(shape) if shape else None
        return self._boxes[number]

    def height_of(self, character: str) -> float | None:
        """How high a character's ink is over the cap height, None when the font has no such character."""
        number = self.number(character)
        box = None if number is None else self.box(number)
        return None if box is None else box.top / self.cap_units

    @property
    def axes(self) -> tuple[Axis, ...]:
        """The axes of a variable font; none for another."""
        face = self.face.face
        if not face.has_var_data:
            return ()
        return tuple(Axis(info.tag, info.min_value, info.default_value, info.max_value) for info in face.axis_infos)

    @property
    def embedding(self) -> Embedding:
        """What OS/2 fsType allows (OpenType 1.9, OS/2, fsType); a font that does not say is free."""
        bits = self._type_bits
        if bits & 0x0200:
            return Embedding.NEVER  # bitmaps only, and outlines are wanted
        if bits & 0x000F == 0x0002:
            return Embedding.NEVER
        return Embedding.VIEW if bits & 0x000F == 0x0004 else Embedding.FREE

    @property
    def may_be_subset(self) -> bool:
        """Whether single glyphs may be taken out of the font for embedding (fsType bit 8)."""
        return not self._type_bits & 0x0100

    @property
    def _type_bits(self) -> int:
        if self.own is not None:
            return 0
        table = self.face.face.reference_table("OS/2").data
        return int.from_bytes(table[8:10], "big") if len(table) >= 10 else 0

    def has_feature(self, tag: str) -> bool:
        """Whether the font has a substitution feature for any script: 'smcp' small capitals, 'zero' another nought."""
        return tag in _features(self)


def _height(font: hb.Font, file: str) -> float:
    """The height of a font's capitals, or of what stands for them, in font units. Raises UnknownFontError."""
    for letter in MEASURED:
        number = font.get_nominal_glyph(ord(letter))
        drawn = _draw(font, number) if number else ()
        if drawn:
            height = (_box_height(font) if letter in _BOXED else None) or bounds(drawn).height
            if not _PLAUSIBLE[0] <= height / font.face.upem <= _PLAUSIBLE[1]:
                raise UnknownFontError(said.capital_out_of_scale(font=file, letter=letter))
            return height
    raise UnknownFontError(said.no_capital(font=file))


def _box_height(font: hb.Font) -> float | None:
    """The height of the box of ideographs, where a font's BASE table has it."""
    edges = [font.get_layout_baseline(tag, "LTR", "Hani", "dflt") for tag in (_BOX_BOTTOM, _BOX_TOP)]
    bottom, top = edges
    return None if bottom is None or top is None else float(top - bottom)


def _require_index(file: str, data: bytes, index: int | None) -> None:
    """Raises UnknownFontError for a collection without an index, unless it has one font, and for one that is none."""
    import uharfbuzz as hb

    count = count_of_faces(data)
    if count == 0 and index is not None:
        raise UnknownFontError(said.index_of_single_font(font=file))
    if count > 1 and index is None:
        names = (hb.Face(data, each).get_name(hb.OTNameIdPredefined.FULL_NAME) for each in range(min(count, _NAMED)))
        faces = [said.face_of_collection(index=each, name=name or "") for each, name in enumerate(names)]
        raise SeveralFontsError(said.collection_without_index(font=file, faces=faces))


_NAMED: Final = 16
"""So many fonts of a collection are told by name."""


def _require_axes(name: str, face: hb.Face, instance: Mapping[str, float]) -> None:
    """Raises UnknownFontError for an axis that a font does not have and a place off its axis."""
    axes = {info.tag: info for info in face.axis_infos} if face.has_var_data else {}
    for tag, place in instance.items():
        axis = axes.get(tag)
        if axis is None and axes:
            raise UnknownFontError(said.no_axis(font=file_of(name), axis=tag, axes=sorted(axes)))
        if axis is None:
            raise UnknownFontError(said.no_axes(font=file_of(name), axis=tag))
        low, high = axis.min_value, axis.max_value
        if not low <= place <= high:
            raise UnknownFontError(said.off_axis(font=file_of(name), axis=tag, minimum=low, maximum=high, place=place))


_DEFAULT_LANGUAGE: Final = 0xFFFF


@lru_cache(maxsize=256)
def _features(font: Font) -> frozenset[str]:
    face = font.face.face
    found: set[str] = set()
    for script in range(len(face.get_table_script_tags("GSUB"))):
        languages = len(face.get_script_language_tags("GSUB", script))
        for language in (_DEFAULT_LANGUAGE, *range(languages)):
            found |= set(face.get_language_feature_tags("GSUB", script, language))
    return frozenset(found)


def face_name(file: str, instance: Mapping[str, float], index: int | None = None) -> str:
    """The name of a variable font's instance or of a font in a collection: `house.ttc index=2 wght=600`."""
    return (
        file
        + ("" if index is None else f" index={index}")
        + "".join(f" {tag}={place:.12g}" for tag, place in sorted(instance.items()))
    )


def with_content(name: str, data: bytes) -> str:
    """The name of a font file, or of an instance, as it is when these bytes are in it."""
    import hashlib

    return f"{name} @{hashlib.sha256(data[:_HASHED]).hexdigest()[:12]}"


def file_of(name: str) -> str:
    """The name without what is in the file; of our own letters that of the face, as it is written in a spec."""
    return _CONTENT.sub("", name) if is_symbols(name) or cut_of(name) is None else FACE


@lru_cache(maxsize=32)
def open_font(name: str) -> Font:
    """One of our own fonts by name, or a font file by path, as the module says. Raises UnknownFontError."""
    own = own_face(name)
    if own is not None:
        data = (fonts_folder() / "built" / (OWN_FONTS | SYMBOL_FONTS)[name]).read_bytes()
        return Font(name, own.cap_units, data, symbols=name in SYMBOL_FONTS, own=own)
    cut = cut_of(name)
    return shaper_font(name) if cut is None or name in _BUILT else _drawn_cut(name, cut)


def _drawn_cut(name: str, cut: Cut) -> Font:
    """A cut that is not built."""
    from panelart.lettering.face.drawn import DrawnFace, DrawnSource  # most panels need none

    symbols = is_symbols(name)
    face = DrawnFace(cut, symbols=symbols)
    return Font(name, face.cap_units, DrawnSource(cut, face, symbols), symbols=symbols, own=face)


def shaper_font(name: str) -> Font:
    """As `open_font`, without what is kept of our own. Raises UnknownFontError."""
    if name in SYMBOL_FONTS:
        return Font.of_symbols(name, (fonts_folder() / "built" / SYMBOL_FONTS[name]).read_bytes())
    file, instance, index = file_of(name), dict[str, float](), None
    if (written := _INSTANCE.fullmatch(file)) is not None:
        file = written["file"]
        index = None if written["index"] is None else int(written["index"])
        pairs = (pair.split("=") for pair in written["axes"].split())
        instance = {tag: float(place) for tag, place in pairs}
    path = fonts_folder() / "built" / OWN_FONTS[name] if name in OWN_FONTS else Path(file)
    try:
        data = path.read_bytes()
    except OSError as error:
        raise UnknownFontError(said.no_font_file(font=file_of(name), fonts=tuple(OWN_FONTS))) from error
    if _CONTENT.search(name) and with_content(file_of(name), data) != name:
        raise UnknownFontError(said.font_changed(font=file_of(name)))
    return Font.from_bytes(name, data, instance, index)


@cache
def fonts_folder() -> Path:
    """Where our own fonts are: inside the installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "fonts"
    return inside if inside.is_dir() else package.parent / "fonts"


_UNKNOWN_TO_OURS: Final = frozenset(("liga", "clig", "smcp"))
"""Features that are asked for and that our fonts do not have."""


def _in_a_row(steps: Iterable[tuple[int, int]]) -> tuple[tuple[Glyph, ...], float]:
    """Glyphs set one behind the other, by how far it is from each to the next."""
    glyphs: list[Glyph] = []
    x = 0.0
    for cluster, (number, advance) in enumerate(steps):
        glyphs.append(Glyph(number, x, 0.0, float(advance), cluster))
        x += advance
    return tuple(glyphs), x


class Pen:
    """Receives a glyph's curves and keeps them as loops; quadratics become cubics exactly."""

    def __init__(self) -> None:
        self.loops: list[Loop] = []
        self.curves: list[Curve] = []
        self.here = Point(0.0, 0.0)
        self.begun = self.here

    def move(self, x: float, y: float) -> None:
        """Begin a loop."""
        self.here = self.begun = Point(x, y)

    def line(self, x: float, y: float) -> None:
        """Draw a straight line."""
        there = Point(x, y)
        if there != self.here:
            self.curves.append(Line(self.here, there))
            self.here = there

    def quadratic(self, cx: float, cy: float, x: float, y: float) -> None:
        """Draw a curve with one handle."""
        a, b = self.here, Point(x, y)
        first = Point(a.x + 2 / 3 * (cx - a.x), a.y + 2 / 3 * (cy - a.y))
        second = Point(b.x + 2 / 3 * (cx - b.x), b.y + 2 / 3 * (cy - b.y))
        self.curves.append(Cubic(a, first, second, b))
        self.here = b

    def cubic(self, ax: float, ay: float, bx: float, by: float, x: float, y: float) -> None:
        """Draw a curve with two handles."""
        there = Point(x, y)
        self.curves.append(Cubic(self.here, Point(ax, ay), Point(bx, by), there))
        self.here = there

    def close(self) -> None:
        """End a loop where it began."""
        self.line(self.begun.x, self.begun.y)
        if self.curves:
            self.loops.append(Loop(tuple(self.curves)))
        self.curves = []


@cache
def _drawing() -> hb.DrawFuncs:
    import uharfbuzz as hb

    functions = hb.DrawFuncs()
    functions.set_move_to_func(lambda x, y, pen: pen.move(x, y))
    functions.set_line_to_func(lambda x, y, pen: pen.line(x, y))
    functions.set_quadratic_to_func(lambda cx, cy, x, y, pen: pen.quadratic(cx, cy, x, y))
    functions.set_cubic_to_func(lambda ax, ay, bx, by, x, y, pen: pen.cubic(ax, ay, bx, by, x, y))
    functions.set_close_path_func(lambda pen: pen.close())
    return functions


def _draw(font: hb.Font, number: int) -> Shape:
    pen = Pen()
    font.draw_glyph(number, _drawing(), pen)
    return tuple(pen.loops)
