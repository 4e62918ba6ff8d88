/** One of the bench comes in for one on the floor, and can be taken out again. */

import { sayBoard } from "../words/board-words.js";
import { seated } from "../state/roster.js";
import { toast } from "../ui/toast.js";
import { element } from "./status.js";

/**
 * @param {object} board
 * @param {import("./desk.js").Desk} board.desk
 * @param {(state: import("../state/state.js").State) => void} board.meet  takes in who plays now
 * @param {(place: number) => string} board.player  what who plays there is called now
 * @param {number} place @param {import("../state/wire.js").Member} coming
 */
export function substitute({ desk, meet, player }, place, coming) {
  const [going, before] = [seated(desk.state).squad[place], player(place)];
  desk.setup({ places: { [place]: coming.id } });
  meet(desk.state);
  toast(element("toast"), sayBoard("swapped", { coming: player(place), going: before }), {
    word: sayBoard("undo"),
    act: () => desk.setup({ places: { [place]: going?.id ?? null } }),
  });
}
