/** Style sheets that come with what they are for. Where the modules are packed, they are in the page's own. */

/** @param {string} name @returns {Promise<void>} once it holds, or cannot be had */
export function wearStyle(name) {
  const href = `/static/css/${name}.css`;
  if (document.querySelector(`link[href="${href}"]`)) return Promise.resolve();
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = href;
  document.head.append(link);
  return new Promise((resolve) => {
    link.onload = link.onerror = () => resolve();
  });
}
