/** Which player this device belongs to. Kept on the device, never sent anywhere. */

/** The number as the player chose it ("00" is not "0"), a position, or that they only watch. */
const MINE = { key: "quintet.me", shape: /^(\d{1,2}|place [1-5]|watches)$/ };
/** Whose part is shown while that player sits on the bench. */
const FOLLOWS = { key: "quintet.follows", shape: /^(\d{1,2}|place [1-5])$/ };

/** @param {{key: string, shape: RegExp}} what */
function remembered({ key, shape }) {
  try {
    const kept = localStorage.getItem(key);
    return kept !== null && shape.test(kept) ? kept : null;
  } catch {
    return null; // a phone that keeps nothing asks again next time
  }
}

/** @param {{key: string}} what @param {string | null} choice */
function remember({ key }, choice) {
  try {
    if (choice === null) localStorage.removeItem(key);
    else localStorage.setItem(key, choice);
  } catch {
    // As above.
  }
}

/** @returns {{mine: string | null, follows: string | null}}  null while nobody has said */
export const rememberedChoice = () => ({ mine: remembered(MINE), follows: remembered(FOLLOWS) });

/** @param {string | null} mine @param {string | null} follows */
export function rememberChoice(mine, follows) {
  remember(MINE, mine);
  remember(FOLLOWS, follows);
}
