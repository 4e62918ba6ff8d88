// @ts-check
/// <reference no-default-lib="true" />
/// <reference lib="es2022" />
/// <reference lib="webworker" />
/**
 * The service worker: keeps the shell of the coach's board on the device, so that it opens without a network
 * and then says itself that it is offline. Pages come from the server when there is one; what is asked of
 * /api/ and /live/ never passes through here.
 *
 * The shell is what the server's manifest lists: files named by their contents, kept together under the name of
 * their version. A page names its own files and says which version it is of. It is kept only once all files of that
 * version are, so what is kept opens whole, and a page never runs half of one version and half of another.
 */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

const SHELL = "quintet-shell-";
const PAGES = "quintet-pages";
/** Holds the name of the shell in use, and of the one before it, under addresses that no page has. */
const INDEX = "quintet-index";
const CURRENT = "/current-shell";
const BEFORE = "/shell-before";
/** As well there: the address of the board that was open last. */
const LAST = "/last-board";
/** Packs have names of their own, and are kept by the page that plays from them. */
const PACKS = "quintet-packs";

const FILES = "/static/dist/";
const MANIFEST = "/static/dist/manifest.json";
/** In an answer: the version it is of. */
const VERSION = "Quintet-Version";
/** What every answer of the server carries to keep a page in. */
const GUARDS = ["Content-Security-Policy", "Referrer-Policy", "X-Content-Type-Options", "X-Frame-Options", "Permissions-Policy"];

/** Pages that are kept beside those of boards. */
const ALWAYS = ["/", "/check"];
/** What says that a page is not here. */
const OFFLINE = "/offline";
/** How long a page may take before the kept one is shown, milliseconds. */
const PATIENCE = 700;
/** Boards whose pages are kept. */
const PAGES_MAX = 12;
/** The shell is compared with the server's at most so often, milliseconds. */
const REFRESH_EVERY = 60_000;

/**
 * @typedef {{js: string, parts: string[], css: string}} Parts
 * @typedef {{version: string, kept: string[], pages: Record<string, Parts>, icons: Record<string, string>}} Manifest
 * @typedef {{path: string, html: string, version: string}} Came  a page as it came to the browser
 */

let refreshed = 0;
/** @type {Promise<void> | null} */
let refreshing = null;
let wiped = false;
/** The board the app is just opening with, to be shown without waiting for anybody. */
let opening = "";

worker.addEventListener("install", (event) => {
  event.waitUntil(refresh().then(() => worker.skipWaiting()));
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(clean().then(() => worker.clients.claim()));
});

worker.addEventListener("message", (event) => {
  if (event.data?.keep) event.waitUntil(keepAll(event.data.keep, event.data.page));
  if (event.data === "refresh") {
    const said = refresh().then(clean).then(() => "refreshed", () => "failed");
    event.waitUntil(said.then((word) => event.ports[0]?.postMessage(word)));
  }
  if (event.data !== "wipe") return;
  // This device is turned off: nothing more is kept, not even what is being fetched just now.
  wiped = true;
  event.waitUntil(clean().then(() => event.ports[0]?.postMessage("wiped")));
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== worker.location.origin) return;
  if (request.mode === "navigate") {
    if (url.pathname === "/" && url.searchParams.has("open")) event.respondWith(start(event));
    else if (keeps(url)) event.respondWith(page(event));
    else event.respondWith(fetch(request).catch(() => offlinePage()));
  } else if (url.pathname.startsWith(FILES)) {
    event.respondWith(file(request));
  }
});

/** Pages with a secret in their address, and those of players, are not kept. @param {URL} url */
function keeps(url) {
  return ALWAYS.includes(url.pathname) || url.pathname.startsWith("/board/");
}

/** Where the app starts: on the board that was open last, if it is kept here. @param {FetchEvent} event */
async function start(event) {
  const last = await (await (await caches.open(INDEX)).match(LAST))?.text();
  if (!last || !(await (await caches.open(PAGES)).match(last, { ignoreVary: true }))) return page(event);
  opening = last;
  return Response.redirect(last, 302);
}

/** The page from the server; without an answer in time, the one kept. @param {FetchEvent} event */
async function page(event) {
  const { request } = event;
  const pages = await caches.open(PAGES);
  // What is asked of a board in its address (a play, rules) is done by the page, which is the same one.
  const key = new URL(request.url).pathname;
  const kept = await pages.match(key, { ignoreVary: true });
  if (kept) event.waitUntil(noteLast(key));
  const fresh = fetch(request).then((answer) => ({ answer, copy: answer.clone() }));
  event.waitUntil(fresh.then(({ copy }) => came(key, copy)).then(refreshSometimes, () => {}));
  if (!kept) return fresh.then(({ answer }) => answer, () => offlinePage());
  if (opening === key) {
    opening = "";
    return kept;
  }
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE)).then(() => kept);
  return Promise.race([fresh.then(({ answer }) => answer, () => kept), late]);
}

/** What the server has answered is kept, or what is kept of it dropped. @param {string} key @param {Response} answer */
async function came(key, answer) {
  if (answer.ok && !answer.redirected) await keep(key, answer);
  if ([403, 404, 410].includes(answer.status)) await (await caches.open(PAGES)).delete(key, { ignoreVary: true });
}

