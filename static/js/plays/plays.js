/** The plays on the coach's board: the panel, saving, the pinned ones, and going other ways. */

import { walk } from "../offline/walk.js";
import { sayBoard } from "../words/board-words.js";
import { shown } from "../state/state.js";
import { element } from "../board/status.js";
import { stayAwake } from "../device/wake.js";
import { beginsWith, lineOf, playable, sameLine } from "./apply.js";
import { forksOf } from "./forks.js";
import { PlaysPanel } from "./plays-panel.js";
import { sayPlays } from "../words/plays-words.js";
import { openSaving } from "./saving.js";
import { drawBenchRow, grouped } from "./bench-row.js";
import { stopsOf, suggest, tagsOf, titleOf } from "./search.js";
import { newId } from "../board/sent.js";
import { openBook } from "./store.js";
import { openWays } from "./ways.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("./apply.js").Play} Play
 * @typedef {import("./apply.js").Line} Line
 * @typedef {import("../state/state.js").State} State
 *
 * @typedef {object} PlaysParts
 * @property {import("../board/desk.js").Desk} desk
 * @property {() => import("../words/speaker.js").Words} words
 * @property {import("../board/transport.js").Transport} transport
 * @property {(sentence: string, way?: {word: string, act: () => void}) => void} say
 * @property {() => void} redraw  what a chain is called has changed
 *
 * @typedef {object} PlaysOnBoard
 * @property {() => void} panel
 * @property {() => void} save
 * @property {() => void} changed  the board has changed
 * @property {(chain: string | undefined) => string} nameOf  of the play on the board, "" if it is none
 * @property {() => import("../board/chain.js").Fork[]} forks
 * @property {(fork: import("../board/chain.js").Fork, by: HTMLElement) => void} fork  go another way from here
 * @property {import("./store.js").Book} book
 */

