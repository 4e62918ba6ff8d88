/** Keeping the screen awake while a board is in use, where the device lets a page ask for it. */

/** @type {WakeLockSentinel | null} */
let lock = null;
let wanted = false;

/** Ask for the screen to stay on; call it from a tap. */
export function stayAwake() {
  wanted = true;
  if (lock || !("wakeLock" in navigator) || document.visibilityState !== "visible") return;
  navigator.wakeLock.request("screen").then(
    (granted) => {
      lock = granted;
      granted.addEventListener("release", () => (lock = null));
    },
    () => (lock = null), // low battery or an old system: nothing a coach could do about it
  );
}

document.addEventListener("visibilitychange", () => {
  if (wanted) stayAwake();
});