/** Pages that have come past the worker: one is handed over, others are fetched. @param {string[]} paths @param {Came} [page] */
async function keepAll(paths, page) {
  const pages = await caches.open(PAGES);
  const missing = async (/** @type {string} */ path) =>
    keeps(new URL(path, worker.location.origin)) && !(await pages.match(path, { ignoreVary: true }));
  if (page && (await missing(page.path))) {
    // In the same guards as all answers have.
    const like = await (await caches.open(SHELL + page.version)).match(MANIFEST, { ignoreVary: true });
    const headers = new Headers({ "Content-Type": "text/html; charset=utf-8", [VERSION]: page.version });
    for (const name of GUARDS) headers.set(name, like?.headers.get(name) ?? "");
    if (like) await keep(page.path, new Response(page.html, { headers }));
  }
  for (const path of paths) {
    const answer = (await missing(path)) ? await fetch(path).catch(() => null) : null;
    if (answer?.ok && !answer.redirected) await keep(path, answer);
  }
}

/** A board is open: the app starts with it the next time. @param {string} path */
async function noteLast(path) {
  if (!wiped && /^\/board\/[^/]+$/.test(path)) await (await caches.open(INDEX)).put(LAST, new Response(path));
}

/** Keep a page, once all that it needs is kept. @param {string} key @param {Response} answer */
async function keep(key, answer) {
  const version = answer.headers.get(VERSION);
  if (!version) return;
  if (!(await isWhole(version))) await refresh().catch(() => {});
  if (wiped || !(await isWhole(version))) return;
  const pages = await caches.open(PAGES);
  await noteLast(key);
  await pages.put(key, answer); // over the old one: a page that is kept is never missing in between
  const kept = (await pages.keys()).filter((request) => ![key, ...ALWAYS].includes(new URL(request.url).pathname));
  for (const old of kept.slice(0, Math.max(0, kept.length + 1 - PAGES_MAX))) await pages.delete(old);
}

/** A file has the same contents wherever it is kept: they are in its name. @param {Request} request */
async function file(request) {
  return (await caches.match(request, { ignoreVary: true })) ?? fetch(request);
}

const current = () => noted(CURRENT);

/** @param {string} what @returns {Promise<string | undefined>} */
async function noted(what) {
  return (await (await caches.open(INDEX)).match(what))?.text();
}

/** Whether all files of a version are here: the manifest is kept last. @param {string} version */
async function isWhole(version) {
  const name = SHELL + version;
  return (await caches.has(name)) && Boolean(await (await caches.open(name)).match(MANIFEST, { ignoreVary: true }));
}

async function refreshSometimes() {
  if (Date.now() - refreshed < REFRESH_EVERY) return;
  await refresh().then(clean, () => {}); // half a shell is no shell: the one in use stays
}

/** Have the server's version here: its files, then the kept pages anew, which name them. Rejected if that fails. */
function refresh() {
  refreshing ??= bringUp().finally(() => (refreshing = null));
  return refreshing;
}

async function bringUp() {
  refreshed = Date.now();
  const answer = await fetch(MANIFEST, { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${MANIFEST}: ${answer.status}`);
  /** @type {Manifest} */
  const { version, kept } = await answer.clone().json();
  const [name, old] = [SHELL + version, await current()];
  if (wiped) return;
  if (name === old) {
    // Nothing else is anew; but the team may have chosen another language since, and this page is in its words.
    const told = await fetch(OFFLINE).catch(() => null);
    if (told?.ok && !wiped) await (await caches.open(name)).put(OFFLINE, told);
    return;
  }
  const shell = await caches.open(name);
  await Promise.all(kept.map(async (path) => {
    // What another version has is not fetched again, nor what the browser has fetched for a page.
    const file = (await caches.match(path, { ignoreVary: true })) ?? (await fetch(path));
    if (!file.ok) throw new Error(`${path}: ${file.status}`);
    await shell.put(path, file);
  }));
  const told = await fetch(OFFLINE);
  if (!told.ok) throw new Error(`${OFFLINE}: ${told.status}`);
  await shell.put(OFFLINE, told);
  await shell.put(MANIFEST, answer);
  await renewPages(version);
  if (wiped) return;
  const index = await caches.open(INDEX);
  if (old) await index.put(BEFORE, new Response(old));
  await index.put(CURRENT, new Response(name));
}

/** Kept pages of other versions are fetched again; each stays with its own files until it is here. @param {string} version */
async function renewPages(version) {
  const pages = await caches.open(PAGES);
  for (const { url } of await pages.keys()) {
    const kept = await pages.match(url, { ignoreVary: true });
    if (kept?.headers.get(VERSION) === version) continue;
    const answer = await fetch(url);
    if (answer.ok && !answer.redirected && answer.headers.get(VERSION) === version && !wiped) await pages.put(url, answer);
    else if (!answer.ok && answer.status < 500) await pages.delete(url, { ignoreVary: true });
  }
}

/** The shells that kept pages are of. */
async function shellsOfPages() {
  const pages = await caches.open(PAGES);
  const kept = await Promise.all((await pages.keys()).map(({ url }) => pages.match(url, { ignoreVary: true })));
  return kept.map((page) => SHELL + page?.headers.get(VERSION));
}

/** Drop every cache of ours that is not in use. */
async function clean() {
  // The one before may still be what a page is just loading. A page that is open has all it needs.
  const inUse = wiped ? [] : [await current(), await noted(BEFORE), ...(await shellsOfPages()), PAGES, INDEX, PACKS];
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith("quintet-") && !inUse.includes(name)).map((name) => caches.delete(name)));
}

/** What is said when there is no network and nothing kept for an address: the server's words, fetched with the shell. */
async function offlinePage() {
  const name = await current();
  const page = name && (await (await caches.open(name)).match(OFFLINE, { ignoreVary: true }));
  return page ? new Response(page.body, { status: 503, headers: page.headers }) : Response.error();
}
