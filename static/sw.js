// @ts-check
/// <reference no-default-lib="true" />
/// <reference lib="es2022" />
/// <reference lib="webworker" />
/**
 * The service worker: keeps the shell of the coach's board on the device, so that it opens without a network
 * and then says itself that it is offline. Pages come from the server when there is one; what is asked of
 * /api/ and /live/ never passes through here.
 *
 * The shell is found by following the imports from the board's own files, and kept under a name made of the
 * contents, all of one version or nothing: a page never runs half of one version and half of another.
 */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

const SHELL = "quintet-shell-";
const PAGES = "quintet-pages";
/** Holds the name of the shell in use, under an address that no page has. */
const INDEX = "quintet-index";
const CURRENT = "/current-shell";
/** As well there: the address of the board that was open last. */
const LAST = "/last-board";
/** Packs have names of their own, and are kept by the page that plays from them. */
const PACKS = "quintet-packs";

/** Where the following of imports begins. */
const ROOTS = [
  "/static/js/coach.js",
  "/static/css/tokens.css",
  "/static/css/court.css",
  "/static/css/board.css",
  "/static/css/menu.css",
  "/static/css/book.css",
  "/static/css/huddle.css",
  "/static/css/by-hand.css",
  "/static/css/ink.css",
  "/static/css/share.css",
  "/static/css/pages.css",
  "/static/js/pages.js",
  "/static/css/check.css",
  "/static/js/check.js",
  "/static/icons/quintet.svg",
  "/locale/en.json",
];
/** Pages that are kept beside those of boards. */
const ALWAYS = ["/", "/check"];
/** How long a page may take before the kept one is shown, milliseconds. */
const PATIENCE = 700;
/** Boards whose pages are kept. */
const PAGES_MAX = 12;
/** The shell is compared with the server's at most so often, milliseconds. */
const REFRESH_EVERY = 60_000;

let refreshed = 0;
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
  if (event.data?.keep) event.waitUntil(keepAll(event.data.keep));
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
  } else if (url.pathname.startsWith("/static/") || url.pathname.startsWith("/locale/")) {
    event.respondWith(fromShell(event));
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
  const fresh = fetch(request).then(async (answer) => {
    if (answer.ok && !answer.redirected) await keep(pages, key, answer.clone());
    if (answer.status === 403 || answer.status === 410) await pages.delete(key, { ignoreVary: true });
    return answer;
  });
  event.waitUntil(fresh.then(refreshSometimes, () => {}));
  if (!kept) return fresh.catch(() => offlinePage());
  if (opening === key) {
    opening = "";
    return kept;
  }
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE)).then(() => kept);
  return Promise.race([fresh.catch(() => kept), late]);
}

/** Pages that have come past the worker are fetched once more. @param {string[]} paths */
async function keepAll(paths) {
  const pages = await caches.open(PAGES);
  for (const path of paths) {
    if (!keeps(new URL(path, worker.location.origin)) || (await pages.match(path, { ignoreVary: true }))) continue;
    const answer = await fetch(path).catch(() => null);
    if (answer?.ok && !answer.redirected) await keep(pages, path, answer);
  }
}

/** A board is open: the app starts with it the next time. @param {string} path */
async function noteLast(path) {
  if (!wiped && /^\/board\/[^/]+$/.test(path)) await (await caches.open(INDEX)).put(LAST, new Response(path));
}

/** @param {Cache} pages @param {string} key @param {Response} answer */
async function keep(pages, key, answer) {
  if (wiped) return;
  await noteLast(key);
  await pages.put(key, answer); // over the old one: a page that is kept is never missing in between
  const kept = (await pages.keys()).filter((request) => ![key, ...ALWAYS].includes(new URL(request.url).pathname));
  for (const old of kept.slice(0, Math.max(0, kept.length + 1 - PAGES_MAX))) await pages.delete(old);
}

/**
 * A file of the shell for a page that is kept. Any other page takes its files from the server, so that it does
 * not get some of its modules from here and some from there, and from here only when there is no other way.
 * @param {FetchEvent} event
 */
