/** What may be tapped in a position, out of a pack: in the very form the server sends it. */

import { at } from "./columns.js";
import { joined, runOnce } from "./joined.js";

/**
 * @typedef {import("./pack.js").Pack} Pack
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../state/wire.js").Offer} Offer
 *
 * @typedef {{may: string[] | null, lane: string[]}} Licence  what a player may do, and what he does first as a cutter
 *
 * @typedef {object} Terms  on which a pack is played from
 * @property {number} level
 * @property {string[] | null} installed  kinds of actions taught so far; null: all
 * @property {Record<string, Licence>} licences  by place; left out: may do everything
 */

/**
 * @param {Pack} pack @param {Standing} standing @param {Terms} terms
 * @returns {import("../state/state.js").Menu | null}  null where the pack does not know the position
 */
export function menu(pack, standing, terms) {
  if (standing.over) return { offers: [], withheld: [] };
  const found = pack.find(standing);
  if (!found) return null;
  const taught = (/** @type {number} */ action) => !terms.installed || terms.installed.includes(pack.actions[action].kind);
  const now = pack.legal(found).filter(({ action }) => taught(action));
  const fallback = pack.defaultOf(found);
  const choice = chosen(pack, standing, terms, now.map(({ action }) => action), fallback);
  const made = now.map(({ action, outcome }) => {
    const step = pack.step(outcome, action, standing, found.turned);
    const tl = pack.timeline(pack.outcomes, outcome, standing, found.turned, terms.level);
    return { parts: [{ action, standing }], offer: offerOf(pack, [step], action, tl, standing, action === choice) };
  });
  const first = now.find(({ action }) => action === choice);
  if (first && choice !== null) {
    const lane = pack.step(first.outcome, choice, standing, found.turned);
    const legal = new Set(now.map(({ action }) => action));
    const more = [...followed(pack, standing, found, lane, first, legal, choice === fallback, taught, terms.level)];
    for (const { action, offer } of more.sort((a, b) => a.action - b.action)) {
      made.push({ parts: [{ action: choice, standing }, { action, standing: lane.after }], offer });
    }
  }
  /** @type {Offer[]} */
  const offers = [];
  /** @type {import("../state/wire.js").Withheld[]} */
  const withheld = [];
  for (const { parts, offer } of made) {
    const lacking = parts.map((part) => lacks(pack, part.action, part.standing, terms)).find((number) => number !== null);
    if (lacking === undefined || lacking === null) offers.push(offer);
    else withheld.push({ act: offer.act, a: offer.a[offer.a.length - 1], p: lacking });
  }
  return { offers, withheld };
}

/**
 * One step of a line: its one action, or a lane choice and the ball action over it; null if the pack has no such.
 * @param {Pack} pack @param {Standing} standing @param {string[]} actions  text forms @param {Terms} terms
 * @returns {import("../state/wire.js").StepWire | null}
 */
export function stepOf(pack, standing, actions, terms) {
  const step = stepAsMeant(pack, standing, actions.map((action) => meant(pack, standing, action)), terms);
  return step && { ...step, a: actions };
}

/**
 * Chains were stored when every drive ended in the paint: what names a spot of the lane means the cutter, wherever in
 * it he is.
 * @param {Pack} pack @param {Standing} standing @param {string} action
 */
function meant(pack, { cutter, at: where }, action) {
  if (cutter === null) return action;
  return action.split(":").map((part, i) => (i && pack.lane.includes(part) ? where[cutter] : part)).join(":");
}

/** @param {Pack} pack @param {Standing} standing @param {string[]} actions @param {Terms} terms */
function stepAsMeant(pack, standing, actions, terms) {
  const offered = menu(pack, standing, terms)?.offers.find(({ a }) => a.join() === actions.join());
  if (offered) return stepWire(offered);
  const found = pack.find(standing);
  if (actions.length !== 2 || !found || standing.over) return null;
  const [lane, ball] = actions.map((text) => pack.number.get(text));
  const first = pack.legal(found).find(({ action }) => action === lane);
  if (!first || ball === undefined) return null;
  const then = pack.step(first.outcome, first.action, standing, found.turned);
  const next = pack.find(then.after);
  const second = next && pack.legal(next).find(({ action }) => action === ball);
  if (!second) return null;
  const step = pack.step(second.outcome, ball, then.after, next.turned);
  const tl = joined(
    pack.timeline(pack.outcomes, first.outcome, standing, found.turned, terms.level),
    pack.timeline(pack.outcomes, second.outcome, then.after, next.turned, terms.level),
    runOnce(pack, [then, step], ball, standing),
  );
  return stepWire(offerOf(pack, [then, step], ball, tl, standing, false));
}

/** @param {Offer} offer @returns {import("../state/wire.js").StepWire} */
const stepWire = ({ a, say, who, ball, tl, after }) => ({ a, say, who, ball, tl, after });

