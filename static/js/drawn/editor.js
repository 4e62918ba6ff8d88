/**
 * Draw a play: set players up freely, draw what they do, and put it in the chain as one step. Holds the drawing
 * and what is done to it; the court, the stage and its film are the board's own.
 */

import { ballAt, lying } from "../steps/film.js";
import { standingAt } from "../state/state.js";
import { bendable } from "./bend.js";
import { draftOf } from "./change.js";
import { begun, blankDraft, done, lastBeat, redone, undone, withThen } from "./drawing.js";
import { beginDrag, endDrag, moveDrag, thrown } from "./drag.js";
import { tooMuch } from "./finish.js";
import { listenHand } from "./hand.js";
import { keepDraft, keptDraft } from "./kept-draft.js";
import { Over } from "./handles.js";
import { previewOf } from "./preview.js";
import { Showing } from "./showing.js";
import { isScript, PLAYERS, writeScript } from "../steps/drawn-text.js";
import { sayDrawn } from "../words/drawn-words.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./drawing.js").Draft} Draft
 * @typedef {import("./drag.js").Drag} Drag
 *
 * @typedef {object} EditorParts
 * @property {import("../court/court-view.js").CourtView} court
 * @property {import("../court/stage.js").Stage} stage
 * @property {import("../board/transport.js").Transport} transport
 * @property {import("../board/desk.js").Desk} desk
 * @property {() => import("../words/speaker.js").Words} words
 * @property {() => import("../state/roster.js").Roster} roster
 * @property {() => Record<string, Point>} where  everybody stands, whole centimetres
 * @property {(sentence: string, way?: {word: string, act: () => void}) => void} say
 * @property {(depth: number, text: string) => boolean} play  it, after so many steps; false: not now
 * @property {() => void} fit  the court and all that is on it
 */

export class Editor {
  /** @param {EditorParts} board @param {() => void} changed  the words around the court are out of date */
  constructor(board, changed) {
    this.board = board;
    this.changed = changed;
    this.isOpen = false;
    /** @type {"setup" | "draw"} */
    this.mode = "setup";
    this.history = begun(blankDraft({}, 1));
    this.first = this.history.now; // what it was before anything was done
    this.stands = this.first; // everybody as he stood when it was opened
    this.of = ""; // text form of the step that is changed, "" for none
    this.goesOn = true; // something can follow on what was looked at
    this.looked = 0; // how many steps were played in what was looked at
    this.depth = 0; // after how many of them it is played
    this.chosen = ""; // somebody on the floor
    this.line = 0; // a move
    this.pressed = "";
    this.showing = new Showing(board.stage, () => this.paint());
    /** @type {Drag | null} */
    this.drag = null;
    this.frame = 0;
    this.over = new Over(board.court);
    listenHand(board.court.root, {
      open: () => this.isOpen,
      hit: (at) => this.over.hit(this.sheet, at),
      middle: (who) => this.over.px(this.sheet, who),
      begin: (who) => this.#begin(who),
      move: (to, finger) => this.#move(to, finger),
      drop: () => this.#end(),
      cancel: () => {
        this.drag = null;
        this.paint();
      },
      tap: (who) => this.tap(who ?? ""),
      press: (who) => {
        this.showing.stop();
        this.pressed = who ?? "";
        this.#drawOver();
      },
    });
  }

  get now() {
    return this.history.now;
  }

  get playing() {
    return this.showing.on;
  }

  /** Nothing has been done. */
  get fresh() {
    return this.now === this.first;
  }

  /** What the drawing is made on. @returns {import("./drag.js").Sheet} */
  get sheet() {
    return this.#sheetOf(this.now);
  }

