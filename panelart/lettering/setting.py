"""Words set in a font at a true cap height: outlines in millimetres, and the measures of their ink."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property, lru_cache
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import ORIGIN, Arc, Box, Line, Point, Vector, direction, rectangle
from panelart.lettering.bidi import Stretches
from panelart.lettering.fonts import Font, open_font
from panelart.lettering.isolates import isolated_stretches
from panelart.lettering.look import PLAIN_LOOK, PLATE_PADDING, PLATE_RADIUS, Align, Direction, Look, Plate
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import Loop, Shape, bounds, shape_of
from panelart.lettering.plate import knocked_out
from panelart.lettering.runs import SetGlyph, Typesetting, shaped_line
from panelart.lettering.spans import Manner, Span, without_points
from panelart.messages import lettering as said
from panelart.reprs import brief, size

LINE_PITCH_CAPITALS: Final = 1.3
LINE_PITCH_MIXED: Final = 1.5
LINE_PITCH_ACCENTS: Final = 1.9
"""Base-line pitch over cap height: b3, b2 and b1 of DIN EN ISO 3098-0:1998-04, lettering type B (1.3, 1.5, 1.9)."""

BAR_GAP: Final = 1.5
"""White between a bar and the ink under it, over the bar's own thickness. Our choice: one would close in print."""


class Letter(Struct, frozen=True):
    """A glyph where it is set.

    `font` is its face's name and `number` its number there; `x` and `y` the origin in mm, `scale` mm for a font unit,
    `turn` how far it is turned in degrees (only on an arc). `text` is what it stands for, '' for the further glyphs
    of one cluster.
    """

    font: str
    number: int
    x: float
    y: float
    scale: float
    text: str
    turn: float = 0.0


