/** What plays moves by itself; what has to be drawn is the next step, and where the bar is for who cannot see it. */

/**
 * @param {object} board
 * @param {import("./transport.js").Transport} board.transport
 * @param {import("./controls.js").Controls} board.controls
 * @param {() => number} board.depth  the step that is marked
 * @param {() => void} board.draw
 * @returns {() => void}  to be called while something plays
 */
export function following({ transport, controls, depth, draw }) {
  let next = 0;
  return function follow() {
    clearTimeout(next);
    next = window.setTimeout(() => {
      const { progress } = transport;
      if (!progress.playing) return; // its end has been drawn
      if (progress.depth !== depth() || controls.isBehind(progress)) draw();
      else follow();
    }, 80);
  };
}
