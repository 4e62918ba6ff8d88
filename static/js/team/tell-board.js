/** Telling the board: one change over its own line, then the line is closed. */

import { openLink } from "../state/link.js";
import { anchor, make } from "../ui/dom.js";
import { sayTeam } from "../words/team-words.js";

const WITHIN_MS = 8000;

/**
 * @param {string} board
 * @param {{rules?: string, formation?: string, places?: Record<string, string | null>}} setup
 * @returns {Promise<void>}  rejected with a sentence
 */
export function tellBoard(board, setup) {
  return new Promise((resolve, reject) => {
    /** @type {string | null} */
    let id = null;
    const over = (/** @type {string} */ sentence) => {
      clearTimeout(limit);
      link.close();
      if (sentence) reject(new Error(sentence));
      else resolve();
    };
    const limit = setTimeout(() => over(sayTeam("board_not")), WITHIN_MS);
    const link = openLink(`/live/board/${board}`, {
      seen: () => null,
      state: () => {},
      message: (message) => {
        if (message.t === "gone") over(message.message);
        else if (message.t === "refused" && (message.id === id || !message.id)) over(message.message);
        else if (message.t === "state" && id && message.id === id) over("");
        else if (message.t === "state" && !id) {
          id = crypto.randomUUID?.() ?? String(Math.random()).slice(2);
          // The greeting ends with this message; the change goes out after it.
          const change = { t: "setup", id, base: message.seq, ...setup };
          setTimeout(() => link.send(change), 0);
        }
      },
    });
  });
}

/**
 * The button that tells the board, and what came of it.
 * @param {string} board
 * @param {string} word
 * @param {() => {rules?: string, formation?: string, places?: Record<string, string | null>} | string} what  or why not
 * @param {() => string} done  the sentence afterwards
 */
export function boardButton(board, word, what, done) {
  const said = make("p", "outcome");
  said.setAttribute("role", "status");
  const act = make("button", "plain", word);
  act.type = "button";
  act.addEventListener("click", async () => {
    const setup = what();
    if (typeof setup === "string") {
      said.replaceChildren(setup);
      return;
    }
    act.disabled = true;
    said.replaceChildren(sayTeam("board_takes"));
    try {
      await tellBoard(board, setup);
      said.replaceChildren(`${done()} `, anchor("", sayTeam("to_board"), `/board/${board}`));
    } catch (error) {
      said.replaceChildren(error instanceof Error ? error.message : sayTeam("board_not"));
    } finally {
      act.disabled = false;
    }
  });
  return { act, said };
}
