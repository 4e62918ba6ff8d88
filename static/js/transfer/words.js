/** Every sentence of the page that brings a team in. */

/** @typedef {"team" | "players" | "lineups" | "designs" | "boards" | "chains"} Kind */
/** @typedef {"mine" | "theirs" | "both"} Whose */

const few = (/** @type {number} */ n, /** @type {string} */ one, /** @type {string} */ many) => `${n} ${n === 1 ? one : many}`;

export const T = Object.freeze({
  choose: "Choose the file",
  other: (/** @type {string} */ name) => `${name}: choose another`,
  looking: "Looking at the file…",
  tooLarge: "This file is larger than a team can be. Nothing was brought in.",
  unread: "This device could not read the file. Nothing was brought in: choose it once more.",
  noLine: "The server could not be reached. Nothing was brought in: try again.",
  wentWrong: "Something went wrong. Nothing was brought in: try again.",

  team: (/** @type {string} */ name) => `In the file: ${name}`,
  into: (/** @type {string} */ name) => `What comes into ${name}`,
  counts: /** @type {Readonly<Record<string, (n: number) => string>>} */ ({
    players: (n) => few(n, "player", "players"),
    lineups: (n) => few(n, "lineup", "lineups"),
    rules: (n) => few(n, "rule set", "rule sets"),
    formations: (n) => few(n, "formation", "formations"),
    boards: (n) => few(n, "board", "boards"),
    chains: (n) => few(n, "play", "plays"),
    drawn: (n) => few(n, "step with a drawing", "steps with a drawing"),
    played: (n) => few(n, "unsaved chain", "unsaved chains"),
  }),
  here: (/** @type {string} */ name) => `${name} is on this server already. Choose “Into ${name}” to put the two together; as a new team you have it twice.`,
  hereAssistant: (/** @type {string} */ name) => `${name} is on this server already. Only its head coach can bring the file into it; as a new team you have it twice.`,
  newTeam: "This device becomes the head coach’s. You let everybody else in anew, with links or codes.",
  saveFirst: "Save what is here first",
  why: "This cannot be taken back, so keep a file of how it is now.",
  nothing: "Everything in the file is here already. There is nothing to bring in.",

  kinds: /** @type {Readonly<Record<Kind, string>>} */ ({
    team: "Name and calls",
    players: "Players",
    lineups: "Lineups",
    designs: "Rules and formations",
    boards: "Boards",
    chains: "Plays, and what was played",
  }),
  comes: (/** @type {number} */ n) => (n === 1 ? "1 comes in new." : `${n} come in new.`),
  same: (/** @type {number} */ n) => (n === 1 ? "1 is here already, just the same." : `${n} are here already, just the same.`),
  differ: (/** @type {number} */ n) => (n === 1 ? "1 is here already, but not the same:" : `${n} are here already, but not the same:`),
  teamDiffers: "They are not the same here and in the file.",
  pair: (/** @type {string} */ theirs, /** @type {string} */ mine) => [theirs, theirs === mine ? "" : ` in the file, ${mine} here`],
  unnamed: "without a name",
  more: (/** @type {number} */ n) => `and ${n} more`,
  twins: (/** @type {string[]} */ names) => `You will have two of the same name: ${names.join(", ")}.`,

  whose: "Where they differ",
  answers: /** @type {Readonly<Record<Whose, string>>} */ ({
    mine: "Keep what is here",
    theirs: "Take the file’s",
    both: "Keep both",
  }),
  means: /** @type {Readonly<Record<Kind, Readonly<Record<Whose, string>>>>} */ ({
    team: { mine: "", theirs: "Name and calls.", both: "The name from here; calls that are missing here come in." },
    players: { mine: "", theirs: "Everything the file says of them.", both: "The file’s player gets a free number." },
    lineups: { mine: "", theirs: "", both: "" },
    designs: { mine: "Plays from the file keep the rules they were made by.", theirs: "As the newest version; plays keep theirs.", both: "" },
    boards: { mine: "", theirs: "What they are set to, and where they stand.", both: "" },
    chains: { mine: "", theirs: "Names, notes, main lines and drawings; nothing played or drawn here is lost.", both: "" },
  }),

  idle: "These choices change nothing.",
  bring: "Import",
  bringing: "Bringing it in…",
});
