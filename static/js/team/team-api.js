/**
 * What the team page asks of the server. A refusal is an `Asked` error: a sentence to show, what kind it is,
 * and every problem with its place.
 *
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../state/wire.js").StepWire} StepWire
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {[string, string]} Problem  place and sentence
 *
 * @typedef {object} Player
 * @property {string} id
 * @property {string} number
 * @property {string} name
 * @property {string[]} positions
 * @property {string} hand
 * @property {string[] | null} may
 * @property {string[]} lane
 * @typedef {{id: string, name: string, places: Record<string, string | null>}} Lineup
 * @typedef {{ref: string, title: string, about: string, shipped: boolean, version: number}} RulesRow
 * @typedef {{ref: string, name: string, shipped: boolean}} FormationRow
 * @typedef {Record<string, {call?: string, signal?: string}>} Calls
 * @typedef {object} Vocabulary
 * @property {Record<string, string[]>} triggers  trigger to its roles
 * @property {Record<string, string[]>} movements  movement to the roles that may make it
 * @property {string[]} actions
 * @property {string[]} lane
 * @property {string[]} always
 * @property {string[]} optional  triggers a set need not speak of
 * @property {Record<string, string[]>} happens  action to the triggers that happen on it
 * @typedef {object} TeamData
 * @property {string} name
 * @property {Player[]} players
 * @property {Lineup[]} lineups
 * @property {RulesRow[]} rules
 * @property {FormationRow[]} formations
 * @property {Calls} calls
 * @property {string} language  its tag; "" for what each browser asks for
 * @property {[string, string][]} languages  tag and name of each
 * @property {Vocabulary} vocabulary
 *
 * @typedef {{title: string, adds: string[]}} TeachingStage
 * @typedef {object} RulesData
 * @property {number} version
 * @property {string} name
 * @property {string} title
 * @property {string} about
 * @property {number | null} posts
 * @property {string[]} actions
 * @property {string[]} lane
 * @property {string[]} [cutter]  where a cutter goes who chooses nothing, the first that is free
 * @property {TeachingStage[]} [stages]
 * @property {object[]} [known]
 * @property {Record<string, Record<string, string | string[]>>} responses
 * @typedef {{ref: string, version: number, shipped: boolean, data: RulesData}} RulesAnswer
 *
 * @typedef {{spot: string, angle: number, offset?: number, home: boolean}} RingSpot
 * @typedef {object} FormationData
 * @property {string} name
 * @property {RingSpot[]} ring
 * @property {{spot: string, x: number, y: number}[]} moved
 * @property {number} posts
 * @property {Record<string, string>} start
 * @property {number} ball
 * @typedef {{ref: string, version: number, shipped: boolean, data: FormationData, spots: Record<string, Point>}} FormationAnswer
 * @typedef {{first: string, second: string, metres: number, feet: number, mark: null | "near" | "far"}} Distance
 * @typedef {{data: FormationData, spots: Record<string, Point>, distances: Distance[], problems: Problem[]}} Measured
 *
 * @typedef {object} ChainPreview
 * @property {Floor} floor
 * @property {Standing} start
 * @property {StepWire[]} steps
 * @property {{a?: string, failed?: string, who?: number[]}} last
 * @typedef {object} Finding
 * @property {string} kind
 * @property {Record<string, string>} about
 * @property {string[]} chain
 * @property {number} count
 * @property {string | null} why
 * @typedef {{positions: number, steps: number, findings: Finding[]}} CheckReport
 * @typedef {{one_title: string, other_title: string, differences: [string, Record<string, string>][]}} Comparison
 */

import { noteRefusal } from "../device/kept-copy.js";
import { sayTeam } from "../words/team-words.js";
import { sayGeneral } from "../words/general-words.js";

export class Asked extends Error {
  /** @param {string} sentence @param {string} code  "" if the server was not reached @param {Problem[]} problems */
  constructor(sentence, code, problems = []) {
    super(sentence);
    this.code = code;
    this.problems = problems;
  }
}

/** An address on the server; it says which board's team is meant, as a device may coach several. @param {string} path */
export function address(path) {
  const board = document.body.dataset.board ?? "";
  return `/api/${path}${path.includes("?") ? "&" : "?"}board=${encodeURIComponent(board)}`;
}

/**
 * @param {string} method
 * @param {string} path
 * @param {object} [body]
 * @param {AbortSignal} [signal]
 * @returns {Promise<Response>}
 */
async function send(method, path, body, signal) {
  let answer;
  try {
    answer = await fetch(address(path), {
      method,
      headers: body ? { "Content-Type": "application/json" } : {},
      body: body && JSON.stringify(body),
      signal,
    });
  } catch (error) {
    if (signal?.aborted) throw error;
    throw new Asked(sayGeneral("no_line"), "");
  }
  if (answer.ok) return answer;
  const said = await answer.json().catch(() => null);
  const { message = sayTeam("went_wrong"), code = "failed", problems = [] } = said?.error ?? {};
  noteRefusal(code);
  throw new Asked(message, code, problems);
}

/**
 * @param {string} method
 * @param {string} path
 * @param {object} [body]
 * @param {AbortSignal} [signal]
 * @returns {Promise<any>}
 */
export async function ask(method, path, body, signal) {
  const answer = await send(method, path, body, signal);
  return answer.status === 204 ? null : answer.json().catch(() => null);
}

/**
 * Check a rule set. The answer comes line by line; `progress` is told how many positions were looked at of
 * how many known so far.
 * @param {object} body
 * @param {(looked: number, known: number) => void} progress
 * @param {AbortSignal} signal
 * @returns {Promise<CheckReport>}
 */
export async function check(body, progress, signal) {
  const answer = await send("POST", "rules/check", body, signal);
  const reader = /** @type {ReadableStream<Uint8Array>} */ (answer.body).getReader();
  const decoder = new TextDecoder();
  let rest = "";
  /** @type {CheckReport | null} */
  let report = null;
  const take = (/** @type {string} */ text) => {
    if (!text.trim()) return;
    const said = JSON.parse(text);
    if (said.progress) progress(said.progress[0], said.progress[1]);
    if (said.error) throw new Asked(said.error.message ?? sayTeam("went_wrong"), said.error.code);
    if (said.report) report = said.report;
  };
  try {
    for (;;) {
      const { done, value } = await reader.read();
      rest += decoder.decode(value, { stream: !done });
      const lines = rest.split("\n");
      rest = lines.pop() ?? "";
      lines.forEach(take);
      if (done) break;
    }
    take(rest);
  } catch (error) {
    if (signal.aborted || error instanceof Asked) throw error;
    throw new Asked(sayGeneral("no_line"), "");
  }
  if (!report) throw new Asked(sayTeam("check_cut"), "");
  return report;
}
