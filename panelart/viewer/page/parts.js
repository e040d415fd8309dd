// Small pieces of a page.

/**
 * An element with its attributes and what is in it; texts are texts, never markup.
 * @param {string} name
 * @param {Record<string, any>} [attributes] `on...` are listeners
 * @param {...(Node | string | null | undefined | false)} inside
 */
export function element(name, attributes = {}, ...inside) {
  const node = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith("on")) node.addEventListener(key.slice(2), value);
    else if (value === true) node.setAttribute(key, "");
    else if (value !== false && value !== null && value !== undefined) node.setAttribute(key, String(value));
  }
  node.append(...inside.filter((one) => one !== null && one !== undefined && one !== false));
  return node;
}

/** @param {string} id @returns {any} */
export const byId = (id) => document.getElementById(id);

/** Lines of a difference, what came and what went told apart. @param {string} difference */
export function changes(difference) {
  const shown = element("pre", { class: "difference" });
  for (const line of difference.split("\n")) {
    const kind = line.startsWith("+") ? "ins" : line.startsWith("-") ? "del" : "span";
    shown.append(element(kind, {}, `${line}\n`));
  }
  return shown;
}

/** Puts words and things into the one dialog and opens it. @param {string} title @param {...Node} inside */
export function dialog(title, ...inside) {
  byId("dialog-title").textContent = title;
  byId("dialog-body").replaceChildren(...inside);
  if (!byId("dialog").open) byId("dialog").showModal();
}

export const close = () => byId("dialog").close();

/** Waits until nothing was asked for a while, then does the last thing asked. @param {(...all: any[]) => void} work @param {number} ms */
export function settled(work, ms) {
  let timer = 0;
  return (/** @type {any[]} */ ...all) => {
    clearTimeout(timer);
    timer = setTimeout(() => work(...all), ms);
  };
}
