/** The panel of plays: a sheet over the board where one tap opens a play. */

import { sayBoard } from "../words/board-words.js";
import { button, make } from "../ui/dom.js";
import { toast } from "../ui/toast.js";
import { lastRank, moved, occasionOf } from "./bench-row.js";
import { EarlierChains } from "./earlier.js";
import { calledForm } from "./form.js";
import { drawOrder, keepSort, keptSort } from "./order.js";
import { sayPlays, sayWaiting } from "../words/plays-words.js";
import { drawRow } from "./row.js";
import { found, suggest, tagsOf, titleOf } from "./search.js";
import { sayGeneral } from "../words/general-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("./apply.js").Play} Play
 * @typedef {import("./store.js").Book} Book
 * @typedef {import("../words/speaker.js").Words} Words
 *
 * @typedef {object} PanelBoard
 * @property {Book} book
 * @property {() => Words} words
 * @property {(play: Play) => boolean} open  whether it could be
 * @property {() => void} save  what is on the board
 * @property {() => boolean} canSave
 * @property {() => string} here  id of the chain on the board
 * @property {import("./earlier.js").EarlierBoard["earlier"]} earlier
 * @property {import("./earlier.js").EarlierBoard["bringBack"]} bringBack
 */

export class PlaysPanel {
  /** @param {PanelBoard} board */
  constructor(board) {
    this.board = board;
    this.text = "";
    /** @type {string[]} */
    this.tags = [];
    this.sort = keptSort();
    /** The play whose rest is shown, and whether it is being written. */
    this.unfolded = "";
    this.writing = false;
    this.dialog = make("dialog", "plays");
    this.dialog.setAttribute("aria-label", sayPlays("plays"));
    this.search = make("input");
    this.chips = make("div", "chips");
    this.line = make("p", "line-state");
    /** Whether the server has everything. */
    this.sent = make("small");
    this.list = make("ul", "list");
    this.said = make("p", "toast");
    this.#build();
    document.body.append(this.dialog);
  }

  get isOpen() {
    return this.dialog.open;
  }

  show() {
    this.writing = false;
    this.unfolded = "";
    this.said.hidden = true;
    this.search.value = this.text = "";
    this.tags = [];
    void this.board.book.flush();
    this.draw();
    if (!this.dialog.open) this.dialog.showModal();
    this.list.scrollTop = 0;
    // The first play, not the search: on a tablet that would bring up the keyboard.
    const first = this.list.querySelector("button.open") ?? this.dialog.querySelector("header button");
    if (first instanceof HTMLElement) first.focus({ preventScroll: true });
  }

  close() {
    this.dialog.close();
  }

  tell = (/** @type {string} */ sentence) => toast(this.said, sentence);

