/**
 * The packs this device holds: found by rules, formation and court, fetched in the background, and never changed
 * for others while the page is open. A pack is a file under the name of its contents.
 */

import { openKept } from "../device/storage.js";
import { Pack } from "../pack/pack.js";

/**
 * @typedef {{rules: string, formation: string, court: string}} Refs
 * @typedef {Refs & {key: string, rules_title: string, stages: string[], formation_name: string,
 *   floor: import("../state/wire.js").Floor, start: import("../state/wire.js").Standing}} Head
 * @typedef {{head: Head, pack: Pack}} Held
 * @typedef {Refs & {key: string}} Entry
 *
 * @typedef {object} PackShelf
 * @property {(refs: Refs) => Held | null} get  at once; what is on the device but not read yet is read now
 * @property {(refs: Refs) => Promise<Held | null>} load
 * @property {(refs: Refs) => boolean} has  it is on the device, read or not
 * @property {() => Promise<void>} refresh  compare with the server's, and fetch what is missing
 * @property {() => Promise<{held: number, wanted: number}>} count
 */

/** Where packs are kept; the name is among those that are wiped together. */
const CACHE = "quintet-packs";
/** A pack that is being made is asked for again after this, milliseconds, and so often. */
const AGAIN = 1000;
const TRIES = 600;

const idOf = (/** @type {Refs} */ { rules, formation, court }) => `${rules} ${formation} ${court}`;
const addressOf = (/** @type {string} */ key) => `/pack/${key}`;

/** @param {string} board  whose packs @param {() => void} arrived  one more can be played from @returns {PackShelf} */
export function openPacks(board, arrived) {
  /** @type {Map<string, Held | null>} null while it is being read */
  const read = new Map();
  /** @type {Map<string, string>} without a cache (plain HTTP), for as long as the page is open */
  const loose = new Map();
  const kept = openKept();
  /** @type {Promise<Entry[]>} */
  let index = kept.then((store) => store.get("meta", "packs").then((/** @type {any} */ all) => all?.[board] ?? []));
  /** What `index` comes to. @type {Entry[]} */
  let entries = [];
  void index.then((found) => (entries = found));
  const store = () => (globalThis.caches ? caches.open(CACHE) : Promise.reject(new Error("no cache")));

  /** @param {string} key @returns {Promise<string | null>} */
  const textOf = async (key) => {
    if (loose.has(key)) return loose.get(key) ?? null;
    const found = await store().then((cache) => cache.match(addressOf(key)), () => undefined);
    return found ? found.text() : null;
  };

  /** @param {Refs} refs @returns {Promise<Held | null>} */
  const load = async (refs) => {
    const id = idOf(refs);
    const known = read.get(id);
    if (known) return known;
    const entry = (await index).find((each) => idOf(each) === id);
    const text = entry ? await textOf(entry.key) : null;
    if (!text) {
      read.delete(id);
      return null;
    }
    const { pack, ...head } = JSON.parse(text);
    const held = read.get(id) || { head, pack: new Pack(pack) };
    read.set(id, held);
    return held;
  };

  /** @param {Entry} entry */
  const fetchOne = async (entry) => {
    const { key, rules, formation, court } = entry;
    const asked = new URLSearchParams({ board, rules, formation, court });
    for (let i = 0; i < TRIES; i++) {
      const answer = await fetch(`/api/packs/${key}?${asked}`);
      if (answer.status !== 202) {
        if (!answer.ok) throw new Error(String(answer.status));
        const text = await answer.text();
        await store().then(
          (cache) => cache.put(addressOf(entry.key), new Response(text, { headers: { "Content-Type": "application/json" } })),
          () => void loose.set(entry.key, text),
        );
        return;
      }
      await new Promise((resolve) => setTimeout(resolve, AGAIN));
    }
    throw new Error("It is never made.");
  };

  /** @param {Entry[]} found */
  const remember = async (found) => {
    index = Promise.resolve(found);
    entries = found;
    const open = await kept;
    const all = { ...(await open.get("meta", "packs")), [board]: found };
    await open.put("meta", "packs", all);
    const used = new Set(Object.values(all).flat().map(({ key }) => addressOf(key)));
    const cache = await store().catch(() => null);
    for (const request of (await cache?.keys()) ?? []) {
      if (!used.has(new URL(request.url).pathname)) await cache?.delete(request);
    }
  };

  const refresh = async () => {
    const answer = await fetch(`/api/packs?board=${board}`);
    if (!answer.ok) return;
    /** @type {Entry[]} */
    const wanted = (await answer.json()).packs;
    for (const entry of wanted) {
      const old = await index;
      if ((await textOf(entry.key)) === null) await fetchOne(entry);
      // One by one: the old one of the same rules stays until the new one is whole.
      const others = old.filter((each) => idOf(each) !== idOf(entry));
      if (!old.some((each) => each.key === entry.key)) await remember([...others, entry]);
      arrived();
    }
    const ids = new Set(wanted.map(idOf));
    if ((await index).some((each) => !ids.has(idOf(each)))) await remember(wanted);
  };

  let refreshing = Promise.resolve();
  return {
    get(refs) {
      const id = idOf(refs);
      const known = read.get(id);
      if (known === undefined) {
        read.set(id, null);
        void load(refs).then((held) => held && arrived(), () => void read.delete(id));
      }
      return known ?? null;
    },
    load,
    has: (refs) => entries.some((each) => idOf(each) === idOf(refs)),
    refresh: () => (refreshing = refreshing.then(refresh).catch(() => {})),
    async count() {
      const texts = await Promise.all((await index).map(({ key }) => textOf(key)));
      return { held: texts.filter((text) => text !== null).length, wanted: texts.length };
    },
  };
}
