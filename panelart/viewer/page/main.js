// The page: follows the server's states, shows the panel and what is known of it, sends changes.

import { Refusal, drawing, json, post, text } from "./api.js";
import { card } from "./selection.js";
import { eye, look, setUp as setUpEye } from "./eye.js";
import { list, spotsOf } from "./findings.js";
import { Dragging } from "./dragging.js";
import { around, figure } from "./measures.js";
import { Measure } from "./measuring.js";
import { byId, changes, close, dialog, element, settled } from "./parts.js";
import { Tooltip } from "./tooltip.js";
import { said } from "./said.js";
import { Questions } from "./questions.js";
import { Stage, shape } from "./stage.js";

/** @type {any} */
let scene = null;
/** @type {any} */
let state = { number: -1, shown: null, problems: [], step: "", undo: "", redo: "", may_edit: false, asked: null };
/** @type {string[]} */
let refs = [];
let open = 0;
let view = "finished";
let page = 1;
let hidden = new Set(JSON.parse(localStorage.getItem("hidden-layers") ?? "[]"));
let lastChange = "";
let pageCount = 1;

const OVERLAID = (/** @type {string} */ name) => ["finished", "eye", "cut-front"].includes(name) || name.startsWith("plate-");

const stage = new Stage(byId("stage"), byId("ruler-x"), byId("ruler-y"));
const rooms = shape("g", { id: "rooms" }, stage.overlay);
const spots = shape("g", { id: "spots" }, stage.overlay);
const edge = shape("path", { class: "edge" }, stage.overlay);
const measure = new Measure(stage, (words) => (byId("measured").textContent = words));
const hand = new Dragging(stage, {
  scene: () => scene,
  refs: () => refs,
  choose,
  change,
  mayEdit: () => state.may_edit && scene !== null && !state.problems.length,
  mayMove,
  grid: () => Number(byId("grid").value),
  pick: (at) => {
    if (!measure.on || !scene || !OVERLAID(view)) return false;
    measure.pick(scene, at);
    return true;
  },
  over: (at) => {
    stage.pointer = at;
    const datum = scene?.datum ?? [0, 0];
    byId("cursor").textContent = at && OVERLAID(view) ? said("page.pointer-at", { x: figure(at[0] - datum[0]), y: figure(at[1] - datum[1]) }) : "";
  },
});

const quiet = new Tooltip(byId("quiet"), byId("bench"), stage.svg, () => scene, () => hand.held !== null || measure.on);

const questions = new Questions(byId("questions"), {
  mayEdit: () => state.may_edit,
  opened: drawRooms,
  errors: () => scene?.report.findings.filter((/** @type {any} */ one) => one.severity === "error").length ?? 0,
  arrange: () => post("arrange").catch((error) => tell(error.message)),
  tell: notice,
  search: (take) => search(said("page-parts.answer-other"), take),
  answer: async (question, part) => {
    try {
      await post("answer", { question, part });
      return true;
    } catch (error) {
      dialog(said("page-parts.answer-not-saved"), element("p", {}, error instanceof Error ? error.message : String(error)));
      return false;
    }
  },
});
let asked = -1;

stage.onView = () => {
  quiet.hide();
  byId("zoom").textContent = trueScale() ? `${Math.round((100 * stage.view.scale) / trueScale())} %` : `${figure(stage.view.scale, 1)}×`;
  drawSpots();
  measure.draw();
};

// --- states of the server

let chain = Promise.resolve();

/** @type {EventSource | null} */
let stream = null;

/** Follows the server while the page is in sight: a browser has few lines to one server, and each page holds one. */
function listen() {
  if (stream && stream.readyState !== EventSource.CLOSED) return;
  const own = (stream = new EventSource("events"));
  own.onmessage = (event) => {
    const told = JSON.parse(event.data);
    chain = chain.then(() => follow(told)).catch((error) => tell(error.message));
  };
  own.onerror = () => {
    tell(said("page.server-silent"));
    if (own.readyState === EventSource.CLOSED && stream === own) setTimeout(() => document.hidden || listen(), 1000);
  };
  own.onopen = () => tell("");
}

document.addEventListener("visibilitychange", () => {
  if (!document.hidden) listen();
  else stream?.close();
});

