/** Where a play branches, by the device's own copy of it: for as long as the server has not said so. Pure. */

/**
 * @typedef {import("../board/chain.js").Fork} Fork
 * @typedef {import("../state/wire.js").Phrase} Phrase
 * @typedef {import("./apply.js").Line} Line
 */

/**
 * What is known already, and every way of the play that turns off from what is on the board; each to its end, along
 * what was added last.
 * @param {Fork[]} known
 * @param {Line} path  what is on the board, and what can be redone
 * @param {[number, string][]} tree
 * @param {(line: Line) => Phrase[] | null} say  what the last step of this line says, null where it cannot be played
 * @returns {Fork[]}
 */
export function forksOf(known, path, tree, say) {
  /** The nodes the board has gone through, and after how many steps. */
  const passed = new Map([[0, 0]]);
  let here = 0;
  for (const [depth, step] of path.entries()) {
    here = tree.findIndex(([parent, text]) => parent === here && text === step.join(" "));
    if (here < 1) break;
    passed.set(here, depth + 1);
  }
  const lastChild = new Map(tree.map(([parent], index) => [parent, index]));
  /** @type {Map<number, Fork["others"]>} */
  const found = new Map(known.map(({ depth, others }) => [depth, [...others]]));
  for (let index = tree.length - 1; index > 0; index--) {
    const [parent, text] = tree[index];
    const depth = passed.get(parent);
    if (depth === undefined || passed.has(index)) continue;
    const others = found.get(depth) ?? [];
    if (others.some(({ line }) => line[depth].join(" ") === text)) continue;
    const line = [...path.slice(0, depth), text.split(" ")];
    const said = say(line);
    if (!said) continue;
    for (let next = lastChild.get(index); next !== undefined; next = lastChild.get(next)) line.push(tree[next][1].split(" "));
    found.set(depth, [...others, { line, say: said, steps: line.length }]);
  }
  return [...found].sort(([a], [b]) => a - b).map(([depth, others]) => ({ depth, others }));
}
