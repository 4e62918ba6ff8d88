/** The keyboard: everything a coach does at a desk without reaching for the court. */

/**
 * @typedef {object} KeyHandlers
 * @property {(digit: string) => void} pass
 * @property {() => void} escape
 * @property {(act: "drive" | "shot" | "default", side?: "left" | "right") => void} act
 * @property {() => void} undo
 * @property {() => void} redo
 * @property {() => void} back
 * @property {() => void} forward
 * @property {() => void} play
 * @property {() => void} loop
 */

/** Elements that want their own keys. */
const OWN = "input, textarea, select, dialog";

/** @param {KeyHandlers} on */
export function listenKeys(on) {
  document.addEventListener("keydown", (event) => {
    const target = event.target instanceof Element ? event.target : document.body;
    const scrub = target.id === "scrub";
    if ((target.closest(OWN) && !scrub) || event.altKey) return;
    const onButton = target.closest("button") !== null;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    const command = event.ctrlKey || event.metaKey;
    if (command && key !== "z" && key !== "y") return;
    const done = () => event.preventDefault();
    if (command) {
      done();
      if (key === "y" || event.shiftKey) on.redo();
      else on.undo();
    } else if (/^[0-9]$/.test(key)) on.pass(key);
    else if (key === "q") on.act("drive", "left");
    else if (key === "e") on.act("drive", "right");
    else if (key === "s") on.act("shot");
    else if (key === "u") on.undo();
    else if (key === "l") on.loop();
    else if (key === "Escape") on.escape();
    else if (key === "Enter" && !onButton) on.act("default");
    else if (key === "ArrowLeft" && !scrub) (done(), on.back());
    else if (key === "ArrowRight" && !scrub) (done(), on.forward());
    else if (key === " " && !onButton) (done(), on.play());
  });
}
