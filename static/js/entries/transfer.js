/** The page that brings a team in: a file is looked at on the server, shown, and brought in as decided. */

import { showFound } from "../transfer/found.js";
import { sayTransfer } from "../words/transfer-words.js";
import { make } from "../ui/dom.js";

/** @typedef {import("../transfer/found.js").InFile} InFile */
/** @typedef {import("../transfer/found.js").Whose} Whose */

const form = /** @type {HTMLFormElement} */ (document.getElementById("choose"));
const input = /** @type {HTMLInputElement} */ (document.getElementById("file"));
const place = /** @type {HTMLElement} */ (document.getElementById("found"));
const label = /** @type {HTMLElement} */ (input.closest("label"));
const most = Number(document.body.dataset.most);

/** Something the coach is told: the message is a whole sentence. */
class Told extends Error {
  /** @param {string} sentence @param {string} [code] */
  constructor(sentence, code = "") {
    super(sentence);
    this.code = code;
  }
}

/** Counts what was asked, so that an answer to an older question is not shown. */
let asked = 0;

const where = () => String(new FormData(form).get("where") ?? "");

/**
 * @param {string} path
 * @param {Record<string, string>} query
 * @param {Blob} file
 * @returns {Promise<any>}
 */
async function send(path, query, file) {
  let answer;
  try {
    answer = await fetch(`${path}?${new URLSearchParams(query)}`, { method: "POST", body: file });
  } catch {
    throw new Told(sayTransfer("no_line"));
  }
  const said = await answer.json().catch(() => null);
  if (answer.ok && said) return said;
  throw new Told(said?.error?.message ?? sayTransfer("went_wrong"), said?.error?.code);
}

/** @param {unknown} error */
function complain(error) {
  const said = make("p", "complaint", error instanceof Told ? error.message : sayTransfer("went_wrong"));
  said.setAttribute("role", "alert");
  place.replaceChildren(said);
  return said;
}

async function look() {
  const file = input.files?.[0];
  if (!file) return;
  const mine = ++asked;
  const board = where();
  label.firstChild?.replaceWith(sayTransfer("other", { name: file.name }));
  if (file.size > most) return void complain(new Told(sayTransfer("too_large")));
  label.classList.add("busy");
  place.replaceChildren(make("p", "note", sayTransfer("looking")));
  try {
    // Read once, so that what is brought in is what was looked at, whatever becomes of the file meanwhile.
    const kept = new Blob([await file.arrayBuffer().catch(() => Promise.reject(new Told(sayTransfer("unread"))))]);
    /** @type {InFile} */
    const found = await send("/api/import/look", board ? { board } : {}, kept);
    if (mine !== asked) return;
    place.replaceChildren(...showFound(found, board, (choices) => void bring(kept, board, found.seen, choices)));
    place.querySelector("h3")?.focus();
  } catch (error) {
    if (mine === asked) complain(error);
  } finally {
    if (mine === asked) label.classList.remove("busy");
  }
}

/** @param {Blob} file @param {string} board @param {string} seen @param {Record<string, Whose>} choices */
async function bring(file, board, seen, choices) {
  try {
    const { url } = await send("/api/import", { ...choices, seen, ...(board ? { board } : {}) }, file);
    location.assign(url);
  } catch (error) {
    if (error instanceof Told && error.code === "moved_on") {
      await look();
      const said = make("p", "complaint", error.message);
      said.setAttribute("role", "alert");
      place.prepend(said);
    } else complain(error);
  }
}

form.addEventListener("submit", (event) => event.preventDefault());
form.addEventListener("change", () => void look());
// Chosen a second time, the same file may be another by now.
input.addEventListener("click", () => (input.value = ""));
// Browsers keep what was chosen when a page is gone back to.
if (input.files?.length) void look();
