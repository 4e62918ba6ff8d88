/** What is kept on this device: the app, the packs, boards and plays, and what waits to be sent. */

import { openPacks } from "../offline/shelf.js";
import { openKept } from "../device/storage.js";

/** How long the worker may take to compare the app with the server's, milliseconds. */
const PATIENCE = 10_000;

/**
 * @typedef {"fresh" | "new" | "here" | "none" | "cannot"} App  "here": kept, but not compared
 *
 * @typedef {object} Keeping
 * @property {boolean} persistent
 * @property {string[]} boards
 * @property {number} plays
 * @property {number} waiting
 */

/** Whether the app is kept here, and as new as the server's. @returns {Promise<App>} */
export async function lookAtApp() {
  if (!window.isSecureContext || !("serviceWorker" in navigator)) return "cannot";
  const before = await shell();
  const registration = await navigator.serviceWorker.getRegistration();
  const worker = registration?.active;
  if (!worker) return before ? "here" : "none";
  const { port1, port2 } = new MessageChannel();
  const heard = new Promise((resolve) => (port1.onmessage = ({ data }) => resolve(data)));
  worker.postMessage("refresh", [port2]);
  const said = await Promise.race([heard, new Promise((resolve) => setTimeout(resolve, PATIENCE))]);
  const after = await shell();
  if (!after) return "none";
  if (said !== "refreshed") return "here";
  return before === after ? "fresh" : "new";
}

/** The name of the kept shell. */
const shell = () => noted("/current-shell");

/** The board that was open last, as the worker has noted it; "" if it has not. */
export const openedLast = async () => (await noted("/last-board")).replace("/board/", "");

/** @param {string} name @returns {Promise<string>} */
async function noted(name) {
  if (!globalThis.caches) return "";
  const found = await caches.match(name, { cacheName: "quintet-index" }).catch(() => undefined);
  return found ? found.text() : "";
}

/** @returns {Promise<Keeping>} */
export async function lookAtKept() {
  const store = await openKept();
  const [boards, plays, queue, ops] = await Promise.all([
    store.allKeys("boards"), store.all("chains"), store.all("queue"), store.all("ops"),
  ]);
  const count = plays.reduce((sum, { chains }) => sum + (Array.isArray(chains) ? chains.length : 0), 0);
  return { persistent: store.persistent, boards: boards.map(String), plays: count, waiting: queue.length + ops.length };
}

/**
 * The packs of a board, compared with the server's. What is missing is fetched.
 * @param {string} board
 * @param {(held: number, wanted: number, whole: boolean) => void} now  called at once and as they arrive
 */
export async function lookAtPacks(board, now) {
  const wanted = await listed(board);
  const packs = openPacks(board, () => void tell(false));
  const tell = async (/** @type {boolean} */ last) => {
    const { held } = await packs.count();
    now(held, Math.max(held, wanted ?? held), last || wanted === null || held >= wanted);
  };
  await tell(false);
  if (wanted === null) return;
  await packs.refresh();
  await tell(true);
}

/** @param {string} board @returns {Promise<number | null>} how many the server would have here; null: no answer */
async function listed(board) {
  try {
    const answer = await fetch(`/api/packs?board=${encodeURIComponent(board)}`, { cache: "no-store" });
    return answer.ok ? (await answer.json()).packs.length : null;
  } catch {
    return null;
  }
}
