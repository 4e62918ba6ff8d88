/** What lies over the court while it is drawn by hand: the handles of everybody, and the marks of the drag under way. */

import { svg } from "../court/court.js";
import { inside } from "../court/projection.js";
import { middle } from "./bend.js";
import { freeSpots } from "./drag.js";
import { Grips } from "./grips.js";
import { drawMarks } from "./marks.js";
import { labelOf, nameOf } from "./draft-sentences.js";
import { isExtra } from "../steps/drawn-text.js";
import { sayDrawn } from "../words/drawn-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./drag.js").Drag} Drag
 * @typedef {import("./drag.js").Sheet} Sheet
 */

/** Where the ball of somebody who has it is taken hold of beside him, in radii and CSS pixels; see drawn.css. */
const HELD = 0.76;
const HELD_MORE = 5;
/** A finger so near takes hold, CSS pixels. */
const NEAR = 34;
const NEAR_BALL = 30;

export class Over {
  /** @param {import("../court/court-view.js").CourtView} court */
  constructor(court) {
    this.court = court;
    this.marks = svg("svg", { class: "hand-marks", "aria-hidden": "true" });
    court.targetLayer.after(this.marks);
    this.grips = new Grips(court.root);
  }

  /** Where somebody, or the ball, is on the screen. @param {Sheet} sheet @param {string} who @returns {Point} */
  px(sheet, who) {
    const { projection } = sheet;
    const { places, holder, lies } = standingIn(sheet);
    if (who === "bend") return projection.px(sheet.bend ? middle(sheet.bend.way) : [0, 0]);
    if (who !== "ball") return inside(projection, projection.px(places[who] ?? [0, 0]));
    if (!holder) return inside(projection, projection.px(lies ?? [0, 0]));
    const [x, y] = inside(projection, projection.px(places[holder]));
    const out = projection.radius * HELD + HELD_MORE;
    return [x + out, y - out];
  }

  /** Who or what is under a finger. @param {Sheet} sheet @param {Point} finger @returns {string | null} */
  hit(sheet, finger) {
    const far = (/** @type {string} */ who) => {
      const [x, y] = this.px(sheet, who);
      return Math.hypot(x - finger[0], y - finger[1]);
    };
    const near = Object.keys(standingIn(sheet).places).sort((a, b) => far(a) - far(b))[0];
    const ball = far("ball");
    // What was opened in the list lies on top.
    if (sheet.bend && far("bend") <= NEAR_BALL) return "bend";
    if (ball <= NEAR_BALL && ball <= far(near)) return "ball";
    return far(near) <= Math.max(NEAR, sheet.projection.radius + 6) ? near : null;
  }

  /**
   * @param {Sheet} sheet  as it would be if the finger went now
   * @param {Drag | null} drag
   * @param {{chosen: string, pressed: string, playing: boolean}} state
   * @param {import("../words/speaker.js").Words} words
   * @param {(player: number) => string} face
   */
  draw(sheet, drag, { chosen, pressed, playing }, words, face) {
    const { mode, now, plan, floor, projection } = sheet;
    const { places, holder, lies } = standingIn(sheet);
    const named = (/** @type {string} */ who) => (isExtra(who) ? who.toUpperCase() : face(Number(who)));
    const runner = drag && drag.who !== "ball" ? drag.who : "";
    const began = mode === "draw" && !playing ? Object.keys(places).filter((who) => plan.moves.some(({ move }) => move.does === "run" && move.who === who)) : [];
    drawMarks(this.marks, projection, {
      spots: runner ? freeSpots(sheet, runner, places) : [],
      snap: drag?.snap ?? null,
      began: began.map((who) => [named(who), now.places[who]]),
      throwing: drag?.throwing ?? null,
      taker: drag?.taker ? places[drag.taker] : null,
      ring: mode === "draw" && drag?.who === "ball" ? [0, 0] : null,
    });
    this.court.root.classList.toggle("letting-go", Boolean(drag?.away));
    const all = [...Object.keys(places), "ball"].map((who) => /** @type {[string, Point, string]} */ ([
      who, this.px(sheet, who),
      who === "ball" ? listed([sayDrawn("ball"), holder ? words.player(holder) : lies ? sayDrawn("on_floor") : sayDrawn("shot_ball")], "comma") : labelOf(who, places[who], Number(who) === holder, floor, words),
    ]));
    if (sheet.bend) all.push(["bend", this.px(sheet, "bend"), sayDrawn("bend", { who: nameOf(sheet.bend.who, words) })]);
    this.grips.draw(all, chosen, pressed, mode === "setup" ? sayDrawn("arrows_setup") : sayDrawn("arrows_draw"));
  }
}

/** Where everybody and the ball are in what is shown: at the start while it is set up, else at the end. @param {Sheet} sheet */
export function standingIn({ mode, now, plan }) {
  if (mode === "draw") return { places: plan.ends, holder: plan.holder, lies: plan.lies };
  const { places, ball } = now;
  return { places, holder: typeof ball === "number" ? ball : 0, lies: typeof ball === "number" ? null : ball };
}
