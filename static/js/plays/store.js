/**
 * The device's copy of the team's plays. What is shown is the server's last answer with everything that still waits
 * to be sent made on top of it; a change is kept on the device before it is sent, and dropped once it is acknowledged.
 */

import { noteRefusal } from "../device/kept-copy.js";
import { playsKept } from "../device/early.js";
import { openKept } from "../device/storage.js";
import { apply } from "./apply.js";
import { newId } from "../board/sent.js";

/**
 * @typedef {import("./apply.js").Play} Play
 * @typedef {import("./apply.js").Op} Op
 * @typedef {import("./apply.js").Hint} Hint
 * @typedef {import("./apply.js").Line} Line
 *
 * @typedef {{team: string, board: string, op: Op, hint: Hint}} Waiting
 * @typedef {Waiting & {key: Promise<import("../device/storage.js").KeptKey | null>, kept: boolean}} Entry  kept: it has been written down
 *
 * @typedef {{formation: string, formation_name: string, rules: string, rules_title: string, line: Line}} Played
 * @typedef {{name: string, note: string, tags: string[], occasion: string}} Called
 *
 * @typedef {object} Book
 * @property {Play[] | null} chains  null while nothing is known yet
 * @property {number} waiting  changes the server has not acknowledged
 * @property {number} kept  those of them that outlive the page
 * @property {"" | "offline" | "failed"} trouble  what came of asking the server last
 * @property {boolean} persistent  false: what waits is lost when the page is closed
 * @property {(chain: string, played: Played, called: Called) => Promise<void>} save  resolved once a page closed now
 *   loses nothing, or nothing can be kept here at all
 * @property {(chain: string, patch: Partial<Called> & {line?: Line, rank?: number}) => Promise<void>} edit  likewise
 * @property {(chain: string, pinned: boolean, rank: number) => void} pin  and where it stands among the pinned ones
 * @property {(chain: string) => void} remove
 * @property {(was: Play) => void} restore
 * @property {(chain: string, name: string) => string} duplicate  returns the copy's id
 * @property {(chain: string, name: string) => string} renew  a copy by today's rules; returns its id
 * @property {(chain: string) => void} touch  it has just been used
 * @property {() => Promise<void>} flush  send what waits, and look what others have changed
 */

/** Changes sent at once. */
const BATCH = 100;
/** So long an answer may take, milliseconds. */
const PATIENCE = 15_000;
/** Tries again after this, twice as long each time, milliseconds. */
const RETRY_FIRST = 5_000;
const RETRY_MOST = 60_000;

const now = () => Math.floor(Date.now() / 1000);

/**
 * @param {object} given
 * @param {string} given.board  whose key is shown
 * @param {string} given.team
 * @param {() => void} given.onChange
 * @param {(sentence: string) => void} given.onRefused
 * @returns {Book}
 */
