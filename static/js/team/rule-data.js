/** Changes to a rule set's data, each on a copy it may change. Pure; which names there are comes from the server. */

/**
 * @typedef {import("./team-api.js").RulesData} RulesData
 * @typedef {import("./team-api.js").Vocabulary} Vocabulary
 */

/** What happens on an action, as triggers. @param {string} kind @param {Vocabulary} vocabulary */
export function triggersOf(kind, vocabulary) {
  return vocabulary.happens[kind] ?? [];
}

/** Triggers that happen on these actions and on no others. @param {Set<string>} kinds @param {Vocabulary} vocabulary */
export function ownTriggers(kinds, vocabulary) {
  const others = Object.keys(vocabulary.happens).filter((kind) => !kinds.has(kind));
  const shared = new Set(others.flatMap((kind) => triggersOf(kind, vocabulary)));
  return new Set([...kinds].flatMap((kind) => triggersOf(kind, vocabulary)).filter((trigger) => !shared.has(trigger)));
}

/** Every trigger of what is installed. @param {RulesData} data @param {Vocabulary} vocabulary */
export function installedTriggers(data, vocabulary) {
  const kinds = new Set([...data.actions, ...vocabulary.always]);
  return new Set([...kinds].flatMap((kind) => triggersOf(kind, vocabulary)));
}

/**
 * Set or take away what a role does.
 * @param {RulesData} data
 * @param {string} trigger
 * @param {string} role
 * @param {string[]} movements  none: the role has no line of its own
 */
export function respond(data, trigger, role, movements) {
  const table = (data.responses[trigger] ??= {});
  if (!movements.length) delete table[role];
  else table[role] = movements.length === 1 ? movements[0] : movements;
}

/**
 * Where a cutter goes who chooses nothing; the last place goes without saying.
 * @param {RulesData} data @param {string[]} places  in their order @param {string} last
 */
export function sendCutter(data, places, last) {
  const said = places.filter((place) => place !== last);
  if (said.length) data.cutter = said;
  else delete data.cutter;
}

/**
 * Install an action or lane choice, or take it away, from the stages too.
 * @param {RulesData} data
 * @param {string} kind
 * @param {boolean} on
 * @param {Vocabulary} vocabulary
 */
export function install(data, kind, on, vocabulary) {
  const place = vocabulary.lane.includes(kind) ? "lane" : "actions";
  data[place] = data[place].filter((each) => each !== kind);
  if (on) data[place].push(kind);
  else for (const stage of data.stages ?? []) stage.adds = stage.adds.filter((each) => each !== kind);
}

/** An action belongs to one stage: adding it here takes it from the others. @param {RulesData} data @param {number} index @param {string} kind @param {boolean} on */
export function teach(data, index, kind, on) {
  (data.stages ?? []).forEach((stage, i) => {
    stage.adds = stage.adds.filter((each) => each !== kind);
    if (i === index && on) stage.adds.push(kind);
  });
}

/** @param {RulesData} data @param {number} from @param {number} to */
export function moveStage(data, from, to) {
  const stages = data.stages ?? [];
  const [stage] = stages.splice(from, 1);
  if (stage) stages.splice(to, 0, stage);
}

/** What is installed but in no stage. @param {RulesData} data @param {Vocabulary} vocabulary */
export function untaught(data, vocabulary) {
  const taught = new Set((data.stages ?? []).flatMap((stage) => stage.adds));
  return [...data.actions, ...data.lane].filter((kind) => !taught.has(kind) && !vocabulary.always.includes(kind));
}
