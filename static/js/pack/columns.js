/** Reading columns: texts with one character a value, "]" for 0. They are read where they stand, never unpacked. */

const ZERO = 93;

/** @param {string} column @param {number} i */
export const at = (column, i) => column.charCodeAt(i) - ZERO;

/**
 * Where the part of each thing begins in a column that holds several values a thing; one more for the end.
 * @param {string} counts  a column
 */
export function starts(counts) {
  const found = new Uint32Array(counts.length + 1);
  for (let i = 0; i < counts.length; i++) found[i + 1] = found[i] + at(counts, i);
  return found;
}
