"""The file of answers as text: written with every question open, and added to with all that stands in it kept.

Each change is one of ``source.edit``: comments, answers and their order stay byte for byte.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec.structs import replace

from panelart.lists.answer_record import (
    ANSWERS,
    ARE,
    CANDIDATES,
    COLUMNS,
    NUMBERS,
    PART,
    PLACES,
    ROOMS,
    SPEC,
    WORDS,
    Place,
    given_in,
    headings_of,
    places_of,
    read_record,
)
from panelart.lists.answered import OPEN, Given
from panelart.lists.answers import NO_ROOMS, folded
from panelart.lists.questions import Question
from panelart.lists.remembered import folded_headings
from panelart.messages import Said
from panelart.messages import component_lists_answers as said
from panelart.source import edit
from panelart.source.nodes import Sequence as SequenceNode
from panelart.source.problems import Problems
from panelart.source.schema import Fields, Value
from panelart.source.written import Written, written
from panelart.source.yaml import read as read_yaml

Titles = Mapping[str, Said]
"""What parts are, by their names."""


def answer_file(
    file: str,
    asked: Sequence[Question],
    titles: Titles,
    columns: Sequence[tuple[Sequence[str], Mapping[str, str]]] = (),
    rooms: Mapping[str, Mapping[str, Place]] = NO_ROOMS,
) -> str:
    """A file of answers with every question open: candidates with their titles, best first, none of these last.

    `columns` are headings with what columns are, `rooms` the places kept for open parts by spec and ref.
    """
    lines = [f"# {said.answers_to(file=file) if asked else said.kept_from(file=file)}"]
    if columns:
        lines += ["columns:", *(f"  - {written(_columns_record(heads, are))}" for heads, are in columns)]
    if asked:
        lines += [f"# {said.how_to_answer()}", "answers:"]
    for number, question in enumerate(asked, start=1):
        lines += _question_lines(number, question, titles)
    kept = [(spec, places) for spec, places in rooms.items() if places]
    if kept:
        lines += [f"# {said.room_kept()}", "rooms:"]
        lines += [f"  - {written(_room_record(spec, places))}" for spec, places in kept]
    return "\n".join(lines) + "\n"


def with_columns(text: str, heads: Sequence[str], are: Mapping[str, str], file: str) -> str:
    """A file of answers that says besides what the columns of lists with these headings are; all else as it was.

    Raises SpecError when it is no file of answers.
    """
    known = _record(text, file).value[COLUMNS]
    for number, one in enumerate(known or ()):
        if headings_of(one.value) == folded_headings(heads):
            already = {key.value: of.value for key, of in one.value[ARE] or ()}
            return edit.set_value(text, (COLUMNS.name, number, ARE.name), {**already, **are}, file)
    return _with_item(text, COLUMNS.name, _columns_record(heads, are), file)


def with_questions(text: str, asked: Sequence[Question], titles: Titles, file: str) -> str:
    """A file of answers that has besides, open and at its end, the questions that are new to it; all else as it was.

    A question that is there keeps its answer; words and order numbers that it has come to have are added to it. Raises
    SpecError when it is no file of answers.
    """
    for question in asked:
        given = given_in(_record(text, file))
        new = _unwritten(question, given)
        still = [number for number, one in enumerate(given) if one.answer == OPEN and _share(one, question)]
        if still and question.candidates and given[still[0]].candidates != _names(question):
            text = _with_candidates(text, still[0], question, titles, file)
        if not (new.words or new.numbers):
            continue
        if still:
            text = _with_rows(text, still[0], given[still[0]], new, file)
        else:
            lines = [*_question_lines(len(given) + 1, new, titles)]
            text = _with_item(text, ANSWERS.name, _answer_record(new, OPEN), file, _remarks(lines))
    return text


def with_answer(text: str, question: Question, part: str, titles: Titles, file: str) -> str:
    """A file of answers that answers a question so; what other questions have is as it was.

    `part` is a name, ``NOT_ON_PANEL``, ``MEASURE``, or ``OPEN`` to take an answer back. Raises SpecError when it is no
    file of answers.
    """
    text = with_questions(text, [question], titles, file)
    given = given_in(_record(text, file))
    own = [number for number, one in enumerate(given) if _share(one, question) and _is_of(one, question)]
    for number in own:
        text = edit.set_value(text, (ANSWERS.name, number, PART.name), part, file)
    wider = [one for one in given if _share(one, question) and not _is_of(one, question)]
    if part != OPEN and (not own or any(one.answer not in (OPEN, part) for one in wider)):
        # An answer to other rows as well stays theirs: a later one goes before it.
        text = _with_item(text, ANSWERS.name, _answer_record(question, part), file)
    return text


def with_rooms(text: str, spec: str, places: Mapping[str, Place], file: str) -> str:
    """A file of answers that keeps these places for the open parts of a spec; all else as it was.

    Raises SpecError when it is no file of answers.
    """
    known = _record(text, file).value[ROOMS] or ()
    for number, one in enumerate(known):
        if one.value[SPEC] == spec:
            if places_of(one.value) == dict(places) or not places:
                return text
            return edit.set_value(text, (ROOMS.name, number, PLACES.name), _places_record(places), file)
    if not places:
        return text
    return _with_item(text, ROOMS.name, _room_record(spec, places), file, [] if known else [str(said.room_kept())])


def _record(text: str, file: str) -> Value[Fields]:
    """The file by its keys. Raises SpecError."""
    problems = Problems()
    record = read_record(text.encode("utf-8"), file, problems)
    problems.raise_any()
    if record is None:
        raise AssertionError(file)  # what is not read has its reason among the problems
    return record


def _places_record(places: Mapping[str, Place]) -> dict[str, list[float]]:
    return {ref: list(place) for ref, place in places.items()}


def _room_record(spec: str, places: Mapping[str, Place]) -> dict[str, Written]:
    return {SPEC.name: spec, PLACES.name: _places_record(places)}


def _columns_record(heads: Sequence[str], are: Mapping[str, str]) -> dict[str, Written]:
    return {"heads": list(heads), "are": dict(are)}


def _answer_record(question: Question, part: str) -> dict[str, Written]:
    record: dict[str, Written] = {}
    if question.words:
        record[WORDS.name] = list(question.words)
    if question.numbers:
        record[NUMBERS.name] = list(question.numbers)
    if question.candidates:
        record[CANDIDATES.name] = list(_names(question))
    return {**record, PART.name: part}


def _question_lines(number: int, question: Question, titles: Titles) -> Iterator[str]:
    """A question as it is written: what it is about and its candidates as remarks, then the record that is answered."""
    yield f"  # {said.question_of(number=number, refs=question.refs, rows=question.rows)}"
    if question.why:
        yield f"  # {question.why}"
    names = [one.name for one in question.candidates]
    for at, name in enumerate(names, start=1):
        yield f"  #   {said.numbered(number=at, part=name, title=titles[name])}"
    yield f"  #   {said.none_of_these(len(names) + 1)}"
    lead = "  - "
    for key, value in _answer_record(question, OPEN).items():
        yield f'{lead}{key}: "{OPEN}"' if key == PART.name else f"{lead}{key}: {written(value)}"
        lead = "    "


def _names(question: Question) -> tuple[str, ...]:
    return tuple(one.name for one in question.candidates)


def _with_candidates(text: str, number: int, question: Question, titles: Titles, file: str) -> str:
    """An open answer with the candidates of now: its numbers are those of the sheets.

    Numbered lines above it are ours and are made anew; other remarks stay.
    """
    at: edit.Path = (ANSWERS.name, number)
    after = edit.put(text, (*at, CANDIDATES.name), list(_names(question)), file)
    listed = read_yaml(after.encode("utf-8"), file).get(ANSWERS.name)
    if not isinstance(listed, SequenceNode):
        return after
    lines = after.splitlines(keepends=True)
    end = begin = listed.items[number].where.line - 1
    while begin and lines[begin - 1].lstrip().startswith("#"):
        begin -= 1
    others = [line for line in lines[begin:end] if not _is_numbered(line)]
    if len(others) == end - begin:
        return after
    bare = "".join([*lines[:begin], *others, *lines[end:]])
    numbered = [
        line[2:] for line in (one.lstrip() for one in _question_lines(1, question, titles)) if _is_numbered(line)
    ]
    return edit.remark(bare, at, numbered, file)


def _is_numbered(line: str) -> bool:
    """Whether a remark is the line of a candidate."""
    words = line.replace("#", " ", 1).split() if line.lstrip().startswith("#   ") else []
    return bool(words) and words[0].isdecimal()


def _remarks(lines: Sequence[str]) -> list[str]:
    return [line.lstrip()[2:] for line in lines if line.lstrip().startswith("#")]


def _keys(words: Sequence[str], numbers: Sequence[str]) -> set[tuple[str, tuple[str, ...]]]:
    """Words and order numbers as they are compared."""
    return {(WORDS.name, folded([text])) for text in words} | {(NUMBERS.name, (one.casefold(),)) for one in numbers}


def _share(one: Given, question: Question) -> bool:
    """Whether an answer is one to rows of a question."""
    return not _keys(one.words, one.numbers).isdisjoint(_keys(question.words, question.numbers))


def _is_of(one: Given, question: Question) -> bool:
    """Whether an answer is one to rows of a question and to no others."""
    return _keys(one.words, one.numbers) <= _keys(question.words, question.numbers)


def _unwritten(question: Question, given: Sequence[Given]) -> Question:
    """A question with those of its words and order numbers that no answer of a file has yet."""
    known = {key for one in given for key in _keys(one.words, one.numbers)}
    return replace(
        question,
        words=tuple(one for one in question.words if not _keys([one], ()) <= known),
        numbers=tuple(one for one in question.numbers if not _keys((), [one]) <= known),
    )


def _with_rows(text: str, number: int, one: Given, new: Question, file: str) -> str:
    """An answer of the file with words and order numbers more."""
    at: edit.Path = (ANSWERS.name, number)
    for key, has, values in ((WORDS.name, one.words, new.words), (NUMBERS.name, one.numbers, new.numbers)):
        if values and not has:
            text = edit.put(text, (*at, key), list(values), file)
            continue
        for value in values:
            text = edit.append_item(text, (*at, key), value, file)
    return text


def _with_item(text: str, key: str, record: Mapping[str, Written], file: str, remarks: Sequence[str] = ()) -> str:
    """The text with a record more at the end of the list of a key, which is made where there is none.

    `remarks` are the lines above it, where it begins a line of its own.
    """
    top = read_yaml(text.encode("utf-8"), file)
    listed = top.get(key)
    if not isinstance(listed, SequenceNode):
        return _with_key(text, key, record, file, remarks)
    after = edit.append_item(text, (key,), record, file)
    return edit.remark(after, (key, len(listed.items)), remarks, file)


def _with_key(text: str, key: str, record: Mapping[str, Written], file: str, remarks: Sequence[str]) -> str:
    """The text with a list of one record below a key that has none; in brackets where the file is."""
    after = edit.put(text, (key,), [record], file)
    block = after.replace(
        f"{key}: {written([record])}", ("\r\n" if "\r\n" in text else "\n").join([f"{key}:", *_block(record)])
    )
    return edit.remark(block if edit.says_the_same(block, after, file) else after, (key, 0), remarks, file)


def _block(record: Mapping[str, Written]) -> Iterator[str]:
    for number, (key, value) in enumerate(record.items()):
        yield f"{'    ' if number else '  - '}{key}: {written(value)}"
