/** What the court and the list say while nothing can be played: somebody is off his spot, or is taken off. */

import { sayBoard, sayAreOff } from "../words/board-words.js";
import { element } from "./status.js";
import { sayPlayer } from "../words/general-words.js";

/**
 * @typedef {import("./offering.js").Aside} Aside
 * @typedef {import("../words/speaker.js").Words} Words
 */

/**
 * @param {number[]} players  off their spots; nobody, where only the ball lies
 * @param {Words} words
 * @param {object} how
 * @param {boolean} how.stuck  they cannot be brought back without the server
 * @param {boolean} how.dragged  some were carried off by hand
 * @param {boolean} how.moving  they are still on their way
 * @returns {Aside}
 */
export function adriftAside(players, words, { stuck, dragged, moving }) {
  return {
    key: `adrift ${players} ${stuck} ${dragged} ${moving}`,
    notes: [
      players.length ? sayAreOff(players.map(words.player)) : words.say("ball", ["lies", {}]),
      stuck ? sayBoard("recover_offline") : sayBoard("recover_hint"),
      ...(dragged ? [stuck ? sayBoard("put_back_offline") : sayBoard("put_back_hint")] : []),
    ],
    goesOn: !dragged,
    doing: () => "",
    can: () => false,
    note: (player) => (players.includes(player) && !moving ? sayBoard("off_spot") : ""),
  };
}

/** @param {import("./bench.js").Bench} bench @param {Words} words @returns {Aside} */
export function benchAside({ key, coming, going }, words) {
  const picked = coming ? sayBoard("subs_picked", { who: sayPlayer(coming) })
    : going ? sayBoard("subs_going", { who: words.player(going) }) : sayBoard("subs_hint");
  return {
    key,
    notes: [picked],
    goesOn: false,
    doing: () => sayBoard("goes_out"),
    can: () => true,
    note: () => "",
  };
}

/**
 * Show the bench, and the way back for who is off his spot. Called in every frame of a play: `hidden` set to what it is
 * already has styles worked out anew, so it is toggled, which leaves it alone.
 * @param {import("../state/wire.js").Member[]} members  on the bench
 * @param {object} board
 * @param {import("./bench.js").Bench} board.bench
 * @param {import("./off-spots.js").OffSpots} board.adrift
 * @param {import("../court/court-view.js").CourtView} board.court
 * @param {Record<string, HTMLButtonElement>} board.buttons
 * @param {boolean} board.named
 * @param {import("./shown-step.js").Looking} board.looking
 */
export function drawAside(members, { bench, adrift, court, buttons, named, looking }) {
  bench.draw(members, named);
  const { subs, recover, putBack } = buttons;
  subs.toggleAttribute("hidden", !members.length);
  subs.setAttribute("aria-pressed", String(bench.open));
  court.root.classList.toggle("subbing", bench.open);
  for (const [player, disc] of Object.entries(court.actors.discs)) {
    disc.classList.toggle("picked", bench.open && Number(player) === bench.going);
  }
  element("adrift").toggleAttribute("hidden", bench.open || !looking.adrift);
  recover.disabled = adrift.sent !== null || looking.cannotRecover();
  putBack.toggleAttribute("hidden", !adrift.players.length);
  putBack.disabled = adrift.sent !== null;
}
