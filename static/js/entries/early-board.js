/** Begins to read what the device remembers, while the board's module is still on its way. */

import { boardKept, playsKept } from "../device/early.js";

const { board, team } = document.body.dataset;
// Who needs it is told if it cannot be read.
boardKept(String(board)).catch(() => {});
playsKept(String(team)).catch(() => {});
