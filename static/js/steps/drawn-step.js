/** A scripted step as it is played and told: word for word what the server sends for the same text. Pure. */

import { PLAYERS, WHO, writeScript } from "./drawn-text.js";

/** A team-mate who runs past a screen no further off than this, centimetres, is who it is for; engine/script/telling.py has it too. */
const PAST_CM = 120;

/**
 * @typedef {import("./drawn-text.js").Script} Script
 * @typedef {import("./drawn-text.js").ScriptEvent} ScriptEvent
 * @typedef {import("../state/wire.js").Phrase} Phrase
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../state/wire.js").StepWire} StepWire
 */

/**
 * @param {Script} script
 * @param {Standing} before
 * @param {Record<string, Point>} spots  of the court it is played on, centimetres
 * @returns {StepWire}
 */
export function scriptStep(script, before, spots) {
  const placed = placedOn(script, spots);
  const { places, runs, events, ball } = placed;
  const here = { ...places };
  const ways = runs.map(({ who, style, start, lasts, points }) => {
    const path = [here[who], ...points].map(([x, y], i) => `${i ? "L" : "M"}${x} ${y}`).join("");
    here[who] = points[points.length - 1];
    return /** @type {StepWire["tl"]["runs"][0]} */ ([numbered(who), start / 100, lasts / 100, path, style]);
  });
  const end = Math.max(0, ...runs.map(({ start, lasts }) => start + lasts), ...events.map((event) => event.end)) / 100;
  const { holder } = ballEnd(script);
  const last = events[events.length - 1];
  return {
    a: [writeScript(script)],
    say: [[`script_${script.kind}`, {}]],
    who: PLAYERS.map((n) => [Number(n), ...phraseOf(script, n)]),
    ball: holder ? ["hold", { p: holder }] : last?.kind === "shot" ? ["shot", { p: last.giver }] : ["lies", {}],
    tl: { ready: end, end, runs: ways, ball: events.map(wired) },
    after: endOf(script, before, spots),
    from: places,
    ...(Array.isArray(ball) ? { lies: ball } : { has: ball }),
  };
}

/**
 * The position it ends in.
 * @param {Script} script
 * @param {Standing} before
 * @param {Record<string, Point>} spots  centimetres
 * @returns {Standing}
 */
export function endOf(script, before, spots) {
  const { holder, lies, over } = ballEnd(script);
  if (PLAYERS.every((n) => script.on[n]) && holder) return { at: { ...script.on }, ball: holder, cutter: null, over: false };
  const ends = endsOf(placedOn(script, spots));
  const off = Object.fromEntries(PLAYERS.map((n) => [n, ends[n]]));
  const has = holder || (over ? script.events[script.events.length - 1].giver : nearest(endsOf(script), /** @type {Point} */ (lies)));
  return { at: before.at, ball: has, cutter: null, over, off, ...(lies && !over ? { lies } : {}) };
}

/** The same on a court: whoever ends on a spot ends where it is there. @param {Script} script @param {Record<string, Point>} spots @returns {Script} */
export function placedOn(script, spots) {
  const { places, runs, on } = script;
  const moved = { ...places };
  /** @type {Map<import("./drawn-text.js").ScriptRun, Point>} */
  const last = new Map();
  for (const [n, spot] of Object.entries(on)) {
    const run = runs.filter(({ who }) => who === n).pop();
    if (run) last.set(run, spots[spot]);
    else moved[n] = spots[spot];
  }
  const bent = runs.map((run) => {
    const to = last.get(run);
    return to ? { ...run, points: [...run.points.slice(0, -1), to] } : run;
  });
  return { ...script, places: moved, runs: bent };
}

/** Where everybody ends. @param {Script} script @returns {Record<string, Point>} */
export function endsOf({ places, runs }) {
  const ends = { ...places };
  for (const { who, points } of runs) ends[who] = points[points.length - 1];
  return Object.fromEntries(WHO.filter((who) => ends[who]).map((who) => [who, ends[who]]));
}

