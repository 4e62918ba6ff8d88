/** Which player this device belongs to. Kept on the device, never sent anywhere. */

const KEY = "quintet.me";
/** Somebody who only watches. */
export const WATCHES = "watches";

/** The number as the player chose it ("00" is not "0"), `WATCHES`, or null while nobody has said. */
export function rememberedNumber() {
  try {
    const kept = localStorage.getItem(KEY);
    return kept !== null && /^(\d{1,2}|place [1-5]|watches)$/.test(kept) ? kept : null;
  } catch {
    return null; // a phone that keeps nothing asks again next time
  }
}

/** @param {string} number */
export function rememberNumber(number) {
  try {
    localStorage.setItem(KEY, number);
  } catch {
    // As above.
  }
}
