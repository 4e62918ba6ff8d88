/** What is heard of ink while others draw. */

import { decode, keyOf } from "./model.js";

/**
 * What others are drawing just now, by the stroke's id; `key` is its page's.
 * @typedef {Map<string, {key: string, stroke: import("./model.js").Stroke}>} Wet
 * @typedef {import("../state/ink-line.js").InkMessage} InkMessage
 */

/** Let what others draw grow. @param {InkMessage} message @param {Wet} wet */
export function hearWet(message, wet) {
  if (message.do === "begin") {
    const { s, tool, colour, p } = message;
    wet.set(s, { key: keyOf(message), stroke: { id: s, tool, colour, points: decode(p) } });
  } else if (message.do === "more") {
    const grown = wet.get(message.s);
    if (!grown) return;
    const { points } = grown.stroke;
    grown.stroke = { ...grown.stroke, points: [...points, ...decode(message.p, points[points.length - 1])] };
  } else if (message.do === "drop" || message.do === "put") wet.delete(message.s);
}

/** Whether strokes come back that this device never had. @param {import("./model.js").Pages} pages @param {InkMessage} message */
export function misses(pages, message) {
  if (message.do !== "back") return false;
  const strokes = pages.get(keyOf(message))?.strokes ?? [];
  return message.ss.some((id) => !strokes.some((stroke) => stroke.id === id));
}
