"""The source of the face: text files of strokes, read strictly.

``read_folder`` takes the folder of ``*.txt`` files to a ``Source``: every glyph as rounded polygons in units of
d, its fixed sides or advance, and its base letter for kerning. All faults of all files are gathered before
``SourceError`` is raised; each names its file and line. The grammar is written down in ``fonts/README.md``.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from pathlib import Path as FilePath

from msgspec import field

from panelart.canonical import Struct
from panelart.lettering.face.curves import Corner, Path, Spot

#: Radius of the pen's path round a dot; with the stroke this makes a full point of 1.3 d.
DOT_RADIUS = 0.15

_NUMBER = r"[-+]?\d+(?:\.\d+)?"
_CORNER = re.compile(rf"({_NUMBER}),({_NUMBER})(~(?:({_NUMBER})(?::({_NUMBER}))?)?)?")
_PAIR = re.compile(rf"({_NUMBER}),({_NUMBER})")
_CODE = re.compile(r"U\+([0-9A-F]{4,6})")


class SourceError(ValueError):
    """The source of the face cannot be read; the message lists every fault as ``file:line: fault``."""


class _FaultError(ValueError):
    """One fault on the line being read."""


class GlyphSource(Struct, frozen=True, kw_only=True):
    """One glyph as written, with its parts put in place.

    ``key`` is the character itself, or a longer name for a form without a character of its own.
    ``sides`` and ``advance`` are in d at the regular weight; at most one of them is set. In a fixed advance the ink
    stands in the middle, moved by ``shift``. ``form_kept`` is a sign that keeps its form where a style is wider or
    narrower.
    ``kern_like`` is the key of the glyph whose kerning it follows (its base letter, or itself); only letters, and
    signs that ask for it, are ``kerned``: figures keep their pitch.
    """

    key: str
    paths: tuple[Path, ...]
    sides: tuple[float | None, float | None]
    advance: float | None
    shift: float
    top: Spot
    bottom: Spot
    joins_bottom: bool
    kern_like: str
    kerned: bool
    form_kept: bool


class Source(Struct, frozen=True, kw_only=True):
    """All glyphs of the face in the order of the files."""

    glyphs: Mapping[str, GlyphSource]


class _Draft(Struct, kw_only=True):
    key: str
    where: str
    paths: list[Path] = field(default_factory=list)
    parts: list[tuple[str, Spot | None, float, str]] = field(default_factory=list)
    left: float | None = None
    right: float | None = None
    advance: float | None = None
    shift: float = 0.0
    top: Spot | None = None
    bottom: Spot | None = None
    joins_bottom: bool = False
    kerned: bool = False
    composed: bool = False
    pen: float = math.inf
    pen_share: float = 1.0
    form_kept: bool = False


def read_folder(folder: FilePath) -> Source:
    """Read every ``*.txt`` file of the folder, in order of name.

    Raises ``SourceError`` with all faults, or ``FileNotFoundError`` where the folder holds no source.
    """
    files = sorted(folder.glob("*.txt"))
    if not files:
        raise FileNotFoundError(f"no source of the face in {folder}")
    return read_texts({file.name: file.read_text(encoding="utf-8") for file in files})


def read_texts(texts: Mapping[str, str]) -> Source:
    """Read sources given as texts by file name; as ``read_folder``."""
    faults: list[str] = []
    drafts: dict[str, _Draft] = {}
    for name, text in texts.items():
        _read_text(name, text, drafts, faults)
    glyphs: dict[str, GlyphSource] = {}
    for draft in drafts.values():
        _finish(draft, drafts, glyphs, faults, ())
    if faults:
        raise SourceError("\n".join(faults))
    return Source(glyphs={key: glyphs[key] for key in drafts})


def _read_text(name: str, text: str, drafts: dict[str, _Draft], faults: list[str]) -> None:
    draft: _Draft | None = None
    for number, raw in enumerate(text.splitlines(), start=1):
        line = raw.split("#", 1)[0].rstrip()
        if not line.strip():
            continue
        where = f"{name}:{number}"
        try:
            if line[0].isspace():
                _directive(_open_glyph(draft), line.split(), where)
            else:
                draft = None
                draft = _begun(_header(line, where), drafts)
        except _FaultError as fault:
            faults.append(f"{where}: {fault}")


def _open_glyph(draft: _Draft | None) -> _Draft:
    if draft is None:
        raise _FaultError("a stroke before any glyph")
    return draft


def _begun(draft: _Draft, drafts: dict[str, _Draft]) -> _Draft:
    if draft.key in drafts:
        raise _FaultError(f"glyph {draft.key!r} stands already at {drafts[draft.key].where}")
    drafts[draft.key] = draft
    return draft


def _key(word: str) -> str:
    code = _CODE.fullmatch(word)
    return chr(int(code[1], 16)) if code else word


def _header(line: str, where: str) -> _Draft:
    words = line.split()
    if words[0] != "glyph" or len(words) < 2:
        raise _FaultError(f"'glyph KEY' expected, found {line!r}")
    draft = _Draft(key=_key(words[1]), where=where)
    if len(words) > 2:
        if words[2] != "=" or len(words) % 2 or any(word != "+" for word in words[4::2]):
            raise _FaultError("'glyph KEY = BASE + MARK ...' expected")
        draft.composed = True
        draft.parts.append((_key(words[3]), Spot(0.0, 0.0), 10.0, where))
        draft.parts.extend((_key(word), None, 10.0, where) for word in words[5::2])
    return draft


def _directive(draft: _Draft, words: list[str], where: str) -> None:
    if not (_drawn(draft, words, where) or _set(draft, words)):
        raise _FaultError(
            f"not understood: {' '.join(words)!r}; a line is one of line, loop, circle, arc, dot, part, "
            "sides, advance, top, bottom, joins, kerned, pen, form with what belongs to it"
        )
    if draft.advance is not None and (draft.left is not None or draft.right is not None):
        raise _FaultError("a glyph has either an advance or sides")


def _drawn(draft: _Draft, words: list[str], where: str) -> bool:
    """Take a line that draws; False where it is none."""
    match words:
        case ["line" | "loop" as name, _, _, *_]:
            draft.paths.append(_path(words[1:], closed=name == "loop"))
        case ["circle", centre, radius]:
            draft.paths.append(_circle(_spot(centre), _positive(radius)))
        case ["arc", centre, radius, "from", start, "sweep", sweep]:
            draft.paths.append(_arc(_spot(centre), _positive(radius), _number(start), _number(sweep)))
        case ["dot", _, *_]:
            draft.paths.extend(_circle(_spot(spot), DOT_RADIUS) for spot in words[1:])
        case ["part", key, "at", spot]:
            draft.parts.append((_key(key), _spot(spot), 10.0, where))
        case ["part", key, "at", spot, "size", size]:
            draft.parts.append((_key(key), _spot(spot), _positive(size), where))
        case _:
            return False
    return True


def _set(draft: _Draft, words: list[str]) -> bool:
    """Take a line that sets a measure or a habit; False where it is none."""
    match words:
        case ["sides", left, right]:
            draft.left = None if left == "-" else _number(left)
            draft.right = None if right == "-" else _number(right)
        case ["advance", advance]:
            draft.advance = _positive(advance)
        case ["advance", advance, "shift", shift]:
            draft.advance, draft.shift = _positive(advance), _number(shift)
        case ["pen", pen]:
            _set_pen(draft, pen)
        case ["form", "kept"]:
            draft.form_kept = True
        case ["top", spot]:
            draft.top = _spot(spot)
        case ["bottom", spot]:
            draft.bottom = _spot(spot)
        case ["joins", "bottom"]:
            draft.joins_bottom = True
        case ["kerned"]:
            draft.kerned = True
        case _:
            return False
    return True


def _set_pen(draft: _Draft, word: str) -> None:
    """A share of the style's pen, or the widest pen."""
    if word.endswith("%"):
        draft.pen_share = _positive(word.removesuffix("%")) / 100
    else:
        draft.pen = _positive(word)


