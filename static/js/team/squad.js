/** The squad: numbers, who may choose what, lineups, and care for what is kept about people. */

import { address, ask } from "./team-api.js";
import { anchor, button, line, make } from "../ui/dom.js";
import { problemsOf, sentenceOf } from "./frame.js";
import { lineupsPart } from "./lineups.js";
import { sayTeam } from "../words/team-words.js";
import { playerForm, playerWords } from "./player.js";
import { sayPlayer } from "../words/general-words.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./frame.js").TeamView} TeamView
 * @typedef {import("./team-api.js").Player} Player
 */

/** @param {PageContext} context @returns {TeamView} */
export function openSquad(context) {
  const element = make("div", "column");
  const shown = { opened: "" };
  const draw = () => {
    element.replaceChildren(
      make("h2", "", sayTeam("squad_title")),
      make("p", "lead-in", sayTeam("care")),
      adding(context, draw),
      players(context, shown, draw),
      lineupsPart(context, draw),
      caring(context, draw),
    );
  };
  draw();
  return { element, title: sayTeam("tabs.squad"), key: "squad" };
}

/** @param {PageContext} context @param {() => void} draw */
function adding(context, draw) {
  const number = line(sayTeam("number"), "", { most: 2, mode: "numeric", place: "number" });
  const name = line(sayTeam("first_name"), "", { most: 20 });
  const said = make("p", "wrong");
  said.setAttribute("role", "alert");
  const form = make("form", "newplayer", number.whole, name.whole, make("button", "primary", sayTeam("add_player")), said);
  number.input.pattern = "[0-9]{1,2}";
  number.input.required = true;
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      await ask("POST", "team/players", { number: number.input.value.trim(), name: name.input.value.trim(), positions: [], hand: "", may: null, lane: [] });
      await context.refresh();
      draw();
      const next = document.querySelector('.newplayer [data-place="number"]');
      if (next instanceof HTMLElement) next.focus();
    } catch (error) {
      said.textContent = problemsOf(error);
      number.input.focus();
    }
  });
  return form;
}

/** @param {PageContext} context @param {{opened: string}} shown @param {() => void} draw */
function players(context, shown, draw) {
  const all = [...context.team.players].sort((a, b) => Number(a.number) - Number(b.number));
  if (!all.length) return make("p", "quiet", sayTeam("no_players"));
  return make("ul", "players", ...all.map((player) => {
    const open = shown.opened === player.id;
    const item = make("li", open ? "player open" : "player");
    const head = button("who", make("b", "", player.number), () => {
      shown.opened = open ? "" : player.id;
      draw();
      document.getElementById(`player-${player.id}`)?.focus({ preventScroll: true });
    });
    head.id = `player-${player.id}`;
    head.setAttribute("aria-expanded", String(open));
    head.append(make("span", "", make("strong", "", player.name), make("small", "", playerWords(context, player))));
    item.append(head);
    if (open) {
      item.append(playerForm(context, player, {
        saved: async () => {
          shown.opened = "";
          await context.refresh();
          draw();
          document.getElementById(`player-${player.id}`)?.focus({ preventScroll: true });
        },
        cancel: () => {
          shown.opened = "";
          draw();
          document.getElementById(`player-${player.id}`)?.focus({ preventScroll: true });
        },
        remove: () => remove(context, player, draw),
      }));
    }
    return item;
  }));
}

/** @param {PageContext} context @param {Player} player @param {() => void} draw */
async function remove(context, player, draw) {
  try {
    await ask("DELETE", `team/players/${player.id}`);
    await context.refresh();
    draw();
    context.toast(sayTeam("removed", { who: sayPlayer(player) }), async () => {
      try {
        await ask("POST", `team/players/${player.id}/restore`, {});
        await context.refresh();
        draw();
        context.toast(sayTeam("is_back", { who: sayPlayer(player) }));
      } catch (error) {
        context.complain(error);
      }
    });
  } catch (error) {
    context.complain(error);
  }
}

/** @param {PageContext} context @param {() => void} draw */
function caring(context, draw) {
  const take = make("a", "plain", sayTeam("export_it"));
  take.href = address("team/export");
  take.download = "squad.json";
  const made = make("section", "caring", make("h3", "", sayTeam("yours")));
  const acts = make("div", "acts", take);
  if (context.team.players.length || context.team.lineups.length) {
    acts.append(button("plain", sayTeam("erase"), () => asking(context, draw)));
  }
  const whole = anchor("plain", sayTeam("everything"), `/import?board=${encodeURIComponent(context.board)}`);
  made.append(acts, make("h3", "", sayTeam("whole_team")), make("div", "acts", whole));
  return made;
}

/** @param {PageContext} context @param {() => void} draw */
function asking(context, draw) {
  const said = make("p", "wrong");
  const dialog = make("dialog", "sure", make("h2", "", sayTeam("erase_sure")), make("p", "", sayTeam("erase_keeps")), said);
  dialog.setAttribute("aria-label", sayTeam("erase"));
  const shut = () => {
    dialog.close();
    dialog.remove();
  };
  const keep = button("primary", sayTeam("erase_no"), shut);
  keep.autofocus = true;
  dialog.append(make("div", "acts", keep, button("plain", sayTeam("erase_yes"), async () => {
    try {
      await ask("DELETE", "team/squad", { confirm: "erase" });
      await context.refresh();
      shut();
      draw();
      context.toast(sayTeam("erased"));
    } catch (error) {
      said.textContent = sentenceOf(error);
    }
  })));
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}
