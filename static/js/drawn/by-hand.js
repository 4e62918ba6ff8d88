/** The drawn play as a whole: the drawing, the words and buttons around it, and the keys. */

import { isOn, leave as leaveBig } from "../huddle/present.js";
import { element } from "../board/status.js";
import { DrawnBar } from "./tools.js";
import { bent, middle } from "./bend.js";
import { barred, blankDraft, five, paced, placed, removed, waits, without } from "./drawing.js";
import { freeSpots, thrown, walked } from "./drag.js";
import { Editor } from "./editor.js";
import { asKind, GUARD, inboundBy, inbounder, inSet, isInbound, nextCone, nextDefender, setOf, withDefender, withDefenders, withMark } from "./kinds.js";
import { listenHandKeys } from "./keyboard.js";
import { standingIn } from "./handles.js";
import { DrawnPanel } from "./moves-panel.js";
import { apart, whole } from "./simplify.js";
import { linesOf, nameOf, verdictText } from "./draft-sentences.js";
import { isExtra } from "../steps/drawn-text.js";
import { nudged } from "./timing.js";
import { sayDrawn, saySeconds } from "../words/drawn-words.js";
import { listed } from "../words/sayer.js";

/** @typedef {import("../state/wire.js").Point} Point */

/** One tap on earlier or later, hundredths of a second. */
const NUDGE = 20;
/** One press of an arrow key, and with Shift, centimetres: while setting up, and of a way that is drawn. */
const PUSH = [25, 5];
const STRIDE = [50, 100];
const MANY = 1e6;
/** A way drawn by keys ends on a free spot so near. */
const SNAP = 40;

