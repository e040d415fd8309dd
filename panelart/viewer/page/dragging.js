// The hand on the panel: choose, drag, nudge; live clearances while a part is on its way.

import { apart, around, figure, gap, moved } from "./measures.js";
import { settled } from "./parts.js";
import { said } from "./said.js";
import { snapped } from "./snapping.js";
import { shape } from "./stage.js";

const NEIGHBOURS = 4;
const START = 4;

/** @typedef {import("./measures.js").Point} Point */

/** Draws what can be taken in hand, and follows the pointer. */
export class Dragging {
  /**
   * @param {import("./stage.js").Stage} stage
   * @param {{scene: () => any, refs: () => string[], choose: (refs: string[]) => void, change: (asked: any) => void,
   *   mayEdit: () => boolean, mayMove: (refs: string[]) => boolean, grid: () => number, pick: (at: Point) => boolean,
   *   over: (at: Point | null) => void}} page
   */
  constructor(stage, page) {
    this.stage = stage;
    this.page = page;
    this.parts = shape("g", { id: "parts-in-hand" }, stage.overlay);
    this.guides = shape("g", { id: "guides", "pointer-events": "none" }, stage.overlay);
    /** @type {{start: {clientX: number, clientY: number}, at: Point, kind: string, refs: string[], legend?: any, by: Point, going: boolean} | null} */
    this.held = null;
    /** @type {Map<number, PointerEvent>} what touches the drawing, where it was last */
    this.fingers = new Map();
    /** @type {Point[]} where the signs with clearances stand */
    this.signs = [];
    /** @type {Point} */
    this.nudged = [0, 0];
    /** @type {string[]} what the arrow keys have moved and not yet sent */
    this.nudgedRefs = [];
    this.sendNudge = settled(() => this.#putNudged(), 350);
    const svg = stage.svg;
    svg.addEventListener("pointerdown", (event) => this.#down(event));
    svg.addEventListener("pointermove", (event) => this.#move(event));
    svg.addEventListener("pointerup", (event) => this.#up(event));
    svg.addEventListener("pointercancel", (event) => (this.fingers.delete(event.pointerId), this.stop()));
    svg.addEventListener("pointerleave", () => page.over(null));
  }

  /** Everything that can be chosen, anew. @param {boolean} shown */
  draw(shown) {
    this.#letGo();
    const focused = document.activeElement?.closest?.("[data-key]")?.getAttribute("data-key");
    this.parts.replaceChildren();
    if (!shown) return;
    const scene = this.page.scene();
    const chosen = new Set(this.page.refs());
    for (const legend of scene.legends) {
      if (!["name", "position"].includes(legend.style) && !legend.free) continue;
      const [left, bottom, right, top] = legend.box;
      const kind = legend.style === "position" ? "words still" : "words";
      const words = { text: legend.text.replaceAll("\n", " "), ref: legend.ref };
      const label = said(legend.free ? "page-parts.free-legend-label" : "page-parts.legend-label", words);
      const node = shape("g", { class: kind, "data-key": `legend ${legend.id}`, "data-legend": legend.id, role: "img", "aria-label": label }, this.parts);
      shape("rect", { class: "hit", x: left - 0.4, y: bottom - 0.4, width: right - left + 0.8, height: top - bottom + 0.8, rx: 0.4 }, node);
    }
    for (const part of scene.parts) {
      const [x, y] = part.at.map((/** @type {number} */ v, /** @type {number} */ i) => figure(v - scene.datum[i]));
      const words = { ref: part.ref, legend: part.legend.replaceAll("\n", " "), title: part.title, x, y };
      const label = said(part.legend ? "page-parts.part-with-legend-label" : "page-parts.part-label", words);
      const node = shape("g", { class: `part${chosen.has(part.ref) ? " chosen" : ""}`, "data-key": part.ref, "data-ref": part.ref, tabindex: 0, role: "button", "aria-pressed": String(chosen.has(part.ref)), "aria-label": label }, this.parts);
      for (const ring of part.outlines) shape("path", { class: "hit", d: `M${ring.map((/** @type {number[]} */ p) => p.join(" ")).join("L")}Z` }, node);
    }
    const again = focused && [...this.parts.children].find((node) => node.getAttribute("data-key") === focused);
    if (again instanceof SVGElement) again.focus({ preventScroll: true });
    if (this.nudged.some(Boolean)) this.#carry(this.nudgedRefs, this.nudged, null, {});
  }

  /** Lets go of everything, nothing changed. */
  stop() {
    this.nudged = [0, 0];
    this.#letGo();
  }

  #letGo() {
    this.held = null;
    this.guides.replaceChildren();
    for (const node of this.parts.querySelectorAll(".moving")) {
      node.classList.remove("moving");
      node.removeAttribute("transform");
    }
  }

  /** @param {PointerEvent} event */
  #down(event) {
    if (event.button > 1) return;
    const at = this.stage.at(event);
    this.fingers.set(event.pointerId, event);
    if (this.fingers.size > 1) {
      this.stop();
      return;
    }
    if (event.button === 0 && this.page.pick(at)) return;
    const node = event.button === 0 ? /** @type {Element} */ (event.target).closest?.("[data-key]") : null;
    this.stage.svg.setPointerCapture(event.pointerId);
    const start = { clientX: event.clientX, clientY: event.clientY };
    const ref = node?.getAttribute("data-ref");
    if (ref) {
      const before = this.page.refs();
      const more = event.shiftKey || event.ctrlKey || event.metaKey;
      const refs = more ? (before.includes(ref) ? before.filter((one) => one !== ref) : [...before, ref]) : before.includes(ref) ? before : [ref];
      this.page.choose(refs);
      this.held = { start, at, kind: "parts", refs: refs.includes(ref) ? [ref, ...refs.filter((one) => one !== ref)] : refs, by: [0, 0], going: false };
      return;
    }
    const legend = node && this.page.scene().legends[Number(node.getAttribute("data-legend"))];
    if (legend?.free) {
      this.page.choose([]);
      this.held = { start, at, kind: "text", refs: [], legend, by: [0, 0], going: false };
      return;
    }
    if (legend) {
      this.page.choose([legend.ref]);
      if (legend.style !== "name") return;
      this.held = { start, at, kind: "legend", refs: [legend.ref], legend, by: [0, 0], going: false };
      return;
    }
    this.held = { start, at, kind: "paper", refs: [], by: [0, 0], going: false };
  }

  /** @param {PointerEvent} event */
  #move(event) {
    if (this.fingers.size > 1) {
      this.#pinch(event);
      return;
    }
    const at = this.stage.at(event);
    this.page.over(at);
    const held = this.held;
    if (!held) return;
    const [dx, dy] = [event.clientX - held.start.clientX, event.clientY - held.start.clientY];
    if (!held.going && Math.hypot(dx, dy) < START) return;
    if (held.kind === "paper") {
      held.going = true;
      held.start = { clientX: event.clientX, clientY: event.clientY };
      this.stage.pan(dx, dy);
      return;
    }
    if (!this.page.mayEdit() || !(held.refs.length || held.kind === "text")) return;
    if (!held.going && !this.page.mayMove(held.refs)) {
      this.held = null;
      return;
    }
    held.going = true;
    const by = /** @type {Point} */ ([at[0] - held.at[0], at[1] - held.at[1]]);
    if (held.kind === "legend") this.#carryLegend(held, by, 0.1);
    else if (held.kind === "text") this.#carryLegend(held, by, event.altKey ? 0.1 : this.page.grid() || 0.1);
    else this.#carry(held.refs, by, event.altKey ? null : this.page.grid(), held);
  }

  /** @param {PointerEvent} event */
  #up(event) {
    this.fingers.delete(event.pointerId);
    const held = this.held;
    this.held = null;
    if (!held) return;
    if (held.kind === "paper" && !held.going && !event.shiftKey) this.page.choose([]);
    if (held.going && held.kind === "parts") this.#drop(held.refs, held.by);
    if (held.going && held.kind === "text") {
      this.guides.replaceChildren();
      if (held.by.some(Boolean)) this.page.change({ do: "text-move", text: held.legend.free, by: held.by });
    }
    if (held.going && held.kind === "legend") {
      const { box, baseline } = held.legend;
      this.guides.replaceChildren();
      this.page.change({ do: "legend-at", refs: held.refs, at: [(box[0] + box[2]) / 2 + held.by[0], baseline + held.by[1]] });
    }
  }

