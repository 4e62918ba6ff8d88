/** Finding plays by what is in them, naming them, and what is kept when somebody else has moved the board. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { builtOn, leavesLine, linesOf, settings } from "../../static/js/offline/conflicts.js";
import { apply, beginsWith, lineOf, otherWays, playable } from "../../static/js/plays/apply.js";
import { actionWord, found, gist, NAME_MAX, readTags, spoken, suggest, TAG_MAX, tagsOf, TAGS_MAX, titleOf } from "../../static/js/plays/search.js";
import { speaker } from "../../static/js/words/speaker.js";
import { dice, seeds } from "./some.js";

/**
 * @typedef {import("../../static/js/plays/apply.js").Play} Play
 * @typedef {import("../../static/js/plays/apply.js").Op} Op
 * @typedef {import("../../static/js/state/state.js").Pending} Pending
 */

const words = speaker({ calls: { drive: { call: "Züri" } } });
const QUICK = [["pass:right_wing"], ["fill:left_corner", "pass:top"], ["drive:left"]];
const LATE = [["pass:right_wing"], ["skip:left_corner"]];

/** @param {string} name @param {string[][]} line @param {Partial<Play>} [more] @returns {Play} */
function play(name, line, more = {}) {
  const refs = { chain: name || "nameless", board: "b", formation: "five_out", rules: "r" };
  const [made] = apply([], { id: "o", op: "save", ...refs, line, name, note: "", tags: [] }, { at: 1, formation_name: "Five out" });
  return { ...made, ...more };
}
const names = (/** @type {Play[]} */ plays) => plays.map(({ name }) => name);
/** @param {Play[]} plays @param {string} text @param {string[]} [tags] @param {"used" | "name"} [sort] */
const find = (plays, text, tags = [], sort = "name") => names(found(plays, { text, tags, sort }, words, "No name"));

test("a play is found by its name, note, tags, actions, spots and the team's own calls", () => {
  const plays = [play("Otter", QUICK, { note: "First ball" }), play("Écluse", LATE, { tags: ["vs zone"] })];
  assert.deepEqual(find(plays, ""), ["Écluse", "Otter"]);
  for (const text of ["otter", "FIRST", "drive", "zuri", "otter ball"]) assert.deepEqual(find(plays, text), ["Otter"], text);
  for (const text of ["ecluse", "zone", "vs-zone", "skip"]) assert.deepEqual(find(plays, text), ["Écluse"], text);
  for (const text of ["otter zone", "hand-off"]) assert.deepEqual(find(plays, text), [], text);
});

test("what was drawn goes by what it was drawn for, and is found by it", () => {
  const inbound = "script:as=side;at=1,-790,300,2,0,700,3,600,100,4,-500,50,5,200,300;ball=1";
  const plays = [play("", [[inbound], ["pass:right_wing"]]), play("Otter", QUICK)];
  assert.equal(gist(plays[0], words), "sideline inbound, pass");
  assert.equal(suggest([[inbound]], [], words, (name) => name), "Sideline inbound");
  assert.deepEqual(find(plays, "sideline"), [""]);
  assert.deepEqual(find(plays, "script"), []);
});

test("plays with all the tags are left, pinned ones first, then by last use or by name", () => {
  const tagged = (/** @type {string} */ name, /** @type {string[]} */ tags, used = 1, pinned = false) => play(name, QUICK, { tags, used, pinned });
  const plays = [tagged("B 10", ["x", "y"], 3), tagged("B 9", ["x"], 5), tagged("A", ["y"], 4), tagged("Z", ["x"], 0, true)];
  assert.deepEqual(find(plays, "", ["x"]), ["Z", "B 9", "B 10"]);
  assert.deepEqual(find(plays, "", ["x", "y"]), ["B 10"]);
  assert.deepEqual(find(plays, "", [], "used"), ["Z", "B 9", "A", "B 10"]);
  assert.deepEqual(tagsOf(plays), ["x", "y"]);
});

test("a play without a name goes by what happens in it, without the fills", () => {
  assert.equal(titleOf(play("", QUICK), words, "No name"), gist(play("", QUICK), words));
  assert.equal(gist(play("", QUICK), words), "pass, pass, drive left");
  assert.equal(gist(play("", QUICK), speaker({ mirrored: true })), "pass, pass, drive right");
  assert.equal(titleOf(play("", []), words, "No name"), "No name");
  assert.equal(actionWord("drive:left", words), "drive left");
  assert.equal(spoken("Nobody can 'drive:left' here.", words), "Nobody can “drive left” here.");
});

test("a name that is proposed is nobody's yet and fits", () => {
  const numbered = (/** @type {string} */ name, /** @type {number} */ n) => `${name} ${n}`;
  const first = suggest(QUICK, [], words, numbered);
  assert.equal(first, "Pass, pass, drive");
  const plays = [play(first, QUICK), play(`${first.toUpperCase()} 2`, QUICK)];
  assert.equal(suggest(QUICK, plays, words, numbered), `${first} 3`);
  assert.ok(suggest(Array(9).fill(["dribble_out:left_corner"]), [], words, numbered).length <= NAME_MAX);
});

