/** The floor: an SVG drawn from the markings the server gives, and nothing that moves. */

/**
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("./projection.js").Projection} Projection
 */

const SVG = "http://www.w3.org/2000/svg";

/**
 * Make an SVG element.
 * @param {string} name
 * @param {Record<string, string | number>} [attributes]
 * @param {Element[]} [children]
 * @returns {SVGElement}
 */
export function svg(name, attributes = {}, children = []) {
  const made = /** @type {SVGElement} */ (document.createElementNS(SVG, name));
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  made.append(...children);
  return made;
}

/**
 * Draw the floor into `root` (an SVG as large as the court's space), replacing what was there.
 * @param {SVGElement} root
 * @param {Floor} floor
 * @param {Projection} projection
 */
export function drawCourt(root, floor, projection) {
  const [x0, y0, x1, y1] = floor.box;
  root.setAttribute("viewBox", `0 0 ${projection.width} ${projection.height}`);
  const ground = svg("rect", { class: "ground", x: x0, y: y0, width: x1 - x0, height: y1 - y0 });
  const paint = floor.marks.filter((mark) => mark.kind === "lane" || mark.fill);
  root.replaceChildren(
    svg("g", { transform: projection.matrix }, [
      ground,
      ...paint.map((mark) => svg("path", { class: `paint paint-${mark.kind}`, d: mark.d })),
      ...floor.marks.map((mark) =>
        svg("path", { class: `line line-${mark.kind}${mark.dashed ? " dashed" : ""}`, d: mark.d }),
      ),
    ]),
  );
}
