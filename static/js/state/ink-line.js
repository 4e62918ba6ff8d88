/**
 * Ink on the line to the server: its messages are apart from those of play, so that neither waits for the other.
 * Small, as every screen loads it; what draws is fetched once there is ink.
 *
 * @typedef {[string, number, number, number[]]} StrokeWire  id, tool, colour, points (see `encode` in model.js)
 * @typedef {{line: string[][], strokes: StrokeWire[]}} PageWire
 * @typedef {{t: "inks", chain: string, pages: PageWire[]}} InksMessage
 * @typedef {{s: string, chain: string, line: string[][], tool: number, colour: number, p: number[]}} Whole
 * @typedef {Whole & {t: "ink", do: "begin"} | Whole & {t: "ink", do: "put"}
 *   | {t: "ink", do: "more", s: string, p: number[]} | {t: "ink", do: "drop", s: string}
 *   | {t: "ink", do: "rub" | "back", ss: string[], chain: string, line: string[][]}} InkMessage
 * @typedef {InksMessage | InkMessage | {t: "inked", k: string, message?: string}} Heard
 */

/** What came before anybody listened. @type {Heard[]} */
let early = [];
/** @type {((message: Heard) => void) | null} */
let listener = null;
let first = () => {};
/** @type {(message: object) => boolean} */
let out = () => false;
let back = () => {};

/**
 * The line has been opened.
 * @param {(message: object) => boolean} send  false: there is no line just now
 */
export function openInk(send) {
  out = send;
}

/** Whether a message was ink's. @param {{t: string}} message */
export function isInk(message) {
  if (message.t === "state") setTimeout(() => (back(), out({ t: "ink", do: "show" }))); // once the line counts as live
  if (!["ink", "inks", "inked"].includes(message.t)) return false;
  const heard = /** @type {Heard} */ (message);
  if (listener) listener(heard);
  else {
    // All there is says nothing of what is being drawn just now.
    if (heard.t === "inks") early = early.filter((before) => before.t === "ink" && ["begin", "more", "drop"].includes(before.do));
    early.push(heard);
    if (heard.t !== "inks" || heard.pages.length) {
      const act = first;
      first = () => {}; // once: a second layer would stand still over the first
      act();
    }
  }
  return true;
}

/** @param {object} message */
export const sendInk = (message) => out({ t: "ink", ...message });

/** Call as soon as there is ink, once. @param {() => void} act */
export function onFirstInk(act) {
  first = act;
}

/**
 * From now on all ink goes here; first what came before.
 * @param {(message: Heard) => void} hear
 * @param {() => void} [again]  the line is there again
 */
export function listenInk(hear, again = () => {}) {
  listener = hear;
  back = again;
  const before = early;
  early = [];
  queueMicrotask(() => before.forEach(hear)); // once who listens is ready
}
