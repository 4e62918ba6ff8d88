/** The style sheet of ink, fetched with what it is for. */

/** @returns {Promise<void>} once it holds, or cannot be had */
export function wearInk() {
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = "/static/css/ink.css";
  document.head.append(link);
  return new Promise((resolve) => {
    link.onload = link.onerror = () => resolve();
  });
}
