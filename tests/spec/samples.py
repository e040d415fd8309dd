"""Good specs that the tests change: a plain one, and one with every key of the language."""

from __future__ import annotations

from panelart.messages import Message, Said


def ids_of(said: Said) -> tuple[str, ...]:
    """The ids of a message and of the messages within it, outermost first."""
    if not isinstance(said, Message):
        return ()
    return (said.id, *(id_ for _, value in said.arguments for id_ in ids_of(value)))


GOOD = """\
panelart: 1
panel:
  title: Bench supply, front
  number: BS-210-01
  size: [260, 110]
  corner: 3
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: powder, thickness: 0.08, colour: "#2A2E33"}
marking:
  process: digital-print
  ink: {name: white, colour: "#F2F2EE"}
  lettering: {cap_height: 3, case: upper}
parts:
  - {ref: S1, part: toggle-12, at: [30, 55], legend: OUTPUT, positions: {up: ON, down: OFF}}
  - ref: RV1
    part: pot-m10
    at: [95, 55]
    knob: {diameter: 24, height: 16}
    scale: {from: 0, to: 30, unit: V, major: 5, minor: 1}
  - repeat: {count: 3, step: [25, 0]}
    parts:
      - {ref: "J{n}", part: socket-4, at: [160, 30], legend: "OUT {n}"}
frames:
  - {around: [J1, J2, J3], title: OUTPUTS}
texts:
  - {text: PRECISION SUPPLY, at: [130, 100], anchor: centre}
keepouts:
  - {area: {rectangle: [5, 5, 20, 8]}, side: rear, why: bracket}
waivers:
  - {rule: legend-too-small, on: RV1, why: read only when setting up}
"""

