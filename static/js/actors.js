/** The five discs and the ball, as elements. Their places are the stage's business. */

/**
 * @typedef {import("./stage.js").Actors} Actors
 * @param {HTMLElement} root
 * @param {number[]} players
 * @returns {Actors}
 */
export function makeActors(root, players) {
  const ring = part("span", "ring");
  const ball = part("span", "ball");
  /** @type {Record<number, HTMLElement>} */
  const discs = {};
  for (const player of players) {
    const disc = /** @type {HTMLButtonElement} */ (part("button", "disc"));
    disc.type = "button";
    disc.dataset.player = String(player);
    const face = part("span", "face");
    face.textContent = String(player);
    disc.append(part("span", "waiting"), face, part("span", "name"));
    discs[player] = disc;
  }
  root.replaceChildren(ring, ...Object.values(discs), ball);
  return { discs, ring, ball };
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
 * @param {(player: number) => string} what.name  shown under the disc, "" for none
 * @param {number | null} what.cutter
 * @param {(player: number) => boolean} what.tappable
 */
export function dressActors(actors, { label, name, cutter, tappable }) {
  for (const [key, disc] of Object.entries(actors.discs)) {
    const player = Number(key);
    disc.setAttribute("aria-label", label(player));
    disc.classList.toggle("cutter", player === cutter);
    disc.classList.toggle("can", tappable(player));
    const tag = disc.querySelector(".name");
    if (tag) tag.textContent = name(player);
  }
}
