/**
 * Ink as values: strokes, the pages they are drawn on, and what is done to them. No DOM.
 *
 * @typedef {[number, number, number]} InkPoint  x, y on the floor, whole centimetres; pressure, 0 to 100
 * @typedef {object} Stroke
 * @property {string} id
 * @property {number} tool  index in TOOLS
 * @property {number} colour  index in COLOURS
 * @property {InkPoint[]} points
 * @property {boolean} [gone]  rubbed out
 *
 * @typedef {object} Place  a step, by its chain and the line up to it
 * @property {string} chain
 * @property {string[][]} line
 * @typedef {Place & {strokes: Stroke[]}} Page
 * @typedef {ReadonlyMap<string, Page>} Pages  by `keyOf`
 *
 * @typedef {Place & {do: "put", s: string, tool: number, colour: number, p: number[]}} Put
 * @typedef {Place & {do: "rub" | "back", ss: string[]}} Rub
 * @typedef {Put | Rub} Op
 */

/** Bounds are the server's too (webapp/wire/live_messages.py). */
export const TOOLS = /** @type {const} */ (["pen", "marker", "cut", "pass", "dribble", "screen", "hand"]);
/** Told apart by more than colour: plain, with a light seam, with an edge. */
export const COLOURS = /** @type {const} */ (["plain", "seam", "edge"]);
export const POINTS_MAX = 240;
/** How far a stroke may be from what was drawn, centimetres: under one CSS pixel on a tablet. */
export const TOLERANCE = 1.5;
/** Pressure of what does not feel any. */
export const EVEN = 50;
/** How much pressure may be off, of 100, where the line may be off by TOLERANCE. */
const PRESSED = 15;

/** @param {Place} place */
export const keyOf = ({ chain, line }) => `${chain}|${line.map((actions) => actions.join("+")).join(" ")}`;

/**
 * The points of a line that stay when none of those left out is further from it than `tolerance`
 * (Ramer 1972, Douglas and Peucker 1973).
 * @param {InkPoint[]} points
 * @param {number} [tolerance]  centimetres
 * @returns {InkPoint[]}
 */
export function simplify(points, tolerance = TOLERANCE) {
  if (points.length < 3) return points;
  const stays = new Uint8Array(points.length);
  stays[0] = stays[points.length - 1] = 1;
  const spans = [[0, points.length - 1]];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const [from, to] = span;
    let worst = 0;
    let at = 0;
    for (let i = from + 1; i < to; i++) {
      const off = offLine(points[i], points[from], points[to]);
      const share = Math.max(off.far, (off.pressed * TOLERANCE) / PRESSED) / tolerance;
      if (share > worst) [worst, at] = [share, i];
    }
    if (worst <= 1) continue;
    stays[at] = 1;
    spans.push([from, at], [at, to]);
  }
  return points.filter((_, i) => stays[i]);
}

/** As close to what was drawn as so many points can be. @param {InkPoint[]} points @param {number} [most] */
export function bounded(points, most = POINTS_MAX) {
  let tolerance = TOLERANCE;
  let made = simplify(points, tolerance);
  while (made.length > most) made = simplify(points, (tolerance *= 1.5));
  return made;
}

/** @param {InkPoint} point @param {InkPoint} a @param {InkPoint} b */
function offLine([x, y, p], [ax, ay, ap], [bx, by, bp]) {
  const [dx, dy] = [bx - ax, by - ay];
  const length = dx * dx + dy * dy;
  const u = length ? Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / length)) : 0;
  return { far: Math.hypot(x - ax - u * dx, y - ay - u * dy), pressed: Math.abs(p - ap - u * (bp - ap)) };
}

/**
 * Points as they cross the wire: three numbers each, the first as it is, each next one by what it differs.
 * @param {InkPoint[]} points
 * @param {InkPoint} [before]  the last one sent
 * @returns {number[]}
 */
export function encode(points, before = [0, 0, 0]) {
  return points.flatMap((point, i) => point.map((value, axis) => value - (points[i - 1] ?? before)[axis]));
}

/** @param {number[]} numbers @param {InkPoint} [before] @returns {InkPoint[]} */
export function decode(numbers, before = [0, 0, 0]) {
  /** @type {InkPoint[]} */
  const points = [];
  let last = before;
  for (let i = 0; i + 2 < numbers.length; i += 3) {
    last = [last[0] + numbers[i], last[1] + numbers[i + 1], last[2] + numbers[i + 2]];
    points.push(last);
  }
  return points;
}

/** What is seen of a page. @param {Page | null | undefined} page */
export const seen = (page) => (page ? page.strokes.filter(({ gone }) => !gone) : []);

/**
 * The pages after something was done; done twice, it is done once.
 * @param {Pages} pages
 * @param {Op} op
 * @returns {Pages}
 */
export function apply(pages, op) {
  const { chain, line } = op;
  const key = keyOf(op);
  const strokes = pages.get(key)?.strokes ?? [];
  /** @type {Stroke[]} */
  let next;
  if (op.do === "put") {
    if (strokes.some(({ id }) => id === op.s)) return pages;
    next = [...strokes, { id: op.s, tool: op.tool, colour: op.colour, points: decode(op.p) }];
  } else {
    const gone = op.do === "rub";
    next = strokes.map((stroke) => (op.ss.includes(stroke.id) ? { ...stroke, gone } : stroke));
  }
  return new Map(pages).set(key, { chain, line, strokes: next });
}

/**
 * The pages once the server has said all there is on one chain. What was rubbed out here stays within reach.
 * @param {Pages} pages
 * @param {import("../state/ink-line.js").InksMessage} message
 * @returns {Pages}
 */
export function replaced(pages, { chain, pages: given }) {
  const next = new Map(pages);
  for (const [key, page] of pages) {
    if (page.chain === chain) next.set(key, { ...page, strokes: page.strokes.map((stroke) => ({ ...stroke, gone: true })) });
  }
  for (const { line, strokes } of given) {
    const key = keyOf({ chain, line });
    const ids = new Set(strokes.map(([id]) => id));
    const there = strokes.map(([id, tool, colour, p]) => ({ id, tool, colour, points: decode(p) }));
    const away = (next.get(key)?.strokes ?? []).filter(({ id }) => !ids.has(id));
    next.set(key, { chain, line, strokes: [...away, ...there] });
  }
  return next;
}

/**
 * The strokes that a rubber touches.
 * @param {Stroke[]} strokes
 * @param {[number, number]} at  centimetres
 * @param {number} reach  centimetres
 */
export function touched(strokes, [x, y], reach) {
  /** @type {InkPoint} */
  const point = [x, y, 0];
  return strokes.filter(({ points, gone }) => !gone && points.some((b, i) => offLine(point, points[i - 1] ?? b, b).far <= reach));
}
