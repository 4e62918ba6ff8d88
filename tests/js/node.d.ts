/** As much of Node as these tests use; all of its types would make a timer in the browser one of Node's. */

declare module "node:test" {
  export function test(name: string, act: () => unknown): void;
}
declare module "node:assert/strict" {
  const assert: {
    equal(found: unknown, wanted: unknown, message?: string): void;
    notEqual(found: unknown, other: unknown, message?: string): void;
    deepEqual(found: unknown, wanted: unknown, message?: string): void;
    throws(act: () => unknown, said: RegExp): void;
    ok(found: unknown, message?: string): asserts found;
  };
  export default assert;
}
declare module "node:fs" {
  export function readFileSync(file: string, encoding: "utf-8"): string;
}
declare module "node:url" {
  export function pathToFileURL(path: string): URL;
}
declare module "node:process" {
  const process: {
    argv: string[];
    env: Record<string, string | undefined>;
    stdin: AsyncIterable<string> & { setEncoding(encoding: "utf-8"): void };
    stdout: { write(text: string): void };
  };
  export default process;
}
