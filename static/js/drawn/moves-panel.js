/** The words beside the court while it is drawn by hand: what it is and who is on the floor; what they do, line by line. */

import { SETS } from "./kinds.js";
import { KINDS } from "../steps/drawn-text.js";
import { sayDrawn } from "../words/drawn-words.js";

/**
 * @typedef {object} DrawnLine  a move
 * @property {number} id
 * @property {string} says
 * @property {string} time  how long it takes
 * @property {string} start  the same, and when it starts
 * @property {number} beat
 * @property {boolean} run  it can be a screen
 * @property {boolean} bar
 * @property {boolean} paced  it can be slower and faster
 *
 * @typedef {object} PanelWays
 * @property {(kind: string) => void} kind
 * @property {(what: "defender" | "defenders" | "coach" | "cone") => void} add
 * @property {(who: number) => void} inbound  they throw in
 * @property {(set: (typeof SETS)[number]) => void} set  how the other four begin
 * @property {() => void} remove
 * @property {() => void} clear
 * @property {() => void} anew
 * @property {(id: number) => void} choose
 * @property {(what: "screen" | "earlier" | "later" | "slower" | "faster" | "delete", id: number) => void} change
 *
 * @typedef {object} PanelNow
 * @property {"setup" | "draw"} mode
 * @property {string} kind
 * @property {{by: number, set: string, faces: string[]} | null} inbound  who throws in, of the five numbers; null: nobody does, or it is drawn
 * @property {string} defender  the next one, "" for none
 * @property {boolean} coach  he can be put on the floor
 * @property {boolean} cone
 * @property {string} chosen  who can be taken away, "" for nobody
 * @property {boolean} empty
 * @property {DrawnLine[]} lines
 * @property {number} line  id of the one that is open, 0 for none
 * @property {boolean} then
 * @property {boolean} changes  a step that was drawn before, nothing of it yet
 */

/** @param {string} text @param {() => void} act @param {string} [kind] */
function button(text, act, kind = "") {
  const made = document.createElement("button");
  made.type = "button";
  made.className = kind;
  made.textContent = text;
  made.addEventListener("click", act);
  return made;
}

/** @param {string} name @param {string} kind @param {(string | Node)[]} inside */
function part(name, kind, ...inside) {
  const made = document.createElement(name);
  made.className = kind;
  made.append(...inside);
  return made;
}

/** One line of what to mind, and the way to the rest; the board stays open. */
function cautions() {
  const link = Object.assign(document.createElement("a"), { href: "/care", target: "_blank", rel: "noopener", textContent: sayDrawn("cautions") });
  return part("p", "cautions", sayDrawn("care"), " ", link);
}

export class DrawnPanel {
  /** @param {HTMLElement} page @param {PanelWays} on */
  constructor(page, on) {
    this.on = on;
    this.root = document.createElement("aside");
    this.root.className = "hand-panel";
    this.drawn = "";
    this.shown = { lines: 0, line: 0 };
    page.append(this.root);
  }

