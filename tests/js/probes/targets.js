/** What has a place on the court of its own, and what only the list has, in each of these positions on each of these screens. */

import { project } from "../../../static/js/court/projection.js";
import { passes, targets } from "../../../static/js/court/targets.js";
import { menu } from "../../../static/js/pack/offers.js";
import { Pack } from "../../../static/js/pack/pack.js";

/**
 * @typedef {import("../../../static/js/state/wire.js").Point} Point
 * @typedef {{missing: string[], far: string[], outside: string[], small: string[], offers: number}} Seen
 */

/** What nobody expects on the court: a pass to the cutter himself after he has chosen. */
const apart = (/** @type {any} */ offer, /** @type {any} */ standing) =>
  offer.a.length > 1 && [offer.to, offer.by].includes(standing.cutter);

/**
 * @param {object} given
 * @param {string} given.text  the pack, as it is sent
 * @param {import("../../../static/js/state/wire.js").Floor} given.floor
 * @param {import("../../../static/js/state/wire.js").Standing[]} given.cases
 * @param {[number, number][]} given.screens  of the court, CSS pixels
 * @param {boolean} given.named
 */
export default function ({ text, floor, cases, screens, named }) {
  const pack = new Pack(JSON.parse(text));
  const terms = { level: 1, installed: null, licences: {} };
  /** @type {Record<string, Record<string, number>>} */
  const counts = {};
  /** @type {Record<string, string>} */
  const examples = {};
  let offers = 0;
  for (const [i, standing] of cases.entries()) {
    const found = menu(pack, standing, terms)?.offers ?? [];
    const wanted = found.filter((offer) => !apart(offer, standing));
    const discs = new Set(passes(found, standing).values());
    const places = /** @type {Record<number, Point>} */ (Object.fromEntries(Object.entries(standing.at).map(([who, spot]) => [who, floor.spots[spot]])));
    for (const [width, height] of screens) {
      for (const view of [false, true].flatMap((turned) => [false, true].map((mirrored) => ({ turned, mirrored })))) {
        const seen = project(width, height, floor.box, view);
        const there = targets(found, standing, places, floor, seen, named);
        const drawn = new Set([...discs, ...there.map(({ offer }) => offer)]);
        offers += wanted.length;
        const note = (/** @type {string} */ what, /** @type {import("../../../static/js/state/wire.js").Offer} */ offer) => {
          const key = `${what} ${offer.mark.join(" ")}`;
          counts[`${width}x${height}`] ??= {};
          counts[`${width}x${height}`][key] = (counts[`${width}x${height}`][key] ?? 0) + 1;
          examples[key] ??= `${i} ${offer.a.join("+")} ${JSON.stringify(view)} ${width}`;
        };
        for (const offer of wanted) if (!drawn.has(offer)) note("missing", offer);
        for (const { offer, at: [x, y], side } of there) {
          if (side < 48) note("small", offer);
          if (x < side / 2 - 0.5 || y < side / 2 - 0.5 || x > width - side / 2 + 0.5 || y > height - side / 2 + 0.5) note("outside", offer);
        }
      }
    }
  }
  return { counts, examples, offers };
}
