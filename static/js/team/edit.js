/**
 * Something being edited: what it was when last saved, what it is now, and every state between, so that any
 * change can be taken back. What is not saved is kept on this device until it is.
 *
 * @template D
 * @typedef {{version: number, data: D}} Saved
 */

const KEY = "quintet.draft.";
const MOST = 200;

/** @template D */
export class Edited {
  /**
   * @param {string} ref
   * @param {number} version  the saved one this is based on
   * @param {D} data
   * @param {() => void} changed
   */
  constructor(ref, version, data, changed) {
    this.ref = ref;
    this.version = version;
    this.saved = data;
    /** @type {D[]} */
    this.states = [data];
    this.at = 0;
    this.changed = changed;
    const kept = recall(ref);
    if (kept && !same(kept.data, data)) {
      this.version = kept.version;
      this.states.push(/** @type {D} */ (kept.data));
      this.at = 1;
    }
  }

  get now() {
    return this.states[this.at];
  }

  get dirty() {
    return !same(this.now, this.saved);
  }

  get canUndo() {
    return this.at > 0;
  }

  get canRedo() {
    return this.at < this.states.length - 1;
  }

  /** Change a copy; the copy is the new state. @param {(copy: D) => void} recipe */
  edit(recipe) {
    const copy = structuredClone(this.now);
    recipe(copy);
    this.put(copy);
  }

  /** @param {D} data */
  put(data) {
    if (same(data, this.now)) return;
    this.states = [...this.states.slice(0, this.at + 1), data].slice(-MOST);
    this.at = this.states.length - 1;
    this.#keep();
  }

  undo() {
    if (this.canUndo) this.#go(this.at - 1);
  }

  redo() {
    if (this.canRedo) this.#go(this.at + 1);
  }

  /** @param {number} version @param {D} data  what was sent */
  wasSaved(version, data) {
    this.version = version;
    this.saved = data;
    this.#keep();
  }

  /** Leave what was changed here; begin again from what is saved. @param {number} version @param {D} data */
  restart(version, data) {
    this.version = version;
    this.saved = data;
    this.states = [data];
    this.at = 0;
    this.#keep();
  }

  /** @param {number} at */
  #go(at) {
    this.at = at;
    this.#keep();
  }

  #keep() {
    try {
      if (this.dirty) localStorage.setItem(KEY + this.ref, JSON.stringify({ version: this.version, data: this.now }));
      else localStorage.removeItem(KEY + this.ref);
    } catch {
      // A private window keeps nothing; the page warns before it is left.
    }
    this.changed();
  }
}

/** What was left unsaved of something. @param {string} ref @returns {Saved<unknown> | null} */
export function recall(ref) {
  try {
    return JSON.parse(localStorage.getItem(KEY + ref) ?? "null");
  } catch {
    return null;
  }
}

/** @param {string} ref */
export function forget(ref) {
  try {
    localStorage.removeItem(KEY + ref);
  } catch {
    // Nothing was kept.
  }
}

/** @param {unknown} a @param {unknown} b */
function same(a, b) {
  return JSON.stringify(a) === JSON.stringify(b);
}