/** @param {any} told */
async function follow(told) {
  const before = state;
  state = told;
  document.body.dataset.mode = state.may_edit ? "edit" : "look";
  if (state.asked !== null && (state.asked !== asked || before.may_edit !== state.may_edit)) await ask();
  byId("undo").disabled = !state.undo;
  byId("redo").disabled = !state.redo;
  byId("undo").title = state.undo ? said("page.undo-change", { change: state.undo }) : said("page.undo-empty");
  byId("redo").title = state.redo ? said("page.redo-change", { change: state.redo }) : said("page.redo-empty");
  showTrouble();
  if (state.shown && state.shown !== scene?.revision) await load();
  else if (before.may_edit !== state.may_edit || (before.problems.length === 0) !== (state.problems.length === 0)) side();
  document.body.classList.toggle("stale", state.problems.length > 0);
  showStatus();
}

/** Takes the questions as they stand now. */
async function ask() {
  asked = state.asked;
  document.body.classList.add("asking");
  questions.show(await json("questions"));
  drawRooms();
}

/** The room that is kept for parts with open questions, by what the likeliest candidate would cover. */
function drawRooms() {
  rooms.replaceChildren();
  if (!scene || !OVERLAID(view)) return;
  const there = new Set(scene.parts.map((/** @type {any} */ part) => part.ref));
  for (const question of questions.all) {
    for (const [ref, [left, bottom, right, top]] of Object.entries(question.rooms)) {
      if (there.has(ref)) continue;
      const [x, y] = [left + scene.datum[0], bottom + scene.datum[1]];
      const open = question.id === questions.open ? " open" : "";
      shape("rect", { class: `room${open}`, x, y, width: right - left, height: top - bottom, rx: 1 }, rooms);
      const size = Math.min(5, (right - left) / (0.75 * ref.length + 0.75), (top - bottom) * 0.7);
      const middle = `translate(${x + (right - left) / 2} ${y + (top - bottom) / 2}) scale(1 -1)`;
      shape("text", { class: "room-name", transform: middle, "font-size": size }, rooms).textContent = `${ref}?`;
    }
  }
}

async function load() {
  const first = !scene;
  scene = await json("scene");
  if (first) look(scene.eye);
  refs = refs.filter((ref) => scene.parts.some((/** @type {any} */ part) => part.ref === ref));
  if (!scene.report.findings.some((/** @type {any} */ finding) => finding.number === open)) open = 0;
  byId("title").textContent = scene.title;
  document.title = scene.title;
  byId("issue").textContent = [scene.number, scene.issue && said("page.revision", { revision: scene.issue }), scene.fingerprint].filter(Boolean).join(" · ");
  const views = [...scene.views, { name: "eye", words: said("page.view-eye") }, { name: "stations", words: said("page.view-build-sheet") }];
  byId("view").replaceChildren(...views.map(({ name, words }) => element("option", { value: name, selected: name === view }, words)));
  if (!views.some(({ name }) => name === view)) view = "finished";
  await draw();
  side();
  questions.draw();
}

let drawings = 0;

async function draw() {
  const turn = ++drawings;
  byId("eye").hidden = view !== "eye";
  byId("pages").hidden = view !== "stations";
  const path = { finished: "picture.svg", eye: `shadows.svg?${new URLSearchParams(/** @type {any} */ (eye()))}`, stations: `station/${page}.svg` }[view] ?? `view/${view}.svg`;
  let drawn;
  try {
    drawn = await drawing(path);
    if (turn !== drawings) return;
  } catch (error) {
    if (turn === drawings) tell(error instanceof Error ? error.message : String(error));
    return;
  }
  tell("");
  if (view === "stations") {
    pageCount = drawn.pages;
    byId("page-number").textContent = said("page.page-of", { page, pages: pageCount });
  }
  stage.show(drawn.svg, drawn.page ?? scene.page, OVERLAID(view) ? scene.datum : [0, 0], view !== "finished" && view !== "eye");
  edge.setAttribute("d", OVERLAID(view) ? `M${scene.outline.map((/** @type {number[]} */ p) => p.join(" ")).join("L")}Z` : "");
  layers();
  hand.draw(OVERLAID(view));
  drawSpots();
  drawRooms();
  document.body.dataset.shown = scene.revision;
}

