// The drawing in its frame: pan and zoom, the overlay of parts, legends and findings, rulers.

import { figure } from "./measures.js";

const NS = "http://www.w3.org/2000/svg";

/** Lines of drawings that are thinner than this, in mm, are there to be seen and not to be laid down. */
const HAIRLINE = 0.12;

/** @param {string} name @param {Record<string, string | number>} [attributes] @param {Element | null} [into] */
export function shape(name, attributes = {}, into = null) {
  const node = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, String(value));
  into?.append(node);
  return node;
}

/** The svg element on the page, in millimetres of the drawing; a view box of its own says what is seen. */
export class Stage {
  /** @param {SVGSVGElement} svg @param {SVGSVGElement} rulerX @param {SVGSVGElement} rulerY */
  constructor(svg, rulerX, rulerY) {
    this.svg = svg;
    this.rulers = [rulerX, rulerY];
    this.drawing = shape("g", { id: "drawing" }, svg);
    this.overlay = shape("g", { id: "overlay" }, svg);
    /** @type {[number, number, number, number]} left, bottom, right, top of the page in panel mm */
    this.page = [0, 0, 100, 100];
    this.origin = [0, 0];
    this.view = { x: 0, y: 0, scale: 1 };
    this.whole = true;
    this.pointer = /** @type {[number, number] | null} */ (null);
    /** @type {() => void} */
    this.onView = () => undefined;
    new ResizeObserver(() => (this.whole ? this.fit() : this.refresh())).observe(svg);
    svg.addEventListener("wheel", (event) => this.#wheel(event), { passive: false });
  }

  /** @param {SVGSVGElement} drawn @param {number[]} page @param {number[]} origin @param {boolean} paper  white behind it */
  show(drawn, page, origin, paper) {
    const same = page.every((side, index) => Math.abs(side - this.page[index]) < 1e-6);
    this.page = /** @type {[number, number, number, number]} */ (page);
    this.origin = origin;
    const inner = shape("g");
    inner.append(...drawn.childNodes);
    const box = drawn.viewBox.baseVal;
    inner.setAttribute("transform", `translate(${page[0] - box.x} ${-page[3] - box.y})`);
    this.drawing.replaceChildren(inner);
    for (const node of paper ? inner.querySelectorAll("[stroke-width]") : []) {
      if (Number(node.getAttribute("stroke-width")) < HAIRLINE) node.classList.add("hairline");
    }
    if (paper) {
      const sheet = { class: "sheet", x: page[0], y: -page[3], width: page[2] - page[0], height: page[3] - page[1] };
      this.drawing.prepend(shape("rect", sheet));
    }
    if (!same || this.whole) this.fit();
    else this.refresh();
  }

  get #size() {
    const box = this.svg.getBoundingClientRect();
    return [Math.max(box.width, 1), Math.max(box.height, 1)];
  }

  /** The whole page, centred. */
  fit() {
    const [width, height] = this.#size;
    const [left, bottom, right, top] = this.page;
    const scale = Math.min(width / (right - left), height / (top - bottom)) * 0.96;
    this.view = { x: (left + right) / 2, y: (bottom + top) / 2, scale };
    this.whole = true;
    this.refresh();
  }

  /** @param {number} factor @param {[number, number]} [about] a point that stays where it is */
  zoom(factor, about = [this.view.x, this.view.y]) {
    const scale = Math.min(4000, Math.max(0.2, this.view.scale * factor));
    const share = this.view.scale / scale;
    this.view = { x: about[0] + (this.view.x - about[0]) * share, y: about[1] + (this.view.y - about[1]) * share, scale };
    this.whole = false;
    this.refresh();
  }

  /** @param {number} scale pixels a millimetre */
  atScale(scale) {
    this.zoom(scale / this.view.scale);
  }

  /** @param {number[]} box brings a place into sight with some of what is round it */
  see(box) {
    const [width, height] = this.#size;
    const [left, bottom, right, top] = this.page;
    const whole = Math.min(width / (right - left), height / (top - bottom)) * 0.96;
    const [wide, high] = [Math.max((box[2] - box[0]) * 1.4, 50), Math.max((box[3] - box[1]) * 1.4, 36)];
    const scale = Math.max(whole, Math.min(width / wide, height / high));
    this.view = { x: (box[0] + box[2]) / 2, y: (box[1] + box[3]) / 2, scale };
    this.whole = false;
    this.refresh();
  }

  /** @param {number} dx @param {number} dy in pixels */
  pan(dx, dy) {
    this.view.x -= dx / this.view.scale;
    this.view.y += dy / this.view.scale;
    this.whole = false;
    this.refresh();
  }

  /** The place on the panel under a pointer. @param {{clientX: number, clientY: number}} event @returns {[number, number]} */
  at(event) {
    const box = this.svg.getBoundingClientRect();
    return [
      this.view.x + (event.clientX - box.left - box.width / 2) / this.view.scale,
      this.view.y - (event.clientY - box.top - box.height / 2) / this.view.scale,
    ];
  }

  /** @param {WheelEvent} event */
  #wheel(event) {
    event.preventDefault();
    if (event.ctrlKey || event.metaKey || !event.shiftKey) this.zoom(Math.exp(-event.deltaY * 0.0016), this.at(event));
    else this.pan(-event.deltaY, 0);
  }

  refresh() {
    const [width, height] = this.#size;
    const { x, y, scale } = this.view;
    const [w, h] = [width / scale, height / scale];
    this.svg.setAttribute("viewBox", `${x - w / 2} ${-y - h / 2} ${w} ${h}`);
    this.overlay.setAttribute("transform", "scale(1 -1)");
    this.#rule(0, width, x - w / 2 - this.origin[0]);
    this.#rule(1, height, y + h / 2 - this.origin[1]);
    this.onView();
  }

  /** @param {0 | 1} axis @param {number} length @param {number} start value at the ruler's begin */
  #rule(axis, length, start) {
    const ruler = this.rulers[axis];
    const { scale } = this.view;
    const step = [0.1, 0.5, 1, 5, 10, 50, 100].find((one) => one * scale >= 7) ?? 100;
    const named = [0.5, 1, 5, 10, 20, 50, 100, 200, 500].find((one) => one * scale >= 52 && one >= step) ?? 1000;
    const way = axis ? -1 : 1;
    const parts = [];
    ruler.replaceChildren();
    const first = Math.ceil(axis ? (start - length / scale) / step : start / step);
    for (let n = first; ; n++) {
      const value = n * step;
      const at = (value - start) * way * scale;
      if (axis ? at < 0 : at > length) break;
      if (at < 0 || at > length) continue;
      const long = Math.abs(value / named - Math.round(value / named)) < 1e-6;
      const size = long ? 10 : 5;
      parts.push(axis ? `M22 ${at.toFixed(1)}h${-size}` : `M${at.toFixed(1)} 22v${-size}`);
      if (!long || (axis ? at < 14 : at > length - 24)) continue;
      const words = shape("text", axis ? { transform: `translate(9 ${at + 2}) rotate(-90)` } : { x: at + 2, y: 9 }, ruler);
      words.textContent = figure(value, named < 1 ? 1 : 0);
    }
    shape("path", { d: parts.join("") }, ruler);
    if (!this.pointer) return;
    const here = (this.pointer[axis] - this.origin[axis] - start) * way * scale;
    shape("path", { class: "here", d: axis ? `M0 ${here}h22` : `M${here} 0v22` }, ruler);
  }
}
