// Dimensions between any two features: centres, edges and corners that a point is near.

import { figure } from "./measures.js";
import { tag } from "./dragging.js";
import { said } from "./said.js";
import { shape } from "./stage.js";

/** @typedef {import("./measures.js").Point} Point */

/** The feature nearest to a point, the point itself where none is near. @param {any} scene @param {Point} at @param {number} reach @returns {{at: Point, what: string}} */
export function feature(scene, at, reach) {
  const [left, bottom, right, top] = scene.face;
  /** @type {{at: Point, what: string}[]} */
  const all = [
    { at: [left, bottom], what: said("page-parts.corner-lower-left") },
    { at: [right, bottom], what: said("page-parts.corner-lower-right") },
    { at: [left, top], what: said("page-parts.corner-upper-left") },
    { at: [right, top], what: said("page-parts.corner-upper-right") },
    { at: scene.datum, what: said("page-parts.datum") },
  ];
  for (const part of scene.parts) {
    all.push({ at: part.at, what: said("page-parts.centre-of", part) });
    if (!part.box) continue;
    const [x, y] = [(part.box[0] + part.box[2]) / 2, (part.box[1] + part.box[3]) / 2];
    all.push({ at: [part.box[0], y], what: said("page-parts.left-of", part) }, { at: [part.box[2], y], what: said("page-parts.right-of", part) });
    all.push({ at: [x, part.box[1]], what: said("page-parts.bottom-of", part) }, { at: [x, part.box[3]], what: said("page-parts.top-of", part) });
  }
  for (const legend of scene.legends) {
    const [l, b, r, t] = legend.box;
    const what = said("page-parts.free-legend", { text: legend.text.replaceAll("\n", " ") });
    all.push({ at: [l, b], what }, { at: [r, b], what }, { at: [l, t], what }, { at: [r, t], what });
  }
  const far = (/** @type {{at: Point}} */ one) => Math.hypot(one.at[0] - at[0], one.at[1] - at[1]);
  const best = all.reduce((a, b) => (far(b) < far(a) ? b : a));
  if (far(best) <= reach) return best;
  /** @type {[number, Point, string][]} */
  const edges = [
    [Math.abs(at[0] - left), [left, at[1]], said("page-parts.edge-left")],
    [Math.abs(at[0] - right), [right, at[1]], said("page-parts.edge-right")],
    [Math.abs(at[1] - bottom), [at[0], bottom], said("page-parts.edge-bottom")],
    [Math.abs(at[1] - top), [at[0], top], said("page-parts.edge-top")],
  ];
  const [off, on, what] = edges.sort((a, b) => a[0] - b[0])[0];
  return off <= reach ? { at: on, what } : { at, what: said("page-parts.point") };
}

/** Two features and what lies between them. */
export class Measure {
  /** @param {import("./stage.js").Stage} stage @param {(words: string) => void} tell */
  constructor(stage, tell) {
    this.stage = stage;
    this.tell = tell;
    this.layer = shape("g", { id: "measure-lines", "pointer-events": "none" }, stage.overlay);
    this.on = false;
    /** @type {{at: Point, what: string}[]} */
    this.ends = [];
  }

  /** @param {boolean} on */
  set(on) {
    this.on = on;
    this.ends = [];
    this.draw();
    this.tell(on ? said("page-parts.select-two-features") : "");
  }

  /** @param {any} scene @param {Point} at */
  pick(scene, at) {
    if (this.ends.length === 2) this.ends = [];
    this.ends.push(feature(scene, at, 10 / this.stage.view.scale));
    this.draw();
    if (this.ends.length < 2) {
      this.tell(said("page-parts.measured-from", { feature: this.ends[0].what }));
      return;
    }
    const [from, to] = this.ends;
    const [dx, dy] = [to.at[0] - from.at[0], to.at[1] - from.at[1]];
    const distance = figure(Math.hypot(dx, dy));
    this.tell(said("page-parts.distance", { start: from.what, end: to.what, distance, x: figure(dx), y: figure(dy) }));
  }

  draw() {
    this.layer.replaceChildren();
    const scale = this.stage.view.scale;
    for (const { at } of this.ends) shape("circle", { class: "guide", cx: at[0], cy: at[1], r: 5 / scale }, this.layer);
    if (this.ends.length < 2) return;
    const [from, to] = this.ends.map((one) => one.at);
    shape("path", { class: "gap", d: `M${from[0]} ${from[1]}L${to[0]} ${to[1]}` }, this.layer);
    shape("path", { class: "guide", "stroke-dasharray": "4 3", d: `M${from[0]} ${from[1]}H${to[0]}V${to[1]}` }, this.layer);
    tag(this.layer, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], figure(Math.hypot(to[0] - from[0], to[1] - from[1])), scale);
  }
}