function layers() {
  const groups = [...stage.drawing.querySelectorAll(":scope > g > g[id]")];
  const rows = groups.map((group) => {
    const box = element("input", { type: "checkbox", checked: !hidden.has(group.id) });
    group.toggleAttribute("hidden", hidden.has(group.id));
    box.addEventListener("change", () => {
      hidden = new Set([...hidden].filter((one) => one !== group.id));
      if (!(/** @type {HTMLInputElement} */ (box).checked)) hidden.add(group.id);
      localStorage.setItem("hidden-layers", JSON.stringify([...hidden]));
      group.toggleAttribute("hidden", hidden.has(group.id));
    });
    return element("label", {}, box, ` ${group.id}`);
  });
  byId("layers").lastElementChild.replaceChildren(...rows);
}

function side() {
  if (!scene) return;
  const mayEdit = state.may_edit && !state.problems.length;
  card(byId("chosen"), scene, refs, {
    mayEdit,
    change,
    line: source,
    array: copies,
    places: async (ref) => {
      const { svg } = await drawing(`places/${encodeURIComponent(ref)}`);
      svg.setAttribute("width", "100%");
      svg.removeAttribute("height");
      dialog(said("page.places-of", { ref }), svg);
    },
  });
  list(byId("findings"), scene, { open, mayEdit, choose: chooseFinding, line: source, apply: (number) => change({ do: "suggestion", number }), nudge: () => change({ do: "nudge" }) });
  drawSpots();
}

function drawSpots() {
  spots.replaceChildren();
  if (!scene || !OVERLAID(view)) return;
  const least = 10 / stage.view.scale;
  for (const finding of scene.report.findings) {
    if (finding.severity === "note" && finding.number !== open) continue;
    const kind = `spot ${finding.severity}${finding.number === open ? " open" : ""}`;
    for (const [left, bottom, right, top] of spotsOf(finding, scene)) {
      const [x, y] = [(left + right) / 2, (bottom + top) / 2];
      const [w, h] = [Math.max(right - left + 1, least), Math.max(top - bottom + 1, least)];
      shape("rect", { class: kind, x: x - w / 2, y: y - h / 2, width: w, height: h, rx: Math.min(Math.min(w, h) / 4, 10 / stage.view.scale), "pointer-events": "none" }, spots);
    }
  }
}

// --- choosing

/** @param {string[]} wanted */
function choose(wanted) {
  const same = wanted.length === refs.length && wanted.every((ref) => refs.includes(ref));
  refs = wanted;
  if (same) return;
  for (const node of hand.parts.querySelectorAll("[data-ref]")) {
    const chosen = refs.includes(node.getAttribute("data-ref") ?? "");
    node.classList.toggle("chosen", chosen);
    node.setAttribute("aria-pressed", String(chosen));
  }
  side();
}

/** @param {number} number */
function chooseFinding(number) {
  open = number;
  const finding = scene.report.findings.find((/** @type {any} */ one) => one.number === number);
  if (finding) {
    if (!OVERLAID(view)) setView("finished");
    const about = scene.parts.filter((/** @type {any} */ part) => part.box && finding.refs.includes(part.ref));
    stage.see(around([...spotsOf(finding, scene), ...about.map((/** @type {any} */ part) => part.box)]));
  }
  side();
  /** @type {HTMLElement | null} */ (document.querySelector(`#findings [data-number="${number}"]`))?.focus({ preventScroll: true });
  document.querySelector("#findings li.open")?.scrollIntoView({ block: "nearest" });
}

/** @param {string} name */
function setView(name) {
  view = name;
  byId("view").value = name;
  stage.whole = true;
  return draw();
}

// --- changes

/** @type {Promise<void>} what is asked for while something else is under way waits for its turn */
let sending = Promise.resolve();

/** @param {any} asked */
function change(asked) {
  return send("change", () => ({ ...asked, revision: scene.revision }));
}

/** @param {string} path @param {() => any} [body] made when its turn comes */
function send(path, body = () => ({})) {
  sending = sending.then(() => sent(path, body()));
  return sending;
}

