/** Many films, each as film.js tells of one. */

import film from "./film.js";

/** @param {Parameters<typeof film>[0][]} chains */
export default function (chains) {
  return chains.map(film);
}
