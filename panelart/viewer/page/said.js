// The page's words: one catalogue that came with the page, sentences by id with {slots}.

/** @type {Record<string, string | [string, string]>} a counted sentence has a form for one and a form for more */
const CATALOGUE = JSON.parse(document.getElementById("sentences")?.textContent ?? "{}");

/**
 * A sentence in the language of the page.
 * @param {string} id
 * @param {Record<string, unknown>} [slots] `count` also chooses the form of a counted sentence
 */
export function said(id, slots = {}) {
  const forms = CATALOGUE[id];
  const text = typeof forms === "string" ? forms : forms[slots.count === 1 ? 0 : 1];
  return text.replace(/\{(\w+)\}/g, (_, name) => String(slots[name]));
}