/** @param {string} path @param {any} body */
async function sent(path, body) {
  try {
    const made = await post(path, body);
    lastChange = made.difference;
    if (!lastChange) hand.stop();
    await until(() => state.problems.length > 0 || scene.revision === made.revision || (!state.step && state.shown !== state.on_disk));
  } catch (error) {
    hand.stop();
    const why = error instanceof Error ? error.message : String(error);
    if (error instanceof Refusal && (error.mine || error.theirs)) {
      dialog(said("page.nothing-written"), element("p", {}, why), element("h3", {}, said("page.change-here")), changes(error.mine), element("h3", {}, said("page.change-in-file")), changes(error.theirs));
    } else {
      tell(why);
      dialog(said("page.not-changed"), element("p", {}, why));
    }
    side();
  } finally {
    showStatus();
  }
}

/** Whether parts can be taken elsewhere one by one; says so where a pattern makes one. @param {string[]} wanted */
function mayMove(wanted) {
  const made = scene.parts.filter((/** @type {any} */ part) => wanted.includes(part.ref) && !part.own);
  if (!made.length) return true;
  const [part] = made;
  notice(said("page.made-by-pattern", part));
  return false;
}

/** Says something on the drawing for a while. @param {string} told */
function notice(told) {
  const place = byId("notice");
  place.textContent = told;
  place.hidden = false;
  unsaid();
}
const unsaid = settled(() => (byId("notice").hidden = true), 7000);

async function stop() {
  await post("stop").catch((error) => tell(error.message));
}

/** @param {() => boolean} done */
async function until(done) {
  for (let waited = 0; !done() && waited < 20000; waited += 20) await new Promise((next) => setTimeout(next, 20));
}

// --- words

let words = "";
/** @param {string} told */
function tell(told) {
  words = told;
  showStatus();
}

function showStatus() {
  const status = byId("status");
  status.replaceChildren();
  if (words) status.append(words);
  else if (state.step) status.append(said("page.working", { step: state.step }), " ", state.may_edit ? element("button", { onclick: stop }, said("page.stop")) : "");
  else if (state.drafting) status.append(said("page.working", { step: state.drafting }));
  else if (scene && state.on_disk !== scene.revision && !state.problems.length) status.append(said("page.drawing-outdated"));
  else if (lastChange) status.append(element("button", { onclick: () => dialog(said("page.last-change"), changes(lastChange)) }, said("page.saved")));
  else if (scene) status.append(scene.placement ? said("page.placement", { proof: scene.placement }) : "");
  document.body.dataset.step = state.step || state.drafting ? "working" : "done";
}

function showTrouble() {
  const trouble = byId("trouble");
  trouble.hidden = !state.problems.length;
  trouble.replaceChildren(
    ...state.problems.slice(0, 12).map((/** @type {any} */ one) =>
      element("p", {}, element("button", { onclick: () => source(one.line) }, `${one.file}:${one.line}:${one.column}`), " ", one.hint ? said("page.error-with-hint", { error: one.message, hint: one.hint }) : one.message),
    ),
    state.problems.length > 12 ? element("p", {}, said("page.errors-more", { count: state.problems.length - 12 })) : "",
  );
}

/** @param {number} line */
async function source(line) {
  const told = (await text("source")).split(/\r?\n/);
  const shown = element("pre", { class: "source" });
  told.forEach((one, index) => shown.append(element("span", { class: index + 1 === line ? "at" : null }, `${String(index + 1).padStart(4)}  ${one}`)));
  dialog(said("page.spec-line", { line }), shown);
  shown.children[line - 1]?.scrollIntoView({ block: "center" });
}

// --- dialogs

function addPart() {
  if (!state.may_edit || !scene) return;
  search(said("page.add-from-catalogue"), async (part) => {
    const grid = Number(byId("grid").value) || 0.1;
    const at = [stage.view.x, stage.view.y].map((value, axis) => Math.round((value - scene.datum[axis]) / grid) * grid + scene.datum[axis]);
    const before = new Set(scene.parts.map((/** @type {any} */ one) => one.ref));
    await change({ do: "add", part, at, ref: "" });
    choose(scene.parts.map((/** @type {any} */ one) => one.ref).filter((/** @type {string} */ ref) => !before.has(ref)));
  });
}