/** @param {import("./editor.js").EditorParts} board */
export function openBoard(board) {
  const editor = new Editor(board, draw);
  const { grips } = editor.over;
  /** A way begun with the keys; of the ball, where it would go. @type {{who: string, way: Point[]} | null} */
  let begun = null;
  let linesSaid = 0; // so many lines

  const bar = new DrawnBar(document.body, {
    undo: () => editor.undo(),
    redo: () => editor.redo(),
    setup: () => editor.turn("setup"),
    draw: () => editor.turn("draw"),
    together: () => editor.then(false),
    then: () => editor.then(true),
    play: () => (editor.playing ? editor.showing.stop() : editor.play()),
    close: () => close(),
    done: () => (keep(), editor.finish(), !editor.isOpen && refocus()),
  });
  const panel = new DrawnPanel(document.body, {
    kind: (kind) => editor.commit(asKind(editor.now, kind, five(editor.first.places), board.desk.state.floor)),
    add,
    inbound: (who) => editor.commit(inboundBy(editor.now, who)),
    set: (name) => editor.commit(inSet(editor.now, name)),
    remove: () => take(editor.chosen),
    clear,
    anew: () => editor.anew(),
    choose: (id) => {
      editor.line = editor.line === id ? 0 : id;
      editor.paint();
    },
    change(what, id) {
      const { now } = editor;
      const next = what === "screen" ? barred(now, id) : what === "delete" ? without(now, id)
        : what === "slower" || what === "faster" ? paced(now, id, what === "faster" ? 1 : -1) : nudged(now, id, what === "later" ? NUDGE : -NUDGE, board.desk.state.board.level);
      if (what === "earlier" && next === now) return board.say(sayDrawn("no_earlier"));
      editor.commit(next, what === "screen" || what === "delete" ? "" : `${what} ${id}`);
    },
  });

  /** @param {"defender" | "defenders" | "coach" | "cone"} what */
  function add(what) {
    const { now } = editor;
    const { floor } = board.desk.state;
    const who = what === "defender" ? nextDefender(now) : what === "coach" ? "c" : what === "cone" ? nextCone(now) : "x";
    if (!who) return;
    const { radius, scale } = editor.sheet.projection;
    const far = Math.max(GUARD, (1.8 * radius) / scale); // discs are larger on small screens
    editor.commit(what === "defenders" ? withDefenders(now, far) : what === "defender" ? withDefender(now, who, far) : withMark(now, who, floor, far));
    if (what !== "defenders") editor.choose(who);
  }

  /** @param {string} who */
  function take(who) {
    if (!isExtra(who) || !editor.now.places[who]) return;
    editor.commit(removed(editor.now, who));
    board.say(sayDrawn("removed", { who: nameOf(who, board.words()) }), { word: sayDrawn("undo_word"), act: () => editor.undo() });
  }

  function clear() {
    const { first } = editor;
    editor.commit(editor.of ? blankDraft(five(first.places), first.ball) : first);
    editor.turn("setup");
    board.say(sayDrawn("cleared"), { word: sayDrawn("undo_word"), act: () => editor.undo() });
  }

  /** The button that led here has the keyboard again. */
  function refocus() {
    /** @type {HTMLElement | undefined} */ ([...document.querySelectorAll("[data-do='byHand']")].find((each) => each instanceof HTMLElement && each.offsetParent))?.focus();
  }

  function close() {
    keep();
    editor.close();
    refocus();
  }

  function draw() {
    const { mode, chosen, line, playing, now } = editor;
    const draft = editor.drag?.draft ?? now;
    const { plan, verdict } = editor.previewed();
    const words = board.words();
    const { past, future } = editor.history;
    bar.draw({
      mode, playing, then: waits(now), undo: past.length > 0, redo: future.length > 0, empty: !draft.moves.length,
      title: listed([sayDrawn(`kinds.${draft.kind}`), ...(plan.lasts ? [saySeconds(plan.lasts)] : [])], "facts"),
      says: begun ? sayDrawn("drawing", { who: nameOf(begun.who, words) }) : !draft.moves.length ? (mode === "setup" ? sayDrawn("setup_hint") : sayDrawn("draw_hint")) : verdictText(verdict, words),
      fine: draft.moves.length > 0 && verdict.is === "rule",
    });
    if (editor.drag) return; // the lines hold still under a finger
    const lines = linesOf(plan.moves, board.desk.state.floor, words);
    if (lines.length > linesSaid) element("live").textContent = lines[lines.length - 1].says;
    linesSaid = lines.length;
    panel.draw({
      mode, kind: now.kind, inbound: isInbound(now) ? { by: inbounder(now), set: setOf(now), faces: [1, 2, 3, 4, 5].map(board.roster().face) } : null,
      defender: nextDefender(now) ?? "", coach: !now.places.c, cone: nextCone(now) !== null,
      chosen: isExtra(chosen) && now.places[chosen] ? nameOf(chosen, words) : "", empty: !now.moves.length,
      lines, line, then: waits(now),
      changes: editor.of !== "" && editor.fresh && editor.goesOn,
    });
  }

  /** The way begun with the keys is kept. */
  function keep() {
    const held = begun;
    begun = null;
    if (!held) return false;
    editor.drag = null;
    const { sheet } = editor;
    const to = held.way[held.way.length - 1];
    const { lies } = sheet.plan;
    const spot = [...(lies ? [lies] : []), ...freeSpots(sheet, held.who, sheet.plan.ends)].find((each) => apart(each, to) <= SNAP);
    editor.commit(held.who === "ball" ? thrown(sheet, to) : walked(sheet, held.who, spot ? [...held.way.slice(0, -1), spot] : held.way, lies));
    return true;
  }

  /** @param {string} who @param {number} dx @param {number} dy @param {boolean} shift */
  function arrow(who, dx, dy, shift) {
    const { sheet, mode, now } = editor;
    const by = (mode === "setup" ? PUSH : STRIDE)[Number(shift)];
    const [x, y] = sheet.projection.turn([dx * by, dy * by]);
    const { places, holder, lies } = standingIn(sheet);
    if (mode === "setup") {
      const from = who === "ball" ? (lies ?? places[holder]) : places[who];
      const to = whole([from[0] + x, from[1] + y]);
      return editor.commit(who === "ball" ? { ...now, ball: to } : placed(now, who, to), `push ${who}`);
    }
    if (who === "bend") {
      const { bend } = sheet;
      const [u, v] = bend ? middle(bend.way) : [0, 0];
      return bend ? editor.commit(bent(now, bend, [u + x, v + y]), `bend ${bend.id}`) : undefined;
    }
    if (who.startsWith("k") || (who === "ball" && !holder)) return board.say(who === "ball" ? (lies ? sayDrawn("lies_there") : sayDrawn("gone")) : sayDrawn("cone_stays"));
    if (begun?.who !== who) {
      keep();
      begun = { who, way: [who === "ball" ? places[holder] : places[who]] };
    }
    const last = begun.way[begun.way.length - 1];
    begun.way.push(whole([last[0] + x, last[1] + y]));
    const { way } = begun;
    const drag = { who, draft: now, way, snap: null, taker: null, away: false, throwing: null };
    editor.drag = who === "ball" ? { ...drag, throwing: [way[0], way[way.length - 1]] } : { ...drag, draft: walked(editor.sheet, who, way, null) };
    editor.paint();
  }

  listenHandKeys({
    open: () => editor.isOpen,
    focused: () => grips.focused,
    arrow,
    keep: (who) => keep() || editor.tap(who),
    drop() {
      const had = begun !== null;
      begun = null;
      editor.drag = null;
      if (had) editor.paint();
      return had;
    },
    remove: take,
    pass(digit) {
      const player = board.roster().placeOf(digit);
      if (player === null) return;
      if (editor.mode === "draw") editor.commit(thrown(editor.sheet, player));
      else editor.commit({ ...editor.now, ball: player });
    },
    shoot: () => editor.mode === "draw" && editor.commit(thrown(editor.sheet, "ring")),
    undo: () => (keep(), editor.undo()),
    redo: () => editor.redo(),
    play: () => (editor.playing ? editor.showing.stop() : editor.now.moves.length && editor.play()),
    then: () => editor.then(!waits(editor.now)),
    mode: () => editor.turn(editor.mode === "setup" ? "draw" : "setup"),
    close,
  });
  grips.root.addEventListener("focusout", () => keep());
  grips.root.addEventListener("focusin", () => {
    if (editor.isOpen && editor.mode === "setup" && grips.focused !== editor.chosen) editor.choose(grips.focused);
  });

  return {
    get isOpen() {
      return editor.isOpen;
    },
    open() {
      if (isOn()) leaveBig();
      /** @type {HTMLElement | null} */ (document.querySelector(".ink-open[aria-pressed='true']"))?.click();
      linesSaid = MANY; // what was drawn before is not told
      if (editor.open()) bar.buttons[editor.mode].focus({ preventScroll: true });
    },
    close,
    paint: () => editor.paint(),
  };
}
