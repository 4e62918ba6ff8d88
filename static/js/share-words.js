/** What the sharing panel says. One table, so that another language is another table. */

/** @param {number} n @param {string} one @param {string} many */
const count = (n, one, many) => (n === 1 ? one : many.replace("#", String(n)));

export const WORDS = Object.freeze({
  title: "Share this board",
  close: "Close",
  viewers: (/** @type {number} */ n) => (n ? count(n, "1 phone follows now", "# phones follow now") : "No phone follows yet"),
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
  access: "Links and devices",
  links: "Links",
  noLinks: "No link is open.",
  devices: "Devices that coach",
  kinds: { view: "viewing", coach: "coaching" },
  roles: { head_coach: "head coach", assistant: "assistant", viewer: "viewer" },
  opened: (/** @type {number} */ n) => (n ? count(n, "opened once", "opened # times") : "not opened yet"),
  made: (/** @type {string} */ when) => `made ${when}`,
  seen: (/** @type {string} */ when) => `seen ${when}`,
  here: "this device",
  rename: "Rename",
  renameLabel: "New name",
  keepName: "Save",
  off: "Turn off",
  offFor: (/** @type {string} */ name) => `Turn off: ${name}`,
  sure: "Turn off for good? Screens that use it close at once.",
  sureSelf: "Turn off this very device? You will need a new coaching link to come back.",
  yes: "Yes, turn it off",
  no: "Keep it",
  noLine: "There is no connection just now. Nothing was changed; try again in a moment.",
  playersLink: "Players",
  assistantLink: "Assistant",
});

/** How long ago, in words. @param {number} then  seconds since 1970 @param {number} now  the same */
export function ago(then, now) {
  const minutes = Math.floor((now - then) / 60);
  if (minutes < 1) return "just now";
  if (minutes < 60) return count(minutes, "a minute ago", "# minutes ago");
  const hours = Math.floor(minutes / 60);
  if (hours < 24) return count(hours, "an hour ago", "# hours ago");
  return count(Math.floor(hours / 24), "yesterday", "# days ago");
}