class Setting(Struct, frozen=True, dict=True):
    """Set words. The first line's base line starts at (0, 0); `box` bounds the ink, `cap_height` is in mm.

    `spans` are what was said of stretches of the text. `baselines` are the heights of the base lines, the first is 0.
    `strokes` are bars over letters, and `plate` the
    box of the filled field with the radius of its corners, when the words are left out of one. `members` are the
    texts of a block, each with where its first base line starts: they have the letters, and the block has none;
    `cap_height` is then that of the largest.
    """

    text: str
    font: str
    cap_height: float
    box: Box
    baselines: tuple[float, ...]
    letters: tuple[Letter, ...]
    strokes: Shape = ()
    plate: tuple[Box, float] | None = None
    spans: tuple[Span, ...] = ()
    members: tuple[tuple[Setting, Vector], ...] = ()

    @property
    def first_capitals(self) -> float:
        """Height of the capitals of the first line, mm."""
        return self.members[0][0].cap_height if self.members else self.cap_height

    @cached_property
    def line_widths(self) -> tuple[float, ...]:
        """Width of the ink of each line, mm; 0 for one without ink."""
        if self.members:
            return tuple(width for one, _ in self.members for width in one.line_widths)
        ends: dict[float, tuple[float, float]] = {}
        for letter in self.letters:
            box = open_font(letter.font).box(letter.number)
            if box is not None:
                line = min(self.baselines, key=lambda base: abs(base - letter.y))
                left, right = letter.x + box.left * letter.scale, letter.x + box.right * letter.scale
                was = ends.get(line, (left, right))
                ends[line] = min(was[0], left), max(was[1], right)
        return tuple(right - left for left, right in (ends.get(line, (0.0, 0.0)) for line in self.baselines))

    def apart(self, at: Point) -> tuple[tuple[Setting, Point], ...]:
        """Each text by itself with where its first base line starts, when the first of all starts at `at`."""
        return tuple((one, at.moved(by)) for one, by in self.members) or ((self, at),)

    def placed(self, at: Point, turn: float = 0.0) -> Shape:
        """The outlines with the first base line's start at `at`, turned about it by `turn` degrees."""
        return moved(self.shape, Motion(at, turn))

    @cached_property
    def shape(self) -> Shape:
        """The outlines where they were set."""
        if self.members:
            return tuple(loop for one, at in self.apart(ORIGIN) for loop in one.placed(at))
        drawn = [
            moved(
                open_font(letter.font).outline(letter.number),
                Motion(Point(letter.x, letter.y), letter.turn, letter.scale),
            )
            for letter in self.letters
        ]
        if self.plate is None:
            return tuple(loop for letter in (*drawn, self.strokes) for loop in letter)
        box, radius = self.plate
        ground = rectangle(box.width, box.height, box.centre, min(radius, box.width / 2, box.height / 2))
        return knocked_out(shape_of(ground.ccw()), (*drawn, *((stroke,) for stroke in self.strokes)))

    def bent(self, radius: float, deg: float, *, feet_inward: bool = True) -> Setting:
        """The same words round an arc of that base-line radius, their middle in the direction `deg` of its centre.

        The centre is where the setting's origin is then. With feet inward the words read clockwise, as over a dial;
        with heads inward counter-clockwise, as under one. Each letter stands straight on the arc at the middle of its
        advance. Raises ValueError for more than one line, a filled field, and words longer than the circle.
        """
        if len(self.baselines) > 1 or self.plate is not None:
            raise ValueError(said.arc_takes_one_line())
        way = -1.0 if feet_inward else 1.0
        middle = self.box.centre.x
        if self.box.width > 2 * math.pi * radius:
            raise ValueError(said.longer_than_circle(width=self.box.width, radius=radius))

        def angle(x: float) -> float:
            return deg + way * math.degrees((x - middle) / radius)

        letters: list[Letter] = []
        for letter in self.letters:
            box = open_font(letter.font).box(letter.number)
            half = 0.0 if box is None else (box.left + box.right) / 2 * letter.scale
            on = angle(letter.x + half)
            turn = on - 90.0 if feet_inward else on + 90.0
            # The foot of the letter's own middle is put on the arc, then its origin found from there.
            foot = ORIGIN.moved(direction(on).scaled(radius - letter.y * way))
            start = foot.moved(Vector(-half, 0.0).turned(turn))
            letters.append(replace(letter, x=start.x, y=start.y, turn=turn))
        strokes = tuple(_bent_bar(loop, radius, way, angle) for loop in self.strokes)
        turned = replace(self, letters=tuple(letters), strokes=strokes)
        return replace(turned, box=bounds(turned.shape))

    def __repr__(self) -> str:
        return brief("Setting", repr(self.text), self.font, size(self.box.width, self.box.height))


@lru_cache(maxsize=4096)
def set_words(
    text: str,
    font_name: str,
    cap_height: float,
    align: Align = Align.CENTRE,
    look: Look = PLAIN_LOOK,
    spans: tuple[Span, ...] = (),
) -> Setting:
    """Set one or more lines (parted by line breaks) so that the drawn capitals are `cap_height` mm high.

    Raises MissingGlyphError and UnknownFontError, and ValueError when nothing in the text leaves ink.
    """
    lines = list(_set_lines(text, spans, font_name, look, cap_height))
    if not any(line.boxes for line in lines):
        raise ValueError(said.nothing_visible())
    pitch = cap_height * (line_pitch(text, spans) if look.line_pitch is None else look.line_pitch)
    shifts = _shifts(lines, look.align or align)
    letters: list[Letter] = []
    strokes: list[Loop] = []
    boxes: list[Box] = []
    for number, (line, shift) in enumerate(zip(lines, shifts, strict=True)):
        by = Vector(shift, -number * pitch)
        letters += [replace(letter, x=letter.x + by.x, y=letter.y + by.y) for letter in line.letters]
        strokes += moved(line.strokes, Motion(Point(by.x, by.y)))
        boxes += [box.moved(by) for box in line.boxes]
    ink = Box.around(boxes)
    baselines = tuple(-number * pitch for number in range(len(lines)))
    plate = None if look.plate is None else _plate(look.plate, ink, cap_height, baselines[-1])
    return Setting(
        text=text,
        font=font_name,
        cap_height=cap_height,
        box=ink if plate is None else plate[0],
        baselines=baselines,
        letters=tuple(letters),
        strokes=tuple(strokes),
        plate=plate,
        spans=without_points(spans),
    )


