// Plane geometry in panel millimetres: x right, y up, from the lower-left corner.

/** @typedef {[number, number]} Point */
/** @typedef {[number, number, number, number]} Box  left, bottom, right, top */

/** @param {number} value @param {number} [decimals] */
export const figure = (value, decimals = 2) => {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
};

/** @param {Box} box @param {Point} by @returns {Box} */
export const moved = (box, by) => [box[0] + by[0], box[1] + by[1], box[2] + by[0], box[3] + by[1]];

/** @param {Box} box @returns {Point} */
export const middle = (box) => [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];

/** @param {Box[]} boxes @returns {Box} */
export const around = (boxes) => [
  Math.min(...boxes.map((box) => box[0])),
  Math.min(...boxes.map((box) => box[1])),
  Math.max(...boxes.map((box) => box[2])),
  Math.max(...boxes.map((box) => box[3])),
];

/** How far apart two boxes are, 0 where they touch. @param {Box} one @param {Box} other */
export const apart = (one, other) =>
  Math.hypot(
    Math.max(0, other[0] - one[2], one[0] - other[2]),
    Math.max(0, other[1] - one[3], one[1] - other[3]),
  );

/** The point of a stretch that is nearest to a point. @param {Point} p @param {Point} a @param {Point} b @returns {Point} */
function nearest(p, a, b) {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = dx * dx + dy * dy;
  const share = length ? Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length)) : 0;
  return [a[0] + share * dx, a[1] + share * dy];
}

/** @param {Point} p @param {Point[]} ring */
function inside(p, ring) {
  let odd = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [a, b] = [ring[i], ring[j]];
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0]) odd = !odd;
  }
  return odd;
}

/**
 * The shortest way between two closed outlines: its ends and its length, 0 where one covers some of the other.
 * @param {Point[]} one @param {Point[]} other
 * @returns {{from: Point, to: Point, length: number}}
 */
export function gap(one, other) {
  if (inside(one[0], other) || inside(other[0], one)) return { from: one[0], to: one[0], length: 0 };
  let best = { from: one[0], to: other[0], length: Infinity };
  const try_ = (/** @type {Point} */ from, /** @type {Point} */ to) => {
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (length < best.length) best = { from, to, length };
  };
  for (let i = 0; i < one.length; i++) {
    const [a, b] = [one[i], one[(i + 1) % one.length]];
    for (let j = 0; j < other.length; j++) {
      const [c, d] = [other[j], other[(j + 1) % other.length]];
      if (crosses(a, b, c, d)) return { from: a, to: a, length: 0 };
      try_(a, nearest(a, c, d));
      try_(nearest(c, a, b), c);
    }
  }
  return best;
}

/** @param {Point} a @param {Point} b @param {Point} c @param {Point} d */
function crosses(a, b, c, d) {
  const side = (/** @type {Point} */ p, /** @type {Point} */ q, /** @type {Point} */ r) =>
    Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
