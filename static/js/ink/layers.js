/** The layers a stroke is laid on. */

import { svg } from "../court/court.js";

/**
 * What a stroke is made of, from below: its edge, if it has one, itself, and a light middle, if it has one.
 * @param {string} name  of the tool
 * @param {string} look  of the colour
 */
export function layersOf(name, look) {
  // What lies on players is seen as well: an edge, in the floor's colour where none is meant.
  const under = look === "edge" || name !== "marker" ? svg("g", { class: look === "edge" ? "edge" : "rim" }) : null;
  const body = svg("g", { class: "body" });
  const middle = look === "seam" ? svg("g", { class: "seam" }) : null;
  const layers = [under, body, middle].filter((layer) => layer !== null);
  return { group: svg("g", { class: `ink-${name} ink-${look}` }, layers), under, body, middle };
}