def _fallbacks(font_name: str, look: Look) -> tuple[Font, ...]:
    """The fonts that are asked when one lacks a letter, in its weight where they are variable."""
    names = [name for name in look.fallback if name != font_name]
    if not names:
        return ()
    from panelart.lettering.pens import of_the_weight_of  # it measures, which few lines need

    return tuple(open_font(of_the_weight_of(name, font_name)) for name in names)


def _typesetting(font_name: str, look: Look) -> Typesetting:
    """How glyphs are found and put side by side for a look."""
    return Typesetting(
        fonts=(open_font(font_name), *_fallbacks(font_name, look)),
        tracking=look.tracking,
        ligatures=look.ligatures,
        language=look.language,
        right_to_left=None if look.direction is None else look.direction is Direction.LEFTWARD,
        zero=look.zero,
    )


def _set_lines(text: str, spans: Sequence[Span], font_name: str, look: Look, cap_height: float) -> Iterator[_Line]:
    """Each line by itself, with the spans that reach into it."""
    how = _typesetting(font_name, look)
    start = 0
    isolated: Stretches = ()
    if not how.fonts[0].symbols:
        isolated = isolated_stretches(text, spans, how.language, right_to_left=how.right_to_left)
    for written in text.split("\n"):
        stop = start + len(written)
        inside = tuple(part for span in spans if (part := span.part_in(start, stop)) is not None)
        alone = tuple((first - start, last - start) for first, last in isolated if start <= first and last <= stop)
        yield _set_line(written, inside, alone, font_name, look, cap_height)
        start = stop + 1


def line_pitch(text: str, spans: Iterable[Span] = ()) -> float:
    """Base-line pitch over cap height by ISO 3098-0, type B: for capitals, with small letters, with accents.

    Bars and letters of scripts without capitals take the room of accents, raised and lowered letters that of small
    letters.
    """
    manners = {span.manner for span in spans}
    if Manner.BAR in manners or any(_is_tall(letter) for letter in text):
        return LINE_PITCH_ACCENTS
    small = Manner.SUPER in manners or Manner.SUB in manners or any(letter.islower() for letter in text)
    return LINE_PITCH_MIXED if small else LINE_PITCH_CAPITALS


def _is_tall(letter: str) -> bool:
    if ord(letter) < 0x80:
        return False
    accented = letter.isupper() and bool(unicodedata.decomposition(letter))
    return accented or unicodedata.category(letter) in ("Lo", "Mn", "Mc")


class _Line(Struct, frozen=True):
    """A line by itself, in mm from the start of its base line; `point` is where its decimal point stands."""

    letters: tuple[Letter, ...]
    strokes: Shape
    boxes: tuple[Box, ...]
    point: float


@lru_cache(maxsize=4096)
def _set_line(
    line: str, spans: tuple[Span, ...], isolated: Stretches, font_name: str, look: Look, cap_height: float
) -> _Line:
    """A line, kept: words that are broken in every way and aligned in three have most of their lines in common."""
    glyphs = shaped_line(line, spans, _typesetting(font_name, look), isolated)
    letters = tuple(
        Letter(
            font=glyph.font.name,
            number=glyph.number,
            x=glyph.x * cap_height,
            y=glyph.y * cap_height,
            scale=glyph.size * cap_height / glyph.font.cap_units,
            text=glyph.text,
        )
        for glyph in glyphs
    )
    inked = [(glyph, box) for glyph in glyphs if (box := _ink_of(glyph, cap_height)) is not None]
    boxes = [box for _, box in inked]
    strokes: list[Loop] = []
    # The inner ones first, so that a bar over a bar finds it there.
    for span in sorted(spans, key=lambda span: (span.stop - span.start, span.start)):
        under = [box for glyph, box in inked if span.start <= glyph.index < span.stop]
        if span.manner is Manner.BAR and under:
            bar = _bar(Box.around(under), glyphs[0].font, cap_height)
            strokes += shape_of(rectangle(bar.width, bar.height, bar.centre))
            boxes.append(bar)
            inked.append((replace(glyphs[0], index=span.start), bar))
    right = max((box.right for box in boxes), default=0.0)
    return _Line(letters, tuple(strokes), tuple(boxes), _point(line, inked, right))


