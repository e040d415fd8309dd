"""Limits and severities of a house: each with its reason, each told."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks import inspect
from panelart.checks.house import read
from panelart.checks.limits import Basis, standard
from panelart.diagnostics import Severity, SpecError
from panelart.model.panel import HouseFile
from tests.checks.builders import disc, layout, legend, mark, opening

RULES = {"openings-too-close": Severity.ERROR, "legend-too-small": Severity.ERROR}
GOOD = """\
limits:
  web.minimum: {value: 0.4, why: our laser holds it}
severities:
  openings-too-close: {severity: note, why: the shop calls us anyway}
abbreviations: {values: [thrshld, NW], why: in our style book}
"""


def house(text: str) -> HouseFile:
    return HouseFile(file="house.yaml", data=text.encode())


def with_house(panel, text):
    return replace(panel, panel=replace(panel.panel, house=house(text)))


THIN = layout(opening("J1", disc(50, 50, 12)), opening("J2", disc(63, 50, 12)))  # a web of 1 mm in sheet of 2 mm


def test_a_house_file_is_read():
    own = read(house(GOOD), standard(), RULES)
    limit = own.limits["web.minimum"]
    assert (limit.value, limit.basis) == (0.4, Basis.GIVEN)
    told = dict(limit.source.arguments)
    assert (told["why"], told["where"], told["default"]) == ("our laser holds it", "house.yaml:2:3", (1.0, "ratio"))
    assert own.severities == {"openings-too-close": Severity.NOTE}
    assert own.abbreviations == {"THRSHLD", "NW"}
    assert [(change.name, change.was, change.now) for change in own.changes] == [
        ("web.minimum", "1", "0.4"),
        ("openings-too-close", "error", "note"),
        ("abbreviations", "default list", "default list and NW, THRSHLD"),
    ]


@pytest.mark.parametrize(
    ("old", "new", "place", "words"),
    [
        ("web.minimum", "web.minimun", (2, 3), "web.minimum"),
        ("openings-too-close", "openings-to-close", (4, 3), "openings-too-close"),
        (", why: our laser holds it", "", (2, 16), "'why'"),
        ("value: 0.4", "value: thin", (2, 24), "number"),
        ("severity: note", "severity: off", (4, 34), "error, warning, note"),
        ("limits:", "limit:", (1, 1), "'limits'"),
        ("[thrshld, NW]", "[]", (5, 25), "minimum 1 item"),
    ],
)
def test_slips_are_told_with_their_place(old, new, place, words):
    with pytest.raises(SpecError) as error:
        read(house(GOOD.replace(old, new)), standard(), RULES)
    told = [((one.where.line, one.where.column), f"{one.message} {one.hint}") for one in error.value.problems]
    assert any(at == place and words in text for at, text in told), told


def test_all_slips_are_told_at_once():
    with pytest.raises(SpecError) as error:
        read(
            house(GOOD.replace("web.minimum", "web.minimun").replace("severity: note", "severity: off")),
            standard(),
            RULES,
        )
    assert len(error.value.problems) == 2


def test_a_limit_of_the_house_decides():
    assert [one.rule for one in inspect(THIN).findings] == ["openings-too-close"]
    eased = inspect(with_house(THIN, "limits: {web.minimum: {value: 0.4, why: our laser holds it}}"))
    assert eased.findings == ()
    assert [change.name for change in eased.house] == ["web.minimum"]
    stricter = inspect(with_house(layout(opening("J1", disc(50, 50, 12)), opening("J2", disc(65, 50, 12))),
                                  "limits: {web.minimum: {value: 2, why: it tore}}"))  # fmt: skip
    assert [(one.rule, one.limit, one.basis) for one in stricter.findings] == [("openings-too-close", 4.0, Basis.GIVEN)]


def test_a_severity_of_the_house_decides():
    text = "severities: {openings-too-close: {severity: note, why: the shop calls us}}"
    eased = inspect(with_house(THIN, text))
    assert [one.severity for one in eased.findings] == [Severity.NOTE]
    assert not eased.failed


def test_a_limit_from_memory_may_fail_once_the_house_stands_for_it():
    panel = layout(mark("RV1", (50, 50), (50, 53), 0.21), viewing_distance=900)
    assert [one.severity for one in inspect(panel).findings if one.rule == "mark-too-fine"] == [Severity.WARNING]
    text = ("limits: {angle.mark.width.minimum: {value: 1, why: tried it}}\n"
            "severities: {mark-too-fine: {severity: error, why: tried it}}")  # fmt: skip
    assert inspect(with_house(panel, text)).failed


def test_the_limits_of_the_process_are_the_houses_too():
    panel = layout(mark("RV1", (50, 50), (50, 53), 0.15))
    assert "line-too-thin" in {one.rule for one in inspect(panel).findings}
    text = "limits: {digital-print.line_minimum: {value: 0.15, why: new heads}}"
    assert "line-too-thin" not in {one.rule for one in inspect(with_house(panel, text)).findings}


def test_abbreviations_of_the_house_are_known():
    panel = layout(legend("J1", "THRSHLD", (50, 50, 60, 53)))
    assert "abbreviation-unlisted" in {one.rule for one in inspect(panel).findings}
    known = inspect(with_house(panel, "abbreviations: {values: [Thrshld], why: ours}"))
    assert "abbreviation-unlisted" not in {one.rule for one in known.findings}
