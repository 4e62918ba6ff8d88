/** What the sharing panel says. One table, so that another language is another table. */

/** @param {number} n @param {string} one @param {string} many */
const count = (n, one, many) => (n === 1 ? one : many.replace("#", String(n)));

export const WORDS = Object.freeze({
  title: "Share this board",
  close: "Close",
  viewers: (/** @type {number} */ n) => (n ? count(n, "1 phone following", "# phones following") : "No phones following"),
  players: "For players: viewing link",
  playersHint: "They see the board on their phones and can change nothing on it. No names, no e-mail: a number is enough.",
  photograph: "Point the camera here",
  picture: "QR code of the viewing link",
  orType: "Or type the code at",
  codeLabel: "Code to join with",
  minutes: (/** @type {number} */ n) => count(n, "works for 1 more minute", "works for # more minutes"),
  ranOut: "This code has run out.",
  newCode: "New code",
  send: "Send the link",
  copy: "Copy the link",
  copied: "Copied",
  byHand: "It could not be copied. Here it is:",
  linkOff: "The viewing link is turned off. Phones that used it have been told.",
  makeView: "Make a new viewing link",
  assistant: "For an assistant: coaching link",
  assistantHint: "Whoever opens this link can change the board. Give it only to people who coach with you.",
  makeCoach: "Make a coaching link",
  coachPicture: "QR code of the coaching link",
  coachMade: "Shown only now: send it or let it be photographed.",
  tabs: { share: "Share", devices: "Devices" },
  links: "Links",
  noLinks: "No link is open.",
  devices: "Devices that coach",
  devicesHint:
    "Each keeps a copy of the boards, the playbook and the squad (players’ numbers, and first names if you gave any), so that it works without a network. Turn off a device that is lost.",
  cameBy: (/** @type {string} */ by) => `added by ${by}`,
  cameBySheet: "came in by the recovery sheet",
  add: "Add a device",
  addHint: "For a tablet, phone or computer of somebody who coaches, and for the app on a home screen, which signs in separately from the browser.",
  addRole: "What the device may do",
  addRoles: { head_coach: "Head coach: everything, as on your own devices", assistant: "Assistant: coaches on this board" },
  makeDeviceCode: "Make a code",
  anotherCode: "Make another code",
  deviceCodePicture: "QR code that adds a device",
  deviceCodeSteps: "On the new device, open the app or",
  deviceCodeType: "and type this under “Add this device”:",
  deviceCodeOnce: "For one device, once. A new code ends this one.",
  deviceCamera: "Or point its camera here: that adds its browser.",
  added: (/** @type {string} */ name) => `Added: ${name}.`,
  sheet: "Recovery sheet",
  sheetHint: "A page to print and put away. When every device is lost or has forgotten its key, it lets one new device in as the head coach’s, once.",
  sheetNone: "There is none yet.",
  sheetWorks: (/** @type {string} */ day) => `Printed on ${day}. It works; a new one ends it.`,
  sheetUsed: (/** @type {string} */ day) => `The last one was used on ${day}. Print a new one.`,
  sheetMake: "Make a recovery sheet",
  sheetAgain: "Make a new one",
  sheetSure: "Turn the sheet off for good? The paper is then worth nothing.",
  storage: "This device’s copy",
  storageLook: "Looking…",
  storageKept: "The app may keep its copy on this device.",
  storageMayClear:
    "The browser may clear the copy on this device, and the key with it, when it needs room or the app is not used for some weeks. Put Quintet on the home screen and open it from there, or ask the browser to keep it. A recovery sheet helps in any case.",
  storageNone: "At this address the browser keeps no copy, so the board needs a network.",
  storageAsk: "Ask the browser to keep it",
  storageNo: "The browser has not promised it yet. It often does once the app is on the home screen or is used for a few days.",
  kinds: { view: "viewing link", coach: "coaching link" },
  roles: { head_coach: "head coach", assistant: "assistant", viewer: "viewer" },
  opened: (/** @type {number} */ n) => (n ? count(n, "used once", "used # times") : "not used yet"),
  made: (/** @type {string} */ when) => `made ${when}`,
  seen: (/** @type {string} */ when) => `seen ${when}`,
  here: "this device",
  rename: "Rename",
  renameFor: (/** @type {string} */ name) => `Rename: ${name}`,
  renameLabel: "New name",
  keepName: "Save",
  off: "Turn off",
  offFor: (/** @type {string} */ name) => `Turn off: ${name}`,
  sure: "Turn off for good? Every phone that came by it or by its codes closes at once, and the codes end.",
  surePhone: "Turn off for good? This phone closes at once, and the code it came by ends. The others stay.",
  sureCoach:
    "Turn off for good? The devices that came in by it are turned off too. The copy on each stays there until it next reaches Quintet, and is then removed.",
  sureDevice:
    "Turn off for good? Its screens close at once. Its copy stays on it until it next reaches Quintet, and is then removed. Links it gave away stay on.",
  sureSelf: "Turn off this very device? Its copy is removed at once, and you will need a code or a coaching link to come back.",
  yes: "Yes, turn it off",
  no: "Keep it",
  noLine: "There is no connection just now. Nothing was changed; try again in a moment.",
  playersLink: "Players",
  assistantLink: "Assistant",
});

/** The day of a time, as people here write it. @param {number} then  seconds since 1970 */
export function dayOf(then) {
  return new Date(then * 1000).toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
}

/** How long ago, in words. @param {number} then  seconds since 1970 @param {number} now  the same */
export function ago(then, now) {
  const minutes = Math.floor((now - then) / 60);
  if (minutes < 1) return "just now";
  if (minutes < 60) return count(minutes, "a minute ago", "# minutes ago");
  const hours = Math.floor(minutes / 60);
  if (hours < 24) return count(hours, "an hour ago", "# hours ago");
  return count(Math.floor(hours / 24), "yesterday", "# days ago");
}
