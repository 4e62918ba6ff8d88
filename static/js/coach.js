/** The coach's page: puts the parts together. */

import { drawChain, markChain } from "./chain.js";
import { Controls, RATES } from "./controls.js";
import { CourtView } from "./courtview.js";
import { openDesk } from "./desk.js";
import { listen } from "./gestures.js";
import { listenKeys } from "./keys.js";
import { openMenu } from "./menu.js";
import { Offering } from "./offering.js";
import { registerServiceWorker } from "./pages-sw.js";
import { PHRASES } from "./phrases.js";
import { loadPrefs, savePrefs, wearTheme } from "./prefs.js";
import { Stage } from "./stage.js";
import { positionKey, shown, standingAt } from "./state.js";
import { toast } from "./toast.js";
import { Transport } from "./transport.js";
import { sentenceOf, sentencesOf } from "./telling.js";
import { stayAwake } from "./wake.js";
import { loadWords, speaker } from "./words.js";

/**
 * @typedef {import("./wire.js").Offer} Offer
 * @typedef {import("./state.js").State} State
 */

/** @param {string} id */
const element = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

const prefs = loadPrefs();
wearTheme(prefs.theme);
const table = await loadWords();
const name = (/** @type {number} */ number) => (prefs.named && prefs.names[number]) || String(number);
let words = speaker(table, { mirrored: prefs.mirrored, name });

const court = new CourtView(element("court"));
const stage = new Stage(court.actors);
const transport = new Transport(stage, moved);
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const quiet = () => (transport.still = stage.still = calm.matches);
calm.addEventListener("change", quiet);
quiet();
transport.rate = prefs.rate;

/** What was drawn last, so that only what changed is drawn again. */
const drawn = { chain: /** @type {unknown} */ (null), depth: -1, told: /** @type {unknown} */ (null) };
const offering = new Offering(court, element("list"), choose);
let ownTap = false;
let soon = false;

const desk = openDesk(String(document.body.dataset.socket), changed);
const controls = new Controls(document.body, {
  undo: () => desk.undo(),
  redo: () => desk.redo(),
  replay: () => transport.replay(),
  back: () => transport.back(),
  play: () => transport.toggle(),
  forward: () => transport.forward(),
  speed: () => prefer({ rate: RATES[(RATES.indexOf(prefs.rate) + 1) % RATES.length] }),
  turn: () => prefer({ turned: !prefs.turned }),
  mirror: () => prefer({ mirrored: !prefs.mirrored }),
  menu: () =>
    desk.state.known &&
    openMenu(/** @type {HTMLDialogElement} */ (element("menu")), desk.state, prefs, words, {
      setup: desk.setup,
      prefer,
      fresh: desk.fresh,
    }),
  share: () => {
    // @ts-ignore: made by its own module, fetched when it is first wanted
    import("./share.js").then((share) => share.openShare(desk), () => toast(element("toast"), PHRASES.noShare));
  },
  scrub: (t) => transport.seek(t),
});
controls.rate(prefs.rate);

/** @param {Partial<import("./prefs.js").Prefs>} patch */
function prefer(patch) {
  Object.assign(prefs, patch);
  savePrefs(prefs);
  wearTheme(prefs.theme);
  words = speaker(table, { mirrored: prefs.mirrored, name });
  if (patch.rate) {
    transport.setRate(patch.rate);
    controls.rate(patch.rate);
  }
  fit();
}

/** Fit the court to its space and draw everything again. */
function fit() {
  const { known, floor } = desk.state;
  if (!known || !court.root.clientWidth) return;
  stage.fit(court.fit(floor, prefs));
  drawn.chain = null;
  offering.forget();
  draw();
}
new ResizeObserver(fit).observe(court.root);

/** @param {State} now @param {State} before */
function changed(now, before) {
  if (now.notices !== before.notices) toast(element("toast"), now.notice);
  if (!now.known) return drawStatus();
  const { steps } = shown(now);
  if (now.floor !== before.floor && JSON.stringify(now.floor) !== JSON.stringify(before.floor)) {
    transport.load(now.start, now.floor.spots, steps);
    document.title = now.board.name;
    fit();
  } else if (now.board.level !== before.board.level || positionKey(now.start) !== positionKey(before.start)) {
    transport.load(now.start, now.floor.spots, steps);
  } else {
    transport.sync(steps, ownTap);
  }
  drawSoon();
}

/** The film moved on, or was wound. */
function moved() {
  drawSoon();
}

/** Draw after the frame that shows the movement, so that nothing holds it up. */
function drawSoon() {
  if (soon) return;
  soon = true;
  requestAnimationFrame(() =>
    setTimeout(() => {
      soon = false;
      draw();
    }),
  );
}

