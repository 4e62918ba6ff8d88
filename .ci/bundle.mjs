/**
 * Packs what the browser gets: for each page of static/pages.json one module and one style sheet, and what pages
 * share in parts of its own, all named by their contents, into static/dist. The same sources give the same bytes.
 *
 *   node bundle.mjs           write static/dist
 *   node bundle.mjs --check   fail if static/dist is not what the sources give
 */

import { createHash } from "node:crypto";
import { mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { build, transform } from "esbuild";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const DIST = path.join(ROOT, "static/dist");
const PLACE = "/static/dist/";
/** Browsers of the last four years; nothing is rewritten for older ones. */
const TARGET = ["chrome109", "safari16", "firefox115"];
/** Pages that a coach's device keeps, to be opened without a network. */
const KEPT = ["board", "check", "page"];
/** Workers that a page starts, by the module that has a worker's address: the worker, and the address's name there. */
const WORKERS = { "ink/pencil-address": ["ink/pencil-worker", "PENCIL_WORKER"] };
const ICONS = ["quintet.svg", "apple-touch-180.png"];
/** Everything the bundle is made from, but for the script's own folder; tests/webapp/web/test_bundle.py reads the same. */
const SOURCES = ["static/js", "static/css", "static/vendor/perfect-freehand", "static/icons", "static/pages.json",
  "engine/locales/en", ".ci/bundle.mjs", ".ci/package-lock.json"];

/** @type {Record<string, {js: string[], css: string[], on_demand?: string[], early?: string}>} what is fetched on demand from the sources is in it */
const pages = JSON.parse(await readFile(path.join(ROOT, "static/pages.json"), "utf8"));

/** A page's module and style sheet are those it names, one after the other. */
const entries = {
  name: "entries",
  setup(build) {
    build.onResolve({ filter: /^page:/ }, ({ path: name }) => ({ path: name.slice(5), namespace: "page" }));
    build.onLoad({ filter: /.*/, namespace: "page" }, ({ path: name }) => {
      const [page, kind] = name.split(".");
      if (kind === "early") return { contents: `import "./${pages[page].early}.js";`, resolveDir: path.join(ROOT, "static/js") };
      const line = kind === "css" ? (each) => `@import "./${each}.css";` : (each) => `import "./${each}.js";`;
      return { contents: [...pages[page][kind], ...((kind === "css" && pages[page].on_demand) || [])].map(line).join("\n"), loader: kind, resolveDir: path.join(ROOT, "static", kind) };
    });
  },
};

/** By the file of a module that has a worker's address: what it is here. @type {Map<string, string>} */
const addresses = new Map();

/**
 * What the sources fetch when it is wanted comes with the page here: a page that is open needs nothing more from
 * the server, which may have another version by then. It does without a worker that is no longer to be had.
 */
const whole = {
  name: "whole",
  setup(build) {
    build.onLoad({ filter: /static\/js\/.*\.js$/ }, async ({ path: file }) => {
      if (file === path.join(ROOT, "static/js/device/styles.js")) return { contents: "export const wearStyle = async () => {};" };
      const worker = addresses.get(file);
      if (worker) return { contents: worker };
      const source = await readFile(file, "utf8");
      const { code } = await transform(source, { loader: "js", target: TARGET }); // without comments, which have types
      const found = [];
      const contents = code.replace(/\bimport\("(\.[^"]+)"\)/g, (_, name) => `Promise.resolve(later${found.push(name)})`);
      if (!found.length) return { contents: source };
      return { contents: found.map((name, i) => `import * as later${i + 1} from "${name}";\n`).join("") + contents };
    });
  },
};

/** @param {string | Uint8Array} content */
const digest = (content) => createHash("sha256").update(content).digest("hex");

/** @param {string} place @returns {Promise<string[]>} files, by their path from the root, in order */
async function under(place) {
  const found = await readdir(path.join(ROOT, place), { recursive: true, withFileTypes: true }).catch(() => null);
  if (!found) return [place];
  return found.filter((each) => each.isFile()).map((each) => path.relative(ROOT, path.join(each.parentPath ?? each.path, each.name)));
}

/** One name for all the sources together. */
async function sourcesDigest() {
  const files = (await Promise.all(SOURCES.map(under))).flat().sort();
  const lines = await Promise.all(files.map(async (file) => `${file} ${digest(await readFile(path.join(ROOT, file)))}\n`));
  return digest(lines.join(""));
}

/** @returns {Promise<Map<string, string | Uint8Array>>} what static/dist has to hold, by name */
async function bundle() {
  /** @type {Map<string, string | Uint8Array>} */
  const files = new Map();
  const shared = { absWorkingDir: ROOT, bundle: true, minify: true, write: false, metafile: true, outdir: "static/dist",
    entryNames: "[name]-[hash]", target: TARGET, charset: "utf8", legalComments: "none", logLevel: "warning" };
  /** @param {string[]} names @param {"js" | "css"} kind */
  const make = async (names, kind) => {
    const early = kind === "js" ? names.filter((name) => pages[name].early) : [];
    const made = await build({
      ...shared, plugins: [entries, whole],
      entryPoints: [
        ...names.map((name) => ({ in: `page:${name}.${kind}`, out: name })),
        ...early.map((name) => ({ in: `page:${name}.early`, out: `${name}-early` })),
      ],
      ...(kind === "js" ? { format: "esm", splitting: true, chunkNames: "part-[hash]" } : {}),
    });
    for (const { path: file, contents } of made.outputFiles) files.set(path.basename(file), contents);
    /** @type {Map<string, {file: string, parts: string[]}>} */
    const found = new Map();
    for (const [file, { entryPoint, imports }] of Object.entries(made.metafile.outputs)) {
      if (imports.some((each) => each.kind === "dynamic-import")) throw new Error(`${file} would be fetched late`);
      if (entryPoint) found.set(entryPoint.slice(5).replace(/\.(js|css)$/, ""), { file, parts: partsOf(file, made.metafile.outputs) });
    }
    return found;
  };
  /** @type {string[]} */
  const workers = [];
  for (const [module, [name, constant]] of Object.entries(WORKERS)) {
    const made = await build({ ...shared, entryPoints: [{ in: path.join(ROOT, `static/js/${name}.js`), out: path.basename(name) }], format: "esm" });
    const [{ path: file, contents }] = made.outputFiles;
    files.set(path.basename(file), contents);
    workers.push(PLACE + path.basename(file));
    addresses.set(path.join(ROOT, `static/js/${module}.js`), `export const ${constant} = ${JSON.stringify(workers.at(-1))};`);
  }
  const names = Object.keys(pages);
  // A phone gets one module, whatever other pages have in common with it.
  const js = new Map([...(await make(["view"], "js")), ...(await make(names.filter((name) => name !== "view"), "js"))]);
  const css = await make(names, "css");
  const at = (/** @type {string} */ file) => PLACE + path.basename(file);
  /** @type {Record<string, string>} */
  const icons = {};
  for (const name of ICONS) {
    const content = await readFile(path.join(ROOT, "static/icons", name));
    const { name: stem, ext } = path.parse(name);
    const hashed = `${stem}-${digest(content).slice(0, 8).toUpperCase()}${ext}`;
    files.set(hashed, content);
    icons[name] = PLACE + hashed;
  }
  const table = Object.fromEntries(names.map((name) => {
    const { file = "", parts = [] } = js.get(name) ?? {};
    const early = js.get(`${name}.early`);
    const begins = early ? { early: at(early.file) } : {};
    return [name, { js: at(file), ...begins, parts: parts.map(at).sort(), css: at(css.get(name)?.file ?? "") }];
  }));
  const kept = KEPT.flatMap((name) => [table[name].js, table[name].early ?? [], ...table[name].parts, table[name].css].flat());
  const all = [...files].map(([name, content]) => `${name} ${digest(content)}\n`).sort().join("");
  const manifest = {
    version: digest(all + JSON.stringify(table)).slice(0, 16), pages: table, icons, workers,
    kept: [...new Set([...kept, icons["quintet.svg"], ...workers])].sort(), sources: await sourcesDigest(),
  };
  files.set("manifest.json", `${JSON.stringify(manifest, null, 1)}\n`);
  return files;
}

/** All parts a module needs, and those they need. @param {string} file @param {any} outputs @param {Set<string>} [seen] */
function partsOf(file, outputs, seen = new Set()) {
  for (const { path: part, external } of outputs[file].imports) {
    if (external || seen.has(part)) continue;
    seen.add(part);
    partsOf(part, outputs, seen);
  }
  return [...seen];
}

const files = await bundle();
const there = await readdir(DIST).catch(() => []);
if (process.argv.includes("--check")) {
  const differs = async (/** @type {string} */ name) => {
    const content = files.get(name);
    return content === undefined || !there.includes(name) || Buffer.compare(await readFile(path.join(DIST, name)), Buffer.from(content)) !== 0;
  };
  const names = [...new Set([...files.keys(), ...there])].sort();
  const stale = (await Promise.all(names.map(async (name) => ((await differs(name)) ? [name] : [])))).flat();
  if (stale.length) {
    console.error(`static/dist is not what the sources give (${stale.join(", ")}). Build it anew: cd .ci && npm ci && npm run build`);
    process.exitCode = 1;
  }
} else {
  await mkdir(DIST, { recursive: true });
  await Promise.all(there.filter((name) => !files.has(name)).map((name) => rm(path.join(DIST, name))));
  await Promise.all([...files].map(([name, content]) => writeFile(path.join(DIST, name), content)));
}