  /** @param {Draft} draft @returns {import("./drag.js").Sheet} */
  #sheetOf(draft) {
    const { mode, board } = this;
    const projection = /** @type {import("../court/projection.js").Projection} */ (board.court.projection);
    const { plan } = this.previewed(draft);
    const bend = mode === "draw" ? bendable(plan, this.line) : null;
    return { mode, now: draft, plan, bend, floor: board.desk.state.floor, projection, say: board.say };
  }

  /** @param {Draft} [draft] @returns {import("./preview.js").Preview} */
  previewed(draft = this.drag?.draft ?? this.now) {
    const { state, packs } = this.board.desk;
    const { floor, steps, board } = state;
    const before = standingAt(state, steps, Math.min(this.depth, steps.length));
    return previewOf(draft, { floor, level: board.level, before, pack: packs.get(board)?.pack ?? null });
  }

  /** @returns {boolean} whether it could be */
  open() {
    const { court, transport, desk, say, stage, where } = this.board;
    const { known, steps, board } = desk.state;
    if (!known || !transport.film || !court.projection) return say(sayDrawn("not_yet")), false;
    if (transport.mode !== "rest") transport.goTo(transport.depth);
    const { film, depth } = transport;
    const before = standingAt(desk.state, steps, depth);
    const t = stage.now();
    this.stands = blankDraft(where(), ballAt(film, t).holder || lying(film, t) || before.ball);
    const kept = keptDraft(board.id);
    // A step that was drawn is there to be changed, unless another drawing has been left.
    const text = depth && isScript(steps[depth - 1]) ? steps[depth - 1].a[0] : "";
    const drawn = text && (!kept || kept.of === text) ? draftOf(text, board.level) : null;
    if (before.over && !drawn) return say(sayDrawn("over")), false;
    this.looked = depth;
    this.of = drawn ? text : "";
    this.goesOn = !before.over;
    this.#take(kept?.draft ?? null, drawn);
    [this.line, this.isOpen] = [0, true];
    document.body.classList.add("by-hand");
    court.actorLayer.inert = true;
    this.showing.take();
    this.board.fit();
    say(kept ? sayDrawn("again") : drawn ? sayDrawn("changing") : "");
    return true;
  }

  /** A drawing that was left, one to be changed, or a new one. @param {Draft | null} kept @param {Draft | null} drawn */
  #take(kept, drawn) {
    if (!drawn) this.of = "";
    this.depth = this.looked - Number(drawn !== null);
    this.first = drawn ?? this.stands;
    this.history = begun(kept ?? this.first);
    this.mode = this.now.moves.length ? "draw" : "setup";
    this.chosen = "";
  }

  /** A step after the one that was to be changed. */
  anew() {
    this.#take(null, null);
    this.paint(true);
  }

  /** @param {boolean} [keep]  the drawing, for the next time */
  close(keep = true) {
    if (!this.isOpen) return;
    const { court, transport, desk, say, fit } = this.board;
    this.showing.leave();
    this.drag = null;
    this.isOpen = false;
    document.body.classList.remove("by-hand");
    court.actorLayer.inert = false;
    court.drawn = "";
    const left = keep && !this.fresh;
    this.#keep(left);
    transport.goTo(Math.min(this.looked, desk.state.steps.length));
    fit();
    if (left) say(sayDrawn("kept"));
  }

  /** Put it in the chain. */
  finish() {
    const { say, play } = this.board;
    if (this.fresh) return say(this.of ? sayDrawn("unchanged") : sayDrawn("nothing"));
    const text = writeScript(this.previewed(this.now).script);
    const { depth } = this;
    this.close(false);
    if (play(depth, text)) return;
    this.#keep(true);
    say(sayDrawn("not_now_played"));
  }

  /** @param {Draft} next @param {string} [tag]  see done() */
  commit(next, tag = "") {
    const more = next.moves.length - this.now.moves.length;
    if (next !== this.now) {
      const much = more >= 0 ? tooMuch(this.previewed(next).script) : null;
      if (much) this.board.say(much === "long" ? sayDrawn("too_long") : sayDrawn("too_much"));
      else this.#become(done(this.history, more > 0 ? { ...next, beat: lastBeat(next) } : next, tag));
    }
    this.paint();
  }

  undo() {
    this.#become(undone(this.history));
    this.paint(true);
  }

  redo() {
    this.#become(redone(this.history));
    this.paint(true);
  }

  /** What is drawn next waits, or does not. @param {boolean} then */
  then(then) {
    this.history = { ...this.history, now: withThen(this.now, then), tag: "" };
    if (this.mode !== "draw") this.mode = "draw";
    this.paint();
  }

  /** @param {"setup" | "draw"} mode */
  turn(mode) {
    this.showing.stop();
    this.mode = mode;
    this.chosen = "";
    this.paint(true);
  }

  /** Somebody is taken up; where it is drawn, a team-mate gets the ball. @param {string} who  "" for nobody */
  tap(who) {
    if (this.mode === "draw" && PLAYERS.includes(who)) this.commit(thrown(this.sheet, Number(who)));
    else this.choose(who);
  }

  /** @param {string} who  "" for nobody */
  choose(who) {
    this.chosen = this.mode === "setup" ? who : "";
    this.paint();
  }

  /** From where everybody begins to the end. */
  play() {
    this.showing.play(this.previewed(this.now), this.board.transport.rate);
    this.paint();
  }

  /** @param {import("./drawing.js").History} history */
  #become(history) {
    this.showing.stop();
    this.history = history;
    const { moves, places } = history.now;
    if (!moves.some(({ id }) => id === this.line)) this.line = 0;
    if (this.chosen !== "ball" && !places[this.chosen]) this.chosen = "";
    this.#keep(!this.fresh);
  }

  /** @param {boolean} any  what there is, or nothing */
  #keep(any) {
    keepDraft(this.board.desk.state.board.id, any ? { draft: this.now, of: this.of } : null);
  }

  /** @param {string} who */
  #begin(who) {
    this.drag = beginDrag(this.sheet, who);
    if (this.drag && this.mode === "setup") this.chosen = who;
    return this.drag !== null;
  }

  /** @param {Point[]} to @param {Point} finger */
  #move(to, finger) {
    if (this.drag) this.drag = moveDrag(this.sheet, this.drag, to, finger);
    this.frame ||= requestAnimationFrame(() => {
      this.frame = 0;
      this.paint();
    });
  }

  #end() {
    const { drag } = this;
    this.drag = null;
    if (drag) this.commit(endDrag(this.sheet, drag));
    else this.paint();
  }

  /** Show it as it is, with the drag under way. @param {boolean} [glide] */
  paint(glide = false) {
    const { court, stage } = this.board;
    if (!this.isOpen || !court.projection) return;
    const { film } = this.previewed();
    if (!this.playing) stage.show(film, this.mode === "setup" ? 0 : film.end, glide);
    court.drawn = "";
    court.trails(film, 0);
    court.root.classList.toggle("moving", this.playing);
    this.#drawOver();
    this.changed();
  }

  #drawOver() {
    const { drag, chosen, pressed, playing } = this;
    if (!this.isOpen || !this.board.court.projection) return;
    this.over.draw(this.#sheetOf(drag?.draft ?? this.now), drag, { chosen, pressed, playing }, this.board.words(), this.board.roster().face);
  }
}