/** A search of the catalogue; what is chosen is taken. @param {string} title @param {(part: string) => void} take */
function search(title, take) {
  const found = element("div", { class: "list" });
  const field = /** @type {HTMLInputElement} */ (element("input", { type: "search", placeholder: said("page.search-example"), "aria-label": said("page.search") }));
  const chosen = (/** @type {string} */ part) => {
    close();
    take(part);
  };
  const look = async () => {
    const { parts, near, absent } = await json(`catalogue?${new URLSearchParams({ words: field.value })}`);
    const offered = (/** @type {any} */ part) =>
      element("button", { type: "button", onclick: () => chosen(part.name) }, part.name, element("small", {}, `${part.family}: ${part.title}`));
    found.replaceChildren(
      ...parts.map(offered),
      ...(near.length ? [element("p", {}, said("page.near-sizes")), ...near.map(offered)] : []),
      ...absent.map((/** @type {any} */ one) => element("p", {}, element("b", {}, one.title), ` ${one.told}`)),
      ...(parts.length + near.length + absent.length ? [] : [element("p", {}, said("page.nothing-found"))]),
    );
  };
  field.addEventListener("input", settled(look, 150));
  dialog(title, field, found);
  look();
}

/** @param {string} ref */
function copies(ref) {
  const field = (/** @type {number} */ value) => /** @type {HTMLInputElement} */ (element("input", { type: "number", step: "any", value }));
  const [count, x, y] = [field(3), field(20), field(0)];
  const make = element("button", { type: "button", class: "lead", onclick: () => {
    close();
    change({ do: "array", refs: [ref], count: count.valueAsNumber, step: [x.valueAsNumber, y.valueAsNumber] });
  } }, said("page.copies-create"));
  const fields = [
    element("label", {}, said("page.copies"), " ", count),
    element("label", {}, said("page.copies-step-right"), " ", x),
    element("label", {}, said("page.copies-step-up"), " ", y),
  ];
  dialog(said("page.copies-of", { ref }), ...fields.map((one) => element("p", { class: "tools" }, one)), element("p", { class: "tools" }, make));
}

function keysOf() {
  const rows = [
    ["Tab", said("page.shortcut-next")],
    ["Enter", said("page.shortcut-select")],
    ["Esc", said("page.shortcut-cancel")],
    [said("page.key-arrows"), said("page.shortcut-move")],
    ["R", said("page.shortcut-rotate")],
    ["Delete", said("page.shortcut-delete")],
    ["A", said("page.shortcut-add")],
    ["Ctrl+Z", said("page.shortcut-undo")],
    ["M", said("page.shortcut-measure")],
    ["+ −", said("page.shortcut-zoom")],
    ["0", said("page.shortcut-fit")],
    [said("page.key-alt-drag"), said("page.shortcut-free")],
    ...(state.asked === null ? [] : [["Q", said("page-parts.shortcut-question")], ["1 … 9", said("page-parts.shortcut-answer")], ["N", said("page-parts.shortcut-not-on-panel")]]),
  ];
  dialog(said("page.shortcuts"), element("dl", { class: "keys" }, ...rows.flatMap(([key, what]) => [element("dt", {}, key), element("dd", {}, what)])));
}

async function files() {
  const names = await json("files/all");
  dialog(said("page.files-of-make"), ...names.map((/** @type {string} */ name) => element("a", { href: `files/${name}`, download: name }, name)));
}

const trueScale = () => Number(localStorage.getItem("pixels-per-mm")) || 0;

function trueSize() {
  if (trueScale()) {
    stage.atScale(trueScale());
    byId("true-size").textContent = "1:1";
  }
  if (trueScale() && !trueSize.again) {
    trueSize.again = true;
    return;
  }
  trueSize.again = false;
  const bar = element("div", { id: "bar", role: "img", "aria-label": said("page.calibration-bar") });
  const slide = /** @type {HTMLInputElement} */ (element("input", { type: "range", min: 2, max: 12, step: 0.005, value: trueScale() || 96 / 25.4, "aria-label": said("page.calibration-length") }));
  const set = () => (bar.style.width = `${100 * slide.valueAsNumber}px`);
  slide.addEventListener("input", set);
  set();
  const keep = element("button", { type: "button", class: "lead", onclick: () => {
    localStorage.setItem("pixels-per-mm", slide.value);
    close();
    stage.atScale(slide.valueAsNumber);
    trueSize.again = true;
  } }, said("page.calibrated"));
  dialog(said("page.actual-size"), element("p", {}, said("page.calibrate")), bar, slide, element("p", { class: "tools" }, keep));
}
trueSize.again = false;

