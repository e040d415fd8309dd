"""Modules and copies that hold frames, texts, lines and drawings, held against the same panels written out by hand."""

from __future__ import annotations

import time
from itertools import pairwise
from pathlib import Path

import jsonschema
import pytest
import shapely
import yaml as plain_yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from panelart.checks.comparison import compare
from panelart.diagnostics import SpecError
from panelart.model.panel import Panel
from panelart.model.places import NOWHERE, nowhere
from panelart.pipeline import build, lay_out, write
from panelart.reports.panel import panel_json
from panelart.source import yaml
from panelart.source.facts import NO_FACTS
from panelart.spec import language
from panelart.spec.part_paths import path_of_part
from panelart.spec.read import panel_at_hand, panel_from_text, read_panel
from tests.effort import examples
from tests.spec.samples import ids_of
from tests.spec.test_language import typed
from tests.spec.test_layouts import NEAR, cover

HEAD = """\
panelart: 1
panel: {title: Trial, size: [400, 300], sheet: {material: aluminium, thickness: 2}, datum: [50, 40]}
marking:
  process: digital-print
  inks: [{name: black, colour: "#101010"}, {name: red, colour: "#C02020"}]
  lettering: {cap_height: 3, case: upper}
  viewing_distance: 500
"""

CHANNEL = """\
modules:
  channel:
    parameters: {n: number, name: text, knob: {type: length, default: 13}, jack: {type: part, default: bnc}, ink: text}
    parts:
      - {ref: "J{n}", part: "{jack}", at: [-5, 60], legend: {text: Input, place: left, ink: "{ink}"}}
      - {ref: "RV{n}", part: pot-m7, at: {from: "J{n}", by: [5, -40]}, knob: {diameter: "{knob}", height: 14},
         legend: Gain, scale: {from: 0, to: 10, major: 5}}
    frames: [{around: ["J{n}", "RV{n}"], title: {text: "{name} {n}", align: left}, side: bottom}]
    texts: [{text: "No. {n}", at: [10, 80], anchor: left}]
    lines: [{from: "J{n}", to: "RV{n}", leave: below}]
    art: [{mark: arrow, at: [20, 50], turn: -90}, {box: [-20, -10, 50, 100]}, {rule: [[0, 90], [10, 95]]}]
"""


def same(panel: Panel) -> Panel:
    """A panel without what tells how and where its spec is written."""
    return nowhere(replace(panel, fingerprint="", facts=NO_FACTS, places=NOWHERE, files=(), parts=tuple(
        replace(part, facts=NO_FACTS) for part in panel.parts
    )))  # fmt: skip


def strip(*, n: int, x: float, flip: int, ink: str, name: str = "CH", knob: int = 13, jack: str = "bnc") -> dict:
    """One channel as a designer would write it by hand: `flip` is -1 in the mirror."""
    side, align = ("left", "left") if flip > 0 else ("right", "right")
    return {
        "parts": [
            (
                f"{{ref: J{n}, part: {jack}, at: [{x - 5 * flip}, 60],"
                f" legend: {{text: Input, place: {side}, ink: {ink}}}}}"
            ),
            (
                f"{{ref: RV{n}, part: pot-m7, at: [{x}, 20], knob: {{diameter: {knob}, height: 14}}, legend: Gain,"
                " scale: {from: 0, to: 10, major: 5}}"
            ),
        ],
        "frames": [
            f"{{around: [J{n}, RV{n}], title: {{text: {name} {n}, align: {align}}}, side: bottom}}",
        ],
        "texts": [f"{{text: No. {n}, at: [{x + 10 * flip}, 80], anchor: {side}}}"],
        "lines": [f"{{from: J{n}, to: RV{n}, leave: below}}"],
        "art": [
            f"{{mark: arrow, at: [{x + 20 * flip}, 50], turn: {-90 * flip}}}",
            f"{{box: [{x - 20 if flip > 0 else x - 30}, -10, 50, 100]}}",
            f"{{rule: [[{x}, 90], [{x + 10 * flip}, 95]]}}",
        ],
    }


def by_hand(*strips: dict) -> str:
    lists = {key: [item for each in strips for item in each[key]] for key in strips[0]}
    return HEAD + "".join(
        f"{key}:\n" + "".join(f"  - {item}\n" for item in items) for key, items in lists.items() if items
    )


