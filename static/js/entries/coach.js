/** The coach's page: puts the parts together. */

import { OffSpots } from "../board/off-spots.js";
import { arrive } from "../board/from-team.js";
import { drawAside } from "../board/blocked.js";
import { Bench } from "../board/bench.js";
import { substitute } from "../board/substitution.js";
import { ChainRow } from "../board/chain-row.js";
import { Controls, RATES } from "../board/controls.js";
import { following } from "../board/following.js";
import { tellAside, tellLeft } from "../board/left-aside.js";
import { CourtView } from "../court/court-view.js";
import { openDesk } from "../board/desk.js";
import { askToKeepOnce, isInstalled } from "../device/kept-copy.js";
import { takeHands } from "../board/input.js";
import { openShowing } from "../board/showing.js";
import { openHuddle } from "../huddle/huddle.js";
import { afterFrame, afterRest, inFrame } from "../device/scheduling.js";
import { openLooking } from "../board/shown-step.js";
import { openHints } from "../menu/hints.js";
import { openMenu } from "../menu/menu.js";
import { JustNow } from "../board/just-now.js";
import { Offering } from "../board/offering.js";
import { registerServiceWorker } from "../device/install.js";
import { sayBoard } from "../words/board-words.js";
import { loadPrefs, savePrefs, wearHand, wearTheme } from "../device/prefs.js";
import { rosterOf, seated } from "../state/roster.js";
import { openDoor } from "../drawn/open.js";
import { Stage } from "../court/stage.js";
import { beforeThis, positionKey, shown } from "../state/state.js";
import { drawStatus, element, tell, waitsOf } from "../board/status.js";
import { openPace } from "../ui/pace.js";
import { toast } from "../ui/toast.js";
import { Transport } from "../board/transport.js";
import { stayAwake } from "../device/wake.js";
import { speaker } from "../words/speaker.js";

/** @typedef {import("../state/state.js").State} State */

const prefs = loadPrefs();
wearTheme(prefs.theme);
wearHand(prefs.left);
const say = (/** @type {string} */ sentence, /** @type {Parameters<typeof toast>[2]} */ way = undefined) => toast(element("toast"), sentence, way);
let roster = rosterOf({});
let words = speaker();

const drawSoon = afterFrame(draw);
const drawInFrame = inFrame(draw);
const court = new CourtView(element("court"));
const stage = new Stage(court.actors);
const transport = new Transport(stage, () => {
  if (transport.whole && transport.progress.replaying) hints.learned("play");
  drawSoon();
});
const adrift = new OffSpots(transport, () => court.projection);
const bench = new Bench(element("bench"), (place, coming) => substitute({ desk, meet, player: (at) => words.player(at) }, place, coming), draw);
const offering = new Offering(court, element("list"), choose);
const justNow = new JustNow(court.root);
const menu = /** @type {HTMLDialogElement} */ (element("menu"));
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const quiet = () => (transport.still = stage.still = calm.matches);
calm.addEventListener("change", quiet);
quiet();

const hints = openHints(element("list"), { learned: prefs.learned, remember: (learned) => savePrefs(Object.assign(prefs, { learned })) });

const row = new ChainRow(element("chain"));
/** Who was met last, so that words are written anew only where that changed. */
let met = "";
let ownTap = false;
let updateMenu = (/** @type {State} */ _now) => {};
/** The team's plays; null until they are there. @type {import("../plays/plays.js").PlaysOnBoard | null} */
let shelf = null;

