// What is wrong with the words on the screen now: those that do not stand in brackets, those put together from
// several texts by code (brackets beside brackets, or beside anything else), those that are cut off,
// beyond the edge, or covered by something else. Evaluated in the page with the brackets and with what people have
// written themselves; gives a list of sentences.
([opens, shuts, data]) => {
  const faults = [];
  const bare = (text) => {
    const innermost = new RegExp(`${opens}[^${opens}${shuts}]*${shuts}`, "g");
    for (let last = ""; last !== text;) [last, text] = [text, text.replace(innermost, " ")];
    for (const word of data) text = text.replaceAll(word, " ");
    return text.replace(/https?:\S+|\S*\d+\.\d+\.\d+\.\d+\S*/g, " ");
  };
  // What stands outside the outermost brackets of a text that has some; null for a part of a text in several elements.
  const outside = (text) => {
    let [depth, groups, rest] = [0, 0, ""];
    for (const sign of text) {
      if (sign === opens) groups += depth++ === 0;
      else if (sign === shuts && --depth < 0) return null;
      else if (!depth && sign !== shuts) rest += sign;
    }
    return depth || (groups < 2 && !rest.trim()) || !groups ? null : `${groups} texts and “${rest.trim()}”`;
  };
  const whole = (text, where) => {
    const found = outside(text);
    if (found) faults.push(`put together by code: ${where}: ${found} in ${text.trim().slice(0, 120)}`);
  };
  const said = (text, where) => {
    if (/\p{L}{2}/u.test(bare(text))) faults.push(`not from the tables: ${where}: ${bare(text).trim().slice(0, 80)} in ${text.trim().slice(0, 60)}`);
  };
  const where = (e) => `${e.tagName.toLowerCase()}${e.id ? "#" + e.id : ""}.${[...e.classList].join(".")}`;
  const shown = (e) => e.checkVisibility({ opacityProperty: true, visibilityProperty: true });
  for (const e of document.querySelectorAll("[aria-label], [title], [placeholder], [alt]")) {
    if (shown(e)) for (const name of ["aria-label", "title", "placeholder", "alt"]) for (const say of [said, whole]) say(e.getAttribute(name) ?? "", `${name} of ${where(e)}`);
  }
  said(document.title, "title");
  whole(document.title, "title");
  const heard = new Set();
  function* texts(e) {
    const inner = document.createTreeWalker(e, NodeFilter.SHOW_TEXT);
    for (let node = inner.nextNode(); node; node = inner.nextNode()) if (!node.parentElement.closest("style, .code")) yield node.data;
  }
  const walker = document.createTreeWalker(document.body ?? document.documentElement, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const e = node.parentElement;
    if (!node.data.trim() || e.closest("script, style, noscript, textarea, [data-code], .code, .print") || !shown(e)) continue;
    whole(node.data, where(e));
    // A sentence with strong words or a link in it is one text in several elements, and so is a drawing's.
    const block = e.closest("svg") ?? e.closest("p, li, h1, h2, h3, button, a, label, legend, summary, div") ?? e;
    if (!heard.has(block)) said([...texts(block)].join(" "), where(e));
    heard.add(block);
    if (e.closest(".unseen, option, svg")) continue;
    const style = getComputedStyle(e);
    if (style.overflowX !== "visible" && e.scrollWidth > e.clientWidth + 1 && !["auto", "scroll"].includes(style.overflowX)) faults.push(`cut: ${where(e)}: ${node.data.trim()}`);
    const range = document.createRange();
    range.selectNodeContents(node);
    let scrolls = false;
    for (let up = e; up; up = up.parentElement) scrolls ||= ["auto", "scroll"].includes(getComputedStyle(up).overflowX);
    boxes: for (const box of range.getClientRects()) {
      if (!scrolls && (box.left < -1 || box.right > innerWidth + 1)) faults.push(`beyond the edge: ${where(e)}: ${node.data.trim()}`);
      const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
      if (x < 0 || y < 0 || x > innerWidth || y > innerHeight) continue;
      // What is not seen covers nothing: the bar's own field lies over its words.
      const hit = document.elementsFromPoint(x, y).find((one) => getComputedStyle(one).opacity !== "0");
      for (let up = hit; up; up = up.parentElement) {
        if (getComputedStyle(up).position === "sticky" && !up.contains(e)) continue boxes;
      }
      const layer = hit?.closest("dialog, [role=dialog], .toast, .clock, .hand-bar, .hand-panel");
      if (layer && !layer.contains(e)) continue; // what is open lies over the rest
      const control = hit?.closest("button, label");
      if (control?.contains(e) || hit?.closest(".grip")) continue; // one control, whichever part of it is on top
      if (hit && !hit.contains(e) && !e.contains(hit) && hit.closest("button, a, label, p, li, h1, h2, h3, span, legend, dialog, header, footer") && !scrolledAway(e, box)) {
        faults.push(`covered by ${where(hit)}: ${where(e)}: ${node.data.trim()}`);
      }
    }
  }
  function scrolledAway(e, box) {
    for (let up = e.parentElement; up; up = up.parentElement) {
      const style = getComputedStyle(up);
      if (style.overflowY === "visible" && style.overflowX === "visible") continue;
      const inside = up.getBoundingClientRect();
      const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
      if (x < inside.left || x > inside.right || y < inside.top || y > inside.bottom) return true;
    }
    return false;
  }
  return [...new Set(faults)];
}
