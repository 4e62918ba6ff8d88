/**
 * What the sharing panel asks of the server.
 *
 * @typedef {object} LinkRow
 * @property {string} id
 * @property {"view" | "coach"} kind
 * @property {string} name
 * @property {number} made  seconds since 1970
 * @property {number} uses
 * @property {boolean} by_code  the link of one phone, made when it typed a code
 *
 * @typedef {object} KeyRow
 * @property {string} id
 * @property {string} name
 * @property {"head_coach" | "assistant" | "viewer"} role
 * @property {number} made  seconds since 1970
 * @property {number} seen  seconds since 1970
 * @property {boolean} this
 * @property {{kind: "code" | "sheet", by: string, id: string} | null} came  how it was let in, if not by a link
 *
 * @typedef {"head_coach" | "assistant"} Role
 * @typedef {{id: string, made: number, used: number | null}} Sheet  times in seconds since 1970
 *
 * @typedef {object} Access
 * @property {LinkRow[]} links
 * @property {string[]} codes  the ids of the join codes that work
 * @property {KeyRow[]} keys
 * @property {Sheet | null} sheet  the newest recovery sheet; only a head coach is told
 * @property {number} viewers
 * @property {Role} role  of this device
 *
 * @typedef {object} NewLink
 * @property {string} id
 * @property {string} url
 * @property {string} qr  an SVG drawing
 * @property {string | null} [note]  what to know before giving it away
 *
 * @typedef {object} NewCode
 * @property {string} id
 * @property {string} code
 * @property {number} expires_s
 * @property {string} url  of the page where it is typed
 * @property {string | null} [note]
 *
 * @typedef {NewCode & {role: Role, qr: string}} DeviceCode
 */

import { noteRefusal } from "../device/kept-copy.js";
import { sayGeneral } from "../words/general-words.js";

/**
 * Ask, and return what is answered. Throws an Error whose message is a sentence to show.
 * @param {string} method
 * @param {string} path
 * @param {object} [body]
 * @returns {Promise<any>}
 */
async function ask(method, path, body) {
  let answer;
  let said;
  try {
    answer = await fetch(`/api/${path}`, {
      method,
      headers: body ? { "Content-Type": "application/json" } : {},
      body: body && JSON.stringify(body),
    });
    said = await answer.json();
  } catch {
    throw new Error(sayGeneral("no_line"));
  }
  noteRefusal(said?.error?.code);
  if (!answer.ok) throw new Error(said?.error?.message ?? sayGeneral("no_line"));
  return said;
}

/** @param {string} board @returns {Promise<Access & {asked: number}>}  with when it was asked, ms since 1970 */
export const access = async (board) => {
  const asked = Date.now();
  return { ...(await ask("GET", `board/${board}/access`)), asked };
};
/** @param {string} board @param {"view" | "coach"} kind @param {string} name @returns {Promise<NewLink>} */
export const newLink = (board, kind, name) => ask("POST", `board/${board}/links`, { kind, name });
/** A code that ends with the viewing link. @param {string} board @param {string} link @returns {Promise<NewCode>} */
export const newCode = (board, link) => ask("POST", `board/${board}/code`, { link });
/**
 * The join codes shown, by board, when they came and when they run out (ms since 1970): a second look shows the
 * same one.
 * @type {Map<string, NewCode & {since: number, until: number}>}
 */
export const codes = new Map();

/**
 * A code may have been turned off, here or elsewhere: it has then run out. One that came after the question is not
 * in its answer.
 * @param {string} board
 * @param {Access & {asked: number}} now
 */
export function noteCodes(board, now) {
  const known = codes.get(board);
  if (known && now.asked > known.since && !now.codes.includes(known.id)) known.until = 0;
}

/**
 * The join code on show, a new one if there is none that works for another minute.
 * @param {string} board
 * @param {string} link  the viewing link it is shown with, and ends with
 */
export async function joinCode(board, link) {
  const known = codes.get(board);
  if (known && known.until >= Date.now() + 60_000) return known;
  const made = await newCode(board, link);
  const code = { ...made, since: Date.now(), until: Date.now() + made.expires_s * 1000 };
  codes.set(board, code);
  return code;
}

/** @param {string} board @param {Role} role @returns {Promise<DeviceCode>} */
export const newDeviceCode = (board, role) => ask("POST", `board/${board}/device-code`, { role });
/** @param {"links" | "keys" | "sheets"} kind @param {string} id @returns {Promise<unknown>} */
export const turnOff = (kind, id) => ask("DELETE", `${kind}/${id}`);
/** @param {string} id @param {string} name @returns {Promise<unknown>} */
export const rename = (id, name) => ask("PATCH", `keys/${id}`, { name });

/**
 * The viewing link of a board that this device made last. The server keeps no link's address, so without
 * this every look at the panel would make another one.
 */
const KEY = "quintet.link.";

/** @param {string} board @returns {NewLink | null} */
export function keptLink(board) {
  try {
    return JSON.parse(localStorage.getItem(KEY + board) ?? "null");
  } catch {
    return null;
  }
}

/** @param {string} board @param {NewLink | null} link */
export function keepLink(board, link) {
  try {
    if (link) localStorage.setItem(KEY + board, JSON.stringify(link));
    else localStorage.removeItem(KEY + board);
  } catch {
    // A private window keeps nothing; the next look makes another link.
  }
}
