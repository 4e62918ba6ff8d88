/** The check: started, counted, stopped, and what it found, each finding to be seen on the court. */

import { Asked, check } from "./team-api.js";
import { button, make, tick } from "../ui/dom.js";
import { sentenceOf } from "./frame.js";
import { sayTeam, sayCheckCount, sayCheckLooked, sayInPositions } from "../words/team-words.js";
import { triggersOf } from "./rule-data.js";
import { finding as findingWords, mend } from "./say.js";
import { sayLabel } from "../words/general-words.js";

/**
 * @typedef {import("./rules-page.js").RulesPage} RulesPage
 * @typedef {import("./team-api.js").Finding} Finding
 * @typedef {import("./team-api.js").CheckReport} CheckReport
 *
 * @typedef {object} CheckState
 * @property {boolean} squad
 * @property {AbortController | null} running
 * @property {[number, number]} progress
 * @property {CheckReport | null} report
 * @property {string | null} of  what was checked: rules, formation, court and squad as text
 * @property {string} said
 */

/** @param {RulesPage} page @returns {HTMLElement[]} */
export function checkPart(page) {
  const { team } = page.context;
  const { checking, watch } = page;
  /** @type {HTMLElement[]} */
  const made = [
    make("p", "hint", sayTeam("check_lead")),
    watch.picks,
  ];
  const squad = tick(sayTeam("check_squad"), checking.squad, (on) => {
    checking.squad = on;
    page.draw();
  }, !team.players.length);
  /** @type {HTMLElement} */ (squad.firstElementChild).dataset.focus = "check.squad";
  if (team.players.length) made.push(squad);
  if (checking.running) made.push(running(page));
  else {
    const start = button("primary wide", sayTeam("check"), () => void run(page));
    start.dataset.focus = "check.start";
    made.push(start);
    const said = make("p", "note", checking.said);
    if (checking.said) made.push(said);
  }
  if (checking.report && !checking.running) made.push(...reported(page, checking.report));
  return made;
}

/** @param {RulesPage} page */
function subject(page) {
  const { watch, checking } = page;
  return JSON.stringify([page.data, watch.floor, checking.squad]);
}

/** @param {RulesPage} page */
function running(page) {
  const bar = make("progress", "looked");
  bar.setAttribute("aria-label", sayTeam("checking"));
  const count = make("p", "count");
  const stop = button("plain", sayTeam("check_cancel"), () => page.checking.running?.abort());
  stop.dataset.focus = "check.start";
  const box = make("div", "running", bar, count, stop);
  box.dataset.running = "yes";
  tell(page, box);
  return box;
}

/** @param {RulesPage} page @param {HTMLElement} box */
function tell(page, box) {
  const [looked, known] = page.checking.progress;
  const bar = box.querySelector("progress");
  if (bar && known) {
    bar.max = known;
    bar.value = looked;
  }
  const count = box.querySelector(".count");
  if (count) count.textContent = known ? sayCheckCount(looked, known) : sayTeam("checking_now");
}

/** @param {RulesPage} page */
async function run(page) {
  const { checking, watch } = page;
  const running = (checking.running = new AbortController());
  checking.progress = [0, 0];
  checking.report = null;
  checking.said = "";
  const of = subject(page);
  page.draw();
  try {
    const body = { rules: page.current, ...watch.floor, squad: checking.squad };
    checking.report = await check(body, (looked, known) => {
      checking.progress = [looked, known];
      const box = page.body.querySelector("[data-running]");
      if (box instanceof HTMLElement) tell(page, box);
    }, running.signal);
    checking.of = of;
  } catch (error) {
    checking.said = running.signal.aborted ? sayTeam("check_stopped") : sentenceOf(error);
    if (error instanceof Asked && error.problems.length) page.refuse(error);
  } finally {
    if (checking.running === running) checking.running = null;
    page.draw();
  }
}

/** @param {RulesPage} page @param {CheckReport} report @returns {HTMLElement[]} */
function reported(page, report) {
  const open = report.findings.filter((each) => !each.why);
  const known = report.findings.filter((each) => each.why);
  const verdict = make("div", open.length ? "verdict" : "verdict clean",
    make("h3", "", open.length ? sayTeam("check_found", { n: open.length }) : sayTeam("check_clean")),
    make("p", "", sayCheckLooked(report.positions, report.steps)));
  verdict.setAttribute("role", "status");
  if (page.checking.of !== subject(page)) verdict.append(make("p", "old", sayTeam("check_old")));
  /** @type {HTMLElement[]} */
  const made = [verdict];
  if (open.length) made.push(make("ul", "findings", ...open.map((each) => item(page, each))));
  if (known.length) {
    made.push(make("h3", "", sayTeam("check_known", { n: known.length })));
    made.push(make("ul", "findings known", ...known.map((each) => item(page, each))));
  }
  return made;
}

/** @param {RulesPage} page @param {Finding} finding */
function item(page, finding) {
  const { words } = page.context;
  const sentence = findingWords(words, finding);
  const made = make("li", "", make("p", "found", sentence));
  if (finding.why) made.append(make("p", "why", make("b", "", sayTeam("meant")), " ", finding.why));
  else {
    const times = sayInPositions(finding.count);
    if (times) made.append(make("p", "quiet", times));
    const helps = mend(words, finding);
    if (helps) made.append(make("p", "mend", make("b", "", sayTeam("mend")), " ", helps));
  }
  const acts = make("div", "acts");
  if (finding.chain.length) {
    acts.append(button("plain", sayTeam("show_it"), () => {
      void page.watch.show({ chain: finding.chain }, sentence);
      for (const each of page.body.querySelectorAll(".findings .on")) each.classList.remove("on");
      made.classList.add("on");
      page.element.dataset.showing = "yes";
      made.scrollIntoView({ block: "nearest" });
    }, sayLabel(sayTeam("show_it"), sentence)));
  }
  const there = place(page, finding);
  if (there && !finding.why && !page.readOnly) acts.append(button("plain", sayTeam("go_there"), there, sayLabel(sayTeam("go_there"), sentence)));
  if (acts.childElementCount) made.append(acts);
  return made;
}

/** The way to where a finding is mended, as far as it is known. @param {RulesPage} page @param {Finding} finding */
function place(page, { kind, about, chain }) {
  const { context } = page;
  if (kind === "close") {
    return page.watch.floor.formation.startsWith("f_") ? () => context.go(`#formations/${page.watch.floor.formation}`) : null;
  }
  if (kind === "never" || kind === "only_shot" || kind === "stuck_cutter") return () => context.go(`#rules/${page.ref}/installed`);
  if (kind === "no_balance") return () => page.lead("shot", "deepest_two");
  const action = about.action ?? chain[chain.length - 1]?.split(":")[0];
  const triggers = about.trigger ? [about.trigger] : triggersOf(action ?? "", context.team.vocabulary);
  const trigger = triggers.find((one) => about.role && page.data.responses[one]?.[about.role]) ?? triggers[0];
  return trigger ? () => page.lead(trigger, about.role ?? "") : null;
}
