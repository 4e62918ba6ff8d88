/** The five discs, the ball and the extras of a drawing, as elements. Their places are the stage's business. */

import { sayBoard } from "../words/board-words.js";
import { makeExtra } from "./extras.js";
import { nextMark } from "./signs.js";

/**
 * @typedef {import("./stage.js").Actors} Actors
 * @param {HTMLElement} root
 * @param {number[]} players
 * @param {HTMLElement} [under]  for the extras: the board's targets lie over them
 * @param {boolean} [shown]  the discs are to be looked at only: they do nothing, so they are no buttons
 * @returns {Actors}
 */
export function makeActors(root, players, under = root, shown = false) {
  const ring = part("span", "ring");
  const ball = part("span", "ball");
  /** @type {Record<number, HTMLElement>} */
  const discs = {};
  for (const player of players) {
    const disc = part(shown ? "span" : "button", "disc");
    if (shown) disc.setAttribute("role", "img");
    else disc.setAttribute("type", "button");
    disc.dataset.player = String(player);
    const face = part("span", "face");
    face.append(Object.assign(part("b", "digits"), { textContent: String(player) }));
    disc.append(part("span", "waiting"), face, part("span", "name"));
    discs[player] = disc;
  }
  root.replaceChildren(ring, ...Object.values(discs), ball);
  /** @type {Record<string, HTMLElement>} */
  const extras = {};
  return {
    discs, ring, ball, extras,
    cast(keys) {
      for (const key of keys) {
        if (extras[key]) continue;
        extras[key] = makeExtra(key);
        under.prepend(extras[key]); // under the five and the ball
      }
      return Object.keys(extras).filter((key) => !keys.includes(key)).map((key) => {
        const gone = extras[key];
        delete extras[key];
        return gone;
      });
    },
  };
}

/** @param {string} name @param {string} kind */
function part(name, kind) {
  const made = document.createElement(name);
  made.className = kind;
  return made;
}

/**
 * Say what each disc is and does.
 * @param {Actors} actors
 * @param {object} what
 * @param {(player: number) => string} what.label  for a screen reader
 * @param {import("../state/roster.js").Roster} what.roster
 * @param {(player: number) => string} [what.note]  shown under the disc in the place of his name, "" for none
 * @param {number | null} what.cutter
 * @param {(player: number) => boolean} what.tappable
 * @param {(player: number) => boolean} [what.next]  the open play goes on with a pass to them
 */
export function dressActors(actors, { label, roster, note = () => "", cutter, tappable, next = () => false }) {
  for (const [key, disc] of Object.entries(actors.discs)) {
    const player = Number(key);
    disc.setAttribute("aria-label", label(player));
    disc.classList.toggle("cutter", player === cutter);
    disc.classList.toggle("can", tappable(player));
    markNext(disc, next(player));
    disc.classList.toggle("off", note(player) !== "");
    write(disc.querySelector(".name"), note(player) || roster.name(player));
    number(disc, roster, player);
  }
}

/** @param {HTMLElement} disc @param {boolean} isNext */
function markNext(disc, isNext) {
  if (disc.classList.contains("next") === isNext) return;
  disc.classList.toggle("next", isNext);
  disc.title = isNext ? sayBoard("next_in_play") : "";
  if (isNext) disc.append(nextMark());
  else disc.querySelector(".next-mark")?.remove();
}

/** The number on a disc: the squad's, or the place's. @param {HTMLElement} disc @param {import("../state/roster.js").Roster} roster @param {number} player */
export function number(disc, roster, player) {
  const face = roster.face(player);
  write(disc.querySelector(".digits"), face);
  disc.classList.toggle("two", face.length > 1);
  disc.classList.toggle("nobody", roster.nobody(player));
}

/** @param {Element | null} element @param {string} text */
function write(element, text) {
  if (element && element.textContent !== text) element.textContent = text;
}
