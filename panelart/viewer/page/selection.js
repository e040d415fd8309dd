// What is known of the part that is chosen, and what can be changed of it.

import { text } from "./api.js";
import { figure } from "./measures.js";
import { element } from "./parts.js";
import { said } from "./said.js";

const SIDES = ["auto", "above", "below", "left", "right"];

/**
 * @param {HTMLElement} into
 * @param {any} scene
 * @param {string[]} refs
 * @param {{mayEdit: boolean, change: (asked: any) => void, line: (line: number) => void, array: (ref: string) => void, places: (ref: string) => void}} how
 */
export function card(into, scene, refs, how) {
  const parts = scene.parts.filter((/** @type {any} */ part) => refs.includes(part.ref));
  into.hidden = !parts.length;
  if (!parts.length) {
    into.replaceChildren();
    return;
  }
  const remove = element("button", { type: "button", onclick: () => how.change({ do: "delete", refs }) }, said("page-parts.delete"));
  if (parts.length > 1) {
    const told = element("p", {}, said("page-parts.parts-selected", { count: parts.length, refs: refs.join(", ") }));
    into.replaceChildren(element("h2", {}, said("page.selection")), told, element("p", { class: "tools edit-only" }, remove));
    return;
  }
  const [part] = parts;
  into.replaceChildren(
    element("h2", {}, said("page.selection")),
    element("h3", {}, part.ref),
    element("div", { class: "refs" }, `${part.part}: ${part.title}`),
    how.mayEdit && part.own ? fields(scene, part, how) : facts(scene, part),
    element(
      "p",
      { class: "tools" },
      part.line > 0 && element("button", { type: "button", onclick: () => how.line(part.line) }, said("page.line", { line: part.line })),
      how.mayEdit && part.own && element("button", { type: "button", onclick: () => how.array(part.ref) }, said("page-parts.copy")),
      how.mayEdit && part.own && remove,
    ),
    part.own ? "" : element("p", {}, said("page-parts.of-pattern")),
    later(said("page-parts.catalogue-entry"), `part/${encodeURIComponent(part.ref)}`),
    part.legend ? later(said("page-parts.placement-explained"), `why/${encodeURIComponent(part.ref)}`, () => how.places(part.ref)) : "",
  );
}

/** @param {any} scene @param {any} part */
const fromDatum = (scene, part) => part.at.map((/** @type {number} */ value, /** @type {number} */ axis) => value - scene.datum[axis]);

/** @param {any} scene @param {any} part */
function facts(scene, part) {
  const [x, y] = fromDatum(scene, part);
  const rows = [
    [said("page-parts.position"), said("page-parts.at", { x: figure(x), y: figure(y) })],
    [said("page-parts.rotation"), `${part.turn}°`],
    [said("page-parts.legend"), part.legend || said("page-parts.none")],
  ];
  return element("dl", {}, ...rows.flatMap(([name, value]) => [element("dt", {}, name), element("dd", {}, value)]));
}

/** @param {any} scene @param {any} part @param {any} how */
function fields(scene, part, how) {
  const refs = [part.ref];
  const [x, y] = fromDatum(scene, part);
  const number = (/** @type {string} */ label, /** @type {number} */ value, /** @type {(to: number) => void} */ done, /** @type {any} */ more = {}) =>
    element("input", {
      type: "number", step: "any", "aria-label": label, value: Number(value.toFixed(3)), ...more,
      onchange: (/** @type {any} */ event) => Number.isFinite(event.target.valueAsNumber) && done(event.target.valueAsNumber),
    });
  const side = element(
    "select",
    { "aria-label": said("page-parts.legend-side"), onchange: (/** @type {any} */ event) => how.change({ do: "legend-place", refs, place: event.target.value }) },
    ...SIDES.map((one) => element("option", { value: one, selected: one === (part.place ?? "auto") }, said(`page-parts.side-${one}`))),
  );
  const words = element("input", {
    type: "text", "aria-label": said("page-parts.legend"), value: part.written ?? part.legend, placeholder: said("page-parts.none"),
    onchange: (/** @type {any} */ event) => how.change({ do: "legend-text", refs, text: event.target.value }),
  });
  /** @type {[string, (Node | string)[]][]} */
  const rows = [
    [said("page-parts.position"), [number(said("page-parts.x-from-datum"), x, (to) => how.change({ do: "move", refs, by: [to - x, 0] })), number(said("page-parts.y-from-datum"), y, (to) => how.change({ do: "move", refs, by: [0, to - y] })), "mm"]],
    [said("page-parts.rotation"), [number(said("page-parts.rotation"), part.turn, (turn) => how.change({ do: "turn", refs, turn })), "°"]],
    [said("page-parts.legend"), [words]],
  ];
  if (part.legend) {
    const size = number(said("page-parts.cap-height"), part.cap_height ?? 0, (cap_height) => how.change({ do: "legend-size", refs, cap_height }), { min: 0 });
    rows.push([said("page-parts.legend-side"), [side]], [said("page-parts.cap-height"), [size, said("page-parts.style-default")]]);
  }
  return element("dl", {}, ...rows.flatMap(([name, inside]) => [element("dt", {}, name), element("dd", {}, ...inside)]));
}

/** A page that is fetched when it is opened. @param {string} title @param {string} path @param {() => void} [also] */
function later(title, path, also) {
  const page = element("pre", {}, "…");
  const shown = element("details", {}, element("summary", {}, title), also ? element("button", { type: "button", onclick: also }, said("page-parts.show-places")) : null, page);
  shown.addEventListener("toggle", async () => (page.textContent = await text(path).catch((error) => error.message)), { once: true });
  return shown;
}