EVERYTHING = """\
panelart: 1
panel:
  title: 2024
  number: 010
  revision: true
  revised: 2026-03-14
  size: {rack: 2}
  corner: 0.5 mm
  sheet: {material: steel, thickness: 60 thou}
  coat: {kind: anodise, thickness: {minimum: 0.008, maximum: 0.012}, growth: 0.5, faces: front, allowance: shop,
    colour: "#101010", name: black}
  flanges:
    top: {length: 15, angle: 90 deg, radius: 1.5, inset: [5, 6], corner: 2,
      holes: [{ref: F1, at: [0, 8], part: screw-m4}, {ref: F2, at: [20, 8], diameter: 4},
        {ref: F3, at: [40, 8], slot: [8, 4]}, {ref: F4, at: [60, 8], rectangle: [8, 4]}],
      return: {length: 10, towards: out, angle: 90, radius: 1.5, holes: []}}
    bottom: 15
    left: 15
    right: 15
  bending: {radius: 1.5, k: 0.4, die: 12, relief: {shape: round, width: 2, depth: 2},
    corner_relief: {shape: round, depth: 2}}
  datum: [241.3, 0.5 in]
  depth_behind: 150
  depth_in_front: 200
marking:
  process: engraving
  inks: [{name: white, colour: "#FFFFFF"}, {name: red, colour: "#C02020"}]
  lettering: {font: {weight: bold}, cap_height: 9 pt, case: as-written, text: live, fallback: [plain], tracking: 0.1,
    ligatures: true, zero: slashed, language: de-CH, hyphenate: [de, fr], direction: left-to-right, line_pitch: 1.6,
    styles: {note: {font: plain, cap_height: 2, case: upper, ink: red}, title: {}, position: {}, numeral: {}, name: {}}}
  viewing_distance: 1000
  mark_sizes: grandjean
  register: 0.2
  cutter: 0.2
  engraving: {depth: 0.3, fill: hatch, overlap: 30, angle: 45}
  placing: {above: 0, below: 8, right: 14, left: 18, wrap: 3, slide: 3, overhang: 5, step_off: 1, ambiguous: 6,
    other_side: 10, other_line: 4, other_form: 10, spacing: 2, group_side: 6, balance: 1, moved: 2, corner: 1,
    tight: 2, narrow: 3, hyphenated: 4, parted: 1, staggered: 3, between: 5,
    leader: 6, clearance: 0.5, gap: 0.5, white: 0.35, beside: 1}
operator:
  eye: {distance: 650, height: [-50, 400], aside: [-200, 200], lean: 15, apart: 60}
  sight: {acuity: 0.5, age: 45, illuminance: 300}
  hand: gloved
parts:
  - {ref: S1, part: toggle-12-3pos, at: [0, 10], turn: 90, fixed: true, pin_1: [1, 2],
     legend: {text: A, place: above, align: left, offset: [0, 1], guide: 2,
     cap_height: 4, ink: red, style: note, font: {width: narrow}, case: upper, reversed: {radius: 1, padding: 1.5}},
     positions: {up: 1, centre: OFF, down: 2}}
  - {ref: S2, part: selector-22, at: {from: S1, by: [60, 0]},
     positions: {texts: [A, {symbol: ac, height: 3, ink: red}, C], index: 45}}
  - {ref: S3, part: selector-22, at: {from: S2, by: [60, 0]}, positions: {texts: [A, B], angles: [-45, 45],
     ranges: [{of: 2, unit: V}]}}
  - {ref: S4, part: selector-22, at: {from: S3, by: [60, 0]}, positions: {texts: [A, B, C], index: 60}}
  - {ref: RV1, part: pot-m10, at: [-200, 10], knob: {diameter: 20, height: 15},
     scale: [{from: -1, to: 1, unit: dB, law: {taper: 20}, major: 0.5, intermediate: 0.25, minor: 0.05, sweep: 270,
     start: 225, direction: clockwise, numerals: [-1, 0, 1], reading: tangential, words: {-1: MIN, 1: {symbol: plus}},
     wedge: true, zones: [{from: 0, to: 1, ink: red}], detents: [0]},
     {from: 0, to: 10, marks: [0, 10], table: [[0, 0], [5, 0.2], [10, 1]], arc: own}]}
  - {ref: RV2, part: fader-30, at: [-120, 45], scale: {from: 10, to: -10, major: 5, length: 30, side: left,
     signed: true, subdivide: false, law: decibel, rest: x, multiplier: 10}}
  - {ref: RV4, part: pot-m10, at: [-200, 60], knob: {diameter: 20, height: 15},
     scale: {from: 0, to: 10, major: 5, minor: 0.25, sweep: 270,
     skirt: {grip: 12, height: 3, index: 90, vernier: true}}}
  - {ref: RV5, part: pot-9-shaft-board, at: [-30, 45],
     scale: {from: 0, to: 10, major: 5, sweep: 270, disc: {diameter: 30, window: [8, 6], depth: 3}}}
  - {ref: RV3, part: window-60x25, at: [-60, 45],
     scale: {from: 0, to: 10, major: 5, length: 30, cursor: 1, law: {formula: 2*v}}}
  - repeat: {count: 2, step: [0, 20], start: 0, as: row}
    parts:
      - repeat: {count: 3, step: [20, 0]}
        parts:
          - {ref: "H{row}{n}", part: led-5, at: [-150, 10], legend: "{{{n}}}"}
  - {ref: H, part: led-5, at: [-100, 10], legend: {symbol: lamp, place: below}}
  - row: {at: {x: {from: right-edge, by: -30}, y: {below: top-edge, gap: 20}}, gap: 2, anchor: last, align: top,
      envelopes: both}
    parts:
      - repeat: {count: 2, start: A, as: k}
        parts: [{ref: "K{k}", part: led-5}]
  - column: {at: {x: {left_of: KA, gap: 5}, y: {above: bottom-edge, gap: 30}}, pitch: 10, align: left}
    parts: [{ref: K1, part: led-5}, {ref: K2, part: led-3}]
  - grid: {at: {x: 60, y: 5}, columns: 2, rows: 2, pitch: [10, 10], order: columns, anchor: middle,
      numbers: {columns: 1, rows: [A, B], columns_side: below, rows_side: both, style: note}}
    parts: [{ref: M1, part: led-3}, {ref: M2, part: led-3}, {ref: M3, part: led-3}, {ref: M4, part: led-3}]
  - ring: {at: [100, 30], diameter: 20, start: 90, sweep: 180, direction: counter-clockwise, facing: out}
    parts: [{ref: R1, part: led-3}, {ref: R2, part: led-3}]
  - distribute: {between: [R1, KA], by: gaps}
    parts: [{ref: D1, part: led-3}]
  - mirror: {x: {right_of: KB, gap: 6}, names: [L, R], as: side}
    parts: [{ref: "N{side}", part: led-3, at: [210, 0]}]
  - mirror: {y: 20}
    parts: [{ref: "O{n}", part: led-3, at: [160, 0]}]
  - {module: lamp, at: [190, 0], turn: 90, mirrored: left-right, prefix: "U-", with: {d: 4}}
modules:
  lamp:
    parameters:
      {d: {type: length, default: 2}, name: {type: text, default: "{d} V"}, kind: {type: part, default: led-3}}
    parts: [{ref: H, part: "{kind}", at: ["{d}", 0], legend: "{name}"}]
frames:
  - {around: [S1], title: {text: A, align: left, cap_height: 4, ink: red,
     style: name}, margin: 4, form: bracket, side: bottom, corner: 1, ticks: members}
  - {around: [S2]}
texts:
  - {text: "A\\nB", at: [0, 50], cap_height: 5, anchor: right, turn: 90, ink: red, style: note, ranging: left,
     reversed: true}
  - {text: "U{sub in}", at: [0, 20], arc: {radius: 12, middle: -90, feet: outward}}
  - {symbol: earth, at: [20, 50], height: 6, anchor: centre, turn: 90}
lines:
  - {from: S1, to: S2, leave: above, enter: below, arrow: both, width: 0.5, ink: red}
art:
  - {rule: [[0, 45], [10, 45]], width: 0.5, ink: red}
  - {box: [20, 60, 10, 5], corner: 1, filled: true}
  - {mark: triangle, at: {from: S1, by: [5, 5]}, size: 2, turn: 90}
  - {code: qr, text: "{serial}", at: [-180, 40], module: 0.5, turn: 90, reversed: true, ink: red}
boards:
  - {name: main, parts: [H, K1], gap: 9, spacers: {H: 1}, heights: {H: 8, K1: 9}}
keepouts:
  - {area: {circle: [0, 50, 3]}, why: a}
  - area: {polygon: [[0, 0], [1, 0], [0, 1]]}
    side: front
    why: >-
      two
      lines
masks:
  - {area: {circle: [0, 20, 8]}, side: rear, why: bonding strap}
making: {cutting: mill, cutter: 3, relieve_corners: true, punches: [3.2, [10, 4], {slot: [12, 5]}],
  hanging: {on: bottom, diameter: 3, at: [20, 80]}, tolerance: f, quantity: 25, first_serial: A0007, grain: along,
  note: Protect the face with film., one_in: 370, position_error: 0.05}
variables:
  serial: {counter: {first: 1, step: 1, digits: 5, check: luhn, before: "A-", after: "/B"}}
  owner: {example: Hall 4}
languages: {de: {A: Ah}}
waivers:
  - {rule: a-rule, why: b}
  - {rule: a-rule, on: [S1, S2], why: b, until: 2027-01-31, by: R. Norrick}
"""