ROUND_TRIPS = {
    "placed one by one": (
        HEAD + CHANNEL + "parts:\n"
        "  - {module: channel, at: [0, 0], with: {n: 1, name: CH, ink: black}}\n"
        "  - {module: channel, at: [100, 0], with: {n: 2, name: Talk, ink: red, knob: 18, jack: jack-635}}\n",
        (
            strip(n=1, x=0, flip=1, ink="black"),
            strip(n=2, x=100, flip=1, ink="red", name="Talk", knob=18, jack="jack-635"),
        ),
    ),
    "in a repeat": (
        HEAD + CHANNEL + "parts:\n"
        "  - repeat: {count: 3, step: [80, 0], start: 4, as: k}\n"
        '    parts: [{module: channel, at: [10, 0], with: {n: "{k}", name: CH, ink: red}}]\n',
        tuple(strip(n=4 + copy, x=10 + 80 * copy, flip=1, ink="red") for copy in range(3)),
    ),
    "mirrored": (
        HEAD + CHANNEL + "parts:\n"
        "  - mirror: {x: {from: middle}}\n"
        '    parts: [{module: channel, at: [40, 0], with: {n: "{n}", name: CH, ink: red}}]\n',
        (strip(n=1, x=40, flip=1, ink="red"), strip(n=2, x=260, flip=-1, ink="red")),
    ),
    "mirrored about its origin": (
        HEAD + CHANNEL + "parts:\n"
        "  - {module: channel, at: [50, 0], with: {n: 7, name: CH, ink: red}}\n"
        "  - {module: channel, mirrored: left-right, at: {from: RV7, by: [120, -20]},"
        " with: {n: 8, name: CH, ink: red}}\n",
        (strip(n=7, x=50, flip=1, ink="red"), strip(n=8, x=170, flip=-1, ink="red")),
    ),
    "a module of modules": (
        HEAD + CHANNEL + "  pair:\n"
        "    parameters: {first: number, second: number, colour: {type: text, default: red}}\n"
        "    parts:\n"
        '      - {module: channel, at: [0, 0], with: {n: "{first}", name: CH, ink: "{colour}"}}\n'
        '      - {module: channel, at: [120, 0], mirrored: left-right, with: {n: "{second}", name: CH, ink: black}}\n'
        "parts: [{module: pair, at: [30, 0], with: {first: 3, second: 9}}]\n",
        (strip(n=3, x=30, flip=1, ink="red"), strip(n=9, x=150, flip=-1, ink="black")),
    ),
    "in a row by pitch": (
        HEAD + CHANNEL + "parts:\n"
        "  - row: {at: [20, 0], pitch: 70}\n"
        "    parts:\n"
        "      - repeat: {count: 2}\n"
        '        parts: [{module: channel, with: {n: "{n}", name: CH, ink: red}}]\n'
        "      - {module: channel, mirrored: left-right, with: {n: 3, name: CH, ink: black}}\n",
        (
            strip(n=1, x=20, flip=1, ink="red"),
            strip(n=2, x=90, flip=1, ink="red"),
            strip(n=3, x=160, flip=-1, ink="black"),
        ),
    ),
    "copies that hold everything": (
        HEAD + "parts:\n  - repeat: {count: 2, step: [90, 0]}\n"
        "    parts:\n"
        '      - {ref: "J{n}", part: bnc, at: [5, 60], legend: {text: Input, place: left, ink: red}}\n'
        '      - {ref: "RV{n}", part: pot-m7, at: [10, 20], knob: {diameter: 13, height: 14},\n'
        "         legend: Gain, scale: {from: 0, to: 10, major: 5}}\n"
        '    frames: [{around: ["J{n}", "RV{n}"], title: {text: "CH {n}", align: left}, side: bottom}]\n'
        '    texts: [{text: "No. {n}", at: [20, 80], anchor: left}]\n'
        '    lines: [{from: "J{n}", to: "RV{n}", leave: below}]\n'
        "    art: [{mark: arrow, at: [30, 50], turn: -90}, {box: [-10, -10, 50, 100]}, {rule: [[10, 90], [20, 95]]}]\n",
        (strip(n=1, x=10, flip=1, ink="red"), strip(n=2, x=100, flip=1, ink="red")),
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", ROUND_TRIPS)
def test_a_panel_of_modules_is_the_panel_written_out(case: str) -> None:
    spec, strips = ROUND_TRIPS[case]
    ours, theirs = panel_from_text(spec), panel_from_text(by_hand(*strips))
    assert same(ours) == same(theirs)


def built(text: str):
    """A panel of a spec laid out and inspected, as of one state."""
    return build(replace(panel_from_text(text), fingerprint="0123456789"))


@pytest.mark.parametrize("case", ["in a repeat", "mirrored"])
def test_all_files_of_a_panel_of_modules_are_those_of_the_panel_written_out(case: str) -> None:
    """All but the reports, which tell places in the spec."""
    spec, strips = ROUND_TRIPS[case]
    ours, theirs = (write(built(text)) for text in (spec, by_hand(*strips)))
    assert ours.keys() == theirs.keys()
    reports = {"report.txt", "report.json", "findings.json", "findings.txt", "panel.json", "findings.sarif"}
    assert {name for name, data in ours.items() if data != theirs[name]} <= reports
    assert len(ours) > 10


def test_nothing_differs_between_a_panel_of_modules_and_the_panel_written_out() -> None:
    spec, strips = ROUND_TRIPS["in a repeat"]
    states = [(one.layout, one.inspection) for one in (built(spec), built(by_hand(*strips)))]
    assert compare(*states) == ()
    ours, theirs = (panel_json(layout.panel) for layout, _ in states)
    assert ours == theirs


def test_what_is_changed_in_a_module_is_told_of_every_copy() -> None:
    spec = ROUND_TRIPS["in a repeat"][0]
    old, new = (built(text) for text in (spec, spec.replace("legend: Gain", "legend: Level").replace("No. ", "Nr ")))
    told = compare((old.layout, old.inspection), (new.layout, new.inspection))
    assert {("RV4", "legend"), ("RV5", "legend"), ("RV6", "legend")} <= {(one.name, str(one.what)) for one in told}
    assert sum("texts" in str(one.what) for one in told) == 3


# --- blocks, fields and branching lines


BRANCHED = """\
modules:
  strip:
    parameters: {n: number, name: text, ink: text, size: {type: length, default: 2.2}}
    parts:
      - {ref: IN, part: bnc, at: [0, 90], legend: [{text: "{n}", style: numeral}, "{name}"]}
      - {ref: A, part: bnc, at: [-15, 20], legend: {place: left, align: left, texts: [Send,
          {text: "to {name}", cap_height: "{size}", ink: "{ink}"}]}}
      - {ref: B, part: bnc, at: [15, 20], legend: [Return, {text: "No. {n}", cap_height: "{size}"}]}
    frames: [{around: [A, B], form: field, corner: 3, ink: "{ink}", title: {text: "Loop {n}", align: right}}]
    lines: [{from: IN, to: [A, B]}, {from: [A, B], to: IN, arrow: none, leave: left}]
parts:
  - {module: strip, at: [30, 0], prefix: M1-, with: {n: 1, name: Talk, ink: red}}
  - {module: strip, at: [140, 0], prefix: M2-, with: {n: 2, name: Hall, ink: black, size: 2.5}}
  - {module: strip, at: [250, 0], prefix: M3-, mirrored: left-right, with: {n: 3, name: Stage, ink: red}}
"""


def branched(*, n: int, name: str, x: float, flip: int, ink: str, size: float = 2.2) -> dict:
    """One strip of these by hand: `flip` is -1 in the mirror."""
    left, right = ("left", "right") if flip > 0 else ("right", "left")
    into, a, b = f"M{n}-IN", f"M{n}-A", f"M{n}-B"
    return {
        "parts": [
            f"{{ref: {into}, part: bnc, at: [{x}, 90], legend: [{{text: {n}, style: numeral}}, {name}]}}",
            (
                f"{{ref: {a}, part: bnc, at: [{x - 15 * flip}, 20], legend: {{place: {left}, align: {left}, texts: "
                f"[Send, {{text: to {name}, cap_height: {size}, ink: {ink}}}]}}}}"
            ),
            (
                f"{{ref: {b}, part: bnc, at: [{x + 15 * flip}, 20],"
                f" legend: [Return, {{text: No. {n}, cap_height: {size}}}]}}"
            ),
        ],
        "frames": [
            f"{{around: [{a}, {b}], form: field, corner: 3, ink: {ink}, title: {{text: Loop {n}, align: {right}}}}}",
        ],
        "lines": [
            f"{{from: {into}, to: [{a}, {b}]}}",
            f"{{from: [{a}, {b}], to: {into}, arrow: none, leave: {left}}}",
        ],
    }


def test_blocks_fields_and_branching_lines_of_modules_are_those_written_out() -> None:
    strips = (
        branched(n=1, name="Talk", x=30, flip=1, ink="red"),
        branched(n=2, name="Hall", x=140, flip=1, ink="black", size=2.5),
        branched(n=3, name="Stage", x=250, flip=-1, ink="red"),
    )
    ours, theirs = panel_from_text(HEAD + BRANCHED), panel_from_text(by_hand(*strips))
    assert same(ours) == same(theirs)
    assert [line.ends for line in ours.lines[::2]] == [("M1-A", "M1-B"), ("M2-A", "M2-B"), ("M3-A", "M3-B")]


@pytest.mark.full
def test_what_is_told_of_blocks_fields_and_branching_lines_of_modules_is_that_of_those_written_out() -> None:
    spec = HEAD + BRANCHED[: BRANCHED.index("  - {module: strip, at: [250")]
    strips = (
        branched(n=1, name="Talk", x=30, flip=1, ink="red"),
        branched(n=2, name="Hall", x=140, flip=1, ink="black", size=2.5),
    )
    ours, theirs = (built(text) for text in (spec, by_hand(*strips)))
    assert compare((ours.layout, ours.inspection), (theirs.layout, theirs.inspection)) == ()
    assert panel_json(ours.layout.panel) == panel_json(theirs.layout.panel)


def test_the_texts_of_a_block_in_a_module_are_translated_with_their_arguments() -> None:
    words = "Talk: Regie, Hall: Saal, Stage: Bühne, Send: Ausgang, Return: Eingang"
    spec = (
        HEAD
        + BRANCHED
        + f'languages: {{de: {{{words}, "to {{name}}": "an {{name}}", "No. {{n}}": "Nr. {{n}}",'
        + ' "Loop {n}": "Schleife {n}", "{n}": "{n}", "{name}": "{name}"}}\n'
    )
    german = panel_at_hand(spec, Path(), language="de")
    assert [[text.text for text in part.names] for part in german.parts[3:6]] == [
        ["2", "SAAL"], ["AUSGANG", "AN SAAL"], ["EINGANG", "NR. 2"],
    ]  # fmt: skip


# --- parameters


LETTERED = (
    HEAD
    + """\
modules:
  lamp:
    parameters: {name: text, d: {type: length, default: 8}, title: {type: text, default: "{name} lamp"}, way: text}
    parts:
      - {ref: H1, part: {part: opening-circle, opening: {diameter: "{d}"}}, at: [0, "{d}"],
         legend: {text: "{name}", place: "{way}"}}
    texts:
      - {text: "{super {title}} {{N}} {d}", at: [0, 30]}
parts:
  - repeat: {count: 2, step: [60, 0]}
    parts: [{module: lamp, prefix: "A{n}-", at: [20, 20], with: {name: "CO{sub 2} {n}", way: right}}]
  - {module: lamp, prefix: B-, at: [200, 20], with: {name: ON, d: 0.5 in, title: no, way: above}}
"""
)


def test_parameters_stand_for_words_with_their_settings_for_figures_and_for_names() -> None:
    panel = panel_from_text(LETTERED)
    first, second, _ = panel.parts
    assert [part.ref for part in panel.parts] == ["A1-H1", "A2-H1", "B-H1"]
    assert (first.legend.text, _stretch(first.legend), second.legend.text) == ("CO2 1", (2, 3), "CO2 2")
    assert [part.legend.place.value for part in panel.parts] == ["right", "right", "above"]
    assert [part.component.openings[0].contour.bounds.width for part in panel.parts] == pytest.approx([8, 8, 12.7])
    assert [part.at.y - 40 for part in panel.parts] == pytest.approx([28, 28, 32.7])
    texts = [text.request for text in panel.texts]
    assert [text.text for text in texts] == ["CO2 1 LAMP {N} 8", "CO2 2 LAMP {N} 8", "NO {N} 0.5 in"]
    assert _stretch(texts[0]) == (0, 10)


def _stretch(request) -> tuple[int, int]:
    return request.spans[0].start, request.spans[0].stop


def test_copies_have_the_place_of_what_is_written_once() -> None:
    panel = panel_from_text(ROUND_TRIPS["a module of modules"][0])
    sockets = [part for part in panel.parts if part.ref.startswith("J")]
    for of in ({part.where for part in sockets}, {part.legend.where for part in sockets},
               {frame.where for frame in panel.frames}, {frame.title.where for frame in panel.frames},
               {text.request.where for text in panel.texts}, {line.where for line in panel.lines}):  # fmt: skip
        assert len(of) == 1


def test_words_of_modules_are_translated_as_they_are_written_and_so_are_arguments() -> None:
    spec = (
        LETTERED
        + 'languages: {de: {"CO{sub 2} {n}": "Gas {n}", "{name} lamp": "Leuchte {name}", ON: EIN, no: nicht}}\n'
    )
    panel = panel_from_text(spec)
    assert panel.untranslated == ()
    german = panel_at_hand(spec, Path(), language="de")
    assert [part.legend.text for part in german.parts] == ["GAS 1", "GAS 2", "EIN"]
    assert german.texts[0].request.text == "LEUCHTE GAS 1 {N} 8"


def test_a_text_of_a_module_without_translation_is_missing_once() -> None:
    panel = panel_from_text(LETTERED + 'languages: {de: {"CO{sub 2} {n}": "Gas {n}"}}\n')
    assert sorted(one.text for one in panel.untranslated) == ["ON", "no", "{name} lamp"]


# --- problems


BAD = {
    "unknown module": ("{module: ¦chanel, at: [0, 0]}", "spec-modules.unknown-module"),
    "unknown parameter": (
        "{module: channel, at: [0, 0], with: {¦nane: A, n: 1, ink: red}}",
        "spec-modules.unknown-parameter",
    ),
    "missing parameter": (
        "{module: channel, at: [0, 0], with: ¦{name: A, ink: red}}",
        "spec-modules.missing-parameters",
    ),
    "nothing given": ("¦{module: channel, at: [0, 0]}", "spec-modules.missing-parameters"),
    "no length": (
        "{module: channel, at: [0, 0], with: {name: A, n: 1, ink: red, knob: ¦wide}}",
        "spec-modules.of-parameter",
    ),
    "no number": (
        "{module: channel, at: [0, 0], with: {name: A, n: ¦one, ink: red}}",
        "spec-modules.of-parameter",
    ),
    "no part": (
        "{module: channel, at: [0, 0], with: {name: A, n: 1, ink: red, jack: ¦bnk}}",
        "catalogue.unknown-part",
    ),
    "a figure out of bounds": (
        "{module: channel, at: [0, 0], with: {name: A, n: 1, ink: red, knob: -3}}",
        "spec-modules.in-module",
    ),
    "an unknown ink": (
        "{module: channel, at: [0, 0], with: {name: A, n: 1, ink: reed}}",
        "spec-lettering.unknown-ink",
    ),
    "an oblique turn": (
        "{module: channel, at: [0, 0], turn: ¦45, with: {name: A, n: 1, ink: red}}",
        "spec-modules.turn-not-quarter",
    ),
    "placed by its side": (
        "{module: channel, at: {x: {¦right_of: left-edge}, y: 0}, with: {name: A, n: 1, ink: red}}",
        "spec-modules.module-beside-part",
    ),
    "measured from nothing": (
        "{module: channel, at: {from: ¦X9, by: [1, 2]}, with: {name: A, n: 1, ink: red}}",
        "spec-places.reference-unknown",
    ),
}
IN_MODULE = {"a figure out of bounds": '"{knob}"', "an unknown ink": '"{ink}"'}
"""What is written wrong for one place is told where it is written, with that place beside it."""


@pytest.mark.parametrize("case", BAD)
def test_what_is_wrong_with_a_placed_module_is_told_where_it_can_be_put_right(case: str) -> None:
    written, message = BAD[case]
    marked = HEAD + CHANNEL + f"parts:\n  - {written}\n"
    spec = marked.replace("¦", "")
    with pytest.raises(SpecError) as refused:
        panel_from_text(spec)
    told = "\n".join(map(str, refused.value.problems))
    assert len(refused.value.problems) == 1, told
    (problem,) = refused.value.problems
    assert message in ids_of(problem.says), told
    at = marked.index("¦") if "¦" in marked else spec.index(IN_MODULE[case])
    assert problem.where[1:3] == (spec.count("\n", 0, at) + 1, at - spec.rfind("\n", 0, at)), told
    assert problem.accepts
    if case in IN_MODULE:
        assert f"placed at panel.yaml:{spec.count(chr(10))}:5" in problem.message


FURTHER = {
    "a module in itself": (
        (
            "modules:\n  a: {parts: [{module: b, at: [0, 0]}]}\n  b: {parts: [{module: a, at: [0, 0]}]}\n"
            "parts: [{module: a, at: [0, 0]}]\n"
        ),
        ["spec-modules.module-in-itself"],
    ),
    "a ref on two places": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: [0, 0]}]}\n"
            "parts: [{module: a, at: [0, 0]}, {module: a, at: [20, 0]}, {module: a, at: [40, 0]}]\n"
        ),
        ["spec-modules.ref-of-copies"],
    ),
    "a ref in a repeat without a number": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: [0, 0]}]}\n"
            "parts: [{repeat: {count: 3, step: [20, 0]}, parts: [{module: a, at: [0, 0]}]}]\n"
        ),
        ["spec-modules.ref-of-copies"],
    ),
    "a ref that a part has": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: [0, 0]}]}\n"
            "parts: [{ref: S1, part: led-5, at: [50, 50]}, {module: a, at: [0, 0]}]\n"
        ),
        ["spec.ref-twice"],
    ),
    "a ref that grows too long": (
        (
            "modules:\n  a: {parameters: {x: text}, parts: [{ref: 'S{x}', part: led-5, at: [0, 0]}]}\n"
            f"parts: [{{module: a, at: [0, 0], with: {{x: {'long' * 11}}}}}]\n"
        ),
        ["spec-modules.ref-unusable"],
    ),
    "an edge of the panel": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: {x: {from: middle}, y: 3}}]}\n"
            "parts: [{module: a, at: [0, 0]}]\n"
        ),
        ["spec-modules.edge-within-module"],
    ),
    "braces without quotes": (
        "modules:\n  a: {parameters: {d: length}, parts: [{ref: S1, part: led-5, at: [{d}, 0]}]}\n",
        ["spec-modules.parameter-without-quotes"],
    ),
    "a number of a copy that is not handed on": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: [0, 0], legend: 'L{n}'}]}\n"
            "parts: [{repeat: {count: 1, step: [20, 0]}, parts: [{module: a, at: [0, 0]}]}]\n"
        ),
        ["spec-lettering.unknown-brace-name"],
    ),
    "a slip in a module that is not placed": (
        "modules:\n  a: {parameters: {d: length}, parts: [{ref: S1, prat: led-5, at: [0, '{d}']}]}\n",
        ["source-schema.unknown-key"],
    ),
    "a default that is no length": (
        (
            "modules:\n  a: {parameters: {d: {type: length, default: wide}},"
            " parts: [{ref: S1, part: led-5, at: [0, 1]}]}\n"
            "parts: [{module: a, at: [0, 0]}]\n"
        ),
        ["units.not-a-length"],
    ),
    "a parameter with the name of a way to set words": (
        "modules:\n  a: {parameters: {super: text}}\n",
        ["spec-modules.parameter-name-reserved"],
    ),
    "a repeat that names its copies as a parameter": (
        (
            "modules:\n  a: {parameters: {n: number}, parts: [{repeat: {count: 2, step: [9, 0]},"
            " parts: [{ref: 'S{n}', part: led-3, at: [0, 0]}]}]}\n"
            "parts: [{module: a, at: [0, 0], with: {n: 3}}]\n"
        ),
        ["spec-modules.name-of-parameter"],
    ),
    "a bracket turned": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: [0, 0]}], frames: [{around: [S1], form: bracket}]}\n"
            "parts: [{module: a, at: [30, 30], turn: 90}]\n"
        ),
        ["spec-modules.bracket-turned"],
    ),
    "a legend at a place, turned": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: [0, 0], legend: {text: A, at: [3, 3]}}]}\n"
            "parts: [{module: a, at: [30, 30], turn: 90}]\n"
        ),
        ["spec-modules.legend-at-turned"],
    ),
    "a repeat of nothing": ("parts: [{repeat: {count: 3, step: [1, 1]}}]\n", ["spec-modules.holds-nothing"]),
    "a module in a ring that turns": (
        (
            "modules:\n  a: {parts: [{ref: 'S{n}', part: led-5, at: [0, 0]}], parameters: {n: number}}\n"
            "parts: [{ring: {at: [99, 99], diameter: 60, facing: out}, parts: [{repeat: {count: 3},"
            " parts: [{module: a, with: {n: '{n}'}}]}]}]\n"
        ),
        ["spec-modules.module-in-turned-ring"],
    ),
    "a module in a row with a place": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: [0, 0]}]}\n"
            "parts: [{row: {at: [0, 0], pitch: 9}, parts: [{module: a, at: [0, 0]}, {ref: S2, part: led-5}]}]\n"
        ),
        ["source-schema.unknown-key"],
    ),
    "texts in a layout": (
        (
            "parts: [{row: {at: [0, 0], pitch: 9}, parts: [{repeat: {count: 2},"
            " parts: [{ref: 'S{n}', part: led-5}], texts: [{text: A, at: [0, 0]}]}]}]\n"
        ),
        ["source-schema.unknown-key"],
    ),
    "refs outside that are not there": (
        (
            "modules:\n  a: {parts: [{ref: S1, part: led-5, at: [0, 0]}], frames: [{around: [S1, S9]}],"
            " lines: [{from: S1, to: S8}]}\n"
            "parts: [{module: a, at: [30, 30], prefix: M-}]\n"
        ),
        ["spec.ref-unknown", "spec.unknown-ref"],
    ),
}


