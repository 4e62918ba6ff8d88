/** One plain sentence over the court for a few seconds. */

const SHOWN_MS = 4500;
let timer = 0;

/** @param {HTMLElement} element @param {string} sentence */
export function toast(element, sentence) {
  clearTimeout(timer);
  element.textContent = sentence;
  element.hidden = !sentence;
  if (sentence) timer = window.setTimeout(() => (element.hidden = true), SHOWN_MS);
}
