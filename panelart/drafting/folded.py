"""Like groups that are laid out alike, written once: as a repeat where one number tells them apart, else as a module.

Goes by the lines of a draft, one for each part and each frame, as `draft.spec_text` writes them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.drafting.families import marks, stem
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node, Scalar
from panelart.source.nodes import Sequence as SequenceNode
from panelart.source.written import Written, written
from panelart.spec import language

_PART: Final = re.compile(
    r"  - \{ref: (?P<ref>[\w.+-]+), part: (?P<part>[^,]+), at: \[(?P<x>[^,]+), (?P<y>[^\]]+)\]"
    r"(?P<before>(?:, (?!legend:).*?)?)(?:, legend: (?P<legend>\"[^\"]*\"|[^,{}\"]+))?(?P<after>(?:, .*)?)\}"
    r"(?:  # (?P<remark>.*))?"
)
_SAME: Final = 0.005
"""Places that are told apart at least, mm: half of a hundredth, to which they are written."""

_COUNT: Final = "{n}"


class _Line(Struct, frozen=True, kw_only=True):
    """A part as it is written: `more` is what follows its legend, or is written before it."""

    number: int
    ref: str
    part: str
    x: float
    y: float
    legend: str
    more: str
    remark: str


class _Copy(Struct, frozen=True, kw_only=True):
    """One of several like groups: its name, its parts, and the line of its frame."""

    name: str
    lines: tuple[_Line, ...]
    frame: int


def folded(text: str, groups: Sequence[tuple[str, Sequence[str]]]) -> str:
    """A draft with its like groups written once; `groups` are the names and refs of its frames.

    What stands otherwise than in the first group, or is not decided, stays written out.
    """
    lines = text.splitlines()
    modules: list[str] = []
    names: set[str] = set()
    instead: dict[int, list[str]] = {}
    for copies in _alike(groups, lines):
        once = _repeated(copies) or _module(copies, names)
        if once is None:
            continue
        modules += once[1]
        instead |= {number: [] for copy in copies for number in _numbers(copy, lines)}
        instead[copies[0].lines[0].number] = [f"  # {', '.join(copy.name for copy in copies)}", *once[0]]
    if not instead:
        return text
    kept = [one for number, line in enumerate(lines) for one in instead.get(number, [line])]
    return "\n".join(_with_modules(_without_empty(kept), modules)) + "\n"


def _numbers(copy: _Copy, lines: Sequence[str]) -> Iterator[int]:
    """The numbers of the lines that a group takes: its parts, its frame, the remark with its name above them."""
    yield from (line.number for line in copy.lines)
    yield copy.frame
    above = copy.lines[0].number - 1
    if lines[above] == f"  # {copy.name}":
        yield above


def _read(number: int, line: str) -> _Line | None:
    """A line of a draft as a part; None for any other."""
    found = _PART.fullmatch(line)
    if found is None:
        return None
    return _Line(
        number=number,
        ref=found["ref"],
        part=found["part"],
        x=float(found["x"]),
        y=float(found["y"]),
        legend=found["legend"] or "",
        more=found["before"] + found["after"],
        remark=found["remark"] or "",
    )


def _alike(groups: Sequence[tuple[str, Sequence[str]]], lines: Sequence[str]) -> Iterator[list[_Copy]]:
    """The like groups that have the same parts in the same places about their first."""
    alike: dict[object, list[_Copy]] = {}
    for copy in _copies(groups, lines):
        alike.setdefault((stem(copy.name), tuple((line.part, line.more) for line in copy.lines)), []).append(copy)
    for copies in alike.values():
        if len(copies) > 1 and all(_like_the_first(copy, copies[0]) for copy in copies):
            yield copies


def _copies(groups: Sequence[tuple[str, Sequence[str]]], lines: Sequence[str]) -> Iterator[_Copy]:
    """The groups that may be like others and whose parts are all on the panel."""
    found = {line.ref: line for number, each in enumerate(lines) if (line := _read(number, each)) is not None}
    frames = {line: number for number, line in enumerate(lines) if line.startswith("  - {around: ")}
    for name, refs in groups:
        frame = frames.get(f"  - {{around: {written(list(refs))}, title: {written(name)}}}")
        if stem(name) and "{" not in name and frame is not None and found.keys() >= {*refs}:
            yield _Copy(name=name, lines=tuple(found[ref] for ref in refs), frame=frame)


def _like_the_first(copy: _Copy, first: _Copy) -> bool:
    """Whether the parts of a group stand about its first as those of the first group do."""
    by_x, by_y = copy.lines[0].x - first.lines[0].x, copy.lines[0].y - first.lines[0].y
    return all(
        abs(line.x - model.x - by_x) < _SAME and abs(line.y - model.y - by_y) < _SAME
        for line, model in zip(copy.lines, first.lines, strict=True)
    )


# --- as a repeat


_Once = tuple[list[str], list[str]]
"""The lines that place like groups, and those of their module."""


def _repeated(copies: Sequence[_Copy]) -> _Once | None:
    """Like groups as a repeat; None where their names, refs and places do not go on in even steps."""
    series, step = _series(copies), _step(copies)
    if series is None or step is None:
        return None
    start = _start(series)
    titles = _templates([[copy.name for copy in copies]], series)
    columns = list(zip(*(copy.lines for copy in copies), strict=True))
    refs = _refs(columns, series)
    legends = _templates([[line.legend for line in fellows] for fellows in columns], series)
    if start is None or titles is None or refs is None or legends is None:
        return None
    repeat: dict[str, Written] = {"count": len(copies), "step": list(step), **start}
    return [f"  - repeat: {written(repeat)}", *_repeat_lines(columns, refs, legends, titles[0])], []


def _repeat_lines(
    columns: Sequence[Sequence[_Line]], refs: Sequence[str], legends: Sequence[str], title: str
) -> Iterator[str]:
    """The parts of a repeat as those of the first group are written, and their frame."""
    yield "    parts:"
    for fellows, ref, legend in zip(columns, refs, legends, strict=True):
        line = fellows[0]
        yield f"      - {_part(line, ref, (line.x, line.y), legend)}{_remarks(fellows)}"
    yield "    frames:"
    yield f"      - {{around: {written(list(refs))}, title: {written(title)}}}"


def _refs(columns: Iterable[Sequence[_Line]], series: Sequence[str]) -> list[str] | None:
    """The templates of the refs of like parts; None where one has no count in it."""
    refs = _templates([[line.ref for line in fellows] for fellows in columns], series)
    return refs if refs is not None and all(_COUNT in ref for ref in refs) else None


def _templates(values: Iterable[Sequence[str]], series: Sequence[str]) -> list[str] | None:
    """The template for each row of values; None where one has none."""
    found = [_template(each, series) for each in values]
    known = [each for each in found if each is not None]
    return known if len(known) == len(found) else None


def _series(copies: Sequence[_Copy]) -> list[str] | None:
    """The numbers or letters that tell the names of like groups apart; None where there are several in a name."""
    counted = [marks(copy.name) for copy in copies]
    changing = [number for number in range(len(counted[0])) if len({one[number] for one in counted}) > 1]
    return [one[changing[0]] for one in counted] if len(changing) == 1 else None


def _step(copies: Sequence[_Copy]) -> tuple[float, float] | None:
    """The step from each group to the next; None where they do not stand in even steps."""
    one, two = copies[0].lines[0], copies[1].lines[0]
    step = _tidy(two.x - one.x), _tidy(two.y - one.y)
    return step if all(_is_at(copy, copies[0], number, step) for number, copy in enumerate(copies)) else None


def _start(series: Sequence[str]) -> dict[str, Written] | None:
    """Where a repeat starts that counts so; None where it is no count."""
    first = series[0]
    if all(one.isdecimal() and one == str(int(first) + number) for number, one in enumerate(series)):
        return {} if first == "1" else {"start": int(first)}
    letters = len(first) == 1 and "A" <= first <= "Z"
    if letters and all(one == chr(ord(first) + number) for number, one in enumerate(series)) and series[-1] <= "Z":
        return {"start": first}
    return None


def _is_at(copy: _Copy, first: _Copy, number: int, step: tuple[float, float]) -> bool:
    """Whether a group stands so many steps from the first."""
    one, model = copy.lines[0], first.lines[0]
    return abs(one.x - model.x - number * step[0]) < _SAME and abs(one.y - model.y - number * step[1]) < _SAME


def _template(values: Sequence[str], series: Sequence[str]) -> str | None:
    """The text with the count in braces that stands for all of these; one that all share as it is."""
    first = values[0]
    if all(value == first for value in values):
        return first
    for found in re.finditer(re.escape(series[0]), first):
        before, after = first[: found.start()], first[found.end() :]
        if all(value == before + count + after for value, count in zip(values, series, strict=True)):
            return before + _COUNT + after
    return None


# --- as a module


def _module(copies: Sequence[_Copy], names: set[str]) -> _Once | None:
    """Like groups as a module with a parameter for whatever differs; `names` are those of other modules."""
    name = _name_of(copies[0], names)
    parameters: dict[str, Written] = {"name": "text"}
    given: list[dict[str, Written]] = [{"name": copy.name} for copy in copies]
    lines = [f"  {name}:", "", "    parts:"]
    inside: list[str] = []
    origin = copies[0].lines[0]
    for at, line in enumerate(copies[0].lines):
        fellows = [copy.lines[at] for copy in copies]
        if not _may_be_given(fellows):
            return None
        ref = _parameter([one.ref for one in fellows], _letters(line.ref), parameters, given)
        legend = _parameter([one.legend for one in fellows], f"{_letters(line.ref)}_legend", parameters, given)
        inside.append(ref)
        place = _tidy(line.x - origin.x), _tidy(line.y - origin.y)
        lines.append(f"      - {_part(line, ref, place, legend)}{_remarks(fellows)}")
    lines[1] = f"    parameters: {written(parameters)}"
    lines += ["    frames:", f'      - {{around: {written(inside)}, title: "{{name}}"}}', ""]
    placed = [
        f"  - {written({'module': name, 'at': [copy.lines[0].x, copy.lines[0].y], 'with': values})}"
        for copy, values in zip(copies, given, strict=True)
    ]
    names.add(name)
    return placed, lines


def _may_be_given(fellows: Sequence[_Line]) -> bool:
    """Whether the legends of like parts are one, or plain words that a parameter can stand for."""
    legends = {line.legend for line in fellows}
    return len(legends) == 1 or not any('"' in legend or "{" in legend for legend in legends)


def _name_of(copy: _Copy, taken: set[str]) -> str:
    """The name of a module, from that of its groups."""
    words = re.sub(r"[^a-z0-9]+", "-", stem(copy.name).replace("#", " ")).strip("-")
    name = words if words[:1].isalpha() else f"group-{words}".rstrip("-")
    number = 2
    while name in taken:
        name, number = f"{name.rstrip('0123456789').rstrip('-')}-{number}", number + 1
    return name


def _parameter(
    values: Sequence[str], wanted: str, parameters: dict[str, Written], given: Sequence[dict[str, Written]]
) -> str:
    """What is written for values: the one that all share, else a parameter, which is added."""
    if len({*values}) == 1:
        return values[0]
    name, number = wanted, 2
    while name in parameters:
        name, number = f"{wanted}{number}", number + 1
    parameters[name] = "text"
    for own, value in zip(given, values, strict=True):
        own[name] = value
    return f"{{{name}}}"


def _letters(ref: str) -> str:
    """The letters of a ref, as the name of a parameter."""
    return re.sub(r"[^a-z]", "", ref.lower()) or "ref"


# --- lines


def _part(line: _Line, ref: str, at: tuple[float, float], legend: str) -> str:
    """A part as it is written, but for its ref, place and legend."""
    worded = f", legend: {written(legend) if '{' in legend else legend}" if legend else ""
    return f"{{ref: {written(ref)}, part: {line.part}, at: {written(list(at))}{worded}{line.more}}}"


def _remarks(lines: Iterable[_Line]) -> str:
    """The remarks of like parts, each once."""
    found = dict.fromkeys(line.remark for line in lines if line.remark)
    return f"  # {'; '.join(found)}" if found else ""


def _tidy(value: float) -> float:
    return round(value, 2) + 0.0


def _without_empty(lines: Sequence[str]) -> list[str]:
    """Lines without a list of frames that has no frame left, and without the blank line before it."""
    found = list(lines)
    if "frames:" in found:
        at = found.index("frames:")
        if at + 1 == len(found) or not found[at + 1].startswith("  "):
            del found[at - 1 if not found[at - 1] else at : at + 1]
    return found


def _with_modules(lines: Sequence[str], modules: Sequence[str]) -> list[str]:
    """Lines with modules before the parts."""
    if not modules:
        return list(lines)
    at = lines.index("parts:")
    return [*lines[:at], "modules:", *modules, *lines[at:]]


# --- read again


def placed_parts(top: MappingNode) -> Iterator[tuple[str, tuple[float, float]]]:
    """The refs and places of the parts of a spec, those of repeats and modules as drafts write them too."""
    listed, modules = top.get(language.Spec.parts.name), top.get(language.Spec.modules.name)
    for node in listed.items if isinstance(listed, SequenceNode) else ():
        if not isinstance(node, MappingNode):
            continue
        if isinstance(node.get("repeat"), MappingNode):
            yield from _of_repeat(node)
        elif isinstance(modules, MappingNode) and isinstance(node.get("module"), Scalar):
            yield from _of_module(node, modules)
        else:
            yield from _own(node, (0.0, 0.0), {})


def _own(node: Node, by: tuple[float, float], values: Mapping[str, str]) -> Iterator[tuple[str, tuple[float, float]]]:
    """A part with its place, moved, and with what stands in braces in its ref filled in."""
    if not isinstance(node, MappingNode):
        return
    ref, at = node.get("ref"), pair(node.get("at"))
    if isinstance(ref, Scalar) and at is not None:
        filled = re.sub(r"\{(\w+)\}", lambda found: values.get(found[1], found[0]), ref.text)
        yield filled, (_tidy(at[0] + by[0]), _tidy(at[1] + by[1]))


def _of_repeat(node: MappingNode) -> Iterator[tuple[str, tuple[float, float]]]:
    repeat, inside = node.get("repeat"), node.get("parts")
    assert isinstance(repeat, MappingNode)
    count, step, start = (repeat.get(key) for key in ("count", "step", "start"))
    by, first = pair(step), start.text if isinstance(start, Scalar) else "1"
    counted = isinstance(count, Scalar) and count.text.isdecimal()
    if by is None or not counted or not isinstance(inside, SequenceNode):
        return
    assert isinstance(count, Scalar)
    for number in range(int(count.text)):
        own = str(int(first) + number) if first.isdecimal() else chr(ord(first[:1]) + number)
        for part in inside.items:
            yield from _own(part, (number * by[0], number * by[1]), {"n": own})


def _of_module(node: MappingNode, modules: MappingNode) -> Iterator[tuple[str, tuple[float, float]]]:
    named, at, given = node.get("module"), pair(node.get("at")), node.get("with")
    assert isinstance(named, Scalar)
    module = modules.get(named.text)
    inside = module.get("parts") if isinstance(module, MappingNode) else None
    if at is None or not isinstance(inside, SequenceNode):
        return
    entries = given.entries if isinstance(given, MappingNode) else ()
    values = {entry.key.text: entry.value.text for entry in entries if isinstance(entry.value, Scalar)}
    for part in inside.items:
        yield from _own(part, at, values)


def pair(node: Node | None) -> tuple[float, float] | None:
    """Two numbers of a list; None for anything else."""
    if not isinstance(node, SequenceNode) or len(node.items) != 2:
        return None
    try:
        first, second = (float(item.text) for item in node.items if isinstance(item, Scalar))
    except ValueError:
        return None
    return first, second
