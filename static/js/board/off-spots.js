/** Players off their spots: carried away by hand, and brought back by one tap, or put back where they were. */

import { inside } from "../court/projection.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./transport.js").Transport} Transport
 * @typedef {import("../court/projection.js").Projection} Projection
 */

/** Height of the way back at the court's edge, and of the word under a disc, CSS pixels: nobody is put there. */
const WAY_BACK = 80;
const WORD = 20;
/** Let go of this near to his spot, centimetres, a player is on it. */
const ON_SPOT = 45;

export class OffSpots {
  /** @param {Transport} transport @param {() => Projection | null} projection */
  constructor(transport, projection) {
    this.transport = transport;
    this.projection = projection;
    /** @type {Record<number, Point>} centimetres */
    this.off = {};
    /** @type {Record<number, Point>} what it was before the finger that is down now */
    this.before = {};
    /** @type {string | null} what has been sent to bring them back */
    this.sent = null;
  }

  /** Who is off his spot. */
  get players() {
    return this.transport.strayed ? Object.keys(this.off).map(Number) : [];
  }

  /** Where everybody is, whole centimetres. @returns {Record<string, Point>} */
  get where() {
    const places = { ...this.transport.places(this.transport.depth), ...this.off };
    return Object.fromEntries(Object.entries(places).map(([player, [x, y]]) => [player, [Math.round(x), Math.round(y)]]));
  }

  /** A finger takes hold of a player: everybody else comes to rest. */
  lift() {
    const { transport } = this;
    if (!transport.strayed) this.off = {};
    if (transport.mode !== "rest") transport.goTo(transport.depth);
    this.before = this.off;
    return true;
  }

  /** @param {number} player @param {Point} to  CSS pixels */
  carry(player, to) {
    const projection = this.projection();
    if (!projection) return;
    const { radius, height, view } = projection;
    const [top, bottom] = view.turned ? [WAY_BACK + radius, height - WORD - radius] : [0, height - WAY_BACK - WORD - radius];
    const [x, y] = projection.cm(inside(projection, [to[0], Math.max(top, Math.min(bottom, to[1]))]));
    this.off = { ...this.before, [player]: [x, y] };
    this.#show();
  }

  /** The finger has gone. @param {number} player @param {boolean} put  false: as if he had never been touched */
  drop(player, put) {
    const { [player]: place, ...others } = this.off;
    const home = this.transport.places(this.transport.depth)[player];
    if (!put) this.off = this.before;
    else if (place && home && Math.hypot(place[0] - home[0], place[1] - home[1]) < ON_SPOT) this.off = others;
    this.#show();
  }

  /** Everybody where he was. */
  putBack() {
    this.off = {};
    this.#show();
  }

  /** What is on show has moved on. */
  forget() {
    if (this.transport.strayed) return;
    this.off = {};
    this.sent = null;
  }

  #show() {
    const any = Object.keys(this.off).length > 0;
    if (any || this.transport.strayed) this.transport.stray(any ? { ...this.transport.places(this.transport.depth), ...this.off } : null);
  }
}