const desk = openDesk(String(document.body.dataset.socket), String(document.body.dataset.board), { changed, aside: (line, whole) => tellAside(desk, line, whole) });
const looking = openLooking({ desk, transport, adrift, bench, words: () => words });
const lookSoon = afterRest(desk.look);
const byHand = openDoor({
  court, stage, transport, desk, fit, words: () => words, roster: () => roster, where: () => adrift.where,
  say,
  play(depth, text) {
    ownTap = true;
    const played = desk.script(depth, text);
    ownTap = false;
    stayAwake();
    return played;
  },
});
const showPhones = openShowing(desk.show);
const controls = new Controls(document.body, {
  undo, putBack,
  ...openHuddle({ desk, transport }),
  redo: () => desk.redo(),
  join: () => desk.join(),
  fresh: () => desk.fresh(),
  replay: () => transport.replay(),
  back: () => transport.back(),
  play: () => transport.toggle(),
  forward: () => transport.forward(),
  speed: () => openPace({ pace: transport, rates: RATES, seconds: () => transport.lasts, choose: (pace) => transport.choose(pace) }),
  turn: () => prefer({ turned: !prefs.turned }),
  mirror: () => prefer({ mirrored: !prefs.mirrored }),
  subs() {
    say("");
    bench.toggle();
  },
  recover: () => {
    ownTap = true;
    adrift.sent = desk.recover(transport.depth, adrift.where);
    ownTap = false;
    draw();
  },
  menu: () => {
    if (desk.state.known) updateMenu = openMenu(menu, desk.state, prefs, words, { setup: desk.setup, prefer });
  },
  share: () => (hints.learned("share"), openPanel("share")),
  plays: () => void shelved.then(() => shelf?.panel()),
  save: () => void shelved.then(() => shelf?.save()),
  byHand: byHand.open,
  scrub: (t) => transport.seek(t),
});
const follow = following({ transport, controls, depth: () => row.depth, draw: drawInFrame });
/** @type {import("../ink/ink.js").Ink | null} */
let ink = null;
void import("../ink/ink.js").then(async ({ openInk }) => {
  ink = await openInk({ court, desk, transport, say, counted: () => drawStatus(desk.state, waitsOf(shelf, ink)) });
}).catch(() => {}); // the board plays without
const shelved = import("../plays/plays.js").then(({ openShelf }) => {
  shelf = openShelf({ desk, transport, words: () => words, say, redraw: drawSoon });
  shelf.changed();
}).catch(() => say(sayBoard("no_plays")));

/** @param {"share" | "devices"} tab */
function openPanel(tab) {
  // Fetched when it is first wanted.
  import("../share/share.js").then((share) => share.openShare(desk, tab), () => say(sayBoard("no_share")));
}

/** @param {Partial<import("../device/prefs.js").Prefs>} patch */
function prefer(patch) {
  Object.assign(prefs, patch);
  savePrefs(prefs);
  wearTheme(prefs.theme);
  wearHand(prefs.left);
  meet(desk.state);
  fit();
}

/** Who plays, what they are called and what is called: all words are written anew when that changes. @param {State} state */
function meet(state) {
  const { squad, bench } = seated(state);
  const key = JSON.stringify([squad, bench.map(({ number }) => number), state.calls, prefs.named, prefs.names, prefs.mirrored]);
  if (key === met) return;
  met = key;
  row.forget();
  roster = rosterOf(squad, { ...prefs, bench });
  words = speaker({ mirrored: prefs.mirrored, name: roster.label, calls: state.calls });
  offering.forget();
}

/** Fit the court to its space and draw everything again. */
function fit() {
  const { known, floor } = desk.state;
  if (!known || !court.root.clientWidth) return;
  stage.fit(court.fit(floor, { ...prefs, big: document.body.classList.contains("presenting") }));
  offering.forget();
  row.unmark(); // the words have another width too
  draw();
}
new ResizeObserver(fit).observe(court.root);

/** @param {State} now @param {State} before */
function changed(now, before) {
  if (now.notices !== before.notices) say(now.notice);
  if (!now.known) return drawStatus(now);
  const { steps } = shown(now);
  const own = ownTap || adrift.sent !== null;
  if (!now.pending.some((sent) => sent.id === adrift.sent)) adrift.sent = null;
  if (now.floor !== before.floor && JSON.stringify(now.floor) !== JSON.stringify(before.floor)) {
    transport.load(now.start, now.floor.spots, steps);
    // What was just put on the board is looked at from its start, here as where that was done.
    if (!before.known && now.arrived) transport.goTo(0);
    document.title = now.board.name;
    fit();
  } else if (now.board.level !== before.board.level || positionKey(now.start) !== positionKey(before.start)) {
    transport.load(now.start, now.floor.spots, steps);
  } else {
    transport.sync(steps, own);
  }
  tellLeft(desk, now, before);
  if (menu.open) updateMenu(now);
  shelf?.changed();
  if (!before.known) void arrive(desk, menu);
  if (!before.known && location.hash === "#devices") {
    history.replaceState(history.state, "", location.pathname);
    openPanel("devices");
  }
  drawSoon();
}