@pytest.mark.parametrize("case", FURTHER)
def test_what_is_wrong_with_a_module_is_told_once(case: str) -> None:
    written, messages = FURTHER[case]
    with pytest.raises(SpecError) as refused:
        panel_from_text(HEAD + written)
    told = "\n".join(map(str, refused.value.problems))
    assert len(refused.value.problems) == len(messages), told
    for problem, message in zip(refused.value.problems, messages, strict=True):
        assert message in ids_of(problem.says), told
        assert problem.accepts, told


def test_modules_in_a_row_by_gaps_are_clear_of_each_other_by_them() -> None:
    """Measured by shapely on what parts cover in the end; one is turned, one is a module of a row."""
    panel = panel_from_text(
        HEAD
        + """\
modules:
  block:
    parts:
      - {ref: A, part: toggle-12, at: [3, 7], turn: 30}
      - {ref: B, part: led-5, at: {from: A, by: [20, -10]}}
  rowed:
    parts: [{row: {at: [0, 0], gap: 2}, parts: [{ref: C, part: iec-c14}, {module: block, mirrored: top-bottom}]}]
    texts: [{text: HERE, at: [0, 30]}]
parts:
  - row: {at: [10, 100], gap: 5, align: top}
    parts:
      - {module: block, prefix: 1-}
      - {module: block, prefix: 2-, turn: 90}
      - {module: rowed, prefix: 3-, mirrored: left-right}
      - {ref: X, part: bnc}
"""
    )
    blocks = [
        shapely.union_all([cover(panel, part.ref) for part in panel.parts if part.ref.startswith(prefix)])
        for prefix in ("1-", "2-", "3-", "X")
    ]
    for one, other in pairwise(blocks):
        assert other.bounds[0] - one.bounds[2] == pytest.approx(5, abs=NEAR)
        assert other.bounds[3] == pytest.approx(one.bounds[3], abs=NEAR)
    inner = [cover(panel, "3-C"), shapely.union_all([cover(panel, "3-A"), cover(panel, "3-B")])]
    assert inner[0].bounds[0] - inner[1].bounds[2] == pytest.approx(2, abs=NEAR)
    at = panel.by_ref
    assert at["1-B"].at.minus(at["1-A"].at) == pytest.approx((20, -10))
    assert at["2-B"].at.minus(at["2-A"].at) == pytest.approx((10, 20))
    assert at["3-B"].at.minus(at["3-A"].at) == pytest.approx((-20, 10))
    assert [part.turn for part in panel.parts if part.ref.endswith("-A")] == pytest.approx([30, 120, 30])
    assert panel.texts[0].at.minus(at["3-C"].at) == pytest.approx((0, 30))


