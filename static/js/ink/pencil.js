/** This device's own pencil: what it is drawing, on a canvas that a worker draws, where the browser has such. */

import { svg } from "../court/court.js";
import { layersOf } from "./layers.js";
import { COLOURS, TOOLS } from "./model.js";
import { dots, isPressed } from "./pen.js";
import { PENCIL_WORKER } from "./pencil-address.js";

/**
 * @typedef {import("./model.js").Stroke} Stroke
 * @typedef {import("./pencil-worker.js").Coat} Coat
 * @typedef {import("./pencil-worker.js").Told} Told
 * @typedef {import("../court/projection.js").Projection} Projection
 * @typedef {{coats: Coat[], opacity: string}} Look
 */

/** More pixels than this are not seen, and take their time. */
const RATIO_MAX = 2;

export class Pencil {
  /** @param {SVGElement} ink  the ink it draws over */
  constructor(ink) {
    this.ink = ink;
    this.canvas = document.createElement("canvas");
    this.canvas.className = "pencil";
    this.canvas.setAttribute("aria-hidden", "true");
    this.asked = false;
    /** Set once it can draw; the canvas is in the page from then on. @type {Worker | null} */
    this.worker = null;
    /** What the styles make of a tool and a colour: asking takes as long as a frame has. @type {Map<string, Look>} */
    this.looks = new Map();
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.looks.clear());
    /** What is drawn: how much of which stroke. @type {{id: string, projection: Projection, pressed: boolean, sent: number} | null} */
    this.now = null;
  }

  /** Make ready to draw. Where that fails, now or later, `draw` says so. */
  open() {
    this.looks.clear();
    if (this.asked) return;
    this.asked = true;
    try {
      const canvas = this.canvas.transferControlToOffscreen();
      const worker = new Worker(PENCIL_WORKER, { type: "module" });
      worker.onmessage = () => {
        this.ink.after(this.canvas);
        this.worker = worker;
      };
      worker.onerror = () => {
        this.canvas.remove();
        this.worker = this.now = null;
      };
      worker.postMessage(/** @type {Told} */ ({ canvas, more: [] }), [canvas]);
    } catch {
      // A browser without: strokes grow as on any other screen.
    }
  }

  /**
   * Draw a stroke as far as it has come; it must grow at its end only.
   * @param {Stroke} stroke @param {Projection} projection
   * @returns {boolean} false: it cannot, draw it otherwise
   */
  draw(stroke, projection) {
    const name = TOOLS[stroke.tool];
    if (!this.worker || (name !== "pen" && name !== "marker")) return false;
    const pressed = isPressed(name, stroke.points);
    /** @type {Told} */
    const news = { more: [] };
    if (!this.now || this.now.id !== stroke.id || this.now.projection !== projection || this.now.pressed !== pressed) {
      const { coats, opacity } = this.#look(name, COLOURS[stroke.colour], projection);
      this.now = { id: stroke.id, projection, pressed, sent: 0 };
      news.begin = {
        name, pressed, scale: projection.scale, width: projection.width, height: projection.height,
        coats, ratio: Math.min(devicePixelRatio, RATIO_MAX),
      };
      // What lies over another part of the stroke makes it no darker: all of it is as clear as the highlighter is.
      this.canvas.style.opacity = opacity;
      this.canvas.classList.add("wet");
    }
    news.more = dots(stroke.points.slice(this.now.sent), projection);
    this.now.sent = stroke.points.length;
    this.worker.postMessage(news);
    return true;
  }

  /** Show nothing any more: what was drawn is drawn otherwise now. */
  away() {
    if (!this.now) return;
    this.now = null;
    this.canvas.classList.remove("wet");
    this.worker?.postMessage(/** @type {Told} */ ({ begin: null, more: [] }));
  }

  /** @param {"pen" | "marker"} name @param {string} colour @param {Projection} projection @returns {Look} */
  #look(name, colour, { scale }) {
    const key = `${name} ${colour} ${scale} ${document.documentElement.dataset.theme}`;
    const known = this.looks.get(key) ?? this.#asked(name, colour);
    this.looks.set(key, known);
    return known;
  }

  /** @param {"pen" | "marker"} name @param {string} colour @returns {Look} */
  #asked(name, colour) {
    const { group, under, body, middle } = layersOf(name, colour);
    const layers = [under, body, middle].filter((layer) => layer !== null);
    for (const layer of layers) layer.append(svg("path", { class: layer === middle ? "stroke cut" : "fill" }));
    this.ink.append(group);
    const coats = layers.map((layer) => {
      const { fill, stroke, strokeWidth } = getComputedStyle(/** @type {Element} */ (layer.firstElementChild));
      const width = stroke === "none" ? 0 : Number.parseFloat(strokeWidth);
      return { fill, stroke, width, alpha: Number(getComputedStyle(layer).opacity) };
    });
    const { opacity } = getComputedStyle(group);
    group.remove();
    return { coats, opacity };
  }
}
