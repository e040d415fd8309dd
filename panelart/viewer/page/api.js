// What is asked of the server. Every address is relative, so that it carries the token of this page's own.

import { said } from "./said.js";

/** An answer that is not what was hoped for: `why` in words, for conflicts both sides as differences. */
export class Refusal extends Error {
  /** @param {{why: string, mine?: string, theirs?: string}} told */
  constructor(told) {
    super(told.why);
    this.mine = told.mine ?? "";
    this.theirs = told.theirs ?? "";
  }
}

/** @param {Response} answer */
async function checked(answer) {
  if (answer.ok) return answer;
  const text = await answer.text();
  try {
    throw new Refusal(JSON.parse(text));
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal({ why: text || said("page.server-error", { status: answer.status }) });
  }
}

/** @param {string} path */
export const json = async (path) => (await checked(await fetch(path))).json();

/** @param {string} path */
export const text = async (path) => (await checked(await fetch(path))).text();

const PARTS = new Set(["svg", "g", "path", "circle", "ellipse", "rect", "line", "polyline", "polygon", "title", "desc", "text", "tspan", "defs", "clipPath", "linearGradient", "radialGradient", "stop", "image", "use"]);

/**
 * A drawing of the server. Only shapes are let in: no script, no style, no reference to elsewhere.
 * @param {string} path
 * @returns {Promise<{svg: SVGSVGElement, page: number[] | null, pages: number, revision: string | null}>}
 */
export async function drawing(path) {
  const answer = await checked(await fetch(path));
  const parsed = new DOMParser().parseFromString(await answer.text(), "image/svg+xml");
  const svg = /** @type {any} */ (document.importNode(parsed.documentElement, true));
  for (const node of [...svg.querySelectorAll("*"), svg]) {
    if (!PARTS.has(node.localName)) {
      node.remove();
      continue;
    }
    for (const attribute of [...node.attributes]) {
      const name = attribute.localName.toLowerCase();
      const refers = name === "href" && !/^(#|data:image\/(png|jpeg);base64,)/.test(attribute.value);
      if (name.startsWith("on") || name === "style" || refers) node.removeAttributeNode(attribute);
    }
  }
  const page = answer.headers.get("X-Page");
  return {
    svg,
    page: page ? page.split(",").map(Number) : null,
    pages: Number(answer.headers.get("X-Pages") ?? 0),
    revision: answer.headers.get("X-Revision"),
  };
}

/**
 * What is sent arrives even when the page is closed in the same moment.
 * @param {string} path
 * @param {object} [body]
 */
export async function post(path, body = {}) {
  const headers = { "Content-Type": "application/json" };
  return (await checked(await fetch(path, { method: "POST", headers, body: JSON.stringify(body), keepalive: true }))).json();
}