# --- scopes of refs


def test_refs_in_a_module_are_its_own_first_and_the_panels_else() -> None:
    panel = panel_from_text(
        HEAD
        + """\
modules:
  a:
    parts: [{ref: S1, part: led-5, at: [0, 0]}, {ref: S2, part: led-5, at: {from: S1, by: [0, 15]}}]
    frames: [{around: ["S*"]}, {around: [S1, X1]}]
    lines: [{from: S1, to: X1}]
    art: [{mark: dot, at: {from: S2, by: [5, 0]}}]
  pair:
    parts:
      - {module: a, at: [0, 0], prefix: A-}
      - {module: a, at: [30, 0], prefix: B-}
      - {ref: X1, part: led-3, at: [15, 40]}
parts:
  - {ref: S1, part: led-5, at: [200, 200]}
  - {ref: X1, part: led-3, at: [300, 100]}
  - {module: a, at: [0, 0], prefix: M-}
  - {module: pair, at: {from: M-S2, by: [50, 50]}, prefix: P-}
"""
    )
    refs = {part.ref: part.at for part in panel.parts}
    assert set(refs) == {"S1", "X1", "M-S1", "M-S2", "P-A-S1", "P-A-S2", "P-B-S1", "P-B-S2", "P-X1"}
    assert [frame.around for frame in panel.frames] == [
        ("M-S1", "M-S2"), ("M-S1", "X1"), ("P-A-S1", "P-A-S2"), ("P-A-S1", "P-X1"), ("P-B-S1", "P-B-S2"),
        ("P-B-S1", "P-X1"),
    ]  # fmt: skip
    assert [(line.start, line.end) for line in panel.lines] == [
        ("M-S1", "X1"), ("P-A-S1", "P-X1"), ("P-B-S1", "P-X1"),
    ]  # fmt: skip
    assert refs["P-B-S2"].minus(refs["M-S2"]) == pytest.approx((80, 65))


