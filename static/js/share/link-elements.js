/** Small elements of the sharing panel. */

import { sayShare } from "../words/share-words.js";
import { sayLabel } from "../words/general-words.js";

/**
 * @typedef {object} How
 * @property {string} [class]
 * @property {string} [label]  for a screen reader, where the text alone does not say enough
 * @property {string} [role]
 * @property {boolean} [submit]  a button that sends its form
 * @property {() => void} [on]  what a tap does
 */

/**
 * Make an element.
 * @param {string} name
 * @param {How} how
 * @param {...(Node | string)} children
 * @returns {HTMLElement}
 */
export function make(name, how, ...children) {
  const made = document.createElement(name);
  if (how.class) made.className = how.class;
  if (how.label) made.setAttribute("aria-label", how.label);
  if (how.role) made.setAttribute("role", how.role);
  if (name === "button") made.setAttribute("type", how.submit ? "submit" : "button");
  if (how.on) made.addEventListener("click", how.on);
  made.append(...children);
  return made;
}

/**
 * A QR code as a picture: as an image nothing in it can act, and it keeps its white ground in every theme.
 * @param {string} drawing  SVG
 * @param {string} alt
 */
export function qrPicture(drawing, alt) {
  const spaced = drawing.includes("xmlns=") ? drawing : drawing.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"');
  const image = /** @type {HTMLImageElement} */ (make("img", { class: "qr" }));
  image.alt = alt;
  image.src = `data:image/svg+xml,${encodeURIComponent(spaced)}`;
  return image;
}

/** A code in large letters, in groups; read out letter by letter. @param {string[]} groups */
export function bigCode(groups) {
  const big = make("p", { class: "code", label: sayLabel(sayShare("code_label"), [...groups.join("")].join(" ")) });
  big.append(...groups.map((letters) => make("span", {}, letters)));
  big.setAttribute("role", "img");
  return big;
}

/** An address without what nobody types. @param {string} url */
export function bare(url) {
  return url.replace(/^https?:\/\//, "").replace(/\/$/, "");
}

/**
 * Buttons that give an address away: the device's own sheet where there is one, and copying.
 * @param {string} url
 * @param {string} title
 */
export function giving(url, title) {
  const row = make("div", { class: "giving" });
  const copy = make("button", { class: "plain", on: () => copied(url).then(done) }, sayShare("copy"));
  /** @param {boolean} worked */
  const done = (worked) => {
    copy.textContent = worked ? sayShare("copied") : sayShare("copy");
    row.querySelector("p")?.remove();
    if (!worked) row.append(make("p", { class: "hint" }, sayShare("by_hand"), " ", make("code", {}, url)));
  };
  if (typeof navigator.share === "function") {
    row.append(make("button", { class: "primary", on: () => void navigator.share({ title, url }).catch(() => {}) }, sayShare("send")));
  }
  row.append(copy);
  return row;
}

/**
 * Copy a text, also where the page is not on a secure address and the newer way does not exist.
 * @param {string} text
 * @returns {Promise<boolean>}
 */
async function copied(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    const field = document.createElement("textarea");
    field.value = text;
    // Inside the dialog: outside of it nothing can be selected while it is open.
    (document.querySelector("dialog[open]") ?? document.body).append(field);
    field.select();
    const worked = document.execCommand("copy");
    field.remove();
    return worked;
  }
}