export function openBook({ board, team, onChange, onRefused }) {
  /** The server's last answer, with what it has acknowledged since. @type {Play[] | null} */
  let base = null;
  let etag = "";
  /** @type {Entry[]} */
  let entries = [];
  /** @type {Play[] | null} */
  let shown = null;
  /** @type {Book["trouble"]} */
  let trouble = "";
  let persistent = true;
  let single = false; // a whole batch was refused: find out which of it
  let wait = RETRY_FIRST;
  let retry = 0;

  const changed = () => {
    shown = entries.reduce((plays, { op, hint }) => apply(plays, op, hint), base ?? []);
    if (!base && !entries.length) shown = null;
    onChange();
  };

  /** One after another: an answer must not be older than a change it is put under. @type {Promise<void>} */
  let last = Promise.resolve();
  const inTurn = (/** @type {() => Promise<void>} */ job) => (last = last.then(job, job));

  const load = async () => {
    try {
      persistent = (await openKept()).persistent;
      const { copy, ops, keys } = await playsKept(team);
      const before = ops.flatMap((/** @type {Waiting} */ waiting, i) =>
        waiting.team === team ? [{ ...waiting, key: Promise.resolve(keys[i]), kept: true }] : []);
      const ours = new Set(entries.map(({ op }) => op.id)); // made while this was read
      entries = [...before.filter(({ op }) => !ours.has(op.id)), ...entries];
      if (copy && !base) ({ chains: base, etag } = copy);
    } catch {
      persistent = false; // it is fetched, and held until the page is closed
    }
    changed();
  };

  /** Keep the copy, and forget what has been acknowledged. @param {Entry[]} done */
  const settle = async (done) => {
    entries = entries.filter((entry) => !done.includes(entry));
    changed();
    const keys = (await Promise.all(done.map(({ key }) => key))).filter((key) => key !== null);
    try {
      await (await openKept()).batch([
        { do: "put", store: "chains", key: team, value: { chains: base, etag } },
        ...keys.map((key) => ({ do: /** @type {const} */ ("delete"), store: /** @type {const} */ ("ops"), key })),
      ]);
    } catch {
      // Sent again next time, which the server takes for done.
    }
  };

  /** @param {string} path @param {RequestInit} how */
  const ask = async (path, how) => {
    const address = `/api/${path}?board=${encodeURIComponent(entries[0]?.board ?? board)}`;
    try {
      const answer = await fetch(address, { ...how, cache: "no-store", signal: AbortSignal.timeout(PATIENCE) });
      const said = answer.status === 304 ? null : await answer.json();
      noteRefusal(said?.error?.code);
      trouble = answer.ok || answer.status === 304 ? "" : "failed";
      return { status: answer.status, said, etag: answer.headers.get("ETag") ?? "" };
    } catch {
      trouble = "offline";
      return { status: 0, said: null, etag: "" };
    }
  };

  /** @returns {Promise<boolean>} whether there is more to send */
  const sendSome = async () => {
    const most = single ? 1 : BATCH;
    const end = entries.findIndex((entry) => entry.board !== entries[0].board);
    const sent = entries.slice(0, end < 0 ? most : Math.min(most, end));
    await Promise.all(sent.map(({ key }) => key)); // kept first: a page closed now sends it again
    const { status, said } = await ask("sync", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ ops: sent.map(({ op }) => op) }),
    });
    if ([400, 413, 422].includes(status)) {
      single = sent.length > 1;
      if (single) return true;
      onRefused(said?.error?.message ?? "");
      etag = "";
      await settle(sent);
      return entries.length > 0;
    }
    if (status !== 200) return false;
    const done = new Map(/** @type {{id: string, ok: boolean, message?: string}[]} */ (said.done).map((each) => [each.id, each]));
    const answered = sent.filter(({ op }) => done.has(op.id));
    for (const { op, hint } of answered) {
      const { ok, message = "" } = done.get(op.id) ?? {};
      if (ok) base = apply(base ?? [], op, hint);
      if (!ok || message) onRefused(message); // done, but perhaps not all of it
    }
    etag = ""; // what was worked out here is not yet what the server says
    await settle(answered);
    return answered.length > 0 && entries.length > 0;
  };

  const refresh = async () => {
    const answer = await ask("chains", { headers: etag ? { "If-None-Match": etag } : {} });
    if (answer.status === 200) {
      base = answer.said.chains;
      etag = answer.etag;
      await settle([]);
    } else changed();
  };

  const flush = () =>
    inTurn(async () => {
      clearTimeout(retry);
      while (entries.length && (await sendSome()));
      single = false;
      if (trouble !== "offline" || !entries.length) await refresh();
      if (!entries.length) wait = RETRY_FIRST;
      else {
        retry = window.setTimeout(flush, wait);
        wait = Math.min(RETRY_MOST, wait * 2);
        changed();
      }
    });

  /** @param {Op extends infer O ? O extends Op ? Omit<O, "id"> : never : never} op @param {Omit<Hint, "at">} [more] */
  const change = (op, more = {}) => {
    const waiting = { team, board, op: /** @type {Op} */ ({ ...op, id: newId() }), hint: { ...more, at: now() } };
    const key = openKept().then((kept) => kept.add("ops", waiting)).catch(() => ((persistent = false), null));
    /** @type {Entry} */
    const entry = { ...waiting, key, kept: false };
    void key.then((known) => {
      entry.kept = known !== null;
      if (entries.includes(entry)) changed();
    });
    entries = [...entries, entry];
    changed();
    void flush();
    return key.then(() => {});
  };

  // Back at once after a long time away, and soon again where the first try comes a moment too early.
  window.addEventListener("online", () => ((wait = RETRY_FIRST), void flush()));
  void inTurn(load).then(flush);
  return {
    get chains() {
      return shown;
    },
    get waiting() {
      return entries.length;
    },
    get kept() {
      return persistent ? entries.filter(({ kept }) => kept).length : 0;
    },
    get trouble() {
      return trouble;
    },
    get persistent() {
      return persistent;
    },
    save(chain, { formation, rules, line, formation_name, rules_title }, { name, note, tags, occasion }) {
      return change({ op: "save", chain, board, formation, rules, line, name, note, tags, occasion }, { formation_name, rules_title });
    },
    edit: (chain, patch) => change({ op: "edit", chain, ...patch }),
    pin: (chain, pinned, rank) => void change({ op: "edit", chain, pinned, rank }),
    remove: (chain) => void change({ op: "delete", chain }),
    restore: (was) => void change({ op: "restore", chain: was.id }, { was }),
    duplicate(chain, name) {
      const as = newId();
      void change({ op: "duplicate", chain, as, name });
      return as;
    },
    renew(chain, name) {
      const as = newId();
      void change({ op: "renew", chain, as, name });
      return as;
    },
    touch(chain) {
      base = base?.map((play) => (play.id === chain ? { ...play, used: now() } : play)) ?? null;
      changed();
    },
    flush,
  };
}