def test_a_copy_has_no_line_of_its_own_to_edit() -> None:
    spec = LETTERED
    for ref in ("A1-H1", "A2-H1", "B-H1"):
        with pytest.raises(SpecError, match="written in a module"):
            path_of_part(spec, ref)


def test_sides_of_legends_scales_and_lines_turn_with_their_module() -> None:
    panel = panel_from_text(
        HEAD
        + """\
modules:
  a:
    parts:
      - {ref: S, part: led-5, at: [0, 0], legend: {text: A, place: above-left, offset: [2, 1]}}
      - {ref: F, part: fader-30, at: [30, 0], scale: {from: 0, to: 10, major: 5, length: 30, side: right}}
    lines: [{from: S, to: F, leave: below, enter: left}]
    frames: [{around: [S, F], side: top, title: {text: T, align: left}}]
parts:
  - {module: a, at: [50, 50], prefix: 0-}
  - {module: a, at: [150, 50], prefix: 1-, turn: 90}
  - {module: a, at: [150, 150], prefix: 2-, turn: 180}
  - {module: a, at: [250, 50], prefix: 3-, turn: 270}
  - {module: a, at: [250, 150], prefix: 4-, mirrored: left-right, turn: 90}
"""
    )
    at = panel.by_ref
    told = [
        (
            at[f"{number}-S"].legend.place.value,
            tuple(round(each, 6) + 0.0 for each in at[f"{number}-S"].legend.offset),
            at[f"{number}-F"].scale.straight.side.value,
            line.leave.value,
            line.enter.value,
            frame.side.value,
            frame.title.align.value,
        )
        for number, (line, frame) in enumerate(zip(panel.lines, panel.frames, strict=True))
    ]
    assert told == [
        ("above-left", (2, 1), "right", "below", "left", "top", "left"),
        ("below-left", (-1, 2), "above", "right", "below", "top", "left"),
        ("below-right", (-2, -1), "left", "above", "right", "bottom", "right"),
        ("above-right", (1, -2), "below", "left", "above", "top", "left"),
        ("above-left", (-1, -2), "below", "right", "above", "top", "left"),
    ]


