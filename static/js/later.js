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

/** So long is a while, milliseconds: longer than between two looks of somebody who is scrubbing. */
const WHILE = 120;

/**
 * A function that does `act` once it has not been called for a while; called with null, not at all.
 * @template T
 * @param {(given: T) => void} act
 */
export function afterRest(act) {
  let timer = 0;
  return (/** @type {T | null} */ given) => {
    clearTimeout(timer);
    if (given !== null) timer = window.setTimeout(act, WHILE, given);
  };
}
