/** A player's phone: follows the coach's board, and looks back at the player's own pace. */

import { onFirstInk } from "../state/ink-line.js";
import { openLink } from "../state/link.js";
import { loadPrefs, wearTheme } from "../device/prefs.js";
import { rosterOf } from "../state/roster.js";
import { goesOut } from "../steps/outside.js";
import { Stage } from "../court/stage.js";
import { hold, newFrom, positionKey, standingAt } from "../state/state.js";
import { Transport } from "../board/transport.js";
import { ViewerCourt } from "../viewer/viewer-court.js";
import { Me } from "../viewer/me.js";
import { chainRows, chainWords, markChain, placeOf, sayStart, sayStep, showChain, showSaid, startOf } from "../viewer/reading.js";
import { el, lineState, momentWords, showStatus, whenReturning } from "../viewer/line-state.js";
import { openSettings } from "../viewer/settings.js";
import { sayViewer, sayDisc } from "../words/viewer-words.js";
import { languageTag } from "../words/sayer.js";
import { speaker } from "../words/speaker.js";

/**
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../words/speaker.js").Words} Words
 * @typedef {import("../device/prefs.js").Prefs} Prefs
 */

const prefs = loadPrefs();
wearTheme(prefs.theme);

const court = new ViewerCourt(el("court"));
const stage = new Stage(court.actors);
const transport = new Transport(stage, () => paint());
const board = hold((now, before) => heard(now, before));
const calm = matchMedia("(prefers-reduced-motion: reduce)");

/** @type {Words | null} */
let words = null;
let roster = rosterOf({});
const me = new Me(() => turned());
/** New actions play as they come; otherwise the player is looking back. */
let follow = true;
/** What the words on screen were written for. */
let written = "";
/** The server has said how the board stands since the line was last in doubt. */
let sure = false;
/** When the board last changed, milliseconds since 1970. */
let changedAt = 0;
let frame = 0;
/** Brings ink up to what is looked at, once there is any. */
let ink = () => {};

// ---- what the server says

/** A line that is lost is known within four seconds; one that answers slowly is not given up. */
const BEAT = { every: 1500, doubt: 2000 };
/** How often it is looked at whether the page has been quiet for long, milliseconds. */
const LOOK_EVERY = 10_000;

const link = openLink(document.body.dataset.socket ?? "", {
  seen: () => (board.state.known ? board.state.seq : null),
  message(message) {
    if ((message.t === "step" || message.t === "back") && message.seq > board.state.seq + 1) {
      sure = false;
      link.again(); // something was missed: ask how the board stands
    } else {
      if (message.t === "state" || message.t === "pong") sure = true;
      if (message.t === "state") changedAt = message.at * 1000;
      else if (message.t === "step" || message.t === "back" || message.t === "show") changedAt = Date.now();
      if (message.t === "show") look(message);
      else board.receive(message);
    }
    status();
  },
  state(state) {
    if (state !== "live") sure = state === "gone";
    board.change({ link: state });
    status();
  },
}, BEAT);

// Back from sleep the line may be dead without knowing: say so until the server has answered.
whenReturning(() => {
  sure = false;
  status();
});

function status() {
  const { link: line, notice, known } = board.state;
  const now = Date.now();
  const moving = transport.mode === "live";
  const { state, quiet } = lineState({ link: line, sure: sure && known, follow, moving, at: changedAt }, now);
  showStatus(state, quiet ? momentWords(quiet, now, languageTag) : "", notice);
}
setInterval(status, LOOK_EVERY);