/** @param {PlaysParts} board @returns {PlaysOnBoard} */
export function openShelf({ desk, words, transport, say, redraw }) {
  const { board, team } = document.body.dataset;
  const book = openBook({
    board: String(board),
    team: String(team),
    onChange: changed,
    onRefused: (sentence) => (panel.isOpen ? panel.tell : say)(sentence || sayPlays("refused")),
  });
  const panel = new PlaysPanel({
    book, words, open, save,
    canSave: () => lineNow().length > 0,
    here: () => desk.state.chain?.id ?? "",
    earlier: () => (desk.state.known ? desk.state.earlier : []),
    bringBack({ chain, formation, rules, line }) {
      const back = goTo({ id: chain, formation, rules }, line, () => {});
      if (!back) say(sayPlays("no_open"));
      return back;
    },
  });
  const row = element("pinned");
  const saving = /** @type {HTMLButtonElement} */ (document.querySelector("button[data-do='save']"));
  let drawn = "";
  let live = false;
  /** What to look at once the board has come to this line. @type {{line: Line, act: () => void} | null} */
  let coming = null;
  /** A play the address asks for. */
  let wanted = wantedPlay();

  /** @returns {Line} */
  function lineNow() {
    return desk.state.known ? shown(desk.state).steps.map(({ a }) => a) : [];
  }

  const mainOf = (/** @type {Play | null} */ play) => (play ? lineOf(play) : []);
  /** @param {string} [id] */
  const playOf = (id) => (id && book.chains?.find((play) => play.id === id)) || null;

  /**
   * @param {{id: string, formation: string, rules: string}} chain
   * @param {Line} line
   * @param {() => void} act  once it is there
   */
  function goTo({ id, formation, rules }, line, act) {
    if (!desk.state.known) return false;
    coming = { line, act };
    const going = desk.open({ id, formation, rules, line, depth: line.length });
    if (going) arrived();
    else coming = null;
    return going;
  }

  function arrived() {
    if (!coming || !sameLine(lineNow(), coming.line)) return;
    const { act } = coming;
    coming = null;
    act();
  }

  /** @param {Play} play @param {boolean} [run]  it is played at once, else it stands at its start with everything ahead */
  function open(play, run = false) {
    const line = playable(play);
    if (!goTo(play, line, () => (run ? transport.replay() : transport.goTo(0)))) {
      if (!panel.isOpen) say(sayPlays("no_open"));
      return false;
    }
    book.touch(play.id);
    if (play.stops) say(stopsOf(play.stops, words()));
    return true;
  }

  /** One tap, and it moves. @param {Play} play */
  function run(play) {
    stayAwake();
    open(play, true);
  }

  function save() {
    const line = lineNow();
    if (!line.length) return say(sayPlays("nothing_to_save"));
    const { board, chain } = desk.state;
    const plays = book.chains ?? [];
    const play = playOf(chain?.id);
    const { formation, formation_name, rules, rules_title } = board;
    const played = { formation, formation_name, rules, rules_title, line };
    openSaving({
      play,
      same: play !== null && sameLine(lineOf(play), line),
      name: suggest(line, plays, words(), (name, n) => sayPlays("numbered", { name, n })),
      tags: tagsOf(plays),
      asNew(called) {
        const id = play || !chain ? newId() : chain.id;
        const written = book.save(id, played, called);
        // What is played from here on belongs to the new one.
        if (id !== chain?.id) goTo({ id, formation, rules }, line, () => {});
        void written.then(() => say(sayPlays("saved", { name: called.name })));
      },
      asLine() {
        if (!play) return;
        const { id } = play;
        const before = lineOf(play);
        const undo = { word: sayBoard("undo"), act: () => void book.edit(id, { line: before }) };
        const said = sayPlays("saved_line", { name: titleOf(play, words(), sayPlays("unnamed")) });
        void book.edit(id, { line }).then(() => say(said, undo));
      },
    });
  }

  /** Where the chain on the board branches: as the server has it, or while that is out of reach, as this device does. */
  function forks() {
    const { state } = desk;
    const play = playOf(state.chain?.id);
    if (!play || (state.link === "live" && !state.pending.length)) return state.forks;
    const key = [state.steps, state.undone, state.forks, play, desk.packs.get(state.board)];
    if (key.every((part, i) => part === own.key[i])) return own.forks;
    const held = desk.packs.get(state.board);
    const say = (/** @type {Line} */ line) => (held && walk(held, line, state.board.level)[line.length - 1]?.say) || null;
    const path = [...state.steps, ...[...state.undone].reverse()].map(({ a }) => a);
    own = { key, forks: forksOf(state.forks, path, play.tree, say) };
    return own.forks;
  }
  let own = { key: /** @type {unknown[]} */ ([]), forks: /** @type {import("../board/chain.js").Fork[]} */ ([]) };

  function drawPinned() {
    if (!book.chains) return;
    const groups = grouped(book.chains);
    const here = (desk.state.known && desk.state.chain?.id) || "";
    const title = (/** @type {Play} */ play) => titleOf(play, words(), sayPlays("unnamed"));
    const key = JSON.stringify([here, groups.map(({ occasion, plays }) => [occasion, plays.map((play) => [play.id, title(play)])])]);
    if (key === drawn) return;
    drawn = key;
    drawBenchRow(row, groups, { here, title, run });
  }

  function openWanted() {
    if (!wanted || !desk.state.known || !book.chains) return;
    const play = playOf(wanted);
    // The copy kept here may be old: what it lacks may come with the next answer.
    if (!play && !looked) return;
    // Neither a line yet nor on the device what it is played by: one of them is still to come.
    if (play && desk.state.link === "catching up" && !isHere(play)) return;
    wanted = "";
    // The first page links pinned plays, one tap away too; the copy kept here may not know yet that it is pinned.
    if (play) open(play, true);
    else say(sayPlays("gone"));
  }
  let looked = false;

  /** Whether what a play is played by is on the device. @param {Play} play */
  function isHere({ formation, rules }) {
    const refs = { formation, rules, court: desk.state.board.court };
    return Boolean(desk.packs.get(refs)) || desk.packs.has(refs);
  }

  function changed() {
    drawPinned();
    if (panel.isOpen) panel.draw();
    openWanted();
    redraw();
  }
  book.flush().then(() => {
    looked = true;
    openWanted();
  });

  return {
    book,
    panel: () => panel.show(),
    save,
    changed() {
      const { link } = desk.state;
      saving.hidden = !lineNow().length;
      drawPinned();
      arrived();
      openWanted();
      if (link === "live" && !live) void book.flush();
      live = link === "live";
    },
    nameOf: (id) => playOf(id)?.name ?? "",
    forks,
    fork(fork, by) {
      const { board, chain } = desk.state;
      const { steps } = shown(desk.state);
      const main = mainOf(playOf(chain?.id));
      const isMain = (/** @type {Line} */ line) => main.length > fork.depth && beginsWith(line, main.slice(0, fork.depth + 1));
      const next = steps[fork.depth];
      openWays(fork, {
        words: words(), by, isMain,
        now: next ? listed(next.say.map((phrase) => words().say("chain", phrase)), "then") : "",
        nowMain: Boolean(next) && isMain(lineNow()),
        go: (line) => {
          if (!chain) return;
          const { formation, rules } = board;
          // Shown from where it turns off.
          goTo({ id: chain.id, formation, rules }, line, () => transport.watch(fork.depth));
        },
      });
    },
  };
}

/** The play the address asks for; loading the page again asks nothing again. */
function wantedPlay() {
  const address = new URL(location.href);
  const play = address.searchParams.get("play") ?? "";
  if (!play) return "";
  address.searchParams.delete("play");
  history.replaceState(history.state, "", address);
  return play;
}
