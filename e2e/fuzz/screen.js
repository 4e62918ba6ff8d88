/**
 * A coach's or a player's screen without its drawing: what the app's own modules know, told as plain values. Given
 * to the page as it is; what it is asked comes by way of `window.fuzz`.
 */
async ({ role, socket, board }) => {
  const PATIENCE = 40000;
  /** How the board stood after so many changes, nothing of one's own on top: told since the last report. */
  let seen = [];
  /** Everything that was shown, for however short a time. */
  let shown = [];
  let drawn = "";
  let faults = [];
  let asides = [];
  let last = "";
  let notices = 0;
  const waiting = new Set();
  let beforeThis = null;

  const standing = ({ steps, start }) => (steps.length ? steps.at(-1).after : start);

  /** @param {any} now */
  const noted = (now) => {
    if (now.known) {
      const steps = now.steps.map(({ a }) => a);
      const draw = JSON.stringify([steps, now.board.formation]);
      if (draw !== drawn) shown.push([steps, standing(now), now.board.formation]);
      drawn = draw;
    }
    if (now.known && !now.pending.length) {
      const told = JSON.stringify([now.seq, now.first, now.steps.map(({ a }) => a), now.ahead, now.board.formation]);
      if (told !== last) seen.push(JSON.parse(told));
      last = told;
    }
    if (role === "coach" && now.known && now.undone.length !== now.ahead) faults.push(`${now.undone.length} steps to redo are held, ${now.ahead} counted`);
    if (now.notices !== notices) faults.push(`said: ${now.notice}`);
    notices = now.notices;
    for (const look of [...waiting]) look();
  };

  let desk = null;
  let state;
  if (role === "coach") {
    const { openDesk } = await import("/static/js/board/desk.js");
    ({ beforeThis } = await import("/static/js/state/state.js"));
    const changed = (now) => {
      noted(now);
      // Whoever has gone to another branch is followed at once: that all see the same is what is held here.
      if (now.elsewhere) queueMicrotask(() => desk.join());
    };
    desk = openDesk(socket, board, { changed, aside: (line, whole) => asides.push([line.chain, line.line, whole]) });
    state = () => desk.state;
  } else {
    const { hold } = await import("/static/js/state/state.js");
    const { openLink } = await import("/static/js/state/link.js");
    const held = hold(noted);
    // As viewer.js does.
    const link = openLink(socket, {
      seen: () => (held.state.known ? held.state.seq : null),
      message(message) {
        if ((message.t === "step" || message.t === "back") && message.seq > held.state.seq + 1) link.again();
        else held.receive(message);
      },
      state: (line) => held.change({ link: line }),
    });
    state = () => held.state;
  }

  const report = () => {
    const now = state();
    if (!now.known) return { known: false, link: now.link, seen: [], shown: [], faults: [], asides: [], heard: [], pending: [] };
    const found = {
      known: true, link: now.link, seq: now.seq, first: now.first, ahead: now.ahead, chain: now.chain?.id ?? null,
      formation: now.board.formation, rules: now.board.rules,
      line: now.steps.map(({ a }) => a), undone: now.undone.map(({ a }) => a).reverse(), stands: standing(now),
      forks: now.forks.flatMap(({ others }) => others.map(({ line }) => line)),
      pending: now.pending.map(({ id, kind, kept, context: { chain, line } }) => ({ id, kind, kept: Boolean(kept), chain, line })),
      seen, shown, faults, asides, heard: window.heard.splice(0),
    };
    [seen, shown, faults, asides] = [[], [], [], []];
    return found;
  };

  /** The branch or chain that an undo leads to, where it takes back no step. */
  const back = () => desk.crossing.undo ?? beforeThis(desk.state);

  /** What is asked for, as it turned out: null if nothing could be done. */
  const ways = {
    act(depthDraw, draw) {
      const now = desk.state;
      const depth = depthDraw >= 1 ? now.steps.length : Math.floor(depthDraw * (now.steps.length + 1));
      const menu = desk.menuAt(depth);
      if (!menu?.offers.length) return null;
      const offer = menu.offers[Math.floor(draw * menu.offers.length)];
      desk.act(offer, depth);
      return { depth, a: offer.a };
    },
    hand(depthDraw, texts) {
      const { steps, board: { formation } } = desk.state;
      const depth = Math.min(steps.length, Math.floor(depthDraw * (steps.length + 1)));
      const text = texts[formation];
      if (!text || (depth && steps[depth - 1].after.over)) return null;
      return desk.script(depth, text) ? { depth, a: [text] } : null;
    },
    undo() {
      const to = back();
      return desk.state.steps.length || to ? (desk.undo(), { to }) : null;
    },
    redo() {
      const to = desk.crossing.redo;
      return desk.state.ahead || to ? (desk.redo(), { to }) : null;
    },
    fresh: () => (desk.fresh(), {}),
    recover(depthDraw, where) {
      const { steps } = desk.state;
      const depth = Math.floor(depthDraw * (steps.length + 1));
      if (depth && steps[depth - 1].after.over) return null;
      desk.recover(depth, where);
      return { depth };
    },
    form(draw) {
      const { link, choices: { formations }, board } = desk.state;
      const formation = formations[Math.floor(draw * formations.length)];
      // As the menu, which does without while there is no line.
      return link === "live" && formation !== board.formation ? (desk.setup({ formation }), {}) : null;
    },
    pace(draw) {
      const { link, choices: { levels } } = desk.state;
      return link === "live" ? (desk.setup({ level: levels[Math.floor(draw * levels.length)] }), {}) : null;
    },
    open(chain, line, depth, formation) {
      const { rules } = desk.state.board;
      return desk.open({ id: chain, formation, rules, line, depth }) ? {} : null;
    },
  };

  const tests = {
    known: () => state().known,
    kept: () => state().pending.every(({ kept }) => kept),
    idle: (seq) => state().known && state().link === "live" && !state().pending.length && state().seq >= seq,
    off: () => state().link !== "live",
  };

  window.fuzz = {
    report,
    /** Do one thing, and tell what had not been sent before. */
    async do(kind, ...given) {
      const { court, rules } = desk.state.board;
      // So that it is opened at once, not when its pack has been read.
      const to = kind === "open" ? { formation: given[3] } : { undo: back(), redo: desk.crossing.redo }[kind];
      if (to) await desk.packs.load({ formation: to.formation, rules, court });
      const ids = new Set(state().pending.map(({ id }) => id));
      const before = report();
      const did = ways[kind](...given);
      const now = report();
      const made = now.pending.filter(({ id }) => !ids.has(id));
      return { did: made.length ? did : null, made, before, now };
    },
    /** @param {string} name @param {any} given */
    when: (name, given) => new Promise((resolve, reject) => {
      const done = () => tests[name](given);
      if (done()) return resolve(report());
      const timer = window.realTimeout(() => {
        waiting.delete(look);
        reject(new Error(`never ${name} ${given ?? ""}: ${JSON.stringify(report())}`));
      }, PATIENCE);
      const look = () => {
        if (!done()) return;
        waiting.delete(look);
        clearTimeout(timer);
        resolve(report());
      };
      waiting.add(look);
    }),
    /** Wait until nothing of the board waits in what the device has written down; what does, if it never ends. */
    async forgotten() {
      const end = performance.now() + PATIENCE;
      let left;
      do left = await window.fuzz.written();
      while (left.length && performance.now() < end);
      return left;
    },
    /** Ids of what the device has written down and not had answered. */
    async written() {
      const { openKept } = await import("/static/js/device/storage.js");
      return (await (await openKept()).all("queue")).filter((row) => row.board === board).map(({ sent }) => sent.id);
    },
    async packs() {
      const { formation, rules, court } = desk.state.board;
      if (await desk.packs.load({ formation, rules, court })) return true;
      await desk.packs.refresh();
      return Boolean(await desk.packs.load({ formation, rules, court }));
    },
  };
  if (role === "coach") {
    await window.fuzz.when("known");
    if (!(await window.fuzz.packs())) throw new Error("There is no pack.");
  }
  return report();
};
