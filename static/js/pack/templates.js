/** Phrases out of templates: who and where are put in for the letters that say how to find them. */

/**
 * @typedef {object} Scene  the step a phrase is about
 * @property {Record<string, number>} player  by spot before the step
 * @property {Record<string, string>} at  spot before the step, by player
 * @property {number} ball  who has the ball before it
 * @property {number | null} cutter
 * @property {number} taker  who has the ball after it
 * @property {string} ballTo  the spot the ball is on after it
 * @property {string | null} spot  of the action
 * @property {"left" | "right" | null} d  of the action
 * @property {(spot: string) => string} name  a spot in the template to one on this side
 */

/**
 * @param {string} template
 * @param {Scene} scene
 * @param {number} [own]  the player it is about
 * @param {string} [target]  where he goes
 * @returns {[string, import("../state/wire.js").Params]}
 */
export function phrase(template, scene, own = 0, target = "") {
  const [key, ...given] = template.split(" ");
  /** @type {import("../state/wire.js").Params} */
  const params = {};
  for (const part of given) {
    const at = part.indexOf("=");
    const [letter, how] = [part.slice(0, at), part.slice(at + 1)];
    if (letter === "d") params.d = /** @type {string} */ (scene.d);
    else if (letter === "p" || letter === "m") params[letter] = player(how, scene, own);
    else params.s = place(how, scene, own, target);
  }
  return [key, params];
}

/** @param {string} how @param {Scene} scene @param {number} own */
function player(how, scene, own) {
  switch (how) {
    case "o": return own;
    case "b": return scene.ball;
    case "c": return /** @type {number} */ (scene.cutter);
    case "r": return scene.taker;
    case "a": return scene.player[/** @type {string} */ (scene.spot)];
    default: return scene.player[scene.name(how)];
  }
}

/** @param {string} how @param {Scene} scene @param {number} own @param {string} target */
function place(how, scene, own, target) {
  switch (how) {
    case "o": return scene.at[own];
    case "t": return target;
    case "a": return /** @type {string} */ (scene.spot);
    case "r": return scene.ballTo;
    default: return scene.name(how);
  }
}
