/** Phones are told where in the chain this coach looks, and what plays here; taps they see by themselves. */

/**
 * @typedef {"rest" | "step" | "on"} Plays  stands there; that one step plays; the chain plays on to its end
 * @typedef {{t: "show", seq: number, at: number, plays: Plays}} Shown  at: after so many steps, from the chain's very start
 */

/**
 * @param {(message: Shown) => void} send
 * @returns {(state: import("../state/state.js").State, transport: import("./transport.js").Transport) => void}  to be called
 *   whenever something of either may have changed
 */
export function openShowing(send) {
  let seq = -1;
  /** What phones were told last, and where that leaves them. */
  let [told, leaves] = ["", ""];

  return ({ known, link, pending, elsewhere, first, steps, ...state }, transport) => {
    // Before it is saved, nobody else knows the step that is looked at.
    if (!known || link !== "live" || pending.length || elsewhere) return;
    const end = steps.length;
    const name = (/** @type {Plays} */ plays, /** @type {number} */ at) => (plays === "rest" && at >= end ? "end" : `${plays} ${at}`);
    // With every change phones go to the end of the chain, as with every tap.
    if (state.seq !== seq || transport.mode === "live") [seq, told, leaves] = [state.seq, "end", "end"];
    if (transport.mode === "live" || transport.strayed || transport.progress.paused) return;
    const { began, depth } = transport;
    const plays = transport.mode === "rest" ? "rest" : transport.whole ? "on" : "step";
    const at = plays === "rest" ? depth : began;
    const now = name(plays, at);
    if (now === told) return;
    told = now;
    if (now === leaves) return;
    leaves = plays === "on" ? "end" : name("rest", plays === "step" ? at + 1 : at);
    send({ t: "show", seq, at: first + at, plays });
  };
}
