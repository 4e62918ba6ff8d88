/** The page that tells a coach before the game whether this device is ready. */

import { feel, pictures, room, staysOn, wholeScreen } from "../check/abilities.js";
import { lookAtApp, lookAtKept, lookAtPacks, openedLast } from "../check/keeping.js";
import * as lines from "../check/wording.js";
import { TITLES, sayCheck, sayTodos } from "../words/check-words.js";
import { askServer, goesLive } from "../check/server.js";
import { askToKeep, storageKept } from "../device/kept-copy.js";
import { registerServiceWorker } from "../device/install.js";
import { element } from "../board/status.js";
import { anchor, button, make } from "../ui/dom.js";
import { languageTag } from "../words/sayer.js";

/**
 * @typedef {import("../check/wording.js").Name} Name
 * @typedef {import("../check/wording.js").Line} Line
 */

const NAMES = /** @type {Name[]} */ (Object.keys(TITLES));
/** What is known so far. @type {Partial<Record<Name, Line>>} */
let found = {};
/** What a line's sentence is followed by. @type {Partial<Record<Name, HTMLElement>>} */
let ways = {};
let pen = /** @type {"" | "pen" | "pressed pen" | "finger"} */ ("");
let server = false;
let turn = 0;

const rows = new Map(NAMES.map((name) => {
  const row = make("li", "", make("b", "mark"), make("div", "", make("h2", "", sayCheck(`titles.${name}`)), make("p", "", sayCheck("checking"))));
  row.dataset.line = name;
  return [name, row];
}));
element("lines").replaceChildren(...rows.values());

/** @param {Name} name @param {Line} line @param {HTMLElement} [way] */
function set(name, line, way) {
  found[name] = line;
  if (way) ways[name] = way;
  else delete ways[name];
  draw();
}

function draw() {
  for (const [name, row] of rows) {
    const line = found[name];
    row.dataset.state = line ? (line.fine ? "fine" : "todo") : "wait";
    const [mark, says] = [/** @type {HTMLElement} */ (row.querySelector(".mark")), /** @type {HTMLElement} */ (row.querySelector("p"))];
    mark.textContent = line ? (line.fine ? sayCheck("fine") : sayCheck("todo")) : "";
    const way = ways[name];
    says.replaceChildren(line?.says ?? sayCheck("checking"), ...(way ? [" ", way] : []));
  }
  // What there is to do stands first, once all is known.
  if (NAMES.every((name) => found[name])) {
    const order = [...NAMES].sort((a, b) => Number(found[a]?.fine) - Number(found[b]?.fine));
    const now = [...element("lines").children].map((row) => /** @type {HTMLElement} */ (row).dataset.line);
    if (order.join() !== now.join()) element("lines").replaceChildren(...order.map((name) => /** @type {HTMLElement} */ (rows.get(name))));
  }
  const summary = summed();
  if (element("summary").textContent !== summary) element("summary").textContent = summary;
}

function summed() {
  const all = NAMES.map((name) => found[name]);
  if (all.includes(undefined)) return sayCheck("checking");
  const left = NAMES.filter((name) => !found[name]?.fine);
  if (!left.length) return sayCheck("ready");
  if (!server && left.every((name) => name === "line")) return sayCheck("ready_away");
  return sayTodos(left.length);
}

async function check() {
  const mine = ++turn;
  [found, ways] = [{}, {}];
  draw();
  const put = (/** @type {Name} */ name, /** @type {Line} */ line, /** @type {HTMLElement | undefined} */ way = undefined) => {
    if (mine === turn) set(name, line, way);
  };
  /** A line that cannot be found out says so; the others go on. @param {Name[]} names @param {() => Promise<void>} work */
  const find = (names, work) => work().catch(() => {
    for (const name of names) if (!found[name]) put(name, { fine: false, says: sayCheck("unclear") });
  });
  put("pen", lines.pen(pen));
  put("screen", lines.screen(wholeScreen()));
  const asking = askServer();
  const keeping = lookAtKept();
  const safe = window.isSecureContext;
  await Promise.all([
    find(["line", "address", "key", "clock", "packs"], async () => {
      const [asked, kept] = await Promise.all([asking, keeping]);
      server = asked !== null;
      const trust = asked?.answer.trust;
      put("address", lines.address(safe, location.protocol === "https:", Boolean(trust)), !safe && trust ? anchor("", sayCheck("trust_link"), trust) : undefined);
      put("key", lines.key(asked, kept));
      put("clock", lines.clock(asked));
      const board = await lastBoard(kept.boards, asked?.answer.boards.map(({ id }) => id));
      put("line", lines.connection(asked, asked && board ? await goesLive(board) : null));
      if (!board) return put("packs", lines.packs(0, 0, false, safe));
      await lookAtPacks(board, (held, wanted, whole) => put("packs", lines.packs(held, wanted, server && whole, safe)));
    }),
    find(["kept", "waiting"], async () => {
      const kept = await keeping;
      put("kept", lines.keeping(kept));
      put("waiting", lines.waiting(kept));
    }),
    find(["app"], async () => put("app", lines.app(await lookAtApp()))),
    find(["storage"], async () => {
      const [promise, space] = await Promise.all([storageKept(), room()]);
      const again = button("small", sayCheck("ask"), () => void askToKeep().then(check));
      put("storage", lines.storage(promise, space), promise === "may clear" ? again : undefined);
    }),
    find(["frames", "awake"], async () => {
      // One after the other, and before the packs are unpacked.
      put("frames", lines.frames(await pictures(element("floor"))));
      put("awake", lines.awake(await staysOn()));
    }),
  ]);
}

/** The board that was open last on this device, else one this device may open. @param {string[]} kept @param {string[]} [opens] */
async function lastBoard(kept, opens = kept) {
  const last = await openedLast();
  return [last, ...kept, ...opens].find((id) => id && opens.includes(id)) ?? null;
}

/** The whole result, to be sent to somebody who can help. */
function text() {
  const all = NAMES.map((name) => {
    const line = found[name];
    const state = line?.fine ? sayCheck("fine") : sayCheck("todo");
    return sayCheck("line_of", { state, title: sayCheck(`titles.${name}`), says: line?.says ?? sayCheck("checking") });
  });
  return [sayCheck("text_head", { when: new Date().toLocaleString(languageTag === "en" ? undefined : languageTag) }), summed(), "", ...all, "", sayCheck("device", { width: screen.width, height: screen.height }), navigator.userAgent].join("\n");
}

async function copy() {
  const area = /** @type {HTMLTextAreaElement} */ (element("text"));
  const said = element("copied");
  said.textContent = "";
  area.value = text();
  try {
    await navigator.clipboard.writeText(area.value);
    area.hidden = true;
    said.textContent = sayCheck("copied");
  } catch {
    area.hidden = false;
    area.focus();
    area.select();
    said.textContent = sayCheck("copy_by_hand");
  }
}

element("again").addEventListener("click", () => void check());
element("copy").addEventListener("click", () => void copy());
feel(element("pad"), (seen) => {
  const rank = ["", "finger", "pen", "pressed pen"];
  if (rank.indexOf(seen) <= rank.indexOf(pen)) return;
  pen = seen;
  set("pen", lines.pen(pen));
});
registerServiceWorker();
void check();
