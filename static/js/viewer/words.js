/** What the player's screen itself says. One table, so that another language is another table. */

export const WORDS = Object.freeze({
  live: "Live",
  catching: "Catching up…",
  offline: "Offline – trying again",
  you: (/** @type {string} */ n) => `You are ${n}`,
  off: "Turned off",
  notOn: (/** @type {string} */ n) => `${n} is not on the floor now.`,
  notYou: "Choose your number",
  pick: (/** @type {string} */ n) => `I am ${n}`,
  youStart: (/** @type {string} */ at, /** @type {boolean} */ ball) => `You start ${at}${ball ? ", with the ball" : ""}.`,
  starts: (/** @type {string} */ p, /** @type {string} */ at, /** @type {boolean} */ ball) =>
    `${p} starts ${at}${ball ? ", with the ball" : ""}.`,
  asDrawn: "as drawn",
  start: "Start",
  then: ", then ",
  call: (/** @type {string} */ call, /** @type {string} */ signal) =>
    `The call: ${[call && `“${call}”`, signal].filter(Boolean).join(", ")}.`,
  looking: "You are looking back.",
  goneOn: (/** @type {string} */ words) => `Coach has gone on: ${words}.`,
  play: "Play",
  pause: "Pause",
  disc: (/** @type {string} */ p, /** @type {string} */ at, /** @type {boolean} */ ball) =>
    `${[p, at].filter(Boolean).join(" ")}${ball ? ", with the ball" : ""}`,
  half: "Half speed",
  full: "Full speed",
  lights: { auto: "Light: as the phone", day: "Light: daylight", gym: "Light: dark gym" },
});
