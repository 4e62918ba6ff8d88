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
 * A function that does `act` in the next frame: for what is drawn in every frame of a movement. Done between frames it
 * would have styles worked out twice as often while a pencil or a finger moves, whose every event asks what it is over.
 * @param {() => void} act
 */
export function inFrame(act) {
  let frame = 0;
  return () => {
    frame ||= requestAnimationFrame(() => {
      frame = 0;
      act();
    });
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
