/** The words beside the court of a formation: distances, spots, who starts where, posts. */

import { button, choice, make, select, tick } from "../ui/dom.js";
import { RING } from "./formation-court.js";
import { sayTeam, sayApart, sayPostsNumber } from "../words/team-words.js";
import { sayLabel } from "../words/general-words.js";
import { capital } from "../words/sayer.js";

/**
 * @typedef {import("./formation-page.js").FormationPage} FormationPage
 * @typedef {import("./team-api.js").FormationData} FormationData
 */

/** Most players on posts at once that may be asked for. */
const POSTS = [0, 1, 2, 3];

/** @param {FormationPage} page */
export function distancesPart(page) {
  const { words } = page.context;
  const items = page.measured.distances.map(({ first, second, metres, feet, mark }) => {
    const item = make("li", mark ? "off" : "",
      make("span", "", capital(sayTeam("neighbours", { first: words.spot(first), second: words.spot(second) }))),
      make("b", "", sayApart(metres, feet)));
    if (mark) item.append(make("em", "tag warn", sayTeam(`marks.${mark}`)));
    return item;
  });
  return make("section", "group", make("h3", "", sayTeam("distances")), make("ul", "distances", ...items));
}

/** @param {FormationPage} page */
export function ringPart(page) {
  const { words } = page.context;
  const made = make("section", "group", make("h3", "", sayTeam("ring_title")), make("p", "hint", sayTeam("ring_hint")));
  said(page, made, "ring");
  for (const { spot, home } of page.data.ring) {
    const row = make("div", "spotrow", make("b", "", capital(words.spot(spot))));
    const on = tick(sayTeam("home"), home, (now) => page.draft?.edit((data) => {
      for (const item of data.ring) if (item.spot === spot) item.home = now;
    }), page.readOnly);
    const box = /** @type {HTMLInputElement} */ (on.firstElementChild);
    box.dataset.focus = `home.${spot}`;
    box.setAttribute("aria-label", sayLabel(words.spot(spot), sayTeam("home")));
    row.append(on);
    if (!page.readOnly) {
      row.append(button("plain small", sayTeam("spot_out"), () => page.draft?.edit((data) => {
        data.ring = data.ring.filter((item) => item.spot !== spot);
      }), sayLabel(sayTeam("spot_out"), words.spot(spot))));
    }
    made.append(row);
    said(page, made, `ring.${spot}`);
  }
  const missing = RING.filter((name) => !page.data.ring.some((item) => item.spot === name));
  if (!page.readOnly && missing.length) {
    made.append(make("div", "ticks", ...missing.map((name) =>
      button("chip", sayTeam("spot_add", { spot: words.spot(name) }), () => page.draft?.edit((data) => addSpot(data, name))))));
  }
  return made;
}

/** A new spot stands half way between its neighbours to be. @param {FormationData} data @param {string} name */
function addSpot(data, name) {
  const place = (/** @type {string} */ spot) => RING.indexOf(spot);
  const before = data.ring.filter((item) => place(item.spot) < place(name)).pop();
  const after = data.ring.find((item) => place(item.spot) > place(name));
  const angle = ((before?.angle ?? 180) + (after?.angle ?? 0)) / 2;
  const offset = Math.max(before?.offset ?? 0.4, after?.offset ?? 0.4);
  const at = before ? data.ring.indexOf(before) + 1 : 0;
  data.ring.splice(at, 0, { spot: name, angle: before && after ? angle : before ? 0 : 180, offset, home: false });
}

/** @param {FormationPage} page */
export function startPart(page) {
  const { words } = page.context;
  const made = make("section", "group", make("h3", "", sayTeam("start_title")));
  said(page, made, "start");
  const places = [...page.data.ring.map((item) => item.spot), ...Object.keys(page.measured.spots).filter((name) => !RING.includes(name))];
  for (const number of ["1", "2", "3", "4", "5"]) {
    const now = page.data.start[number] ?? "";
    const known = places.includes(now) ? places : [now, ...places];
    const pick = select(sayTeam("starts_on", { n: number }), known.map((name) => /** @type {[string, string]} */ ([name, words.at(name)])), now, (name) => page.draft?.edit((data) => {
      // Whoever stood there changes places with him.
      const other = Object.keys(data.start).find((each) => each !== number && data.start[each] === name);
      if (other) data.start[other] = data.start[number];
      data.start[number] = name;
    }));
    const box = /** @type {HTMLSelectElement} */ (pick.lastElementChild);
    box.dataset.focus = `start.${number}`;
    box.disabled = page.readOnly;
    made.append(pick);
    said(page, made, `start.${number}`);
    if (now) said(page, made, `start.${now}`);
  }
  const ball = choice(sayTeam("has_ball"), ["1", "2", "3", "4", "5"].map((n) => /** @type {[string, string]} */ ([n, n])), String(page.data.ball),
    (n) => page.draft?.edit((data) => (data.ball = Number(n))), "choice row-of");
  fix(page, ball, "ball");
  made.append(ball);
  said(page, made, "ball");
  return made;
}

/** @param {FormationPage} page */
export function postsPart(page) {
  const posts = choice(sayTeam("posts_title"), POSTS.map((n) => /** @type {[string, string]} */ ([String(n), sayPostsNumber(n)])), String(page.data.posts),
    (n) => page.draft?.edit((data) => (data.posts = Number(n))), "choice row-of");
  fix(page, posts, "posts");
  const made = make("section", "group", posts);
  said(page, made, "posts");
  return made;
}

/** @param {FormationPage} page @param {HTMLElement} field @param {string} key */
function fix(page, field, key) {
  for (const input of field.querySelectorAll("input")) {
    input.dataset.focus = `${key}.${input.value}`;
    input.disabled = page.readOnly;
  }
}

/** Put what is wrong at a place beside it. @param {FormationPage} page @param {HTMLElement} where @param {string} place */
function said(page, where, place) {
  for (const [at, sentence] of page.measured.problems) {
    if (at === place) where.append(make("p", "wrong", sentence));
  }
}
