/** Undo, redo, whether it is saved, and Save: the same at the foot of every editor. */

import { button, icon, make } from "../ui/dom.js";
import { sayTeam } from "../words/team-words.js";

/** @typedef {import("./edit.js").Edited<any>} AnyDraft */

export class SaveBar {
  /** @param {AnyDraft} draft @param {() => void} save */
  constructor(draft, save) {
    this.draft = draft;
    this.undo = button("round", icon("undo"), () => draft.undo(), sayTeam("undo"));
    this.redo = button("round", icon("redo"), () => draft.redo(), sayTeam("redo"));
    this.state = make("p", "state");
    this.state.setAttribute("role", "status");
    this.save = button("primary", sayTeam("save"), save);
    this.element = make("footer", "bar", this.undo, this.redo, this.state, this.save);
    this.keys = (/** @type {KeyboardEvent} */ event) => {
      if (!this.element.isConnected) {
        document.removeEventListener("keydown", this.keys);
        return;
      }
      if (!(event.ctrlKey || event.metaKey) || (event.target instanceof HTMLInputElement && event.target.type === "text")) return;
      const key = event.key.toLowerCase();
      if (key === "z" && event.shiftKey) draft.redo();
      else if (key === "z") draft.undo();
      else if (key === "y") draft.redo();
      else if (key === "s") save();
      else return;
      event.preventDefault();
    };
    document.addEventListener("keydown", this.keys);
    this.draw();
  }

  draw() {
    const { draft } = this;
    this.undo.disabled = !draft.canUndo;
    this.redo.disabled = !draft.canRedo;
    this.save.disabled = !draft.dirty;
    this.say(draft.dirty ? "dirty" : "saved");
  }

  /** @param {"dirty" | "saved" | "saving" | "not saved"} what */
  say(what) {
    if (this.element.dataset.state === what) return;
    this.element.dataset.state = what;
    const words = { dirty: sayTeam("dirty_short"), saved: sayTeam("saved_all"), saving: sayTeam("saving"), "not saved": sayTeam("not_saved") }[what];
    this.state.replaceChildren(words);
    if (what === "dirty" || what === "not saved") this.state.append(" ", make("small", "", sayTeam("kept_here")));
  }
}