/** @param {State} now @param {State} before */
function heard(now, before) {
  if (!now.known) return;
  const anew = !before.known || setting(now) !== setting(before);
  const people = anew || JSON.stringify([now.squad, now.bench, now.calls]) !== JSON.stringify([before.squad, before.bench, before.calls]);
  if (people) roster = rosterOf(now.squad, { bench: now.bench });
  if (anew) open();
  else if (now.steps !== before.steps) takeOver();
  const from = before.known && follow && transport.mode === "rest" ? newFrom(before, now) : -1;
  if (goesOut(now.steps, now.floor.box) !== Boolean(court.projection?.view.wide)) fit();
  if (people && !anew) meet();
  // A chain that is put on the board is seen from where it is new, not only as it ends.
  if (from >= 0) transport.playFrom(from);
  else if (anew || now.steps !== before.steps) paint();
}

/** What makes it another board to look at, rather than the same one gone on. @param {State} state */
function setting({ board: { formation, court: floor, level }, first, start }) {
  return [formation, floor, level, first, positionKey(start)].join();
}

function open() {
  const { start, floor, steps } = board.state;
  if (court.cast(Object.keys(start.at).map(Number).sort((a, b) => a - b))) stage.actors = court.actors;
  fit();
  const depth = follow ? steps.length : Math.min(transport.depth, steps.length);
  transport.load(start, floor.spots, steps);
  if (depth < steps.length) transport.goTo(depth);
  meet();
}

/** What the coach looked at last. @type {import("../board/showing.js").Shown | null} */
let looks = null;

/** Look where the coach looks; whoever looks back at their own pace is left alone. @param {import("../board/showing.js").Shown} shown */
function look(shown) {
  looks = shown;
  const { known, seq, first, steps } = board.state;
  const at = shown.at - first;
  if (!follow || !known || shown.seq !== seq || at < 0 || at > steps.length) return;
  if (shown.plays === "rest") transport.goTo(at);
  else if (shown.plays === "step") transport.watch(at);
  else transport.playFrom(at);
}

/** Let the transport have the chain as the server has it, without taking anybody away from what he looks at. */
function takeOver() {
  const { start, floor, steps } = board.state;
  if (follow) transport.sync(steps, true);
  else if (transport.mode === "rest") {
    const depth = Math.min(transport.depth, steps.length);
    transport.load(start, floor.spots, steps);
    transport.goTo(depth);
  } // else it waits until what is playing has come to rest
}

// ---- what is on the screen

function fit() {
  const { floor, steps } = board.state;
  if (!floor) return;
  stage.fit(court.fit(floor, prefs.turned, goesOut(steps, floor.box)));
  written = "";
}

/** Bring everything that depends on the moment of the film up to it. */
function paint() {
  cancelAnimationFrame(frame);
  if (!board.state.known || !transport.film) return;
  if (transport.mode === "rest" && transport.steps !== board.state.steps) takeOver();
  const { depth, playing, t, end } = transport.progress;
  if (!follow && !playing && depth === board.state.steps.length && t > end - 1e-3) follow = true;
  status();
  court.trails(transport.film, depth - 1, me.place);
  ink();
  write(depth);
  behind(depth);
  el("play").dataset.playing = String(playing);
  el("play").setAttribute("aria-label", playing ? sayViewer("pause") : sayViewer("play"));
  usable("back", depth > 0);
  usable("forward", depth < board.state.steps.length);
  usable("play", board.state.steps.length > 0);
  if (playing) frame = requestAnimationFrame(paint);
}

/** @param {number} depth */
function write(depth) {
  if (!words) return;
  const { steps, first } = board.state;
  const shown = transport.steps;
  const key = `${depth}|${me.place}|${me.own}|${me.missing}|${me.whose}|${shown[depth - 1]?.a.join() ?? ""}|${steps.map((step) => step.a).join(";")}`;
  if (key === written) return;
  const began = written !== "";
  written = key;
  const speech = words;
  const begins = startOf(standingAt(board.state, shown, 0), shown[0]);
  const standing = depth ? shown[depth - 1].after : begins;
  const start = sayStart(begins, me.place, speech, me.own);
  const said = depth ? sayStep(shown[depth - 1], me.place, speech, me.own) : { ...start };
  if (me.missing) said.mine = me.missing;
  showSaid(el("mine"), el("others"), said);
  if (el("whose").textContent !== me.whose) el("whose").textContent = me.whose;
  el("whose").hidden = !me.whose;
  el("earlier").hidden = first === 0;
  showChain(/** @type {HTMLOListElement} */ (el("chain")), chainRows(steps, start, me.place, speech, me.own));
  markChain(el("chain"), depth, began && !calm.matches);
  court.label((player) => sayDisc(speech.player(player), placeOf(standing, player, speech), player === standing.ball));
}

