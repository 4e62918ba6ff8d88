/** The court on a player's phone: floor, trails and discs, the player's own leading. */

import { makeActors, number } from "../court/actors.js";
import { drawCourt, svg } from "../court/court.js";
import { project } from "../court/projection.js";
import { drawTrails } from "../court/trails.js";

/**
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("../steps/film.js").Film} Film
 * @typedef {import("../court/projection.js").Projection} Projection
 */

export class ViewerCourt {
  /** @param {HTMLElement} root  an empty element that fills the court's space */
  constructor(root) {
    this.root = root;
    this.floorLayer = svg("svg", { class: "floor", "aria-hidden": "true" });
    this.trailLayer = svg("svg", { class: "trails", "aria-hidden": "true" });
    const actorLayer = document.createElement("div");
    actorLayer.className = "actors";
    root.replaceChildren(this.floorLayer, this.trailLayer, actorLayer);
    this.actorLayer = actorLayer;
    /** @type {number[]} */
    this.players = [];
    this.actors = makeActors(actorLayer, [], actorLayer, true);
    /** @type {Projection | null} */
    this.projection = null;
    this.drawn = "";
    /** @type {import("../steps/film.js").Cue | undefined} of the step whose trails are drawn */
    this.cue = undefined;
  }

  /** One disc a player. Returns whether they are other players than before. @param {number[]} players */
  cast(players) {
    if (players.join() === this.players.join()) return false;
    this.players = players;
    this.actors = makeActors(this.actorLayer, players, this.actorLayer, true);
    return true;
  }

  /**
   * Fit the floor to the space there is.
   * @param {Floor} floor
   * @param {boolean} turned  the basket at the bottom
   * @param {boolean} wide  room for somebody who stands outside the lines
   */
  fit(floor, turned, wide) {
    const { clientWidth, clientHeight } = this.root;
    this.projection = project(clientWidth, clientHeight, floor.box, { turned, mirrored: false, wide });
    this.drawn = "";
    this.root.style.setProperty("--r", `${this.projection.radius}px`);
    drawCourt(this.floorLayer, floor, this.projection);
    return this.projection;
  }

  /**
   * Draw the trails of one step, the player's own above the others'.
   * @param {Film} film
   * @param {number} index  -1 for none
   * @param {number | null} me
   */
  trails(film, index, me) {
    if (!this.projection) return;
    const [key, cue] = [`${index}:${me}`, film.cues[index]];
    if (key === this.drawn && cue === this.cue) return;
    [this.drawn, this.cue] = [key, cue];
    drawTrails(this.trailLayer, film, index, this.projection);
    for (const trail of this.trailLayer.querySelectorAll(`[data-of="${me}"]`)) {
      trail.classList.add("own");
      this.trailLayer.append(trail);
    }
  }

  /**
   * @param {number | null} me
   * @param {boolean} picking  a tap on a disc chooses it
   * @param {import("../state/roster.js").Roster} roster
   */
  mark(me, picking, roster) {
    this.root.classList.toggle("chosen", Boolean(me));
    this.root.classList.toggle("picking", picking);
    for (const [player, disc] of Object.entries(this.actors.discs)) {
      disc.classList.toggle("own", Number(player) === me);
      number(disc, roster, Number(player));
    }
  }

  /** Say what each disc is. @param {(player: number) => string} label */
  label(label) {
    for (const [player, disc] of Object.entries(this.actors.discs)) {
      disc.setAttribute("aria-label", label(Number(player)));
    }
  }
}
