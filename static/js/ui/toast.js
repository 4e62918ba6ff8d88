/** One plain sentence over the court for a few seconds, with a button where it can be taken back. */

const SHOWN_MS = 4500;
const CHOICE_MS = 9000;
let timer = 0;

/**
 * @param {HTMLElement} element
 * @param {string} sentence  "" takes away what is there
 * @param {{word: string, act: () => void}} [way]
 */
export function toast(element, sentence, way) {
  clearTimeout(timer);
  const hide = () => (element.hidden = true);
  element.replaceChildren(sentence);
  if (way) {
    const button = Object.assign(document.createElement("button"), { type: "button", textContent: way.word });
    button.addEventListener("click", () => (hide(), way.act()));
    element.append(button);
  }
  element.hidden = !sentence;
  if (sentence) timer = window.setTimeout(hide, way ? CHOICE_MS : SHOWN_MS);
}