def test_copies_in_a_layout_hold_frames_and_lines() -> None:
    panel = panel_from_text(
        HEAD
        + """\
parts:
  - row: {at: [0, 0], pitch: 30}
    parts:
      - repeat: {count: 2}
        parts:
          - column: {pitch: 20}
            parts: [{ref: "S{n}", part: led-5}, {ref: "H{n}", part: led-5}]
        frames: [{around: ["S{n}", "H{n}"], title: "{n}"}]
        lines: [{from: "S{n}", to: "H{n}"}]
"""
    )
    assert [(frame.around, frame.title.text) for frame in panel.frames] == [(("S1", "H1"), "1"), (("S2", "H2"), "2")]
    assert [(line.start, line.end) for line in panel.lines] == [("S1", "H1"), ("S2", "H2")]


def test_every_panel_of_a_set_may_place_what_is_written_once(tmp_path: Path) -> None:
    path = tmp_path / "set.yaml"
    path.write_text(
        HEAD
        + """\
modules: {lamp: {parameters: {n: number}, parts: [{ref: "H{n}", part: led-5, at: [0, 0]}]}}
panels:
  front: {parts: [{module: lamp, at: [20, 20], with: {n: 1}}]}
  rear: {parts: [{module: lamp, at: [20, 20], with: {n: 2}}, {module: lamp, at: [40, 20], with: {n: 3}}]}
""",
        encoding="utf-8",
    )
    assert [part.ref for part in read_panel(Path(f"{path}#front")).parts] == ["H1"]
    assert [part.ref for part in read_panel(Path(f"{path}#rear")).parts] == ["H2", "H3"]


def test_modules_in_plain_data_are_those_of_the_text(tmp_path: Path) -> None:
    spec = ROUND_TRIPS["in a row by pitch"][0]
    data = plain_yaml.safe_load(spec)
    assert same(panel_at_hand(data, tmp_path)) == same(panel_from_text(spec))
    data["parts"][0]["row"]["pitch"] = "wide"
    with pytest.raises(SpecError, match=r"parts\[0\].row.pitch"):
        panel_at_hand(data, tmp_path)


# --- files of modules


