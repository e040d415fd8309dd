// The questions about a component list: each with its rows, its candidates and their holes, answered by one click or key.

import { drawing } from "./api.js";
import { changes, element } from "./parts.js";
import { said } from "./said.js";

const NONE = "none";
const MEASURE = "measure";
const OPEN = "?";

/** Screen pixels for a millimetre of a picture: its own size at 96 dots an inch. */
const PIXELS = 96 / 25.4;

/**
 * @typedef {{name: string, title: string, lines: [string, string][]}} Candidate
 * @typedef {{id: string, refs: string[], rows: number[], words: string[], numbers: string[], why: string, answer: string | null, scale: [number, number] | null, candidates: Candidate[], rooms: Record<string, number[]>}} Question
 */

export class Questions {
  /**
   * @param {HTMLElement} place
   * @param {{answer: (question: string, part: string) => Promise<boolean>, search: (take: (part: string) => void) => void, mayEdit: () => boolean, opened: () => void, tell: (words: string) => void, errors: () => number, arrange: () => void}} hooks
   */
  constructor(place, hooks) {
    this.place = place;
    this.hooks = hooks;
    /** @type {any} */
    this.told = null;
    /** the question that is open, "" for none @type {string} */
    this.open = "";
    this.pictures = new Map();
    /** answers under way, by question: shown as given, so that the next key is for the next question @type {Map<string, string>} */
    this.under = new Map();
    this.began = false;
  }

  /** @returns {Question[]} */
  get all() {
    return this.told?.questions ?? [];
  }

  /** @returns {Question | undefined} */
  get current() {
    return this.all.find((one) => one.id === this.open);
  }

  /** Shows a state of the questions. @param {any} told */
  show(told) {
    this.told = told;
    for (const one of this.all) this.#overlay(one);
    if (!this.began) this.open = this.#next()?.id ?? "";
    this.began = true;
    this.draw();
  }

  draw() {
    if (!this.told) return;
    const held = this.#held();
    const left = this.all.filter((one) => !one.answer).length;
    const head = this.all.length ? said("page-parts.questions-left", { left, count: this.all.length, file: this.told.file }) : said("page-parts.questions-none", { file: this.told.file });
    this.place.hidden = false;
    this.place.replaceChildren(
      element("h2", { id: "questions-head", tabindex: "-1" }, head),
      ...this.#trouble(),
      element("ol", {}, ...this.all.map((one, index) => this.#row(one, index))),
      ...this.#arranging(),
      this.all.length && !left ? element("p", { class: "done" }, said("page-parts.questions-done", { file: this.told.answers })) : "",
    );
    if (held) /** @type {HTMLElement | null} */ (this.place.querySelector(held))?.focus({ preventScroll: true });
  }

  /** Goes to a question, or closes it where it is open. @param {string} id */
  choose(id) {
    this.open = this.open === id ? "" : id;
    this.#turn(false);
  }

  /** Goes to the question that is open, else to the first without an answer. */
  goTo() {
    this.open ||= this.#next()?.id ?? this.all[0]?.id ?? "";
    this.#turn(true);
  }

  /** Whether a key answered. @param {string} key */
  key(key) {
    const question = this.current;
    if (!question || !this.hooks.mayEdit()) return false;
    if (key.toLowerCase() === "n") this.answer(question, NONE);
    else if (/^[1-9]$/.test(key) && Number(key) <= question.candidates.length + 1) {
      this.answer(question, question.candidates[Number(key) - 1]?.name ?? MEASURE);
    } else return false;
    return true;
  }

  /** @param {Question} question @param {string} part */
  async answer(question, part) {
    const before = question.answer;
    this.under.set(question.id, part);
    this.#overlay(question);
    if (part !== OPEN) this.open = this.#next(this.all.indexOf(question))?.id ?? "";
    this.#turn(part !== OPEN);
    const left = this.all.filter((one) => !one.answer).length;
    const saved = await this.hooks.answer(question.id, part);
    if (this.under.get(question.id) === part) this.under.delete(question.id);
    const refs = question.refs.join(", ");
    if (saved) {
      this.hooks.tell(part === OPEN ? said("page-parts.question-reopened", { refs }) : said("page-parts.question-answered", { refs, answer: this.#named(part), left, file: this.told.answers }));
      return;
    }
    const now = this.all.find((one) => one.id === question.id);
    if (now) now.answer = before;
    this.open = question.id;
    this.#turn(false);
  }

  /** Shows the question that is open now. @param {boolean} focus whether the keyboard goes there */
  #turn(focus) {
    this.draw();
    this.hooks.opened();
    if (focus) this.#focus();
  }

  /** @param {Question} question */
  #overlay(question) {
    const part = this.under.get(question.id);
    if (part) question.answer = part === OPEN ? null : part;
  }

  /** The next question without an answer after a place, round to the first. @param {number} [at] */
  #next(at = -1) {
    return [...this.all.slice(at + 1), ...this.all.slice(0, at + 1)].find((one) => !one.answer);
  }

  #focus() {
    const target = this.place.querySelector(this.open ? `#q-${this.open} > h3 > button` : "#questions-head");
    /** @type {HTMLElement | null} */ (target)?.focus({ preventScroll: true });
    (this.open ? target?.closest("li") : target)?.scrollIntoView({ block: "start" });
  }

  /** What has the focus here, as a selector that finds it again. */
  #held() {
    const node = document.activeElement;
    if (!node || !this.place.contains(node)) return "";
    const row = node.closest("li");
    const part = node.getAttribute("data-part");
    if (!row) return node.closest(".arranging") ? ".arranging button" : "#questions-head";
    return part ? `#${row.id} [data-part="${CSS.escape(part)}"]` : `#${row.id} > h3 > button`;
  }

