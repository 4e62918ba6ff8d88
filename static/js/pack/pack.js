/**
 * A pack: everything a formation and a rule set can lead to, worked out by the engine. This looks things up in
 * it and puts players' numbers for spots; it decides nothing. What its parts are says `engine/pack/written.py`.
 */

import { at, starts } from "./columns.js";
import { turned, turnedAction, turnedPath } from "./mirror.js";
import { phrase } from "./templates.js";

/** Columns, spelled out: see `columns.js`. @typedef {string} Column */

/**
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../state/wire.js").Timeline} Timeline
 * @typedef {import("../state/wire.js").Offer} Offer
 * @typedef {import("../state/wire.js").Phrase} Phrase
 *
 * @typedef {object} Clocks  columns over outcomes: how long everything takes
 * @property {Column} pieces
 * @property {Uint32Array} pieceAt
 * @property {Column} piece
 * @property {Uint32Array} startAt
 * @property {Column} start
 * @property {Column} ready
 * @property {Uint32Array} eventAt
 * @property {Column} kind
 * @property {Column} at
 * @property {Column} lasts
 * @property {Column} giver
 * @property {Column} taker
 *
 * @typedef {object} Found  a position in the pack
 * @property {number} row
 * @property {boolean} turned  it stands there the other way round
 */

const BALLS = ["pass", "hand", "shot"];
const STYLES = ["cut", "dribble", "screen", "hand", "carry"];

/** @param {number} hundredths @param {number} level */
const seconds = (hundredths, level) => Math.round(hundredths / level) / 100;

/** What tells alignments apart. @param {number} mask  a bit a spot @param {number} ball @param {number} cutter @param {number} freed  spots, counted from 1 but for the ball */
const keyOf = (mask, ball, cutter, freed) => ((mask * 32 + ball) * 32 + cutter) * 32 + freed;

export class Pack {
  /** @param {any} data  as the engine wrote it, version 1 */
  constructor(data) {
    const { rows, outcomes, pieces, after, routes } = data;
    /** @type {string[]} */
    this.spots = data.spots;
    /** @type {string[]} */
    this.ring = data.spots.slice(0, data.ring);
    /** @type {string[]} */
    this.lane = data.lane ? data.spots.slice(-data.lane) : [];
    /** What a cutter runs twice for: to the spot of his choice, and from there. @type {string[]} */
    this.own = data.own ?? [];
    this.mirror = Boolean(data.mirror);
    /** @type {{text: string, kind: string, spot: string | null, d: "left" | "right" | null, whose: string, needs: string, place: number, mark: import("../state/wire.js").Offer["mark"]}[]} */
    this.actions = data.actions.map((/** @type {[string, string, string, number]} */ one) => ({ ...readAction(one), ...readKind(data.kinds?.[one[3]]) }));
    this.number = new Map(this.actions.map(({ text }, i) => [text, i]));
    /** @type {string[]} */
    this.says = data.says;
    this.routes = { paths: /** @type {string[]} */ (routes[0]), lasts: /** @type {Column} */ (routes[1]), styles: /** @type {Column} */ (routes[2]) };
    this.pieces = { ...pieces, routeAt: starts(pieces.runs) };
    this.ends = outcomes;
    this.outcomes = this.#clocks(outcomes);
    this.outcomeAt = sums(outcomes.count);
    this.after = this.#clocks(after);
    this.afterAt = sums(after.count);
    this.afterOf = { at: starts(after.offers), chosen: /** @type {Column} */ (after.chosen) };
    this.rows = { default: /** @type {Column} */ (rows.default), actions: /** @type {Column[]} */ (rows.actions) };
    this.index = this.#index(rows);
    this.recover = { low: /** @type {Column} */ (data.recover[0]), high: /** @type {Column} */ (data.recover[1]) };
  }

