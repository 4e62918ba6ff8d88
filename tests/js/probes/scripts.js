/** Scripted steps read from their texts: written again, and as steps. Null for what is none. */

import { scriptStep } from "../../../static/js/steps/drawn-step.js";
import { readScript, writeScript } from "../../../static/js/steps/drawn-text.js";

/**
 * @param {object} given
 * @param {{text: string, standing: import("../../../static/js/state/wire.js").Standing, spots: Record<string, import("../../../static/js/state/wire.js").Point>}[]} given.cases
 */
export default function ({ cases }) {
  return cases.map(({ text, standing, spots }) => {
    const script = readScript(text);
    return script && { text: writeScript(script), step: scriptStep(script, standing, spots) };
  });
}
