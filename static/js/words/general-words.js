/** What is said in several rooms alike: labels, calls, counts, and what is told of the connection. */

import table from "../../../engine/locales/en/general.json" with { type: "json" };
import { sayer } from "./sayer.js";

export const sayGeneral = /* @__PURE__ */ sayer("general", table);

/** What a control does, and to what: "Delete: Otters". @param {string} what @param {string} whose */
export const sayLabel = (what, whose) => sayGeneral("label", { what, whose });

/** A player of the squad by number and, where there is one, name. @param {{number: string, name?: string}} player */
export const sayPlayer = ({ number, name }) => (name ? sayGeneral("player", { number, name }) : number);

/** Somebody and where they are; "" for nowhere in particular. @param {string} p @param {string} at */
export const sayPlaced = (p, at) => (at ? sayGeneral("placed", { p, at }) : p);

/** An action with the team's own word for it, "" for none. @param {string} action @param {string} call */
export const sayCalled = (action, call) => (call ? sayGeneral("called", { action, call }) : action);

/** What is called and shown by hand: "Call “Go”, fist up." @param {string} call @param {string} signal */
export const sayCallIt = (call, signal) => sayGeneral(`call_it.${call && signal ? "both" : call ? "call" : "signal"}`, { call, signal });
