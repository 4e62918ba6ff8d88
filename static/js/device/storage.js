/**
 * What this device keeps: one IndexedDB database with a few stores. Where none can be had (a private window, storage
 * switched off), everything is held until the page is closed, in the same shape, and `persistent` says so.
 *
 * @typedef {"boards" | "queue" | "ops" | "chains" | "meta"} StoreName
 * @typedef {string | number} KeptKey
 * @typedef {{do: "put", store: StoreName, key: KeptKey, value: unknown}
 *   | {do: "add", store: StoreName, value: unknown}
 *   | {do: "delete", store: StoreName, key: KeptKey}} Change
 *
 * @typedef {object} Kept
 * @property {boolean} persistent  false: nothing here survives closing the page
 * @property {(store: StoreName, key: KeptKey) => Promise<any>} get  undefined where there is nothing
 * @property {(store: StoreName, key: KeptKey, value: unknown) => Promise<void>} put
 * @property {(store: StoreName, key: KeptKey) => Promise<void>} delete
 * @property {(store: StoreName) => Promise<any[]>} all  values, in the order of their keys
 * @property {(store: StoreName) => Promise<KeptKey[]>} allKeys  in order
 * @property {(store: StoreName, value: unknown) => Promise<number>} add  returns its key, higher than any before it;
 *   only for "queue" and "ops"
 * @property {(changes: Change[]) => Promise<KeptKey[]>} batch  all of them or none, in one transaction; the key of each
 */

const NAME = "quintet";
const VERSION = 1;
/** Every store, and whether it numbers what is added to it. @type {Record<StoreName, boolean>} */
const STORES = { boards: false, queue: true, ops: true, chains: false, meta: false };
/** A database that does not open in this time (a browser that hangs does so for ever) is done without, milliseconds. */
const PATIENCE = 3000;

/** @type {Promise<Kept> | null} */
let opened = null;

/** The device's own store; the same one for the whole page, never rejected. @returns {Promise<Kept>} */
export function openKept() {
  opened ??= openDatabase().then(inDatabase, () => inMemory());
  return opened;
}

/** @returns {Promise<IDBDatabase>} */
function openDatabase() {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error("The database does not open.")), PATIENCE);
    const asked = indexedDB.open(NAME, VERSION);
    asked.onupgradeneeded = () => {
      for (const [name, autoIncrement] of Object.entries(STORES)) {
        if (!asked.result.objectStoreNames.contains(name)) asked.result.createObjectStore(name, { autoIncrement });
      }
    };
    asked.onsuccess = () => {
      clearTimeout(timer);
      // Another page wants to change or wipe it: holding on would keep that one waiting.
      asked.result.onversionchange = () => {
        asked.result.close();
        opened = null;
      };
      asked.result.onclose = () => (opened = null);
      resolve(asked.result);
    };
    asked.onerror = () => (clearTimeout(timer), reject(asked.error));
  });
}

/** @template T @param {IDBRequest<T>} asked @returns {Promise<T>} */
function answer(asked) {
  return new Promise((resolve, reject) => {
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
}

/** @param {IDBDatabase} database @returns {Kept} */
function inDatabase(database) {
  const read = (/** @type {StoreName} */ store) => database.transaction(store).objectStore(store);
  /** @param {Change[]} changes @returns {Promise<KeptKey[]>} */
  const batch = (changes) => {
    if (!changes.length) return Promise.resolve([]);
    return new Promise((resolve, reject) => {
      const work = database.transaction([...new Set(changes.map((each) => each.store))], "readwrite", {
        durability: "strict",
      });
      const asked = changes.map((each) => {
        const store = work.objectStore(each.store);
        if (each.do === "put") return store.put(each.value, each.key);
        return each.do === "add" ? store.add(each.value) : store.delete(each.key);
      });
      work.oncomplete = () =>
        resolve(asked.map(({ result }, i) => {
          const each = changes[i];
          return each.do === "add" ? /** @type {number} */ (result) : each.key;
        }));
      work.onabort = work.onerror = () => reject(work.error ?? new Error("Nothing was kept."));
    });
  };
  return {
    persistent: true,
    get: async (store, key) => answer(read(store).get(key)),
    put: async (store, key, value) => void (await batch([{ do: "put", store, key, value }])),
    delete: async (store, key) => void (await batch([{ do: "delete", store, key }])),
    all: async (store) => answer(read(store).getAll()),
    allKeys: async (store) => /** @type {KeptKey[]} */ (await answer(read(store).getAllKeys())),
    add: async (store, value) => Number((await batch([{ do: "add", store, value }]))[0]),
    batch,
  };
}

/** @returns {Kept} */
function inMemory() {
  /** @type {Map<StoreName, Map<KeptKey, unknown>>} */
  const stores = new Map();
  let last = 0;
  const of = (/** @type {StoreName} */ name) => {
    const found = stores.get(name) ?? new Map();
    stores.set(name, found);
    return found;
  };
  /** Numbers before words, as the database has them. @param {KeptKey} a @param {KeptKey} b */
  const byKey = (a, b) => (typeof a === typeof b ? (a < b ? -1 : 1) : typeof a === "number" ? -1 : 1);
  const keys = (/** @type {StoreName} */ name) => [...of(name).keys()].sort(byKey);
  /** @param {Change[]} changes */
  const batch = async (changes) =>
    // Copied like the database would, so that nobody changes what is kept behind its back.
    changes.map((each) => ("value" in each ? { ...each, value: structuredClone(each.value) } : each)).map((each) => {
      const key = each.do === "add" ? ++last : each.key;
      if (each.do === "delete") of(each.store).delete(key);
      else of(each.store).set(key, each.value);
      return key;
    });
  return {
    persistent: false,
    get: async (store, key) => structuredClone(of(store).get(key)),
    put: async (store, key, value) => void (await batch([{ do: "put", store, key, value }])),
    delete: async (store, key) => void (await batch([{ do: "delete", store, key }])),
    all: async (store) => keys(store).map((key) => structuredClone(of(store).get(key))),
    allKeys: async (store) => keys(store),
    add: async (store, value) => Number((await batch([{ do: "add", store, value }]))[0]),
    batch,
  };
}
