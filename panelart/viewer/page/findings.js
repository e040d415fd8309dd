// The list of findings beside the panel: most serious first, each opened where it is.

import { json, text } from "./api.js";
import { changes, element } from "./parts.js";
import { said } from "./said.js";

/** @param {any} finding @returns {number[]} left, bottom, right, top */
export function placeOf(finding) {
  const place = finding.place;
  if (Array.isArray(place)) return place.length === 4 ? place : [place[0], place[1], place[0], place[1]];
  if ("left_mm" in place) return [place.left_mm, place.bottom_mm, place.right_mm, place.top_mm];
  return [place.x_mm, place.y_mm, place.x_mm, place.y_mm];
}

/**
 * What a finding is about, to be marked on the panel: the parts it names where its place is only their middle or what
 * is round them all, else its place.
 * @param {any} finding @param {any} scene @returns {import("./measures.js").Box[]}
 */
export function spotsOf(finding, scene) {
  const place = /** @type {import("./measures.js").Box} */ (placeOf(finding));
  const parts = scene.parts.filter((/** @type {any} */ part) => part.box && finding.refs.includes(part.ref));
  const boxes = parts.map((/** @type {any} */ part) => part.box);
  const [left, bottom, right, top] = place;
  const within = parts.every((/** @type {any} */ part) => part.at[0] >= left - 0.01 && part.at[0] <= right + 0.01 && part.at[1] >= bottom - 0.01 && part.at[1] <= top + 0.01);
  if (boxes.length && within && (boxes.length > 1 || right - left < 0.01)) return boxes;
  return [place];
}

const SEVERITIES = ["error", "warning", "note"];

/** @param {Record<string, number>} counts */
export function counted(counts) {
  const told = SEVERITIES.filter((one) => counts[one]).map((one) => said(`page-parts.${one}s`, { count: counts[one] }));
  if (counts.waived) told.push(said("page-parts.waived", { waived: counts.waived }));
  return told.length ? told.join(" · ") : said("page-parts.no-findings");
}

/** measured against limit, in one line; '' where the rule has no number. @param {any} finding */
function against(finding) {
  const key = Object.keys(finding).find((one) => one.startsWith("measured_"));
  if (!key) return "";
  const unit = key.slice("measured_".length);
  const mark = { percent: "%", ratio: "", count: "" }[unit] ?? unit;
  const bound = finding.bound === "minimum" ? "page-parts.measured-minimum" : "page-parts.measured-maximum";
  const shown = (/** @type {number} */ value) => `${Number(value.toFixed(3))} ${mark}`.trim();
  return said(bound, { measured: shown(finding[key]), limit: shown(finding[`limit_${unit}`]), source: finding.source });
}

/**
 * @param {HTMLElement} into
 * @param {any} scene
 * @param {{open: number, mayEdit: boolean, choose: (number: number) => void, line: (line: number) => void, apply: (number: number) => void, nudge: () => void}} how
 */
export function list(into, scene, how) {
  const items = scene.report.findings.map((/** @type {any} */ finding) => {
    const open = finding.number === how.open;
    const item = element(
      "li",
      { class: `${finding.severity}${open ? " open" : ""}`, "data-rule": finding.rule },
      element(
        "button",
        { "aria-expanded": open, "data-number": finding.number, onclick: () => how.choose(open ? 0 : finding.number) },
        element("span", { class: "mark", "aria-label": said(`page-parts.${finding.severity}-number`, { number: finding.number }) }, String(finding.number)),
        element("span", {}, finding.sentence),
        element("span", { class: "refs" }, `${finding.rule}${finding.refs.length ? ` · ${finding.refs.join(", ")}` : ""}`),
      ),
    );
    if (open) item.append(more(finding, how, scene.file));
    return item;
  });
  const heading = element("h2", {}, counted(scene.report.counts));
  const kept = into.closest("aside")?.scrollTop ?? 0;
  const without = scene.report.without ?? [];
  const omitted = without.length ? [element("p", {}, said("page-parts.checked-without", { names: without.join(", ") }))] : [];
  const movable = how.mayEdit && scene.report.findings.some((/** @type {any} */ finding) => finding.severity !== "note");
  into.replaceChildren(heading, ...omitted, ...(movable ? [nudge(how)] : []), element("ol", {}, ...items));
  into.closest("aside")?.scrollTo({ top: kept });
}

/** A button that looks for moves of parts that clear the findings together, and shows them. @param {any} how */
function nudge(how) {
  const offer = element("div", { "aria-live": "polite" });
  const find = async () => {
    offer.replaceChildren(said("page-parts.searching-moves"));
    const found = await json("nudge").catch((error) => ({ says: "", why: error.message }));
    if (!found.says) {
      offer.replaceChildren(found.why ?? said("page-parts.no-moves"));
      return;
    }
    const use = element("button", { type: "button", class: "lead", onclick: how.nudge }, said("page-parts.apply"));
    offer.replaceChildren(element("p", {}, found.says), changes(found.difference), use);
  };
  const button = element("button", { type: "button", id: "nudge", onclick: find }, said("page-parts.nudge-parts"));
  return element("div", { class: "nudge" }, element("p", { class: "tools" }, button), offer);
}

/** @param {any} finding @param {any} how @param {string} file the spec's; other files have the modules */
function more(finding, how, file) {
  const offer = element("div", { "aria-live": "polite" });
  const page = element("pre", {}, "…");
  const look = element("details", {}, element("summary", {}, said("page-parts.about-rule")), page);
  look.addEventListener("toggle", async () => (page.textContent = await text(`rule/${finding.rule}`)), { once: true });
  const numbers = against(finding);
  const find = async () => {
    offer.replaceChildren(said("page-parts.searching-edit"));
    const found = await json(`suggestion/${finding.number}`).catch((error) => ({ says: "", why: error.message }));
    if (!found.says) {
      offer.replaceChildren(found.why ?? said("page-parts.no-edit"));
      return;
    }
    const use = element("button", { type: "button", class: "lead", onclick: () => how.apply(finding.number) }, said("page-parts.apply"));
    offer.replaceChildren(element("p", {}, found.says), changes(found.difference), use);
  };
  return element(
    "div",
    { class: "more" },
    numbers && element("p", { class: "number" }, numbers),
    finding.fix && element("p", {}, said("page-parts.fix", { fix: finding.fix })),
    element(
      "p",
      { class: "tools" },
      finding.spec.file === file
        ? element("button", { type: "button", onclick: () => how.line(finding.spec.line) }, said("page.line", { line: finding.spec.line }))
        : element("span", {}, `${finding.spec.file}:${finding.spec.line}`),
      how.mayEdit && finding.severity !== "note" && element("button", { type: "button", onclick: find }, said("page-parts.suggest-edit")),
    ),
    offer,
    look,
  );
}
