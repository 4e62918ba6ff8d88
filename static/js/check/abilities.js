/** What the device itself can do: keep the screen on, fill it, move things smoothly, tell a pencil from a finger. */

/** How long movement is looked at, milliseconds. */
const LOOK = 1000;
/** A screen that draws nothing at all is given up on after this, milliseconds. */
const PATIENCE = 4000;

/**
 * Pictures a second while five discs run across the picture; null: the page was not in front.
 * @param {HTMLElement} floor  whose children run
 * @returns {Promise<number | null>}
 */
export async function pictures(floor) {
  if (document.visibilityState !== "visible") return null;
  const far = Math.max(0, floor.clientWidth - 190);
  const runs = [...floor.children].map((disc, i) => disc.animate(
    [{ transform: "translate(0, 0)" }, { transform: `translate(${far}px, ${i % 2 ? -8 : 8}px)` }],
    { duration: LOOK + 500, easing: "ease-in-out", delay: i * 60, fill: "both" },
  ));
  const rate = await counted();
  for (const run of runs) run.cancel();
  return rate;
}

/** @returns {Promise<number | null>} */
function counted() {
  return new Promise((resolve) => {
    const limit = setTimeout(resolve, PATIENCE, null);
    let first = 0;
    let count = -10; // the first few settle
    const next = (/** @type {number} */ now) => {
      count += 1;
      if (count === 0) first = now;
      if (count > 0 && now - first >= LOOK) {
        clearTimeout(limit);
        resolve(document.visibilityState === "visible" ? Math.round((count * 1000) / (now - first)) : null);
      } else requestAnimationFrame(next);
    };
    requestAnimationFrame(next);
  });
}

/** Whether the screen can be kept on. @returns {Promise<"yes" | "not now" | "no">} */
export async function staysOn() {
  if (!("wakeLock" in navigator)) return "no";
  try {
    const lock = await navigator.wakeLock.request("screen");
    await lock.release();
    return "yes";
  } catch {
    return "not now";
  }
}

/** @returns {"app" | "can" | "no"} */
export function wholeScreen() {
  if (matchMedia("(display-mode: standalone), (display-mode: fullscreen)").matches) return "app";
  if (Reflect.get(navigator, "standalone") === true) return "app";
  return document.fullscreenEnabled ? "can" : "no";
}

/** Room for what is kept, bytes; null where the browser does not tell. @returns {Promise<{used: number, free: number} | null>} */
export async function room() {
  try {
    const { usage = 0, quota = 0 } = await navigator.storage.estimate();
    return quota ? { used: usage, free: quota - usage } : null;
  } catch {
    return null;
  }
}

/**
 * Tell what touches the field.
 * @param {HTMLElement} pad @param {(seen: "pen" | "pressed pen" | "finger") => void} seen
 */
export function feel(pad, seen) {
  const look = (/** @type {PointerEvent} */ { pointerType, pressure }) => {
    if (pointerType === "pen") seen(pressure > 0 && pressure !== 0.5 ? "pressed pen" : "pen");
    else if (pointerType === "touch") seen("finger");
  };
  pad.addEventListener("pointerdown", look);
  pad.addEventListener("pointermove", (event) => event.pointerType === "pen" && event.buttons && look(event));
}
