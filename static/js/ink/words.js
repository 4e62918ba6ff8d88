/** What the tools of ink say. */
export const W = Object.freeze({
  draw: "Draw",
  tools: "Draw over the court",
  names: Object.freeze({
    pen: "Pen", marker: "Highlighter", cut: "Cut: arrow", pass: "Pass: dashed arrow", dribble: "Dribble: wavy arrow",
    screen: "Screen: line with a bar", hand: "Hand-off: two bars", rubber: "Eraser",
  }),
  colours: Object.freeze({ plain: "Dark line", seam: "Blue line with a light middle", edge: "Red line with an edge" }),
  undo: "Undo the last stroke",
  clear: "Clear",
  strokes: (/** @type {number} */ n) => (n ? `${n} ${n === 1 ? "stroke" : "strokes"} on this step` : "Nothing is drawn on this step"),
  cleared: "The drawing on this step is cleared.",
  undoWord: "Undo",
  chooseTool: "Choose what the finger draws with, below the court.",
  pencilDraws: "The pencil draws, fingers tap. Close Draw and open it again to draw with a finger.",
  notYet: "The board is still being fetched. Draw again in a moment.",
});