/** Whether what is on the court is no moment to choose at: the chain is being played, or was stopped on the way. */
function away() {
  const { replaying, paused } = transport.progress;
  return replaying || paused;
}

/** @param {import("../state/wire.js").Offer} seen */
function choose(seen) {
  // The same one may have come anew, from the server, since it was drawn.
  const offer = looking.menu()?.offers.find(({ a }) => a.join() === seen.a.join());
  if (looking.aside() || away() || !offer) return;
  const next = shown(desk.state).steps[transport.depth] ?? desk.state.undone.at(-1);
  ownTap = true;
  desk.act(offer, transport.depth);
  ownTap = false;
  if (!looking.menu()) court.root.classList.add("waiting");
  hints.acted(seen.a, next?.a);
  stayAwake();
  askToKeepOnce();
}

/** Play so many of the steps that come next, the last of them to be seen. @param {number} count */
function again(count) {
  if (adrift.players.length) putBack();
  for (let more = count; more > 0; more--) desk.redo();
  const { steps } = shown(desk.state);
  if (count > 1) transport.watch(steps.length - 1);
}

function undo() {
  if (adrift.players.length) putBack();
  else desk.undo();
}

function putBack() {
  if (adrift.sent) return;
  adrift.putBack();
  draw();
}

function draw() {
  const { state } = desk;
  if (!state.known || !transport.film || !court.projection) return;
  meet(state);
  if (byHand.widens(shown(state).steps)) return fit();
  if (byHand.draws()) return drawStatus(state, waitsOf(shelf, ink));
  adrift.forget();
  const { steps, undone, ahead } = shown(state);
  const progress = transport.progress;
  const { depth } = progress;
  controls.show(progress, steps.length, transport.loop);
  controls.mark(transport.starts, progress.end);
  controls.pace(transport, transport.lasts);
  controls.history(steps.length > 0 || transport.strayed || beforeThis(state) !== null || desk.crossing.undo !== null, ahead > 0 || desk.crossing.redo !== null);
  controls.anew(steps.length > 0 || ahead > 0);
  court.trails(transport.film, depth - 1);
  ink?.draw();
  row.draw({
    state, steps, depth, words, play: shelf?.nameOf(state.chain?.id) ?? "", forks: shelf?.forks() ?? state.forks,
    go: (to) => (to ? transport.watch(to - 1) : transport.goTo(0)), fork: (fork, by) => shelf?.fork(fork, by), undone, again,
  });
  drawOffers();
  drawAside(seated(state).bench, { bench, adrift, court, buttons: controls.buttons, named: prefs.named, looking });
  drawStatus(state, waitsOf(shelf, ink));
  const rests = !progress.playing && !progress.paused;
  justNow.draw(rests && !adrift.players.length ? steps[depth - 1] : undefined, words, rests ? transport.places(depth) : {}, court.projection);
  tell(steps[depth - 1], words);
  showPhones(state, transport);
  court.root.classList.toggle("moving", progress.playing);
  if (progress.playing) follow();
}

/** Targets on the court and words in the list. */
function drawOffers() {
  const { state } = desk;
  const { steps } = shown(state);
  const { depth, replaying, paused } = transport.progress;
  const found = away() ? null : looking.menu();
  lookSoon(!found && !away() && looking.asks && depth < steps.length ? depth : null);
  offering.show({
    standing: looking.standing(),
    places: () => transport.places(depth),
    floor: state.floor,
    menu: found,
    aside: looking.aside(),
    replaying,
    paused,
    last: steps[depth - 1],
    isEnd: depth === steps.length,
    next: (steps[depth] ?? shown(state).undone.at(-1))?.a ?? null,
    words,
    roster,
    named: prefs.named,
    ways: { fresh: desk.fresh, fromHere: () => desk.undoTo(depth), toEnd: () => transport.goTo(steps.length) },
  });
}

takeHands({
  court, transport, offering, adrift, bench, choose, draw, undo, putBack,
  redo: () => desk.redo(),
  offers: () => (looking.aside() || away() ? [] : (looking.menu()?.offers ?? [])),
  canLift: () => desk.state.known && !bench.open && !adrift.sent && !away() && !looking.standing().over,
  placeOf: (digit) => roster.placeOf(digit),
  mirrored: () => prefs.mirrored,
});

registerServiceWorker();
if (isInstalled()) document.addEventListener("click", askToKeepOnce, { once: true });