def _number(word: str) -> float:
    if not re.fullmatch(_NUMBER, word):
        raise _FaultError(f"a number expected, found {word!r}")
    return float(word)


def _positive(word: str) -> float:
    number = _number(word)
    if number <= 0:
        raise _FaultError(f"a number above 0 expected, found {word!r}")
    return number


def _spot(word: str) -> Spot:
    pair = _PAIR.fullmatch(word)
    if pair is None:
        raise _FaultError(f"a place as x,y expected, found {word!r}")
    return Spot(float(pair[1]), float(pair[2]))


class _Corners(Struct, frozen=True, kw_only=True):
    """The corners of a path as written: words, places, which are rounded and how far, and the sides between them.

    ``sides`` has the length from each corner to the next, the last one to the first; ``lengths`` the tangent lengths
    before and after, None for a corner that takes what room there is.
    """

    words: list[str]
    spots: list[Spot]
    rounded: list[bool]
    sides: list[float]
    lengths: list[tuple[float, float] | None]
    closed: bool

    @property
    def pairs(self) -> Iterator[tuple[int, int]]:
        """The corners that a side joins, by their numbers."""
        count = len(self.spots)
        for index in range(count if self.closed else count - 1):
            yield index, (index + 1) % count


def _path(words: list[str], *, closed: bool) -> Path:
    """Corners as written; ``~`` alone takes all the room its neighbours leave, half where both ask for all."""
    written = _corners(words, closed=closed)
    corners = tuple(_rounded(written, index) for index in range(len(words)))
    for index, ahead in written.pairs:
        used = corners[index].after + corners[ahead].before
        if used > written.sides[index] + 1e-6:
            raise _FaultError(
                f"roundings of {words[index]} and {words[ahead]} need {used:.3f} of the "
                f"{written.sides[index]:.3f} between them"
            )
    return Path(corners=corners, closed=closed)


