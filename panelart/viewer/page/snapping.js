// Where a part that is dragged comes to rest: in line with others, at equal gaps, else on the grid.

import { middle, moved } from "./measures.js";

/**
 * @param {import("./measures.js").Box} box  of what is dragged, where it was
 * @param {import("./measures.js").Point} centre  of the part in hand, where it was, from the datum
 * @param {import("./measures.js").Point} by  how far the hand has gone
 * @param {{box: import("./measures.js").Box, at: import("./measures.js").Point}[]} others  the rest, `at` from the datum
 * @param {{grid: number, reach: number}} how  grid in mm (0: none), and how near counts
 * @returns {{by: import("./measures.js").Point, lines: {x?: number, y?: number}}}  lines from the datum
 */
export function snapped(box, centre, by, others, how) {
  const result = /** @type {import("./measures.js").Point} */ ([...by]);
  /** @type {{x?: number, y?: number}} */
  const lines = {};
  for (const axis of /** @type {(0 | 1)[]} */ ([0, 1])) {
    const wanted = centre[axis] + by[axis];
    const candidates = others.map((other) => other.at[axis]);
    candidates.push(...evenly(box, by, others, axis).map((shift) => wanted + shift));
    const best = candidates
      .map((value) => ({ value, off: Math.abs(value - wanted) }))
      .filter((one) => one.off <= how.reach)
      .sort((a, b) => a.off - b.off)[0];
    if (best) {
      result[axis] = best.value - centre[axis];
      if (axis) lines.y = best.value;
      else lines.x = best.value;
    } else if (how.grid) {
      result[axis] = Math.round(wanted / how.grid) * how.grid - centre[axis];
    }
  }
  return { by: result, lines };
}

/**
 * Shifts along an axis that make the gaps to both neighbours, or to two on one side, the same.
 * @param {import("./measures.js").Box} box
 * @param {import("./measures.js").Point} by
 * @param {{box: import("./measures.js").Box}[]} others
 * @param {0 | 1} axis
 */
function evenly(box, by, others, axis) {
  const now = moved(box, by);
  const [low, high] = [axis, axis + 2];
  const across = 1 - axis;
  const row = others
    .map((other) => other.box)
    .filter((other) => other[across] < now[across + 2] && other[across + 2] > now[across]);
  const before = row.filter((other) => middle(other)[axis] < middle(now)[axis]).sort((a, b) => b[high] - a[high]);
  const after = row.filter((other) => middle(other)[axis] > middle(now)[axis]).sort((a, b) => a[low] - b[low]);
  const shifts = [];
  if (before[0] && after[0]) shifts.push((after[0][low] - now[high] - (now[low] - before[0][high])) / 2);
  if (before[1]) shifts.push(before[0][high] + (before[0][low] - before[1][high]) - now[low]);
  if (after[1]) shifts.push(after[0][low] - (after[1][low] - after[0][high]) - now[high]);
  return shifts;
}
