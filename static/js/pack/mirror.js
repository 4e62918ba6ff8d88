/** Left and right changed over in what a pack says. */

/** @type {Record<string, string>} */
const OTHER = { left: "right", right: "left" };

/** @param {string} name  a spot, or left, right */
export const turned = (name) => name.split("_").map((part) => OTHER[part] ?? part).join("_");

/** A text form the other way round. @param {string} action */
export function turnedAction(action) {
  return action.split(":").map((part, i) => (i ? turned(part) : part)).join(":");
}

/** Path data the other way round: every other number is an x. @param {string} path */
export function turnedPath(path) {
  let x = false;
  return path.replace(/-?\d+/g, (number) => ((x = !x) ? String(-Number(number)) : number));
}
