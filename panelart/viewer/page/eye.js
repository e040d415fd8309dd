// The operator's eye: a small sketch of panel and eye from the side, the eye to be dragged.

import { byId } from "./parts.js";
import { shape } from "./stage.js";

const FIELDS = ["distance", "height", "aside", "lean"];
const [WIDTH, HEIGHT] = [220, 150];

/** Where the eye is, mm and degrees. @returns {Record<string, number>} */
export const eye = () => Object.fromEntries(FIELDS.map((name) => [name, Number(byId(`eye-${name}`).value)]));

/** Puts the eye somewhere. @param {Record<string, number>} where */
export function look(where) {
  for (const name of FIELDS) byId(`eye-${name}`).value = where[name];
  sketch();
}

/** @param {() => void} changed */
export function setUp(changed) {
  for (const name of FIELDS) byId(`eye-${name}`).addEventListener("input", () => (sketch(), changed()));
  const side = byId("side");
  const drag = (/** @type {PointerEvent} */ event) => {
    const box = side.getBoundingClientRect();
    const [scale, shown] = [perMillimetre(), WIDTH / box.width];
    const [x, y] = [(event.clientX - box.left) * shown, (event.clientY - box.top) * shown];
    byId("eye-distance").value = Math.max(50, Math.round((x - 30) / scale / 10) * 10);
    byId("eye-height").value = Math.round((HEIGHT * 0.7 - y) / scale / 10) * 10;
    sketch();
    changed();
  };
  side.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    side.setPointerCapture(event.pointerId);
    held = perMillimetre();
    drag(event);
  });
  side.addEventListener("pointermove", (/** @type {PointerEvent} */ event) => side.hasPointerCapture(event.pointerId) && drag(event));
  side.addEventListener("pointerup", () => ((held = 0), sketch()));
}

/** The sketch's scale while the eye is in hand, so that it does not swim; 0 when it is not. */
let held = 0;

function perMillimetre() {
  if (held) return held;
  const { distance, height } = eye();
  return Math.min((WIDTH - 60) / Math.max(distance, 300), (HEIGHT * 0.55) / Math.max(Math.abs(height), 200));
}

function sketch() {
  const side = byId("side");
  const { distance, height, lean } = eye();
  const scale = perMillimetre();
  const [x, y] = [30, HEIGHT * 0.7];
  const turn = (lean * Math.PI) / 180;
  const [dx, dy] = [-Math.sin(turn) * 26, -Math.cos(turn) * 26];
  side.replaceChildren();
  shape("path", { class: "plate", d: `M${x - dx} ${y - dy}L${x + dx} ${y + dy}` }, side);
  const [ex, ey] = [x + distance * scale, y - height * scale];
  shape("path", { class: "ray", d: `M${x} ${y}L${ex} ${ey}` }, side);
  shape("circle", { class: "dot", cx: ex, cy: ey, r: 7 }, side);
}
