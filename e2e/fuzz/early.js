/** Before a page's own scripts: time that can be let pass, and an ear on what the server says. */
window.realTimeout = window.setTimeout.bind(window);
{
  const realClear = window.clearTimeout.bind(window);
  const timers = new Map();
  window.setTimeout = (act, ms = 0, ...given) => {
    const id = window.realTimeout(() => {
      timers.delete(id);
      act(...given);
    }, ms);
    timers.set(id, { ms, act: () => act(...given) });
    return id;
  };
  window.clearTimeout = (id) => {
    timers.delete(id);
    realClear(id);
  };
  /** Do now what was to be done within so many milliseconds. */
  window.pass = (within) => {
    for (const [id, { ms, act }] of [...timers]) {
      if (ms > within || !timers.has(id)) continue;
      window.clearTimeout(id);
      act();
    }
  };
  /** Counts of changes as the server has told them, in order. */
  window.heard = [];
  window.WebSocket = class extends WebSocket {
    constructor(...given) {
      super(...given);
      this.addEventListener("message", ({ data }) => {
        const { t, seq } = JSON.parse(data);
        if (["state", "step", "back"].includes(t)) window.heard.push(seq);
      });
    }
  };
}
