/**
 * Whether a lineup would put a number on the floor twice: a position nobody is on goes by its own number, which one of
 * the five may wear. Pure.
 */

/**
 * @typedef {{id: string, number: string}} Numbered
 * @typedef {Record<string, string | null>} Places  who plays which position, by id
 */

/**
 * @template P
 * @typedef {object} Twice
 * @property {string} place  nobody plays it, and its number is worn
 * @property {string} at  where who wears it plays
 * @property {{who: P, places: Places}[]} answers  who could play it, and the lineup then; the best first
 */

/**
 * @template {Numbered} P
 * @param {Places} places
 * @param {P[]} players  the squad
 * @param {string[]} positions  in order
 * @returns {Twice<P> | null}  the first there is
 */
export function twiceIn(places, players, positions) {
  const on = (/** @type {string} */ place) => players.find(({ id }) => id === places[place]);
  for (const place of positions) {
    const at = on(place) ? undefined : positions.find((other) => on(other)?.number === place);
    const wears = at && on(at);
    if (!at || !wears) continue;
    const free = players.filter(({ id }) => !Object.values(places).includes(id)).sort((a, b) => Number(a.number) - Number(b.number));
    // An answer that only brings the next number on the floor twice is none.
    const helps = (/** @type {{places: Places}} */ answer) => count(answer.places) < count(places);
    const bench = free.map((who) => ({ who, places: { ...places, [place]: who.id } })).filter(helps);
    const moved = [{ who: wears, places: { ...places, [place]: wears.id, [at]: null } }].filter(helps);
    return { place, at, answers: [...bench.slice(0, 1), ...moved] };
  }
  return null;

  /** How many numbers stand twice. @param {Places} given */
  function count(given) {
    const worn = players.filter(({ id }) => Object.values(given).includes(id)).map(({ number }) => number);
    return positions.filter((place) => !players.some(({ id }) => id === given[place]) && worn.includes(place)).length;
  }
}
