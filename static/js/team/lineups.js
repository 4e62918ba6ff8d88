/** Lineups: who plays which of the five places, and putting one on the board. Every choice is saved at once. */

import { ask } from "./team-api.js";
import { boardButton } from "./tell-board.js";
import { button, make, select } from "../ui/dom.js";
import { problemsOf } from "./frame.js";
import { sayTeam, sayNewLineup } from "../words/team-words.js";
import { twiceIn } from "./twice.js";
import { sayLabel, sayPlayer, sayGeneral } from "../words/general-words.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./team-api.js").Lineup} Lineup
 */

const PLACES = ["1", "2", "3", "4", "5"];

/** @param {PageContext} context @param {() => void} draw */
export function lineupsPart(context, draw) {
  const { lineups, players } = context.team;
  const made = make("section", "lineups", make("h3", "", sayTeam("lineups")), make("p", "hint", sayTeam("lineups_lead")));
  if (!lineups.length) made.append(make("p", "quiet", sayTeam("no_lineups")));
  made.append(...lineups.map((lineup) => card(context, lineup, draw)));
  if (players.length) {
    made.append(button("plain", sayTeam("add_lineup"), async () => {
      const five = [...players].sort((a, b) => Number(a.number) - Number(b.number)).slice(0, 5);
      const places = lineups.length ? {} : Object.fromEntries(five.map((player, i) => [PLACES[i], player.id]));
      try {
        await ask("POST", "team/lineups", { name: sayNewLineup(lineups.length), places: { ...empty(), ...places } });
        await context.refresh();
        draw();
      } catch (error) {
        context.complain(error);
      }
    }));
  }
  return made;
}

/** @returns {Record<string, string | null>} */
function empty() {
  return Object.fromEntries(PLACES.map((place) => [place, null]));
}

/** @param {PageContext} context @param {Lineup} lineup @param {() => void} draw */
function card(context, lineup, draw) {
  const { players } = context.team;
  let kept = true;
  const state = make("p", "outcome");
  state.setAttribute("role", "status");
  const keep = async (/** @type {Partial<Lineup>} */ patch) => {
    Object.assign(lineup, patch);
    state.textContent = sayTeam("saving");
    try {
      await ask("PATCH", `team/lineups/${lineup.id}`, patch);
      kept = true;
      state.textContent = sayTeam("saved_all");
    } catch (error) {
      kept = false;
      state.textContent = sayTeam("not_saved_why", { why: problemsOf(error) });
    }
    state.classList.toggle("wrong", !kept);
  };
  const name = make("input");
  name.value = lineup.name;
  name.maxLength = 40;
  name.autocomplete = "off";
  name.setAttribute("aria-label", sayTeam("lineup_name"));
  name.addEventListener("change", () => void keep({ name: name.value.trim() || lineup.name }));
  const options = [/** @type {[string, string]} */ (["", sayTeam("nobody")]), ...[...players].sort((a, b) => Number(a.number) - Number(b.number)).map((player) => /** @type {[string, string]} */ ([player.id, sayPlayer(player)]))];
  const places = make("div", "places", ...PLACES.map((place) =>
    select(sayTeam("place", { n: place }), options, lineup.places[place] ?? "", (id) => seat(place, id || null))));
  /** Whoever is chosen changes places with the one who was there. @param {string} place @param {string | null} id */
  const seat = (place, id) => {
    const next = { ...empty(), ...lineup.places };
    const other = PLACES.find((each) => each !== place && id && next[each] === id);
    if (other) next[other] = next[place];
    next[place] = id;
    choose(next);
  };
  /** @param {Record<string, string | null>} next */
  const choose = (next) => {
    void keep({ places: next });
    places.querySelectorAll("select").forEach((box, i) => (box.value = next[PLACES[i]] ?? ""));
    warn();
  };
  const twice = make("div", "twice");
  twice.setAttribute("role", "status");
  /** One number is one person: say where it would not be, and what to do about it. */
  const warn = () => {
    const found = twiceIn(lineup.places, players, PLACES);
    const asked = twice.contains(document.activeElement);
    twice.hidden = !found;
    twice.replaceChildren(...(found ? [
      make("p", "", sayTeam("twice", { n: found.place, at: found.at })),
      make("div", "acts", ...found.answers.map((answer) =>
        button("plain", sayTeam("twice_put", { who: sayPlayer(answer.who), place: found.place }), () => choose({ ...empty(), ...answer.places })))),
    ] : []));
    if (asked) (twice.querySelector("button") ?? put.act).focus();
  };
  const put = boardButton(context.board, sayTeam("put_on"), () => {
    if (twiceIn(lineup.places, players, PLACES)) return sayTeam("twice_first");
    return kept ? { places: { ...empty(), ...lineup.places } } : sayTeam("save_first");
  }, () => sayTeam("board_lineup", { name: lineup.name }));
  const out = button("plain", sayTeam("delete"), async () => {
    try {
      await ask("DELETE", `team/lineups/${lineup.id}`);
      await context.refresh();
      draw();
      context.toast(sayGeneral("deleted", { name: lineup.name }), async () => {
        try {
          await ask("POST", `team/lineups/${lineup.id}/restore`, {});
          await context.refresh();
          draw();
        } catch (error) {
          context.complain(error);
        }
      });
    } catch (error) {
      context.complain(error);
    }
  }, sayLabel(sayTeam("delete"), lineup.name));
  warn();
  return make("section", "lineup", name, places, twice, make("div", "acts", put.act, out), state, put.said);
}
