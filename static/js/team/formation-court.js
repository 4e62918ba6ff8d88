/** The court on which spots are dragged: floor, neighbours with their distances, and a handle for every spot. */

import { drawCourt, svg } from "../court/court.js";
import { project } from "../court/projection.js";
import { make } from "../ui/dom.js";
import { sayTeam, sayWhereIs } from "../words/team-words.js";
import { decimal, listed } from "../words/sayer.js";

/**
 * @typedef {import("./team-api.js").Floor} Floor
 * @typedef {import("./team-api.js").Point} Point
 * @typedef {import("./team-api.js").Distance} Distance
 * @typedef {import("./team-api.js").FormationData} FormationData
 * @typedef {import("../words/speaker.js").Words} Words
 *
 * @typedef {object} Handlers
 * @property {(spot: string, to: Point) => void} drag  a spot is on its way, centimetres
 * @property {(spot: string, to: Point) => void} drop
 */

/** How far an arrow key moves a spot, centimetres. */
const STEP = 10;
const STRIDE = 50;
/** How far a distance stands from its line, and half its width, CSS pixels. */
const LABEL = { off: 30, half: 34 };
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export class FormationCourt {
  /** @param {Words} words @param {boolean} fixed  only to be looked at @param {Handlers} handlers */
  constructor(words, fixed, handlers) {
    this.words = words;
    this.fixed = fixed;
    this.handlers = handlers;
    this.floorLayer = svg("svg", { class: "floor", "aria-hidden": "true" });
    this.linkLayer = svg("svg", { class: "links", "aria-hidden": "true" });
    this.labelLayer = make("div", "labels");
    this.labelLayer.setAttribute("aria-hidden", "true");
    this.spotLayer = make("div", "spots");
    this.root = make("div", "court small shaping", this.floorLayer, this.linkLayer, this.labelLayer, this.spotLayer);
    this.root.setAttribute("role", "group");
    this.root.setAttribute("aria-label", sayTeam("court"));
    /** @type {"ring" | "posts"} */
    this.layer = "ring";
    /** @type {Record<string, Point>} */
    this.places = {};
    /** @type {Distance[]} */
    this.distances = [];
    /** @type {{spot: string, at: Point} | null} */
    this.held = null;
    this.size = new ResizeObserver(() => this.draw());
    this.size.observe(this.root);
  }

  /**
   * @param {Floor} floor
   * @param {FormationData} data
   * @param {Record<string, Point>} places
   * @param {Distance[]} distances
   */
  show(floor, data, places, distances) {
    this.floor = floor;
    this.data = data;
    this.places = places;
    this.distances = distances;
    this.draw();
  }

  /** Only what moves while a spot is dragged. @param {Record<string, Point>} places @param {Distance[]} distances */
  follow(places, distances) {
    this.places = places;
    this.distances = distances;
    this.#links();
    this.#place();
  }

  close() {
    this.size.disconnect();
  }

  draw() {
    const { clientWidth, clientHeight } = this.root;
    if (!this.floor || !this.data || !clientWidth || !clientHeight) return;
    const projection = project(clientWidth, clientHeight, this.floor.box, { turned: false, mirrored: false });
    this.projection = projection;
    this.root.style.setProperty("--r", `${projection.radius}px`);
    drawCourt(this.floorLayer, this.floor, projection);
    this.linkLayer.setAttribute("viewBox", `0 0 ${clientWidth} ${clientHeight}`);
    this.#spots();
    this.#links();
    this.#place();
  }

  /** A handle for every spot, kept while the same spots are there, so that a drag or the keyboard stays on it. */
  #spots() {
    const data = /** @type {FormationData} */ (this.data);
    const ring = data.ring.map((item) => item.spot);
    const names = Object.keys(this.places).filter((name) => ring.includes(name) || !isRing(name));
    const there = new Map([...this.spotLayer.children].map((each) => [/** @type {HTMLElement} */ (each).dataset.spot, each]));
    for (const [name, element] of there) if (!name || !names.includes(name)) element.remove();
    const at = Object.fromEntries(Object.entries(data.start).map(([number, spot]) => [spot, number]));
    for (const name of names) {
      const kind = ring.includes(name) ? "ring" : "posts";
      let handle = /** @type {HTMLButtonElement | undefined} */ (there.get(name));
      if (!handle) {
        handle = this.#handle(name);
        this.spotLayer.append(handle);
      }
      const item = data.ring.find((each) => each.spot === name);
      const live = kind === this.layer && !this.fixed;
      handle.className = `spot ${kind}${item?.home ? " home" : ""}${live ? " live" : ""}${at[name] ? " start" : ""}`;
      handle.disabled = !live;
      /** @type {HTMLElement} */ (handle.firstElementChild).textContent = at[name] ?? "";
      handle.classList.toggle("ball", at[name] === String(data.ball));
      const [x, y] = this.places[name];
      const said = [sayTeam("spot_at", { spot: this.words.spot(name), where: sayWhereIs(x, y) })];
      if (item?.home) said.push(sayTeam("home"));
      if (at[name]) said.push(sayTeam("starts_here", { n: at[name] }));
      handle.setAttribute("aria-label", listed(said, "comma"));
    }
  }

  #place() {
    const { projection } = this;
    if (!projection) return;
    for (const handle of this.spotLayer.children) {
      const name = /** @type {HTMLElement} */ (handle).dataset.spot ?? "";
      const held = this.held?.spot === name;
      const [x, y] = projection.px(held && this.held ? this.held.at : this.places[name]);
      /** @type {HTMLElement} */ (handle).style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
      handle.classList.toggle("held", held);
    }
  }

  #links() {
    const { projection } = this;
    if (!projection) return;
    /** @type {SVGElement[]} */
    const lines = [];
    /** @type {HTMLElement[]} */
    const labels = [];
    for (const { first, second, metres, feet, mark } of this.distances) {
      const ends = [first, second].map((name) => projection.px(this.held?.spot === name ? this.held.at : (this.places[name] ?? [0, 0])));
      const [[x0, y0], [x1, y1]] = ends;
      lines.push(svg("path", { class: mark ? `link ${mark}` : "link", d: `M${x0} ${y0}L${x1} ${y1}` }));
      const text = make("b", "", sayTeam("metres", { metres: decimal(metres, mark ? 2 : 1) }));
      const label = make("span", mark ? `label ${mark}` : "label", text, make("i", "", sayTeam("feet", { feet: feet.toFixed(0) })));
      if (mark) label.append(make("em", "", sayTeam(`marks.${mark}`)));
      // Outside the line, where the floor is free of posts; inside where it would leave the picture.
      const [mx, my] = [(x0 + x1) / 2, (y0 + y1) / 2];
      const [bx, by] = projection.px([0, 300]);
      const far = Math.hypot(bx - mx, by - my) || 1;
      const beside = (/** @type {number} */ off) => [mx + ((bx - mx) / far) * off, my + ((by - my) / far) * off];
      const [ox, oy] = beside(-LABEL.off);
      const free = ox > LABEL.half && ox < projection.width - LABEL.half && oy < projection.height - LABEL.off * 0.7;
      const [lx, ly] = free ? [ox, oy] : beside(LABEL.off);
      label.style.transform = `translate(${lx.toFixed(1)}px, ${ly.toFixed(1)}px)`;
      labels.push(label);
    }
    this.linkLayer.replaceChildren(...lines);
    this.labelLayer.replaceChildren(...labels);
  }

  /** @param {string} name */
  #handle(name) {
    const handle = make("button", "spot", make("span"));
    handle.type = "button";
    handle.dataset.spot = name;
    handle.addEventListener("keydown", (event) => {
      const way = Reflect.get(ARROWS, event.key);
      if (!way) return;
      event.preventDefault();
      const step = event.shiftKey ? STRIDE : STEP;
      const [x, y] = this.places[name];
      this.handlers.drop(name, [x + way[0] * step, y + way[1] * step]);
    });
    handle.addEventListener("pointerdown", (event) => {
      const { projection } = this;
      if (!projection || event.button) return;
      handle.setPointerCapture(event.pointerId);
      const [x0, y0] = this.places[name];
      const moved = (/** @type {PointerEvent} */ next) =>
        /** @type {Point} */ ([Math.round(x0 + (next.clientX - event.clientX) / projection.scale), Math.round(y0 + (next.clientY - event.clientY) / projection.scale)]);
      const move = (/** @type {PointerEvent} */ next) => {
        if (!this.held && Math.hypot(next.clientX - event.clientX, next.clientY - event.clientY) < 4) return;
        this.held = { spot: name, at: moved(next) };
        this.#place();
        this.#links();
        this.handlers.drag(name, this.held.at);
      };
      const stop = (/** @type {PointerEvent} */ last) => {
        handle.removeEventListener("pointermove", move);
        handle.removeEventListener("pointerup", stop);
        handle.removeEventListener("pointercancel", stop);
        const { held } = this;
        if (!held) return;
        if (last.type === "pointerup") this.handlers.drop(name, held.at);
        else this.release();
      };
      handle.addEventListener("pointermove", move);
      handle.addEventListener("pointerup", stop);
      handle.addEventListener("pointercancel", stop);
    });
    return handle;
  }

  /** Nothing is held any more; the spot goes to where it is kept. */
  release() {
    this.held = null;
    this.#place();
    this.#links();
  }
}

/** Names a perimeter spot may have, left corner to right corner. */
export const RING = ["left_corner", "left_wing", "left_slot", "top", "right_slot", "right_wing", "right_corner"];

/** @param {string} name */
function isRing(name) {
  return RING.includes(name);
}
