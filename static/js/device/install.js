/** Installing the service worker, where the address allows one, and starting where the coach left. */

import { isInstalled } from "./kept-copy.js";

/** The page as it came, before any module has changed it; "" if the worker has seen it come. */
const asCame = navigator.serviceWorker?.controller === null ? `<!doctype html>\n${document.documentElement.outerHTML}` : "";

/** This window of the app has begun. */
const BEGUN = "quintet.begun";

/** An app installed when it began with the first page goes on to where the coach left, once. */
export function startWhereLeft() {
  const first = once();
  if (!first || location.pathname !== "/" || location.search || !navigator.serviceWorker?.controller) return;
  if (isInstalled()) location.replace("/?open");
}

/** Whether this window of the app is only just beginning. */
function once() {
  try {
    const first = !sessionStorage.getItem(BEGUN);
    sessionStorage.setItem(BEGUN, "yes");
    return first;
  } catch {
    return false;
  }
}

/**
 * Register the worker that keeps the coach's board on this device. Does nothing on an address that is not
 * secure (players on a local network need none), and never makes the page wait.
 */
export function registerServiceWorker() {
  once();
  if (!window.isSecureContext || !("serviceWorker" in navigator)) return;
  const register = () => {
    navigator.serviceWorker.register("/sw.js", { scope: "/", updateViaCache: "none" }).then(keepPage).catch(() => {
      // A private window may refuse; the board works all the same while there is a network.
    });
  };
  // After everything the board itself needs.
  if (document.readyState === "complete") register();
  else window.addEventListener("load", register, { once: true });
}

/** The first time, the page came past the worker: it is handed over, and the pages that go with it are kept too. */
async function keepPage() {
  const { active } = await navigator.serviceWorker.ready;
  const page = asCame && { path: location.pathname, html: asCame, version: document.documentElement.dataset.version };
  active?.postMessage({ keep: ["/check", "/"], page });
}
