/**
 * Plays as plain values, and what each change makes of them. Pure: the device shows a change before the server has
 * heard of it, and the server's own answer takes its place later.
 *
 * @typedef {string[][]} Line  steps from the start, each one or two text forms of actions
 * @typedef {object} Play
 * @property {string} id
 * @property {string} name
 * @property {string} note
 * @property {string[]} tags
 * @property {string} formation  ref, the team's own with its version
 * @property {string} formation_name
 * @property {string} rules  ref, as formation
 * @property {string} rules_title
 * @property {boolean} pinned
 * @property {string} [occasion]  when it is wanted, "" or left out: at any time
 * @property {number} [rank]  where it stands among the pinned ones of its occasion
 * @property {number} made  seconds since 1970
 * @property {number} used  seconds since 1970
 * @property {[number, string][]} tree  index of the parent and the step's text forms, a space between; 0 is the root
 * @property {number[]} line  the main line: indices in `tree`, root left out
 * @property {{legal: number, of: number, why: string} | null} stops  by its own version it goes on so far only
 * @property {{rules: string, version: number, legal: number, of: number, why: string | null} | null} today  the team's
 *   rules have changed since: how much of the main line they allow
 *
 * @typedef {{id: string} & (
 *   {op: "save", chain: string, board: string, formation: string, rules: string, line: Line, name: string, note: string, tags: string[],
 *    occasion?: string}
 *   | {op: "line", chain: string, board: string, formation: string, rules: string, line: Line}
 *   | {op: "edit", chain: string, name?: string, note?: string, tags?: string[], pinned?: boolean, occasion?: string,
 *    rank?: number, line?: Line}
 *   | {op: "delete" | "restore", chain: string}
 *   | {op: "duplicate" | "renew", chain: string, as: string, name: string})} Op
 *
 * @typedef {object} Hint  what this device knows beside the change itself
 * @property {number} at  seconds since 1970
 * @property {string} [formation_name]
 * @property {string} [rules_title]
 * @property {Play} [was]  restore: what was deleted
 */

/** The steps of a way through the tree. @param {Play} play @param {number[]} [way] @returns {Line} */
export function lineOf(play, way = play.line) {
  return way.map((index) => play.tree[index][1].split(" "));
}

/** The main line as far as it can be played. @param {Play} play @returns {Line} */
export function playable(play) {
  return lineOf(play).slice(0, play.stops ? play.stops.legal : undefined);
}

/** How many other ways a play has beside its main line. @param {Play} play */
export function otherWays({ tree }) {
  const parents = new Set(tree.map(([parent]) => parent));
  return Math.max(0, tree.filter((_, index) => !parents.has(index)).length - 1);
}

/** @param {Line} a @param {Line} b */
export function sameLine(a, b) {
  return a.length === b.length && beginsWith(a, b);
}

/** Whether `line` begins with all of `part`. @param {Line} line @param {Line} part */
export function beginsWith(line, part) {
  return part.length <= line.length && part.every((step, i) => step.join(" ") === line[i].join(" "));
}

/**
 * The tree with this line in it, and where the line runs; steps that are there already are used again.
 * @param {[number, string][]} tree
 * @param {Line} line
 */
export function grown(tree, line) {
  const all = [...tree];
  let here = 0;
  const way = line.map((step) => {
    const text = step.join(" ");
    const found = all.findIndex(([parent, own]) => parent === here && own === text);
    here = found > 0 ? found : all.push([here, text]) - 1;
    return here;
  });
  return { tree: all, line: way };
}

/**
 * The plays after a change. A change that has been made already, or that is about a play nobody has, changes nothing.
 * @param {Play[]} plays
 * @param {Op} op
 * @param {Hint} hint
 * @returns {Play[]}
 */
export function apply(plays, op, hint) {
  const found = plays.find(({ id }) => id === op.chain);
  const put = (/** @type {Play} */ play) => [...plays.filter(({ id }) => id !== play.id), play];
  switch (op.op) {
    case "save": {
      const base = found ?? begun(op, hint);
      const { tree, line } = grown(base.tree, op.line);
      const { name, note, tags, occasion = base.occasion } = op;
      const same = sameLine(lineOf(base), op.line);
      return put({ ...base, name, note, tags, occasion, tree, line, used: hint.at, ...(same ? {} : { stops: null, today: null }) });
    }
    case "line":
      return found ? put({ ...found, tree: grown(found.tree, op.line).tree }) : plays;
    case "edit": {
      if (!found) return plays;
      const { line, name = found.name, note = found.note, tags = found.tags, pinned = found.pinned } = op;
      const { occasion = found.occasion, rank = found.rank } = op;
      const play = { ...found, name, note, tags, pinned, occasion, rank };
      return put(line ? { ...play, ...grown(found.tree, line), used: hint.at, stops: null, today: null } : play);
    }
    case "delete":
      return plays.filter(({ id }) => id !== op.chain);
    case "restore":
      return found || !hint.was ? plays : put(hint.was);
    case "duplicate":
      return copied(plays, found, op, hint);
    case "renew": {
      const { today } = found ?? {};
      if (!found || !today) return plays;
      const fresh = grown([[-1, ""]], lineOf(found).slice(0, today.legal));
      return copied(plays, { ...found, ...fresh, rules: today.rules, stops: null, today: null }, op, hint);
    }
    default:
      return plays;
  }
}

/** @param {Extract<Op, {op: "save"}>} op @param {Hint} hint @returns {Play} */
function begun({ chain, formation, rules }, { at, formation_name = formation, rules_title = rules }) {
  return {
    id: chain, name: "", note: "", tags: [], formation, formation_name, rules, rules_title, pinned: false, occasion: "", rank: 0,
    made: at, used: at, tree: [[-1, ""]], line: [], stops: null, today: null,
  };
}

/** @param {Play[]} plays @param {Play | undefined} of @param {{as: string, name: string}} op @param {Hint} hint */
function copied(plays, of, { as, name }, { at }) {
  if (!of || plays.some(({ id }) => id === as)) return plays;
  return [...plays, { ...of, id: as, name, pinned: false, rank: 0, made: at, used: at }];
}
