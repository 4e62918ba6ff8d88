/**
 * What the app keeps on this device: wiping it once the device is turned off, and asking the browser to keep it
 * as long as it is not. Only the server's word that the key is turned off (`gone_key`) wipes; a line that is
 * down, a board that is gone or a link that is off never does.
 *
 * Kept are: IndexedDB "quintet", Cache Storage "quintet-…", localStorage "quintet.…". The key itself is a cookie
 * that no script can read; the server takes it back when the rest is gone.
 */

const DATABASE = "quintet";
const CACHES = "quintet-";
const NAMES = "quintet.";
/** When this device has asked the browser to keep its data: some browsers ask the person, so once is enough. */
const ASKED = "quintet.asked";
/** How long the service worker and another page of the app may take to let go, milliseconds. */
const PATIENCE = 1500;

/**
 * This device's key has been turned off: stop all that is going on here and go to the page that says so, which
 * wipes. Other codes do nothing.
 * @param {string | undefined} code  of a refusal or of a last message
 * @returns {boolean} whether the page is being left
 */
export function noteRefusal(code) {
  if (code !== "gone_key") return false;
  location.replace("/off");
  return true;
}

/**
 * Ask the server what this device must forget, and forget it.
 * @returns {Promise<"all" | "part" | "nothing">}
 */
export async function forgetWhatIsOff() {
  const answer = await fetch("/api/device", { cache: "no-store" });
  if (!answer.ok) throw new Error(String(answer.status));
  /** @type {{off: string[], kept: string[]}} */
  const { off, kept } = await answer.json();
  if (!off.length) return "nothing";
  // What another team has here stays, as far as it does not mention the one that is off.
  if (kept.length) await wipe((text) => off.some((id) => text.includes(id)));
  else await wipe();
  const done = await fetch("/api/device/forgotten", { method: "POST" });
  if (!done.ok) throw new Error(String(done.status));
  return kept.length ? "part" : "all";
}

/**
 * Remove what the app has kept on this device.
 * @param {(text: string) => boolean} [which]  of each address, name and record as text; left out: everything
 */
export async function wipe(which) {
  if (!which) await dismissWorker();
  await Promise.all([wipeCaches(which), wipeDatabase(which)]);
  wipeNames(which);
}

/** The worker must not keep anything more, and not see the next page. */
async function dismissWorker() {
  if (!("serviceWorker" in navigator)) return;
  const all = await navigator.serviceWorker.getRegistrations();
  await Promise.all(all.map(async (registration) => {
    const worker = registration.active;
    if (worker) {
      const { port1, port2 } = new MessageChannel();
      const heard = new Promise((resolve) => (port1.onmessage = resolve));
      worker.postMessage("wipe", [port2]);
      await atMost(heard);
    }
    await registration.unregister();
  }));
}

/** @param {(text: string) => boolean} [which] */
async function wipeCaches(which) {
  if (!("caches" in globalThis)) return;
  const names = (await caches.keys()).filter((name) => name.startsWith(CACHES));
  await Promise.all(names.map(async (name) => {
    if (!which) return void (await caches.delete(name));
    const cache = await caches.open(name);
    const all = await cache.keys();
    // The first page lists the boards of every team.
    const ours = all.filter(({ url }) => new URL(url).pathname === "/" || which(url));
    await Promise.all(ours.map((request) => cache.delete(request)));
  }));
}

/** @param {(text: string) => boolean} [which] */
async function wipeDatabase(which) {
  if (!("indexedDB" in globalThis)) return;
  const database = await openIfThere();
  if (database) {
    // Emptied first: as long as another page has it open, it cannot be removed.
    await Promise.all([...database.objectStoreNames].map((name) => empty(database, name, which)));
    database.close();
  }
  if (!which) await atMost(settled(indexedDB.deleteDatabase(DATABASE)));
}

/** @returns {Promise<IDBDatabase | null>} */
function openIfThere() {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(DATABASE);
    let made = false;
    asked.onupgradeneeded = ({ oldVersion }) => {
      if (oldVersion > 0) return;
      made = true;
      asked.transaction?.abort();
    };
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = (event) => {
      event.preventDefault(); // else the page counts it as a failure of its own
      if (made) resolve(null);
      else reject(asked.error);
    };
  });
}

/** @param {IDBDatabase} database @param {string} name @param {(text: string) => boolean} [which] @returns {Promise<void>} */
function empty(database, name, which) {
  return new Promise((resolve, reject) => {
    const change = database.transaction(name, "readwrite");
    change.oncomplete = () => resolve();
    change.onabort = () => reject(change.error);
    const store = change.objectStore(name);
    if (!which) return void store.clear();
    const walk = store.openCursor();
    walk.onsuccess = () => {
      const at = walk.result;
      if (!at) return;
      if (which(JSON.stringify([at.key, at.value]))) at.delete();
      at.continue();
    };
  });
}

/** @param {(text: string) => boolean} [which] */
function wipeNames(which) {
  const ours = Object.entries(localStorage).filter(([name]) => name.startsWith(NAMES));
  for (const [name, value] of ours) if (!which || which(`${name} ${value}`)) localStorage.removeItem(name);
}

/** @param {IDBRequest} asked @returns {Promise<void>} */
function settled(asked) {
  return new Promise((resolve, reject) => {
    asked.onsuccess = () => resolve();
    asked.onerror = () => reject(asked.error);
  });
}

/** Wait for it, but not for ever. @param {Promise<unknown>} work */
function atMost(work) {
  return Promise.race([work, new Promise((resolve) => setTimeout(resolve, PATIENCE))]);
}

/**
 * Whether the browser has promised to keep what the app has stored. "none": this address cannot ask for it.
 * @returns {Promise<"kept" | "may clear" | "none">}
 */
export async function storageKept() {
  if (!navigator.storage?.persisted) return "none";
  return (await navigator.storage.persisted()) ? "kept" : "may clear";
}

/** Ask the browser to keep it; call this on a tap. @returns {Promise<boolean>} */
export async function askToKeep() {
  try {
    return (await navigator.storage?.persist?.()) ?? false;
  } catch {
    return false;
  }
}

/** On the first tap after which something is saved: ask, once on this device. */
export function askToKeepOnce() {
  try {
    if (!navigator.storage?.persist || localStorage.getItem(ASKED)) return;
    localStorage.setItem(ASKED, "yes");
  } catch {
    return; // a private window keeps nothing anyway
  }
  void askToKeep();
}

/** Whether this is the app on the home screen rather than a page in the browser. */
export function isInstalled() {
  return matchMedia("(display-mode: standalone)").matches || Reflect.get(navigator, "standalone") === true;
}