/** The line that leads back to the coach. @param {number} depth */
function behind(depth) {
  const { steps } = board.state;
  const ahead = steps.length > seenTo ? steps[steps.length - 1] : null;
  if (follow && el("behind").contains(document.activeElement)) el("play").focus();
  el("behind").hidden = follow;
  if (follow) seenTo = steps.length;
  if (!follow && words) {
    const text = ahead ? sayViewer("gone_on", { words: chainWords(ahead, words) }) : sayViewer("looking");
    if (el("where").textContent !== text) el("where").textContent = text;
  }
  el("behind").classList.toggle("new", Boolean(ahead) && depth < steps.length);
}
/** How long the chain was when the player last was with the coach. */
let seenTo = 0;

// ---- what the player does

/** Take in who plays where. */
function meet() {
  words = speaker({ name: roster.label, calls: board.state.calls });
  const { squad, bench } = board.state;
  me.take({ squad, bench }, court.players);
  turned();
}

/** Show whose part it is now. */
function turned() {
  court.mark(me.place, me.picking, roster);
  written = "";
  paint();
}

/** @param {string} id @param {() => void} act */
function on(id, act) {
  el(id).addEventListener("click", () => el(id).getAttribute("aria-disabled") !== "true" && act());
}

/** Whether a button can do anything now. It stays where the keyboard is, so it is not taken out. @param {string} id @param {boolean} can */
function usable(id, can) {
  el(id).setAttribute("aria-disabled", String(!can));
}

/** Leave the coach's pace for one's own. @param {() => void} act */
function alone(act) {
  if (!transport.film) return;
  follow = false;
  act();
  paint();
}

el("court").addEventListener("click", ({ target }) => {
  const disc = target instanceof Element ? /** @type {HTMLElement | null} */ (target.closest(".disc")) : null;
  if (disc) me.tapDisc(Number(disc.dataset.player));
});
on("back", () => alone(() => transport.back()));
on("forward", () => alone(() => transport.forward()));
on("play", () => alone(() => transport.toggle()));
el("chain").addEventListener("click", ({ target }) => {
  const row = target instanceof Element ? target.closest("button")?.dataset.depth : undefined;
  const depth = Number(row);
  if (row !== undefined) alone(() => (depth ? transport.watch(depth - 1) : transport.goTo(0)));
});
on("live", () => {
  const { steps } = board.state;
  transport.pause();
  takeOver();
  follow = true;
  if (looks?.seq === board.state.seq) look(looks);
  else if (steps.length) transport.watch(steps.length - 1);
  paint();
});
// ---- begin

const awaitInk = () => onFirstInk(() => void import("../ink/follow.js").then(({ followInk }) => {
  ink = followInk({
    below: court.actorLayer,
    projection: () => court.projection,
    looking: () => ({ first: board.state.first, line: board.state.steps.slice(0, transport.depth).map(({ a }) => a) }),
  });
}).catch(awaitInk));
awaitInk();

const beCalm = () => (stage.still = transport.still = calm.matches);
calm.addEventListener("change", beCalm);
beCalm();
openSettings(prefs, { turned: () => (fit(), paint()) }, transport);
new ResizeObserver(() => {
  fit();
  paint();
}).observe(el("court"));

// The page comes with how the board stood, so that it is drawn before the line is there; the line has the last word.
if (!board.state.known) board.receive(JSON.parse(el("stands").textContent ?? ""));
