/** Doing things a little later, and once. */

/** A function that does `act` after the next frame, so that nothing holds that frame up. @param {() => void} act */
export function afterFrame(act) {
  let soon = false;
  return () => {
    if (soon) return;
    soon = true;
    requestAnimationFrame(() =>
      setTimeout(() => {
        soon = false;
        act();
      }),
    );
  };
}

/**
 * A function that does `act` once it has not been called for a while; called with null, not at all.
 * @template T
 * @param {(given: T) => void} act
 * @param {number} ms
 */
export function afterRest(act, ms) {
  let timer = 0;
  return (/** @type {T | null} */ given) => {
    clearTimeout(timer);
    if (given !== null) timer = window.setTimeout(act, ms, given);
  };
}
