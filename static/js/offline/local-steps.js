/** Steps made on the device that follow no rule: everybody back on spots, and what was drawn. Pure. */

import { readScript } from "../steps/drawn-text.js";
import { scriptStep } from "../steps/drawn-step.js";
import { nearest, readRecovery, recoveryStep } from "./recovery.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../state/wire.js").StepWire} StepWire
 * @typedef {Record<string, Point>} Places
 */

/**
 * Everybody back on spots from where they are, with the least running.
 * @param {import("../pack/pack.js").Pack} pack @param {Places} where @param {Standing} before @param {Places} places  of the spots
 */
export function backOnSpots(pack, where, before, places) {
  const { spots } = nearest(pack, places, where);
  return { spots, step: recoveryStep(where, spots, places, before.ball) };
}

/**
 * The step a text form says; null if it is none that can be played there, or goes by the rules.
 * @param {string} text @param {Standing} before @param {Places} places  of the spots @returns {StepWire | null}
 */
export function saidStep(text, before, places) {
  if (before.over) return null;
  if (text.startsWith("recover:")) {
    const { where, spots } = readRecovery(text);
    return Object.values(spots).every((spot) => places[spot]) ? recoveryStep(where, spots, places, before.ball) : null;
  }
  const script = readScript(text);
  return script && Object.values(script.on).every((spot) => places[spot]) ? scriptStep(script, before, places) : null;
}

/** Whether a step stands in no pack. @param {string[]} actions */
export const isSaid = ([text]) => text.startsWith("recover:") || text.startsWith("script:");