/**
 * The ball actions over a lane choice that are not legal without it.
 * @param {Pack} pack @param {Standing} standing @param {import("./pack.js").Found} found
 * @param {ReturnType<Pack["step"]>} lane @param {{action: number, outcome: number}} first
 * @param {Set<number>} legal @param {boolean} usual  it is the rules' own default, for which timelines are at hand
 * @param {(action: number) => boolean} taught @param {number} level
 */
function* followed(pack, standing, found, lane, first, legal, usual, taught, level) {
  const next = pack.find(lane.after);
  if (!next) return;
  const known = new Set(pack.legal(found).map(({ action }) => action)); // by which the pack counts, taught or not
  let nth = pack.afterOf.at[found.row];
  const base = pack.timeline(pack.outcomes, first.outcome, standing, found.turned, level);
  for (const { action, outcome } of inPackOrder(pack, pack.legal(next), found.turned)) {
    if (known.has(action)) continue;
    const there = found.turned ? pack.turnedNumber(action) : action;
    const line = usual ? pack.afterAt[there] + at(pack.afterOf.chosen, nth++) : -1;
    if (legal.has(action) || !taught(action)) continue;
    const step = pack.step(outcome, action, lane.after, next.turned);
    const tl = usual ? pack.timeline(pack.after, line, standing, found.turned, level)
      : joined(base, pack.timeline(pack.outcomes, outcome, lane.after, next.turned, level), runOnce(pack, [lane, step], action, standing));
    yield { action, offer: offerOf(pack, [lane, step], action, tl, standing, false) };
  }
}

/** In the order the pack has written them down. @param {Pack} pack @param {{action: number, outcome: number}[]} list @param {boolean} other */
function inPackOrder(pack, list, other) {
  if (!other) return list;
  return [...list].sort((a, b) => pack.turnedNumber(a.action) - pack.turnedNumber(b.action));
}

/**
 * A player's own way as a cutter, else the rules'.
 * @param {Pack} pack @param {Standing} standing @param {Terms} terms @param {number[]} legal @param {number | null} fallback
 */
function chosen(pack, standing, terms, legal, fallback) {
  if (standing.cutter === null) return null;
  const licence = terms.licences[standing.cutter];
  const lane = legal.filter((action) => pack.actions[action].whose === "c");
  for (const wish of licence?.lane ?? []) {
    const own = lane.find((action) => wish === pack.actions[action].text || wish === pack.actions[action].kind);
    if (own !== undefined && lacks(pack, own, standing, terms) === null) return own;
  }
  return fallback;
}

/** The player who may not do this yet; null if he may. @param {Pack} pack @param {number} number @param {Standing} standing @param {Terms} terms */
function lacks(pack, number, standing, terms) {
  const { whose, needs, spot } = pack.actions[number];
  if (!needs) return null;
  const player = whose === "b" ? standing.ball : whose === "c" ? standing.cutter
    : Number(Object.keys(standing.at).find((one) => standing.at[one] === spot));
  const licence = player === null ? undefined : terms.licences[player];
  return licence?.may && !licence.may.includes(needs) ? player : null;
}

/**
 * @param {Pack} pack @param {ReturnType<Pack["step"]>[]} steps @param {number} action @param {import("../state/wire.js").Timeline} tl
 * @param {Standing} before @param {boolean} usual @returns {Offer}
 */
function offerOf(pack, steps, action, tl, before, usual) {
  const last = steps[steps.length - 1];
  const { kind, spot, d, whose, place, mark } = pack.actions[action];
  const [, say] = last.say;
  const stood = steps.length > 1 ? steps[0].after.at : before.at;
  const mate = whose === "a" ? Number(Object.keys(stood).find((one) => stood[one] === spot)) : null;
  const once = runOnce(pack, steps, action, before);
  const offer = {
    a: steps.map((step) => step.a), say: steps.map(({ say: said }, i) => (i || once === null ? said : to(said, last.after.at[once]))),
    who: together(steps, once), ball: last.ball, tl, after: last.after,
    act: kind, by: mate ?? Number(say.p), to: mate !== null || say.m === undefined ? null : Number(say.m), spot, d,
    turn: /** @type {"lane" | "ball"} */ (whose === "c" ? "lane" : "ball"), place, mark,
  };
  return usual ? { ...offer, default: true } : offer;
}

/** The same words with another spot. @param {import("../state/wire.js").Phrase} phrase @param {string} spot @returns {import("../state/wire.js").Phrase} */
const to = ([key, given], spot) => [key, { ...given, s: spot }];

/**
 * What each player does in one or two steps: who only stands in the second is told of the first, and who runs once of
 * that run.
 * @param {ReturnType<Pack["step"]>[]} steps @param {number | null} once
 */
function together(steps, once) {
  const [first, second] = steps;
  if (!second) return first.who;
  return first.who.map((said, i) => {
    const [number, ...phrase] = said;
    if (number === once) return /** @type {typeof said} */ ([number, ...to(phrase, second.after.at[number])]);
    return ["stay", "keep"].includes(second.who[i][1]) ? said : second.who[i];
  });
}
