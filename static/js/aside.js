/** What the court and the list say while nothing can be played: somebody is off his spot, or is taken off. */

import { PHRASES } from "./phrases.js";
import { element } from "./status.js";

/**
 * @typedef {import("./offering.js").Aside} Aside
 * @typedef {import("./words.js").Words} Words
 */

/** @param {number[]} players  off their spots @param {Words} words @param {boolean} stuck  it cannot be done without the server @returns {Aside} */
export function adriftAside(players, words, stuck) {
  return {
    key: `adrift ${players} ${stuck}`,
    notes: [PHRASES.areOff(players.map(words.player)), stuck ? PHRASES.recoverOffline : PHRASES.recoverHint, PHRASES.putBackHint],
    doing: () => "",
    can: () => false,
    note: (player) => (players.includes(player) ? PHRASES.offSpot : ""),
  };
}

/** @param {import("./bench.js").Bench} bench @param {Words} words @returns {Aside} */
export function benchAside({ key, coming, going }, words) {
  const picked = coming ? PHRASES.subsPicked(coming.name ? `${coming.number} ${coming.name}` : coming.number)
    : going ? PHRASES.subsGoing(words.player(going)) : PHRASES.subsHint;
  return {
    key,
    notes: [picked],
    doing: () => PHRASES.goesOut,
    can: () => true,
    note: () => "",
  };
}

/**
 * Show the bench, and the way back for who is off his spot.
 * @param {import("./wire.js").Member[]} members  on the bench
 * @param {object} board
 * @param {import("./bench.js").Bench} board.bench
 * @param {import("./adrift.js").Adrift} board.adrift
 * @param {import("./courtview.js").CourtView} board.court
 * @param {Record<string, HTMLButtonElement>} board.buttons
 * @param {boolean} board.named
 * @param {boolean} board.stuck  getting back on spots cannot be done without the server
 */
export function drawAside(members, { bench, adrift, court, buttons, named, stuck }) {
  bench.draw(members, named);
  const { subs, recover, putBack } = buttons;
  subs.hidden = !members.length;
  subs.setAttribute("aria-pressed", String(bench.open));
  court.root.classList.toggle("subbing", bench.open);
  for (const [player, disc] of Object.entries(court.actors.discs)) {
    disc.classList.toggle("picked", bench.open && Number(player) === bench.going);
  }
  element("adrift").hidden = bench.open || !adrift.players.length;
  recover.disabled = adrift.sent !== null || stuck;
  putBack.disabled = adrift.sent !== null;
}
