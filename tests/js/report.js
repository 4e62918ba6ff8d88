/** A reporter for Node's test runner: a line of JSON for each test of a file once it is over, and what was written. */

/** @param {AsyncIterable<{type: string, data: any}>} events */
export default async function* report(events) {
  /** @type {string[]} */
  let within = [];
  for await (const { type, data } of events) {
    if (type === "test:stdout" || type === "test:stderr") yield line({ wrote: data.message });
    if (type !== "test:pass" && type !== "test:fail") continue;
    const passed = type === "test:pass";
    if (data.nesting) {
      if (!passed) within.push(`${data.name}: ${why(data.details.error)}`);
      continue;
    }
    const left = data.skip !== undefined || data.todo !== undefined;
    yield line({ name: data.name, passed, left, why: [why(data.details.error), ...within].join("\n") });
    within = [];
  }
}

/** @param {object} found */
const line = (found) => `${JSON.stringify(found)}\n`;

/** What went wrong, and where. @param {any} error */
function why(error) {
  const cause = error?.cause ?? error;
  return cause === undefined ? "" : String(cause.stack ?? cause);
}
