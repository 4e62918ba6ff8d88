/** What asking the server tells: whether it is there, how fast, what this device may open, and what time it is. */

/**
 * @typedef {{boards: {id: string, name: string, team: string}[], roles: string[], trust: string | null}} ServerSaid
 * @typedef {object} ServerTold
 * @property {ServerSaid} answer
 * @property {number} seconds  the fastest of a few answers
 * @property {number} ahead  the device's clock before the server's, seconds; within a second
 */

/** Times an answer is timed, and how long one may take, milliseconds. */
const TRIES = 3;
const PATIENCE = 4000;

/** @returns {Promise<ServerTold | null>} null: no answer */
export async function askServer() {
  try {
    let seconds = Infinity;
    let ahead = 0;
    /** @type {ServerSaid | null} */
    let said = null;
    for (let i = 0; i < TRIES; i++) {
      const begun = performance.now();
      const answer = await fetch("/api/check", { cache: "no-store", signal: until(PATIENCE) });
      const took = (performance.now() - begun) / 1000;
      if (!answer.ok) return null;
      said = await answer.json();
      if (took < seconds) {
        seconds = took;
        // The header has whole seconds: it was up to one later when it was written, half of one on average.
        ahead = (Date.now() - Date.parse(answer.headers.get("Date") ?? "")) / 1000 - took / 2 - 0.5;
      }
    }
    return said && { answer: said, seconds, ahead };
  } catch {
    return null;
  }
}

/** Whether a board's live line can be opened. @param {string} board @returns {Promise<boolean>} */
export function goesLive(board) {
  const address = new URL(`/live/board/${board}`, location.href);
  address.protocol = address.protocol.replace("http", "ws");
  return new Promise((resolve) => {
    const socket = new WebSocket(address);
    const done = (/** @type {boolean} */ open) => {
      clearTimeout(timer);
      socket.onopen = socket.onerror = null;
      socket.close();
      resolve(open);
    };
    const timer = setTimeout(done, PATIENCE, false);
    socket.onopen = () => done(true);
    socket.onerror = () => done(false);
  });
}

/** @param {number} ms */
function until(ms) {
  const stop = new AbortController();
  setTimeout(() => stop.abort(), ms);
  return stop.signal;
}
