"""Names that a dictionary breaks: only where it is asked for, only when nothing else makes room, and on every piece."""

from __future__ import annotations

import pytest

from panelart.diagnostics import SpecError, Where
from panelart.model.layout import Layout
from panelart.pipeline import lay_out
from panelart.press.pieces import Pieces, Row
from panelart.spec.read import panel_from_text

SPEC = """\
panelart: 1
panel:
  title: Trial
  size: [120, 70]
  sheet: {material: aluminium 5754, thickness: 2}
  coat: {kind: none, colour: "#FFFFFF"}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3.5, font: {weight: light}, LETTERING}
  viewing_distance: 500
"""
ROW = """\
parts:
  - {ref: S1, part: toggle-12, at: [20, 35], legend: {text: NAME, place: above}}
  - {ref: S2, part: toggle-12, at: [46, 35], legend: {text: NAME, place: above}}
  - {ref: S3, part: toggle-12, at: [72, 35], legend: {text: NAME, place: above}}
  - {ref: S4, part: toggle-12, at: [98, 35], legend: {text: NAME, place: above}}
"""


def laid_out(lettering: str, body: str) -> Layout:
    return lay_out(panel_from_text(SPEC.replace("LETTERING", lettering) + body))


def names(layout: Layout) -> list[str]:
    return [legend.text for legend in layout.legends]


def test_a_row_that_has_no_room_is_hyphenated_where_that_is_asked_for() -> None:
    body = ROW.replace("NAME", "Hauptschalter")
    without = laid_out("case: upper, language: de", body)
    assert set(names(without)) == {"HAUPTSCHALTER"}  # on two levels, which is worse
    with_ = laid_out("case: upper, language: de, hyphenate: true", body)
    assert not with_.unplaced
    assert set(names(with_)) == {"HAUPT-\nSCHALTER"}


def test_no_word_is_broken_where_there_is_room() -> None:
    body = ROW.replace("NAME", "Ventil")
    assert names(laid_out("language: de, hyphenate: true", body)) == ["Ventil"] * 4


@pytest.mark.parametrize(
    ("lettering", "broken"),
    [
        ("language: de, hyphenate: [de, en]", True),
        ("language: de-CH, hyphenate: [de]", True),
        ("hyphenate: [de]", True),
        ("language: de, hyphenate: [en]", False),
        ("language: de, hyphenate: false", False),
        ("language: de, hyphenate: true, styles: {name: {hyphenate: false}}", False),
        ("language: de, styles: {name: {hyphenate: true}}", True),
    ],
)
def test_whose_words_are_hyphenated(lettering, broken):
    assert any("-" in name for name in names(laid_out(lettering, ROW.replace("NAME", "Hauptschalter")))) is broken


@pytest.mark.parametrize(
    ("lettering", "identity", "column"),
    [
        ("language: tr, hyphenate: true", "spec-lettering.no-hyphenation", "hyphenate"),
        ("language: tr, hyphenate: [tr]", "spec-lettering.no-hyphenation", "hyphenate"),
        ("hyphenate: true", "spec-lettering.hyphenation-without-language", "hyphenate"),
        ("hyphenate: [de, en]", "spec-lettering.hyphenation-without-language", "hyphenate"),
        ("language: tr, styles: {name: {hyphenate: true}}", "spec-lettering.no-hyphenation", "hyphenate"),
    ],
)
def test_a_language_without_a_dictionary_is_told_once_where_it_is_asked_for(
    lettering: str, identity: str, column: str
) -> None:
    with pytest.raises(SpecError) as told:
        laid_out(lettering, ROW.replace("NAME", "Ana şalter"))
    (problem,) = told.value.problems
    assert problem.says.id == identity
    line = SPEC.replace("LETTERING", lettering).splitlines()[problem.where.line - 1]
    assert line[problem.where.column - 1 :].startswith((column, "true", "["))


VARYING = """\
variables: {owner: {example: Halle 4}}
parts:
  - {ref: S1, part: toggle-12, at: [20, 35]}
  - {ref: S2, part: toggle-12, at: [46, 35], legend: {text: "Haupt\u00adschalter {owner}", place: above}}
  - {ref: S3, part: toggle-12, at: [72, 35], legend: {text: "Hauptschalter", at: [72, 46]}}
"""


def test_the_pieces_break_their_words_where_the_example_does() -> None:
    layout = laid_out("case: as-written", VARYING)
    (example,) = [legend for legend in layout.legends if legend.ref == "S2"]
    assert example.text == "Haupt-\nschalter\nHalle 4"
    pieces = Pieces(layout)
    (legend,) = [legend for legend, _ in pieces._legends]
    (request,) = [request for _, request in pieces._legends]
    assert pieces._legend(legend, request, {"owner": "Halle 7"}).text == "Haupt-\nschalter\nHalle 7"
    assert pieces.problems([Row(values={"owner": "Halle 7"}, where=Where("", 1, 1))]) == []
    # A value of one word has not the spaces of the example, and is too wide on one line.
    assert pieces.problems([Row(values={"owner": "Werkhalle"}, where=Where("", 1, 1))])


def test_a_dictionary_breaks_the_fixed_words_of_a_text_that_varies_on_every_piece_alike() -> None:
    body = "variables: {owner: {example: H4}}\n" + ROW.replace("NAME", '"Hauptschalter {owner}"')
    layout = laid_out("language: de, hyphenate: true", body)
    assert "Haupt-\nschalter\nH4" in names(layout)
    pieces = Pieces(layout)
    for legend, request in pieces._legends:
        assert pieces._legend(legend, request, {"owner": "H7"}).text == legend.text.replace("H4", "H7")


def test_no_dictionary_breaks_the_value_of_a_variable() -> None:
    body = VARYING.replace("Halle 4", "Temperaturregelung").replace("Haupt\u00adschalter {owner}", "{owner}")
    layout = laid_out("language: de, hyphenate: true", body)
    ((_, request),) = Pieces(layout)._legends
    assert request.spans == ()