  /** @param {PanelNow} now */
  draw(now) {
    const key = JSON.stringify(now);
    if (key === this.drawn) return;
    this.drawn = key;
    const before = document.activeElement;
    const held = before instanceof HTMLElement && this.root.contains(before) ? before.dataset.key : undefined;
    this.root.setAttribute("aria-label", now.mode === "setup" ? sayDrawn("setup") : sayDrawn("moves"));
    const anew = now.changes ? [button(sayDrawn("anew"), this.on.anew, "take")] : [];
    this.root.replaceChildren(...anew, ...(now.mode === "setup" ? this.#setup(now) : this.#moves(now)));
    for (const each of this.root.querySelectorAll("button")) each.dataset.key ??= each.textContent ?? "";
    // What has just been drawn, or opened, is in view.
    const { lines: { length: lines }, line } = now;
    const seek = line !== this.shown.line ? ".open" : lines > this.shown.lines ? ".lines > :last-child" : "";
    this.shown = { lines, line };
    if (seek) this.root.querySelector(seek)?.scrollIntoView({ block: "nearest" });
    if (held === undefined) return;
    // The keyboard stays where it was, or on the line before what is gone.
    const all = [...this.root.querySelectorAll("button")];
    (all.find((each) => each.dataset.key === held && !each.disabled) ?? all.filter((each) => each.classList.contains("line")).pop() ?? all[0])?.focus();
  }

  /** @param {PanelNow} now */
  #setup({ kind, inbound, defender, coach, cone, chosen, empty }) {
    const { on } = this;
    const kinds = part("div", "kinds", ...KINDS.map((each) => {
      const made = button(sayDrawn(`kinds.${each}`), () => on.kind(each));
      made.setAttribute("aria-pressed", String(each === kind));
      return made;
    }));
    kinds.setAttribute("role", "group");
    kinds.setAttribute("aria-label", sayDrawn("kind"));
    const adds = part("div", "adds",
      button(defender ? defender.toUpperCase() : sayDrawn("no_defender"), () => on.add("defender")), button(sayDrawn("defenders"), () => on.add("defenders")),
      button(sayDrawn("coach"), () => on.add("coach")), button(sayDrawn("cone"), () => on.add("cone")));
    const [one, every, mark, small] = adds.querySelectorAll("button");
    one.dataset.key = "defender";
    if (defender) one.setAttribute("aria-label", sayDrawn("defender", { who: defender.toUpperCase() }));
    one.disabled = every.disabled = !defender;
    mark.disabled = !coach;
    small.disabled = !cone;
    return [
      part("h3", "", empty && (kind === "side" || kind === "base") ? sayDrawn("other_side") : sayDrawn("kind")), kinds,
      ...(inbound ? this.#inbound(inbound) : []),
      part("h3", "", sayDrawn("add")), adds, ...(chosen ? [button(sayDrawn("remove", { who: chosen }), on.remove, "take")] : []),
      button(sayDrawn("clear"), on.clear, "clear"), cautions(),
    ];
  }

  /** Who throws in, and how the others begin. @param {{by: number, set: string, faces: string[]}} inbound */
  #inbound({ by, set: now, faces }) {
    const { on } = this;
    const group = (/** @type {"who_inbounds" | "start_in"} */ key, /** @type {HTMLElement[]} */ buttons) => {
      const made = part("div", "adds", ...buttons);
      made.setAttribute("role", "group");
      made.setAttribute("aria-label", sayDrawn(key));
      return [part("h3", "", sayDrawn(key)), made];
    };
    const numbers = faces.map((face, i) => {
      const made = button(face, () => on.inbound(i + 1), "number");
      made.dataset.key = `inbound ${i + 1}`;
      made.setAttribute("aria-pressed", String(i + 1 === by));
      return made;
    });
    const sets = SETS.map((set) => {
      const made = button(sayDrawn(`sets.${set}`), () => on.set(set));
      made.dataset.key = `set ${set}`;
      made.setAttribute("aria-pressed", String(set === now));
      return made;
    });
    const [who, five] = group("who_inbounds", numbers);
    five.classList.add("five");
    return [who, five, ...group("start_in", sets)];
  }

  /** @param {PanelNow} now */
  #moves({ lines, line: open, then }) {
    const { on } = this;
    if (!lines.length) return [part("p", "hint", sayDrawn("lines_hint")), cautions()];
    const list = part("ol", "lines");
    let beat = -1;
    lines.forEach((each) => {
      if (each.beat !== beat && beat >= 0) list.append(part("li", "beat", sayDrawn("beat")));
      beat = each.beat;
      list.append(this.#line(each, each.id === open));
    });
    if (then) list.append(part("li", "beat next", sayDrawn("next_then")));
    return [list, button(sayDrawn("clear"), on.clear, "clear"), cautions()];
  }

  /** @param {DrawnLine} line @param {boolean} open */
  #line({ id, says, time, start, run, bar, paced }, open) {
    const { on } = this;
    const row = button("", () => on.choose(id), "line");
    row.dataset.key = `line ${id}`;
    row.append(part("span", "says", says), part("span", "time", ` ${open ? start : time}`));
    row.setAttribute("aria-expanded", String(open));
    const item = part("li", open ? "open" : "", row);
    if (!open) return item;
    const tool = (/** @type {Parameters<PanelWays["change"]>[0]} */ what, /** @type {string} */ text) => {
      const made = button(text, () => on.change(what, id));
      made.dataset.key = `${what} ${id}`;
      return made;
    };
    if (run) item.append(part("p", "hint", sayDrawn("bend_hint")));
    item.append(part("div", "tuning",
      tool("earlier", sayDrawn("earlier")), tool("later", sayDrawn("later")), ...(run ? [tool("screen", bar ? sayDrawn("to_cut") : sayDrawn("to_screen"))] : []),
      ...(paced ? [tool("slower", sayDrawn("slower")), tool("faster", sayDrawn("faster"))] : []), tool("delete", sayDrawn("delete"))));
    return item;
  }
}
