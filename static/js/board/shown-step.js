/** What is being looked at on the coach's board: how it stands there, and what can be done instead of playing. */

import { adriftAside, benchAside } from "./blocked.js";
import { isScript } from "../steps/drawn-text.js";
import { shown, standingAt } from "../state/state.js";

/**
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {ReturnType<typeof openLooking>} Looking
 */

/**
 * @param {object} board
 * @param {import("./desk.js").Desk} board.desk
 * @param {import("./transport.js").Transport} board.transport
 * @param {import("./off-spots.js").OffSpots} board.adrift
 * @param {import("./bench.js").Bench} board.bench
 * @param {() => import("../words/speaker.js").Words} board.words
 */
export function openLooking({ desk, transport, adrift, bench, words }) {
  const steps = () => shown(desk.state).steps;

  /** The step that begins where everybody stands, though nobody has played up to there: a drawing at the very start. */
  function drawnNext() {
    const [first] = steps();
    return transport.depth === 0 && first && isScript(first) ? first : null;
  }

  /** Who was left off his spot by the step before; null while everybody is on one. @returns {number[] | null} */
  function left() {
    const { off, over } = standingAt(desk.state, steps(), transport.depth);
    const { replaying, paused } = transport.progress;
    if (!off || over || replaying || paused) return null;
    const { spots, lane = [] } = desk.state.floor;
    // Nobody stays in the lane: who was drawn to stand there has to get back as well.
    const places = Object.entries(spots).flatMap(([name, place]) => (lane.includes(name) ? [] : [place]));
    return Object.keys(off).filter((n) => !places.some((spot) => spot.join() === off[n].join())).map(Number);
  }

  /** Getting back on spots needs the server where this device holds no pack of what is played. */
  function cannotRecover() {
    const { link, board } = desk.state;
    return link === "offline" && !desk.packs.get(board);
  }

  return {
    cannotRecover,
    /** Whether anybody has to get back on a spot before play goes on. */
    get adrift() {
      return adrift.players.length > 0 || left() !== null;
    },
    /** Where everybody stands. @returns {Standing} */
    standing() {
      const standing = standingAt(desk.state, steps(), transport.depth);
      const next = drawnNext();
      return next ? { ...standing, off: next.from, ball: next.has ?? standing.ball } : standing;
    },
    /** What can be played; null while that is not known, or the drawing that follows has everybody elsewhere. */
    menu: () => (drawnNext() ? null : desk.menuAt(transport.depth)),
    /** Whether the server can be asked for what can be played. */
    get asks() {
      return !drawnNext();
    },
    /** What is being done instead of playing. @returns {import("./offering.js").Aside | null} */
    aside() {
      if (bench.open) return benchAside(bench, words());
      const dragged = adrift.players;
      const out = left();
      if (!dragged.length && !out) return null;
      const players = [...new Set([...(out ?? []), ...dragged])].sort((a, b) => a - b);
      const how = { stuck: cannotRecover(), dragged: dragged.length > 0, moving: transport.progress.playing };
      return adriftAside(players, words(), how);
    },
  };
}
