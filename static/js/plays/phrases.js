/** What the plays say: the panel, saving, the row of pinned ones. */

import { PHRASES } from "../words/phrases.js";

const count = (/** @type {number} */ n, /** @type {string} */ one, /** @type {string} */ more) => `${n} ${n === 1 ? one : more}`;

export const B = Object.freeze({
  plays: "Plays",
  close: "Close",
  search: "Search plays by name, note, tag or action",
  searchHint: "Find a play",
  sort: "Order",
  sorts: { used: "Last used", name: "Name" },
  tags: "Tags",
  tagged: (/** @type {string} */ tag) => `Only plays tagged ${tag}`,

  steps: (/** @type {number} */ n) => count(n, "action", "actions"),
  ways: (/** @type {number} */ n) => count(n, "other way", "other ways"),
  pinnedMark: "pinned",
  changed: "rules changed",
  unnamed: "Without a name",
  open: (/** @type {string} */ name) => `Open ${name}`,
  play: (/** @type {string} */ name) => `Play ${name}`,
  more: (/** @type {string} */ name) => `More for ${name}`,

  pin: "Pin",
  unpin: "Unpin",
  pinHint: "Pinned plays stand first, and on the board when a chain begins.",
  rename: "Name, note, tags",
  duplicate: "Duplicate",
  print: "Print or picture",
  remove: "Delete",
  copyOf: (/** @type {string} */ name) => `${name} – copy`,
  removed: (/** @type {string} */ name) => `“${name}” is deleted.`,
  copied: (/** @type {string} */ name) => `“${name}” stands beside it.`,
  undo: PHRASES.undo,

  renew: "Copy with the current rules",
  renewed: (/** @type {string} */ name) => `${name} – current rules`,
  today: (/** @type {number} */ legal, /** @type {number} */ of) =>
    legal === of ? "The rules have changed since. Today's allow all of it."
      : legal ? `The rules have changed since. Today's allow the first ${legal} of ${count(of, "action", "actions")}.`
        : "The rules have changed since. Today's do not allow its first action.",
  stays: "This play goes on by the rules it was made with.",
  stops: (/** @type {number} */ legal, /** @type {number} */ of) =>
    `It can be played up to action ${legal} of ${of} only.`,

  name: "Name",
  note: "Note",
  noteHint: "When to call it, what to look for",
  tagsHint: "With commas between them, such as: baseline, late clock",
  save: "Save",
  notNow: "Not now",
  needsName: "Give it a name first.",

  savePlay: "Save play",
  saveNew: "Save as new",
  saveLine: "Make this the main branch",
  saveLineHint: (/** @type {string} */ name) => `It becomes the main line of “${name}”. The other ways stay in it.`,
  isSaved: (/** @type {string} */ name) => `“${name}” has this as its main line.`,
  saved: (/** @type {string} */ name) => `“${name}” is in your plays.`,
  savedLine: (/** @type {string} */ name) => `This is the main line of “${name}” now.`,
  nothingToSave: "Play an action first: then there is something to save.",
  numbered: (/** @type {string} */ name, /** @type {number} */ n) => `${name} ${n}`,

  none: "No plays yet.",
  noneHint: "Play a chain on the board, then save it here. It stays with the team, also without a network.",
  noMatch: "No play matches.",
  showAll: "Show all plays",
  unknown: "The plays cannot be fetched just now, and this device has no copy of them. The board works.",
  again: "Try again",
  loading: "One moment…",
  offline: "No network. These are the plays kept on this device.",
  failed: "The server cannot be asked just now. These are the plays kept on this device.",
  wait: (/** @type {number} */ n) => `${n} waiting`,
  waiting: (/** @type {number} */ n, /** @type {boolean} */ safe) =>
    `${count(n, "change is", "changes are")} kept on this device and sent as soon as there is a network.`
    + (safe ? "" : " This window forgets when it is closed: leave it open until then."),
  refused: "One change could not be made. The plays are as the server has them.",
  noOpen: "This play cannot be opened yet: its rules are not on this device. They come when there is a network.",
  gone: "That play is not among your plays any more.",

  pinned: "Pinned plays",

  forkTitle: "Another way from here",
  onBoard: "On the board",
  goOn: (/** @type {number} */ n) => count(n, "action", "actions"),
  mainLine: "main line",
});
