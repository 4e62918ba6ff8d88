/** One player: what is known about him in words, and the form to change it. */

import { ask } from "./team-api.js";
import { button, choice, line, make, select, tick } from "../ui/dom.js";
import { problemsOf } from "./frame.js";
import { sayTeam } from "../words/team-words.js";
import { action, list, order } from "./say.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./team-api.js").Player} Player
 */

const POSITIONS = ["guard", "wing", "big"];
const HANDS = ["right", "left", ""];

/** @param {PageContext} context @param {Player} player */
export function playerWords(context, player) {
  const { words, team } = context;
  const said = player.positions.map((each) => sayTeam(`position_words.${each}`));
  if (player.hand) said.push(sayTeam("hand_said", { hand: sayTeam(`hands.${player.hand}`) }));
  if (player.may === null) said.push(sayTeam("may_everything"));
  else {
    const kinds = [...team.vocabulary.actions, ...team.vocabulary.lane].filter((kind) => !team.vocabulary.always.includes(kind));
    const not = kinds.filter((kind) => !player.may?.includes(kind));
    if (!player.may.length) said.push(sayTeam("may_none"));
    else if (not.length < player.may.length) said.push(not.length ? sayTeam("may_but", { list: list(words, not) }) : sayTeam("may_everything"));
    else said.push(sayTeam("may_count", { list: list(words, player.may) }));
  }
  const [first] = player.lane;
  if (first) said.push(sayTeam("lane_first_said", { what: laneWord(context, first) }));
  return listed(said, "facts");
}

/** A kind, or a kind and a spot. @param {PageContext} context @param {string} text */
function laneWord({ words }, text) {
  const [kind, spot] = text.split(":");
  return spot ? sayTeam("action_at", { action: action(words, kind), at: words.at(spot) }) : action(words, kind);
}

/**
 * @param {PageContext} context
 * @param {Player} player
 * @param {{saved: () => void, cancel: () => void, remove: () => void}} on
 */
export function playerForm(context, player, on) {
  const { words, team } = context;
  const now = structuredClone(player);
  const number = line(sayTeam("number"), player.number, { most: 2, mode: "numeric" });
  const name = line(sayTeam("first_name"), player.name, { most: 20 });
  const positions = make("fieldset", "choice", make("legend", "", sayTeam("positions")));
  positions.append(make("div", "ticks", ...POSITIONS.map((key) =>
    tick(sayTeam(`position_words.${key}`), now.positions.includes(key), (is) => (now.positions = toggled(now.positions, key, is))))));
  const hand = choice(sayTeam("hand"), HANDS.map((key) => /** @type {[string, string]} */ ([key, sayTeam(`hands.${key || "none"}`)])), now.hand,
    (key) => (now.hand = key), "choice row-of");

  const some = make("div", "ticks");
  const known = order(words, "actions");
  const kinds = [...team.vocabulary.actions, ...team.vocabulary.lane].filter((kind) => !team.vocabulary.always.includes(kind));
  kinds.sort((a, b) => known.indexOf(a) - known.indexOf(b));
  let chosen = player.may ?? kinds;
  some.append(...kinds.map((kind) => tick(action(words, kind), chosen.includes(kind), (is) => {
    chosen = toggled(chosen, kind, is);
    now.may = chosen;
  })));
  const may = choice(sayTeam("may"), [["all", sayTeam("may_all")], ["some", sayTeam("may_some")]], player.may === null ? "all" : "some", (value) => {
    now.may = value === "all" ? null : chosen;
    some.hidden = value === "all";
  }, "choice row-of");
  some.hidden = player.may === null;
  may.append(some, make("p", "hint", sayTeam("may_hint")));

  const first = player.lane[0] ?? "";
  const lanes = [/** @type {[string, string]} */ (["", sayTeam("lane_as_rules")]), ...team.vocabulary.lane.map((kind) => /** @type {[string, string]} */ ([kind, action(words, kind)]))];
  if (first && !team.vocabulary.lane.includes(first)) lanes.push([first, laneWord(context, first)]);
  const lane = select(sayTeam("lane_first"), lanes, first, (value) => (now.lane = value ? [value, ...player.lane.slice(1).filter((each) => each !== value)] : []));

  const said = make("p", "wrong");
  said.setAttribute("role", "alert");
  const form = make("form", "editing", make("div", "names", number.whole, name.whole), positions, hand, may, lane, said,
    make("div", "acts", make("button", "primary", sayTeam("save")), button("plain", sayTeam("cancel"), on.cancel), button("plain away", sayTeam("delete"), on.remove, sayTeam("take_out_of", { who: player.number }))));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      const { positions: plays, hand: strong, may: may_, lane: tendency } = now;
      await ask("PATCH", `team/players/${player.id}`, {
        number: number.input.value.trim(), name: name.input.value.trim(), positions: plays, hand: strong, may: may_, lane: tendency,
      });
      on.saved();
    } catch (error) {
      said.textContent = problemsOf(error);
    }
  });
  return form;
}

/** @param {string[]} list @param {string} key @param {boolean} is */
function toggled(list, key, is) {
  return is ? [...list.filter((each) => each !== key), key] : list.filter((each) => each !== key);
}
