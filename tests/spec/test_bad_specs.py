# ruff: noqa: E501  # a table is read a row at a time
"""Slips that designers make, each with where it is pointed at, what is said to be found and what is accepted.

Each case is a change of one good spec. In the new text ¦ stands before the place that the message must point at; it is
taken out before the spec is read, and its line and column are counted here, not by the reader.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from panelart.diagnostics import Problem, SpecError
from panelart.spec.read import panel_from_text, read_panel
from tests.spec.samples import GOOD, ids_of

MARK = "¦"

SIZE = "  size: [260, 110]\n"
COAT = '  coat: {kind: powder, thickness: 0.08, colour: "#2A2E33"}\n'
INK = '  ink: {name: white, colour: "#F2F2EE"}\n'
SWITCH = "  - {ref: S1, part: toggle-12, at: [30, 55], legend: OUTPUT, positions: {up: ON, down: OFF}}\n"
SCALE = "    scale: {from: 0, to: 30, unit: V, major: 5, minor: 1}\n"
KNOB = "    knob: {diameter: 24, height: 16}\n"
SOCKET = '      - {ref: "J{n}", part: socket-4, at: [160, 30], legend: "OUT {n}"}\n'
REPEAT = "  - repeat: {count: 3, step: [25, 0]}\n"
FRAME = "  - {around: [J1, J2, J3], title: OUTPUTS}\n"
FREE = "  - {text: PRECISION SUPPLY, at: [130, 100], anchor: centre}\n"
AREA = "{area: {rectangle: [5, 5, 20, 8]}, side: rear, why: bracket}"
WAIVER = "  - {rule: legend-too-small, on: RV1, why: read only when setting up}\n"

_TOP = "  flanges: {top: {length: 15, inset: 20}}\n"
_HOLE = "  flanges: {{top: {{length: 15, inset: 20, holes: [¦{{ref: F1, at: [30, 8], {}}}]}}}}\n"


def _layout(settings: str, members: str = "[{ref: S1, part: toggle-12}, {ref: S2, part: led-5}]") -> str:
    return f"  - {settings}\n    parts: {members}\n"


def _mirror(settings: str) -> str:
    return f'  - mirror: {settings}\n    parts: [{{ref: "S{{n}}", part: toggle-12, at: [30, 55]}}]\n'


# what is wrong | text of the good spec | what stands there instead | message or its id | hint or its id
CASES: list[tuple[str, str, str, str, str]] = [
    # --- YAML itself
    ("tab", "  corner: 3", "¦\tcorner: 3", "has a tab", "spaces"),
    ("open list", SIZE, "  size: [260, 110\n  corner¦: 3\n", "list that opens at 5:9 is not closed", ", or ]"),
    ("open mapping", COAT, "  coat: {kind: none\nmarking¦:\n", "mapping that opens at 8:9", ", or }"),
    ("open quote", "title: Bench supply, front", "title: ¦'Bench supply", "quote that opens here", "same quote"),
    ("two colons", "title: Bench supply, front", "title: Bench¦: supply", "Unexpected colon", "in quotes"),
    ("indentation", "  corner: 3", "   ¦corner: 3", "does not fit the mapping above it", "same column"),
    ("missing colon", "  corner: 3", "  ¦corner 3", "Line without a colon", "key: value"),
    ("at sign", "number: BS-210-01", "number: ¦@1", "starts with '@'", "in quotes"),
    ("escape", "number: BS-210-01", r'number: ¦"\q"', "Unknown escape", "single quotes"),
    ("unprintable escape", "number: BS-210-01", r'number: ¦"\x07"', "U+0007", "printable"),
    ("unprintable", "number: BS-210-01", "number: a¦\x07", "U+0007", "printable"),
    ("no-break line end", "number: BS-210-01", "number: a¦\u2028", "U+2028", "line ends"),
    ("duplicate key", "  corner: 3", "  corner: 3\n  ¦corner: 4", "Duplicate key 'corner'; the first is at 6:3", "once"),
    ("list as key", "  corner: 3", "  ¦[a]: 3", "the list [a] as a key", "text before the colon"),
    ("tag", "number: BS-210-01", "number: ¦!!int 5", "Tag '!!int'", "Remove the tag"),
    ("own tag", "number: BS-210-01", "number: ¦!part 5", "Tag '!part'", "Remove the tag"),
    ("merge key", "  corner: 3", "  ¦<<: {corner: 3}", "merge key", "Write out every key"),
    ("alias of nothing", "number: BS-210-01", "number: ¦*star", "'*star' has no anchor '&star'", "in quotes"),
    ("alias in itself", SIZE, "  size: &a [¦*a, 110]\n", "inside the value of its anchor", "after the value"),
    ("second document", "marking:", "¦---\nmarking:", "Second document", "one document"),
    # --- symbols
    ("symbol name", "legend: OUTPUT", "legend: {symbol: ¦stanby}", "Found 'stanby'", "Did you mean 'standby'?"),
    ("symbol key", "legend: OUTPUT", "legend: {symbol: earth, ¦cap_height: 3}", "Unknown key 'cap_height' in symbol legend", "height"),
    ("symbol height", "legend: OUTPUT", "legend: {symbol: earth, height: ¦0}", "Found '0'", "more than 0"),
    ("symbol at a lever", "up: ON", "up: {symbol: ¦[on]}", "Found the list [on]", "source-schema.many-words"),
    ("symbol position key", "up: ON", "up: {symbol: on, ¦place: left}", "Unknown key 'place' in symbol position", "Keys of symbol position: symbol, height, ink"),
    ("symbol without place", "{text: PRECISION SUPPLY, at: [130, 100], anchor: centre}", "¦{symbol: earth}", "Required key 'at' is missing in free symbol", "at:"),
    # --- top
    ("no version", "panelart: 1\n", "", "Required key 'panelart' is missing in spec", "panelart: 1"),
    ("later version", "panelart: 1", "panelart: ¦2", "Found '2'", "Accepted: 1"),
    ("unknown key", "texts:", "¦text:", "Unknown key 'text' in spec", "'texts'"),
    ("panel is a text", "frames:", "¦panell: x\nframes:", "Unknown key 'panell' in spec", "'panel'"),
    ("parts is a mapping", "waivers:\n" + WAIVER, "waivers: ¦{rule: a}", "source-schema.not-a-list", "list of waivers"),
    # --- panel
    ("no size", SIZE, "", "panel has no 'size'", "[width, height]"),
    ("size one number", SIZE, "  size: ¦260\n", "Found '260'", "[width, height]"),
    ("size of three", SIZE, "  size: ¦[260, 110, 2]\n", "which has 3", "[width, height]"),
    ("size negative", SIZE, "  size: [260, ¦-110]\n", "Found '-110'", "more than 0"),
    ("size zero", SIZE, "  size: [¦0, 110]\n", "Found '0'", "more than 0"),
    ("size NaN", SIZE, "  size: [¦.nan, 110]\n", "'.nan' is not a length", "millimetres"),
    ("size infinite", SIZE, "  size: [¦.inf, 110]\n", "'.inf' is not a length", "millimetres"),
    ("size overflows", SIZE, "  size: [¦1e999, 110]\n", "too large", "millimetres"),
    ("size unknown unit", SIZE, "  size: [¦26 cmm, 110]\n", "Unknown unit of length 'cmm' in '26 cmm'", "Did you mean"),
    ("decimal comma", "  corner: 3", "  corner: ¦3,5", "Found '3,5'", "Write 3.5 with a decimal point."),
    ("comma in a list", SIZE, "  size: ¦[260, 110,5]\n", "which has 3", "[width, height]"),
    ("underscores", SIZE, "  size: [¦2_60, 110]\n", "'2_60' is not a length", "millimetres"),
    ("time of day", SIZE, "  size: [¦12:30, 110]\n", "'12:30'", "millimetres"),
    ("rack of half", SIZE, "  size: {rack: ¦2.5}\n", "Found '2.5'", "whole number from 1 to 50"),
    ("rack misspelt", SIZE, "  size: {¦rak: 2}\n", "Unknown key 'rak' in rack size", "'rack'"),
    ("corner too large", "  corner: 3", "  corner: ¦56", "Corner radius 56 mm does not fit a face of 260 × 110 mm; maximum 55 mm", "Reduce the corner radius."),
    ("corner negative", "  corner: 3", "  corner: ¦-1", "Found '-1'", "Accepted: a length in mm or with a unit (0.5 in, 20 thou, 9 pt, 2U, 14HP), 0 to 5000 mm"),
    ("zero thickness", "thickness: 2}", "thickness: ¦0}", "Found '0'", "more than 0"),
    ("no thickness", "{material: aluminium, thickness: 2}", "¦{material: aluminium}", "no 'thickness'", "length"),
    ("coat kind", COAT, "  coat: {kind: ¦poweder, thickness: 0.1}\n", "Found 'poweder'", "'powder'"),
    ("coat without film", COAT, "  coat: ¦{kind: powder}\n", "Coat of kind 'powder' has no 'thickness', which decides the cut size of each hole", "one surface"),
    ("the coat's old key", COAT, "  coat: {kind: none, ¦film: 0.1}\n", "Unknown key 'film' in coat", "spec.key-is-thickness"),
    ("film range turned round", COAT, "  coat: {kind: powder, thickness: {minimum: ¦0.12, maximum: 0.06}}\n", "spec.coat-range-reversed", "spec.minimum-not-above-maximum"),
    ("film range half", COAT, "  coat: {kind: powder, thickness: ¦{minimum: 0.06}}\n", "Required key 'maximum' is missing in thickness range", "maximum: a length"),
    ("allowance misspelt", COAT, "  coat: {kind: powder, thickness: 0.1, allowance: ¦shops}\n", "Found 'shops'", "'shop'"),
    ("growth over one", COAT, "  coat: {kind: powder, thickness: 0.1, growth: ¦1.5}\n", "Found '1.5'", "Accepted: a number, 0 to 1"),
    ("mask outside", "waivers:\n" + WAIVER, "masks:\n  - ¦{area: {circle: [900, 5, 3]}, why: pad}\n", "spec.mask-outside", "from 0 to 260"),
    ("no coat with film", COAT, "  coat: {kind: none, thickness: ¦0.1}\n", "Coat of kind 'none' has a thickness of 0.1 mm", "another kind"),
    ("colour unquoted", COAT, "  coat:\n    kind: none\n    ¦colour: #2A2E33\n", "source-schema.no-value-before-comment", "in quotes"),
    ("colour unquoted in braces", COAT, "  coat: {kind: none, colour: ¦#2A2E33}\n", "hides the rest of this line", '"#2A2E33"'),
    ("colour by name", COAT, "  coat: {kind: none, colour: ¦grey}\n", "Found 'grey'", "#RRGGBB"),
    ("colour short", COAT, '  coat: {kind: none, colour: ¦"#FFF"}\n', "Found '#FFF'", "source-schema.a-colour"),
    # --- bent edges
    ("flange of nothing", SIZE, SIZE + "  flanges: {top: ¦0}\n", "Found '0'", "more than 0"),
    ("flange edge misspelt", SIZE, SIZE + "  flanges: {¦tob: 15}\n", "Unknown key 'tob' in flanges", "'top'"),
    ("flange into a corner", SIZE, SIZE + "  flanges: {top: ¦15}\n", "runs into the rounded corner at its left", "Accepted: corner: 0, or an inset with a minimum of 5 mm"),
    ("flange without a length", SIZE, SIZE + "  flanges: {top: ¦{angle: 60}}\n", "Required key 'length' is missing in flange", "length"),
    ("insets leave nothing", SIZE, SIZE + "  flanges: {top: ¦{length: 9, inset: 130}}\n", "leave nothing", "less than 260"),
    ("flange hole of two forms", SIZE, SIZE + _HOLE.format("diameter: 3, slot: [9, 3]"), "The hole has several shapes: diameter and slot", "one of"),
    ("flange hole of no form", SIZE, SIZE + _HOLE.format("").replace(", }", "}"), "spec-bending.hole-without-shape", "one of diameter"),
    ("gauge of no metal", "{material: aluminium, thickness: 2}", "{material: brass, gauge: ¦16}", "No gauge table is known for the material 'brass'", "in mm"),
    ("gauge that is none", "{material: aluminium, thickness: 2}", "{material: aluminium, gauge: ¦13}", "Unknown gauge 13", "10, 11"),
    ("two thicknesses", "thickness: 2}", "thickness: 2, ¦gauge: 16}", "spec.thickness-and-gauge", "one of"),
    ("subrack of 4U", SIZE, "  size: {subrack: ¦4, hp: 8}\n", "Found '4'", "3, 6"),
    ("subrack without a width", SIZE, "  size: ¦{subrack: 3}\n", "Required key 'hp' is missing in subrack size", "hp"),
    ("hanging by nothing", "marking:", "making: {hanging: ¦{diameter: 4}}\nmarking:", "spec-bending.hanging-by-nothing", "on and by"),
    ("hanging by no flange", "marking:", "making: {hanging: {on: ¦top}}\nmarking:", "spec-bending.unknown-flange", "with flanges"),
    ("hanging by no part", "marking:", "making: {hanging: {by: [¦XX]}}\nmarking:", "'hanging' names 'XX', which is not on the panel", "refs"),
    ("relief of another shape", SIZE, SIZE + _TOP + "  bending: {relief: {shape: ¦oval}}\n", "Found 'oval'", "tear"),
    ("bending a flat panel", SIZE, SIZE + "  ¦bending: {radius: 2}\n", "without flanges", "flanges"),
    (
        "two ways to bend",
        SIZE,
        SIZE + _TOP + "  bending: {k: 0.4, ¦tested: [{radius: 2, deduction: 3}]}\n",
        "'bending' has both 'k' and 'tested'",
        "one of the two",
    ),
    (
        "bend that was not tested",
        SIZE,
        SIZE + _TOP.replace("{length", "¦{length") + "  bending: {tested: [{radius: 1, deduction: 3}]}\n",
        "No tested bend of 90° at R 2 mm",
        "Accepted: tested bends: 90° at R 1 mm",
    ),
    (
        "radius below the standard",
        SIZE,
        SIZE + _TOP.replace("{length", "¦{length") + "  bending: {radius: 0.1}\n",
        "Bend radius 0.1 mm in 2 mm sheet is below the range of DIN 6935; minimum 0.2 mm",
        "Increase the radius, or give the K-factor of the shop as 'k'.",
    ),
    ("datum misspelt", "  corner: 3", "  datum: ¦lower-lef", "Found 'lower-lef'", "'lower-left'"),
    ("datum outside", "  corner: 3", "  datum: ¦[300, 0]", "Datum [300, 0] is outside the face of 260 × 110 mm", "lower-left corner"),
    ("empty title", "title: Bench supply, front", "¦title:", "source-schema.no-value", "text on one line"),
    # --- marking
    ("process misspelt", "digital-print", "¦digital_print", "Found 'digital_print'", "'digital-print'"),
    ("no ink", INK, "", "neither 'ink' nor 'inks'", "{name, colour}"),
    ("ink and inks", INK, INK + '  ¦inks: [{name: red, colour: "#C00000"}]\n', "both 'ink' and 'inks'", "spec-lettering.ink-or-inks"),
    (
        "two inks of one name",
        INK,
        '  inks: [{name: red, colour: "#C00000"}, {name: ¦red, colour: "#D00000"}]\n',
        "Two inks have the name 'red'",
        "once",
    ),
    (
        "two inks of one layer",
        INK,
        '  inks: [{name: sea green, colour: "#00C000"}, {name: ¦Sea-Green, colour: "#00D000"}]\n',
        "share the layer legend-sea-green",
        "more than capitals",
    ),
    (
        "ink named as a plate of ours",
        INK,
        '  ink: {name: ¦Cut, colour: "#C00000"}\n',
        "'Cut' has another meaning in the files and cannot name an ink",
        "varnish",
    ),
    (
        "ink named as PDF names no plate",
        INK,
        '  ink: {name: ¦None, colour: "#C00000"}\n',
        "'None' has another meaning in the files and cannot name an ink",
        "spec-lettering.reserved-names",
    ),
    ("case misspelt", "case: upper", "case: ¦uper", "Found 'uper'", "'upper'"),
    ("font of an old name", "case: upper", "font: ¦plain-bold", "Unknown font 'plain-bold'", "{weight: bold}"),
    ("weight off its axis", "case: upper", "font: {weight: ¦h/5}", "Weight h/5 is outside", "h/14 to h/6"),
    ("weight of no form", "case: upper", "font: {weight: ¦heavy}", "Found 'heavy'", "h/8"),
    ("width off its axis", "case: upper", "font: {width: ¦0.5}", "Width 0.5 is outside", "from 0.76 to 1"),
    ("unknown font", "case: upper", "font: ¦plane", "Unknown font 'plane'", "'plain'"),
    ("unknown case", "case: upper", "case: ¦lower", "Found 'lower'", "small-capitals"),
    ("no file", "case: upper", "font: {¦index: 1}", "Unknown key 'index'", "width"),
    ("missing fallback", "case: upper", "fallback: [plain, ¦own.ttf]", "own.ttf", "relative to the spec"),
    ("fallback not a list", "case: upper", "fallback: ¦plain", "Found 'plain'", "a list of fonts"),
    ("tracking in mm", "case: upper", "tracking: ¦0.3 mm", "Found '0.3 mm'", "a number"),
    ("language", "case: upper", "language: ¦German!", "Found 'German!'", "language tag"),
    ("direction", "case: upper", "direction: ¦rtl", "Found 'rtl'", "right-to-left"),
    ("reversed number", "case: upper", "reversed: ¦3", "Found '3'", "true or false"),
    ("live text", "case: upper", "text: ¦yes", "Found 'yes'", "outlines, live"),
    ("span not closed", FREE, '  - {text: ¦"{bar RESET", at: [1, 1]}\n', "spec-lettering.unclosed-brace", "{{"),
    ("unknown span", FREE, '  - {text: ¦"{over RESET}", at: [1, 1]}\n', "spec-lettering.unknown-brace-word", "super"),
    ("span in a span", FREE, '  - {text: ¦"{bar {sub x}", at: [1, 1]}\n', "spec-lettering.unclosed-brace", "{{"),
    ("arc without radius", FREE, "  - {text: A, at: [9, 9], arc: ¦{middle: 0}}\n", "Required key 'radius' is missing in arc", "length"),
    ("arc and turn", FREE, "  - {text: A, at: [9, 9], arc: {radius: 9}, ¦turn: 3}\n", "has a 'turn'", "middle"),
    ("cutter", "  lettering: {cap", "  ¦cutter: 0.3\n  lettering: {cap", "Key 'cutter' is not accepted with the process digital-print", "engraving"),
    ("missing font file", "case: upper", "font: ¦own.ttf", "own.ttf", "relative to the spec"),
    ("unknown style", "case: upper", "styles: {¦names: {cap_height: 3}}", "Unknown key 'names' in styles", "'name'"),
    ("style with unknown ink", "case: upper", "styles: {note: {ink: ¦blue}}", "Unknown ink 'blue'", "white"),
    ("cap height zero", "cap_height: 3", "cap_height: ¦0", "Found '0'", "more than 0"),
    ("quoted number in a scale", SCALE, '    scale: {from: ¦"0", to: 30, major: 5}\n', "Found '0' in quotes, which is text", "source-schema.remove-quotes"),
    # --- parts
    ("no ref", SWITCH, "  - ¦{part: toggle-12, at: [30, 55]}\n", "Required key 'ref' is missing in part", "ref:"),
    ("no place", SWITCH, "  - ¦{ref: S1, part: toggle-12}\n", "Required key 'at' is missing in part", "[x, y]"),
    ("part misspelt", SWITCH, "  - {ref: S1, part: ¦togle-12, at: [30, 55]}\n", "Unknown part 'togle-12'", "'toggle-12'"),
    ("key misspelt", SWITCH, "  - {ref: S1, part: toggle-12, ¦att: [30, 55]}\n", "key 'att'", "'at'"),
    ("colour of a part", SWITCH, "  - {ref: S1, part: toggle-12, at: [30, 55], ¦colour: red}\n", "key 'colour' in part", "ref, part, at"),
    ("one number for a pair", SWITCH, "  - {ref: S1, part: toggle-12, at: ¦30}\n", "Found '30'", "[x, y]"),
    ("nothing for a pair", SWITCH, "  - {ref: S1, part: toggle-12, ¦at: }\n", "source-schema.no-value", "[x, y]"),
    ("part is a text", SWITCH, "  - ¦S1\n", "Found 'S1'", "a mapping with ref"),
    ("two parts of one ref", SWITCH, SWITCH + "  - {ref: ¦S1, part: toggle-12, at: [9, 9]}\n", "first is at 14:11", "once"),
    ("copies of one ref", SOCKET, "      - {ref: ¦J, part: socket-4, at: [160, 30]}\n", "several parts the ref 'J'", "J{n}"),
    ("outside", SWITCH, "  - {ref: S1, part: toggle-12, at: ¦[300, 55]}\n", "S1 is at [300, 55], outside the panel", "to 260"),
    ("copy outside", "step: [25, 0]", "step: [60, 0]", "J3 is at [280, 30], outside the panel", "x from 0 to 260"),
    (
        "in the cut-off corner",
        SWITCH,
        "  - {ref: S1, part: toggle-12, at: ¦[0.1, 0.1]}\n",
        "outside the panel",
        "from the datum",
    ),
    ("a turn in words", SWITCH, "  - {ref: S1, part: toggle-12, at: [30, 55], turn: ¦left}\n", "'left' is not an angle", "degrees"),
    ("turn too far", SWITCH, "  - {ref: S1, part: toggle-12, at: [30, 55], turn: ¦400}\n", "Found '400'", "Accepted: an angle in degrees, -360 to 360°"),
    ("legend in braces", "legend: OUTPUT", "legend: ¦{n}", "Found a mapping with 'n'", "in quotes"),
    ("legend place", "legend: OUTPUT", "legend: {text: A, place: ¦over}", "Found 'over'", "above"),
    ("legend at a place and a side", "legend: OUTPUT", "legend: {text: A, at: [9, 9], ¦place: above}", "both 'at' and 'place'", "alone"),
    ("legend align", "legend: OUTPUT", "legend: {text: A, align: ¦middle}", "Found 'middle'", "centre"),
    ("weight too large", "  process: digital-print", "  process: digital-print\n  placing: {above: ¦1001}", "Found '1001'", "1000"),
    ("weight of nothing", "  process: digital-print", "  process: digital-print\n  placing: {¦abov: 1}", "Unknown key 'abov' in placing", "'above'"),
    ("frame form", FRAME, "  - {around: [J1], form: ¦box}\n", "Found 'box'", "bracket"),
    ("legend ink", "legend: OUTPUT", "legend: {text: A, ink: ¦whit}", "Unknown ink 'whit'", "'white'"),
    ("legend of many lines", "legend: OUTPUT", r'legend: ¦"A\nB\nC\nD\nE"', "source-schema.text-of-lines", "4 lines"),
    ("legend without letters", "legend: OUTPUT", 'legend: ¦" "', "source-schema.blank-text", "text"),
    ("brace without repeat", "legend: OUTPUT", 'legend: ¦"OUT {n}"', "Unknown name '{n}' in 'OUT {n}'", "{{"),
    ("unknown brace", '"OUT {n}"', '¦"OUT {m}"', "spec-lettering.unknown-brace-name", "spec-lettering.names-or-brace"),
    ("hyphenation of all", "  lettering: {", "  lettering: {hyphenate: ¦always, ", "Found 'always'", "true or false"),
    ("hyphenation without patterns", "  lettering: {", "  lettering: {¦hyphenate: [tr], ", "No hyphenation dictionary for language 'tr'", "soft hyphens"),
    ("brace of nothing", "legend: OUTPUT", 'legend: ¦"A {unit }"', "Nothing behind the word in '{unit }' in 'A {unit }'", "{unit ms}"),
    ("open brace", '"OUT {n}"', '¦"OUT {n"', "spec-lettering.unclosed-brace", "{{"),
    # --- relative places
    ("from nowhere", "at: [30, 55]", "at: {from: ¦RV2, by: [0, 5]}", "measured from 'RV2'", "'RV1'"),
    ("from itself", "at: [30, 55]", "at: {from: ¦S1, by: [0, 5]}", "S1 > S1", "spec-places.position-from-datum"),
    ("no by", "at: [30, 55]", "at: ¦{from: RV1}", "Required key 'by' is missing in relative position", "[dx, dy]"),
    (
        "a circle of two",
        SWITCH + "  - ref: RV1\n    part: pot-m10\n    at: [95, 55]\n",
        ("  - {ref: S1, part: toggle-12, at: {from: ¦RV1, by: [1, 1]}}\n"
        "  - ref: RV1\n    part: pot-m10\n    at: {from: S1, by: [1, 1]}\n"),
        "S1 > RV1 > S1",
        "spec-places.position-from-datum",
    ),
    # --- controls
    ("position of a lever", "{up: ON, down: OFF}", "{¦left: ON, down: OFF}", "no position 'left'", "down, up"),
    ("list for a lever", "{up: ON, down: OFF}", "[ON, OFF]", "does not turn", "up, down"),
    ("positions of a socket", SOCKET, '      - {ref: "J{n}", part: socket-4, at: [160, 30], ¦positions: {up: ON}}\n',
     "J{n} has 'positions', but the part socket-4 has none", "another part"),
    ("position twice by angle", KNOB, KNOB + "    positions: {texts: [A, B], angles: [0, ¦360]}\n",
     "Two positions at 360°; the first is at 19:41", "once"),
    ("position by a word", KNOB, KNOB + "    positions: {¦up: A}\n", "is turned; its positions are not given by direction",
     "a list of texts"),
    ("positions without angles", KNOB, KNOB + "    ¦positions: [A, B]\n", "the angles of the positions of pot-m10 are not known",
     "angles: [...]"),
    ("fewer angles than positions", KNOB, KNOB + "    positions: {texts: [A, B, C], angles: ¦[0, 45]}\n", "2 angles for 3 positions",
     "one angle for each"),
    ("angles and index", KNOB, KNOB + "    positions: {texts: [A, B], angles: [0, 45], ¦index: 45}\n",
     "Both `angles` and `index` are given", "`angles`, or `index`"),
    ("first without index", KNOB, KNOB + "    positions: {texts: [A, B], ¦first: 45}\n", "`first` is given without `index`", "index"),
    ("more than one turn", KNOB, KNOB + "    positions: {texts: [A, B, C, D, E], index: ¦90}\n",
     "5 positions 90° apart do not fit into one turn", "maximum 72°"),
    ("knob on a switch", SWITCH, "  - {ref: S1, part: toggle-12, at: [30, 55], knob: ¦{diameter: 9, height: 9}}\n",
     "S1 has a knob, but the part toggle-12 has no shaft", "with a shaft"),
    ("scale on a switch", SWITCH, "  - {ref: S1, part: toggle-12, at: [30, 55], scale: ¦{from: 0, to: 1, major: 1}}\n",
     "S1 has a scale, but the part toggle-12 has no shaft", "with a shaft"),
    ("scale on a slide of unknown travel", SWITCH, "  - {ref: S1, part: slide-switch-2, at: [30, 55], scale: ¦{from: 0, to: 1, major: 1}}\n",
     "S1: the travel of slide-switch-2 is not known", "`length:` in mm"),
    ("scale round ten turns", SWITCH, "  - {ref: S1, part: pot-ten-turn, at: [30, 55], scale: ¦{from: 0, to: 1, major: 1}}\n",
     "S1: pot-ten-turn turns 3600° (10 turns); a scale on the panel shows one turn", "turns-counting dial"),
    ("knob by a name that none has", KNOB, "    knob: ¦knob-22\n", "Unknown knob 'knob-22'", "Did you mean 'knob-2"),
    ("knob by the name of a part", KNOB, "    knob: ¦bnc\n", "Unknown knob 'bnc'", "knob"),
    ("knob in a list", KNOB, "    knob: ¦[knob-21]\n", "Found the list", "the name of a knob in the catalogue; or a mapping"),
    ("named knob on a switch", SWITCH, "  - {ref: S1, part: toggle-12, at: [30, 55], knob: ¦knob-21}\n",
     "S1 has a knob, but the part toggle-12 has no shaft", "with a shaft"),
    ("named knob on a thinner shaft", "    part: pot-m10\n    at: [95, 55]\n" + KNOB,
     "    part: pot-m7\n    at: [95, 55]\n    knob: ¦knob-21\n",
     "Knob knob-21 has a bore of 6 to 6.35 mm; the shaft of pot-m7 is 4 mm", "{diameter: 21, height: 16}"),
    ("knob smaller than the shaft", KNOB, "    knob: {diameter: ¦4, height: 16}\n", "spec-controls.knob-too-small", "more than 6"),
    ("scale of nothing", SCALE, "    scale: {from: 5, to: ¦5, major: 1}\n", "from 5 to 5", "more or less than 'from'"),
    ("falling logarithm to nothing", SCALE, "    scale: {from: 10, to: ¦0, law: logarithmic}\n", "ends at 0", "more than 0"),
    ("falling table that rises", SCALE, "    scale: {from: 10, to: 0, major: 5, table: ¦[[0, 0], [10, 1]]}\n", "spec-controls.table-incomplete", "[10, 0]"),
    ("multiplier of two", SCALE, "    scale: {from: 0, to: 5, major: 1, multiplier: ¦2}\n", "Multiplier 2 is not a power of ten", "1000"),
    ("multiplier out of sight", SCALE, "    scale: {from: 0, to: 5, major: 1, multiplier: ¦1e12}\n", "is not a power of ten", "1000"),
    ("major zero", SCALE, "    scale: {from: 0, to: 5, major: ¦0}\n", "Found '0'", "more than 0"),
    ("major more than the range", SCALE, "    scale: {from: 0, to: 10, major: ¦30}\n", "Step 30 is larger than the range of 10", "maximum 10"),
    ("minor does not divide", SCALE, "    scale: {from: 0, to: 10, major: 5, minor: ¦2}\n", "Step 2 does not divide the major step 5", "2.5"),
    ("too many marks", SCALE, "    scale: {from: 0, to: 10, major: 5, minor: ¦0.001}\n", "Step 0.001 makes 10000 marks on the scale; maximum 1000", "Increase the step."),
    ("scale more than all round", SCALE, "    scale: {from: 0, to: 10, major: 5, sweep: ¦361}\n", "Found '361'", "maximum 360"),
    ("numeral outside", SCALE, "    scale: {from: 0, to: 10, major: 5, numerals: [0, ¦11]}\n", "Value 11 of 'numerals' is outside the scale", "0 to 10"),
    ("law", SCALE, "    scale: {from: 1, to: 10, law: ¦log}\n", "Found 'log'", "logarithmic"),
    ("logarithm of nothing", SCALE, "    scale: {from: ¦0, to: 10, law: logarithmic}\n", "starts at 0", "more than 0"),
    ("logarithmic with steps", SCALE, "    scale: {from: 1, to: 10, law: logarithmic, ¦major: 1}\n", "'major' is given", "spec-controls.remove-marks"),
    ("first scale on a shared arc", SCALE, "    scale: {from: 0, to: 2, major: 1, ¦arc: shared}\n", "first scale has a shared arc", "second of two"),
    ("shared arc with a sweep", SCALE, "    scale: [{from: 0, to: 2, major: 1}, {from: 0, to: 2, major: 1, arc: shared, ¦sweep: 90}]\n", "shared arc and 'sweep'", "Remove 'sweep'"),
    ("arc of a scale with a wedge", SCALE, "    scale: [{from: 0, to: 2, major: 1, wedge: true}, {from: 0, to: 2, major: 1, ¦arc: shared}]\n", "no arc to share", "without zones"),
    ("ranges of too many positions", SWITCH, "  - {ref: S1, part: selector-22, at: [30, 55], positions: {texts: [1, 2], angles: [-45, 45], ranges: ¦[{of: 3, unit: V}]}}\n", "The ranges have 3 positions; the control has 2", "maximum 2"),
    ("formula that turns", SCALE, "    scale: {from: -1, to: 1, major: 1, law: {formula: ¦v^2}}\n", "'v^2' changes direction at v = 0", "only increases"),
    ("formula that is flat", SCALE, '    scale: {from: 0, to: 2, major: 1, law: {formula: ¦"max(v, 1)"}}\n', "does not change at v = 0", "only increases"),
    ("formula with a strange name", SCALE, "    scale: {from: 0, to: 2, major: 1, law: {formula: ¦2*x}}\n", "Unknown name 'x' in the formula", "'v', the value"),
    ("formula without a value", SCALE, "    scale: {from: 0, to: 2, major: 1, law: {formula: ¦log10(v)}}\n", "gives no finite number", "from 0 to 2"),
    ("formula that is code", SCALE, '    scale: {from: 0, to: 2, major: 1, law: {formula: ¦"__import__(v)"}}\n', "Unknown function '__import__'", "abs"),
    ("law of nothing", SCALE, "    scale: {from: 0, to: 2, major: 1, law: ¦{}}\n", "neither 'formula' nor 'taper'", "taper: 15"),
    ("law and table", SCALE, "    scale: {from: 0, to: 2, major: 1, law: square, ¦table: [[0, 0], [2, 1]]}\n", "both a law and a table", "linear law"),
    ("square below zero", SCALE, "    scale: {from: -1, to: 2, major: 1, law: ¦square}\n", "Law square on a scale from -1", "minimum 0"),
    ("meter beyond its law", SCALE, "    scale: {from: -20, to: 6, law: ¦vu}\n", "Law vu on a scale from -20 to 6", "maximum 3"),
    ("rest where a value is", SCALE, "    scale: {from: 0, to: 10, major: 5, rest: ¦OFF}\n", "the travel begins at the value 0", "decibel"),
    ("scale without marks", SCALE, "    scale: ¦{from: 1, to: 10}\n", "has no marks", "major"),
    ("marks and steps", SCALE, "    scale: {from: 1, to: 10, marks: [1, 2], ¦major: 1}\n", "both 'marks' and 'major'", "one by one"),
    ("mark outside", SCALE, "    scale: {from: 1, to: 10, marks: [1, ¦20]}\n", "Value 20 of 'marks' is outside the scale", "1 to 10"),
    ("detent outside", SCALE, "    scale: {from: 1, to: 10, marks: [1], detents: [¦0]}\n", "Value 0 of 'detents' is outside the scale", "1 to 10"),
    ("table that ends early", SCALE, "    scale: {from: 0, to: 10, major: 5, table: ¦[[0, 0], [5, 1]]}\n", "spec-controls.table-incomplete", "[10, 1]"),
    ("word at no value", SCALE, "    scale: {from: 0, to: 10, major: 5, words: {¦low: MIN}}\n", "Found 'low'", "number"),
    ("word outside", SCALE, "    scale: {from: 0, to: 10, major: 5, words: {¦11: MAX}}\n", "Value 11 of 'words' is outside the scale", "0 to 10"),
    ("zone ink", SCALE, "    scale: {from: 0, to: 10, major: 5, zones: [{from: 0, to: 5, ink: ¦green}]}\n", "Unknown ink 'green'", "white"),
    ("zone backwards", SCALE, "    scale: {from: 0, to: 10, major: 5, zones: [{from: 5, to: ¦5, ink: white}]}\n", "from 5 to 5", "more than 'from'"),
    ("straight scale of a dial", SCALE, "    scale: {from: 0, to: 10, major: 5, ¦length: 20}\n", "RV1 has a scale with 'length', but the part pot-m10 turns", "sweep"),
    # --- repeats
    ("count zero", "count: 3", "count: ¦0", "Found '0'", "whole number from 1"),
    ("count half", "count: 3", "count: ¦2.5", "Found '2.5'", "whole number"),
    ("step one number", "step: [25, 0]", "step: ¦25", "source-schema.numbers-missing", "[dx, dy]"),
    ("no parts", "    parts:\n" + SOCKET, "    parts: ¦[]\n", "an empty list", "Accepted: a list of parts, modules, repeats, mirrors and layouts, minimum 1 item"),
    (
        "too many copies",
        REPEAT + "    parts:\n" + SOCKET,
        ('  - ¦repeat: {count: 3, step: [25, 0]}\n    parts:\n    - repeat: {count: 5000, step: [0, 0], as: m}\n'
        '      parts: [{ref: "J{n}", part: socket-4, at: [1, 1]}]\n'),
        "The spec makes 15002 parts, 15000 of them here; maximum 5000",
        "Reduce the number of copies.",
    ),
    ("bad name", "step: [25, 0]", "step: [25, 0], as: ¦1n", "Found '1n'", "letters, digits"),
    ("start of two letters", "count: 3, step: [25, 0]", "count: 3, step: [25, 0], start: ¦AB", "Found 'AB'", "a capital letter"),
    ("guide to nowhere", "legend: OUTPUT", "legend: {text: A, ¦guide: 4}", "spec-lettering.guide-without-side", "place: above"),
    ("guide of nothing", "legend: OUTPUT", "legend: {text: A, place: left, guide: ¦0}", "Found '0'", "more than 0"),
    ("pin of one number", "legend: OUTPUT", "pin_1: ¦3", "source-schema.numbers-missing", "[dx, dy]"),
    # --- layouts
    ("row without a place", SWITCH, _layout("row: ¦{pitch: 30}"), "The row has no 'at', which is required", "at: [x, y]"),
    ("row without spacing", SWITCH, _layout("row: ¦{at: [30, 55]}"), "neither 'pitch' nor 'gap'", "spec-places.pitch-or-gap"),
    ("row of two spacings", SWITCH, _layout("row: {at: [30, 55], pitch: 30, ¦gap: 2}"), "both 'pitch' and 'gap'", "Accepted: pitch"),
    ("row of negative gaps", SWITCH, _layout("row: {at: [30, 55], gap: ¦-2}"), "Found '-2'", "Accepted: a length in mm or with a unit (0.5 in, 20 thou, 9 pt, 2U, 14HP), 0 to 5000 mm"),
    ("row lined up by the left", SWITCH, _layout("row: {at: [30, 55], gap: 2, align: ¦left}"), "Found 'left'", "centres, top, bottom"),
    ("row of one", SWITCH, _layout("¦row: {at: [30, 55], gap: 2}", members="[{ref: S1, part: toggle-12}]"), "spec-places.one-member", "spec-places.two-members"),
    ("row of nothing", SWITCH, _layout("row: {at: [30, 55], gap: 2}", members="¦[]"), "an empty list", "Accepted: a list of members, modules, repeats and layouts, minimum 1 item"),
    (
        "member with a place", SWITCH,
        _layout("row: {at: [30, 55], gap: 2}", members="[{ref: S1, part: toggle-12, ¦at: [1, 1]}, {ref: S2, part: toggle-12}]"),
        "Unknown key 'at' in member", "spec-places.members-without-at",
    ),
    (
        "repeat in a row with a step", SWITCH,
        _layout("row: {at: [9, 55], gap: 2}", members='[{repeat: {count: 2, ¦step: [9, 0]}, parts: [{ref: "S{n}", part: led-5}]}]'),
        "Unknown key 'step' in series", "spec-places.copies-without-step",
    ),
    (
        "row in a column with a place", SWITCH,
        _layout("column: {at: [30, 55], gap: 2}", members="[{ref: S1, part: led-5}, {row: {¦at: [1, 1], gap: 2},\n    parts: [{ref: S2, part: led-5}, {ref: S3, part: led-5}]}]"),
        "spec-places.inner-layout-with-at", "Remove 'at'; the column sets its position.",
    ),
    ("row from nowhere", SWITCH, _layout("row: {at: {from: ¦RV2, by: [0, 9]}, gap: 2}"), "the row of S1 is measured from 'RV2'", "'RV1'"),
    ("row from its own member", SWITCH, _layout("row: {at: {from: ¦S2, by: [0, 9]}, gap: 2}"), "the row of S1 > the row of S1", "spec-places.position-from-datum"),
    ("member off the face", SWITCH, _layout("row: {at: [30, 55], pitch: 240}", members="[{ref: S1, part: led-5}, ¦{ref: S2, part: led-5}]"), "S2 is at [270, 55], outside the panel", "to 260"),
    ("grid that is not full", SWITCH, _layout("grid: {at: [30, 55], columns: 2, rows: ¦2, pitch: [20, 20]}"), "The grid has 2 members; columns: 2, rows: 2", "4 members"),
    ("grid of one pitch", SWITCH, _layout("grid: {at: [30, 55], columns: 2, pitch: ¦20}"), "source-schema.numbers-missing", "[across, down]"),
    ("names that are too few", SWITCH, _layout("grid: {at: [30, 55], columns: 2, pitch: [20, 20], numbers: {columns: ¦[A]}}"), "Names of columns: 1; columns of the grid: 2", "2 names"),
    ("ring without a size", SWITCH, _layout("ring: ¦{at: [30, 55]}"), "neither 'diameter' nor 'gap'", "diameter"),
    ("ring more than round", SWITCH, _layout("ring: {at: [30, 55], diameter: 40, sweep: ¦400}"), "Found '400'", "Accepted: an angle in degrees, more than 0°, maximum 360°"),
    ("layout misspelt", SWITCH, "  - {¦rwo: {at: [30, 55], gap: 2}, parts: [{ref: S1, part: led-5}]}\n", "Unknown key 'rwo' in row of parts", "Did you mean 'row'?"),
    ("between one", SWITCH, _layout("distribute: {between: ¦[RV1]}"), "Found the list", "Accepted: a list of refs, with 2 items"),
    ("between a part and nothing", SWITCH, _layout("distribute: {between: [RV1, ¦J9]}"), "the distribution of S1 is measured from 'J9'", "J1, J2, J3"),
    ("between one and itself", SWITCH, _layout("distribute: {between: ¦[RV1, RV1]}"), "spec-places.same-position", "spec-places.different-positions"),
    ("too wide between", SWITCH, _layout("¦distribute: {between: [J1, J2], by: gaps}"), "Not enough space for the distribution of S1: 37.9 mm needed between J1 and J2, 25 mm available", "Use fewer or smaller members, or move the two parts apart by at least 12.9 mm."),
    ("mirror of two lines", SWITCH, _mirror("{x: 60, ¦y: 40}"), "both 'x' and 'y'", "spec-places.mirror-line"),
    ("mirror of no line", SWITCH, _mirror("¦{}"), "neither 'x' nor 'y'", "spec-places.mirror-line"),
    ("mirror of one name", SWITCH, _mirror("{x: 60, names: ¦[L]}"), "Found the list", "Accepted: a list of texts, with 2 items"),
    ("mirror in what it shows", SWITCH, _mirror("{x: {from: ¦S2, by: 1}}"), "S2 > S2", "spec-places.position-from-datum"),
    ("one ref in a mirror", SWITCH, "  - mirror: {x: 60}\n    parts: [{ref: ¦S1, part: toggle-12, at: [30, 55]}]\n", "The mirror gives several parts the ref 'S1'", "S1{n}"),
    ("axis without a measure", "at: [30, 55]", "at: {x: ¦{gap: 3}, y: 5}", "spec-places.no-reference", "spec-places.one-of-keys"),
    ("axis of two measures", "at: [30, 55]", "at: {x: ¦{left_of: RV1, from: J1}, y: 5}", "The position has several references: from and left_of", "one of"),
    ("gap from a centre", "at: [30, 55]", "at: {x: {from: RV1, ¦gap: 3}, y: 5}", "'gap' is given beside 'from'", "by"),
    ("off the face by name", "at: [30, 55]", "at: {x: {right_of: ¦right-edge}, y: 5}", "'right_of: right-edge' leads off the face", "left-edge or middle"),
    ("edge misspelt", "at: [30, 55]", "at: {x: {from: ¦lef-edge}, y: 5}", "measured from 'lef-edge'", "'left-edge'"),
    ("one axis only", "at: [30, 55]", "at: ¦{x: 5}", "Required key 'y' is missing in position by axes", "y: a length"),
    ("axes in a circle", "at: [30, 55]", "at: {x: {from: ¦S1}, y: 5}", "S1 > S1", "spec-places.position-from-datum"),
    # --- what stands beside
    ("frame round nobody", FRAME, "  - {around: [J1, ¦J4]}\n", "names 'J4'", "J1, J2, J3, RV1, S1"),
    ("frame twice round", FRAME, "  - {around: [J1, ¦J1]}\n", "'J1' twice", "once"),
    ("frame round no such refs", FRAME, "  - {around: [¦K*]}\n", "No ref on the panel begins with 'K'", "J*"),
    ("frame twice round all", FRAME, "  - {around: [J1, ¦J*]}\n", "'J1' twice", "once"),
    ("frame round nothing", FRAME, "  - {around: ¦[]}\n", "an empty list", "Accepted: a list of refs, minimum 1 item"),
    ("title in two lines", "title: OUTPUTS", r'title: ¦"OUT\nPUTS"', "source-schema.text-of-lines", "one line"),
    ("text outside", FREE, "  - {text: ¦SUPPLY, at: [130, 120]}\n", "Text 'SUPPLY' is at [130, 120], outside the panel", "y from 0 to 110"),
    ("text anchor", "anchor: centre", "anchor: ¦center", "Found 'center'", "'centre'"),
    ("keep-out without reason", AREA, "¦{area: {circle: [5, 5, 2]}}", "Required key 'why' is missing in keep-out", "text"),
    ("keep-out of two shapes", AREA, "{area: ¦{circle: [5, 5, 2], rectangle: [1, 1, 2, 2]}, why: a}",
     "The area has several shapes: rectangle and circle", "one of"),
    ("keep-out of no shape", AREA, "{area: ¦{}, why: a}", "no shape", "rectangle, circle, polygon"),
    ("keep-out misspelt", AREA, "{area: {circle: [9, 9, 2], ¦circl: [5, 5, 2]}, why: a}", "Unknown key 'circl' in area", "'circle'"),
    ("rectangle of three", AREA, "{area: {rectangle: ¦[5, 5, 2]}, why: a}", "which has 3", "[x, y, width, height]"),
    ("polygon of two", AREA, "{area: {polygon: ¦[[0, 0], [1, 1]]}, why: a}", "a list of 2", "Accepted: a list of corners, each [x, y], 3 to 200 items"),
    ("polygon crosses", AREA, "{area: {polygon: ¦[[0, 0], [9, 9], [9, 0], [0, 9]]}, why: a}", "crosses itself at [4.5, 4.5]", "in order"),
    ("polygon stands still", AREA, "{area: {polygon: ¦[[0, 0], [0, 0], [9, 9], [9, 0]]}, why: a}", "spec.corner-twice", "each once"),
    ("keep-out outside", AREA, "¦{area: {circle: [500, 5, 2]}, why: a}", "outside the panel", "x from"),
    ("keep-out side", "side: rear", "side: ¦back", "Found 'back'", "front, rear"),
    ("eye behind itself", "parts:\n  - {ref: S1", "operator: {eye: {height: ¦[400, 100]}}\nparts:\n  - {ref: S1", "spec.range-reversed", "smaller number first"),
    (
        "eye behind the face",
        "parts:\n  - {ref: S1",
        "operator:\n  eye: ¦{distance: 10, height: -900, lean: 80}\nparts:\n  - {ref: S1",
        "The eye is behind the face: eye height -900 mm, lean 80°",
        "in front of the face",
    ),
    ("eye with three heights", "parts:\n  - {ref: S1", "operator: {eye: {height: ¦[1, 2, 3]}}\nparts:\n  - {ref: S1", "which has 3", "[lowest, highest]"),
    ("eye at no distance", "parts:\n  - {ref: S1", "operator: {eye: {distance: ¦0}}\nparts:\n  - {ref: S1", "Found '0'", "more than 0"),
    ("eyes too far apart", "parts:\n  - {ref: S1", "operator: {eye: {apart: ¦120}}\nparts:\n  - {ref: S1", "Found '120'", "100"),
    ("no acuity", "parts:\n  - {ref: S1", "operator: {sight: {acuity: ¦0}}\nparts:\n  - {ref: S1", "Found '0'", "0.05"),
    ("acuity as a fraction", "parts:\n  - {ref: S1", "operator: {sight: {acuity: ¦20/40}}\nparts:\n  - {ref: S1", "Found '20/40'", "number"),
    ("in the dark", "parts:\n  - {ref: S1", "operator: {sight: {illuminance: ¦0}}\nparts:\n  - {ref: S1", "Found '0'", "more than 0"),
    ("hand misspelt", "parts:\n  - {ref: S1", "operator: {hand: ¦glove}\nparts:\n  - {ref: S1", "Found 'glove'", "'gloved'"),
    ("no room behind", "  corner: 3", "  depth_behind: ¦0", "Found '0'", "more than 0"),
    ("missing file of limits", "parts:\n  - {ref: S1", "limits: ¦house.yaml\nparts:\n  - {ref: S1", "Cannot read the limits file 'house.yaml': no such file or directory", "relative to the spec"),
    ("file of limits by its whole path", "parts:\n  - {ref: S1", "limits: ¦/house.yaml\nparts:\n  - {ref: S1", "'/house.yaml'", "relative to the spec"),
    ("variable named as a manner", FREE, FREE + "variables: {¦bar: {example: x}}\n", "'bar' has another meaning in braces and cannot name a variable", "another name"),
    ("variable with two counts", FREE, FREE + "variables: {serial: {counter: {first: ¦-1}}}\n", "-1", ""),
    ("variable that is none", FREE, FREE.replace("PRECISION SUPPLY", '¦"{serail}"') + "variables: {serial: {example: x}}\n", "spec-lettering.unknown-brace-name", "Did you mean 'serial'"),
    ("code that holds no text", FREE, FREE + "art:\n  - {code: code-128, text: ¦Größe, at: [200, 90]}\n", "spec-marking.code-unmade", "another code"),
    ("code of no kind", FREE, FREE + "art:\n  - {code: ¦qt, text: A, at: [200, 90]}\n", "'qt'", "qr"),
    ("waiver until some day", WAIVER, "  - {rule: a, on: RV1, why: b, until: ¦2027-1-31}\n", "'2027-1-31'", "YYYY-MM-DD"),
    ("waiver until no day", WAIVER, "  - {rule: a, on: RV1, why: b, until: ¦2027-02-30}\n", "2027-02-30 is not a date of the calendar", "calendar"),
    ("waiver without reason", WAIVER, "  - ¦{rule: a, on: RV1}\n", "Required key 'why' is missing in waiver", "text"),
    ("waiver on nobody", "on: RV1", "on: ¦RV9", "names 'RV9', which is not on the panel", "'RV1'"),
    ("waiver on a mapping", "on: RV1", "on: ¦{a: 1}", "a mapping with 'a'", "list of refs"),
    # --- part files
    ("part file missing", "parts:\n", "catalogue: [¦none.yaml]\nparts:\n", "Cannot read the part file 'none.yaml': no such file or directory", "relative to the spec"),
    ("part file absolute", "parts:\n", "catalogue: [¦/a/b.yaml]\nparts:\n", "File name '/a/b.yaml' is not relative", "relative to the spec"),
]  # fmt: skip


def _marked(text: str) -> tuple[str, tuple[int, int] | None]:
    """The text without the mark, and the line and column where it stood, from 1."""
    before, mark, after = text.partition(MARK)
    if not mark:
        return text, None
    return before + after, (before.count("\n") + 1, len(before) - before.rfind("\n"))


def _problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(SpecError) as caught:
        panel_from_text(text)
    return caught.value.problems


def test_the_good_spec_is_good() -> None:
    assert [part.ref for part in panel_from_text(GOOD).parts] == ["S1", "RV1", "J1", "J2", "J3"]


def test_there_are_many_cases_and_each_changes_the_good_spec_once() -> None:
    assert len(CASES) >= 120
    assert len({name for name, *_ in CASES}) == len(CASES)
    assert [name for name, old, *_ in CASES if old not in GOOD] == []


@pytest.mark.parametrize(
    ("old", "new", "message", "hint"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)
def test_bad_spec(old: str, new: str, message: str, hint: str) -> None:
    text, place = _marked(GOOD.replace(old, new, 1))
    problems = _problems(text)
    assert len(problems) == 1, "\n".join(map(str, problems))
    (problem,) = problems
    assert message in ids_of(problem.says) or message in problem.message
    assert hint in ids_of(problem.accepts) or hint in problem.hint
    if place is not None:
        assert (problem.where.line, problem.where.column) == place, str(problem)
    assert problem.where.file == "panel.yaml"


@pytest.mark.parametrize(
    ("data", "place", "message"),
    [
        (b"", (1, 1), "empty"),
        (b"# only a remark\n", (1, 1), "empty"),
        (b"- a\n- b\n", (1, 1), "list [a, b]"),
        (b"just words\n", (1, 1), "'just words'"),
        (b"panelart: 1\ntitle: Stra\xdfe\n", (2, 12), "0xDF is not valid UTF-8"),
        (b"\xef\xbb\xbfpanelart: \xc3\xa4\xff\n", (1, 12), "0xFF is not valid UTF-8"),
        ("panelart: 1\n".encode("utf-16"), (1, 1), "UTF-16"),
        (b"panelart: 1\r\npanel: [1\r\n", (3, 1), "opens at 2:8"),
        (b"\0", (1, 1), "U+0000"),
        (b"x" * 1_000_001, (1, 1), "1000001 bytes"),
    ],
)
def test_bad_bytes(data: bytes, place: tuple[int, int], message: str) -> None:
    with pytest.raises(SpecError) as caught:
        panel_from_text(data)
    (problem,) = caught.value.problems
    assert (problem.where.line, problem.where.column) == place
    assert message in problem.message
    assert problem.hint


def test_all_problems_at_once_sorted_by_place() -> None:
    text = GOOD
    expected = []
    for old, new in [
        (SIZE, "  size: 260\n"),
        ("thickness: 2}", "thickness: 0}"),
        ("digital-print", "digital_print"),
        ("part: toggle-12", "part: togle-12"),
        ("major: 5", "major: 70"),
        ('"OUT {n}"', '"OUT {m}"'),
        ("[J1, J2, J3]", "[J1, J9]"),
        ("anchor: centre", "anchor: center"),
        ("on: RV1", "on: RV3"),
    ]:
        text = text.replace(old, new, 1)
        expected.append(new)
    problems = _problems(text)
    assert [problem.where.line for problem in problems] == [5, 7, 10, 14, 19, 22, 24, 26, 30]
    assert list(problems) == sorted(problems, key=lambda problem: problem.where)


def test_what_could_not_be_read_brings_no_further_problems() -> None:
    """A ref that cannot be read is not missed in frames; a part that is not known is not missed by its neighbours."""
    text = GOOD.replace('ref: "J{n}"', "ref: []").replace("part: pot-m10", "part: nothing-like-it")
    lines = sorted(problem.where.line for problem in _problems(text))
    assert lines == [16, 22]


def test_a_second_part_of_one_ref_is_looked_at_too() -> None:
    second = "  - {ref: S1, part: toggle-12, at: [9, 9], knob: {diameter: 9, height: 9}}\n"
    problems = _problems(GOOD.replace(SWITCH, SWITCH + second, 1))
    assert [problem.where[1:3] for problem in problems] == [(15, 11), (15, 50)]


def test_a_slip_in_a_marking_leaves_the_legends_checked() -> None:
    text = GOOD.replace("process: digital-print", "process: print").replace("legend: OUTPUT", 'legend: "{n}"')
    assert [problem.where.line for problem in _problems(text)] == [10, 14]


def test_a_spec_that_is_not_there(tmp_path: Path) -> None:
    for path in (tmp_path / "none.yaml", tmp_path):
        with pytest.raises(SpecError) as caught:
            read_panel(path)
        (problem,) = caught.value.problems
        assert problem.where[:3] == (path.as_posix(), 1, 1)
        assert problem.says.id == "spec.spec-unreadable"


def test_problems_in_a_part_file_point_into_that_file(tmp_path: Path) -> None:
    (tmp_path / "own.yaml").write_text("panelart-catalogue: 1\nparts:\n  own-1: {titel: x, openings: []}\n", "utf-8")
    spec = tmp_path / "panel.yaml"
    spec.write_text(GOOD.replace("parts:\n", "catalogue: [own.yaml]\nparts:\n", 1), "utf-8")
    with pytest.raises(SpecError) as caught:
        read_panel(spec)
    assert {Path(problem.where.file).name for problem in caught.value.problems} == {"own.yaml"}
    assert (3, 11) in [(problem.where.line, problem.where.column) for problem in caught.value.problems]


def test_messages_are_the_same_whatever_the_hash_seed() -> None:
    program = (
        "import sys\nfrom panelart.spec.read import panel_from_text\n"
        "try: panel_from_text(sys.stdin.read())\nexcept Exception as error: print(error)"
    )
    text = GOOD.replace("toggle-12", "togle").replace("panelart: 1\n", "").replace("[J1, J2, J3]", "[K, L]")
    said = [
        subprocess.run(
            [sys.executable, "-c", program],
            input=text,
            capture_output=True,
            text=True,
            check=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": "."},
            cwd=Path(__file__).parents[2],
        ).stdout
        for seed in ("1", "2")
    ]
    assert said[0] == said[1]
    assert "togle" in said[0]


def test_a_table_without_a_readable_pair_is_told_pair_by_pair():
    problems = _problems(GOOD.replace(SCALE, "    scale: {from: 0, to: 10, major: 5, table: [1, 2]}\n", 1))
    assert [problem.accepts.english for problem in problems] == ["Accepted: [value, share]"] * 2
