// A quiet card beside what the pointer rests on, or what the keyboard came to: the catalogue's entry of a part with
// its sources and cautions, or a legend's places and what each would cost.

import { json } from "./api.js";
import { figure } from "./measures.js";
import { element } from "./parts.js";
import { said } from "./said.js";

const REST = 450;
const GRACE = 250;
const MOST_ROWS = 6;

const STANDINGS = ["looked-up", "typical", "memory", "given"];

export class Tooltip {
  /**
   * @param {HTMLElement} card @param {HTMLElement} bench @param {SVGSVGElement} svg
   * @param {() => any} scene @param {() => boolean} atWork  while something is in hand, nothing is told
   */
  constructor(card, bench, svg, scene, atWork) {
    this.card = card;
    this.bench = bench;
    this.scene = scene;
    this.atWork = atWork;
    /** @type {Element | null} */
    this.of = null;
    this.timer = 0;
    /** @type {Map<string, any>} answers of the state that is shown */
    this.known = new Map();
    this.revision = "";
    svg.addEventListener("pointerover", (event) => event.pointerType === "mouse" && this.#near(keyed(event.target)));
    svg.addEventListener("pointerleave", () => this.#near(null));
    svg.addEventListener("pointerdown", () => this.hide());
    svg.addEventListener("focusin", (event) => keyed(event.target)?.matches(":focus-visible") && this.#near(keyed(event.target)));
    svg.addEventListener("focusout", () => this.#near(null));
    card.addEventListener("pointerenter", () => clearTimeout(this.timer));
    card.addEventListener("pointerleave", () => this.#near(null));
  }

  /** Takes the card away; whether there was one. */
  hide() {
    clearTimeout(this.timer);
    const was = !this.card.hidden;
    this.of?.removeAttribute("aria-describedby");
    this.of = null;
    this.card.hidden = true;
    return was;
  }

  /** @param {Element | null} node what the pointer is over */
  #near(node) {
    clearTimeout(this.timer);
    if (node && node === this.of) return;
    this.timer = setTimeout(() => (node && !this.atWork() ? this.#show(node) : this.hide()), node ? REST : GRACE);
  }

  /** @param {Element} node */
  async #show(node) {
    this.hide();
    this.of = node;
    const scene = this.scene();
    const ref = node.getAttribute("data-ref");
    const inside = await (ref ? this.#part(scene, ref) : this.#legend(scene, Number(node.getAttribute("data-legend")))).catch(() => null);
    if (this.of !== node || !inside || !node.isConnected) return;
    this.card.replaceChildren(...inside);
    this.card.hidden = false;
    node.setAttribute("aria-describedby", this.card.id);
    this.#stand(node.getBoundingClientRect());
  }

  /** @param {DOMRect} by stands beside this and wholly on the bench, right of it if there is room */
  #stand(by) {
    const bench = this.bench.getBoundingClientRect();
    const [wide, high] = [this.card.offsetWidth, this.card.offsetHeight];
    const right = by.right + 10 + wide <= bench.right;
    const left = right ? by.right + 10 : Math.max(by.left - 10 - wide, bench.left + 4);
    const top = Math.min(Math.max(by.top, bench.top + 28), Math.max(bench.bottom - high - 8, bench.top + 4));
    this.card.style.left = `${left - bench.left}px`;
    this.card.style.top = `${top - bench.top}px`;
  }

  /** @param {any} scene @param {string} path */
  async #asked(scene, path) {
    if (this.revision !== scene.revision) this.known.clear();
    this.revision = scene.revision;
    if (!this.known.has(path)) this.known.set(path, await json(path));
    return this.known.get(path);
  }

  /** @param {any} scene @param {string} ref @returns {Promise<Node[]>} */
  async #part(scene, ref) {
    const { part } = await this.#asked(scene, `entry/${encodeURIComponent(ref)}`);
    const openings = new Set(part.openings.map((/** @type {any} */ one) => said("page-parts.opening", { role: one.role, size: size(one) })));
    const measured = [...new Set(part.to_measure.map((/** @type {any} */ one) => one.name.replaceAll("_", " ")))];
    const used = part.openings.flatMap((/** @type {any} */ one) => one.figures);
    const sources = new Map(used.map((/** @type {any} */ one) => [one.source, STANDINGS.includes(one.known) ? said(`page-parts.standing-${one.known}`) : one.known]));
    const own = scene.legends.filter((/** @type {any} */ one) => one.ref === ref && one.style !== "numeral" && one.text);
    return [
      element("h3", {}, `${ref}: ${part.title}`),
      element("p", { class: "refs" }, [part.name, part.standard].filter(Boolean).join(" · ")),
      ...[...openings].slice(0, 3).map((one) => element("p", {}, one)),
      measured.length ? element("p", { class: "care" }, said("page-parts.measure-before-cutting", { dimensions: measured.join(", ") })) : "",
      ...part.cautions.map((/** @type {any} */ one) => element("p", { class: "care" }, one.text)),
      own.length ? element("p", {}, said("page-parts.legends", { legends: own.map(placed).join(", ") })) : "",
      element("ul", {}, ...[...sources].map(([source, standing]) => element("li", {}, said("page-parts.source", { source, standing })))),
    ].map((one) => (typeof one === "string" ? document.createTextNode(one) : one));
  }

  /** @param {any} scene @param {number} id @returns {Promise<Node[]>} */
  async #legend(scene, id) {
    const legend = scene.legends[id];
    const told = await this.#asked(scene, `story/${id}`);
    const words = { text: legend.text.replaceAll("\n", " "), ref: legend.ref };
    const heading = element("h3", {}, said(legend.free ? "page-parts.free-legend" : "page-parts.legend-of", words));
    const height = figure(legend.cap_height);
    if (!told) return [heading, element("p", {}, said("page-parts.legend-fixed", { height }))];
    const shown = told.places.filter((/** @type {any} */ one) => one.state !== "blocked").slice(0, MOST_ROWS);
    const rows = shown.map((/** @type {any} */ one) =>
      element("tr", { class: one.state === "taken" ? "taken" : null }, element("td", {}, one.form), element("td", { class: "number" }, one.blockers.length ? "" : String(one.cost)), element("td", {}, one.blockers.length ? said("page-parts.blocked-by", { names: one.blockers.join(", ") }) : one.reasons.join(", ") || said("page-parts.no-reason"))),
    );
    const rest = told.places.length - shown.length;
    return [
      heading,
      element("p", { class: "refs" }, said("page-parts.legend-placed", { height, place: told.stands, proof: told.proof })),
      element("table", {}, element("thead", {}, element("tr", {}, ...["place", "cost", "reason"].map((one) => element("th", { scope: "col" }, said(`page-parts.heading-${one}`))))), element("tbody", {}, ...rows)),
      element("p", { class: "refs" }, rest ? said("page-parts.places-more", { count: rest, ref: legend.ref }) : ""),
    ];
  }
}

/** @param {EventTarget | null} target */
const keyed = (target) => (target instanceof Element ? target.closest("[data-key]") : null);

/** A legend with its side of the part. @param {any} legend */
function placed(legend) {
  const text = legend.text.replaceAll("\n", " ");
  return legend.place ? said("page-parts.legend-at", { text, place: legend.place }) : text;
}

/** @param {any} one an opening of the catalogue */
function size(one) {
  const amount = (/** @type {number} */ value) => String(Number(value.toFixed(2)));
  if (one.form === "round") return said("page-parts.diameter", { diameter: amount(one.across_mm) });
  const size = said("page-parts.rectangle", { width: amount(one.across_mm), height: amount(one.upright_mm) });
  return one.form === "rectangle" ? size : said("page-parts.size-of-form", { size, form: one.form });
}
