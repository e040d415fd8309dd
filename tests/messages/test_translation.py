"""The catalogue in another language, by the tools of translators and gettext of the standard library."""

from __future__ import annotations

import io
import json
import random
import re
import subprocess
import sys
from collections import Counter

import pytest
from babel.messages.pofile import read_po

from panelart.checks import RULES, Inspection, inspect
from panelart.checks.baseline import baseline_text, sign
from panelart.diagnostics import SpecError
from panelart.messages import Message, lists, speaking
from panelart.messages import diagnostics as said
from panelart.messages.extract import every_sentence, main, template
from panelart.pipeline import lay_out
from panelart.reports.json import json_report
from panelart.reports.problems import json_problems
from panelart.reports.sarif import sarif_report
from panelart.reports.text import text_report
from panelart.spec.read import panel_from_text
from tests.messages.literals import ROOT
from tests.messages.pseudo import FORMS, compiled, data_of, english_left, pseudo, translated

DEMO = (ROOT / "demo" / "monitor-2u.yaml").read_text(encoding="utf-8")
NUMBER = re.compile(r"\d+(?:\.\d+)?")
WORDS = {"sentence", "fix", "subject", "other", "source", "message", "hint", "accepts", "text"}
"""Keys of reports whose values are for people."""


@pytest.fixture(scope="module")
def catalogue():
    return translated()


@pytest.fixture(scope="module")
def translations(catalogue):
    return compiled(catalogue)


def changed(*edits: tuple[str, str]) -> str:
    text = DEMO
    for old, new in edits:
        assert old in text, old
        text = text.replace(old, new)
    return text


@pytest.fixture(scope="module")
def faulty() -> Inspection:
    """A demo with small letters and parts that stand in each other's way."""
    spoilt = changed(("cap_height: 3.25", "cap_height: 1.3"), ("at: [346, 42]", "at: [318, 42]"))
    return inspect(lay_out(panel_from_text(spoilt, "monitor.yaml")))


@pytest.fixture(scope="module")
def broken() -> SpecError:
    """The errors of a demo that cannot be read."""
    spoilt = changed(
        ("part: toggle-12", "part: toggel-12"), ("at: [381, 24]", "at: [381]"), ("cap_height: 4.1", "cap_hieght: 4.1"),
        ("around: [S20,", "around: [S99,"), ("at: [297, 42]", "at: [two, 42]"),
    )  # fmt: skip
    with pytest.raises(SpecError) as caught:
        panel_from_text(spoilt, "monitor.yaml")
    return caught.value


# --- the template


def test_the_template_has_every_sentence_with_its_id_and_both_forms():
    catalog = read_po(io.BytesIO(template(every_sentence())))
    entries = {entry.context: entry for entry in catalog if entry.id}
    assert entries.keys() == every_sentence().keys()
    for id_, sentence in every_sentence().items():
        assert entries[id_].id == ((sentence.english, sentence.plural) if sentence.plural else sentence.english)
        assert not entries[id_].string or not any(entries[id_].string)


def test_each_entry_says_its_kinds_and_has_an_example():
    text = template(every_sentence()).decode("utf-8")
    assert (
        "#. {what}: Word\n#. {names}: Listed\n#. Example: Accepted cap_height: a, b, c\n"
        "#: panelart/messages/diagnostics.py\n#, python-brace-format\n"
        'msgctxt "diagnostics.accepted-names"\nmsgid "Accepted {what}: {names}"\nmsgstr ""\n'
    ) in text
    assert 'msgctxt "lists.more"\nmsgid "{count} more"\nmsgid_plural "{count} more"\n' in text
    assert "#, python-format" not in text
    assert not re.search(r"example-error|object at 0x", text)


def test_the_template_is_the_same_bytes_every_time_and_has_no_date(tmp_path):
    file = tmp_path / "panelart.pot"
    subprocess.run(
        [sys.executable, "-m", "panelart.messages.extract", "-o", str(file)],
        env={"PYTHONPATH": ":".join([str(ROOT), *filter(None, sys.path)]), "PYTHONHASHSEED": "7"},
        check=True,
    )
    assert file.read_bytes() == template(every_sentence())
    assert not re.search(rb"(Creation|Revision)-Date", file.read_bytes())
    assert file.read_bytes().startswith(b"# Sentences of panelart.")


def test_the_template_goes_to_the_standard_output(capsysbinary):
    main([])
    assert capsysbinary.readouterr().out == template(every_sentence())


def test_the_order_of_declaration_does_not_matter():
    entries = list(every_sentence().items())
    random.Random(1).shuffle(entries)
    assert every_sentence().keys() == dict(sorted(entries)).keys()
    assert list(every_sentence()) == sorted(every_sentence())


# --- the language


def test_babel_finds_no_fault_in_the_translation(catalogue):
    assert [(entry.id, errors) for entry, errors in catalogue.check()] == []
    assert catalogue.num_plurals == 3


def test_a_pseudo_sentence_is_longer_accented_and_keeps_its_fields():
    assert pseudo("Key {key} is {{x}}") == "⟦①Ķéý {key} íš {{ẋ}}~~~~~~~~⟧"