  /** Two fingers: what is between them stays between them. @param {PointerEvent} event */
  #pinch(event) {
    const before = this.fingers.get(event.pointerId);
    const other = [...this.fingers.values()].find((one) => one.pointerId !== event.pointerId);
    if (!before || !other) return;
    const apart = (/** @type {PointerEvent} */ one) => Math.max(Math.hypot(one.clientX - other.clientX, one.clientY - other.clientY), 10);
    const middle = { clientX: (event.clientX + other.clientX) / 2, clientY: (event.clientY + other.clientY) / 2 };
    this.stage.pan((event.clientX - before.clientX) / 2, (event.clientY - before.clientY) / 2);
    this.stage.zoom(apart(event) / apart(before), this.stage.at(middle));
    this.fingers.set(event.pointerId, event);
  }

  /** @param {any} held @param {Point} by @param {number} step in mm */
  #carryLegend(held, by, step) {
    held.by = by.map((value) => Math.round(Math.round(value / step) * step * 1000) / 1000);
    const [left, bottom, right, top] = moved(held.legend.box, held.by);
    this.guides.replaceChildren();
    shape("rect", { class: "guide", x: left, y: bottom, width: right - left, height: top - bottom }, this.guides);
  }

  /** @param {string[]} refs @param {Point} by @param {number | null} grid null: nothing draws it @param {any} held */
  #carry(refs, by, grid, held) {
    const scene = this.page.scene();
    const mine = scene.parts.filter((/** @type {any} */ part) => refs.includes(part.ref) && part.box);
    const others = scene.parts.filter((/** @type {any} */ part) => !refs.includes(part.ref) && part.box);
    if (!mine.length) return;
    const lead = mine.find((/** @type {any} */ part) => part.ref === refs[0]) ?? mine[0];
    const fromDatum = (/** @type {any} */ part) => part.at.map((/** @type {number} */ v, /** @type {number} */ i) => v - scene.datum[i]);
    const box = around(mine.map((/** @type {any} */ part) => part.box));
    const near = others.map((/** @type {any} */ part) => ({ box: part.box, at: fromDatum(part) }));
    const rest = grid === null ? { by, lines: {} } : snapped(lead.box, fromDatum(lead), by, near, { grid, reach: 6 / this.stage.view.scale });
    held.by = rest.by;
    for (const node of this.parts.children) {
      if (!refs.includes(node.getAttribute("data-ref") ?? "")) continue;
      node.classList.add("moving");
      node.setAttribute("transform", `translate(${rest.by[0]} ${rest.by[1]})`);
    }
    this.guides.replaceChildren();
    const [left, bottom, right, top] = scene.face;
    if (rest.lines.x !== undefined) shape("path", { class: "guide", d: `M${rest.lines.x + scene.datum[0]} ${bottom}V${top}` }, this.guides);
    if (rest.lines.y !== undefined) shape("path", { class: "guide", d: `M${left} ${rest.lines.y + scene.datum[1]}H${right}` }, this.guides);
    this.#clearances(mine, others, rest.by, moved(box, rest.by), scene.face);
    this.page.over(/** @type {Point} */ ([lead.at[0] + rest.by[0], lead.at[1] + rest.by[1]]));
  }

  /** @param {any[]} mine @param {any[]} others @param {Point} by @param {any} box @param {number[]} face */
  #clearances(mine, others, by, box, face) {
    this.signs = [];
    const outlines = mine.flatMap((part) => part.outlines.map((/** @type {Point[]} */ ring) => ring.map(([x, y]) => [x + by[0], y + by[1]])));
    const nearest = others
      .map((part) => ({ part, far: apart(box, part.box) }))
      .sort((a, b) => a.far - b.far)
      .slice(0, NEIGHBOURS);
    for (const { part } of nearest) {
      const gaps = outlines.flatMap((one) => part.outlines.map((/** @type {Point[]} */ other) => gap(one, other)));
      const least = gaps.sort((a, b) => a.length - b.length)[0];
      if (least) this.#told(least.from, least.to, least.length);
    }
    const [x, y] = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
    /** @type {[number, Point, Point][]} */
    const edges = [
      [box[0] - face[0], [box[0], y], [face[0], y]],
      [face[2] - box[2], [box[2], y], [face[2], y]],
      [box[1] - face[1], [x, box[1]], [x, face[1]]],
      [face[3] - box[3], [x, box[3]], [x, face[3]]],
    ];
    const [length, from, to] = edges.sort((a, b) => a[0] - b[0])[0];
    this.#told(from, to, length);
  }

  /** @param {Point} from @param {Point} to @param {number} length */
  #told(from, to, length) {
    shape("path", { class: "gap", d: `M${from[0]} ${from[1]}L${to[0]} ${to[1]}` }, this.guides);
    const { scale } = this.stage.view;
    const along = (/** @type {number} */ share) => /** @type {Point} */ ([from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]);
    const clear = (/** @type {Point} */ at) => this.signs.every(([x, y]) => Math.abs(x - at[0]) * scale > 48 || Math.abs(y - at[1]) * scale > 20);
    const at = [0.5, 0.7, 0.3, 0.85, 0.15, 1].map(along).find(clear);
    if (!at) return;
    this.signs.push(at);
    tag(this.guides, at, figure(length), scale);
  }

  /** @param {string[]} refs @param {Point} by */
  #drop(refs, by) {
    this.nudged = [0, 0];
    if (refs.length && (Math.abs(by[0]) > 5e-4 || Math.abs(by[1]) > 5e-4)) this.page.change({ do: "move", refs, by });
    else this.stop();
  }

  #putNudged() {
    if (this.nudged.some(Boolean)) this.#drop(this.nudgedRefs, this.nudged);
  }

  /** One step with an arrow key; what comes quickly one after another is one change. @param {Point} step */
  nudge(step) {
    const refs = this.page.refs();
    if (!refs.length || !this.page.mayEdit() || !this.page.mayMove(refs)) return;
    if (refs.join("\n") !== this.nudgedRefs.join("\n")) this.#putNudged();
    this.nudgedRefs = refs;
    this.nudged = [this.nudged[0] + step[0], this.nudged[1] + step[1]];
    this.#carry(refs, this.nudged, null, {});
    this.sendNudge();
  }
}

/** A number on a small sign that keeps its size on screen. @param {Element} into @param {Point} at @param {string} words @param {number} scale */
export function tag(into, at, words, scale) {
  const node = shape("g", { class: "tag", transform: `translate(${at[0]} ${at[1]}) scale(${1 / scale} ${-1 / scale})` }, into);
  const width = words.length * 7 + 8;
  shape("rect", { x: -width / 2, y: -9, width, height: 18, rx: 4 }, node);
  shape("text", { "font-size": 12 }, node).textContent = words;
}