def _corners(words: list[str], *, closed: bool) -> _Corners:
    found = [_corner(word) for word in words]
    spots = [Spot(float(match[1]), float(match[2])) for match in found]
    rounded = [match[3] is not None for match in found]
    if not closed and (rounded[0] or rounded[-1]):
        raise _FaultError("an open stroke cannot begin or end with a rounded corner")
    ahead = [*spots[1:], spots[0]]
    written = _Corners(
        words=words,
        spots=spots,
        rounded=rounded,
        sides=[math.dist(spot, following) for spot, following in zip(spots, ahead, strict=True)],
        lengths=[_lengths(match, spots[i - 1], spots[i], ahead[i]) for i, match in enumerate(found)],
        closed=closed,
    )
    for index, _ in written.pairs:
        if written.sides[index] == 0:
            raise _FaultError(f"two corners at one place: {words[index]}")
    return written


def _corner(word: str) -> re.Match[str]:
    match = _CORNER.fullmatch(word)
    if match is None:
        raise _FaultError(f"a corner as x,y or x,y~ or x,y~radius or x,y~before:after expected, found {word!r}")
    return match


def _rounded(written: _Corners, index: int) -> Corner:
    """A corner with the room that its rounding takes of the sides before and after it."""
    at = written.spots[index]
    if not written.rounded[index]:
        return Corner(at=at)
    count = len(written.spots)
    back, ahead = (index - 1) % count, (index + 1) % count
    own = written.lengths[index]
    if own is None:
        before = _room(written.sides[back], written.lengths[back], 1, shared=written.rounded[back])
        after = _room(written.sides[index], written.lengths[ahead], 0, shared=written.rounded[ahead])
    else:
        before, after = own
    if before <= 0 or after <= 0:
        raise _FaultError(f"nothing to round at {written.words[index]}")
    return Corner(at=at, before=before, after=after)


def _lengths(match: re.Match[str], back: Spot, corner: Spot, ahead: Spot) -> tuple[float, float] | None:
    """Tangent lengths as written; None for a corner that takes what room there is."""
    if match[4] is None:
        return None
    if match[5] is None:
        tangent = _tangent(back, corner, ahead, float(match[4]))
        return tangent, tangent
    return float(match[4]), float(match[5])


def _room(side: float, neighbour: tuple[float, float] | None, end: int, *, shared: bool) -> float:
    """What a side leaves to a corner: all of it, half, or what the neighbour's written rounding leaves."""
    if not shared:
        return side
    return side / 2 if neighbour is None else side - neighbour[end]


def _tangent(back: Spot, corner: Spot, ahead: Spot, radius: float) -> float:
    first = math.atan2(corner.y - back.y, corner.x - back.x)
    second = math.atan2(ahead.y - corner.y, ahead.x - corner.x)
    turn = abs((second - first + math.pi) % (2 * math.pi) - math.pi)
    return radius * math.tan(turn / 2)


def _circle(centre: Spot, radius: float) -> Path:
    (x, y), r = centre, radius
    corners = (Spot(x - r, y - r), Spot(x + r, y - r), Spot(x + r, y + r), Spot(x - r, y + r))
    return Path(corners=tuple(Corner(at=at, before=r, after=r) for at in corners), closed=True)