  #build() {
    const close = button("plain", sayPlays("close"), () => this.close());
    this.saving = button("plain saving", sayPlays("save_play"), () => (this.close(), this.board.save()));
    Object.assign(this.search, { type: "search", placeholder: sayPlays("search_hint"), autocomplete: "off", enterKeyHint: "search" });
    this.search.setAttribute("aria-label", sayPlays("search"));
    this.search.addEventListener("input", () => ((this.text = this.search.value), this.draw()));
    this.order = make("div", "order");
    this.order.setAttribute("role", "group");
    this.order.setAttribute("aria-label", sayPlays("sort"));
    this.chips.setAttribute("role", "group");
    this.chips.setAttribute("aria-label", sayPlays("tags"));
    this.line.setAttribute("role", "status");
    this.said.setAttribute("role", "alert");
    this.said.hidden = true;
    const top = make("header", "", make("h2", "", sayPlays("plays")), this.sent, this.saving, close);
    this.earlier = new EarlierChains(this.board, () => this.close());
    this.dialog.append(top, make("div", "finding", this.search, this.order), this.chips, this.line, this.list, this.earlier.element, this.said);
    this.dialog.addEventListener("click", (event) => {
      if (event.target === this.dialog) this.close(); // beside the sheet
    });
    this.dialog.addEventListener("keydown", (event) => {
      const inField = event.target instanceof Element && event.target.closest("input, textarea");
      const isLetter = event.key.length === 1 && event.key !== " " && !event.ctrlKey && !event.metaKey && !event.altKey;
      if (!inField && isLetter) this.search.focus();
    });
  }

  /** Show the plays as they are now; what is being written is left alone. */
  draw() {
    if (this.writing) return;
    const { book } = this.board;
    const focused = document.activeElement instanceof HTMLElement ? document.activeElement.dataset.focus : undefined;
    const plays = book.chains ?? [];
    const tags = tagsOf(plays);
    this.tags = this.tags.filter((tag) => tags.includes(tag));
    if (this.saving) this.saving.hidden = !this.board.canSave();
    if (this.order) drawOrder(this.order, plays.length > 1, this.sort, (sort) => this.#sortBy(sort));
    this.search.hidden = plays.length < 2;
    this.chips.hidden = !tags.length;
    this.chips.replaceChildren(...tags.map((tag) => {
      const chip = button("chip", tag, () => this.#turn(tag), sayPlays("tagged", { tag }));
      chip.dataset.focus = `tag ${tag}`;
      chip.setAttribute("aria-pressed", String(this.tags.includes(tag)));
      return chip;
    }));
    this.#drawState();
    this.#drawList(plays);
    this.earlier?.draw();
    if (focused) this.#focus(focused);
  }

  /** @param {string} name */
  #focus(name) {
    const found = [...this.dialog.querySelectorAll("[data-focus]")].find((each) => each instanceof HTMLElement && each.dataset.focus === name);
    if (found instanceof HTMLElement) found.focus({ preventScroll: true });
  }

  #drawState() {
    const { book } = this.board;
    const lost = book.trouble === "offline" ? sayPlays("offline") : book.trouble === "failed" ? sayPlays("failed") : "";
    // Nothing is said to be kept before it is: the page may be closed at that word.
    const held = book.persistent ? book.kept : book.waiting;
    const kept = held && book.trouble ? sayWaiting(held, book.persistent) : "";
    this.sent.textContent = !book.waiting ? sayBoard("saved") : book.trouble ? sayPlays("wait", { n: book.waiting }) : sayBoard("saving");
    this.sent.hidden = !book.chains || (!book.waiting && book.trouble !== "");
    const text = book.chains ? listed([lost, kept].filter(Boolean), "sentences") : "";
    if (this.line.textContent !== text) this.line.textContent = text;
    this.line.hidden = !text;
  }

  /** @param {Play[]} plays */
  #drawList(plays) {
    const { book } = this.board;
    const words = this.board.words();
    if (!book.chains) {
      if (!book.trouble) return this.#say(sayGeneral("one_moment"));
      return this.#say(sayPlays("unknown"), button("plain", sayPlays("again"), () => void book.flush()));
    }
    if (!plays.length) {
      return this.#say(sayPlays("none"), make("span", "", this.board.canSave() ? "" : sayPlays("none_hint")),
        ...(this.board.canSave() ? [button("primary", sayPlays("save_play"), () => (this.close(), this.board.save()))] : []));
    }
    const shown = found(plays, this, words, sayPlays("unnamed"));
    if (!shown.length) {
      return this.#say(sayPlays("no_match"), button("plain", sayPlays("show_all"), () => {
        this.search.value = this.text = "";
        this.tags = [];
        this.draw();
      }));
    }
    const here = this.board.here();
    this.list.replaceChildren(...shown.map((play) => {
      const unfolded = play.id === this.unfolded;
      return drawRow(play, words, this.#ways(play), { unfolded, form: null, here: play.id === here });
    }));
  }

  /** @param {string} sentence @param {HTMLElement[]} more */
  #say(sentence, ...more) {
    this.list.replaceChildren(make("li", "nothing", make("p", "", sentence), ...more));
  }

  /** @param {import("./order.js").Sort} sort */
  #sortBy(sort) {
    this.sort = sort;
    keepSort(sort);
    this.draw();
  }

  /** @param {string} tag */
  #turn(tag) {
    this.tags = this.tags.includes(tag) ? this.tags.filter((each) => each !== tag) : [...this.tags, tag];
    this.draw();
  }

  /** @param {Play} play */
  #ways(play) {
    const { book } = this.board;
    const title = titleOf(play, this.board.words(), sayPlays("unnamed"));
    const say = (/** @type {string} */ sentence, /** @type {() => void} */ back) =>
      toast(this.said, sentence, { word: sayPlays("undo"), act: back });
    /** @param {string} copy @param {string} name */
    const copied = (copy, name) => {
      this.unfolded = copy;
      this.draw();
      this.#focus(`open ${copy}`);
      document.activeElement?.scrollIntoView({ block: "nearest" });
      say(sayPlays("saved", { name }), () => book.remove(copy));
    };
    return {
      open: () => {
        if (this.board.open(play)) this.close();
        else this.tell(sayPlays("no_open"));
      },
      fold: () => {
        this.unfolded = this.unfolded === play.id ? "" : play.id;
        this.draw();
      },
      pin: () => book.pin(play.id, !play.pinned, play.pinned ? 0 : lastRank(book.chains ?? [], play)),
      move: (/** @type {-1 | 1} */ by) => moved(book.chains ?? [], play.id, by).forEach(({ id, rank }) => void book.edit(id, { rank })),
      edit: () => this.#write(play),
      duplicate: () => {
        const name = sayPlays("copy_of", { name: title }).slice(0, 80);
        copied(book.duplicate(play.id, name), name);
      },
      remove: () => {
        const next = this.#after(play.id);
        this.unfolded = "";
        book.remove(play.id);
        this.#focus(`open ${next}`);
        say(sayGeneral("deleted", { name: title }), () => book.restore(play));
      },
      renew: () => {
        const name = sayPlays("renewed", { name: title }).slice(0, 80);
        copied(book.renew(play.id, name), name);
      },
    };
  }

  /** The play that stands after this one, or before it. @param {string} id */
  #after(id) {
    const all = [...this.list.querySelectorAll("li.play")].map((li) => (li instanceof HTMLElement ? String(li.dataset.play) : ""));
    const at = all.indexOf(id);
    return all[at + 1] ?? all[at - 1] ?? "";
  }

  /** @param {Play} play */
  #write(play) {
    const { book } = this.board;
    const words = this.board.words();
    const plays = book.chains ?? [];
    const done = () => {
      this.writing = false;
      this.draw();
      this.#focus(`fold ${play.id}`);
    };
    const name = play.name || suggest(play.tree.length > 1 ? play.line.map((i) => play.tree[i][1].split(" ")) : [], plays, words, (name, n) => sayPlays("numbered", { name, n }));
    const { form, focus } = calledForm({
      now: { name, note: play.note, tags: play.tags, occasion: occasionOf(play) },
      tags: tagsOf(plays),
      word: sayPlays("save"),
      done: (called) => (book.edit(play.id, called), done()),
      dropped: done,
    });
    form.addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      event.preventDefault(); // the form only, not the panel
      event.stopPropagation();
      done();
    });
    const row = this.list.querySelector(`[data-play="${play.id}"]`);
    if (!row) return;
    row.replaceWith(drawRow(play, words, this.#ways(play), { unfolded: true, form, here: false }));
    this.writing = true;
    focus();
  }
}
