/** Installing the service worker, where the address allows one. */

/**
 * Register the worker that keeps the coach's board on this device. Does nothing on an address that is not
 * secure (players on a local network need none), and never makes the page wait.
 */
export function registerServiceWorker() {
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

/** The first time, the page itself came past the worker: it is asked to keep it now, and the first page. */
async function keepPage() {
  const { active } = await navigator.serviceWorker.ready;
  active?.postMessage({ keep: [location.pathname, "/"] });
}