def _arc(centre: Spot, radius: float, start: float, sweep: float) -> Path:
    """An arc as a polygon with one rounded corner for each 90 degrees or less."""
    if not 0 < abs(sweep) < 360:
        raise _FaultError(f"a sweep between 0 and 360 expected, found {sweep:g}")
    count = math.ceil(abs(sweep) / 90)
    step = math.radians(sweep / count)
    tangent = radius * math.tan(abs(step) / 2)

    def around(angle: float, reach: float) -> Spot:
        return Spot(centre.x + reach * math.cos(angle), centre.y + reach * math.sin(angle))

    begin = math.radians(start)
    corners = [Corner(at=around(begin, radius))]
    for index in range(count):
        middle = begin + (index + 0.5) * step
        corners.append(Corner(at=around(middle, radius / math.cos(step / 2)), before=tangent, after=tangent))
    corners.append(Corner(at=around(begin + count * step, radius)))
    return Path(corners=tuple(corners), closed=False)


def _extent(paths: list[Path]) -> tuple[float, float, float, float]:
    spots = [spot for path in paths for spot in path.stroke().spots(0.25)]
    return (min(s.x for s in spots), min(s.y for s in spots), max(s.x for s in spots), max(s.y for s in spots))


def _finish(
    draft: _Draft,
    drafts: Mapping[str, _Draft],
    glyphs: dict[str, GlyphSource],
    faults: list[str],
    open_keys: tuple[str, ...],
) -> GlyphSource | None:
    """Put the parts of a glyph in place; parts are finished before the glyph that uses them."""
    if draft.key in glyphs:
        return glyphs[draft.key]
    if draft.key in open_keys:
        faults.append(f"{draft.where}: {draft.key!r} is a part of itself")
        return None
    paths = list(draft.paths)
    base: GlyphSource | None = None
    for key, at, size, where in draft.parts:
        if key not in drafts:
            faults.append(f"{where}: no glyph {key!r} to be a part of {draft.key!r}")
            return None
        part = _finish(drafts[key], drafts, glyphs, faults, (*open_keys, draft.key))
        if part is None:
            return None
        place = at
        if place is None:
            assert base is not None  # the header puts the base first
            place = base.bottom if part.joins_bottom else base.top
        paths.extend(_fitted(part.paths, place, (size - 1.0) / 9.0))
        base = base or part
    glyphs[draft.key] = _placed(draft, paths, base if draft.composed else None)
    return glyphs[draft.key]


def _fitted(paths: tuple[Path, ...], at: Spot, scale: float) -> Iterator[Path]:
    """Paths at a place, redrawn so that a capital of 10 d has 9 d x scale + 1 d; the stroke stays as it is."""
    for path in paths:
        yield path.mapped(lambda spot: Spot(spot.x * scale + at.x, (spot.y - 0.5) * scale + 0.5 + at.y))


def _placed(draft: _Draft, paths: list[Path], base: GlyphSource | None) -> GlyphSource:
    top, bottom = _anchors(draft, paths, base)
    measured = draft.left is not None or draft.right is not None or draft.advance is not None
    model = None if measured else base
    return GlyphSource(
        key=draft.key,
        paths=tuple(path.drawn_with(draft.pen, draft.pen_share) for path in paths),
        sides=(draft.left, draft.right) if model is None else model.sides,
        advance=draft.advance if model is None else model.advance,
        shift=draft.shift if model is None else model.shift,
        top=top,
        bottom=bottom,
        joins_bottom=draft.joins_bottom,
        kern_like=draft.key if model is None else model.kern_like,
        kerned=draft.kerned or (len(draft.key) == 1 and draft.key.isalpha()) or draft.key.endswith(".pnum"),
        form_kept=draft.form_kept,
    )


def _anchors(draft: _Draft, paths: list[Path], base: GlyphSource | None) -> tuple[Spot, Spot]:
    """Where marks stand above and below a glyph: as written, as on its base, or in the middle of its ink."""
    left, _, right, highest = _extent(paths) if paths else (0.0, 0.0, 0.0, 0.0)
    middle = (left + right) / 2
    top = draft.top or (base.top if base else Spot(middle, 10.0 if highest > 7.5 else 7.0))
    bottom = draft.bottom or (base.bottom if base else Spot(middle, 0.0))
    return top, bottom