async function fromShell({ request, clientId }) {
  const name = await current();
  const kept = name ? await (await caches.open(name)).match(request, { ignoreVary: true }) : undefined;
  const client = await worker.clients.get(clientId);
  if (kept && client && keeps(new URL(client.url))) return kept;
  return fetch(request).catch(() => kept ?? Response.error());
}

async function current() {
  const index = await caches.open(INDEX);
  return (await index.match(CURRENT))?.text();
}

async function refreshSometimes() {
  if (Date.now() - refreshed < REFRESH_EVERY) return;
  await refresh().then(clean, () => {}); // half a shell is no shell: the one in use stays
}

/** Fetch the whole shell, and use it from the next page on if it differs from the one in use. */
async function refresh() {
  refreshed = Date.now();
  /** @type {Map<string, {body: ArrayBuffer, type: string}>} */
  const files = new Map();
  let wanted = ROOTS;
  while (wanted.length) {
    const found = await Promise.all(wanted.map((path) => collect(path, files)));
    wanted = [...new Set(found.flat())].filter((path) => !files.has(path));
  }
  const name = SHELL + (await digest(files));
  if (name === (await current())) return;
  if (wiped) return;
  const shell = await caches.open(name);
  for (const [path, { body, type }] of files) {
    await shell.put(path, new Response(body, { headers: { "Content-Type": type } }));
  }
  if (!wiped) await (await caches.open(INDEX)).put(CURRENT, new Response(name));
}

/**
 * Fetch one file, and return the files it imports.
 * @param {string} path
 * @param {Map<string, {body: ArrayBuffer, type: string}>} files
 * @returns {Promise<string[]>}
 */
async function collect(path, files) {
  const answer = await fetch(path, { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  const body = await answer.arrayBuffer();
  files.set(path, { body, type: answer.headers.get("Content-Type") ?? "application/octet-stream" });
  if (!path.endsWith(".js")) return [];
  const text = new TextDecoder().decode(body).replace(/\/\*[\s\S]*?\*\//g, "");
  const imports = text.matchAll(/(?:\bfrom\s*|\bimport\s*\(?\s*)["'](\.[^"']+)["']/g);
  return [...imports].map(([, name]) => new URL(name, new URL(path, worker.location.origin)).pathname);
}

/** @param {Map<string, {body: ArrayBuffer}>} files */
async function digest(files) {
  const sorted = [...files].sort(([a], [b]) => (a < b ? -1 : 1));
  const each = await Promise.all(sorted.map(([, { body }]) => hex(body)));
  const all = sorted.map(([path], i) => `${path} ${each[i]}`).join("\n");
  return (await hex(new TextEncoder().encode(all))).slice(0, 16);
}

/** @param {BufferSource} bytes */
async function hex(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Drop every cache of ours that is not in use. */
async function clean() {
  const inUse = wiped ? [] : [await current(), PAGES, INDEX, PACKS];
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith("quintet-") && !inUse.includes(name)).map((name) => caches.delete(name)));
}

/** What is said when there is no network and nothing kept for an address. */
function offlinePage() {
  return new Response(
    `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">
<title>Offline - Quintet</title><link rel="icon" href="/static/icons/quintet.svg">
<link rel="stylesheet" href="/static/css/tokens.css"><link rel="stylesheet" href="/static/css/pages.css">
<script type="module" src="/static/js/pages.js"></script></head>
<body class="page"><main><p class="brand"><a href="/"><img src="/static/icons/quintet.svg" alt="" width="36" height="36">Quintet</a></p>
<h1>You are offline</h1>
<p class="lead">This page is not on this device, and there is no connection to fetch it. Nothing on your boards is lost. Try again when you are back on a network.</p>
<div class="ways"><a class="act" href="">Try again</a></div></main></body></html>`,
    { status: 503, headers: {
        "Content-Type": "text/html; charset=utf-8",
        "Cache-Control": "no-store",
        "Content-Security-Policy": "default-src 'self'",
      },
    },
  );
}