def _ink_of(glyph: SetGlyph, cap_height: float) -> Box | None:
    box = glyph.font.box(glyph.number)
    if box is None:
        return None
    scale = glyph.size * cap_height / glyph.font.cap_units
    x, y = glyph.x * cap_height, glyph.y * cap_height
    return Box(x + box.left * scale, y + box.bottom * scale, x + box.right * scale, y + box.top * scale)


def _bar(under: Box, font: Font, cap_height: float) -> Box:
    """A bar as thick as the font's hyphen, over some letters of a line."""
    thick = stroke_share(font) * cap_height
    bottom = max(under.top, cap_height) + BAR_GAP * thick
    return Box(under.left, bottom, under.right, bottom + thick)


def stroke_share(font: Font) -> float:
    """How thick the font's level strokes are over its cap height, measured on its hyphen or minus sign."""
    for sign in "-\N{MINUS SIGN}\N{EN DASH}":
        number = font.number(sign)
        box = None if number is None else font.box(number)
        if box is not None:
            return box.height / font.cap_units
    return 0.1


def _point(line: str, inked: Sequence[tuple[SetGlyph, Box]], right: float) -> float:
    """Where the decimal point of a line begins; the end of its first number, or of the line, where it has none."""
    last = None
    for place, letter in enumerate(line):
        if letter.isdigit():
            last = place
        elif last is not None:
            if letter in ".,\N{ARABIC DECIMAL SEPARATOR}" and line[place + 1 : place + 2].isdigit():
                return min((box.left for glyph, box in inked if glyph.index == place), default=right)
            break
    return max((box.right for glyph, box in inked if glyph.index == last), default=right)


def _shifts(lines: Sequence[_Line], align: Align) -> list[float]:
    """How far each line is moved sideways so that all stand to each other as asked, by their ink."""
    inks = [Box.around(line.boxes) if line.boxes else None for line in lines]
    inked = [ink for ink in inks if ink is not None]
    left = min(ink.left for ink in inked)
    right = max(ink.right for ink in inked)
    points = max(line.point for line in lines if line.boxes)
    return [
        0.0 if ink is None else _shift(line, ink, align, (left, right), points)
        for line, ink in zip(lines, inks, strict=True)
    ]


def _shift(line: _Line, ink: Box, align: Align, ends: tuple[float, float], points: float) -> float:
    """How far one line is moved among lines whose ink lies between these ends, their points no farther out."""
    left, right = ends
    match align:
        case Align.LEFT:
            return left - ink.left
        case Align.RIGHT:
            return right - ink.right
        case Align.CENTRE:
            return (left + right - ink.left - ink.right) / 2
        case Align.POINT:
            return points - line.point


def _plate(plate: Plate, ink: Box, cap_height: float, last_baseline: float) -> tuple[Box, float]:
    """The filled field round some ink with the radius of its corners."""
    padding = PLATE_PADDING * cap_height if plate.padding is None else plate.padding
    ground = _field(ink, cap_height, last_baseline, padding)
    return ground, PLATE_RADIUS * cap_height if plate.radius is None else plate.radius


def _field(ink: Box, cap_height: float, last_baseline: float, padding: float) -> Box:
    """The filled field: padding round the capitals, so that fields in a row match, and half of it round the rest."""
    return Box(
        ink.left - padding,
        min(last_baseline - padding, ink.bottom - padding / 2),
        ink.right + padding,
        max(cap_height + padding, ink.top + padding / 2),
    )


def _bent_bar(loop: Loop, radius: float, way: float, angle: Callable[[float], float]) -> Loop:
    box = bounds((loop,))
    start, stop = angle(box.left), angle(box.right)
    low, high = radius - way * box.bottom, radius - way * box.top
    inner, outer = Arc(ORIGIN, low, start, stop - start), Arc(ORIGIN, high, stop, start - stop)
    return Loop((inner, Line(inner.end, outer.start), outer, Line(outer.end, inner.start)))
