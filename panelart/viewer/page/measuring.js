// Dimensions between any two features: centres, edges and corners that a point is near.

import { figure } from "./measures.js";
import { tag } from "./hand.js";
import { shape } from "./stage.js";

/** @typedef {import("./measures.js").Point} Point */

/** The feature nearest to a point, the point itself where none is near. @param {any} scene @param {Point} at @param {number} reach @returns {{at: Point, what: string}} */
export function feature(scene, at, reach) {
  const [left, bottom, right, top] = scene.face;
  /** @type {{at: Point, what: string}[]} */
  const all = [
    { at: [left, bottom], what: "lower left corner" },
    { at: [right, bottom], what: "lower right corner" },
    { at: [left, top], what: "upper left corner" },
    { at: [right, top], what: "upper right corner" },
    { at: scene.datum, what: "datum" },
  ];
  for (const part of scene.parts) {
    all.push({ at: part.at, what: `centre of ${part.ref}` });
    if (!part.box) continue;
    const [x, y] = [(part.box[0] + part.box[2]) / 2, (part.box[1] + part.box[3]) / 2];
    all.push({ at: [part.box[0], y], what: `left of ${part.ref}` }, { at: [part.box[2], y], what: `right of ${part.ref}` });
    all.push({ at: [x, part.box[1]], what: `bottom of ${part.ref}` }, { at: [x, part.box[3]], what: `top of ${part.ref}` });
  }
  for (const legend of scene.legends) {
    const [l, b, r, t] = legend.box;
    const what = `“${legend.text.replaceAll("\n", " ")}”`;
    all.push({ at: [l, b], what }, { at: [r, b], what }, { at: [l, t], what }, { at: [r, t], what });
  }
  const far = (/** @type {{at: Point}} */ one) => Math.hypot(one.at[0] - at[0], one.at[1] - at[1]);
  const best = all.reduce((a, b) => (far(b) < far(a) ? b : a));
  if (far(best) <= reach) return best;
  /** @type {[number, Point, string][]} */
  const edges = [
    [Math.abs(at[0] - left), [left, at[1]], "left edge"],
    [Math.abs(at[0] - right), [right, at[1]], "right edge"],
    [Math.abs(at[1] - bottom), [at[0], bottom], "bottom edge"],
    [Math.abs(at[1] - top), [at[0], top], "top edge"],
  ];
  const [off, on, what] = edges.sort((a, b) => a[0] - b[0])[0];
  return off <= reach ? { at: on, what } : { at, what: "point" };
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
    this.tell(on ? "Choose two features" : "");
  }

  /** @param {any} scene @param {Point} at */
  pick(scene, at) {
    if (this.ends.length === 2) this.ends = [];
    this.ends.push(feature(scene, at, 10 / this.stage.view.scale));
    this.draw();
    if (this.ends.length < 2) {
      this.tell(`from ${this.ends[0].what} …`);
      return;
    }
    const [from, to] = this.ends;
    const [dx, dy] = [to.at[0] - from.at[0], to.at[1] - from.at[1]];
    this.tell(`${from.what} → ${to.what}: ${figure(Math.hypot(dx, dy))} mm (x ${figure(dx)}, y ${figure(dy)})`);
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