/** The offers for what is being looked at; null while they are not known. @returns {Offer[] | null} */
function offersNow() {
  const { state } = desk;
  const { steps } = shown(state);
  const standing = standingAt(state, steps, transport.depth);
  return standing.over ? [] : (state.offers.get(positionKey(standing)) ?? null);
}

/** @param {Offer} offer */
function choose(offer) {
  const offers = offersNow();
  if (!offers?.includes(offer) || transport.progress.replaying) return;
  ownTap = true;
  desk.act(offer, transport.depth);
  ownTap = false;
  if (!offersNow()) court.root.classList.add("waiting");
  stayAwake();
}

function draw() {
  const { state } = desk;
  if (!state.known || !transport.film || !court.projection) return;
  const { steps, ahead } = shown(state);
  const progress = transport.progress;
  const { depth } = progress;
  controls.show(progress, steps.length);
  controls.mark(transport.starts, progress.end);
  controls.history(steps.length > 0, ahead > 0);
  court.trails(transport.film, depth - 1);
  if (drawn.chain !== steps) {
    drawn.chain = steps;
    drawChain(element("chain"), steps, words.formation(state.board.formation), words, (to) =>
      to ? transport.watch(to - 1) : transport.goTo(0));
    drawn.depth = -1;
  }
  if (drawn.depth !== depth) markChain(element("chain"), depth);
  drawn.depth = depth;
  drawOffers();
  drawStatus();
  tell(steps[depth - 1]);
  court.root.classList.toggle("moving", progress.playing);
  if (progress.playing) drawSoon();
}

/** Targets on the court and words in the list. */
function drawOffers() {
  const { state } = desk;
  const { steps } = shown(state);
  const { depth, replaying } = transport.progress;
  offering.show({
    standing: standingAt(state, steps, depth),
    places: () => transport.places(depth),
    floor: state.floor,
    offers: replaying ? null : offersNow(),
    replaying,
    last: steps[depth - 1],
    isEnd: depth === steps.length,
    words,
    names: prefs.named ? prefs.names : null,
    ways: {
      fresh: desk.fresh,
      fromHere: () => desk.undoTo(depth),
      toEnd: () => transport.goTo(steps.length),
    },
  });
}

function drawStatus() {
  const { link, pending, viewers } = desk.state;
  const text = link === "offline" ? PHRASES.offline : link === "catching up" ? PHRASES.catching
    : pending.length ? PHRASES.saving : PHRASES.saved;
  const status = element("status");
  status.dataset.link = link;
  if (status.textContent !== text) status.textContent = text;
  const watching = element("watching");
  watching.textContent = viewers ? ` · ${viewers}` : "";
  element("gone").hidden = link !== "gone";
  if (link === "gone") element("gone-words").textContent = desk.state.notice;
}

/** Say the step on show to those who listen. @param {import("./wire.js").StepWire | undefined} step */
function tell(step) {
  if (drawn.told === step) return;
  drawn.told = step;
  if (!step) return;
  element("live").textContent = [`${sentenceOf(step, words)}.`, ...sentencesOf(step, words)].join(" ");
}

listen(court.root, {
  choose,
  aims: () => {
    const { projection, targets: shownTargets } = court;
    if (!projection) return [];
    const all = shownTargets.map(({ offer, by, at }, i) => ({ offer, by, at, element: court.targetLayer.children[i] }));
    const places = transport.places(transport.depth);
    for (const [player, offer] of offering.passing) {
      all.push({ offer, by: offer.by, at: projection.px(places[player]), element: court.actors.discs[player] });
    }
    return all;
  },
  offerOf: (tapped) => {
    if (!(tapped instanceof HTMLElement)) return null;
    if (tapped.dataset.player) return offering.passing.get(Number(tapped.dataset.player)) ?? null;
    return offersNow()?.find((offer) => offer.a.join(" ") === tapped.dataset.act) ?? null;
  },
  show: (from, to, chosen) => court.aim(from, to, chosen),
});

listenKeys({
  pass: (player) => {
    const offer = offering.passing.get(player);
    if (offer) choose(offer);
  },
  act: (act, side) => {
    const real = side && prefs.mirrored ? (side === "left" ? "right" : "left") : side;
    const offer = offersNow()?.find((each) =>
      act === "default" ? each.default : each.act === act && (!real || each.d === real));
    if (offer) choose(offer);
  },
  undo: () => desk.undo(),
  redo: () => desk.redo(),
  back: () => transport.back(),
  forward: () => transport.forward(),
  play: () => transport.toggle(),
});

registerServiceWorker();
