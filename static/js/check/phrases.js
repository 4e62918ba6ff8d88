/** What the check of this device says. One table, so that another language is another table. */

const n = (/** @type {number} */ count, /** @type {string} */ one, /** @type {string} */ more) => `${count} ${count === 1 ? one : more}`;

export const C = Object.freeze({
  titles: {
    line: "Connection",
    address: "Address",
    key: "Your key",
    app: "The app",
    packs: "Playing without a network",
    kept: "Boards and plays",
    waiting: "Waiting to be sent",
    storage: "Storage",
    clock: "Clock",
    pen: "Pencil",
    frames: "Smooth movement",
    awake: "Screen stays on",
    screen: "Full screen",
  },
  fine: "fine",
  todo: "to do",
  checking: "Checking…",
  ready: "Ready for the game.",
  readyAway: "Ready to play without the server.",
  todos: (/** @type {number} */ count) => `${n(count, "thing", "things")} to do before the game.`,
  unclear: "That could not be found out here. Check again, or load this page again.",
  copied: "Copied.",
  copyByHand: "The text is marked below. Copy it by hand.",
  textTitle: "Quintet, check of this device",

  lineFine: (/** @type {number} */ seconds) => `The server answers in ${seconds.toFixed(2)} s, and boards are live.`,
  lineSlow: (/** @type {number} */ seconds) =>
    `The server takes ${seconds.toFixed(1)} s to answer. Taps play at once all the same; for phones that follow, come nearer to the router.`,
  lineNoLive: "The server answers, but boards cannot go live on this network. Try another network, or play on: what you do is sent later.",
  lineNone: "No answer from the server. To share the board, join its network. Without it the board plays on from this device.",
  lineNoBoard: (/** @type {number} */ seconds) => `The server answers in ${seconds.toFixed(2)} s.`,

  addressFine: "The address is a safe one (https), so the app can be kept on this device.",
  addressHere: "The server runs on this very computer, so the app can be kept here.",
  addressNot: "The address begins with http, so the browser may not keep the app here. Ask whoever runs the server for one that begins with https.",
  addressTrust: "The address begins with http, so the browser may not keep the app here. Let this device trust the team's computer, once:",
  trustLink: "how to do that",

  keyHead: "This device is a head coach's.",
  keyAssistant: "This device is an assistant's: it plays on the board.",
  keyBoth: "This device is a head coach's for one team and an assistant's for another.",
  keyAway: "This device coached when the server was last there. Whether it still may, the server will say.",
  keyNone: "This device has no key to a team yet. On the first page begin a team, or add this device to one.",
  keyUnknown: "Without the server it cannot be told, and nothing of a board is kept here. Open your board once with a connection.",

  appFine: "It is on this device, and it is the newest.",
  appAway: "It is on this device. Whether there is a newer one, only the server knows.",
  appNew: "A newer one has just been fetched. Open the board once, and you have it.",
  appNot: "It is not on this device yet. Open your board once with a connection and stay a moment.",
  appCannot: "The browser may not keep the app at this address (see Address). It works as long as the server answers.",

  packsFine: (/** @type {number} */ held) => `Ready offline: ${n(held, "formation", "formations")}. The board works out every move by itself.`,
  packsAway: (/** @type {number} */ held) => `Ready offline: ${n(held, "formation", "formations")}.`,
  packsSome: (/** @type {number} */ held, /** @type {number} */ wanted) => `Ready offline: ${held} of ${wanted} formations. Keep this page open: the rest is being fetched.`,
  packsNone: "No formation is ready offline. Open your board once with a connection and stay a moment.",
  packsLoose: "Formations cannot be made ready offline at this address (see Address). Without the server the board only shows what is on it.",

  keptFine: (/** @type {number} */ boards, /** @type {number} */ plays) => `${n(boards, "board", "boards")} and ${n(plays, "play", "plays")} are on this device.`,
  keptNone: "No board is on this device yet. Open your board once with a connection.",
  keptLoose: "This window keeps nothing once it is closed. Use an ordinary window, not a private one.",

  waitingNone: "Nothing waits: all that was done here is with the server.",
  waitingSome: (/** @type {number} */ count) => `${n(count, "change is", "changes are")} safe on this device only. Open the board with a connection and they go by themselves.`,

  storageFine: (/** @type {string} */ room) => `The browser has promised to keep what is here.${room}`,
  storageMay: (/** @type {string} */ room) => `The browser may clear what is here when it needs room. Put Quintet on the home screen, or tap Ask the browser.${room}`,
  storageFull: (/** @type {string} */ room) => `There is hardly any room left. Remove something else from this device.${room}`,
  storageNone: "At this address the browser cannot promise to keep anything (see Address).",
  room: (/** @type {number} */ used, /** @type {number} */ free) => ` ${mb(used)} used, ${mb(free)} free.`,
  ask: "Ask the browser",

  clockFine: "It agrees with the server's.",
  clockOff: (/** @type {number} */ seconds, /** @type {boolean} */ ahead) =>
    `It is ${span(seconds)} ${ahead ? "ahead of" : "behind"} the server's. In the settings let the device set its time by itself.`,
  clockAway: "Without the server there is nothing to compare it with. The board does not need it.",

  penSeen: "A pencil was seen. It draws, and your fingers tap.",
  penPressure: "A pencil was seen, and how hard it presses. It draws, and your fingers tap.",
  penFinger: "A finger was seen, no pencil. Fingers draw as well.",
  penNone: "No pencil seen yet: touch the field below with it. Without one, fingers draw.",

  framesFine: (/** @type {number} */ rate) => `${rate} frames a second: movement is smooth.`,
  framesSome: (/** @type {number} */ rate) => `${rate} frames a second: movement is a little rough. Close other apps, or turn the battery saver off.`,
  framesFew: (/** @type {number} */ rate) => `Only ${rate} frames a second. Turn the battery saver off, close other apps, and check again.`,
  framesHidden: "This page was not in front while it was looked at. Check again.",

  awakeFine: "While a board is in use, the screen does not go dark.",
  awakeNot: "The device did not allow it just now, often because the battery is low. Plug it in, or set a long time until the screen goes dark.",
  awakeNone: "Quintet cannot keep the screen on here. In the device's settings, set a long time until the screen goes dark.",

  screenApp: "It was opened from the home screen and has the whole screen.",
  screenCan: "It can take the whole screen. Better still: put Quintet on the home screen and open it from there.",
  screenNot: "For the whole screen, put Quintet on the home screen (in the browser's share menu) and open it from there.",

  device: (/** @type {number} */ width, /** @type {number} */ height) => `Screen ${width} by ${height}`,
});

/** @param {number} bytes */
function mb(bytes) {
  const size = bytes / 1e6;
  return size >= 1000 ? `${(size / 1000).toFixed(0)} GB` : `${Math.max(1, Math.round(size))} MB`;
}

/** @param {number} seconds */
function span(seconds) {
  if (seconds < 90) return n(Math.round(seconds), "second", "seconds");
  if (seconds < 5400) return n(Math.round(seconds / 60), "minute", "minutes");
  return n(Math.round(seconds / 3600), "hour", "hours");
}
