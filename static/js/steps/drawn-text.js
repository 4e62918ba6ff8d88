/**
 * The text form of a scripted step: a step that follows a drawing instead of the rules. Pure.
 *
 * Lengths are whole centimetres on the court, times hundredths of a second, as they stand in the text. What is read
 * here is sound in itself: whoever gives the ball has it, nobody is in two places at once.
 */

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").StepWire} StepWire
 *
 * @typedef {object} ScriptRun  one actor along one way, which begins where he then is
 * @property {string} who  player, or x1 to x5 a defender, c the coach
 * @property {"cut" | "dribble" | "screen"} style
 * @property {number} start
 * @property {number} lasts
 * @property {Point[]} points
 *
 * @typedef {object} ScriptEvent  what the ball does
 * @property {"pass" | "hand" | "shot" | "loose" | "gather"} kind
 * @property {number} start
 * @property {number} end
 * @property {number} giver  0 for nobody: it lies on the floor
 * @property {number} taker  0 for nobody: the basket, or the floor
 * @property {Point} [place]  where it is left
 *
 * @typedef {object} Script
 * @property {string} kind  side | base | timeout | last | entry | free
 * @property {Record<string, Point>} places  where each actor stands at the start; k1 to k6 are cones
 * @property {number | Point} ball  who has it, or where it lies
 * @property {ScriptRun[]} runs  by start, then in the order of `WHO`
 * @property {ScriptEvent[]} events  in order, none overlapping
 * @property {Record<string, string>} on  the spots of those who end on one, by player
 */

export const PREFIX = "script:";
export const KINDS = ["side", "base", "timeout", "last", "entry", "free"];
export const PLAYERS = ["1", "2", "3", "4", "5"];
/** Everybody and everything that can be in one, in the order of the text. */
export const WHO = [...PLAYERS, "x1", "x2", "x3", "x4", "x5", "c", "k1", "k2", "k3", "k4", "k5", "k6"];
/** Most there may be: characters, runs, points of a run, events; centimetres from the basket; hundredths. */
export const MOST = { text: 4096, runs: 40, points: 40, events: 20, far: 2000, time: 3000 };

/** @type {Record<string, ScriptRun["style"]>} */
const STYLES = { c: "cut", d: "dribble", s: "screen" };
/** @type {Record<string, ScriptEvent["kind"]>} */
const EVENTS = { p: "pass", h: "hand", s: "shot", l: "loose", g: "gather" };
const FORM = /^script:as=([a-z]+);at=([^;]+);ball=([^;]+)((?:;go=[^;]+)*)((?:;do=[^;]+)*)(?:;on=([^;]+))?$/;

/** Whether a step follows a drawing. @param {{a: string[]}} step */
export function isScript(step) {
  return step.a[0].startsWith(PREFIX);
}

/** Everything but five players. @param {string} who */
export const isExtra = (who) => !PLAYERS.includes(who);

/** What a text form says; null if it is none. @param {string} text @returns {Script | null} */
export function readScript(text) {
  const found = text.length <= MOST.text ? FORM.exec(text) : null;
  if (!found) return null;
  const [, kind, at, ball, runs, events, on] = found;
  const has = ball.split(",").map(Number);
  const script = {
    kind,
    places: Object.fromEntries(chunks(at.split(","), 3).map(([who, x, y]) => [who, pair(x, y)])),
    ball: has.length > 1 ? pair(has[0], has[1]) : has[0],
    runs: parts(runs).map(readRun),
    events: parts(events).map(readEvent),
    on: Object.fromEntries(chunks(on?.split(",") ?? [], 2)),
  };
  // What is out of order, said twice or written in another way does not come back the same.
  return isSound(script) && writeScript(script) === text ? script : null;
}

/** The text form. @param {Script} script */
export function writeScript({ kind, places, ball, runs, events, on }) {
  return PREFIX + [
    `as=${kind}`,
    `at=${WHO.filter((who) => places[who]).map((who) => [who, ...places[who]]).join()}`,
    `ball=${ball}`,
    ...runs.map(({ who, style, start, lasts, points }) => `go=${[who, letter(STYLES, style), start, lasts, ...points.flat()]}`),
    ...events.map(({ kind: what, start, end, giver, taker, place }) =>
      `do=${[letter(EVENTS, what), start, end, ...[giver, taker].filter(Boolean), ...(place ?? [])]}`),
    ...(Object.keys(on).length ? [`on=${PLAYERS.filter((n) => on[n]).map((n) => [n, on[n]]).join()}`] : []),
  ].join(";");
}