  *#trouble() {
    for (const one of this.told.trouble) yield element("p", { class: "care", role: "alert" }, one);
    if (this.told.mine || this.told.theirs) {
      const both = [element("h3", {}, said("page.change-here")), changes(this.told.mine), element("h3", {}, said("page.change-in-file")), changes(this.told.theirs)];
      yield element("details", {}, element("summary", {}, said("page-parts.questions-conflict")), ...both);
    }
  }

  /** Parts that are answered may be larger than the room that was kept: then new places are offered. */
  *#arranging() {
    if (!this.hooks.mayEdit() || !this.all.some((one) => one.answer)) return;
    const errors = this.hooks.errors();
    const button = element("button", { type: "button", class: errors ? "lead" : null, title: said("page-parts.arrange-again-means"), onclick: this.hooks.arrange }, said("page-parts.arrange-again"));
    yield element("p", { class: "tools arranging" }, button, errors ? element("span", { class: "care" }, said("page-parts.arrange-for-errors", { count: errors })) : "");
  }

  /** @param {string} part */
  #named(part) {
    if (part === NONE) return said("page-parts.answer-not-on-panel");
    return part === MEASURE ? said("page-parts.answer-measure") : part;
  }

  /** @param {Question} question @param {number} index */
  #row(question, index) {
    const open = question.id === this.open;
    const answer = question.answer ? this.#named(question.answer) : said("page-parts.question-open");
    const head = element(
      "button",
      { type: "button", "aria-expanded": String(open), "aria-controls": open ? `q-${question.id}-body` : null, onclick: () => this.choose(question.id) },
      element("span", { class: "mark", "aria-hidden": "true" }, question.answer ? "✓" : String(index + 1)),
      element("span", {}, element("b", {}, question.refs.join(", ")), ` ${question.words.join("; ")}`),
      element("span", { class: "refs" }, answer),
    );
    const kind = `${open ? "open" : ""} ${question.answer ? "answered" : ""}`;
    return element("li", { id: `q-${question.id}`, class: kind }, element("h3", {}, head), open ? this.#body(question) : "");
  }

  /** @param {Question} question */
  #body(question) {
    const mayEdit = this.hooks.mayEdit();
    const choice = (/** @type {string} */ part, /** @type {string} */ key, /** @type {(Node | string)[]} */ ...inside) =>
      element(
        "button",
        { type: "button", class: "candidate", "data-part": part, disabled: !mayEdit, "aria-pressed": String(question.answer === part), "aria-keyshortcuts": key, onclick: () => this.answer(question, part) },
        element("kbd", { "aria-hidden": "true" }, key),
        element("span", { class: "told" }, ...inside),
      );
    const last = question.candidates.length + 1;
    const known = [NONE, MEASURE, ...question.candidates.map((one) => one.name)];
    const other = question.answer && !known.includes(question.answer) ? question.answer : "";
    return element(
      "div",
      { id: `q-${question.id}-body`, class: "more", role: "group", "aria-label": said("page-parts.question-of", { refs: question.refs.join(", ") }) },
      element("p", { class: "refs" }, said("page-parts.question-rows", { count: question.rows.length, rows: question.rows.join(", ") }), question.numbers.length ? ` · ${said("page-parts.question-numbers", { numbers: question.numbers.join(", ") })}` : ""),
      question.why ? element("p", {}, question.why) : "",
      question.scale ? element("p", { class: "refs" }, said("page-parts.question-scale", { paper: question.scale[0], real: question.scale[1] })) : "",
      ...question.candidates.map((one, index) =>
        choice(
          one.name,
          index < 9 ? String(index + 1) : "",
          element("b", {}, one.name),
          element("span", {}, one.title),
          this.#picture(question, index + 1),
          ...one.lines.map(([line, says]) => element("span", { class: line }, says)),
        ),
      ),
      choice(MEASURE, last <= 9 ? String(last) : "", element("b", {}, said("page-parts.answer-none-of-these")), element("span", {}, said("page-parts.answer-none-of-these-means"))),
      choice(NONE, "N", element("b", {}, said("page-parts.answer-not-on-panel"))),
      mayEdit
        ? element(
            "p",
            { class: "tools" },
            element("button", { type: "button", "data-part": "other", onclick: () => this.hooks.search((part) => this.answer(question, part)) }, said("page-parts.answer-other")),
            other ? element("b", {}, other) : "",
            question.answer ? element("button", { type: "button", "data-part": OPEN, onclick: () => this.answer(question, OPEN) }, said("page-parts.answer-take-back")) : "",
          )
        : "",
    );
  }

  /** A candidate and its hole, drawn once. @param {Question} question @param {number} number */
  #picture(question, number) {
    const place = element("span", { class: "picture", "aria-hidden": "true" });
    const path = `candidate/${question.id}/${number}.svg`;
    const put = (/** @type {SVGSVGElement} */ svg) => place.replaceChildren(svg.cloneNode(true));
    const known = this.pictures.get(path);
    if (known) put(known);
    else {
      drawing(path).then(
        ({ svg, page }) => {
          if (page) svg.setAttribute("width", String((page[2] - page[0]) * PIXELS));
          svg.removeAttribute("height");
          this.pictures.set(path, svg);
          put(svg);
        },
        () => place.remove(),
      );
    }
    return place;
  }
}