  /** @param {any} columns @returns {Clocks} */
  #clocks(columns) {
    const pieceAt = starts(columns.pieces);
    const count = columns.pieces.length;
    const startAt = new Uint32Array(count + 1);
    for (let i = 0; i < count; i++) {
      let runs = 0;
      for (let j = pieceAt[i]; j < pieceAt[i + 1]; j++) runs += at(this.pieces.runs, at(columns.piece, j));
      startAt[i + 1] = startAt[i] + runs;
    }
    return { ...columns, pieceAt, startAt, eventAt: starts(columns.events) };
  }

  /** @param {any} rows */
  #index({ spots: [low, high], ball, cutter, freed }) {
    /** @type {Map<number, number>} */
    const index = new Map();
    for (let i = 0; i < ball.length; i++) {
      index.set(keyOf(at(low, i) | (at(high, i) << 7), at(ball, i), at(cutter, i), at(freed, i)), i);
    }
    return index;
  }

  /** @param {number} number  0 for none */
  #spot(number) {
    return number ? this.spots[number - 1] : "";
  }

  /** @param {Standing} standing @param {(name: string) => string} name */
  #key({ at: where, ball, cutter, freed }, name) {
    const number = (/** @type {string} */ spot) => this.spots.indexOf(name(spot));
    const mask = Object.values(where).reduce((sum, spot) => sum | (1 << number(spot)), 0);
    return keyOf(mask, number(where[ball]), cutter === null ? 0 : 1 + number(where[cutter]), freed ? 1 + number(freed) : 0);
  }

  /**
   * Where a position stands in the pack; null where it does not.
   * @param {Standing} standing @returns {Found | null}
   */
  find(standing) {
    const row = this.index.get(this.#key(standing, (spot) => spot));
    if (row !== undefined) return { row, turned: false };
    const other = this.mirror ? this.index.get(this.#key(standing, turned)) : undefined;
    return other === undefined ? null : { row: other, turned: true };
  }

  /**
   * The outcomes of a position: number of the action as it is there, number of the outcome.
   * @param {Found} found @returns {{action: number, outcome: number}[]}  in the order they are offered
   */
  legal({ row, turned: other }) {
    const list = [];
    for (let i = 0; i < this.actions.length; i++) {
      const chosen = at(this.rows.actions[i], row);
      if (!chosen) continue;
      list.push({ action: other ? this.turnedNumber(i) : i, outcome: this.outcomeAt[i] + chosen - 1 });
    }
    return other ? list.sort((a, b) => a.action - b.action) : list;
  }

  /** @param {number} action */
  turnedNumber(action) {
    return /** @type {number} */ (this.number.get(turnedAction(this.actions[action].text)));
  }

  /** The default choice of a waiting cutter; null if nobody waits. @param {Found} found */
  defaultOf({ row, turned: other }) {
    const number = at(this.rows.default, row);
    if (!number) return null;
    return other ? this.turnedNumber(number - 1) : number - 1;
  }

  /**
   * One outcome with players in it.
   * @param {number} outcome @param {number} action @param {Standing} standing @param {boolean} other  the other way round
   */
  step(outcome, action, standing, other) {
    const name = (/** @type {string} */ spot) => (other ? turned(spot) : spot);
    const { text, spot, d } = this.actions[action];
    const player = Object.fromEntries(Object.entries(standing.at).map(([number, where]) => [where, Number(number)]));
    const to = { ...standing.at };
    /** @type {Map<number, string>} */
    const said = new Map();
    const { pieceAt, piece } = this.outcomes;
    for (let i = pieceAt[outcome]; i < pieceAt[outcome + 1]; i++) {
      const one = at(piece, i);
      const number = player[name(this.spots[at(this.pieces.from, one)])];
      to[number] = name(this.spots[at(this.pieces.to, one)]);
      said.set(number, this.says[at(this.pieces.says, one)]);
    }
    const holder = name(this.spots[at(this.ends.ball, outcome)]);
    const ball = Number(Object.keys(to).find((number) => to[number] === holder));
    const { eventAt, kind } = this.outcomes;
    const last = eventAt[outcome + 1] - 1;
    const over = last >= eventAt[outcome] && BALLS[at(kind, last)] === "shot";
    const cutter = name(this.#spot(at(this.ends.cutter, outcome)));
    const freed = name(this.#spot(at(this.ends.freed, outcome)));
    /** @type {import("./templates.js").Scene} */
    const scene = { player, at: standing.at, ball: standing.ball, cutter: standing.cutter, taker: ball, ballTo: holder, spot, d, name };
    return {
      a: text,
      say: phrase(this.says[at(this.ends.say, outcome)], scene),
      who: /** @type {[number, string, import("../state/wire.js").Params][]} */ (
        Object.keys(standing.at).map((key) => {
          const number = Number(key);
          return [number, ...phrase(said.get(number) || "stay s=o p=o", scene, number, to[key])];
        })
      ),
      ball: phrase(this.says[at(this.ends.says, outcome)], scene),
      after: /** @type {Standing} */ ({
        at: to, ball, over,
        cutter: cutter ? Number(Object.keys(to).find((number) => to[number] === cutter)) : null,
        ...(freed ? { freed } : {}),
      }),
    };
  }

  /**
   * The timeline of an outcome.
   * @param {Clocks} clocks @param {number} outcome @param {Standing} standing  before it
   * @param {boolean} other @param {number} level @returns {Timeline}
   */
  timeline(clocks, outcome, standing, other, level) {
    const player = Object.fromEntries(Object.entries(standing.at).map(([number, where]) => [where, Number(number)]));
    const whose = (/** @type {number} */ spot) => player[other ? turned(this.spots[spot]) : this.spots[spot]];
    /** @type {Timeline["runs"]} */
    const runs = [];
    let end = at(clocks.ready, outcome);
    let next = clocks.startAt[outcome];
    for (let i = clocks.pieceAt[outcome]; i < clocks.pieceAt[outcome + 1]; i++) {
      const one = at(clocks.piece, i);
      for (let j = this.pieces.routeAt[one]; j < this.pieces.routeAt[one + 1]; j++) {
        const route = at(this.pieces.route, j);
        const [start, lasts] = [at(clocks.start, next++), at(this.routes.lasts, route)];
        const path = other ? turnedPath(this.routes.paths[route]) : this.routes.paths[route];
        runs.push([whose(at(this.pieces.from, one)), seconds(start, level), seconds(lasts, level), path, STYLES[at(this.routes.styles, route)]]);
        end = Math.max(end, start + lasts);
      }
    }
    /** @type {Timeline["ball"]} */
    const ball = [];
    for (let i = clocks.eventAt[outcome]; i < clocks.eventAt[outcome + 1]; i++) {
      const [begin, lasts, taker] = [at(clocks.at, i), at(clocks.lasts, i), at(clocks.taker, i)];
      const giver = whose(at(clocks.giver, i));
      ball.push([BALLS[at(clocks.kind, i)], seconds(begin, level), seconds(begin + lasts, level), giver, taker ? whose(taker - 1) : 0]);
      end = Math.max(end, begin + lasts);
    }
    runs.sort((a, b) => a[1] - b[1]);
    return { ready: seconds(at(clocks.ready, outcome), level), end: seconds(end, level), runs, ball };
  }
}

/** @param {[string, string, string, number]} given */
function readAction([text, whose, needs]) {
  const [kind, ...rest] = text.split(":");
  const last = rest[rest.length - 1];
  const d = last === "left" || last === "right" ? last : null;
  return { text, kind, spot: rest.length > (d ? 1 : 0) ? rest[0] : null, d: /** @type {"left" | "right" | null} */ (d), whose, needs };
}

/**
 * How a kind is shown. Packs made before they said so are played from the list alone.
 * @param {[number, ...import("../state/wire.js").Offer["mark"]]} [kind]
 */
function readKind([place, ...mark] = [0, "spot", "mate", ""]) {
  return { place, mark };
}

/** Where each of these begins, one after the other. @param {number[]} counts */
function sums(counts) {
  const found = [0];
  for (const count of counts) found.push(found[found.length - 1] + count);
  return found;
}