test("tags are read as somebody writes them, each once, as many as are kept", () => {
  assert.deepEqual(readTags(" early,  vs  zone;Early\nlate,,"), ["early", "vs zone", "late"]);
  const many = readTags(Array.from({ length: 40 }, (_, i) => `${i}${"x".repeat(40)}`).join());
  assert.ok(many.length === TAGS_MAX && many.every((tag) => tag.length <= TAG_MAX));
});

test("a line that is added is a branch; what was there before stays", () => {
  const refs = { chain: "Otter", board: "b", formation: "five_out", rules: "r" };
  const [grown] = apply([play("Otter", QUICK)], { id: "o2", op: "line", ...refs, line: LATE }, { at: 2 });
  assert.deepEqual(lineOf(grown), QUICK);
  assert.equal(otherWays(grown), 1);
  const [turned] = apply([grown], { id: "o3", op: "edit", chain: "Otter", line: LATE }, { at: 3 });
  assert.deepEqual([lineOf(turned), otherWays(turned), turned.tree.length], [LATE, 1, grown.tree.length]);
  assert.ok(beginsWith(QUICK, QUICK.slice(0, 2)) && !beginsWith(QUICK.slice(0, 2), QUICK) && !beginsWith(QUICK, LATE));
  assert.deepEqual(playable({ ...grown, stops: { legal: 1, of: 3, why: "" } }), QUICK.slice(0, 1));
});

test("a deleted play comes back as it was, once", () => {
  const was = play("Otter", QUICK, { pinned: true });
  const none = apply([was], { id: "d", op: "delete", chain: "Otter" }, { at: 2 });
  assert.deepEqual(none, []);
  /** @type {Op} */
  const back = { id: "r", op: "restore", chain: "Otter" };
  assert.deepEqual(apply(apply(none, back, { at: 3, was }), back, { at: 3, was }), [was]);
});

test("a renewed play goes by today's rules as far as they allow it", () => {
  const old = play("Otter", QUICK, { today: { rules: "r@2", version: 2, legal: 2, of: 3, why: null } });
  const [, fresh] = apply([old], { id: "n", op: "renew", chain: "Otter", as: "Otter2", name: "Otter today" }, { at: 9 });
  assert.deepEqual([fresh.rules, lineOf(fresh), fresh.today, fresh.name], ["r@2", QUICK.slice(0, 2), null, "Otter today"]);
  assert.deepEqual(apply([play("Otter", QUICK)], { id: "n", op: "renew", chain: "Otter", as: "x", name: "" }, { at: 9 }).length, 1);
});

/** Things sent one after the other. @param {{kind: Pending["kind"], line: string[][], after?: string, message?: object}[]} all @returns {Pending[]} */
const sent = (all) => /** @type {any} */ (all.map(({ line, ...each }, i) => ({ id: `s${i}`, base: i, message: {}, ...each, context: { chain: "c", formation: "f", rules: "r", line } })));

test("what was played on a board that somebody else moved is kept whole, each line once", () => {
  for (const seed of seeds(200)) {
    const { below, of } = dice(seed);
    /** @type {string[][]} */
    let line = [];
    const all = sent(Array.from({ length: 1 + below(12) }, () => {
      const act = !line.length || below(3) > 0;
      line = act ? [...line, [of(["pass:top", "drive:left"])]] : line.slice(0, -1);
      return { kind: act ? /** @type {const} */ ("act") : /** @type {const} */ ("undo"), line };
    }));
    const kept = linesOf(all).map((each) => each.line);
    for (const { kind, context } of all) {
      if (kind === "act") assert.equal(kept.filter((whole) => beginsWith(whole, context.line)).length >= 1, true, `seed ${seed}`);
    }
    kept.forEach((one, i) => assert.ok(!kept.some((other, j) => i !== j && beginsWith(other, one)), `seed ${seed}: none is the beginning of another`));
  }
});

test("what was made after something that was refused is refused with it, and settings are not", () => {
  const line = [["pass:top"]];
  const all = sent([
    { kind: "act", line }, { kind: "act", line, after: "s0" }, { kind: "act", line, after: "other" }, { kind: "undo", line, after: "s1" },
    { kind: "other", line, message: { t: "setup", level: 0.8 } }, { kind: "other", line, message: { t: "setup", rules: "mine@1" } },
  ]);
  assert.deepEqual(builtOn(all, all[0]).map(({ id }) => id), ["s0", "s1", "s3"]);
  assert.deepEqual(settings(all).map(({ id }) => id), ["s4"]);
  assert.deepEqual(all.map(leavesLine), [false, false, false, false, false, true]);
});
