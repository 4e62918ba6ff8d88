/**
 * The line to the server: connects, says hello, notices silence, comes back by itself, and sends again what
 * was not answered. Knows nothing of what the messages mean beyond their `t` and `id`.
 *
 * @typedef {import("./wire.js").Message} Message
 * @typedef {"live" | "catching up" | "offline" | "gone"} LinkState
 * @typedef {object} Link
 * @property {(message: {t: string, id?: string}) => void} send  kept and sent again until answered if it has an id
 * @property {(message: {t: string, id: string}, anew: boolean) => void} sendAgain  it could not be done now: send it again on
 *   the next line, and make that in a while if `anew`
 * @property {() => void} again  ask for the state anew (a gap was seen)
 * @property {(ids: Set<string>) => void} keep  stop sending again what is not among these
 * @property {() => void} close
 * @typedef {object} Beat  how closely the line is watched, milliseconds
 * @property {number} [every]  what is asked after this long without a word
 * @property {number} [doubt]  and what is offline, to all appearance, after this long without an answer; the line is
 *   given up only later, as a slow one may still answer
 */

import { isInk, openInk } from "./ink-line.js";

/** Times in milliseconds. */
const PING_EVERY = 10_000;
const ANSWER_WITHIN = 5_000;
const CONNECT_WITHIN = 5_000;
const RETRY_FIRST = 300;
const RETRY_MOST = 5_000;
const VERSION = 1;

/**
 * @param {string} path  of the socket on this server
 * @param {object} on
 * @param {() => number | null} on.seen  the last change seen
 * @param {(message: Message) => void} on.message
 * @param {(state: LinkState) => void} on.state
 * @param {Beat} [beat]
 * @returns {Link}
 */
export function openLink(path, on, { every = PING_EVERY, doubt = ANSWER_WITHIN } = {}) {
  const address = new URL(path, location.href);
  address.protocol = address.protocol.replace("http", "ws");
  /** @type {WebSocket | null} */
  let socket = null;
  /** @type {Map<string, object>} */
  let unanswered = new Map();
  let wait = RETRY_FIRST;
  let greeted = false;
  let closed = false;
  let retry = 0;
  let beat = 0;
  let limit = 0;
  let unsure = 0;
  let doubted = false;

  const raw = (/** @type {object} */ message) => {
    // On a line that is closing, what has an id is sent on the next one.
    if (socket?.readyState === WebSocket.OPEN) socket.send(JSON.stringify(message));
  };

  /** Whatever is going on with the line, start over after `wait`. @param {number} after */
  const restart = (after) => {
    clearTimeout(retry);
    clearTimeout(beat);
    clearTimeout(limit);
    clearTimeout(unsure);
    doubted = false;
    const old = socket;
    socket = null;
    greeted = false;
    if (old) {
      old.onopen = old.onmessage = old.onclose = old.onerror = null;
      old.close();
    }
    if (closed) return;
    retry = window.setTimeout(connect, after);
  };

  const failed = () => {
    on.state("offline");
    restart(wait);
    wait = Math.min(RETRY_MOST, wait * 2);
  };

  const hello = () => {
    greeted = false;
    on.state("catching up");
    raw({ t: "hello", v: VERSION, seen: on.seen() });
  };

  const ping = () => {
    if (socket?.readyState !== WebSocket.OPEN) return;
    raw({ t: "ping" });
    clearTimeout(limit);
    limit = window.setTimeout(failed, ANSWER_WITHIN);
    clearTimeout(unsure);
    if (doubt < ANSWER_WITHIN) unsure = window.setTimeout(inDoubt, doubt);
  };

  const inDoubt = () => {
    doubted = true;
    on.state("offline");
  };

  /** @param {MessageEvent} event */
  const heard = (event) => {
    clearTimeout(limit);
    clearTimeout(beat);
    clearTimeout(unsure);
    // Nobody looks at a page in the background, and asking costs its battery.
    beat = window.setTimeout(ping, document.visibilityState === "hidden" ? PING_EVERY : every);
    wait = RETRY_FIRST;
    /** @type {Message} */
    const message = JSON.parse(event.data);
    if (isInk(message)) return;
    if ("id" in message && message.id) unanswered.delete(message.id);
    if (message.t === "gone") {
      closed = true;
      on.message(message);
      on.state("gone");
      restart(0);
      return;
    }
    on.message(message);
    if (doubted && greeted) on.state("live");
    doubted = false;
    if (!greeted && message.t !== "pong" && message.t !== "viewers") {
      greeted = true;
      on.state("live");
      for (const waiting of [...unanswered.values()]) raw(waiting);
    }
  };

  const connect = () => {
    socket = new WebSocket(address);
    clearTimeout(limit);
    limit = window.setTimeout(failed, CONNECT_WITHIN);
    socket.onopen = () => {
      clearTimeout(limit);
      limit = window.setTimeout(failed, ANSWER_WITHIN);
      hello();
    };
    socket.onmessage = heard;
    socket.onclose = failed;
    socket.onerror = failed;
  };

  /** Back from sleep, another network or none: do not trust the old line, ask it, or hurry the new one. */
  const look = () => {
    if (closed || document.visibilityState === "hidden") return;
    if (socket?.readyState === WebSocket.OPEN && greeted) ping();
    else if (socket?.readyState !== WebSocket.CONNECTING && socket?.readyState !== WebSocket.OPEN) {
      wait = RETRY_FIRST;
      restart(0);
    }
  };
  document.addEventListener("visibilitychange", look);
  document.addEventListener("resume", look);
  window.addEventListener("pageshow", look);
  window.addEventListener("online", look);
  window.addEventListener("offline", look); // the server may be on this very device, or on a network without a way out

  openInk((message) => greeted && (raw(message), true));
  // Not while the page's module runs: a socket notes from where it was made, for which all of the module is read again.
  queueMicrotask(() => closed || connect());
  return {
    send(message) {
      if (message.id) unanswered.set(message.id, message);
      if (greeted) raw(message);
    },
    sendAgain(message, anew) {
      // What was sent after it may build on it.
      unanswered = new Map([[message.id, message], ...unanswered]);
      if (!anew) return;
      on.state("catching up");
      restart(RETRY_MOST);
    },
    again: () => {
      if (socket?.readyState === WebSocket.OPEN) hello();
    },
    keep(ids) {
      for (const id of unanswered.keys()) if (!ids.has(id)) unanswered.delete(id);
    },
    close() {
      closed = true;
      restart(0);
    },
  };
}
