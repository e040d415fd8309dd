// What is known of the part that is chosen, and what can be changed of it.

import { text } from "./api.js";
import { figure } from "./measures.js";
import { element } from "./parts.js";

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
  const remove = element("button", { type: "button", onclick: () => how.change({ do: "delete", refs }) }, "Delete");
  if (parts.length > 1) {
    const told = element("p", {}, `${parts.length} parts: ${refs.join(", ")}`);
    into.replaceChildren(element("h2", {}, "Selected"), told, element("p", { class: "tools edit-only" }, remove));
    return;
  }
  const [part] = parts;
  into.replaceChildren(
    element("h2", {}, "Selected"),
    element("h3", {}, part.ref),
    element("div", { class: "refs" }, `${part.part}: ${part.title}`),
    how.mayEdit && part.own ? fields(scene, part, how) : facts(scene, part),
    element(
      "p",
      { class: "tools" },
      element("button", { type: "button", onclick: () => how.line(part.line) }, `Line ${part.line}`),
      how.mayEdit && part.own && element("button", { type: "button", onclick: () => how.array(part.ref) }, "Copies…"),
      how.mayEdit && part.own && remove,
    ),
    part.own ? "" : element("p", {}, "Made by a pattern of the spec: to change it, change the pattern there."),
    later("From the catalogue", `part/${encodeURIComponent(part.ref)}`),
    part.legend ? later("Why its legends stand there", `why/${encodeURIComponent(part.ref)}`, () => how.places(part.ref)) : "",
  );
}

/** @param {any} scene @param {any} part */
const fromDatum = (scene, part) => part.at.map((/** @type {number} */ value, /** @type {number} */ axis) => value - scene.datum[axis]);

/** @param {any} scene @param {any} part */
function facts(scene, part) {
  const [x, y] = fromDatum(scene, part);
  const rows = [["At", `${figure(x)}, ${figure(y)} mm`], ["Turned", `${part.turn}°`], ["Legend", part.legend || "none"]];
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
    { "aria-label": "Side of the legend", onchange: (/** @type {any} */ event) => how.change({ do: "legend-place", refs, place: event.target.value }) },
    ...["auto", "above", "below", "left", "right"].map((one) => element("option", { value: one, selected: one === (part.place ?? "auto") }, one)),
  );
  const words = element("input", {
    type: "text", "aria-label": "Legend", value: part.written ?? part.legend, placeholder: "none",
    onchange: (/** @type {any} */ event) => how.change({ do: "legend-text", refs, text: event.target.value }),
  });
  /** @type {[string, (Node | string)[]][]} */
  const rows = [
    ["At", [number("x from the datum", x, (to) => how.change({ do: "move", refs, by: [to - x, 0] })), number("y from the datum", y, (to) => how.change({ do: "move", refs, by: [0, to - y] })), "mm"]],
    ["Turned", [number("Turned by", part.turn, (turn) => how.change({ do: "turn", refs, turn })), "°"]],
    ["Legend", [words]],
  ];
  if (part.legend) {
    const size = number("Cap height", part.cap_height ?? 0, (cap_height) => how.change({ do: "legend-size", refs, cap_height }), { min: 0, title: "0: that of its style" });
    rows.push(["Stands", [side]], ["Cap height", [size, "mm (0: the style’s)"]]);
  }
  return element("dl", {}, ...rows.flatMap(([name, inside]) => [element("dt", {}, name), element("dd", {}, ...inside)]));
}

/** A page that is fetched when it is opened. @param {string} title @param {string} path @param {() => void} [also] */
function later(title, path, also) {
  const page = element("pre", {}, "…");
  const shown = element("details", {}, element("summary", {}, title), also ? element("button", { type: "button", onclick: also }, "Show the places") : null, page);
  shown.addEventListener("toggle", async () => (page.textContent = await text(path).catch((error) => error.message)), { once: true });
  return shown;
}
