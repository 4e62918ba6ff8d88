/** Which player this device belongs to. Kept on the device, never sent anywhere. */

const KEY = "quintet.me";

/** The player's number, 0 for somebody who only watches, null while nobody has said. */
export function rememberedNumber() {
  try {
    const kept = localStorage.getItem(KEY);
    return kept !== null && /^\d{1,3}$/.test(kept) ? Number(kept) : null;
  } catch {
    return null; // a phone that keeps nothing asks again next time
  }
}

/** @param {number} me */
export function rememberNumber(me) {
  try {
    localStorage.setItem(KEY, String(me));
  } catch {
    // As above.
  }
}