/**
 * Who has the ball once these events have happened, or else where it lies; neither once it has been shot.
 * @param {Pick<Script, "ball" | "events">} script
 * @returns {{holder: number, lies: Point | null, over: boolean}}
 */
export function ballEnd({ ball, events }) {
  const last = events[events.length - 1];
  if (!last) return Array.isArray(ball) ? { holder: 0, lies: ball, over: false } : { holder: ball, lies: null, over: false };
  return { holder: last.taker, lies: last.place ?? null, over: last.kind === "shot" };
}

/** What a player does, first what matters most. @param {Script} script @param {string} n @returns {Phrase} */
function phraseOf({ places, runs, events, on }, n) {
  const p = Number(n);
  const s = on[n];
  const changes = events.filter(({ kind }) => kind === "pass" || kind === "hand");
  const gave = changes.filter(({ giver }) => giver === p).pop();
  const got = changes.filter(({ taker }) => taker === p).pop();
  const own = runs.filter(({ who }) => who === n);
  const there = s && own.length ? s : ""; // who ends on the spot he stood on goes nowhere
  /** @type {import("../state/wire.js").Params} */
  const goes = there ? { s: there } : {};
  if (events.some(({ kind, giver }) => kind === "shot" && giver === p)) return ["script_shoots", { p }];
  if (gave) return [`script_${gave.kind === "hand" ? "hands" : "passes"}${there ? "_goes" : ""}`, { p, m: gave.taker, ...goes }];
  if (got) return [there ? "script_gets_goes" : "script_gets", { p, m: got.giver, ...goes }];
  if (own.some(({ style }) => style === "screen")) {
    const m = screened({ places, runs }, n);
    return m ? ["script_screens_for", { p, m }] : ["script_screens", { p }];
  }
  if (there) return ["script_goes", { p, s: there }];
  return [own.length ? "script_runs" : "script_stays", { p }];
}

/**
 * Who runs closest past the last screen a player sets, while it stands or later; 0 if nobody does.
 * @param {Pick<Script, "places" | "runs">} script @param {string} n
 */
function screened({ places, runs }, n) {
  const screen = /** @type {Script["runs"][0]} */ (runs.filter(({ who, style }) => who === n && style === "screen").pop());
  const place = screen.points[screen.points.length - 1];
  let [found, least] = [0, PAST_CM ** 2];
  const at = { ...places };
  for (const { who, start, lasts, points } of runs) {
    if (PLAYERS.includes(who) && who !== n && start + lasts > screen.start) {
      [at[who], ...points].reduce((first, last) => {
        const far = farFrom(place, first, last);
        if (far < least) [found, least] = [Number(who), far];
        return last;
      });
    }
    at[who] = points[points.length - 1];
  }
  return found;
}

/** The square of the distance of a place from a straight piece of a run. @param {Point} place @param {Point} first @param {Point} last */
function farFrom(place, first, last) {
  const along = [last[0] - first[0], last[1] - first[1]];
  const to = [place[0] - first[0], place[1] - first[1]];
  const length = along[0] * along[0] + along[1] * along[1];
  const part = length ? Math.min(1, Math.max(0, (to[0] * along[0] + to[1] * along[1]) / length)) : 0;
  const [x, y] = [to[0] - part * along[0], to[1] - part * along[1]];
  return x * x + y * y;
}

/** @param {ScriptEvent} event @returns {StepWire["tl"]["ball"][0]} */
function wired({ kind, start, end, giver, taker, place }) {
  return [kind, start / 100, end / 100, giver, taker, ...(place ? /** @type {[Point]} */ ([place]) : /** @type {[]} */ ([]))];
}

/** Who of the five is nearest; of two, the lower number. @param {Record<string, Point>} ends @param {Point} place */
function nearest(ends, [x, y]) {
  const far = (/** @type {string} */ n) => (ends[n][0] - x) ** 2 + (ends[n][1] - y) ** 2;
  return Number(PLAYERS.reduce((best, n) => (far(n) < far(best) ? n : best)));
}

/** Players cross the wire as numbers. @param {string} who */
const numbered = (who) => (PLAYERS.includes(who) ? Number(who) : who);