/** Whether all of it can happen. @param {Script} script */
export function isSound({ kind, places, ball, runs, events, on }) {
  return KINDS.includes(kind) && PLAYERS.every((n) => places[n]) && Object.values(places).every(isPlace)
    && (Array.isArray(ball) ? isPlace(ball) : isPlayer(ball)) && areRuns(runs, places) && areEvents(events, ball)
    && Object.entries(on).every(([n, spot]) => PLAYERS.includes(n) && /^[a-z_]+$/.test(spot))
    && new Set(Object.values(on)).size === Object.keys(on).length;
}

/** @param {ScriptRun[]} runs @param {Script["places"]} places */
function areRuns(runs, places) {
  /** @type {Record<string, number>} */
  const free = {};
  let [before, rank] = [-1, -1];
  for (const { who, style, start, lasts, points } of runs) {
    const own = WHO.indexOf(who);
    if (!places[who] || who.startsWith("k") || (style !== "cut" && isExtra(who)) || !letter(STYLES, style)) return false;
    if (!areTimes(start, start + lasts) || lasts < 1 || start < (free[who] ?? 0)) return false;
    if (start < before || (start === before && own < rank)) return false;
    if (!points.length || points.length > MOST.points || !points.every(isPlace)) return false;
    [before, rank, free[who]] = [start, own, start + lasts];
  }
  return runs.length <= MOST.runs;
}

/** @param {ScriptEvent[]} events @param {Script["ball"]} ball */
function areEvents(events, ball) {
  /** Who has the ball; 0: it lies; -1: it is shot. */
  let holder = Array.isArray(ball) ? 0 : ball;
  let before = 0;
  for (const { kind, start, end, giver, taker, place } of events) {
    const gives = kind !== "gather";
    const takes = kind !== "shot" && kind !== "loose";
    if (!areTimes(start, end) || start < before || !letter(EVENTS, kind) || holder < 0) return false;
    if (giver !== holder || Boolean(giver) !== gives || (takes ? !isPlayer(taker) || taker === giver : taker !== 0)) return false;
    if (kind === "loose" ? !place || !isPlace(place) : place) return false;
    holder = kind === "shot" ? -1 : taker;
    before = end;
  }
  return events.length <= MOST.events;
}

/** @param {number} start @param {number} end */
const areTimes = (start, end) => Number.isInteger(start) && Number.isInteger(end) && start >= 0 && end >= start && end <= MOST.time;

/** @param {number} player */
const isPlayer = (player) => PLAYERS.includes(String(player));

/** @param {Point} place */
const isPlace = (place) => place.length === 2 && place.every((v) => Number.isInteger(v) && Math.abs(v) <= MOST.far);

/** @param {string} part @returns {ScriptRun} */
function readRun(part) {
  const [who, style, start, lasts, ...points] = part.split(",");
  return { who, style: STYLES[style], start: Number(start), lasts: Number(lasts), points: chunks(points, 2).map(([x, y]) => pair(x, y)) };
}

/** @param {string} part @returns {ScriptEvent} */
function readEvent(part) {
  const [what, ...rest] = part.split(",");
  const [start, end, ...given] = rest.map(Number);
  const kind = EVENTS[what];
  const [giver, taker] = kind === "gather" ? [0, given[0]] : kind === "shot" || kind === "loose" ? [given[0], 0] : given;
  return { kind, start, end, giver, taker, ...(kind === "loose" ? { place: pair(given[1], given[2]) } : {}) };
}

/** The repeated segments. @param {string} text  each after a semicolon and a name of two letters */
const parts = (text) => text.split(";").slice(1).map((part) => part.slice(3));

/** @param {unknown} x @param {unknown} y @returns {Point} */
const pair = (x, y) => [Number(x), Number(y)];

/** @template T @param {T[]} list @param {number} size @returns {T[][]} */
const chunks = (list, size) => list.flatMap((_, i) => (i % size ? [] : [list.slice(i, i + size)]));

/** @param {Record<string, string>} words @param {string} word  the letter it is written as */
const letter = (words, word) => Object.keys(words).find((key) => words[key] === word);