PRINTED = """\
panelart: 1
panel:
  title: Try
  size: [120, 60]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: powder, thickness: 0.08, colour: "#2B3036"}
marking:
  process: overlay
  inks: [{name: white, colour: "#FFFFFF"}, {name: blue, colour: "#1D4E9E"}, {name: amber, colour: "#F2A53A"}]
  base: {choke: 0.15, thin: none, under: [blue]}
  varnish: inks
  trap: 0.25
  backgrounds:
    - {ink: blue, tint: 80, area: {rectangle: [10, 10, 60, 20]}, edge: bleed, bleed: 1.5}
    - {ink: blue, to: {ink: amber, tint: 20}, run: 90, area: {circle: [90, 30, 20]}, edge: short}
    - {ink: amber, to: {tint: 0}, round: true}
  overlay: {inset: 1, corner: 3, nut_margin: 0.75, window_margin: 0.5, adhesive_margin: 1,
    adhesive_free: [{rectangle: [5, 5, 10, 10]}], colour: "#F0F0F0", reverse: true}
parts:
  - ref: S1
    part: toggle-12
    at: [30, 40]
    legend:
      - Power
      - {text: Versorgung, style: note, font: plain, cap_height: 2.5, case: upper, ink: white, tracking: 0.05,
         ligatures: true, zero: slashed, language: de, hyphenate: false, direction: left-to-right, ranging: left,
         line_pitch: 1.6}
"""

BURNT = """\
panelart: 1
panel: {title: Try, size: [60, 40], sheet: {material: stainless steel, thickness: 1}}
marking:
  process: laser-marking
  ink: {name: burnt, colour: "#202020"}
  laser: {spacing: 0.1, beam: 0.08, fill: raster, angle: 30}
texts: [{text: AB, at: [10, 10]}]
"""

CUT = """\
panelart: 1
panel: {title: Try, size: [60, 40], sheet: {material: brass, thickness: 2}}
marking:
  process: engraving
  ink: {name: black, colour: "#202020"}
  engraving: {cutters: [0.25, 0.5, 1 mm], depth: 0.25, fill: contour}
texts: [{text: AB, at: [10, 10]}]
"""

SCREENED = """\
panelart: 1
panel: {title: Try, size: [60, 40], sheet: {material: aluminium, thickness: 2}}
marking:
  process: screen-print
  ink: {name: black, colour: "#202020"}
  emulsion: down
texts: [{text: AB, at: [10, 10]}]
"""
