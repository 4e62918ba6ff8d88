/** Fingers on the court and keys: what each of them means on the board as it stands. */

import { listen } from "../court/gestures.js";
import { listenKeys } from "./keys.js";
import { listenPresses } from "../device/press.js";
import { element } from "./status.js";
import { toast } from "../ui/toast.js";

/**
 * @typedef {import("../state/wire.js").Offer} Offer
 *
 * @typedef {object} InputParts
 * @property {import("../court/court-view.js").CourtView} court
 * @property {import("./transport.js").Transport} transport
 * @property {import("./offering.js").Offering} offering
 * @property {import("./off-spots.js").OffSpots} adrift
 * @property {import("./bench.js").Bench} bench
 * @property {() => Offer[]} offers  what can be played now
 * @property {() => boolean} canLift  players can be carried off their spots now
 * @property {(offer: Offer) => void} choose
 * @property {(digit: string) => number | null} placeOf
 * @property {() => boolean} mirrored
 * @property {() => void} draw
 * @property {() => void} undo
 * @property {() => void} redo
 * @property {() => void} putBack
 */

/** @param {InputParts} board */
export function takeHands({ court, transport, offering, adrift, bench, offers, canLift, choose, draw, ...board }) {
  listen(court.root, {
    choose,
    aims() {
      const { projection, targets } = court;
      if (!projection || !offers().length) return [];
      const all = targets.map(({ offer, by, at }, i) => ({ offer, by, at, element: court.targetLayer.children[i] }));
      const places = transport.places(transport.depth);
      for (const [player, offer] of offering.passing) {
        all.push({ offer, by: offer.by, at: projection.px(places[player]), element: court.actors.discs[player] });
      }
      return all;
    },
    tap(element) {
      if (!(element instanceof HTMLElement)) return false;
      const player = Number(element.dataset.player);
      const offer = player ? offering.passing.get(player) : offers().find((each) => each.a.join(" ") === element.dataset.act);
      const changes = Boolean(player && bench.open);
      if (changes) bench.pickPlace(player);
      else if (offer) choose(offer);
      return changes || Boolean(offer);
    },
    show: (from, to, chosen) => court.aim(from, to, chosen),
    lift() {
      if (!canLift()) return false;
      toast(element("toast"), ""); // the way back needs its place
      return adrift.lift();
    },
    carry(player, to) {
      const first = !transport.strayed;
      adrift.carry(player, to);
      if (first) draw(); // what could be played a moment ago cannot now
    },
    drop(player, put) {
      adrift.drop(player, put);
      draw();
    },
  });

  listenPresses(document.body);
  listenKeys({
    pass(digit) {
      const player = board.placeOf(digit);
      const offer = player === null ? undefined : offering.passing.get(player);
      if (offer) choose(offer);
    },
    act(act, side) {
      const real = side && board.mirrored() ? (side === "left" ? "right" : "left") : side;
      const offer = offers().find((each) =>
        act === "default" ? each.default : each.mark[0] === act && (!real || each.d === real));
      if (offer) choose(offer);
    },
    escape: () => (bench.open ? bench.close() : board.putBack()),
    undo: board.undo,
    redo: board.redo,
    back: () => transport.back(),
    forward: () => transport.forward(),
    play: () => transport.toggle(),
    loop: () => transport.setLoop(!transport.loop),
  });
}