@pytest.mark.parametrize(
    ("count", "form"), [(0, 2), (1, 0), (2, 1), (4, 1), (5, 2), (11, 2), (21, 2), (22, 1), (100, 2), (102, 1)]
)
def test_the_plural_forms_are_those_of_the_language(translations, count, form):
    with speaking(translations):
        assert str(lists.more(count=count)).startswith(f"⟦{FORMS[form]}{count} ")


def test_every_sentence_is_translated(translations):
    from panelart.messages.extract import usual_arguments

    for sentence in every_sentence().values():
        told = Message(sentence, tuple(usual_arguments(sentence).items()))
        in_english = str(told)
        with speaking(translations):
            text = str(told)
        assert text[0] + text[-1] == "⟦⟧"
        given = sum(len(sentence.parameters[name].write(value)) for name, value in told.arguments)
        assert len(text) - given >= 1.3 * (len(in_english) - given)
        assert str(told) == told.english == in_english


@pytest.mark.parametrize(
    ("text", "data", "left"),
    [
        ("⟦①Ķéý the hole~~⟧", [], ["the hole"]),
        ("⟦①Ķéý the hole~~⟧", ["the hole"], []),
        ("⟦①Ķéý 'OUT' íš~⟧", [], []),
        ("Key is missing", [], ["Key is"]),
    ],
)
def test_english_that_is_left_is_found(text, data, left):
    assert english_left(text, data) == left


def _messages(inspection: Inspection, error: SpecError) -> list[Message]:
    told = [part for finding in inspection.findings for part in (finding.says, finding.cure)]
    said_ = [part for problem in error.problems for part in (problem.says, problem.accepts)]
    return [*told, *(part for part in said_ if isinstance(part, Message))]


def test_findings_and_errors_have_no_english_but_their_data(faulty, broken, translations):
    assert len(faulty.findings) >= 20
    assert len({finding.rule for finding in faulty.findings}) >= 5
    assert len(broken.problems) >= 4
    for told in _messages(faulty, broken):
        with speaking(translations):
            text = str(told)
        assert text[0] + text[-1] == "⟦⟧"
        assert english_left(text, data_of(told)) == []


def test_a_whole_report_has_no_english_but_its_data(faulty, translations):
    with speaking(translations):
        text = text_report(faulty, width=10_000)
        data = [
            given for finding in faulty.findings for told in (finding.says, finding.cure) for given in data_of(told)
        ]
        # Sources of limits are as their tables have them, what rules are about as the rules' documentation has it.
        data += [str(finding.source) for finding in faulty.findings]
        data += [RULES[finding.rule].doc.splitlines()[0].removesuffix(".") for finding in faulty.findings]
    assert english_left(text, sorted(data, key=len, reverse=True)) == []


def test_all_errors_are_messages(broken):
    assert all(isinstance(problem.says, Message) for problem in broken.problems)
    assert all(isinstance(problem.accepts, Message) or not problem.accepts for problem in broken.problems)


def test_numbers_and_names_are_the_same_in_every_language(faulty, broken, translations):
    for told in _messages(faulty, broken):
        with speaking(translations):
            text = str(told)
        assert Counter(NUMBER.findall(text)) == Counter(NUMBER.findall(told.english))
        names = [given for given in data_of(told) if NUMBER.search(given) and given in told.english]
        assert [name for name in names if name not in text] == []


def _for_programs(value: object) -> object:
    """A report without what it has for people."""
    if isinstance(value, dict):
        return {key: _for_programs(one) for key, one in value.items() if key not in WORDS}
    return [_for_programs(one) for one in value] if isinstance(value, list) else value


@pytest.mark.parametrize("report", [json_report, sarif_report])
def test_what_programs_read_is_the_same_in_every_language(faulty, translations, report):
    in_english = report(faulty)
    with speaking(translations):
        translated_ = report(faulty)
    assert translated_ != in_english
    assert "⟦" in translated_
    assert _for_programs(json.loads(translated_)) == _for_programs(json.loads(in_english))


def test_so_are_the_errors_that_programs_read(broken, translations):
    in_english = json_problems(broken.problems)
    with speaking(translations):
        translated_ = json_problems(broken.problems)
    assert _for_programs(json.loads(translated_)) == _for_programs(json.loads(in_english))


def test_a_baseline_is_the_same_in_every_language(faulty, translations):
    signs, text = [sign(finding) for finding in faulty.findings], baseline_text(faulty.findings)
    with speaking(translations):
        assert [sign(finding) for finding in faulty.findings] == signs
        assert baseline_text(faulty.findings) == text


def test_so_is_every_order(faulty, broken, translations):
    mixed = list(faulty.findings)
    random.Random(1).shuffle(mixed)
    with speaking(translations):
        assert sorted(mixed) == sorted(faulty.findings)
        assert SpecError(reversed(broken.problems)).problems == broken.problems
        assert sorted([said.hint_line(hint="b"), said.did_you_mean(name="a")]) == [
            said.did_you_mean(name="a"),
            said.hint_line(hint="b"),
        ]