function print() {
  const [left, bottom, right, top] = stage.page;
  const svg = stage.svg;
  const before = svg.getAttribute("viewBox") ?? "";
  svg.setAttribute("viewBox", `${left} ${-top} ${right - left} ${top - bottom}`);
  svg.style.width = `${right - left}mm`;
  svg.style.height = `${top - bottom}mm`;
  window.print();
  svg.style.removeProperty("width");
  svg.style.removeProperty("height");
  svg.setAttribute("viewBox", before);
}

// --- keys and buttons

/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

document.addEventListener("keydown", (event) => {
  const typing = /** @type {HTMLElement} */ (event.target).matches?.("input, select, textarea") || byId("dialog").open;
  const command = event.ctrlKey || event.metaKey;
  if (command && event.key.toLowerCase() === "z" && !typing) {
    event.preventDefault();
    send(event.shiftKey ? "redo" : "undo");
    return;
  }
  if (typing || command || event.altKey && !(event.key in ARROWS)) return;
  if (state.asked !== null && questions.key(event.key)) return event.preventDefault();
  if (event.key in ARROWS && refs.length) {
    event.preventDefault();
    const size = event.altKey ? 0.1 : (Number(byId("grid").value) || 0.1) * (event.shiftKey ? 10 : 1);
    const [x, y] = ARROWS[event.key];
    hand.nudge([x * size, y * size]);
    return;
  }
  const part = /** @type {HTMLElement} */ (event.target).closest?.("[data-ref]")?.getAttribute("data-ref");
  if ((event.key === "Enter" || event.key === " ") && part) {
    event.preventDefault();
    choose(event.shiftKey ? [...new Set([...refs, part])] : [part]);
    return;
  }
  const turn = scene?.parts.find((/** @type {any} */ one) => one.ref === refs[0])?.turn ?? 0;
  /** @type {Record<string, () => void>} */
  const keys = {
    "+": () => stage.zoom(1.3),
    "=": () => stage.zoom(1.3),
    "-": () => stage.zoom(1 / 1.3),
    0: () => stage.fit(),
    m: () => byId("measure").click(),
    a: addPart,
    Escape: () => (hand.stop(), quiet.hide(), measure.on ? byId("measure").click() : choose([])),
    "?": keysOf,
    q: () => state.asked !== null && questions.goTo(),
    Delete: () => refs.length && state.may_edit && mayMove(refs) && change({ do: "delete", refs }),
    r: () => refs.length === 1 && state.may_edit && mayMove(refs) && change({ do: "turn", refs, turn: turn + (event.shiftKey ? -90 : 90) }),
  };
  const work = keys[event.key] ?? keys[event.key.toLowerCase()];
  if (work) work();
});

byId("keys").addEventListener("click", keysOf);
byId("undo").addEventListener("click", () => send("undo"));
byId("redo").addEventListener("click", () => send("redo"));
byId("add").addEventListener("click", addPart);
byId("files").addEventListener("click", files);
byId("print").addEventListener("click", print);
byId("view").addEventListener("change", (/** @type {any} */ event) => setView(event.target.value));
byId("in").addEventListener("click", () => stage.zoom(1.3));
byId("out").addEventListener("click", () => stage.zoom(1 / 1.3));
byId("fit").addEventListener("click", () => stage.fit());
byId("true-size").addEventListener("click", trueSize);
byId("measure").addEventListener("click", () => {
  measure.set(!measure.on);
  byId("measure").setAttribute("aria-pressed", String(measure.on));
});
byId("page-back").addEventListener("click", () => ((page = Math.max(1, page - 1)), draw()));
byId("page-on").addEventListener("click", () => ((page = Math.min(pageCount, page + 1)), draw()));
byId("theme").addEventListener("click", () => {
  const dark = document.documentElement.dataset.theme ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
  const next = dark === "dark" ? "light" : "dark";
  document.documentElement.dataset.theme = next;
  localStorage.setItem("theme", next);
});
const theme = localStorage.getItem("theme");
if (theme) document.documentElement.dataset.theme = theme;
setUpEye(settled(() => view === "eye" && draw(), 120));
listen();