STRIP = """\
panelart-modules: 1
modules:
  channel:
    parameters: {n: number}
    parts: [{ref: "S{n}", part: led-5, at: [0, 0], legend: "{n}"}, {module: foot, at: [0, 20], with: {m: "{n}"}}]
    art: [{svg: dot.svg, at: [0, 40], height: 3}]
  foot: {parameters: {m: number}, parts: [{ref: "H{m}", part: led-3, at: [0, 0]}]}
"""
DOT = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 2"><path d="M0 0h2v2h-2z"/></svg>'
SEVERAL = (
    HEAD
    + """\
modules:
  channel: house/strip.yaml
  foot: {parts: [{ref: OTHER, part: led-5, at: [0, 0]}]}
parts:
  - {module: channel, at: [0, 0], with: {n: 1}}
  - {module: channel, at: [40, 0], with: {n: 2}}
  - {module: foot, at: [80, 0]}
"""
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "house").mkdir()
    (tmp_path / "house" / "strip.yaml").write_text(STRIP, encoding="utf-8")
    (tmp_path / "house" / "dot.svg").write_text(DOT, encoding="utf-8")
    (tmp_path / "panel.yaml").write_text(SEVERAL, encoding="utf-8")
    return tmp_path


def test_modules_of_a_file_find_their_own_modules_and_files(folder: Path) -> None:
    panel = read_panel(folder / "panel.yaml")
    assert {part.ref for part in panel.parts} == {"S1", "H1", "S2", "H2", "OTHER"}
    assert len(panel.art) == 2
    assert dict(panel.files).keys() == {"house/strip.yaml", "house/dot.svg"}
    places = {part.ref: panel.places[part.where] for part in panel.parts}
    assert places["S1"] == places["S2"]
    assert places["S1"].file == (folder / "house" / "strip.yaml").as_posix()


def test_the_state_of_a_spec_counts_its_files_of_modules(folder: Path) -> None:
    before = read_panel(folder / "panel.yaml").fingerprint
    strip = folder / "house" / "strip.yaml"
    strip.write_text(strip.read_text(encoding="utf-8").replace("led-3", "led-5"), encoding="utf-8")
    assert read_panel(folder / "panel.yaml").fingerprint != before


@pytest.mark.parametrize(
    ("old", "new", "message", "file"),
    [
        ("house/strip.yaml", "house/strips.yaml", "spec-modules.module-file-unreadable", "panel.yaml"),
        ("house/strip.yaml", "/etc/strip.yaml", "spec.file-not-relative", "panel.yaml"),
        ("channel: house/strip.yaml", "chanel: house/strip.yaml", "spec-modules.unknown-module", "panel.yaml"),
        ("foot: {parts", "knob: house/strip.yaml\n  foot: {parts", "spec-modules.module-not-in-file", "panel.yaml"),
        ("channel:\n", "channel: 7\n  other:\n", "spec-modules.module-file-unreadable", "strip.yaml"),
        ("channel:\n", "channel: strip.yaml\n  other:\n", "spec-modules.files-in-circle", "strip.yaml"),
        ("panelart-modules: 1", "panelart-modules: 2", "source.found", "strip.yaml"),
        ("modules:\n", "modules:\n  - x\n", "source-syntax", "strip.yaml"),
        ("part: led-3", "part: led-33", "catalogue.unknown-part", "strip.yaml"),
        ("part: led-3", "prat: led-3", "source-schema.unknown-key", "strip.yaml"),
    ],
)
def test_what_is_wrong_with_a_file_of_modules(folder: Path, old: str, new: str, message: str, file: str) -> None:
    for path in (folder / "panel.yaml", folder / "house" / "strip.yaml"):
        if path.name == file:
            text = path.read_text(encoding="utf-8")
            assert old in text
            path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(SpecError) as refused:
        read_panel(folder / "panel.yaml")
    told = [problem for problem in refused.value.problems if message in "".join(ids_of(problem.says))]
    assert told, str(refused.value)
    assert {Path(problem.where.file).name for problem in told} == {file}


# --- bounds


def _bomb(inner: str, levels: int) -> str:
    """Modules that place the next one ten times each."""
    modules = [f"  m0: {inner}"]
    for level in range(1, levels):
        placed = ", ".join(f"{{module: m{level - 1}, at: [0, 0], prefix: p{number}}}" for number in range(10))
        modules.append(f"  m{level}: {{parts: [{placed}]}}")
    return HEAD + "modules:\n" + "\n".join(modules) + f"\nparts: [{{module: m{levels - 1}, at: [0, 0]}}]\n"


@pytest.mark.parametrize(
    "inner",
    [
        "{parts: [{ref: S, part: led-3, at: [0, 0]}]}",
        "{texts: [{text: A, at: [0, 0]}]}",
        "{art: [{mark: dot, at: [0, 0]}]}",
        "{parts: []}",
        "{parameters: {a: text}}",
    ],
)
def test_modules_of_modules_grow_within_bounds(inner: str) -> None:
    """Ten to the power of nine: told, not made."""
    start = time.process_time()
    spec = _bomb(inner, 10).replace("parts: []", "frames: []")
    with pytest.raises(SpecError):
        panel_from_text(spec)
    assert time.process_time() - start < 10


def test_repeats_of_drawings_grow_within_bounds() -> None:
    inner = "{art: [{mark: dot, at: [1, 1]}], repeat: {count: 5000, step: [0, 0]}}"
    for depth in range(8):
        inner = f"{{repeat: {{count: 5000, step: [0, 0], as: a{depth}}}, parts: [{inner}]}}"
    with pytest.raises(SpecError, match=r"more than 1000 drawings|more than 50000 copies"):
        panel_from_text(HEAD + f"parts: [{inner}]\n")


def test_forty_modules_within_each_other_are_refused() -> None:
    modules = "".join(f"  m{level}: {{parts: [{{module: m{level - 1}, at: [0, 0]}}]}}\n" for level in range(1, 40))
    spec = HEAD + "modules:\n  m0: {texts: [{text: A, at: [0, 0]}]}\n" + modules
    with pytest.raises(SpecError, match="More than 20 modules within each other"):
        panel_from_text(spec + "parts: [{module: m39, at: [0, 0]}]\n")
    assert panel_from_text(spec + "parts: [{module: m19, at: [0, 0]}]\n").texts


