/**
 * Ink to the server and back: what is being drawn goes out in small parcels as it is drawn; what has been done is
 * kept on this device until the server has answered, and sent again on the next line.
 */

import { openKept } from "../device/storage.js";
import { hearWet, misses } from "./heard.js";
import { listenInk, sendInk } from "../state/ink-line.js";
import { apply, bounded, encode, keyOf, replaced, simplify } from "./model.js";

/**
 * @typedef {import("./model.js").Op} Op
 * @typedef {import("./model.js").Pages} Pages
 * @typedef {import("./model.js").Place} Place
 * @typedef {import("./model.js").Stroke} Stroke
 * @typedef {import("./model.js").InkPoint} InkPoint
 * @typedef {Place & {formation: string, rules: string}} Spot  how a step can be found again
 * @typedef {{k: string, op: Op, refs: {formation: string, rules: string}, key: Promise<number | null>, kept: boolean}} Entry
 *
 * @typedef {object} Sync
 * @property {Pages} pages  what waits for an answer done in them
 * @property {import("./heard.js").Wet} wet
 * @property {number} waiting  changes the server has not acknowledged
 * @property {number} kept  those of them that outlive the page
 * @property {(stroke: Stroke, spot: Spot) => void} begin  live
 * @property {(stroke: Stroke) => void} more  live: it has grown
 * @property {(stroke: Stroke) => void} drop  live: it has not been
 * @property {(stroke: Stroke, spot: Spot) => void} put
 * @property {(what: "rub" | "back", ids: string[], spot: Spot) => void} change
 */

/** A parcel of what is being drawn, milliseconds. */
const PARCEL = 50;
/** The copy for times without a server is written so long after a change, milliseconds. */
const COPY_AFTER = 400;

/**
 * @param {string} board
 * @param {() => void} changed
 * @param {(sentence: string) => void} refused
 * @returns {Sync}
 */
export function openSync(board, changed, refused) {
  /** @type {Pages} */
  let base = new Map();
  /** @type {Pages} */
  let pages = base;
  /** @type {Entry[]} */
  let entries = [];
  /** @type {import("./heard.js").Wet} */
  const wet = new Map();
  /** Points of the stroke being drawn that have been sent. */
  let sent = { id: "", count: 0, last: /** @type {InkPoint} */ ([0, 0, 0]) };
  let timer = 0;
  let copying = 0;

  const renew = () => {
    pages = entries.reduce((all, { op }) => apply(all, op), base);
    changed();
    clearTimeout(copying);
    copying = window.setTimeout(copy, COPY_AFTER);
  };
  const copy = () => {
    const kept = [...base.values()].map((page) => ({ ...page, strokes: page.strokes.filter(({ gone }) => !gone) }));
    openKept().then((store) => store.put("meta", `ink:${board}`, kept)).catch(() => {});
  };
  const post = (/** @type {Entry} */ { k, op, refs }) => sendInk({ ...op, k, ...(op.do === "put" ? refs : {}) });

  const load = async () => {
    const store = await openKept();
    const [kept, keys] = [await store.get("meta", `ink:${board}`), await store.allKeys("ops")];
    const found = await Promise.all(keys.map(async (key) => ({ key, row: await store.get("ops", key) })));
    const before = found.flatMap(({ key, row }) => (row?.ink === board ? [{ ...row.entry, key: Promise.resolve(Number(key)), kept: true }] : []));
    const ours = new Set(entries.map(({ k }) => k));
    entries = [...before.filter(({ k }) => !ours.has(k)), ...entries];
    if (!base.size && kept) base = new Map(kept.map((/** @type {import("./model.js").Page} */ page) => [keyOf(page), page]));
    renew();
    flush();
  };
  const flush = () => entries.forEach(post);

  /** @param {Op} op @param {Spot} spot */
  const change = (op, { formation, rules }) => {
    const entry = { k: newKey(), op, refs: { formation, rules } };
    const key = openKept().then((store) => store.add("ops", { ink: board, entry })).catch(() => null);
    /** @type {Entry} */
    const made = { ...entry, key, kept: false };
    entries = [...entries, made];
    post(made);
    void key.then((known) => {
      made.kept = known !== null;
      if (entries.includes(made)) changed();
    });
    renew();
  };

  /** @param {string} k @param {boolean} ok */
  const settle = (k, ok) => {
    const entry = entries.find((each) => each.k === k);
    if (!entry) return;
    entries = entries.filter((each) => each !== entry);
    if (ok) base = apply(base, entry.op);
    void entry.key.then(async (key) => key !== null && (await openKept()).delete("ops", key)).catch(() => {});
    renew();
  };

  listenInk((message) => {
    if (message.t === "inked") {
      settle(message.k, message.message === undefined);
      if (message.message) refused(message.message);
    } else if (message.t === "inks") {
      base = replaced(base, message);
      // What is on its way goes on growing: the answer may have been given before it began.
      for (const { strokes } of message.pages) for (const [id] of strokes) wet.delete(id);
      renew();
    } else {
      hearWet(message, wet);
      if (message.do === "put" || message.do === "rub" || message.do === "back") {
        if (misses(base, message)) sendInk({ do: "show" });
        base = apply(base, message);
        renew();
      } else changed();
    }
  }, () => {
    wet.clear(); // whose end may have been missed
    return flush();
  });
  void load().catch(() => {});

  const sendMore = (/** @type {Stroke} */ { id, points }) => {
    clearTimeout(timer);
    timer = 0;
    if (sent.id !== id || points.length <= sent.count) return;
    const fresh = simplify([sent.last, ...points.slice(sent.count)]).slice(1);
    if (sendInk({ do: "more", s: id, p: encode(fresh, sent.last) })) sent = { id, count: points.length, last: fresh[fresh.length - 1] };
  };

  return {
    get pages() {
      return pages;
    },
    wet,
    get waiting() {
      return entries.length;
    },
    get kept() {
      return entries.filter(({ kept }) => kept).length;
    },
    begin({ id, tool, colour, points }, { chain, line }) {
      const [first] = points;
      const out = sendInk({ do: "begin", s: id, chain, line, tool, colour, p: encode([first]) });
      sent = { id: out ? id : "", count: 1, last: first };
    },
    more(stroke) {
      timer ||= window.setTimeout(() => sendMore(latest), PARCEL);
      latest = stroke;
    },
    drop({ id }) {
      clearTimeout(timer);
      timer = 0;
      sendInk({ do: "drop", s: id });
    },
    put({ id, tool, colour, points }, spot) {
      clearTimeout(timer);
      timer = 0;
      const { chain, line } = spot;
      change({ do: "put", s: id, chain, line, tool, colour, p: encode(bounded(points)) }, spot);
    },
    change(what, ss, spot) {
      const { chain, line } = spot;
      change({ do: what, ss, chain, line }, spot);
    },
  };
}

/** The stroke under way. @type {Stroke} */
let latest = { id: "", tool: 0, colour: 0, points: [] };

/** A name of its own for each stroke and each thing done. */
export function newKey() {
  return Array.from(crypto.getRandomValues(new Uint8Array(6)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
