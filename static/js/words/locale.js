/** The table of words from the server. Where the modules are packed for the browser, it is packed with them. */

/** @param {string} language @returns {Promise<import("./words.js").Locale>} */
export async function fetchWords(language) {
  const answer = await fetch(`/locale/${language}.json`);
  if (!answer.ok) throw new Error(`The words could not be fetched (${answer.status}).`);
  return answer.json();
}