# --- the JSON Schema


def test_an_editor_takes_names_in_braces_in_modules_and_nowhere_else() -> None:
    check = jsonschema.Draft202012Validator(language.json_schema())
    for spec, _ in ROUND_TRIPS.values():
        assert [error.message for error in check.iter_errors(typed(yaml.read(spec, "a.yaml")))] == []
    of_files = jsonschema.Draft202012Validator(language.module_schema())
    assert [error.message for error in of_files.iter_errors(typed(yaml.read(STRIP, "a.yaml")))] == []
    assert not of_files.is_valid(typed(yaml.read(STRIP.replace("parts:", "prats:", 1), "a.yaml")))
    for old, new in (("n: number", "n: numbr"), ("at: [40, 0]", 'at: ["{x}", 0]'), ("names:", "nmes:")):
        spec = ROUND_TRIPS["mirrored"][0]
        if old in spec:
            assert not check.is_valid(typed(yaml.read(spec.replace(old, new, 1), "a.yaml"))), new


# --- laws


class Step:
    """One way to put something elsewhere, in complex numbers: mirrored, then turned, then moved."""

    def __init__(self, mirrored: str, turn: int, at: tuple[int, int]) -> None:
        self.mirrored, self.turn, self.at = mirrored, turn, complex(*at)

    def place(self, at: complex) -> complex:
        if self.mirrored == "left-right":
            at = complex(-at.real, at.imag)
        elif self.mirrored == "top-bottom":
            at = at.conjugate()
        return at * 1j ** (self.turn // 90) + self.at

    def turned(self, deg: float) -> float:
        return (deg if self.mirrored == "no" else -deg) + self.turn

    @property
    def written(self) -> str:
        return f"mirrored: {self.mirrored}, turn: {self.turn}, at: [{self.at.real}, {self.at.imag}]"


coordinates = st.tuples(st.integers(-60, 60), st.integers(-60, 60))
steps = st.builds(
    Step, st.sampled_from(["no", "left-right", "top-bottom"]), st.sampled_from([0, 90, 180, 270, -90]), coordinates
)
WIDE = HEAD.replace("size: [400, 300]", "size: [2400, 2400]").replace("[50, 40]", "centre")


@settings(max_examples=examples(100), deadline=None)
@given(st.lists(steps, min_size=1, max_size=4), coordinates, st.integers(-180, 180), coordinates)
def test_parts_in_modules_within_each_other_are_where_complex_numbers_say(
    path: list[Step], at: tuple[int, int], turn: int, by: tuple[int, int]
) -> None:
    modules = [
        (
            f"  m0: {{parts: [{{ref: S1, part: led-5, at: [{at[0]}, {at[1]}], turn: {turn}}},"
            f" {{ref: S2, part: led-5, at: {{from: S1, by: [{by[0]}, {by[1]}]}}}}]}}"
        )
    ]
    for number, step in enumerate(path[:-1]):
        modules.append(f"  m{number + 1}: {{parts: [{{module: m{number}, {step.written}}}]}}")
    spec = WIDE + "modules:\n" + "\n".join(modules) + f"\nparts: [{{module: m{len(path) - 1}, {path[-1].written}}}]\n"
    panel = panel_from_text(spec)
    first, second, deg = complex(*at), complex(*at) + complex(*by), float(turn)
    for step in path:
        first, second, deg = step.place(first), step.place(second), step.turned(deg)
    for ref, place in (("S1", first), ("S2", second)):
        assert tuple(panel.by_ref[ref].at.minus(panel.datum)) == pytest.approx((place.real, place.imag), abs=1e-6)
    assert (panel.by_ref["S1"].turn - deg) % 360 == pytest.approx(0, abs=1e-6)


@settings(max_examples=examples(60), deadline=None)
@given(st.lists(steps, min_size=1, max_size=3), coordinates, st.sampled_from(["left", "centre", "right"]),
       st.sampled_from([0, 90, 180, -90]), st.sampled_from(["FEED", "FEED\\nWATER"]))  # fmt: skip
def test_words_take_the_room_that_the_motion_makes_of_theirs_and_read_from_below_or_the_right(
    path: list[Step], at: tuple[int, int], anchor: str, turn: int, words: str
) -> None:
    """The room of letters without descenders or overshoot at its sides, to a tenth of the cap height.

    Reading from below or from the right: ISO 129-1:2018, 5.5.1 (from memory), of figures on drawings.
    """
    text = f'{{text: "{words}", at: [{at[0]}, {at[1]}], anchor: {anchor}, turn: {turn}}}'
    modules = [f"  m0: {{texts: [{text}]}}"]
    for number, step in enumerate(path[:-1]):
        modules.append(f"  m{number + 1}: {{parts: [{{module: m{number}, {step.written}}}]}}")
    placed = f"parts: [{{module: m{len(path) - 1}, {path[-1].written}}}]\n"
    as_written = lay_out(panel_from_text(WIDE + f"texts: [{text}]\n")).legends[0]
    carried_panel = panel_from_text(WIDE + "modules:\n" + "\n".join(modules) + "\n" + placed)
    carried = lay_out(carried_panel).legends[0]
    datum = carried_panel.datum
    corners = [complex(*corner.minus(datum)) for corner in as_written.box.corners]
    for step in path:
        corners = [step.place(corner) for corner in corners]
    sides = [min(c.real for c in corners), min(c.imag for c in corners),
             max(c.real for c in corners), max(c.imag for c in corners)]  # fmt: skip
    box = carried.box
    assert [box.left - datum.x, box.bottom - datum.y, box.right - datum.x, box.top - datum.y] == pytest.approx(
        sides, abs=0.35
    )
    reads = round(carried.turn) % 360
    if turn in (0, 90) and not all(step.mirrored == "no" and step.turn == 0 for step in path):
        assert reads in (0, 90)
